/**
 * How long each reading stands. A spot reading holds until the next one, a mean or a peak stands for the interval that
 * it closes; neither for longer than the largest gap. What nothing covers is unsampled.
 */
import type { Channel } from "./channel.ts";
import { lateRows, longestStep, onlyCommonStep } from "./largest-gap.ts";
import type { LentMemory, Pieces } from "./pieces.ts";
import { builtPieces, layOpen, layPiece, type PieceBuilder, pieceBuilder } from "./pieces.ts";
import type { RowBounds } from "./row-bounds.ts";
import type { Timing } from "./signal.ts";
import { OPEN, STRETCH } from "./signal.ts";

export interface Period {
  readonly from: number;
  readonly to: number;
}

/** Lays rows out over the period; null = from the first row (or the interval that it closes) to the last. */
export function rowLayout(
  channel: Channel,
  bounds: RowBounds,
  step: number | null,
  largestGapMs: number,
  period: Period | null,
  lent: LentMemory | null = null,
): Pieces {
  return (
    straightLayout(channel, bounds, step, largestGapMs, period) ??
    paddedLayout(channel, bounds, step, largestGapMs, period) ??
    piecewiseLayout(channel, bounds, largestGapMs, period, lent)
  );
}

/** Without gaps, and with a period that begins and ends on rows, the rows' own arrays serve; else null. */
export function straightLayout(
  channel: Channel,
  bounds: RowBounds,
  step: number | null,
  largestGapMs: number,
  period: Period | null,
): Pieces | null {
  const { times, kind } = channel;
  const count = times.length;
  if (count < 2 || (step ?? longestStep(times)) > largestGapMs) return null;
  const closes = kind !== "spot";
  if (closes && step === null && onlyCommonStep(times) !== null) return null;
  // A mean in a regular log stands for a step before its row, also the first one.
  const start = (times[0] ?? 0) - (closes && step !== null ? step : 0);
  const edges = closes && step !== null ? count + 1 : count;
  const first = period === null ? 0 : edgeNumber(times, step, start, edges, period.from);
  const last = period === null ? edges - 1 : edgeNumber(times, step, start, edges, period.to);
  if (first === null || last === null || last <= first) return null;
  const shift = closes && step === null ? 1 : 0;
  const timing: Timing =
    step === null
      ? { kind: "uneven", edges: times.subarray(first, last + 1) }
      : { kind: "regular", start: start + first * step, stepMs: step, count: last - first };
  const part = <Column extends Int32Array | Uint8Array>(column: Column): Column => {
    const found = column.subarray(first + shift, last + shift);
    return (bounds.isBorrowed ? found.slice() : found) as Column; // both keep the type
  };
  const { low, high, stretches } = bounds;
  return { timing, low: part(low), high: high === null ? null : part(high), stretches: stretches === null ? null : part(stretches) };
}

/** Cells of a regular grid may stand for time before and after the rows while they stay few. */
const MOST_PADDING = 4;

/**
 * Spot readings without gaps in a longer period, the usual shift: unsampled before the first row and from the last one
 * on. Rows are copied as a whole; a period that lies on the grid of a regular log stays regular. Else null.
 */
export function paddedLayout(
  channel: Channel,
  bounds: RowBounds,
  step: number | null,
  largestGapMs: number,
  period: Period | null,
): Pieces | null {
  const { times, kind } = channel;
  const count = times.length;
  if (period === null || kind !== "spot" || count < 2 || bounds.lastReading !== count - 1) return null;
  const [start, end] = [times[0] ?? 0, times[count - 1] ?? 0];
  if (period.from > start || period.to < end || (step ?? longestStep(times)) > largestGapMs) return null;
  const lead = step === null ? Number(period.from < start) : (start - period.from) / step;
  const tail = step === null ? Number(period.to > end) : (period.to - end) / step;
  const cells = lead + count - 1 + tail;
  if (!Number.isInteger(cells) || !Number.isInteger(lead) || cells > MOST_PADDING * count) return null;
  const high = new Int32Array(cells).fill(OPEN);
  high.set((bounds.high ?? bounds.low).subarray(0, count - 1), lead);
  const low = new Int32Array(cells);
  low.set(bounds.low.subarray(0, count - 1), lead);
  const stretches = new Uint8Array(cells).fill(STRETCH.unsampled);
  if (bounds.stretches === null) stretches.fill(STRETCH.sampled, lead, lead + count - 1);
  else stretches.set(bounds.stretches.subarray(0, count - 1), lead);
  return { timing: paddedTiming(times, step, period, cells), low, high, stretches };
}

function paddedTiming(times: Float64Array, step: number | null, period: Period, cells: number): Timing {
  if (step !== null) return { kind: "regular", start: period.from, stepMs: step, count: cells };
  const edges = new Float64Array(cells + 1);
  edges.set(times, Number(period.from < (times[0] ?? 0)));
  edges[0] = period.from;
  edges[cells] = period.to;
  return { kind: "uneven", edges };
}

function edgeNumber(times: Float64Array, step: number | null, start: number, edges: number, time: number): number | null {
  const edge = step === null ? firstRowFrom(times, time) : (time - start) / step;
  if (!Number.isInteger(edge) || edge < 0 || edge >= edges) return null;
  return step === null && times[edge] !== time ? null : edge;
}

/** First row at or after a time; the count where there is none. */
export const firstRowFrom = (times: Float64Array, time: number): number => firstFrom(times, time);

/** Index of the first at or above a number, of numbers that rise. */
function firstFrom(rising: Float64Array | Uint32Array, least: number): number {
  let low = 0;
  let high = rising.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if ((rising[middle] ?? 0) < least) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** The rows that a period meets, and those of all after which the next one is late. */
interface Rows {
  readonly first: number;
  readonly end: number;
  readonly late: Uint32Array;
  readonly largestGapMs: number;
}

/** Row by row: serves every channel and every period, and says the same as the other two where they serve. */
export function piecewiseLayout(
  channel: Channel,
  bounds: RowBounds,
  largestGapMs: number,
  period: Period | null,
  lent: LentMemory | null = null,
): Pieces {
  const { times, kind } = channel;
  const closes = kind !== "spot";
  const firstLength = closes ? (onlyCommonStep(times) ?? 0) : 0;
  const from = period?.from ?? (times[0] ?? 0) - firstLength;
  const to = period?.to ?? times[times.length - 1] ?? from;
  const first = Math.max(0, firstRowFrom(times, from) - 1);
  const end = Math.min(times.length, firstRowFrom(times, to) + 1);
  const rows = { first, end, late: lateRows(times, largestGapMs), largestGapMs };
  const builder = pieceBuilder(from, end - first + gapsBetween(rows.late, first, end) + 3, lent);
  if (closes) layClosing(builder, times, bounds, rows, firstLength, to);
  else layHolding(builder, times, bounds, rows, to);
  layOpen(builder, to);
  return builtPieces(builder);
}

function gapsBetween(late: Uint32Array, first: number, end: number): number {
  return firstFrom(late, end - 1) - firstFrom(late, first);
}

/** Shorter runs are written row by row: a copy of a column costs some rows whatever its length. */
const SHORT_RUN = 24;

function layHolding(builder: PieceBuilder, times: Float64Array, bounds: RowBounds, rows: Rows, to: number): void {
  const { low, high, stretches, lastReading } = bounds;
  const { late, first, end, largestGapMs } = rows;
  const until = Math.min(end, lastReading);
  const lastWithin = firstRowFrom(times, to) - (times[firstRowFrom(times, to)] === to ? 0 : 1);
  let nextLate = firstFrom(late, first);
  let nextOpen = -1;
  for (let row = first; row < until; row += 1) {
    if (nextOpen < row) nextOpen = firstOpen(stretches, row, until);
    if (nextOpen === row) continue;
    while (nextLate < late.length && (late[nextLate] as number) < row) nextLate += 1; // below length
    const runEnd = Math.min(nextOpen, until, lastWithin, late[nextLate] ?? until);
    if (runEnd > row && builder.edges[builder.count] === times[row]) {
      // Readings that begin where the one before ends, each until the next: nearly all of a long log.
      if (runEnd - row < SHORT_RUN) writeRun(builder, times, bounds, row, runEnd);
      else copyRun(builder, times, bounds, row, runEnd);
      row = runEnd - 1;
      continue;
    }
    const time = times[row] ?? 0;
    const stop = Math.min(times[row + 1] ?? time, time + largestGapMs, to);
    const lowest = low[row] ?? 0;
    layPiece(builder, time, stop, lowest, high === null ? lowest : (high[row] ?? 0), stretches?.[row] ?? STRETCH.sampled);
  }
}

/** First row from here on that holds no reading; the end where there is none. */
function firstOpen(stretches: Uint8Array | null, row: number, end: number): number {
  const found = stretches === null ? -1 : stretches.indexOf(STRETCH.unsampled, row);
  return found < 0 ? end : found;
}

function writeRun(builder: PieceBuilder, times: Float64Array, { low, high, stretches }: RowBounds, from: number, past: number): void {
  const { edges, low: lows, high: highs, stretches: codes } = builder;
  const upper = high ?? low;
  let at = builder.count;
  for (let row = from; row < past; row += 1) {
    lows[at] = low[row] as number; // past < length
    highs[at] = upper[row] as number; // as long as low
    if (stretches !== null) codes[at] = stretches[row] as number; // as long as low
    at += 1;
    edges[at] = times[row + 1] as number; // past <= last row
  }
  builder.count = at;
}

function copyRun(builder: PieceBuilder, times: Float64Array, { low, high, stretches }: RowBounds, from: number, past: number): void {
  const at = builder.count;
  builder.low.set(low.subarray(from, past), at);
  builder.high.set((high ?? low).subarray(from, past), at);
  if (stretches !== null) builder.stretches.set(stretches.subarray(from, past), at);
  builder.edges.set(times.subarray(from + 1, past + 1), at + 1);
  builder.count = at + past - from;
}

function layClosing(
  builder: PieceBuilder,
  times: Float64Array,
  bounds: RowBounds,
  { first, end, largestGapMs }: Rows,
  firstLength: number,
  to: number,
): void {
  const { low, high, stretches } = bounds;
  for (let row = first; row < end; row += 1) {
    const stretch = stretches === null ? STRETCH.sampled : (stretches[row] ?? 0);
    if (stretch === STRETCH.unsampled) continue;
    const time = times[row] ?? 0;
    const before = row === 0 ? time - firstLength : (times[row - 1] ?? time);
    const lowest = low[row] ?? 0;
    layPiece(
      builder,
      Math.max(before, time - largestGapMs),
      Math.min(time, to),
      lowest,
      high === null ? lowest : (high[row] ?? 0),
      stretch,
    );
  }
}
