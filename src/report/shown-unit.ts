/** Units that people read in, for recordings that are logged in others. */
import { powerOfTenBetween, scaleByPowerOfTen, UNITS, type Unit } from "../core/quantity/index.ts";

/** One vol %, in mol/mol: from here on per cent are easier to read than parts per million. */
const ONE_PER_CENT = 0.01;

export interface ShownUnit {
  readonly unit: string | null;
  readonly inUnit: (value: number) => number;
}

/**
 * The unit in which figures of a channel are shown: that of the file, but mole fractions as ppm or vol %. Only the
 * decimal point moves.
 *
 * @example
 * ```ts
 * import { shownUnit } from "./shown-unit.ts";
 * const shown = shownUnit("mol/mol", 0.00875);
 * [shown.unit, shown.inUnit(0.00875)]; // => ["ppm", 8750]
 * ```
 */
export function shownUnit(unit: string | null, greatest: number): ShownUnit {
  const from = UNITS.find((row) => row.unit === unit)?.unit ?? null;
  if (from !== "mol/mol") return { unit, inUnit: (value) => value };
  const to: Unit = greatest >= ONE_PER_CENT ? "vol%" : "ppm";
  const power = powerOfTenBetween(from, to) ?? 0;
  return { unit: to, inUnit: (value) => scaleByPowerOfTen(value, power) };
}
