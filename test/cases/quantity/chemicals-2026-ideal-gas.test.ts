// chemicals 1.5.2 (github.com/CalebBell/chemicals), ppmv_to_mgm3 and mgm3_to_ppmv: ideal gas at T and P.
import { describe, expect, test } from "vitest";
import { molarVolumeAt } from "../../../src/core/quantity/index.ts";
import { convertedValue, type GoldenCase, goldenCases, within } from "./golden-cases.ts";

function basis({ inputs }: GoldenCase) {
  return {
    molarMass: { gas: inputs.gas as string, gramsPerMole: inputs.molar_mass_g_mol as number },
    molarVolume: molarVolumeAt({ kelvin: inputs.temperature_K, pascal: inputs.pressure_Pa }),
  };
}

describe("molar volume from the gas constant", () => {
  test.each(goldenCases("chemicals", "molar-volume", 3))("%s", (_, { inputs, expected }) => {
    const { litresPerMole } = molarVolumeAt({ kelvin: inputs.temperature_K, pascal: inputs.pressure_Pa });
    expect(within(litresPerMole, expected.molar_volume_L_mol, 1e-12)).toBe(true);
  });
});

describe("ppm to mg/m3", () => {
  test.each(goldenCases("chemicals", "ppm-to-mgm3", 182))("%s", (_, one) => {
    const ppm = { value: one.inputs.concentration_ppm, unit: "ppm", gas: one.inputs.gas } as const;
    expect(within(convertedValue(ppm, { unit: "mg/m3", ...basis(one) }), one.expected.concentration_mg_m3, 1e-9)).toBe(true);
  });
});

describe("mg/m3 to ppm", () => {
  test.each(goldenCases("chemicals", "mgm3-to-ppm", 39))("%s", (_, one) => {
    const { molarMass, molarVolume } = basis(one);
    const milligrams = { value: one.inputs.concentration_mg_m3, unit: "mg/m3", gas: one.inputs.gas, molarVolume } as const;
    expect(within(convertedValue(milligrams, { unit: "ppm", molarMass }), one.expected.concentration_ppm, 1e-9)).toBe(true);
  });
});
