/** Shift results below a detection limit, and single averages below one. For sets of shift results only. */
import { given, type Result, refused } from "../result.ts";
import { compensatedSum, normal } from "../statistics/index.ts";
import { type LognormalSummary, logarithmsOf, lognormalSummary, type ShiftResultsRefusal } from "./shift-results.ts";

export interface CensoredResults {
  /** Results at or above the detection limit. */
  readonly detected: readonly number[];
  /** How many lay below it. */
  readonly below: number;
  /** Above 0, same unit. One limit for the whole set. */
  readonly detectionLimit: number;
}

export type CensoredRefusal =
  | ShiftResultsRefusal
  | { readonly type: "detection-limit-not-above-nought"; readonly detectionLimit: number }
  | { readonly type: "detected-below-detection-limit"; readonly value: number; readonly detectionLimit: number }
  | { readonly type: "none-below-detection" }
  | { readonly type: "not-a-count"; readonly below: number };

export interface BetaSubstitution {
  readonly count: number;
  /** What each result below detection counts for in the arithmetic mean: betaMean · L_d. */
  readonly betaMean: number;
  /** The same for the geometric mean. */
  readonly betaGeometricMean: number;
  readonly mean: number;
  readonly geometricMean: number;
  /** Null where the two means leave no room for one (AM at or below GM, which only strange sets do). */
  readonly geometricDeviation: number | null;
}

/**
 * β-substitution for one detection limit.
 *
 *     z = Φ⁻¹(k/n)    f = φ(z)/(1 - Φ(z))    s = (ȳ - ln L_d)/(f - z)    g = (1 - Φ(z - s/n))/(1 - Φ(z))
 *     β_mean = (n/k) Φ(z - s) exp(-s z + s²/2)
 *     β_GM   = exp(-((n - k) n/k) ln g - s z - ((n - k)/(2 k n)) s²)
 *     AM = (Σx + k β_mean L_d)/n    GM = exp((Σ ln x + k ln(β_GM L_d))/n)    GSD = exp(√((2n/(n - 1)) ln(AM/GM)))
 *
 * n results, k of them below L_d, ȳ the mean logarithm of the detected ones. G. H. Ganser & P. Hewett, Journal of
 * Occupational and Environmental Hygiene 7 (2010) 233-244 [formula from memory; abstract read: tried for n 5 to 100, 1 to
 * 50 % below detection, GSD 1.2 to 4]. Outside that range it still answers: `isWithinTrials` says so.
 *
 * @param results at least one detected and one below detection, none detected below the limit.
 * @example
 * ```ts
 * import { betaSubstitution } from "./detection-limit.ts";
 * const detected = [4.5, 2.0, 2.1, 5.5, 2.2, 3.0, 2.4, 2.5, 2.5, 3.5, 2.8, 2.9];
 * const found = betaSubstitution({ detected, below: 3, detectionLimit: 1.9 });
 * found.ok && Math.round(found.value.geometricMean * 1000); // => 2528
 * ```
 */
export function betaSubstitution(
  results: CensoredResults,
): Result<BetaSubstitution & { readonly isWithinTrials: boolean }, CensoredRefusal> {
  const logarithms = checkedLogarithms(results);
  if (!logarithms.ok) return logarithms;
  const { detected, below: k, detectionLimit } = results;
  const n = detected.length + k;
  const sumOfLogarithms = sumOf(logarithms.value);
  const betas = betasOf({ n, k, lift: sumOfLogarithms / detected.length - Math.log(detectionLimit) });
  const mean = (sumOf(detected) + k * betas.betaMean * detectionLimit) / n;
  const geometricMean = Math.exp((sumOfLogarithms + k * Math.log(betas.betaGeometricMean * detectionLimit)) / n);
  const geometricDeviation = mean > geometricMean ? Math.exp(Math.sqrt(((2 * n) / (n - 1)) * Math.log(mean / geometricMean))) : null;
  const isWithinTrials =
    n >= 5 && n <= 100 && k <= n / 2 && geometricDeviation !== null && geometricDeviation >= 1.2 && geometricDeviation <= 4;
  return given({ count: n, ...betas, mean, geometricMean, geometricDeviation, isWithinTrials });
}

/**
 * What stands for one result below detection in the simple substitution.
 *
 *     L_d/√2 where the GSD is below 3, L_d/2 where it is 3 or more
 *
 * R. W. Hornung & L. D. Reed, Applied Occupational and Environmental Hygiene 5 (1990) 46-51 [read, abstract; "about 3"].
 *
 * @param detectionLimit above 0. @param spread geometricDeviation of the set, at least 1.
 * @example
 * ```ts
 * import { simpleSubstitute } from "./detection-limit.ts";
 * simpleSubstitute(1, { geometricDeviation: 4 }); // => 0.5
 * simpleSubstitute(1, { geometricDeviation: 1.6 }); // => 0.7071067811865475
 * ```
 */
export const simpleSubstitute = (detectionLimit: number, { geometricDeviation }: { readonly geometricDeviation: number }): number =>
  geometricDeviation < 3 ? detectionLimit / Math.SQRT2 : detectionLimit / 2;

/**
 * Summary of a set in which every result below detection counts as one fixed value.
 *
 * @param results as for β-substitution. @param by substitute: above 0, in the unit of the results.
 * @example
 * ```ts
 * import { substitutedSummary } from "./detection-limit.ts";
 * const found = substitutedSummary({ detected: [4, 4], below: 1, detectionLimit: 2 }, { substitute: 1 });
 * found.ok && found.value.mean; // => 3
 * ```
 * Source: as `simpleSubstitute`; the sums are those of `lognormalSummary`.
 */
export function substitutedSummary(
  results: CensoredResults,
  { substitute }: { readonly substitute: number },
): Result<LognormalSummary, CensoredRefusal> {
  const checked = checkedLogarithms(results);
  return checked.ok ? lognormalSummary([...results.detected, ...Array.from({ length: results.below }, () => substitute)]) : checked;
}

/**
 * One average below the detection limit of the method: it prints as "< limit" and counts as anything from nought to it
 * [ours]. OSHA's method ID-209 for carbon monoxide loggers states its detection limits on the averaged read-out, not on single
 * readings [read], so this is never used on the rows of a recording.
 *
 * @param average and detection limit in one unit.
 * @example
 * ```ts
 * import { averageWithDetection } from "./detection-limit.ts";
 * averageWithDetection(0.4, { detectionLimit: 1.2 }); // => { low: 0, high: 1.2, isBelowDetection: true }
 * averageWithDetection(2, { detectionLimit: 1.2 }); // => { low: 2, high: 2, isBelowDetection: false }
 * ```
 */
export function averageWithDetection(
  average: number,
  { detectionLimit }: { readonly detectionLimit: number },
): { readonly low: number; readonly high: number; readonly isBelowDetection: boolean } {
  const isBelowDetection = average < detectionLimit;
  return isBelowDetection ? { low: 0, high: detectionLimit, isBelowDetection } : { low: average, high: average, isBelowDetection };
}

function checkedLogarithms({ detected, below, detectionLimit }: CensoredResults): Result<readonly number[], CensoredRefusal> {
  if (!(detectionLimit > 0 && Number.isFinite(detectionLimit)))
    return refused({ type: "detection-limit-not-above-nought", detectionLimit });
  if (!Number.isInteger(below) || below < 0) return refused({ type: "not-a-count", below });
  if (below === 0) return refused({ type: "none-below-detection" });
  const lower = detected.find((value) => value < detectionLimit);
  if (lower !== undefined) return refused({ type: "detected-below-detection-limit", value: lower, detectionLimit });
  return logarithmsOf(detected, 1);
}

/** lift: mean logarithm of the detected results above that of the detection limit. */
function betasOf({
  n,
  k,
  lift,
}: {
  readonly n: number;
  readonly k: number;
  readonly lift: number;
}): Pick<BetaSubstitution, "betaMean" | "betaGeometricMean"> {
  const z = normal.quantile(k / n);
  const s = lift / (normal.density(z) / normal.above(z) - z);
  const logarithmOfG = Math.log(normal.above(z - s / n) / normal.above(z));
  return {
    betaMean: (n / k) * normal.below(z - s) * Math.exp(-s * z + (s * s) / 2),
    betaGeometricMean: Math.exp(-(((n - k) * n) / k) * logarithmOfG - s * z - ((n - k) / (2 * k * n)) * s * s),
  };
}

const sumOf = (numbers: readonly number[]): number => compensatedSum(numbers.length, (index) => numbers[index] as number); // below the length
