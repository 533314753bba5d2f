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

/** Low, best and high in the unit of the finding. */
export function rangeOf(bounds: ExactBounds, scale: number): Range {
  return {
    low: meanValue(bounds.low) * scale,
    best: bounds.best === null ? null : meanValue(bounds.best) * scale,
    high: bounds.high === null ? null : meanValue(bounds.high) * scale,
  };
}

/** Outcome against a limit by exact comparison of whole-number sums. */
export function outcomeOfBounds(bounds: ExactBounds, terms: LimitTerms, operator: LimitOperator): Outcome {
  const compare = (mean: ExactMean): Comparison => compareMeanWithLimit(mean, terms.level);
  return outcomeOfComparisons(compare(bounds.low), bounds.high === null ? null : compare(bounds.high), operator);
}

/** A bare value, in steps, as an exact mean over one millisecond. */
export const bareValue = (steps: number, decimals: number): ExactMean => ({ sum: steps, decimals, durationMs: 1 });
