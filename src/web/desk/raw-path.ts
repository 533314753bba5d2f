/** The logged series as a path: every step where there is room for it, else what M4 keeps of each pixel column. */
import {
  type BlockSummaries,
  type Channel,
  type ChannelSignal,
  m4Columns,
  SEEN,
  STRETCH,
  type TwoEdgedSignal,
} from "../../core/recording/index.ts";
import { type Columns, columnPath, type Geometry, stepPath } from "./drawing.ts";
import { edgeOf, segmentAt } from "./stretches.ts";

const isDrawn = (signal: TwoEdgedSignal, segment: number): boolean =>
  // One code a segment.
  signal.stretches === null || (signal.stretches[segment] as number) <= STRETCH.bounded;

const drawnValue = (signal: TwoEdgedSignal, segment: number, unit: number): number =>
  // Within the signal. A peak of an interval bounds it from above: its upper edge is what was logged.
  isDrawn(signal, segment)
    ? ((signal.low[segment] === 0 && signal.high !== null ? drawnHigh(signal, segment) : signal.low[segment]) as number) / unit
    : Number.NaN;

const drawnHigh = (signal: TwoEdgedSignal, segment: number): number => {
  const high = signal.high?.[segment] ?? 0;
  return high === 0x7fffffff ? 0 : high;
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
  const [first, last] = [segmentAt(signal, from), Math.min(segmentAt(signal, to) + 1, signal.low.length)];
  if (last <= first) return "";
  if (last - first > columns) return columnPath(columnsOf(channel, largestGap.ms, summaries, from, to, columns), geometry);
  const [edges, values]: [number[], number[]] = [[], []];
  const [unit, scale] = [10 ** signal.decimals, columns / (to - from)];
  for (let segment = first; segment < last; segment++) {
    edges.push(geometry.left + (edgeOf(signal, segment) - from) * scale);
    values.push(drawnValue(signal, segment, unit));
  }
  edges.push(geometry.left + (edgeOf(signal, last) - from) * scale);
  return stepPath(edges, values, geometry);
};

const columnsOf = (channel: Channel, largestGapMs: number, summaries: BlockSummaries, from: number, to: number, width: number): Columns => {
  const rows = m4Columns(channel, from, to, width, largestGapMs, summaries);
  const unit = 10 ** channel.decimals;
  const values = (kept: Int32Array): Float64Array =>
    Float64Array.from(kept, (row) => (row < 0 ? Number.NaN : (channel.values[row] as number) / unit)); // a row that is kept is there
  const broken = Uint8Array.from(rows.seen, (seen) => ((seen & (SEEN.gap | SEEN.noReading)) === 0 ? 0 : 1));
  return { first: values(rows.first), last: values(rows.last), lowest: values(rows.lowest), highest: values(rows.highest), broken };
};
