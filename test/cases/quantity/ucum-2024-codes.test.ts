// The Unified Code for Units of Measure 2.2 (2024-06-17): goldens/formats.json, topics ucum-valid, ucum-trap, ucum-convert.
import { describe, expect, test } from "vitest";
import { substance } from "../../../src/core/gas/index.ts";
import { convertUcum, MOLAR_VOLUME_US, UNITS, ucumCode, ucumFromUnit } from "../../../src/core/quantity/index.ts";
import { convertedValue, goldenCase, goldenCases } from "./golden-cases.ts";

describe("codes", () => {
  test.each(goldenCases("formats", "ucum-valid", 3).slice(0, 2))("%s", (_, { inputs, expected }) => {
    expect(inputs.codes.map((code: string) => ucumCode(code) !== null)).toEqual(expected.valid);
  });

  test.each(goldenCases("formats", "ucum-valid", 3).slice(2))("%s", (_, { inputs, expected }) => {
    expect(inputs.codes.map((code: string) => ucumCode(code)?.meaning)).toEqual(expected.meaning);
    expect(inputs.codes.map((code: string) => ucumCode(code)?.mayEmit)).toEqual(expected.may_emit);
  });

  test("every code that a unit writes may be written", () => {
    expect(UNITS.map(({ unit }) => ucumCode(ucumFromUnit(unit))?.mayEmit)).toEqual(UNITS.map(() => true));
  });
});

describe("conversions", () => {
  const plain = ["formats-g-ucum-convert-01", "formats-g-ucum-convert-02", "formats-g-ucum-convert-03"].map((id) =>
    goldenCase("formats", id),
  );
  test.each(plain.map((one) => [`${one.id} [${one.source}]`, one] as const))("%s", (_, { inputs, expected }) => {
    expect(convertUcum(inputs.value, inputs.from, inputs.to)).toEqual({ ok: true, value: expected.value });
  });

  test.each([["formats-g-ucum-convert-04"], ["formats-g-ucum-trap-01"]])("%s is refused: the kinds differ", (id) => {
    const { inputs } = goldenCase("formats", id);
    expect(convertUcum(inputs.value, inputs.from, inputs.to)).toMatchObject({ ok: false, refusal: { type: "different-dimensions" } });
  });

  test("formats-g-ucum-convert-05: with a molar mass and a volume it is no conversion of units but of substance", () => {
    const { inputs, expected } = goldenCase("formats", "formats-g-ucum-convert-05");
    const molarMass = { gas: "carbon_monoxide", gramsPerMole: substance("carbon_monoxide")?.molarMassGramsPerMole ?? 0 };
    expect([molarMass.gramsPerMole, MOLAR_VOLUME_US.litresPerMole]).toEqual([inputs.molar_mass_g_per_mol, inputs.molar_volume_L_per_mol]);
    const milligrams = convertedValue(
      { value: inputs.ppm, unit: "ppm", gas: "carbon_monoxide" },
      { unit: "mg/m3", molarMass, molarVolume: MOLAR_VOLUME_US },
    );
    expect(milligrams).toBeCloseTo(expected.mg_per_m3, 3);
  });

  const { inputs, expected } = goldenCase("formats", "formats-g-ucum-convert-06");
  const rows: readonly (readonly [number, string, string, number])[] = inputs.cases.map(
    (row: readonly [number, string, string], index: number) => [...row, expected.values[index]],
  );
  test.each(rows)("formats-g-ucum-convert-06: %d %s in %s is %d", (value, from, to, wanted) => {
    const moved = convertUcum(value, from, to);
    expect(moved.ok && Math.abs(moved.value - wanted)).toBeLessThanOrEqual(1e-9 * wanted);
  });
});
