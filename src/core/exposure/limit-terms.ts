/** A published limit in the terms of a channel: same digits where units agree, a power of ten, or a stated conversion. */
import type { Assumption } from "../finding.ts";
import type { PublishedValue } from "../gas/index.ts";
import { powerOfTenBetween, scaleByPowerOfTen, type Unit } from "../quantity/index.ts";
import { type LimitDigits, limitDigits } from "./exact-limit.ts";

export interface LimitTerms {
  /** In the unit of the channel: what sums are compared with. */
  readonly level: LimitDigits;
  /** The limit as published, in `unit`. */
  readonly published: number;
  /** Unit in which the finding is given, and what turns values of the channel into it. */
  readonly unit: Unit;
  readonly scale: number;
  readonly assumption: Assumption | null;
}

/** Molar mass of the gas and molar volume of the regime, for a limit that exists in the other kind of unit alone. */
export interface MolarTerms {
  readonly gramsPerMole: number;
  readonly litresPerMole: number;
}

/**
 * The limit as it meets the readings. A limit published in the unit of the channel (first or second published pair)
 * is taken as published; else one that differs by a power of ten; only then one converted by
 * mg/m3 = ppm x M / V_m, and the finding says so. Null where none fits (%LEL, or no molar mass).
 *
 * @example
 * ```ts
 * import { limitTerms } from "./limit-terms.ts";
 * limitTerms([{ value: 35, unit: "ppm" }, { value: 27, unit: "mg/m3" }], "mg/m3", null)?.level.value; // => 27
 * limitTerms([{ value: 0.5, unit: "vol%" }], "ppm", null)?.level.value; // => 5000
 * limitTerms([{ value: 0.002, unit: "mg/m3" }], "ppm", { gramsPerMole: 77.946, litresPerMole: 24.45 })?.unit; // => "mg/m3"
 * limitTerms([{ value: 50, unit: "ppm" }], "%LEL", null); // => null
 * ```
 * Source: compare in the unit in which the limit is published and the instrument reads: ours; published pairs are not
 * exact conversions (NIOSH Pocket Guide, phosphine, ammonia) [read]. Conversion: CCOHS [read].
 */
export function limitTerms(published: readonly PublishedValue[], unit: Unit, molar: MolarTerms | null): LimitTerms | null {
  const own = published.find((value) => value.unit === unit);
  if (own !== undefined) return { level: limitDigits(own.value), published: own.value, unit, scale: 1, assumption: null };
  for (const value of published) {
    const power = powerOfTenBetween(value.unit, unit);
    if (power === null) continue;
    const inUnit = scaleByPowerOfTen(value.value, power);
    return { level: limitDigits(inUnit), published: inUnit, unit, scale: 1, assumption: null };
  }
  const first = published[0];
  return first === undefined || molar === null ? null : convertedTerms(first, unit, molar);
}

function convertedTerms(published: PublishedValue, unit: Unit, molar: MolarTerms): LimitTerms | null {
  const scale = scaleBetween(unit, published.unit, molar);
  if (scale === null) return null;
  return {
    level: limitDigits(published.value / scale),
    published: published.value,
    unit: published.unit,
    scale,
    assumption: { type: "unit-converted", from: unit, to: published.unit, molarVolume: molar.litresPerMole },
  };
}

/** What one `from` is in `to`, across volume fraction and mass concentration. */
function scaleBetween(from: Unit, to: Unit, molar: MolarTerms): number | null {
  const milligramsPerPpm = molar.gramsPerMole / molar.litresPerMole;
  const fromPpm = powerOfTenBetween(from, "ppm");
  const toMilligrams = powerOfTenBetween("mg/m3", to);
  if (fromPpm !== null && toMilligrams !== null) return milligramsPerPpm * 10 ** (fromPpm + toMilligrams);
  const fromMilligrams = powerOfTenBetween(from, "mg/m3");
  const toPpm = powerOfTenBetween("ppm", to);
  if (fromMilligrams !== null && toPpm !== null) return 10 ** (fromMilligrams + toPpm) / milligramsPerPpm;
  return null;
}
