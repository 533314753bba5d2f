/**
 * What a sampling and analytical error (SAE) leaves of a comparison with a limit. OSHA's one-sided 95 % form.
 *
 * Source: OSHA Technical Manual, Section II chapter 1, as reproduced in Boss & Day, Air Sampling and Industrial Hygiene
 * Engineering, chapter 4 [read]; consecutive samples also NIOSH 77-173, Leidel, Busch & Lynch [memory].
 */
import { type LimitOperator, type Outcome, outcomeOfComparisons } from "../outcome.ts";
import { given, type Result, refused } from "../result.ts";
import { compensatedSum, normal } from "../statistics/index.ts";
import { addFractions, compareFractions, divideFractions, fractionFromNumber, ONE } from "./exact-fraction.ts";

/** An average of the air, low and high end in the unit of the limit; high null = open. A plain result has both ends equal. */
export interface AverageBounds {
  readonly low: number;
  readonly high: number | null;
}

export interface ErrorTerms {
  /** Above 0, in the unit of the average. */
  readonly limit: number;
  readonly operator: LimitOperator;
  /** SAE: half-width of the one-sided 95 % interval as a fraction of the limit, 0 or more. For direct-reading instruments the maker's stated error. */
  readonly samplingError: number;
}

/** The two kinds of doubt have different cures: a declaration or a sample, or a better instrument. */
export type DoubtCause = "unsampled time" | "sampling error" | "both";

export interface ErrorFinding {
  /** Y = X / L, low and high end. */
  readonly ratio: AverageBounds;
  /** Y - SAE of the low end. */
  readonly lowerLimit: number;
  /** Y + SAE of the high end; null = open. */
  readonly upperLimit: number | null;
  readonly outcome: Outcome;
  /** What the comparison would be without measurement error. */
  readonly outcomeWithoutError: Outcome;
  /** Null when decided. */
  readonly doubt: DoubtCause | null;
}

export type SamplingErrorRefusal =
  | { readonly type: "limit-not-above-nought"; readonly limit: number }
  | { readonly type: "sampling-error-negative"; readonly samplingError: number }
  | { readonly type: "not-a-number"; readonly value: number }
  | { readonly type: "low-above-high"; readonly low: number; readonly high: number };

/**
 * Lower and upper 95 % limits of one average, and what they say.
 *
 *     Y = X / L      UCL = Y_high + SAE      LCL = Y_low - SAE
 *     UCL <= 1: within      LCL > 1: exceeds      else undetermined         (operator ">="; UCL < 1, LCL >= 1)
 *
 * A logger is one sample however many readings it keeps: its seconds share one calibration, one zero and one
 * temperature, so no count of readings is taken and none divides the error. The comparison with 1 is exact in the
 * digits of X, L and SAE.
 *
 * @param bounds low and high end of the average, unit of the limit. @param terms limit, operator, SAE.
 * @example
 * ```ts
 * import { oneSample } from "./sampling-error.ts";
 * const finding = oneSample({ low: 46, high: 58 }, { limit: 50, operator: ">", samplingError: 0.1 });
 * finding.ok && [finding.value.lowerLimit, finding.value.upperLimit, finding.value.outcome]; // => [0.82, 1.26, "undetermined"]
 * const boundary = oneSample({ low: 77, high: 77 }, { limit: 100, operator: ">", samplingError: 0.23 });
 * boundary.ok && boundary.value.outcome; // => "within"
 * ```
 */
export function oneSample(bounds: AverageBounds, terms: ErrorTerms): Result<ErrorFinding, SamplingErrorRefusal> {
  const fault = faultOf(bounds, terms);
  if (fault !== null) return refused(fault);
  const { limit, operator, samplingError } = terms;
  const outcomeWith = (error: number): Outcome =>
    outcomeOfComparisons(
      compareFractions(addFractions([ratioOf(bounds.low, limit), fractionFromNumber(-error)]), ONE),
      bounds.high === null ? null : compareFractions(addFractions([ratioOf(bounds.high, limit), fractionFromNumber(error)]), ONE),
      operator,
    );
  return given(findingOf({ low: bounds.low / limit, high: bounds.high === null ? null : bounds.high / limit }, samplingError, outcomeWith));
}

export interface ConsecutiveSample {
  readonly minutes: number;
  /** In the unit of the limit. */
  readonly value: number;
  /** Which calibration it rests on: samples of one calibration share their error and count as one. */
  readonly calibration: string;
}

export interface ConsecutiveFinding {
  /** Time-weighted average over the sampled minutes, unit of the limit. */
  readonly average: number;
  /** Independent samples: groups of one calibration. */
  readonly independent: number;
  /** Half-width SAE √(Σ (T X)²) / (L Σ T), a group's T X added up first. */
  readonly exact: ErrorFinding;
  /** Half-width SAE / √n, for samples that are near equal; n independent ones. */
  readonly simple: ErrorFinding;
}

export type ConsecutiveRefusal =
  | SamplingErrorRefusal
  | { readonly type: "no-samples" }
  | { readonly type: "sample-without-length"; readonly index: number };

/**
 * Consecutive full-period samples: their errors are independent, so the half-width of the average is narrower than SAE,
 * but only across calibrations.
 *
 *     X̄ = Σ T X / Σ T      half-width = SAE √(Σ over calibrations of (Σ T X)²) / (L Σ T);   simple form: SAE / √n
 *     one calibration only: SAE, as for one sample
 *
 * @param samples minutes above 0, values of at least 0. @param terms as for one sample.
 * @example
 * ```ts
 * import { consecutiveSamples, samplingErrorFromVariation } from "./sampling-error.ts";
 * const samples = [[150, 90], [100, 140], [230, 110]].map(([minutes = 0, value = 0], index) => ({ minutes, value, calibration: String(index) }));
 * const finding = consecutiveSamples(samples, { limit: 100, operator: ">", samplingError: samplingErrorFromVariation(0.08) });
 * finding.ok && [finding.value.average, finding.value.exact.outcome]; // => [110, "exceeds"]
 * ```
 */
export function consecutiveSamples(
  samples: readonly ConsecutiveSample[],
  terms: ErrorTerms,
): Result<ConsecutiveFinding, ConsecutiveRefusal> {
  if (samples.length === 0) return refused({ type: "no-samples" });
  const withoutLength = samples.findIndex(({ minutes }) => !(minutes > 0 && Number.isFinite(minutes)));
  if (withoutLength !== -1) return refused({ type: "sample-without-length", index: withoutLength });
  const fault = samples.map(({ value }) => faultOf({ low: value, high: value }, terms)).find((found) => found !== null);
  if (fault !== undefined && fault !== null) return refused(fault);
  const minutes = sumOf(samples.map((sample) => sample.minutes));
  const doses = dosesByCalibration(samples);
  const average = sumOf(doses) / minutes;
  const { limit, samplingError } = terms;
  const spread = Math.sqrt(sumOf(doses.map((dose) => dose * dose))) / (limit * minutes);
  // What rests on one calibration is one sample, and has the half-width of one.
  const exactHalf = doses.length === 1 ? samplingError : samplingError * spread;
  return given({
    average,
    independent: doses.length,
    exact: findingByHalfWidth(average / limit, exactHalf, terms.operator),
    simple: findingByHalfWidth(average / limit, samplingError / Math.sqrt(doses.length), terms.operator),
  });
}

/**
 * SAE of a method from its total coefficient of variation: 1.645 CV_T, with the exact 95 % point of the normal
 * distribution (NIOSH 77-173 [memory]).
 *
 * @param variation CV_T as a fraction, 0 or more.
 * @example
 * ```ts
 * import { samplingErrorFromVariation } from "./sampling-error.ts";
 * samplingErrorFromVariation(0.08) > 0.1315 && samplingErrorFromVariation(0.08) < 0.1316; // => true
 * ```
 */
export const samplingErrorFromVariation = (variation: number): number => normal.quantile(0.95) * variation;

function faultOf({ low, high }: AverageBounds, { limit, samplingError }: ErrorTerms): SamplingErrorRefusal | null {
  const strange = [low, high ?? 0, limit, samplingError].find((value) => !Number.isFinite(value));
  if (strange !== undefined) return { type: "not-a-number", value: strange };
  if (limit <= 0) return { type: "limit-not-above-nought", limit };
  if (samplingError < 0) return { type: "sampling-error-negative", samplingError };
  return high !== null && low > high ? { type: "low-above-high", low, high } : null;
}

const ratioOf = (value: number, limit: number) => divideFractions(fractionFromNumber(value), fractionFromNumber(limit));

function findingByHalfWidth(ratio: number, halfWidth: number, operator: LimitOperator): ErrorFinding {
  const outcomeWith = (error: number): Outcome => outcomeOfComparisons(sideOfOne(ratio - error), sideOfOne(ratio + error), operator);
  return findingOf({ low: ratio, high: ratio }, halfWidth, outcomeWith);
}

const sideOfOne = (value: number): -1 | 0 | 1 => (value > 1 ? 1 : value < 1 ? -1 : 0);

function findingOf(ratio: AverageBounds, error: number, outcomeWith: (error: number) => Outcome): ErrorFinding {
  const outcome = outcomeWith(error);
  const outcomeWithoutError = outcomeWith(0);
  return {
    ratio,
    lowerLimit: ratio.low - error,
    upperLimit: ratio.high === null ? null : ratio.high + error,
    outcome,
    outcomeWithoutError,
    doubt: outcome === "undetermined" ? doubtOf(ratio, error, outcomeWithoutError) : null,
  };
}

/** Without error and still undetermined: the interval; without the interval's width still undetermined at either end: the error too. */
function doubtOf({ low, high }: AverageBounds, error: number, outcomeWithoutError: Outcome): DoubtCause {
  if (outcomeWithoutError !== "undetermined") return "sampling error";
  const isNearOne = (value: number): boolean => value - error <= 1 && value + error > 1;
  return error > 0 && isNearOne(low) && (high === null || isNearOne(high)) ? "both" : "unsampled time";
}

function dosesByCalibration(samples: readonly ConsecutiveSample[]): readonly number[] {
  const doses = new Map<string, number>();
  for (const { calibration, minutes, value } of samples) doses.set(calibration, (doses.get(calibration) ?? 0) + minutes * value);
  return [...doses.values()];
}

const sumOf = (numbers: readonly number[]): number => compensatedSum(numbers.length, (index) => numbers[index] as number); // below the length
