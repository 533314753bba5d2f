import { describe, expect, test } from "vitest";
import { MEANINGS_OF_PER_CENT, powerOfTenBetween, UNITS, type Unit, unitFromText } from "../../../src/core/quantity/index.ts";

const spellings: readonly (readonly [Unit, readonly string[]])[] = [
  ["ppm", ["ppm", "PPM", "Ppm", "[ppm]", "(ppm)", "ppm(v)", "ppmv", "ppm vol", "µmol/mol", "μmol/mol", "ml/m³", " ppm "]],
  ["ppb", ["ppb", "PPB", "[ppb]", "nmol/mol"]],
  [
    "vol%",
    [
      "% vol",
      "%vol",
      "vol%",
      "Vol%",
      "Vol.-%",
      "vol.-%",
      "% v/v",
      "%v/v",
      "% (v/v)",
      "Vol %",
      "[%vol]",
      "% Vol.",
      "Volumenprozent",
      "%\u00a0vol",
      "\uff05vol",
      "Vol.\u2011%",
    ],
  ],
  ["mol/mol", ["mol/mol", "MOL/MOL", "(mol/mol)", "mole fraction"]],
  ["%LEL", ["%LEL", "% LEL", "LEL%", "%lel", "% UEG", "%UEG", "% LFL", "% LIE", "%{LEL}", "(% UEG)", "% of LEL"]],
  ["mg/m3", ["mg/m3", "mg/m³", "mg/m^3", "mg m-3", "mg·m⁻³", "MG/M3", "mg/cbm", "㎎/m³"]],
  ["ug/m3", ["ug/m3", "µg/m³", "μg/m³", "\u00b5g/m3", "\u03bcg/m3", "µg/m^3", "mcg/m3"]],
];

describe("spellings", () => {
  test.each(spellings.flatMap(([unit, texts]) => texts.map((text) => [text, unit] as const)))("%j is %s", (text, unit) => {
    expect(unitFromText(text)).toBe(unit);
  });

  test.each(["%", "(%)", "percent", "Prozent", "pct", "\uff05", " % "])("%j is vol %% or %LEL, which nobody has said", (text) => {
    expect(unitFromText(text)).toBe("ambiguous per cent");
  });

  test.each([
    "",
    " ",
    "Mg/m3",
    "Mg/m³",
    "ppmw",
    "ppm·h",
    "[ppm].h",
    "mg/Nm3",
    "LEL",
    "vol",
    "g/m3",
    "°C",
    "V",
    "none",
    "ppm ppm",
    "%RH",
    "% rel",
    "mg",
  ])("%j names no unit of a gas", (text) => {
    expect(unitFromText(text)).toBeNull();
  });

  test("no spelling belongs to two units, and every code and id reads as its own unit", () => {
    const names = UNITS.flatMap((row) => row.names);
    expect(new Set(names).size).toBe(names.length);
    for (const { unit, names: own } of UNITS) for (const text of [unit, ...own]) expect([text, unitFromText(text)]).toEqual([text, unit]);
    expect(MEANINGS_OF_PER_CENT.map((unit) => UNITS.find((row) => row.unit === unit)?.ucum)).toEqual(["%", "%"]);
  });
});

describe("powers of ten", () => {
  test.each([
    ["ppm", "ppb", 3],
    ["vol%", "ppm", 4],
    ["mol/mol", "ppm", 6],
    ["mol/mol", "vol%", 2],
    ["ppb", "vol%", -7],
    ["mg/m3", "ug/m3", 3],
    ["%LEL", "%LEL", 0],
    ["%LEL", "vol%", null],
    ["%LEL", "mol/mol", null],
    ["ppm", "mg/m3", null],
  ] as const)("%s in %s: %s", (from, to, exponent) => {
    expect(powerOfTenBetween(from, to)).toBe(exponent);
    expect(powerOfTenBetween(to, from)).toBe(exponent === null ? null : -exponent + 0);
  });
});
