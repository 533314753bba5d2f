import { assert } from "../result.ts";

/** Litres that one mole of gas takes up under stated conditions. Figures in mg/m3 mean nothing without one. */
export interface MolarVolume {
  /** Two volumes are the same only when their ids are. */
  readonly id: string;
  readonly litresPerMole: number;
  readonly conditions: string;
  readonly source: string;
  readonly mark: "read" | "memory" | "computed";
}

/** Molar gas constant in J/(mol K): exact since the SI of 2019, 8.314 462 618 153 24. */
export const GAS_CONSTANT = 8.31446261815324;

/** Conventional volume of US figures. */
export const MOLAR_VOLUME_US: MolarVolume = {
  id: "24.45 (25 °C, 760 mmHg)",
  litresPerMole: 24.45,
  conditions: "25 °C, 760 mmHg",
  source: "29 CFR 1910.1000 Table Z-1 footnote; CCOHS, converting occupational exposure limits",
  mark: "read",
};

/** Volume of British and European figures. EH40 prints 24.05526. */
export const MOLAR_VOLUME_EU: MolarVolume = {
  id: "24.055 (20 °C, 101.3 kPa)",
  litresPerMole: 24.055,
  conditions: "20 °C, 101.3 kPa",
  source: "HSE EH40/2005 (figure from memory); conditions: Directive 98/24/EC annex notes, Code du travail R4412-149 note 5",
  mark: "memory",
};

/**
 * Molar volume of an ideal gas: V_m = 1000 R T / P.
 *
 * @param at temperature T in kelvin, above 0; pressure P in pascal, above 0 (asserted: both come from typed fields)
 * @returns litres per mole, with an id that names T and P
 * @example
 * ```ts
 * import { molarVolumeAt } from "./molar-volume.ts";
 * molarVolumeAt({ kelvin: 293.15, pascal: 101325 }).litresPerMole; // => 24.05511686663333
 * ```
 *
 * Source: ideal gas law; R exact, SI Brochure, 9th edition, 2019 (from memory), as in chemicals 1.5.2 (read).
 */
export function molarVolumeAt({ kelvin, pascal }: { readonly kelvin: number; readonly pascal: number }): MolarVolume {
  return computed((1000 * GAS_CONSTANT * kelvin) / pascal, `${kelvin} K, ${pascal} Pa`, "ideal gas law with the molar gas constant");
}

/**
 * Molar volume in the form with 62.4: V_m = 62.4 (273.2 + t) / P. At 25 °C and 760 mmHg it gives 24.484, not 24.45:
 * keep to one form and name it.
 *
 * @param at temperature t in °C, above -273.2; pressure P in mmHg, above 0
 * @example
 * ```ts
 * import { molarVolumeFrom62 } from "./molar-volume.ts";
 * molarVolumeFrom62({ celsius: 25, millimetresOfMercury: 760 }).litresPerMole; // => 24.48378947368421
 * ```
 *
 * Source: CCOHS, converting occupational exposure limits: mg/m3 = P M ppm / (62.4 (273.2 + t)) (read).
 */
export function molarVolumeFrom62({
  celsius,
  millimetresOfMercury,
}: {
  readonly celsius: number;
  readonly millimetresOfMercury: number;
}): MolarVolume {
  const litres = (62.4 * (273.2 + celsius)) / millimetresOfMercury;
  return computed(litres, `${celsius} °C, ${millimetresOfMercury} mmHg, form with 62.4`, "CCOHS, converting occupational exposure limits");
}

/**
 * Molar volume in the form with 22.4: V_m = 22.4 (273.15 + t) / 273.15 at 760 mmHg; 24.4502 at 25 °C, which is where
 * the conventional 24.45 comes from.
 *
 * @param celsius temperature t in °C, above -273.15
 * @example
 * ```ts
 * import { molarVolumeFrom22 } from "./molar-volume.ts";
 * molarVolumeFrom22(25).litresPerMole; // => 24.45015559216548
 * ```
 *
 * Source: common practice.
 */
export const molarVolumeFrom22 = (celsius: number): MolarVolume =>
  computed((22.4 * (273.15 + celsius)) / 273.15, `${celsius} °C, 760 mmHg, form with 22.4`, "22.4 L/mol at 0 °C (common practice)");

function computed(litresPerMole: number, conditions: string, source: string): MolarVolume {
  assert(Number.isFinite(litresPerMole) && litresPerMole > 0, "temperature and pressure are above nought");
  return { id: `${litresPerMole} (${conditions})`, litresPerMole, conditions, source, mark: "computed" };
}
