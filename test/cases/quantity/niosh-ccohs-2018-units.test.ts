// NIOSH Pocket Guide conversion lines, CCOHS conversion of limits, Table Z-1 footnote: goldens/exposure.json, topic units.
import { expect, test } from "vitest";
import { substance } from "../../../src/core/gas/index.ts";
import {
  GAS_CONSTANT,
  MOLAR_VOLUME_EU,
  MOLAR_VOLUME_US,
  type MolarVolume,
  molarVolumeAt,
  molarVolumeFrom22,
  molarVolumeFrom62,
} from "../../../src/core/quantity/index.ts";
import { convertedValue, goldenCase } from "./golden-cases.ts";

const milligrams = (ppm: number, gramsPerMole: number, molarVolume: MolarVolume): number =>
  convertedValue({ value: ppm, unit: "ppm", gas: "x" }, { unit: "mg/m3", molarMass: { gas: "x", gramsPerMole }, molarVolume });

const named = (id: string) => {
  const one = goldenCase("exposure", id);
  return [`${id}: ${one.statement} [${one.source}; ${one.mark}]`, one] as const;
};

test.each([named("exposure-units-01"), named("exposure-units-10")])("%s", (_, { inputs, expected, tolerance }) => {
  const volume = [MOLAR_VOLUME_US, MOLAR_VOLUME_EU].find((one) => one.litresPerMole === inputs.molar_volume_l_mol);
  expect(Math.abs(milligrams(inputs.ppm, inputs.molar_mass_g_mol, volume!) - expected.mg_m3)).toBeLessThanOrEqual(tolerance as number);
});

const [nameOfFactors, factors] = named("exposure-units-03");
test.each(Object.entries<number>(factors.expected.mg_m3_per_ppm))(`${nameOfFactors} %s`, (gas, printed) => {
  const mass = factors.inputs.molar_mass_g_mol[gas];
  expect(substance(gas)?.molarMassGramsPerMole).toBe(mass);
  const factor = milligrams(1, mass, MOLAR_VOLUME_US);
  expect(Math.abs(factor - printed)).toBeLessThanOrEqual(0.005 + 1e-12);
  expect(substance(gas)?.pocketGuideConversion ?? "").toMatch(gas === "xylenes" ? "4.34" : `= ${printed.toFixed(2)}`);
});

const [nameOfMisses, misses] = named("exposure-units-04");
test.each(Object.entries<number>(misses.expected.computed))(`${nameOfMisses} %s`, (gas, computed) => {
  const factor = milligrams(1, misses.inputs.molar_mass_g_mol[gas], MOLAR_VOLUME_US);
  expect(Math.abs(factor - computed)).toBeLessThanOrEqual(0.0001);
  expect(Math.abs(factor - misses.expected.printed[gas])).toBeLessThanOrEqual(0.01);
});

test.each([named("exposure-units-05")])("%s", (_, { inputs, expected, tolerance }) => {
  expect(Math.abs(GAS_CONSTANT - inputs.gas_constant_j_mol_k)).toBeLessThan(1e-9);
  const pascal = inputs.pressure_kpa * 1000;
  const volumes: readonly (readonly [MolarVolume, number])[] = [
    [molarVolumeAt({ kelvin: 293.15, pascal }), expected.v20_l_mol],
    [molarVolumeAt({ kelvin: 298.15, pascal }), expected.v25_l_mol],
    [molarVolumeFrom22(25), expected["v25_from_22.4_l_mol"]],
    [molarVolumeFrom62({ celsius: 25, millimetresOfMercury: 760 }), expected["v25_from_62.4_l_mol"]],
  ];
  for (const [volume, wanted] of volumes) expect(Math.abs(volume.litresPerMole - wanted)).toBeLessThanOrEqual(tolerance as number);
});

test.each([named("exposure-units-06")])("%s", (_, { inputs, expected, tolerance }) => {
  for (const letter of ["a", "b"]) {
    const volume = molarVolumeFrom62({ celsius: inputs[`case_${letter}_t_c`], millimetresOfMercury: inputs[`case_${letter}_p_mmhg`] });
    expect(Math.abs(milligrams(inputs.ppm, inputs.molar_mass_g_mol, volume) - expected[`case_${letter}_mg_m3`])).toBeLessThanOrEqual(
      tolerance as number,
    );
  }
});
