/**
 * Sets of shift results: full-shift averages of workers with similar exposure, the group declared by a person. Never the
 * seconds of one logger: those are one sample.
 */
import { given, type Result, refused } from "../result.ts";
import { compensatedSum, type Summary, summaryOf } from "../statistics/index.ts";

export interface LognormalSummary {
  readonly count: number;
  /** Arithmetic mean, AM. */
  readonly mean: number;
  /** exp of the mean of the logarithms, GM. */
  readonly geometricMean: number;
  /** exp of the standard deviation (n - 1) of the logarithms, GSD. */
  readonly geometricDeviation: number;
}

export type ShiftResultsRefusal =
  | { readonly type: "too-few-results"; readonly count: number; readonly needed: number }
  /** A lognormal set has no nought and nothing negative; a result below detection is given as such. */
  | { readonly type: "result-not-above-nought"; readonly index: number; readonly value: number };

/**
 * Mean, geometric mean and geometric standard deviation of shift results.
 *
 *     AM = Σ x / n      GM = exp(mean of ln x)      GSD = exp(s of ln x), s with n - 1
 *
 * @param results at least 2, all above 0, in one unit.
 * @example
 * ```ts
 * import { lognormalSummary } from "./shift-results.ts";
 * const summary = lognormalSummary([1, 4]);
 * summary.ok && [summary.value.mean, summary.value.geometricMean]; // => [2.5, 2]
 * lognormalSummary([1, 0]).ok; // => false
 * ```
 * Source: EN 689:2018, annex on statistics [memory]; the sums are ordinary statistics.
 */
export function lognormalSummary(results: readonly number[]): Result<LognormalSummary, ShiftResultsRefusal> {
  const logarithms = logarithmsOf(results, 2);
  if (!logarithms.ok) return logarithms;
  const { mean, standardDeviation } = summaryOfLogarithms(logarithms.value);
  return given({
    count: results.length,
    mean: compensatedSum(results.length, (index) => results[index] as number) / results.length, // index is below the length
    geometricMean: Math.exp(mean),
    geometricDeviation: Math.exp(standardDeviation ?? 0),
  });
}

/**
 * The logarithms of results, refused where one is not above nought or fewer than needed are there.
 *
 * @example
 * ```ts
 * import { logarithmsOf } from "./shift-results.ts";
 * logarithmsOf([1], 1); // => { ok: true, value: [0] }
 * ```
 * Source: ours.
 */
export function logarithmsOf(results: readonly number[], needed: number): Result<readonly number[], ShiftResultsRefusal> {
  if (results.length < needed) return refused({ type: "too-few-results", count: results.length, needed });
  const index = results.findIndex((value) => !(value > 0 && Number.isFinite(value)));
  if (index !== -1) return refused({ type: "result-not-above-nought", index, value: results[index] as number }); // it was found there
  return given(results.map((value) => Math.log(value)));
}

/** Logarithms of checked results are finite, so the summary is given. */
function summaryOfLogarithms(logarithms: readonly number[]): Summary {
  const summary = summaryOf(logarithms);
  if (!summary.ok) throw new Error("broken promise: logarithms of results above nought are finite numbers");
  return summary.value;
}
