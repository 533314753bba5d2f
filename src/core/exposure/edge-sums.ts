/**
 * One edge of a signal, summed by blocks: integral up to every block's edge, lowest and highest value in each block.
 * Everything else in this room (averages, sliding windows, peaks, time above) reads these few numbers first and looks
 * at single segments only where they can matter.
 */
import { OPEN, type Timing, type TwoEdgedSignal } from "../recording/index.ts";
import { assert } from "../result.ts";
import { type Beside, BLOCK, BLOCK_BITS, type Blocks, markDiffering, sumBlocks, sumBlocksBeside } from "./block-sums.ts";

export { BLOCK, BLOCK_BITS };

export interface EdgeSums {
  readonly values: Int32Array;
  readonly timing: Timing;
  readonly count: number;
  readonly start: number;
  readonly end: number;
  readonly blocks: number;
  /** Instant of each block's first edge, and of the end; milliseconds. */
  readonly times: Float64Array;
  /** Integral from the start of the signal to each of `times`; steps x milliseconds, whole numbers. */
  readonly sums: Float64Array;
  readonly lowest: Int32Array;
  readonly highest: Int32Array;
  readonly least: number;
  readonly greatest: number;
}

/** Both edges of a signal. `high` is null where the upper edge is open somewhere; equal to `low` where they are one. */
export interface SignalSums {
  readonly signal: TwoEdgedSignal;
  readonly low: EdgeSums;
  readonly high: EdgeSums | null;
  /** The upper edge wherever it is known: open time counts as nought in its sums, and as the highest value of its block. */
  readonly upper: EdgeSums;
  /** 1 for each block in which the two edges differ; null where they are one. */
  readonly apart: Uint8Array | null;
}

/**
 * Sums of both edges of a signal. One pass: where a block's two edges are the same they are summed once. Exact because
 * the signal promises that largest x duration stays below 2^53. A signal holds at least one segment.
 *
 * @example
 * ```ts
 * import { signalSums } from "./edge-sums.ts";
 * const signal = { decimals: 0, timing: { kind: "uneven", edges: Float64Array.of(0, 10, 30) } as const, low: Int32Array.of(5, 0),
 *   high: Int32Array.of(5, 0x7fffffff), stretches: Uint8Array.of(0, 2), averageOnly: [], outside: "unexposed", largest: 600 } as const;
 * signalSums(signal).low.sums.at(-1); // => 50
 * signalSums(signal).high; // => null
 * ```
 * Source: ours (prefix sums by blocks).
 */
export function signalSums(signal: TwoEdgedSignal): SignalSums {
  const beside = signal.high === null ? null : { values: signal.high, differs: new Uint8Array(blocksOf(signal.high)) };
  const low = edgeSums(signal.low, signal.timing, signal.largest, beside);
  assert(Math.max(1, signal.largest) * (low.end - low.start) < Number.MAX_SAFE_INTEGER, "steps x milliseconds stay below 2^53");
  if (beside === null) return { signal, low, high: low, upper: low, apart: null };
  const upper = sumsOfMarked(beside, low);
  return { signal, low, upper, high: upper.greatest === OPEN ? null : upper, apart: beside.differs };
}

/**
 * Sums of the same signal with another upper edge, within `largest` steps: only blocks that change are summed anew.
 *
 * @example
 * ```ts
 * import { signalSums, withUpperEdge } from "./edge-sums.ts";
 * const signal = { decimals: 0, timing: { kind: "uneven", edges: Float64Array.of(0, 10, 30) } as const, low: Int32Array.of(5, 0),
 *   high: Int32Array.of(5, 0x7fffffff), stretches: Uint8Array.of(0, 2), averageOnly: [], outside: "unexposed", largest: 600 } as const;
 * withUpperEdge(signalSums(signal), Int32Array.of(5, 9), 600).high?.sums.at(-1); // => 230
 * ```
 * Source: ours.
 */
export function withUpperEdge({ signal, low, upper: known }: SignalSums, high: Int32Array, largest: number): SignalSums {
  assert(Math.max(1, largest) * (low.end - low.start) < Number.MAX_SAFE_INTEGER, "steps x milliseconds stay below 2^53");
  const upper = sumsBeside(high, known, new Uint8Array(low.blocks));
  const apart = new Uint8Array(low.blocks);
  for (let block = 0; block < low.blocks; block += 1) apart[block] = isApart(high, low, block) ? 1 : 0;
  return { signal: { ...signal, high, largest }, low, upper, high: upper.greatest === OPEN ? null : upper, apart };
}

function isApart(high: Int32Array, { values, count }: EdgeSums, block: number): boolean {
  const past = Math.min(count, (block + 1) * BLOCK);
  for (let i = block * BLOCK; i < past; i += 1) if (high[i] !== values[i]) return true;
  return false;
}

/**
 * Sums of one edge without open stretches: P[i+1] = P[i] + v[i] (t[i+1] - t[i]), kept at the edge of every block.
 * `largest`, where it is known, is the greatest |steps| of its values; `beside` gets its marks on the way.
 *
 * @example
 * ```ts
 * import { edgeSums } from "./edge-sums.ts";
 * const sums = edgeSums(Int32Array.of(3, -1, 4), { kind: "regular", start: 0, stepMs: 1000, count: 3 });
 * [sums.sums.at(-1), sums.least, sums.greatest, sums.end]; // => [6000, -1, 4, 3000]
 * ```
 * Source: ours.
 */
export function edgeSums(values: Int32Array, timing: Timing, largest: number = OPEN, beside: Beside | null = null): EdgeSums {
  const count = values.length;
  assert(count > 0, "a signal holds at least one segment");
  const blocks = blocksOf(values);
  const times = new Float64Array(blocks + 1);
  const { sums, lowest, highest } = blockColumns(blocks);
  sumBlocks(values, timing, { times, sums, lowest, highest }, largest, beside);
  return {
    values,
    timing,
    count,
    blocks,
    times,
    sums,
    lowest,
    highest,
    start: times[0] ?? 0,
    end: times[blocks] ?? 0,
    least: leastOf(lowest),
    greatest: greatestOf(highest),
  };
}

const blocksOf = (values: Int32Array): number => Math.ceil(values.length / BLOCK);

/** One piece of memory for the columns of an edge: 8 bytes a sum, then 4 + 4 a block. */
function blockColumns(blocks: number): Omit<Blocks, "times"> {
  const memory = new ArrayBuffer(8 * (blocks + 1) + 8 * blocks);
  const sums = new Float64Array(memory, 0, blocks + 1);
  const lowest = new Int32Array(memory, sums.byteLength, blocks);
  return { sums, lowest, highest: new Int32Array(memory, lowest.byteOffset + lowest.byteLength, blocks) };
}

/**
 * Sums of other values on the same timing; blocks whose values are the same are taken over. An open value counts as
 * nought in the sums, and as the highest of its block.
 *
 * @example
 * ```ts
 * import { edgeSums, sumsBeside } from "./edge-sums.ts";
 * const sums = edgeSums(Int32Array.of(3, 1), { kind: "regular", start: 0, stepMs: 1000, count: 2 });
 * const upper = sumsBeside(Int32Array.of(3, 0x7fffffff), sums, new Uint8Array(1));
 * [upper.sums.at(-1), upper.greatest]; // => [3000, 2147483647]
 * ```
 * `differs` gets 1 for each block that differs. Never refuses. Source: ours.
 */
export function sumsBeside(values: Int32Array, other: EdgeSums, differs: Uint8Array): EdgeSums {
  markDiffering(other.values, { values, differs });
  return sumsOfMarked({ values, differs }, other);
}

function sumsOfMarked({ values, differs }: Beside, other: EdgeSums): EdgeSums {
  const { blocks, times } = other;
  const { sums, lowest, highest } = blockColumns(blocks);
  sumBlocksBeside(values, other, { times, sums, lowest, highest }, differs);
  return { ...other, values, sums, lowest, highest, least: leastOf(lowest), greatest: greatestOf(highest) };
}

/**
 * Integral of one edge from the start of the signal to an instant: I(x) = P[i] + v[i] (x - t[i]); the value outside
 * the signal is nought. Steps x milliseconds.
 *
 * @example
 * ```ts
 * import { edgeSums, integralTo } from "./edge-sums.ts";
 * const sums = edgeSums(Int32Array.of(3, -1, 4), { kind: "regular", start: 0, stepMs: 1000, count: 3 });
 * [integralTo(sums, -5), integralTo(sums, 1500), integralTo(sums, 9000)]; // => [0, 2500, 6000]
 * ```
 * Never refuses. Source: ours.
 */
export function integralTo(sums: EdgeSums, instant: number): number {
  if (instant <= sums.start) return 0;
  if (instant >= sums.end) return sums.sums[sums.blocks] ?? 0;
  const block = blockAt(sums, instant);
  return integralInBlock(sums, block, instant);
}

/**
 * Integral over [from, to); steps x milliseconds.
 *
 * @example
 * ```ts
 * import { edgeSums, integralBetween } from "./edge-sums.ts";
 * const sums = edgeSums(Int32Array.of(3, -1, 4), { kind: "regular", start: 0, stepMs: 1000, count: 3 });
 * integralBetween(sums, 500, 2500); // => 2500
 * ```
 * Never refuses. Source: ours.
 */
export const integralBetween = (sums: EdgeSums, from: number, to: number): number => integralTo(sums, to) - integralTo(sums, from);

/**
 * The block that holds an instant within the signal; of an instant before it the first, after it the last.
 *
 * @example
 * ```ts
 * import { blockAt, edgeSums } from "./edge-sums.ts";
 * const sums = edgeSums(new Int32Array(70), { kind: "regular", start: 0, stepMs: 1000, count: 70 });
 * [blockAt(sums, 0), blockAt(sums, 32_000), blockAt(sums, 70_000)]; // => [0, 1, 2]
 * ```
 * Never refuses. Source: ours.
 */
export function blockAt(sums: EdgeSums, instant: number): number {
  const { timing, times, blocks } = sums;
  if (timing.kind === "regular") return Math.min(blocks - 1, Math.floor((instant - timing.start) / timing.stepMs / BLOCK));
  let low = 0;
  let high = blocks - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((times[middle] ?? 0) <= instant) low = middle;
    else high = middle - 1;
  }
  return low;
}

/**
 * Integral to an instant that is known to lie in this block or at its end; steps x milliseconds.
 *
 * @example
 * ```ts
 * import { edgeSums, integralInBlock } from "./edge-sums.ts";
 * const sums = edgeSums(Int32Array.of(3, -1, 4), { kind: "uneven", edges: Float64Array.of(0, 1000, 1500, 4000) });
 * integralInBlock(sums, 0, 2500); // => 6500
 * ```
 * Never refuses. Source: ours.
 */
export function integralInBlock(sums: EdgeSums, block: number, instant: number): number {
  const { timing, values } = sums;
  const first = block << BLOCK_BITS;
  const past = Math.min(sums.count, first + BLOCK);
  const known = sums.sums[block] ?? 0;
  return timing.kind === "regular"
    ? known + partialRegular(values, first, past, timing.start, timing.stepMs, instant)
    : known + partialUneven(values, timing.edges, first, past, instant);
}

/**
 * First edge of a segment, milliseconds; of the segment past the last one the end of the signal.
 *
 * @example
 * ```ts
 * import { edgeAt } from "./edge-sums.ts";
 * edgeAt({ kind: "regular", start: 500, stepMs: 1000, count: 3 }, 3); // => 3500
 * edgeAt({ kind: "uneven", edges: Float64Array.of(0, 700, 900) }, 1); // => 700
 * ```
 * Never refuses. Source: ours.
 */
export function edgeAt(timing: Timing, index: number): number {
  return timing.kind === "regular" ? timing.start + index * timing.stepMs : (timing.edges[index] ?? Number.NaN);
}

/**
 * The edges of a signal as an array; made only where a window does not fit regular steps.
 *
 * @example
 * ```ts
 * import { edgesOf } from "./edge-sums.ts";
 * [...edgesOf({ kind: "regular", start: 500, stepMs: 1000, count: 2 })]; // => [500, 1500, 2500]
 * ```
 * Never refuses. Source: ours.
 */
export function edgesOf(timing: Timing): Float64Array {
  if (timing.kind === "uneven") return timing.edges;
  const edges = new Float64Array(timing.count + 1);
  for (let i = 0; i <= timing.count; i += 1) edges[i] = timing.start + i * timing.stepMs;
  return edges;
}

/**
 * Index of the segment that holds an instant: -1 before the signal, `count` from its end on.
 *
 * @example
 * ```ts
 * import { segmentAt } from "./edge-sums.ts";
 * const timing = { kind: "uneven", edges: Float64Array.of(0, 700, 900) } as const;
 * [-1, 0, 700, 900].map((instant) => segmentAt(timing, 2, instant)); // => [-1, 0, 1, 2]
 * ```
 * Never refuses. Source: ours.
 */
export function segmentAt(timing: Timing, count: number, instant: number): number {
  if (instant < edgeAt(timing, 0)) return -1;
  if (instant >= edgeAt(timing, count)) return count;
  if (timing.kind === "regular") return Math.floor((instant - timing.start) / timing.stepMs);
  const { edges } = timing;
  let low = 0;
  let high = count - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((edges[middle] ?? 0) <= instant) low = middle;
    else high = middle - 1;
  }
  return low;
}

function partialRegular(values: Int32Array, first: number, past: number, start: number, stepMs: number, instant: number): number {
  const whole = Math.min(past - first, Math.floor((instant - start) / stepMs) - first);
  let steps = 0;
  for (let i = first; i < first + whole; i += 1) steps += values[i] as number; // i < past
  const rest = instant - (start + (first + whole) * stepMs);
  return steps * stepMs + (first + whole < past ? (values[first + whole] as number) * rest : 0);
}

function partialUneven(values: Int32Array, edges: Float64Array, first: number, past: number, instant: number): number {
  let sum = 0;
  let edge = edges[first] as number; // first < count
  for (let i = first; i < past; i += 1) {
    const next = edges[i + 1] as number; // count + 1 edges
    if (next >= instant) return sum + (values[i] as number) * (instant - edge);
    sum += (values[i] as number) * (next - edge);
    edge = next;
  }
  return sum;
}

function leastOf(values: Int32Array): number {
  let least = values[0] ?? 0;
  for (let i = 1; i < values.length; i += 1) if ((values[i] as number) < least) least = values[i] as number; // i < length
  return least;
}

function greatestOf(values: Int32Array): number {
  let greatest = values[0] ?? 0;
  for (let i = 1; i < values.length; i += 1) if ((values[i] as number) > greatest) greatest = values[i] as number; // i < length
  return greatest;
}
