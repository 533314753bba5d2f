/** Time-weighted averages over a reference period, by the rule of the regime. */
import { nextCode, OPEN, STRETCH } from "../recording/index.ts";
import { greatestAtWord } from "./at-word.ts";
import { decidingLevel } from "./break-even.ts";
import { signalSums } from "./edge-sums.ts";
import { type ExactMean, type LimitDigits, levelSum } from "./exact-limit.ts";
import { greatestWindow } from "./greatest-window.ts";
import { EIGHT_HOURS_MS, joined, type Period, restOfEightHours } from "./period.ts";
import { sampledMsBetween, stretchSums } from "./stretch-sums.ts";

/**
 * What is averaged and what it is divided by.
 *
 * - `worst-8h`: the shift over 8 h; of a longer shift the worst 8 h inside it. 29 CFR 1910.1000(d)(1)(i) [read]; worst
 *   8 h: OSHA memo of 10 Nov 1999 [read as a summary].
 * - `any-24h-over-8h`: all exposure in any 24 h as one uniform 8-h exposure. HSE EH40/2005 as reprinted in South Africa,
 *   HCS Regulations 1995, Annexure 2 [read].
 * - `shift-8-to-10h`: divided by the shift length, at least 8 h and at most 10 h; of a longer shift the worst 10 h.
 *   NIOSH Pocket Guide, definition of the REL [read]; divisor ours.
 * - `time-exposed`: over the time exposed (nitrous oxide). NIOSH Pocket Guide record 0465 [read].
 * - `whole-shift`: over the length of the shift, for a lowered limit (Brief & Scala 1975 [read as a summary]).
 */
export type ShiftRule = "worst-8h" | "any-24h-over-8h" | "shift-8-to-10h" | "time-exposed" | "whole-shift";

export interface AverageBounds {
  readonly rule: ShiftRule;
  readonly low: ExactMean;
  readonly high: ExactMean | null;
  readonly best: ExactMean | null;
  readonly window: { readonly from: number; readonly to: number };
  readonly coverage: number;
  readonly divisorMs: number;
  readonly why: string;
  /** The greatest of several averages: what holds only over the whole period serves none of them. */
  readonly isSliding: boolean;
  /** Time whose upper end is open, or rests on a declared worst case. */
  readonly unknownMs: number;
  /** Level of that time, in steps, at which the upper end reaches the limit; null where there is none. */
  readonly breakEven: (level: LimitDigits) => number | null;
}

const TEN_HOURS_MS = 36_000_000;
const DAY_MS = 86_400_000;

/**
 * The average of a period under a rule, low and high end apart.
 *
 *     E_low = (integral of the lower edge) / T_ref        E_high = (integral of the upper edge) / T_ref
 *
 * Unsampled time is nought on the low end; on the high end it stands at what was declared, and is open where nothing
 * was. "Like the sampled time" and worst cases that hold as averages serve only where the average is over the whole
 * period. `earlier` are the periods before this one, for rules that look back over a day. Never refuses.
 *
 * @example
 * ```ts
 * import { averageBounds } from "./average.ts";
 * import { limitDigits, meanValue } from "./exact-limit.ts";
 * import { periodOf } from "./period.ts";
 * // 6.5 h at 40 ppm, 1.5 h unsampled with a declared worst case of 120 ppm.
 * const signal = { decimals: 0, timing: { kind: "uneven", edges: Float64Array.of(0, 23_400_000, 28_800_000) } as const, low: Int32Array.of(40, 0),
 *   high: Int32Array.of(40, 120), stretches: Uint8Array.of(0, 4), averageOnly: [], outside: "unexposed", largest: 600 } as const;
 * const bounds = averageBounds(periodOf(signal, { from: 0, to: 28_800_000 }, { kind: "open" }), "worst-8h", []);
 * meanValue(bounds.low); // => 32.5
 * bounds.high && meanValue(bounds.high); // => 55
 * bounds.breakEven(limitDigits(50)); // => 93.33333333333333
 * ```
 * Source: 29 CFR 1910.1000(d)(1)(i) for the form [read]; two ends: ours.
 */
export function averageBounds(period: Period, rule: ShiftRule, earlier: readonly Period[]): AverageBounds {
  const lengthMs = period.stretch.lengthMs;
  switch (rule) {
    case "worst-8h":
      return lengthMs > EIGHT_HOURS_MS
        ? slidingBounds(period, rule, EIGHT_HOURS_MS, "the worst 8 h inside a longer shift")
        : wholeBounds(period, rule, EIGHT_HOURS_MS, "reference period");
    case "shift-8-to-10h":
      return lengthMs > TEN_HOURS_MS
        ? slidingBounds(period, rule, TEN_HOURS_MS, "the worst 10 h inside a longer shift")
        : wholeBounds(period, rule, Math.max(EIGHT_HOURS_MS, lengthMs), "length of the shift, at least 8 h and at most 10 h");
    case "time-exposed":
      return wholeBounds(period, rule, exposedMs(period), "time exposed");
    case "whole-shift":
      return wholeBounds(period, rule, Math.max(1, lengthMs), "length of the shift");
    case "any-24h-over-8h": {
      const near = earlier.filter((one) => one.shift !== null && period.shift !== null && one.sums.low.end > period.shift.from - DAY_MS);
      return near.length === 0 && lengthMs <= DAY_MS
        ? wholeBounds(period, rule, EIGHT_HOURS_MS, "all exposure in 24 h as one 8-h exposure")
        : dayBounds(period, near);
    }
  }
}

/** The time of a shift that nobody said was unexposed; at least a millisecond, so that it can divide. */
function exposedMs(period: Period): number {
  const { stretch } = period;
  return Math.max(1, stretch.lengthMs - (stretch.msByCode[STRETCH.declaredUnexposed] ?? 0));
}

/**
 * The average over 8 h whatever the regime: the dose of the period divided by 480 minutes, also of a longer shift.
 * Never refuses.
 *
 * @example
 * ```ts
 * import { eightHourAverage } from "./average.ts";
 * import { meanValue } from "./exact-limit.ts";
 * import { periodOf } from "./period.ts";
 * // 12 h at 5.
 * const signal = { decimals: 0, timing: { kind: "uneven", edges: Float64Array.of(0, 43_200_000) } as const, low: Int32Array.of(5),
 *   high: null, stretches: null, averageOnly: [], outside: "unexposed", largest: 600 } as const;
 * meanValue(eightHourAverage(periodOf(signal, { from: 0, to: 43_200_000 }, { kind: "open" })).low); // => 7.5
 * ```
 * Source: 29 CFR 1910.1000(d)(1)(i) [read].
 */
export const eightHourAverage = (period: Period): AverageBounds => wholeBounds(period, "any-24h-over-8h", EIGHT_HOURS_MS, "8 h");

function wholeBounds(period: Period, rule: ShiftRule, divisorMs: number, why: string): AverageBounds {
  const { stretch, sums, signal, unsampled } = period;
  const { decimals } = signal;
  const restMs = rule === "time-exposed" || rule === "whole-shift" ? 0 : restOfEightHours(period);
  const likeMs = (stretch.msByCode[STRETCH.declaredLikeSampled] ?? 0) + (unsampled.kind === "like" ? restMs : 0);
  const atWord = signal.averageOnly.reduce((sum, bound) => sum + bound.high * (bound.to - bound.from), 0);
  // A bound may speak of more time than the period holds: all of its dose can lie within, yet it closes no other time.
  const { start, end } = sums.low;
  const atWordMs = signal.averageOnly.reduce((sum, { from, to }) => sum + Math.min(to, end) - Math.max(from, start), 0);
  const restAtLevel = unsampled.kind === "level" ? restMs * unsampled.steps : 0;
  const openMs = stretch.openMs - (stretch.msByCode[STRETCH.declaredLikeSampled] ?? 0) - atWordMs;
  const closed = openMs <= 0 && (period.shift !== null || unsampled.kind !== "open");
  const total = sums.low.sums[sums.low.blocks] ?? 0;
  const knownHigh = stretch.knownHigh + atWord + restAtLevel;
  const like = { ms: likeMs, of: stretch.sampledMs };
  const high = closed ? meanWithLike(knownHigh, stretch.sampledHigh, like, decimals, divisorMs) : null;
  const best =
    high === null || stretch.best === null
      ? null
      : meanWithLike(stretch.best + atWord + restAtLevel, stretch.sampledLow, like, decimals, divisorMs);
  const worstMs = (stretch.msByCode[STRETCH.declaredWorstCase] ?? 0) + atWordMs + (restAtLevel > 0 ? restMs : 0);
  const unknownMs = openMs + worstMs + (unsampled.kind === "open" ? restMs : 0);
  const surelyHigh = stretch.knownHigh - worstCaseSum(period);
  return {
    rule,
    divisorMs,
    why,
    high,
    best,
    unknownMs,
    isSliding: false,
    low: meanWithLike(total, stretch.sampledLow, like, decimals, divisorMs) ?? { sum: total, decimals, durationMs: divisorMs },
    window: { from: sums.low.start, to: sums.low.end },
    coverage: stretch.sampledMs / (stretch.lengthMs + restMs),
    breakEven: (level) =>
      unknownMs > 0 && likeMs === 0 ? positive((levelSum(level, decimals, divisorMs) - surelyHigh) / unknownMs) : null,
  };
}

/** Integral of declared worst cases at any moment: they count as unknown when the break-even level is asked for. */
function worstCaseSum(period: Period): number {
  const { signal } = period;
  const { stretches, high, timing } = signal;
  if (stretches === null || high === null || (period.stretch.msByCode[STRETCH.declaredWorstCase] ?? 0) === 0) return 0;
  let sum = 0;
  for (let i = nextCode(stretches, STRETCH.declaredWorstCase, -1); i >= 0; i = nextCode(stretches, STRETCH.declaredWorstCase, i)) {
    const ms = timing.kind === "regular" ? timing.stepMs : (timing.edges[i + 1] as number) - (timing.edges[i] as number); // count + 1 edges
    sum += (high[i] as number) * ms; // as long as stretches
  }
  return sum;
}

const positive = (value: number): number | null => (value >= 0 ? value : null);

/**
 * (sum + mean of the sampled time x like time) / divisor, as whole numbers: numerator sum x S + sampled x U, over
 * divisor x S. Null where there is no sampled time to be like, or its sum is open.
 */
function meanWithLike(
  sum: number,
  sampled: number | null,
  like: { readonly ms: number; readonly of: number },
  decimals: number,
  divisorMs: number,
): ExactMean | null {
  if (like.ms === 0) return { sum, decimals, durationMs: divisorMs };
  if (like.of === 0 || sampled === null) return null;
  const numerator = BigInt(sum) * BigInt(like.of) + BigInt(sampled) * BigInt(like.ms);
  const denominator = BigInt(divisorMs) * BigInt(like.of);
  const divisor = greatestCommonDivisor(numerator < 0n ? -numerator : numerator, denominator);
  return { sum: numerator / divisor, decimals, durationMs: Number(denominator / divisor) };
}

function greatestCommonDivisor(a: bigint, b: bigint): bigint {
  return b === 0n ? (a === 0n ? 1n : a) : greatestCommonDivisor(b, a % b);
}

function slidingBounds(period: Period, rule: ShiftRule, windowMs: number, why: string): AverageBounds {
  const { sums, signal, shift, unsampled } = period;
  const { decimals } = signal;
  const within = { from: sums.low.start, to: sums.low.end };
  const low = greatestWindow(sums.low, windowMs, within);
  const known = sums.high !== null && (shift !== null || unsampled.kind !== "open");
  const upper = !known || sums.high === null ? null : sums.high === sums.low ? low : greatestWindow(sums.high, windowMs, within);
  const best = upper === null ? null : greatestAtWord(sums, { low, upper, windowMs, within }, period.noughtHides);
  const openMs = period.stretch.openMs;
  return {
    rule,
    why,
    low: { sum: low.sum, decimals, durationMs: windowMs },
    high: upper === null ? null : { sum: upper.sum, decimals, durationMs: windowMs },
    best: best === null ? null : { sum: best.sum, decimals, durationMs: windowMs },
    window: { from: low.from, to: low.from + windowMs },
    coverage: sampledMsBetween(signal, low.from, low.from + windowMs) / windowMs,
    divisorMs: windowMs,
    isSliding: true,
    unknownMs: openMs,
    breakEven: (level) => decidingLevel(sums, windowMs, levelSum(level, decimals, windowMs), within),
  };
}

const isOpenOverRange = ({ signal: { high, stretches } }: Period): boolean =>
  stretches?.some((code, i) => code === STRETCH.bounded && high?.[i] === OPEN) === true;

/** The 24 h that end within this shift, over 8 h; what was before the first shift is outside of any. */
function dayBounds(period: Period, earlier: readonly Period[]): AverageBounds {
  const whole = joined([...earlier, period].map((one) => one.signal));
  const sums = signalSums(whole);
  const stretch = stretchSums(sums);
  const within = { from: period.sums.low.start - DAY_MS, to: Math.max(period.sums.low.end, period.sums.low.start) };
  const low = greatestWindow(sums.low, DAY_MS, within);
  const upper = sums.high === null ? null : greatestWindow(sums.high, DAY_MS, within);
  const noughtHides = earlier.reduce((least, one) => Math.min(least, one.noughtHides), period.noughtHides);
  const best = upper === null ? null : greatestAtWord(sums, { low, upper, windowMs: DAY_MS, within }, noughtHides);
  const mean = (sum: number): ExactMean => ({ sum, decimals: whole.decimals, durationMs: EIGHT_HOURS_MS });
  const inShifts = [...earlier, period].reduce(
    (sum, one) => sum + Math.max(0, Math.min(one.sums.low.end, low.from + DAY_MS) - Math.max(one.sums.low.start, low.from)),
    0,
  );
  return {
    rule: "any-24h-over-8h",
    why: "all exposure in any 24 h as one 8-h exposure",
    low: mean(low.sum),
    high: upper === null ? null : mean(upper.sum),
    best: best === null ? null : mean(best.sum),
    window: { from: low.from, to: low.from + DAY_MS },
    coverage: sampledMsBetween(whole, low.from, low.from + DAY_MS) / Math.max(1, inShifts),
    divisorMs: EIGHT_HOURS_MS,
    isSliding: true,
    unknownMs: stretch.openMs,
    // What was over range before this shift no statement about unsampled time closes.
    breakEven: (level) =>
      earlier.some(isOpenOverRange) ? null : decidingLevel(sums, DAY_MS, levelSum(level, whole.decimals, EIGHT_HOURS_MS), within),
  };
}
