/**
 * Limits set against whole-number sums without rounding. A sum is steps x milliseconds, a step being 10^-decimals of
 * the unit; a limit is the decimal text of its published number.
 */
import type { Comparison } from "../outcome.ts";
import { compareSumWithLimit } from "../quantity/index.ts";
import { assert } from "../result.ts";

/** mantissa x 10^exponent, exactly the digits of a number as it prints. */
export interface LimitDigits {
  readonly mantissa: number;
  readonly exponent: number;
  readonly value: number;
}

/**
 * The digits of a limit.
 *
 * @example
 * ```ts
 * import { limitDigits } from "./exact-limit.ts";
 * limitDigits(0.7).mantissa; // => 7
 * limitDigits(1e-7).exponent; // => -7
 * limitDigits(5000).mantissa; // => 5000
 * ```
 * Refuses nothing; a limit that is not finite is a broken promise. Source: ECMAScript Number::toString gives the
 * shortest digits that read back as the same number, so published digits come back as published [common practice].
 */
export function limitDigits(value: number): LimitDigits {
  assert(Number.isFinite(value), "a limit is a finite number");
  const match = /^(-?)(\d+)(?:\.(\d+))?(?:e([+-]\d+))?$/.exec(String(value));
  assert(match !== null, "a finite number prints as decimal digits");
  const fraction = match[3] ?? "";
  return { mantissa: Number(`${match[1] ?? ""}${match[2] ?? ""}${fraction}`), exponent: Number(match[4] ?? "0") - fraction.length, value };
}

/** An average as a fraction of whole numbers: sum / (durationMs x 10^decimals). A bigint where the sum passes 2^53. */
export interface ExactMean {
  readonly sum: number | bigint;
  readonly decimals: number;
  readonly durationMs: number;
}

/**
 * Sign of `sum - limit x duration`, exactly: 28,800 readings of 0.7 ppm are at, not above, 0.7 ppm.
 *
 * `sum` in steps x ms, `decimals` of the step, `durationMs` > 0 the divisor of the average (1 for a bare reading),
 * `limit` in the unit of the channel. The doubles decide where they are clearly apart; else whole numbers do. Never
 * refuses.
 *
 * @example
 * ```ts
 * import { compareMeanWithLimit, limitDigits } from "./exact-limit.ts";
 * compareMeanWithLimit({ sum: 28800 * 7000, decimals: 1, durationMs: 28800000 }, limitDigits(0.7)); // => 0
 * compareMeanWithLimit({ sum: 28800 * 7000 + 1, decimals: 1, durationMs: 28800000 }, limitDigits(0.7)); // => 1
 * ```
 * Source: "sum > L x T rather than sum / T > L" is ours.
 */
export function compareMeanWithLimit(mean: ExactMean, limit: LimitDigits): Comparison {
  const left = Number(mean.sum);
  const right = limit.value * 10 ** mean.decimals * mean.durationMs;
  const doubt = (Math.abs(left) + Math.abs(right)) * 1e-12;
  if (left > right + doubt) return 1;
  if (left < right - doubt) return -1;
  return compareSumWithLimit({ sumStepMs: mean.sum, decimals: mean.decimals, durationMs: mean.durationMs, limit: limit.value });
}

/**
 * The average as a number in the unit of the channel, for showing: one division of whole numbers.
 *
 * @example
 * ```ts
 * import { meanValue } from "./exact-limit.ts";
 * meanValue({ sum: 28_800 * 7000, decimals: 1, durationMs: 28_800_000 }); // => 0.7
 * ```
 * Never refuses. Source: ours.
 */
export const meanValue = (mean: ExactMean): number => Number(mean.sum) / (mean.durationMs * 10 ** mean.decimals);

/**
 * Limit x window in steps x ms, for levels of sliding sums; exact where the limit is a whole number of steps.
 *
 * @example
 * ```ts
 * import { levelSum, limitDigits } from "./exact-limit.ts";
 * levelSum(limitDigits(0.7), 1, 900_000); // => 6300000
 * ```
 * Source: ours.
 */
export function levelSum(limit: LimitDigits, decimals: number, windowMs: number): number {
  const shift = limit.exponent + decimals;
  return shift >= 0 ? limit.mantissa * 10 ** shift * windowMs : (limit.mantissa * windowMs) / 10 ** -shift;
}

/**
 * Largest whole number of steps that is at or below a limit: for whole steps v, v > L exactly when v > `stepsAtMost(L)`.
 *
 * @example
 * ```ts
 * import { limitDigits, stepsAtMost, stepsAtLeast } from "./exact-limit.ts";
 * stepsAtMost(limitDigits(0.75), 1); // => 7
 * stepsAtLeast(limitDigits(0.75), 1); // => 8
 * stepsAtMost(limitDigits(20), 1); // => 200
 * ```
 * Source: ours.
 */
export function stepsAtMost(limit: LimitDigits, decimals: number): number {
  const shift = limit.exponent + decimals;
  if (shift >= 0) return limit.mantissa * 10 ** shift;
  return Math.floor(limit.mantissa / 10 ** -shift);
}

/**
 * Smallest whole number of steps that is at or above a limit: for whole steps v, v >= L exactly when v >= `stepsAtLeast(L)`.
 *
 * @example
 * ```ts
 * import { limitDigits, stepsAtLeast } from "./exact-limit.ts";
 * stepsAtLeast(limitDigits(0.71), 1); // => 8
 * stepsAtLeast(limitDigits(20), 1); // => 200
 * ```
 * Source: ours.
 */
export function stepsAtLeast(limit: LimitDigits, decimals: number): number {
  const shift = limit.exponent + decimals;
  if (shift >= 0) return limit.mantissa * 10 ** shift;
  return Math.ceil(limit.mantissa / 10 ** -shift);
}
