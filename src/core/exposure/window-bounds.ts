/** The greatest mean over windows of one length that end in a shift: both ends, and the better figure. */
import { greatestAtWord, type WindowEnds } from "./at-word.ts";
import { type SignalSums, signalSums } from "./edge-sums.ts";
import type { ExactMean } from "./exact-limit.ts";
import { type Confinement, type GreatestWindow, greatestWindow } from "./greatest-window.ts";
import { isOpenOutside, joined, type Period } from "./period.ts";
import { signalFrom } from "./signal-from.ts";
import { sampledMsBetween } from "./stretch-sums.ts";

/** Greatest sliding mean of both edges, each in its own window. */
export interface WindowBounds {
  readonly windowMs: number;
  readonly low: ExactMean;
  readonly high: ExactMean | null;
  readonly best: ExactMean | null;
  /** Window of the greatest low mean. */
  readonly from: number;
  readonly to: number;
  readonly coverage: number;
}

/**
 * Greatest mean over any window of this length that ends in the shift, both edges, found once a length.
 *
 * max F_low <= max F <= max F_high, each maximum in a window of its own; the upper one is open (null) as soon as any
 * window meets open time. A window that begins before the shift reaches into what lies there: an earlier named shift as
 * it is, readings of no named shift nought at the least and as read at the most. `best` takes readings as shown and
 * declared worst cases at their word; null where the upper end is open, and where what is in doubt could move it: bounds,
 * readings that conflict, readings of no named shift. Never refuses.
 *
 * @example
 * ```ts
 * import { meanValue } from "./exact-limit.ts";
 * import { periodOf } from "./period.ts";
 * import { windowBounds } from "./window-bounds.ts";
 * // 10 min at 30, 5 min unsampled with a worst case of 36 at any moment, 15 min at 6.
 * const signal = { decimals: 0, timing: { kind: "uneven", edges: Float64Array.of(0, 600_000, 900_000, 1_800_000) } as const, low: Int32Array.of(30, 0, 6),
 *   high: Int32Array.of(30, 36, 6), stretches: Uint8Array.of(0, 4, 0), averageOnly: [], outside: "unexposed", largest: 600 } as const;
 * const bounds = windowBounds(periodOf(signal, { from: 0, to: 1_800_000 }, { kind: "open" }), 900_000);
 * meanValue(bounds.low); // => 20
 * bounds.high && meanValue(bounds.high); // => 32
 * ```
 * Source: as `greatestWindow`; two ends apart: ours.
 */
export function windowBounds(period: Period, windowMs: number): WindowBounds {
  const known = period.windows.get(windowMs);
  if (known !== undefined) return known;
  const bounds = foundBounds(period, windowMs);
  period.windows.set(windowMs, bounds);
  return bounds;
}

/**
 * The same without readings of no named shift: what is left when somebody says who carried the instrument there. Found
 * anew each time. Never refuses.
 *
 * @example
 * ```ts
 * import { periodOf } from "./period.ts";
 * import { namedBounds, windowBounds } from "./window-bounds.ts";
 * const signal = (from: number, level: number) => ({ decimals: 0, timing: { kind: "regular", start: from, stepMs: 10, count: 1 } as const,
 *   low: Int32Array.of(0), high: Int32Array.of(level), stretches: Uint8Array.of(1), averageOnly: [], outside: "unexposed", largest: 600 }) as const;
 * const unnamed = periodOf(signal(0, 8), { from: 0, to: 10 }, { kind: "open" }, { isNamed: false });
 * const period = periodOf(signal(10, 2), { from: 10, to: 20 }, { kind: "open" }, { before: [unnamed] });
 * [windowBounds(period, 20).high?.sum, namedBounds(period, 20).high?.sum]; // => [100, 20]
 * ```
 * Source: ours.
 */
export const namedBounds = (period: Period, windowMs: number): WindowBounds =>
  foundBounds({ ...period, before: period.before.filter(({ isNamed }) => isNamed) }, windowMs);

function foundBounds(period: Period, windowMs: number): WindowBounds {
  const seen = seenByWindow(period, windowMs);
  const { sums, within } = seen;
  const { decimals } = period.signal;
  const mean = (window: GreatestWindow): ExactMean => ({ sum: window.sum, decimals, durationMs: windowMs });
  // Outside of named shifts, and around the recording, the lower edge is nought: no window there is the greatest, and none is named.
  const named = seenByWindow(period, windowMs, "named shifts");
  const low = greatestWindow(named.before.length > 0 ? named.sums.low : period.sums.low, windowMs, named.within);
  const upper =
    sums.high === null || isOpenOutside(period) ? null : sums.high === sums.low ? low : greatestWindow(sums.high, windowMs, within);
  const noughtHides = [period, ...seen.before].reduce((least, one) => Math.min(least, one.noughtHides), period.noughtHides);
  const best = upper === null ? null : greatestAtWord(sums, { low, upper, windowMs, within } satisfies WindowEnds, noughtHides);
  return {
    windowMs,
    low: mean(low),
    high: upper === null ? null : mean(upper),
    best: best === null ? null : mean(best),
    from: low.from,
    to: low.from + windowMs,
    coverage: sampledMsBetween(named.sums.signal, low.from, low.from + windowMs) / windowMs,
  };
}

export interface SeenByWindow {
  readonly sums: SignalSums;
  readonly within: Confinement;
  /** What lies before the shift and some window reaches into. */
  readonly before: readonly Period[];
}

/**
 * What windows of this length see that end in the shift: "at any time" knows no end of a shift, so a window may have
 * begun in the one before, or among readings that stand in no named shift. Each window belongs to the shift in which it
 * ends; what follows counts there. `what`: "named shifts" leaves the other readings out.
 *
 * @example
 * ```ts
 * import { greatestWindow } from "./greatest-window.ts";
 * import { periodOf } from "./period.ts";
 * import { seenByWindow } from "./window-bounds.ts";
 * const signal = (from: number, ...levels: number[]) => ({ decimals: 0, timing: { kind: "regular", start: from, stepMs: 10, count: 2 } as const,
 *   low: Int32Array.from(levels), high: null, stretches: null, averageOnly: [], outside: "unexposed", largest: 600 }) as const;
 * const first = periodOf(signal(0, 0, 8), { from: 0, to: 20 }, { kind: "open" });
 * const second = periodOf(signal(20, 8, 0), { from: 20, to: 40 }, { kind: "open" }, { before: [first] });
 * const { sums, within } = seenByWindow(second, 20);
 * [greatestWindow(second.sums.low, 20, null).sum, greatestWindow(sums.low, 20, within).sum]; // => [80, 160]
 * ```
 * Never refuses. Source: "at any time in the work day", OSHA Table Z-1-A definitions (1989 rule, reprint: docslib.org)
 * [read]; the shift in which a window ends: ours.
 */
export function seenByWindow(period: Period, windowMs: number, what: "all" | "named shifts" = "all"): SeenByWindow {
  const { around, shift, signal } = period;
  const from = shift === null ? Number.NaN : shift.from - windowMs;
  const before = shift === null ? [] : period.before.filter(({ sums, isNamed }) => sums.low.end > from && (what === "all" || isNamed));
  if (shift === null || before.length === 0) return { sums: around, within: null, before: [] };
  const parts = before.map((one) => signalFrom(one.signal, from));
  return { sums: signalSums(joined([...parts, signal])), within: { from, to: shift.to }, before };
}
