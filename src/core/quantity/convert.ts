import { given, type Result, refused } from "../result.ts";
import { scaleByPowerOfTen } from "./decimal.ts";
import type { MolarVolume } from "./molar-volume.ts";
import { type LelBasis, type MolarMass, type Quantity, type QuantityRefusal, quantity, sameLelBasis } from "./quantity.ts";
import type { QuantityKind, Unit } from "./unit.ts";
import { powerOfTenBetween } from "./unit-table.ts";

/** Where a quantity is to go, and what the way there needs. Only what the way needs is looked at. */
export interface Target {
  readonly unit: Unit;
  /** Basis of a result in %LEL. */
  readonly lelBasis?: LelBasis | null;
  /** For every way in or out of mg/m3. */
  readonly molarMass?: MolarMass | null;
  /** Conditions of a figure in mg/m3, where the quantity does not carry them itself. */
  readonly molarVolume?: MolarVolume | null;
}

export type ConversionRefusal =
  | QuantityRefusal
  | { readonly type: "gas-not-said"; readonly from: QuantityKind; readonly to: QuantityKind }
  | { readonly type: "lel-basis-missing"; readonly gas: string | null }
  | { readonly type: "other-lel-basis"; readonly first: LelBasis; readonly second: LelBasis }
  | { readonly type: "lel-basis-not-positive"; readonly basis: LelBasis }
  | { readonly type: "molar-mass-missing"; readonly gas: string }
  | { readonly type: "molar-mass-not-positive"; readonly molarMass: MolarMass }
  | { readonly type: "molar-volume-missing" }
  | { readonly type: "other-molar-volume"; readonly first: MolarVolume; readonly second: MolarVolume };

/**
 * A quantity in another unit, or the reason why not.
 *
 *     vol %  = p LEL / 100            p in %LEL, LEL in vol % of the named basis
 *     mg/m3  = ppm M / V_m            M in g/mol, V_m in L/mol
 *
 * Within one kind only the decimal point moves. Across kinds the gas must be said and every basis named, and all
 * must be of that gas. A figure in %LEL goes to another basis only when that basis is asked for; a figure in mg/m3
 * is never moved to other conditions on the way (go through ppm to do that knowingly).
 *
 * @param from the quantity
 * @param to unit wanted, and the bases
 * @returns the quantity in the new unit, carrying the basis it now rests on
 * @example
 * ```ts
 * import { convertQuantity } from "./convert.ts";
 * import { quantity } from "./quantity.ts";
 * const iec = { gas: "methane", source: "IEC", lelVolumePercent: 4.4 };
 * const reading = quantity({ value: 50, unit: "%LEL", gas: "methane", lelBasis: iec });
 * reading.ok && convertQuantity(reading.value, { unit: "ppm" }); // => { "ok": true, "value": { "value": 22000, "unit": "ppm", "kind": "volume fraction", "gas": "methane", "lelBasis": null, "molarVolume": null } }
 * const share = quantity({ value: 1, unit: "vol%", gas: "methane" });
 * share.ok && convertQuantity(share.value, { unit: "%LEL" }); // => { "ok": false, "refusal": { "type": "lel-basis-missing", "gas": "methane" } }
 * ```
 *
 * Source: IEC 60079-20-1:2010 and NFPA 497 (2008) print limits in vol % (read); CCOHS, converting occupational
 * exposure limits, for the second form (read). UCUM 2.2 would call 10 %{LEL} 10 %{vol}: different kinds, refused here.
 */
export function convertQuantity(from: Quantity, to: Target): Result<Quantity, ConversionRefusal> {
  const exponent = powerOfTenBetween(from.unit, to.unit);
  if (exponent !== null) return withinKind(from, to, exponent);
  const percent = volumePercentOf(from, to);
  return percent.ok ? fromVolumePercent(percent.value, from, to) : percent;
}

function withinKind(from: Quantity, to: Target, exponent: number): Result<Quantity, ConversionRefusal> {
  if (from.kind === "fraction of LEL") return onBasis(from, to);
  const asked = from.kind === "mass concentration" ? (to.molarVolume ?? null) : null;
  const molarVolume = from.molarVolume ?? null;
  if (asked !== null && molarVolume !== null && asked.id !== molarVolume.id)
    return refused({ type: "other-molar-volume", first: molarVolume, second: asked });
  return quantity({ value: scaleByPowerOfTen(from.value, exponent), unit: to.unit, gas: from.gas, molarVolume });
}

/** p_B = p_A LEL_A / LEL_B, same gas. Without a basis asked for, the figure stays what it is. */
function onBasis(from: Quantity, to: Target): Result<Quantity, ConversionRefusal> {
  const asked = to.lelBasis ?? null;
  if (asked === null) return given(from);
  const own = basisOf(from);
  if (!own.ok) return own;
  if (own.value.gas !== asked.gas) return refused({ type: "other-gas", first: own.value.gas, second: asked.gas });
  if (!isPositive(asked.lelVolumePercent)) return refused({ type: "lel-basis-not-positive", basis: asked });
  const value = sameLelBasis(own.value, asked) ? from.value : (from.value * own.value.lelVolumePercent) / asked.lelVolumePercent;
  return quantity({ value, unit: "%LEL", gas: from.gas, lelBasis: asked });
}

/** Vol % stands between every two kinds. */
function volumePercentOf(from: Quantity, to: Target): Result<number, ConversionRefusal> {
  if (from.kind === "volume fraction") return finite(from.value, powerOfTenBetween(from.unit, "vol%") ?? 0);
  if (from.kind === "fraction of LEL") {
    const basis = basisOf(from);
    return basis.ok ? finite((from.value * basis.value.lelVolumePercent) / 100, 0) : basis;
  }
  const way = massWay(from, to, from.molarVolume);
  if (!way.ok) return way;
  const milligrams = scaleByPowerOfTen(from.value, powerOfTenBetween(from.unit, "mg/m3") ?? 0);
  return finite((milligrams * way.value.molarVolume.litresPerMole) / way.value.gramsPerMole, -4);
}

function fromVolumePercent(percent: number, from: Quantity, to: Target): Result<Quantity, ConversionRefusal> {
  if (from.gas === null) return refused({ type: "gas-not-said", from: from.kind, to: kindWanted(to) });
  if (kindWanted(to) === "volume fraction")
    return quantity({ value: scaleByPowerOfTen(percent, powerOfTenBetween("vol%", to.unit) ?? 0), unit: to.unit, gas: from.gas });
  if (kindWanted(to) === "fraction of LEL") {
    const basis = usable(to.lelBasis ?? null, from.gas);
    return basis.ok
      ? quantity({ value: (100 * percent) / basis.value.lelVolumePercent, unit: "%LEL", gas: from.gas, lelBasis: basis.value })
      : basis;
  }
  const way = massWay(from, to, null);
  if (!way.ok) return way;
  const milligrams = (scaleByPowerOfTen(percent, 4) * way.value.gramsPerMole) / way.value.molarVolume.litresPerMole;
  const value = finite(milligrams, powerOfTenBetween("mg/m3", to.unit) ?? 0);
  return value.ok ? quantity({ value: value.value, unit: to.unit, gas: from.gas, molarVolume: way.value.molarVolume }) : value;
}

const kindWanted = (to: Target): QuantityKind =>
  powerOfTenBetween(to.unit, "vol%") !== null
    ? "volume fraction"
    : powerOfTenBetween(to.unit, "mg/m3") !== null
      ? "mass concentration"
      : "fraction of LEL";

function basisOf(from: Quantity): Result<LelBasis, ConversionRefusal> {
  if (from.gas === null) return refused({ type: "gas-not-said", from: "fraction of LEL", to: "volume fraction" });
  return usable(from.lelBasis, from.gas);
}

function usable(basis: LelBasis | null, gas: string): Result<LelBasis, ConversionRefusal> {
  if (basis === null) return refused({ type: "lel-basis-missing", gas });
  if (basis.gas !== gas) return refused({ type: "other-gas", first: gas, second: basis.gas });
  return isPositive(basis.lelVolumePercent) ? given(basis) : refused({ type: "lel-basis-not-positive", basis });
}

function massWay(
  from: Quantity,
  to: Target,
  own: MolarVolume | null,
): Result<{ readonly gramsPerMole: number; readonly molarVolume: MolarVolume }, ConversionRefusal> {
  if (from.gas === null) return refused({ type: "gas-not-said", from: from.kind, to: kindWanted(to) });
  const molarMass = to.molarMass ?? null;
  if (molarMass === null) return refused({ type: "molar-mass-missing", gas: from.gas });
  if (molarMass.gas !== from.gas) return refused({ type: "other-gas", first: from.gas, second: molarMass.gas });
  if (!isPositive(molarMass.gramsPerMole)) return refused({ type: "molar-mass-not-positive", molarMass });
  const asked = to.molarVolume ?? null;
  if (own !== null && asked !== null && own.id !== asked.id) return refused({ type: "other-molar-volume", first: own, second: asked });
  const molarVolume = own ?? asked;
  return molarVolume === null ? refused({ type: "molar-volume-missing" }) : given({ gramsPerMole: molarMass.gramsPerMole, molarVolume });
}

const isPositive = (value: number): boolean => Number.isFinite(value) && value > 0;

function finite(value: number, exponent: number): Result<number, ConversionRefusal> {
  const scaled = Number.isFinite(value) ? scaleByPowerOfTen(value, exponent) : value;
  return Number.isFinite(scaled) ? given(scaled) : refused({ type: "not-a-finite-number", value: scaled });
}

export type ComparisonRefusal =
  | ConversionRefusal
  | { readonly type: "different-kinds"; readonly first: QuantityKind; readonly second: QuantityKind };

/**
 * Which of two quantities of one gas is greater. Two figures in %LEL are compared in vol %, each through its own
 * basis; mg/m3 only at the same stated conditions.
 *
 * @returns -1, 0 or 1; refused: another kind, another gas or one not said, a basis missing
 * @example
 * ```ts
 * import { compareQuantities } from "./convert.ts";
 * import { quantity } from "./quantity.ts";
 * const one = quantity({ value: 8, unit: "%LEL", gas: "propane", lelBasis: { gas: "propane", source: "NFPA", lelVolumePercent: 2.1 } });
 * const two = quantity({ value: 9, unit: "%LEL", gas: "propane", lelBasis: { gas: "propane", source: "IEC", lelVolumePercent: 1.7 } });
 * one.ok && two.ok && compareQuantities(one.value, two.value); // => { "ok": true, "value": 1 }
 * ```
 */
export function compareQuantities(first: Quantity, second: Quantity): Result<-1 | 0 | 1, ComparisonRefusal> {
  if (first.kind !== second.kind) return refused({ type: "different-kinds", first: first.kind, second: second.kind });
  if (first.gas === null || second.gas === null) return refused({ type: "gas-not-said", from: first.kind, to: second.kind });
  if (first.gas !== second.gas) return refused({ type: "other-gas", first: first.gas, second: second.gas });
  const left = comparable(first);
  if (!left.ok) return left;
  const right = comparable(second);
  if (!right.ok) return right;
  if (first.molarVolume !== null && second.molarVolume !== null && first.molarVolume.id !== second.molarVolume.id)
    return refused({ type: "other-molar-volume", first: first.molarVolume, second: second.molarVolume });
  return given(left.value < right.value ? -1 : left.value > right.value ? 1 : 0);
}

function comparable(from: Quantity): Result<number, ConversionRefusal> {
  if (from.kind !== "mass concentration") return volumePercentOf(from, { unit: "vol%" });
  if (from.molarVolume === null) return refused({ type: "molar-volume-missing" });
  return given(scaleByPowerOfTen(from.value, powerOfTenBetween(from.unit, "mg/m3") ?? 0));
}

/**
 * Whether two quantities may stand in one sum, mean or chart as they are: same gas, same kind, same basis. 10 %LEL of
 * methane on 4.4 vol % and 10 %LEL of methane on 5.0 vol % may not.
 *
 * @returns true, or what differs
 * @example
 * ```ts
 * import { inSameTerms } from "./convert.ts";
 * import { quantity } from "./quantity.ts";
 * const one = quantity({ value: 35, unit: "ppm", gas: "carbon_monoxide" });
 * const two = quantity({ value: 0.1, unit: "vol%", gas: "carbon_monoxide" });
 * one.ok && two.ok && inSameTerms(one.value, two.value); // => { "ok": true, "value": true }
 * ```
 */
export function inSameTerms(first: Quantity, second: Quantity): Result<true, ComparisonRefusal> {
  const compared = compareQuantities(first, second);
  if (!compared.ok) return compared;
  if (first.lelBasis !== null && second.lelBasis !== null && !sameLelBasis(first.lelBasis, second.lelBasis))
    return refused({ type: "other-lel-basis", first: first.lelBasis, second: second.lelBasis });
  return given(true);
}
