/** Mean, spread and neighbourliness of a set of numbers, to all the digits that they have. */
import { given, type Result, refused } from "../result.ts";
import { compensatedSum } from "./compensated-sum.ts";

export interface Summary {
  readonly count: number;
  readonly mean: number;
  /** With n - 1 in the divisor; null for a single number. */
  readonly standardDeviation: number | null;
  readonly least: number;
  readonly greatest: number;
  /** r1 = Σ (x_i - m)(x_i+1 - m) / Σ (x_i - m)²; null where all numbers are equal or there is only one. */
  readonly lagOneCorrelation: number | null;
}

export type SummaryRefusal = { readonly type: "no-numbers" } | { readonly type: "not-a-finite-number"; readonly index: number };

/**
 * Univariate summary.
 *
 *     m = Σ x / n        s = √( Σ (x - m)² / (n - 1) )
 *
 * In two passes with compensated sums, the second corrected by the sum of the deviations (Chan, Golub & LeVeque, The
 * American Statistician 37 (1983) 242-247; from memory). Checked against certified values of NIST StRD, univariate.
 *
 * @param numbers finite, in their order; the unit of mean and deviation is theirs.
 * @example
 * ```ts
 * import { summaryOf } from "./summary.ts";
 * const summary = summaryOf([10000001, 10000003, 10000002]);
 * summary.ok && [summary.value.mean, summary.value.standardDeviation, summary.value.lagOneCorrelation]; // => [10000002, 1, -0.5]
 * summaryOf([]).ok; // => false
 * ```
 */
export function summaryOf(numbers: ArrayLike<number>): Result<Summary, SummaryRefusal> {
  const count = numbers.length;
  if (count === 0) return refused({ type: "no-numbers" });
  const fault = firstNotFinite(numbers);
  if (fault !== null) return refused({ type: "not-a-finite-number", index: fault });
  const first = numbers[0] as number; // there is one
  // Deviations from the first number, so that a large offset takes no digits from the mean.
  const mean = first + compensatedSum(count, (index) => (numbers[index] as number) - first) / count;
  const deviation = (index: number): number => (numbers[index] as number) - mean; // every index asked for is below count
  const rest = compensatedSum(count, deviation);
  const squares = compensatedSum(count, (index) => deviation(index) ** 2) - (rest * rest) / count;
  const neighbours = compensatedSum(count - 1, (index) => deviation(index) * deviation(index + 1));
  return given({
    count,
    mean,
    standardDeviation: count > 1 ? Math.sqrt(Math.max(0, squares) / (count - 1)) : null,
    ...ends(numbers),
    lagOneCorrelation: squares > 0 ? neighbours / squares : null,
  });
}

function firstNotFinite(numbers: ArrayLike<number>): number | null {
  for (let index = 0; index < numbers.length; index++) if (!Number.isFinite(numbers[index])) return index;
  return null;
}

function ends(numbers: ArrayLike<number>): { readonly least: number; readonly greatest: number } {
  let least = Number.POSITIVE_INFINITY;
  let greatest = Number.NEGATIVE_INFINITY;
  for (let index = 0; index < numbers.length; index++) {
    const number = numbers[index] as number; // index is below the length
    if (number < least) least = number;
    if (number > greatest) greatest = number;
  }
  return { least, greatest };
}
