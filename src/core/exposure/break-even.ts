/** W*: how bad unmeasured time must have been for a sliding window to reach a limit. */
import { OPEN, type TwoEdgedSignal } from "../recording/index.ts";
import { edgeAt, segmentAt } from "./edge-sums.ts";
import type { Confinement } from "./greatest-window.ts";

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
