import { given, type Result, refused } from "../result.ts";
import type { MolarVolume } from "./molar-volume.ts";
import type { QuantityKind, Unit } from "./unit.ts";
import { kindOfUnit } from "./unit-table.ts";

/** What 100 %LEL is for one gas according to one source. */
export interface LelBasis {
  readonly gas: string;
  /** `IEC`, `NFPA`, `NPG`, `BM627`, or a name of the user's own. */
  readonly source: string;
  readonly lelVolumePercent: number;
}

export interface MolarMass {
  readonly gas: string;
  readonly gramsPerMole: number;
}

/** A number that knows its unit, its kind, and what its meaning hangs on. Made by `quantity` only. */
export interface Quantity {
  readonly __brand: "Quantity";
  readonly value: number;
  readonly unit: Unit;
  readonly kind: QuantityKind;
  /** Id of the substance; null = nobody said which gas. */
  readonly gas: string | null;
  /** Only of a fraction of LEL; null = nobody said on which basis. */
  readonly lelBasis: LelBasis | null;
  /** Only of a mass concentration: the conditions it is stated at; null = not said. */
  readonly molarVolume: MolarVolume | null;
}

export interface QuantityParts {
  readonly value: number;
  readonly unit: Unit;
  readonly gas?: string | null;
  readonly lelBasis?: LelBasis | null;
  readonly molarVolume?: MolarVolume | null;
}

export type QuantityRefusal =
  | { readonly type: "not-a-finite-number"; readonly value: number }
  /** A basis or a molar mass of methane beside a reading of propane. */
  | { readonly type: "other-gas"; readonly first: string; readonly second: string }
  | { readonly type: "basis-does-not-belong"; readonly unit: Unit; readonly basis: "lel basis" | "molar volume" };

/**
 * A checked quantity.
 *
 * @param parts value, unit, and where they are known gas, LEL basis (for %LEL only) and molar volume (mg/m3 only)
 * @returns refused: a value that is no finite number; a basis for a unit that has none; a basis of another gas
 * @example
 * ```ts
 * import { quantity } from "./quantity.ts";
 * quantity({ value: 10, unit: "%LEL", gas: "propane", lelBasis: { gas: "methane", source: "IEC", lelVolumePercent: 4.4 } }); // => { "ok": false, "refusal": { "type": "other-gas", "first": "propane", "second": "methane" } }
 * ```
 */
export function quantity({
  value,
  unit,
  gas = null,
  lelBasis = null,
  molarVolume = null,
}: QuantityParts): Result<Quantity, QuantityRefusal> {
  if (!Number.isFinite(value)) return refused({ type: "not-a-finite-number", value });
  const kind = kindOfUnit(unit);
  if (lelBasis !== null && kind !== "fraction of LEL") return refused({ type: "basis-does-not-belong", unit, basis: "lel basis" });
  if (molarVolume !== null && kind !== "mass concentration") return refused({ type: "basis-does-not-belong", unit, basis: "molar volume" });
  if (lelBasis !== null && gas !== null && lelBasis.gas !== gas) return refused({ type: "other-gas", first: gas, second: lelBasis.gas });
  // The brand exists in the types only; this is the one place that gives it.
  return given({ value, unit, kind, gas, lelBasis, molarVolume } as Quantity);
}

/** Same gas, same source and same figure: anything less is another basis. */
export const sameLelBasis = (first: LelBasis, second: LelBasis): boolean =>
  first.gas === second.gas && first.source === second.source && first.lelVolumePercent === second.lelVolumePercent;
