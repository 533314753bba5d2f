/** Bounds of a channel turned into what a finding shows: value, outcome, all from exact sums. */

import type { Range } from "../finding.ts";
import { type Comparison, type LimitOperator, type Outcome, outcomeOfComparisons } from "../outcome.ts";
import { compareMeanWithLimit, type ExactMean, meanValue } from "./exact-limit.ts";
import type { LimitTerms } from "./limit-terms.ts";

/** Two ends of one quantity as exact means, in steps of the channel. */
export interface ExactBounds {
  readonly low: ExactMean;
  readonly high: ExactMean | null;
  readonly best: ExactMean | null;
}

/**
 * Low, best and high in the unit of the finding: each exact mean divided once, times the conversion to that unit. Where
 * both ends are one, that is the best figure too, whatever kept it in doubt. A figure that only a declared worst case
 * lifts above the lower end is a bound and no best one.
 *
 * @example
 * ```ts
 * import { rangeOf } from "./shown-range.ts";
 * const mean = (sum: number) => ({ sum, decimals: 1, durationMs: 1000 });
 * rangeOf({ low: mean(400_000), high: null, best: null }, 1); // => { "low": 40, "best": null, "high": null }
 * rangeOf({ low: mean(400_000), high: mean(400_000), best: null }, 1); // => { "low": 40, "best": 40, "high": 40 }
 * rangeOf({ low: mean(400_000), high: mean(900_000), best: mean(900_000) }, 1); // => { "low": 40, "best": null, "high": 90 }
 * ```
 * Source: ours.
 */
export function rangeOf(bounds: ExactBounds, scale: number): Range {
  const shown = isDecided(bounds) ? bounds.low : bounds.best;
  const low = meanValue(bounds.low);
  const best = shown === null ? null : meanValue(shown);
  return {
    low: low * scale,
    best: best === null || best > low ? null : best * scale,
    high: bounds.high === null ? null : meanValue(bounds.high) * scale,
  };
}

const isDecided = ({ low, high }: ExactBounds): boolean =>
  high !== null && low.durationMs === high.durationMs && BigInt(low.sum) === BigInt(high.sum);

/**
 * Outcome against a limit by exact comparison of whole-number sums.
 *
 * @example
 * ```ts
 * import { limitTerms } from "./limit-terms.ts";
 * import { outcomeOfBounds } from "./shown-range.ts";
 * const atLimit = { sum: 28_800 * 7000, decimals: 1, durationMs: 28_800_000 };
 * const terms = limitTerms([{ value: 0.7, unit: "ppm" }], "ppm", null);
 * terms && outcomeOfBounds({ low: atLimit, high: atLimit, best: null }, terms, ">"); // => "within"
 * terms && outcomeOfBounds({ low: atLimit, high: atLimit, best: null }, terms, ">="); // => "exceeds"
 * ```
 * Source: as `outcomeOf`.
 */
export function outcomeOfBounds(bounds: ExactBounds, terms: Pick<LimitTerms, "level">, operator: LimitOperator): Outcome {
  const compare = (mean: ExactMean): Comparison => compareMeanWithLimit(mean, terms.level);
  return outcomeOfComparisons(compare(bounds.low), bounds.high === null ? null : compare(bounds.high), operator);
}

/**
 * A bare value, in steps, as an exact mean over one millisecond: ceilings are compared the way averages are.
 *
 * @example
 * ```ts
 * import { compareMeanWithLimit, limitDigits } from "./exact-limit.ts";
 * import { bareValue } from "./shown-range.ts";
 * [199, 200, 201].map((steps) => compareMeanWithLimit(bareValue(steps, 1), limitDigits(20))); // => [-1, 0, 1]
 * ```
 * Source: ours.
 */
export const bareValue = (steps: number, decimals: number): ExactMean => ({ sum: steps, decimals, durationMs: 1 });
