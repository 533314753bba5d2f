/** Whether a group of workers with similar exposure complies, from a few shift results; and how many to sample. */
import { given, type Result, refused } from "../result.ts";
import { lineThrough, noncentralT, normal } from "../statistics/index.ts";
import { type LognormalSummary, logarithmsOf, lognormalSummary, type ShiftResultsRefusal } from "./shift-results.ts";

export type GroupAnswer = "compliant" | "not compliant" | "no decision";

export interface ShiftResult {
  /** Full-shift average in the unit of the limit; of a result below detection the detection limit. */
  readonly value: number;
  readonly isBelowDetection: boolean;
}

export type GroupRefusal =
  | ShiftResultsRefusal
  | { readonly type: "limit-not-above-nought"; readonly limit: number }
  /** Substitute them first (`betaSubstitution`): the test takes a mean and a spread of logarithms. */
  | { readonly type: "result-below-detection"; readonly index: number }
  | { readonly type: "all-results-equal"; readonly value: number };

export interface PreliminaryFinding {
  readonly answer: GroupAnswer;
  readonly count: number;
  /** Fraction of the limit that all results had to stay below; null with fewer than 3 results. */
  readonly threshold: number | null;
  readonly greatest: number;
}

/**
 * The preliminary test of EN 689.
 *
 *     any result > L: not compliant
 *     3 results all < 0.1 L, or 4 all < 0.15 L, or 5 or more all < 0.2 L: compliant
 *     otherwise no decision: take more, at least 6 for the statistical test
 *
 * EN 689:2018, 5.5.2 [memory]. More than five results are judged by the threshold of five [ours]. A result below detection
 * counts as lying below its detection limit, and never proves an excess.
 *
 * @param results of shifts, 0 or more each. @param limit above 0, same unit.
 * @example
 * ```ts
 * import { preliminaryTest } from "./group.ts";
 * const results = [0.12, 0.05, 0.09, 0.14].map((value) => ({ value, isBelowDetection: false }));
 * const four = preliminaryTest(results, { limit: 1 });
 * four.ok && four.value.answer; // => "compliant"
 * const three = preliminaryTest(results.slice(0, 3), { limit: 1 });
 * three.ok && three.value.answer; // => "no decision"
 * ```
 */
export function preliminaryTest(
  results: readonly ShiftResult[],
  { limit }: { readonly limit: number },
): Result<PreliminaryFinding, GroupRefusal> {
  if (!(limit > 0 && Number.isFinite(limit))) return refused({ type: "limit-not-above-nought", limit });
  if (results.length === 0) return refused({ type: "too-few-results", count: 0, needed: 1 });
  const strange = results.findIndex(({ value }) => !(value >= 0 && Number.isFinite(value)));
  if (strange !== -1) return refused({ type: "result-not-above-nought", index: strange, value: (results[strange] as ShiftResult).value });
  const threshold = PRELIMINARY_THRESHOLDS[Math.min(results.length, 5)] ?? null;
  const greatest = Math.max(...results.map(({ value }) => value));
  const answer = (): GroupAnswer => {
    if (results.some(({ value, isBelowDetection }) => !isBelowDetection && value > limit)) return "not compliant";
    return threshold !== null && results.every((result) => isUnder(result, threshold * limit)) ? "compliant" : "no decision";
  };
  return given({ answer: answer(), count: results.length, threshold, greatest });
}

/** By number of results. */
const PRELIMINARY_THRESHOLDS: Readonly<Record<number, number>> = { 3: 0.1, 4: 0.15, 5: 0.2 };

/** A result that is "below its detection limit" is below the threshold also where the two are equal. */
const isUnder = ({ value, isBelowDetection }: ShiftResult, threshold: number): boolean =>
  isBelowDetection ? value <= threshold : value < threshold;

export interface StatisticalFinding extends LognormalSummary {
  readonly answer: Exclude<GroupAnswer, "no decision">;
  /** Estimate of the 95th percentile of the shifts, GM · GSD^1.6449. */
  readonly percentile95: number;
  /** UR = (ln L - ln GM)/ln GSD. */
  readonly ratio: number;
  /** U_T(n). */
  readonly factor: number;
  /** Upper 70 % confidence limit of the 95th percentile, UTL95,70: what is compared with the limit. */
  readonly upper70: number;
  /** The same with 95 % confidence, UTL95,95. */
  readonly upper95: number;
  /** Estimated share of shifts above the limit, 0 to 1. */
  readonly exceedance: number;
  /** How straight the results lie on lognormal paper: correlation of the ordered logarithms with normal scores. */
  readonly straightness: number;
}

/**
 * The statistical test of EN 689 for six or more results: compliant if, with 70 % confidence, fewer than 5 % of the
 * shifts exceed the limit.
 *
 *     UR = (ln L - ln GM)/ln GSD;   compliant if UR >= U_T(n)
 *     UTL95,70 = exp(ln GM + U_T(n) ln GSD)      exceedance = 1 - Φ(UR)
 *
 * EN 689:2018, 5.5.3 and annex F [memory]; criterion of the upper 70 % confidence limit of the 95th percentile: BOHS/NVvA
 * 2011 [read]. The shifts are taken as lognormal: look at `straightness` and at the plot (`lognormalPlot`).
 *
 * @param results six or more, above 0, none below detection. @param limit above 0.
 * @example
 * ```ts
 * import { statisticalTest } from "./group.ts";
 * const results = [1.3, 1.8, 1.2, 4.5, 2.0, 2.1, 5.5, 2.2, 3.0, 2.4, 2.5, 2.5, 3.5, 2.8, 2.9].map((value) => ({ value, isBelowDetection: false }));
 * const finding = statisticalTest(results, { limit: 5 });
 * finding.ok && finding.value.answer; // => "not compliant"
 * ```
 */
export function statisticalTest(
  results: readonly ShiftResult[],
  { limit }: { readonly limit: number },
): Result<StatisticalFinding, GroupRefusal> {
  if (!(limit > 0 && Number.isFinite(limit))) return refused({ type: "limit-not-above-nought", limit });
  if (results.length < 6) return refused({ type: "too-few-results", count: results.length, needed: 6 });
  const censored = results.findIndex((result) => result.isBelowDetection);
  if (censored !== -1) return refused({ type: "result-below-detection", index: censored });
  const values = results.map((result) => result.value);
  const summary = lognormalSummary(values);
  if (!summary.ok) return summary;
  if (values.every((value) => value === values[0])) return refused({ type: "all-results-equal", value: values[0] as number }); // there are six
  return given(testOf(summary.value, { limit, straightness: straightnessOf(values) }));
}

function testOf(
  summary: LognormalSummary,
  { limit, straightness }: { readonly limit: number; readonly straightness: number },
): StatisticalFinding {
  const { count, geometricMean, geometricDeviation } = summary;
  const centre = Math.log(geometricMean);
  const spread = Math.log(geometricDeviation);
  const ratio = (Math.log(limit) - centre) / spread;
  const factor = toleranceFactor({ count, confidence: 0.7, coverage: 0.95 });
  const factor95 = toleranceFactor({ count, confidence: 0.95, coverage: 0.95 });
  return {
    ...summary,
    answer: ratio >= factor ? "compliant" : "not compliant",
    percentile95: Math.exp(centre + normal.quantile(0.95) * spread),
    ...{ ratio, factor, straightness },
    upper70: Math.exp(centre + factor * spread),
    upper95: Math.exp(centre + factor95 * spread),
    exceedance: normal.above(ratio),
  };
}

/**
 * Factor k of a one-sided tolerance limit: mean + k s covers the share `coverage` of a normal distribution with the
 * given confidence. U_T(n) of EN 689 is the one for 95 % and confidence 70 %.
 *
 *     k = t'(confidence; n - 1, z √n) / √n,   z = Φ⁻¹(coverage),   t' the quantile of the noncentral t
 *
 * NIST/SEMATECH e-Handbook of Statistical Methods, 7.2.6.3 [memory]; EN 689:2018 table of U_T [memory, every value recomputed].
 *
 * @param terms count n from 2 to 300 000; confidence and coverage between 0 and 1.
 * @example
 * ```ts
 * import { toleranceFactor } from "./group.ts";
 * Math.round(toleranceFactor({ count: 6, confidence: 0.7, coverage: 0.95 }) * 1000); // => 2187
 * ```
 */
export function toleranceFactor({
  count,
  confidence,
  coverage,
}: {
  readonly count: number;
  readonly confidence: number;
  readonly coverage: number;
}): number {
  const root = Math.sqrt(count);
  return noncentralT({ degreesOfFreedom: count - 1, noncentrality: normal.quantile(coverage) * root }).quantile(confidence) / root;
}

export interface PlotPoint {
  /** Normal score of the plotting position (i - 3/8)/(n + 1/4), i from 1. */
  readonly score: number;
  readonly value: number;
}

/**
 * The points of a lognormal probability plot, lowest first; on a logarithmic axis a lognormal set lies on a line.
 *
 * Positions: G. Blom 1958, (i - 3/8)/(n + 1/4) [memory].
 *
 * @example
 * ```ts
 * import { lognormalPlot } from "./group.ts";
 * const points = lognormalPlot([3, 1, 2]);
 * points.ok && points.value.map((point) => point.value); // => [1, 2, 3]
 * points.ok && Math.abs(points.value[1]?.score ?? 1) < 1e-12; // => true
 * ```
 */
export function lognormalPlot(results: readonly number[]): Result<readonly PlotPoint[], ShiftResultsRefusal> {
  const checked = logarithmsOf(results, 1);
  if (!checked.ok) return checked;
  const ordered = [...results].sort((a, b) => a - b);
  return given(ordered.map((value, index) => ({ score: normal.quantile((index + 0.625) / (results.length + 0.25)), value })));
}

function straightnessOf(values: readonly number[]): number {
  const points = lognormalPlot(values);
  const line = points.ok ? lineThrough(points.value.map(({ score, value }) => ({ x: score, y: Math.log(value) }))) : points;
  if (!line.ok || line.value.determination === null) throw new Error("broken promise: results that differ make a line");
  return Math.sqrt(line.value.determination);
}

export type GroupSizeRefusal = { readonly type: "not-a-group-size"; readonly workers: number };

/**
 * How many of a group to sample so that, with 90 % certainty, at least one of the highest-exposed 10 % is among them.
 *
 * NIOSH 77-173 (Leidel, Busch & Lynch 1977), table 3.1 [memory]. Up to 7 workers: all of them. Above 50 the answer is 22,
 * which is enough for a group of any size: 0.9^22 < 0.1 [computed].
 *
 * @param workers a whole number, 1 or more.
 * @example
 * ```ts
 * import { sampleSizeForHighest } from "./group.ts";
 * [5, 8, 12, 50, 400].map((workers) => sampleSizeForHighest(workers)).map((size) => size.ok && size.value); // => [5, 7, 10, 18, 22]
 * ```
 */
export function sampleSizeForHighest(workers: number): Result<number, GroupSizeRefusal> {
  if (!Number.isInteger(workers) || workers < 1) return refused({ type: "not-a-group-size", workers });
  if (workers < 8) return given(workers);
  return given(SAMPLE_SIZES.find(({ upTo }) => workers <= upTo)?.size ?? 22);
}

const SAMPLE_SIZES: readonly { readonly upTo: number; readonly size: number }[] = [
  { upTo: 8, size: 7 },
  { upTo: 9, size: 8 },
  { upTo: 10, size: 9 },
  { upTo: 12, size: 10 },
  { upTo: 14, size: 11 },
  { upTo: 17, size: 12 },
  { upTo: 20, size: 13 },
  { upTo: 24, size: 14 },
  { upTo: 29, size: 15 },
  { upTo: 37, size: 16 },
  { upTo: 49, size: 17 },
  { upTo: 50, size: 18 },
];
