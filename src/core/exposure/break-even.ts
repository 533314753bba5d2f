/** W*: how bad unmeasured time must have been for a sliding window to reach a limit. */
import { OPEN, STRETCH, type TwoEdgedSignal } from "../recording/index.ts";
import { BLOCK, type EdgeSums, edgeAt, edgeSums, type SignalSums, segmentAt } from "./edge-sums.ts";
import { type Confinement, greatestWindow } from "./greatest-window.ts";

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
  const regions = openRegions(signal, windowMs, within);
  if (regions.length === 0) return null;
  let level = levelSum; // above any root: one open millisecond at this level reaches the limit
  for (let step = 0; step < 64; step += 1) {
    const top = topWindow(signal, windowMs, regions, level);
    if (top.open === 0) return null;
    const next = (levelSum - top.known) / top.open;
    if (next < 0) return null;
    if (!(next < level)) return level;
    level = next;
  }
  return level;
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
  if (opened === null || (intervals !== null && greatestWindow(intervals, windowMs, within).sum > levelSum)) return null;
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
  const { low, high, timing } = signal;
  const { isOpen, isWorstCase, isInterval } = differences(sums);
  if (high === null || !(isOpen || isWorstCase))
    return { opened: signal.outside === "unsampled" ? signal : null, intervals: isInterval ? sums.high : null };
  const openHigh = isWorstCase ? withWorstCasesOpen(signal, high) : high;
  const opened = { ...signal, high: openHigh };
  if (!isInterval) return { opened, intervals: null };
  const known = openHigh.slice();
  for (let i = known.indexOf(OPEN); i >= 0; i = known.indexOf(OPEN, i + 1)) known[i] = low[i] as number; // as long as high
  return { opened, intervals: edgeSums(known, timing) };
}

/** Of what kinds the differences between the two edges are; looked for only in blocks that have any. */
function differences({ signal, apart }: SignalSums): { isOpen: boolean; isWorstCase: boolean; isInterval: boolean } {
  const { low, high, stretches } = signal;
  const found = { isOpen: false, isWorstCase: false, isInterval: false };
  if (apart === null || high === null) return found;
  for (let block = apart.indexOf(1); block >= 0; block = apart.indexOf(1, block + 1)) {
    const past = Math.min(low.length, (block + 1) * BLOCK);
    for (let i = block * BLOCK; i < past; i += 1) {
      if (low[i] === high[i]) continue;
      if (stretches?.[i] === STRETCH.declaredWorstCase) found.isWorstCase = true;
      else if (high[i] === OPEN) found.isOpen = true;
      else found.isInterval = true;
    }
  }
  return found;
}

function withWorstCasesOpen({ stretches }: TwoEdgedSignal, high: Int32Array): Int32Array {
  const opened = high.slice();
  if (stretches === null) return opened;
  for (let i = stretches.indexOf(STRETCH.declaredWorstCase); i >= 0; i = stretches.indexOf(STRETCH.declaredWorstCase, i + 1))
    opened[i] = OPEN;
  return opened;
}

interface Region {
  readonly from: number;
  readonly to: number;
}

/** Starts of windows that touch open time, merged. */
function openRegions(signal: TwoEdgedSignal, windowMs: number, within: Confinement): Region[] {
  const { timing, high, low, outside } = signal;
  const start = edgeAt(timing, 0);
  const end = edgeAt(timing, low.length);
  const found: Region[] = [];
  const add = (from: number, to: number): void => {
    const clipped =
      within === null
        ? { from: from - windowMs, to }
        : { from: Math.max(from - windowMs, within.from), to: Math.min(to, within.to - windowMs) };
    const last = found.at(-1);
    if (clipped.to < clipped.from) return;
    if (last !== undefined && clipped.from <= last.to) found[found.length - 1] = { from: last.from, to: Math.max(last.to, clipped.to) };
    else found.push(clipped);
  };
  const beyond = outside === "unsampled" && within === null;
  if (beyond) add(start, start);
  if (high !== null) for (let i = high.indexOf(OPEN); i >= 0; i = high.indexOf(OPEN, i + 1)) add(edgeAt(timing, i), edgeAt(timing, i + 1));
  if (beyond) add(end, end);
  return found;
}

interface Top {
  readonly known: number;
  readonly open: number;
}

/** The window with the greatest K + W U, among windows that hold open time. */
function topWindow(signal: TwoEdgedSignal, windowMs: number, regions: readonly Region[], level: number): Top {
  let top: Top = { known: 0, open: 0 };
  let best = Number.NEGATIVE_INFINITY;
  for (const region of regions) {
    const found = topInRegion(signal, windowMs, region, level);
    const sum = found.known + found.open * level;
    if (found.open > 0 && sum > best) {
      best = sum;
      top = found;
    }
  }
  return top;
}

function topInRegion(signal: TwoEdgedSignal, windowMs: number, region: Region, level: number): Top {
  const { timing, low } = signal;
  const count = low.length;
  let near = segmentAt(timing, count, region.from);
  let far = segmentAt(timing, count, region.from + windowMs);
  let { known, open } = sumsBetween(signal, region.from, region.from + windowMs);
  let top: Top = { known, open };
  let at = region.from;
  while (at < region.to) {
    const nextNear = near < count ? edgeAt(timing, near + 1) : Number.POSITIVE_INFINITY;
    const nextFar = (far < count ? edgeAt(timing, far + 1) : Number.POSITIVE_INFINITY) - windowMs;
    const next = Math.min(nextNear, nextFar, region.to);
    const leaving = upperAt(signal, near);
    const coming = upperAt(signal, far);
    known += ((coming === OPEN ? 0 : coming) - (leaving === OPEN ? 0 : leaving)) * (next - at);
    open += ((coming === OPEN ? 1 : 0) - (leaving === OPEN ? 1 : 0)) * (next - at);
    at = next;
    if (top.open === 0 || known + open * level > top.known + top.open * level) if (open > 0) top = { known, open };
    if (at === nextNear) near += 1;
    if (at === nextFar) far += 1;
  }
  return top;
}

function sumsBetween(signal: TwoEdgedSignal, from: number, to: number): Top {
  const { timing, low } = signal;
  const count = low.length;
  let known = 0;
  let open = 0;
  let at = from;
  for (let i = segmentAt(timing, count, from); at < to; i += 1) {
    const next = Math.min(to, i < count ? edgeAt(timing, i + 1) : to);
    const upper = upperAt(signal, i);
    if (upper === OPEN) open += next - at;
    else known += upper * (next - at);
    at = next;
  }
  return { known, open };
}

function upperAt(signal: TwoEdgedSignal, index: number): number {
  if (index < 0 || index >= signal.low.length) return signal.outside === "unsampled" ? OPEN : 0;
  return (signal.high ?? signal.low)[index] as number; // within the signal
}
