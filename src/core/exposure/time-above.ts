/** How long, and when, one edge of a signal lies above a threshold. */
import { BLOCK, type EdgeSums, edgeAt, edgeSums, type SignalSums } from "./edge-sums.ts";
import { greatestWindow } from "./greatest-window.ts";

/** A half-open stretch of time, milliseconds. */
export interface Run {
  readonly from: number;
  readonly to: number;
}

/**
 * Total time above a threshold: the sum of (t[i+1] - t[i]) over all segments with v[i] > threshold. Exactly at the
 * threshold is not above. `threshold` in whole steps (`stepsAtMost` of a limit). Milliseconds.
 *
 * @example
 * ```ts
 * import { edgeSums } from "./edge-sums.ts";
 * import { timeAbove } from "./time-above.ts";
 * const sums = edgeSums(Int32Array.of(10, 80, 10, 60), { kind: "regular", start: 0, stepMs: 1000, count: 4 });
 * timeAbove(sums, 60); // => 1000
 * timeAbove(sums, 59); // => 2000
 * ```
 * Source: 29 CFR 1910.1000(b), Table Z-2 "above the acceptable ceiling" [read]; exactly at it is ours.
 */
export function timeAbove(sums: EdgeSums, threshold: number): number {
  let total = 0;
  for (let block = 0; block < sums.blocks; block += 1) total += msAbove(sums, block, threshold);
  return total;
}

/**
 * The same of both edges of a signal: where they are one they are looked at once. `upper` counts open time as above.
 *
 * @example
 * ```ts
 * import { signalSums } from "./edge-sums.ts";
 * import { timesAbove } from "./time-above.ts";
 * const signal = { decimals: 0, timing: { kind: "regular", start: 0, stepMs: 1000, count: 3 } as const, low: Int32Array.of(10, 80, 0),
 *   high: Int32Array.of(10, 80, 0x7fffffff), stretches: Uint8Array.of(0, 0, 2), averageOnly: [], outside: "unexposed", largest: 80 } as const;
 * timesAbove(signalSums(signal), 60); // => { "low": 1000, "upper": 2000 }
 * ```
 * Never refuses. Source: as `timeAbove`.
 */
export function timesAbove({ low, upper, apart }: SignalSums, threshold: number): { readonly low: number; readonly upper: number } {
  let lower = 0;
  let higher = 0;
  for (let block = 0; block < low.blocks; block += 1) {
    const ms = msAbove(low, block, threshold);
    lower += ms;
    higher += apart !== null && apart[block] === 1 ? msAbove(upper, block, threshold) : ms;
  }
  return { low: lower, upper: higher };
}

function msAbove({ values, timing, count, times, lowest, highest }: EdgeSums, block: number, threshold: number): number {
  const least = lowest[block] as number; // block < blocks, here and below
  const most = highest[block] as number;
  if (most <= threshold) return 0;
  if (least > threshold) return (times[block + 1] as number) - (times[block] as number);
  const first = block * BLOCK;
  const past = Math.min(count, first + BLOCK);
  if (timing.kind === "uneven") return lengthAbove(values, timing.edges, first, past, threshold);
  const isNear = least >= -WIDE && most < WIDE;
  return (isNear ? countAbove(values, first, past, threshold) : countWideAbove(values, first, past, threshold)) * timing.stepMs;
}

/** Values and thresholds between them that lie nearer to nought than this differ by less than 2^31. */
const WIDE = 2 ** 30;

/**
 * The maximal stretches above a threshold, in order; milliseconds.
 *
 * @example
 * ```ts
 * import { edgeSums } from "./edge-sums.ts";
 * import { runsAbove } from "./time-above.ts";
 * const sums = edgeSums(Int32Array.of(0, 30, 40, 0, 30), { kind: "regular", start: 0, stepMs: 1000, count: 5 });
 * runsAbove(sums, 20); // => [{ "from": 1000, "to": 3000 }, { "from": 4000, "to": 5000 }]
 * ```
 * Source: ours.
 */
export function runsAbove(sums: EdgeSums, threshold: number): Run[] {
  const { values, timing, count, blocks, highest } = sums;
  const runs: Run[] = [];
  let from = Number.NaN;
  for (let block = 0; block < blocks; block += 1) {
    if (Number.isNaN(from) && (highest[block] as number) <= threshold) continue; // block < blocks
    const past = Math.min(count, (block + 1) * BLOCK);
    for (let i = block * BLOCK; i < past; i += 1) {
      const above = (values[i] as number) > threshold; // i < count
      if (above === !Number.isNaN(from)) continue;
      if (above) from = edgeAt(timing, i);
      else {
        runs.push({ from, to: edgeAt(timing, i) });
        from = Number.NaN;
      }
    }
  }
  if (!Number.isNaN(from)) runs.push({ from, to: sums.end });
  return runs;
}

/**
 * Greatest total time that the runs fill within any sliding window of `windowMs`, milliseconds. "Above, yes or no" is
 * constant between edges, so the breakpoint argument of `greatestWindow` holds for it.
 *
 * @example
 * ```ts
 * import { greatestTimeWithin } from "./time-above.ts";
 * // Two stretches of 3 min that start 181 min apart, in any 3 h.
 * greatestTimeWithin([{ from: 0, to: 3 }, { from: 181, to: 184 }], 180); // => 3
 * greatestTimeWithin([{ from: 0, to: 3 }, { from: 177, to: 181 }], 180); // => 6
 * ```
 * Source: 29 CFR 1910.1000 Table Z-2, "5 min in any 3 h" [read]; sliding is ours.
 */
export function greatestTimeWithin(runs: readonly Run[], windowMs: number): number {
  if (runs.length === 0) return 0;
  const edges = new Float64Array(runs.length * 2);
  const inside = new Int32Array(runs.length * 2 - 1);
  runs.forEach((run, i) => {
    edges[2 * i] = run.from;
    edges[2 * i + 1] = run.to;
    inside[2 * i] = 1;
  });
  return greatestWindow(edgeSums(inside, { kind: "uneven", edges }), windowMs, null).sum;
}

/** In 32 bits and without a branch: threshold - value is below nought, all ones when shifted, exactly where the value is above. */
function countAbove(values: Int32Array, first: number, past: number, threshold: number): number {
  const level = threshold | 0;
  let count = 0;
  for (let i = first; i < past; i += 1) count -= (level - (values[i] as number)) >> 31; // i < count
  return count;
}

function countWideAbove(values: Int32Array, first: number, past: number, threshold: number): number {
  let count = 0;
  for (let i = first; i < past; i += 1) if ((values[i] as number) > threshold) count += 1; // i < count
  return count;
}

function lengthAbove(values: Int32Array, edges: Float64Array, first: number, past: number, threshold: number): number {
  let length = 0;
  for (let i = first; i < past; i += 1) if ((values[i] as number) > threshold) length += (edges[i + 1] as number) - (edges[i] as number); // count + 1 edges
  return length;
}
