/**
 * How long each reading stands. A spot reading holds until the next one, a mean or a peak stands for the interval that
 * it closes; neither for longer than the largest gap. What nothing covers is unsampled.
 */
import type { Channel } from "./channel.ts";
import { longestStep, onlyCommonStep } from "./largest-gap.ts";
import type { Pieces } from "./pieces.ts";
import { builtPieces, layOpen, layPiece, type PieceBuilder, pieceBuilder } from "./pieces.ts";
import type { RowBounds } from "./row-bounds.ts";
import type { Timing } from "./signal.ts";
import { OPEN, STRETCH } from "./signal.ts";

export interface Period {
  readonly from: number;
  readonly to: number;
}

/** Lays rows out over the period; null = from the first row (or the interval that it closes) to the last. */
export function rowLayout(channel: Channel, bounds: RowBounds, step: number | null, largestGapMs: number, period: Period | null): Pieces {
  return (
    straightLayout(channel, bounds, step, largestGapMs, period) ??
    paddedLayout(channel, bounds, step, largestGapMs, period) ??
    piecewiseLayout(channel, bounds, largestGapMs, period)
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
  const part = <Column extends Int32Array | Uint8Array>(column: Column | null) =>
    (column?.subarray(first + shift, last + shift) ?? null) as Column | null; // subarray keeps the type
  return { timing, low: bounds.low.subarray(first + shift, last + shift), high: part(bounds.high), stretches: part(bounds.stretches) };
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
export function firstRowFrom(times: Float64Array, time: number): number {
  let low = 0;
  let high = times.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if ((times[middle] ?? 0) < time) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Row by row: serves every channel and every period, and says the same as the other two where they serve. */
export function piecewiseLayout(channel: Channel, bounds: RowBounds, largestGapMs: number, period: Period | null): Pieces {
  const { times, kind } = channel;
  const closes = kind !== "spot";
  const firstLength = closes ? (onlyCommonStep(times) ?? 0) : 0;
  const from = period?.from ?? (times[0] ?? 0) - firstLength;
  const to = period?.to ?? times[times.length - 1] ?? from;
  const first = Math.max(0, firstRowFrom(times, from) - 1);
  const end = Math.min(times.length, firstRowFrom(times, to) + 1);
  const builder = pieceBuilder(from, end - first + gapsBetween(times, first, end, largestGapMs) + 3);
  if (closes) layClosing(builder, times, bounds, largestGapMs, firstLength, first, end, to);
  else layHolding(builder, times, bounds, largestGapMs, first, end, to);
  layOpen(builder, to);
  return builtPieces(builder);
}

function gapsBetween(times: Float64Array, first: number, end: number, largestGapMs: number): number {
  let gaps = 0;
  let before = times[first] ?? 0;
  for (let row = first + 1; row < end; row += 1) {
    const time = times[row] ?? 0;
    if (time - before > largestGapMs) gaps += 1;
    before = time;
  }
  return gaps;
}

function layHolding(
  builder: PieceBuilder,
  times: Float64Array,
  bounds: RowBounds,
  largestGapMs: number,
  first: number,
  end: number,
  to: number,
): void {
  const { low, high, stretches, lastReading } = bounds;
  const { edges } = builder;
  const until = Math.min(end, lastReading);
  let at = builder.count;
  for (let row = first; row < until; row += 1) {
    const stretch = stretches === null ? STRETCH.sampled : (stretches[row] ?? 0);
    if (stretch === STRETCH.unsampled) continue;
    const time = times[row] ?? 0;
    const latest = Math.min(time + largestGapMs, to);
    const next = times[row + 1] ?? time;
    const stop = next < latest ? next : latest;
    const lowest = low[row] ?? 0;
    const highest = high === null ? lowest : (high[row] ?? 0);
    if (edges[at] === time && stop > time) {
      // The usual case, a reading that begins where the one before ends, written out: it is all of a long log.
      builder.low[at] = lowest;
      builder.high[at] = highest;
      builder.stretches[at] = stretch;
      at += 1;
      edges[at] = stop;
    } else {
      builder.count = at;
      layPiece(builder, time, stop, lowest, highest, stretch);
      at = builder.count;
    }
  }
  builder.count = at;
}

function layClosing(
  builder: PieceBuilder,
  times: Float64Array,
  bounds: RowBounds,
  largestGapMs: number,
  firstLength: number,
  first: number,
  end: number,
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
