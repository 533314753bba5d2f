/** The logged series as a path: every step where there is room for it, else what M4 keeps of each pixel column. */
import { edgeAt, segmentAt } from "../../core/exposure/index.ts";
import {
  type BlockSummaries,
  type Channel,
  type ChannelSignal,
  m4Columns,
  OPEN,
  SEEN,
  STRETCH,
  type TwoEdgedSignal,
} from "../../core/recording/index.ts";
import { type Columns, columnPath, type Geometry, stepPath } from "./drawing.ts";

const isDrawn = (signal: TwoEdgedSignal, segment: number): boolean =>
  // One code a segment.
  signal.stretches === null || (signal.stretches[segment] as number) <= STRETCH.bounded;

/**
 * What was logged, NaN where no figure was. A peak of an interval bounds it from above: its upper edge was logged. Out
 * of a range whose top nobody knows no figure was: a line at nought would say that there was one.
 */
const drawnValue = (signal: TwoEdgedSignal, segment: number, unit: number): number => {
  if (!isDrawn(signal, segment)) return Number.NaN;
  const low = signal.low[segment] as number; // within the signal
  const high = signal.high === null ? low : (signal.high[segment] as number); // as above
  if (low !== 0) return low / unit;
  return high === OPEN ? Number.NaN : high / unit;
};

export interface DrawnChannel {
  readonly channel: Channel;
  readonly signal: ChannelSignal;
  readonly summaries: BlockSummaries;
}

export const rawPath = (
  { channel, signal: { signal, largestGap }, summaries }: DrawnChannel,
  from: number,
  to: number,
  columns: number,
  geometry: Geometry,
): string => {
  const { timing, low } = signal;
  const [first, last] = [Math.max(segmentAt(timing, low.length, from), 0), Math.min(segmentAt(timing, low.length, to) + 1, low.length)];
  if (last <= first) return "";
  if (last - first > columns) return densePath({ channel, summaries, largestGapMs: largestGap.ms }, from, to, columns, geometry);
  const [edges, values]: [number[], number[]] = [[], []];
  const [unit, scale] = [10 ** signal.decimals, columns / (to - from)];
  for (let segment = first; segment < last; segment++) {
    edges.push(geometry.left + (edgeAt(timing, segment) - from) * scale);
    values.push(drawnValue(signal, segment, unit));
  }
  edges.push(geometry.left + (edgeAt(timing, last) - from) * scale);
  return stepPath(edges, values, geometry);
};

/** Columns that the channel's rows can fall into; the drawing reaches beyond a recording on either side. */
const filledColumns = ({ times }: Channel, from: number, to: number, width: number): readonly [number, number] => {
  const perMs = width / (to - from);
  const of = (row: number): number => Math.floor(((times[row] as number) - from) * perMs); // the channel has rows
  return [Math.max(0, of(0) - 1), Math.min(width, of(times.length - 1) + 2)];
};

/** Values by column from rows by column; NaN where there is no row. */
const valuesOf = (rows: Int32Array, values: Int32Array, unit: number): Float64Array => {
  const found = new Float64Array(rows.length);
  for (let column = 0; column < rows.length; column++) {
    const row = rows[column] as number; // one a column
    found[column] = row < 0 ? Number.NaN : (values[row] as number) / unit; // a row that is kept is there
  }
  return found;
};

interface DenseRows {
  readonly channel: Channel;
  readonly summaries: BlockSummaries;
  readonly largestGapMs: number;
}

const densePath = (
  { channel, summaries, largestGapMs }: DenseRows,
  from: number,
  to: number,
  columns: number,
  geometry: Geometry,
): string => {
  const [first, last] = filledColumns(channel, from, to, columns);
  const at = (column: number): number => from + (column * (to - from)) / columns;
  const rows = m4Columns(channel, at(first), at(last), last - first, largestGapMs, summaries);
  return columnPath(columnsOf(channel, rows), { ...geometry, left: geometry.left + first });
};

const columnsOf = (channel: Channel, rows: ReturnType<typeof m4Columns>): Columns => {
  const unit = 10 ** channel.decimals;
  const values = (kept: Int32Array): Float64Array => valuesOf(kept, channel.values, unit);
  // Rows that were over range without a figure are no row that a column keeps: the line ends there, as it does in a gap.
  const unfigured = (column: number): number => ((rows.first[column] as number) < 0 ? SEEN.overRange : 0); // one a column
  const broken = rows.seen.map((seen, column) => ((seen & (SEEN.gap | SEEN.noReading | unfigured(column))) === 0 ? 0 : 1));
  return { first: values(rows.first), last: values(rows.last), lowest: values(rows.lowest), highest: values(rows.highest), broken };
};
