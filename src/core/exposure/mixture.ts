/** Substances whose effects add up. Only for those that a competent person has declared additive. */
import type { LimitKind } from "../gas/index.ts";
import { type Comparison, type LimitOperator, type Outcome, outcomeOfComparisons } from "../outcome.ts";
import { given, type Result, refused } from "../result.ts";
import { addFractions, compareFractions, divideFractions, type Fraction, fractionFromNumber, ONE } from "./exact-fraction.ts";

export interface MixturePart {
  readonly gas: string;
  /** Average of the same length as the limit's, low and high end, in the unit of the limit; high null = open. */
  readonly low: number;
  readonly high: number | null;
  /** Above 0. */
  readonly limit: number;
  readonly limitKind: LimitKind;
  readonly averagingMinutes: number | null;
  /** SAE as a fraction of the limit; null = none stated. */
  readonly samplingError: number | null;
}

export interface MixtureFinding {
  /** C / L of each part, in the order given. */
  readonly ratios: readonly { readonly gas: string; readonly low: number; readonly high: number | null }[];
  /** Index: low and high end; null high = open. */
  readonly low: number;
  readonly high: number | null;
  readonly outcome: Outcome;
  /** With sampling errors; null where no part states one (then print "without measurement error"). */
  readonly withErrors: MixtureErrors | null;
}

export interface MixtureErrors {
  /** RS_t = √(Σ (R SAE)²), at the low and at the high end of the index. */
  readonly errorLow: number;
  readonly errorHigh: number | null;
  /** 1 + RS_t at the low end: an index above it exceeds. */
  readonly upperControl: number;
  /** 1 - RS_t at the high end: an index at or below it is within. Null where the high end is open. */
  readonly lowerControl: number | null;
  readonly outcome: Outcome;
  /** Parts that stated no error and were taken as exact. */
  readonly withoutError: readonly string[];
}

export type MixtureRefusal =
  | { readonly type: "no-parts" }
  | { readonly type: "not-declared-additive" }
  | { readonly type: "gas-twice"; readonly gas: string }
  /** 8-h averages go with 8-h limits, short-term with short-term, ceilings apart. */
  | { readonly type: "limits-of-different-kinds"; readonly first: string; readonly other: string }
  | { readonly type: "limit-not-above-nought"; readonly gas: string; readonly limit: number }
  | { readonly type: "not-a-level"; readonly gas: string; readonly low: number; readonly high: number | null }
  | { readonly type: "sampling-error-negative"; readonly gas: string; readonly samplingError: number };

/**
 * The index of an additive mixture.
 *
 *     index = C1/L1 + C2/L2 + … + Cn/Ln          exceeds when index > 1       29 CFR 1910.1000(d)(2)(i) [read]
 *     with sampling errors:  R = (C/L)/index;  RS_t = √(Σ (R SAE)²);
 *     index > 1 + RS_t: exceeds;  index <= 1 - RS_t: within [ours];  else undetermined     OSHA Technical Manual [memory]
 *
 * Low end from the low ends, high end from the high ends; one open part makes the high end open, and the low end may
 * still prove an excess. The comparison with 1 is exact in the digits given. For short-term limits form the sum of the
 * ratios moment by moment first and slide the window over it (`ratioSum` gives one moment): adding the separate
 * maxima overstates.
 *
 * @param parts one a substance, all of one kind of limit and one averaging time.
 * @param declared additiveBy: the person who declared the effects additive; empty is refused. operator: of the index against 1.
 * @example
 * ```ts
 * import { mixtureIndex } from "./mixture.ts";
 * const part = (gas: string, level: number, limit: number) => ({
 *   ...{ gas, low: level, high: level, limit, limitKind: "twa" as const, averagingMinutes: 480, samplingError: null },
 * });
 * const finding = mixtureIndex([part("a", 500, 1000), part("b", 45, 200), part("c", 40, 200)], { additiveBy: "hygienist", operator: ">" });
 * finding.ok && [finding.value.low, finding.value.outcome]; // => [0.925, "within"]
 * ```
 */
export function mixtureIndex(
  parts: readonly MixturePart[],
  declared: { readonly additiveBy: string; readonly operator: LimitOperator },
): Result<MixtureFinding, MixtureRefusal> {
  if (declared.additiveBy.trim() === "") return refused({ type: "not-declared-additive" });
  const fault = faultOf(parts);
  if (fault !== null) return refused(fault);
  const low = addFractions(parts.map((part) => ratio(part.low, part)));
  const highs = parts.map((part) => (part.high === null ? null : ratio(part.high, part)));
  const high = highs.every((part) => part !== null) ? addFractions(highs) : null;
  const outcome = outcomeOfComparisons(compareFractions(low, ONE), high === null ? null : compareFractions(high, ONE), declared.operator);
  const finding = { ratios: parts.map(ratiosOf), low: numberFrom(low), high: high === null ? null : numberFrom(high), outcome };
  return given({ ...finding, withErrors: withErrors(parts, finding, declared.operator) });
}

/**
 * Σ C/L of one moment, for the ratio-sum signal of a short-term mixture.
 *
 * @param levels and limits of the same order and length, limits above 0, each pair in one unit.
 * @example
 * ```ts
 * import { ratioSum } from "./mixture.ts";
 * ratioSum([{ level: 80, limit: 100 }, { level: 1, limit: 10 }]); // => 0.9
 * ```
 */
export const ratioSum = (moment: readonly { readonly level: number; readonly limit: number }[]): number =>
  numberFrom(addFractions(moment.map(({ level, limit }) => divideFractions(fractionFromNumber(level), fractionFromNumber(limit)))));

const ratio = (level: number, { limit }: MixturePart): Fraction => divideFractions(fractionFromNumber(level), fractionFromNumber(limit));

function ratiosOf({ gas, low, high, limit }: MixturePart): MixtureFinding["ratios"][number] {
  return { gas, low: low / limit, high: high === null ? null : high / limit };
}

/** Nearest double of a fraction whose parts may pass what a double holds: divided to 20 digits in whole numbers first. */
function numberFrom({ top, bottom }: Fraction): number {
  const scale = 10n ** 20n;
  return Number(`${(top * scale) / bottom}e-20`);
}

function faultOf(parts: readonly MixturePart[]): MixtureRefusal | null {
  const first = parts[0];
  if (first === undefined) return { type: "no-parts" };
  const gases = new Set<string>();
  for (const part of parts) {
    if (gases.has(part.gas)) return { type: "gas-twice", gas: part.gas };
    gases.add(part.gas);
    const fault = faultOfPart(part) ?? differenceOf(first, part);
    if (fault !== null) return fault;
  }
  return null;
}

function faultOfPart({ gas, low, high, limit, samplingError }: MixturePart): MixtureRefusal | null {
  if (!(limit > 0 && Number.isFinite(limit))) return { type: "limit-not-above-nought", gas, limit };
  if (!Number.isFinite(low) || (high !== null && !(Number.isFinite(high) && high >= low))) return { type: "not-a-level", gas, low, high };
  if (samplingError !== null && !(samplingError >= 0)) return { type: "sampling-error-negative", gas, samplingError };
  return null;
}

function differenceOf(first: MixturePart, other: MixturePart): MixtureRefusal | null {
  const terms = ({ limitKind, averagingMinutes }: MixturePart): string => `${limitKind} ${averagingMinutes ?? "instantaneous"}`;
  return terms(first) === terms(other) ? null : { type: "limits-of-different-kinds", first: terms(first), other: terms(other) };
}

function withErrors(
  parts: readonly MixturePart[],
  index: Pick<MixtureFinding, "low" | "high" | "ratios">,
  operator: LimitOperator,
): MixtureErrors | null {
  if (parts.every((part) => part.samplingError === null)) return null;
  const errorLow = combinedError(
    parts,
    index.ratios.map((part) => part.low),
    index.low,
  );
  const highs = index.ratios.map((part) => part.high);
  const errorHigh =
    index.high === null
      ? null
      : combinedError(
          parts,
          highs.map((high) => high ?? 0),
          index.high,
        );
  const upperControl = 1 + errorLow;
  const lowerControl = errorHigh === null ? null : 1 - errorHigh;
  const high = index.high === null || lowerControl === null ? null : side(index.high, lowerControl);
  return {
    ...{ errorLow, errorHigh, upperControl, lowerControl },
    outcome: outcomeOfComparisons(side(index.low, upperControl), high, operator),
    withoutError: parts.filter((part) => part.samplingError === null).map((part) => part.gas),
  };
}

function combinedError(parts: readonly MixturePart[], ratios: readonly number[], index: number): number {
  if (index === 0) return 0;
  return Math.sqrt(parts.reduce((sum, part, at) => sum + (((ratios[at] ?? 0) / index) * (part.samplingError ?? 0)) ** 2, 0));
}

const side = (value: number, control: number): Comparison => (value > control ? 1 : value < control ? -1 : 0);
