import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  compareQuantities,
  convertQuantity,
  inSameTerms,
  kindOfUnit,
  MOLAR_VOLUME_EU,
  MOLAR_VOLUME_US,
  type Quantity,
  type QuantityParts,
  quantity,
  type Target,
  UNITS,
  type Unit,
} from "../../../src/core/quantity/index.ts";

const IEC = { gas: "methane", source: "IEC", lelVolumePercent: 4.4 };
const NFPA = { gas: "methane", source: "NFPA", lelVolumePercent: 5 };
const MASS = { gas: "methane", gramsPerMole: 16.043 };

function made(parts: QuantityParts): Quantity {
  const one = quantity(parts);
  if (!one.ok) throw new Error(one.refusal.type);
  return one.value;
}

const outcome = (parts: QuantityParts, to: Target) => {
  const result = convertQuantity(made(parts), to);
  return result.ok ? result.value.value : result.refusal.type;
};

const units = UNITS.map((row) => row.unit);
const pairs = units.flatMap((from) => units.map((to) => [from, to] as const));
const across = pairs.filter(([from, to]) => kindOfUnit(from) !== kindOfUnit(to));
const volumeOf = (unit: Unit) => (kindOfUnit(unit) === "mass concentration" ? MOLAR_VOLUME_US : null);
const basisOf = (unit: Unit) => (kindOfUnit(unit) === "fraction of LEL" ? IEC : null);

describe("made quantities", () => {
  test.each([
    [{ value: Number.NaN, unit: "ppm" }, "not-a-finite-number"],
    [{ value: Number.POSITIVE_INFINITY, unit: "ppm" }, "not-a-finite-number"],
    [{ value: 1, unit: "ppm", lelBasis: IEC }, "basis-does-not-belong"],
    [{ value: 1, unit: "%LEL", molarVolume: MOLAR_VOLUME_EU }, "basis-does-not-belong"],
    [{ value: 1, unit: "%LEL", gas: "propane", lelBasis: IEC }, "other-gas"],
  ] as const)("%j: %s", (parts, type) => {
    expect(quantity(parts)).toMatchObject({ ok: false, refusal: { type } });
  });
});

describe("refusing is total", () => {
  test.each(across)("%s to %s without a basis", (from, to) => {
    expect(typeof outcome({ value: 10, unit: from, gas: "methane" }, { unit: to })).toBe("string");
  });

  test.each(across)("%s to %s without a gas", (from, to) => {
    const everything = { unit: to, lelBasis: IEC, molarMass: MASS, molarVolume: MOLAR_VOLUME_US };
    expect(outcome({ value: 10, unit: from, lelBasis: basisOf(from), molarVolume: volumeOf(from) }, everything)).toBe("gas-not-said");
  });

  test.each(across)("%s to %s with the bases of another gas", (from, to) => {
    const everything = { unit: to, lelBasis: IEC, molarMass: MASS, molarVolume: MOLAR_VOLUME_US };
    const own = kindOfUnit(from) === "fraction of LEL" ? { gas: "propane", source: "IEC", lelVolumePercent: 1.7 } : null;
    const result = outcome({ value: 10, unit: from, gas: "propane", lelBasis: own, molarVolume: volumeOf(from) }, everything);
    const needsBasis = kindOfUnit(to) !== "volume fraction" || kindOfUnit(from) === "mass concentration";
    expect(typeof result).toBe(needsBasis ? "string" : "number");
    if (needsBasis) expect(result).toBe("other-gas");
  });

  test.each(across)("%s to %s with everything said is answered, and goes back", (from, to) => {
    const everything = (unit: Unit): Target => ({ unit, lelBasis: IEC, molarMass: MASS, molarVolume: MOLAR_VOLUME_US });
    const there = convertQuantity(
      made({ value: 10, unit: from, gas: "methane", lelBasis: basisOf(from), molarVolume: volumeOf(from) }),
      everything(to),
    );
    const back = there.ok ? convertQuantity(there.value, everything(from)) : there;
    expect(back.ok && Math.abs(back.value.value - 10)).toBeLessThan(1e-12);
  });

  test.each([
    [{ value: 10, unit: "vol%", gas: "methane" }, { unit: "%LEL" }, "lel-basis-missing"],
    [{ value: 10, unit: "%LEL", gas: "methane" }, { unit: "vol%" }, "lel-basis-missing"],
    [{ value: 10, unit: "%LEL", gas: "methane" }, { unit: "%LEL", lelBasis: NFPA }, "lel-basis-missing"],
    [{ value: 10, unit: "%LEL", gas: "methane", lelBasis: { ...IEC, lelVolumePercent: 0 } }, { unit: "vol%" }, "lel-basis-not-positive"],
    [{ value: 10, unit: "ppm", gas: "methane" }, { unit: "mg/m3" }, "molar-mass-missing"],
    [{ value: 10, unit: "ppm", gas: "methane" }, { unit: "mg/m3", molarMass: MASS }, "molar-volume-missing"],
    [
      { value: 10, unit: "ppm", gas: "methane" },
      { unit: "mg/m3", molarMass: { ...MASS, gramsPerMole: 0 }, molarVolume: MOLAR_VOLUME_US },
      "molar-mass-not-positive",
    ],
    [
      { value: 10, unit: "mg/m3", gas: "methane", molarVolume: MOLAR_VOLUME_EU },
      { unit: "ppm", molarMass: MASS, molarVolume: MOLAR_VOLUME_US },
      "other-molar-volume",
    ],
    [
      { value: 10, unit: "mg/m3", gas: "methane", molarVolume: MOLAR_VOLUME_EU },
      { unit: "ug/m3", molarVolume: MOLAR_VOLUME_US },
      "other-molar-volume",
    ],
    [{ value: 1e308, unit: "mol/mol", gas: "methane" }, { unit: "ppm" }, "not-a-finite-number"],
    [{ value: 1e308, unit: "mol/mol", gas: "methane" }, { unit: "%LEL", lelBasis: IEC }, "not-a-finite-number"],
  ] as const)("%j to %j: %s", (parts, to, type) => {
    expect(outcome(parts, to)).toBe(type);
  });
});

describe("within a kind", () => {
  const inside = pairs.filter(([from, to]) => kindOfUnit(from) === kindOfUnit(to));
  const numbers = fc
    .tuple(fc.integer({ min: -999_999_999, max: 999_999_999 }), fc.integer({ min: -9, max: 3 }))
    .map(([mantissa, exponent]) => Number(`${mantissa}e${exponent}`));

  test.each(inside)("%s to %s and back is the same number, with no gas needed", (from, to) => {
    fc.assert(
      fc.property(numbers, (value) => {
        const there = convertQuantity(made({ value, unit: from }), { unit: to });
        const back = there.ok ? convertQuantity(there.value, { unit: from }) : there;
        expect(back.ok && back.value.value).toBe(value + 0);
      }),
      { numRuns: 40 },
    );
  });

  test("0.07 vol % is 700 ppm, not a little more", () => {
    expect(outcome({ value: 0.07, unit: "vol%" }, { unit: "ppm" })).toBe(700);
  });
});

describe("two quantities side by side", () => {
  const iec = made({ value: 10, unit: "%LEL", gas: "methane", lelBasis: IEC });
  const nfpa = made({ value: 10, unit: "%LEL", gas: "methane", lelBasis: NFPA });

  test("10 %LEL of methane on two bases is two concentrations, and they stand in no sum together", () => {
    expect(compareQuantities(iec, nfpa)).toEqual({ ok: true, value: -1 });
    expect(inSameTerms(iec, nfpa)).toEqual({ ok: false, refusal: { type: "other-lel-basis", first: IEC, second: NFPA } });
    expect(inSameTerms(iec, made({ value: 20, unit: "%LEL", gas: "methane", lelBasis: { ...IEC } }))).toEqual({ ok: true, value: true });
  });

  test.each([
    ["another gas", { value: 10, unit: "ppm", gas: "a" }, { value: 10, unit: "ppm", gas: "b" }, "other-gas"],
    ["a gas not said", { value: 10, unit: "ppm", gas: "a" }, { value: 10, unit: "ppm" }, "gas-not-said"],
    ["two gases not said", { value: 10, unit: "ppm" }, { value: 10, unit: "ppm" }, "gas-not-said"],
    [
      "another kind",
      { value: 10, unit: "ppm", gas: "methane" },
      { value: 10, unit: "%LEL", gas: "methane", lelBasis: IEC },
      "different-kinds",
    ],
    [
      "no basis",
      { value: 10, unit: "%LEL", gas: "methane", lelBasis: IEC },
      { value: 10, unit: "%LEL", gas: "methane" },
      "lel-basis-missing",
    ],
    ["no conditions", { value: 1, unit: "mg/m3", gas: "a" }, { value: 1, unit: "mg/m3", gas: "a" }, "molar-volume-missing"],
    [
      "other conditions",
      { value: 1, unit: "mg/m3", gas: "a", molarVolume: MOLAR_VOLUME_US },
      { value: 1, unit: "mg/m3", gas: "a", molarVolume: MOLAR_VOLUME_EU },
      "other-molar-volume",
    ],
  ] as const)("%s is refused", (_, first, second, type) => {
    expect(compareQuantities(made(first), made(second))).toMatchObject({ ok: false, refusal: { type } });
    expect(inSameTerms(made(first), made(second))).toMatchObject({ ok: false, refusal: { type } });
  });
});
