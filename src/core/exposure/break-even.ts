/** W*: how bad unmeasured time must have been for a sliding window to reach a limit. */
import { nextCode, nextLevel, OPEN, STRETCH, type TwoEdgedSignal } from "../recording/index.ts";
import { BLOCK, type EdgeSums, type SignalSums, sumsBeside } from "./edge-sums.ts";
import { type Confinement, isWindowAbove } from "./greatest-window.ts";
import { openWindows } from "./open-windows.ts";

/**
 * The least constant level W in open time (high edge open, and outside the signal where that is unsampled) at which
 * some window of `windowMs` reaches `levelSum` (limit x window, steps x ms): the root of
 *
 *     max over s of (K(s) + W U(s)) = L w          K: known part of the upper edge, U: open time in the window
 *
 * found by Newton's steps from above on this convex, piecewise-linear function (Dinkelbach's method for ratios), each
 * step walking only windows that touch open time. In steps; null where nothing is open or the limit is passed already.
 *
 * @example
 * ```ts
 * import { breakEvenLevel } from "./break-even.ts";
 * // 10 min at 30 ppm, then nothing known for 5 min, then 6 ppm; 15-min limit 25: the gap needs a mean of 15 ppm.
 * const signal = { decimals: 0, timing: { kind: "uneven", edges: Float64Array.of(0, 600000, 900000, 1800000) } as const,
 *   low: Int32Array.of(30, 0, 6), high: Int32Array.of(30, 0x7fffffff, 6), stretches: Uint8Array.of(0, 2, 0),
 *   averageOnly: [], outside: "unexposed", largest: 30 } as const;
 * breakEvenLevel(signal, 900000, 25 * 900000, null); // => 15
 * ```
 * Source: W* = (L T - sum C T) / U is ours; Dinkelbach, Management Science 13 (1967) 492 [memory].
 */
export function breakEvenLevel(signal: TwoEdgedSignal, windowMs: number, levelSum: number, within: Confinement): number | null {
  const { known, open } = openWindows(signal, windowMs, within);
  if (open.length === 0) return null;
  let level = levelSum; // above any root: one open millisecond at this level reaches the limit
  for (let step = 0; step < 64; step += 1) {
    const top = topWindow(known, open, level);
    const next = (levelSum - (known[top] as number)) / (open[top] as number); // top < length
    if (next < 0) return null;
    if (!(next < level)) return level;
    level = next;
  }
  return level;
}

/** The first window with the greatest K + W U. */
function topWindow(known: readonly number[], open: readonly number[], level: number): number {
  let top = 0;
  let best = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < open.length; i += 1) {
    const sum = (known[i] as number) + (open[i] as number) * level; // i < length of both
    if (sum <= best) continue;
    best = sum;
    top = i;
  }
  return top;
}

/**
 * The level at or below which unsampled time, declared worst cases included, keeps every window at or below the limit
 * (`levelSum`: limit x window, steps x ms); steps. Null where no time is open, and where readings that are intervals
 * pass the limit by their own upper ends: then no statement about open time decides it.
 *
 * @example
 * ```ts
 * import { decidingLevel } from "./break-even.ts";
 * import { signalSums } from "./edge-sums.ts";
 * // As for `breakEvenLevel`, but someone said that the gap was at most 36 ppm.
 * const signal = { decimals: 0, timing: { kind: "uneven", edges: Float64Array.of(0, 600000, 900000, 1800000) } as const,
 *   low: Int32Array.of(30, 0, 6), high: Int32Array.of(30, 36, 6), stretches: Uint8Array.of(0, 4, 0),
 *   averageOnly: [], outside: "unexposed", largest: 36 } as const;
 * decidingLevel(signalSums(signal), 900000, 25 * 900000, null); // => 15
 * ```
 * Source: as `breakEvenLevel`.
 */
export function decidingLevel(sums: SignalSums, windowMs: number, levelSum: number, within: Confinement): number | null {
  const { opened, intervals } = openTime(sums);
  if (opened === null || (intervals !== null && isWindowAbove(intervals, windowMs, within, levelSum))) return null;
  return breakEvenLevel(opened, windowMs, levelSum, within);
}

/** What is open in a signal, and what is known beside it. */
export interface OpenTime {
  /** The signal with declared worst cases open again; null where nothing is open or was so before. */
  readonly opened: TwoEdgedSignal | null;
  /** Upper ends with open time at its lower ones; null where readings are no intervals, so that these are the lower ends. */
  readonly intervals: EdgeSums | null;
}

/** Kept for as long as the sums: every limit asks for it. */
const knownOpenTime = new WeakMap<SignalSums, OpenTime>();

export function openTime(sums: SignalSums): OpenTime {
  const known = knownOpenTime.get(sums);
  if (known !== undefined) return known;
  const made = madeOpenTime(sums);
  knownOpenTime.set(sums, made);
  return made;
}

function madeOpenTime(sums: SignalSums): OpenTime {
  const { signal } = sums;
  const { low, high } = signal;
  const { isOpen, isWorstCase, isInterval } = differences(sums);
  if (high === null || !(isOpen || isWorstCase))
    return { opened: signal.outside === "unsampled" ? signal : null, intervals: isInterval ? sums.high : null };
  const openHigh = isWorstCase ? withWorstCasesOpen(signal, high) : high;
  const opened = { ...signal, high: openHigh };
  if (!isInterval) return { opened, intervals: null };
  const known = openHigh.slice();
  for (let i = nextLevel(known, OPEN, -1); i >= 0; i = nextLevel(known, OPEN, i)) known[i] = low[i] as number; // as long as high
  return { opened, intervals: sumsBeside(known, sums.upper, new Uint8Array(sums.low.blocks)) };
}

/** Of what kinds the differences between the two edges are; looked for only in blocks that have any. */
function differences({ signal, apart }: SignalSums): { isOpen: boolean; isWorstCase: boolean; isInterval: boolean } {
  const { low, high, stretches } = signal;
  const found = { isOpen: false, isWorstCase: false, isInterval: false };
  if (apart === null || high === null) return found;
  const mayBeWorstCase = stretches?.includes(STRETCH.declaredWorstCase) === true;
  for (let block = nextCode(apart, 1, -1); block >= 0; block = nextCode(apart, 1, block)) {
    const past = Math.min(low.length, (block + 1) * BLOCK);
    for (let i = block * BLOCK; i < past; i += 1) {
      if (low[i] === high[i]) continue;
      if (stretches?.[i] === STRETCH.declaredWorstCase) found.isWorstCase = true;
      else if (high[i] === OPEN) found.isOpen = true;
      else found.isInterval = true;
    }
    if (found.isOpen && found.isInterval && (found.isWorstCase || !mayBeWorstCase)) return found;
  }
  return found;
}

function withWorstCasesOpen({ stretches }: TwoEdgedSignal, high: Int32Array): Int32Array {
  const opened = high.slice();
  if (stretches === null) return opened;
  for (let i = nextCode(stretches, STRETCH.declaredWorstCase, -1); i >= 0; i = nextCode(stretches, STRETCH.declaredWorstCase, i))
    opened[i] = OPEN;
  return opened;
}
