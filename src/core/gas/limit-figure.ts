import { type MolarVolume, powerOfTenBetween, scaleByPowerOfTen, type Unit } from "../quantity/index.ts";
import { given, type Result, refused } from "../result.ts";
import type { Limit, PublishedValue } from "./limit.ts";
import { substance } from "./substance.ts";

/** A limit's figure in the unit of a channel. */
export interface LimitFigure {
  readonly value: number;
  readonly unit: Unit;
  /** "as published": the digits of the text, at most with the point moved. "converted": a figure of our own making. */
  readonly how: "as published" | "as also published" | "converted";
  /** What a conversion went through; null where none was needed. */
  readonly conversion: {
    readonly from: Unit;
    readonly to: Unit;
    readonly molarVolume: MolarVolume;
    readonly molarMassGramsPerMole: number;
  } | null;
}

export type LimitFigureRefusal =
  | { readonly type: "limit-without-figure"; readonly limit: string }
  /** %LEL, or a mixture without a molar mass. */
  | { readonly type: "limit-not-convertible"; readonly limit: string; readonly from: Unit; readonly to: Unit }
  /** "As F", "as CN": a person decides what the whole molecule weighs against it. */
  | { readonly type: "limit-stated-as-part"; readonly limit: string; readonly statedAs: string };

/**
 * A limit in the unit in which an instrument reads.
 *
 * The figure as published comes first, then the second published one, and only where neither is in that kind of unit a
 * conversion with the molar volume of the regime: published pairs are no exact conversions (phosphine 1 ppm stands
 * beside 1 mg/m3, which is 0.72 ppm).
 *
 * @param limit any limit but a three-level one without an average (its levels stand in `threeLevel`)
 * @param unit the channel's unit
 * @param molarVolume the regime's
 * @returns refused: no figure of its own; %LEL or no molar mass; a figure of a part of the molecule
 * @example
 * ```ts
 * import { limitFigure } from "./limit-figure.ts";
 * import { publishedLimits } from "./limit-table.ts";
 * import { MOLAR_VOLUME_US } from "../quantity/index.ts";
 * const dioxide = publishedLimits.find((limit) => limit.id === "US-OSHA/carbon_dioxide/twa");
 * const inPercent = dioxide && limitFigure(dioxide, "vol%", MOLAR_VOLUME_US);
 * inPercent?.ok && inPercent.value.value; // => 0.5
 * const arsine = publishedLimits.find((limit) => limit.id === "US-NIOSH/arsine/ceiling");
 * const inPpm = arsine && limitFigure(arsine, "ppm", MOLAR_VOLUME_US);
 * inPpm?.ok && inPpm.value.value; // => 0.0006273574012778077
 * ```
 *
 * Source: mg/m3 = ppm M / V_m, CCOHS, converting occupational exposure limits (read); warning on pairs: NIOSH Pocket
 * Guide records 0505 and 0028 (read).
 */
export function limitFigure(limit: Limit, unit: Unit, molarVolume: MolarVolume): Result<LimitFigure, LimitFigureRefusal> {
  const { published, alsoPublished } = limit;
  if (published === null) return refused({ type: "limit-without-figure", limit: limit.id });
  const first = moved(published, unit, "as published") ?? (alsoPublished === null ? null : moved(alsoPublished, unit, "as also published"));
  if (first !== null) return given(first);
  if (limit.statedAs !== undefined) return refused({ type: "limit-stated-as-part", limit: limit.id, statedAs: limit.statedAs });
  return converted(limit, published, unit, molarVolume);
}

function moved(published: PublishedValue, unit: Unit, how: LimitFigure["how"]): LimitFigure | null {
  const exponent = powerOfTenBetween(published.unit, unit);
  return exponent === null ? null : { value: scaleByPowerOfTen(published.value, exponent), unit, how, conversion: null };
}

function converted(
  limit: Limit,
  { value, unit: from }: PublishedValue,
  to: Unit,
  molarVolume: MolarVolume,
): Result<LimitFigure, LimitFigureRefusal> {
  const molarMassGramsPerMole = substance(limit.gas)?.molarMassGramsPerMole ?? null;
  const parts = powerOfTenBetween(from, "ppm");
  const mass = powerOfTenBetween(from, "mg/m3");
  const conversion = molarMassGramsPerMole === null ? null : { from, to, molarVolume, molarMassGramsPerMole };
  const toParts = powerOfTenBetween("ppm", to);
  const toMass = powerOfTenBetween("mg/m3", to);
  if (conversion !== null && parts !== null && toMass !== null) {
    const milligrams = (scaleByPowerOfTen(value, parts) * conversion.molarMassGramsPerMole) / molarVolume.litresPerMole;
    return given({ value: scaleByPowerOfTen(milligrams, toMass), unit: to, how: "converted", conversion });
  }
  if (conversion !== null && mass !== null && toParts !== null) {
    const ppm = (scaleByPowerOfTen(value, mass) * molarVolume.litresPerMole) / conversion.molarMassGramsPerMole;
    return given({ value: scaleByPowerOfTen(ppm, toParts), unit: to, how: "converted", conversion });
  }
  return refused({ type: "limit-not-convertible", limit: limit.id, from, to });
}
