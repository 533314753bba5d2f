import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { gasesNamed, gasInLabel, labelMeaning, substanceByName, substances } from "../../../src/core/gas/index.ts";

const idOf = (text: string) => {
  const found = substanceByName(text);
  return found.ok ? found.value.id : found.refusal;
};

describe("names", () => {
  test.each([
    ["CO", "carbon_monoxide"],
    ["co", "carbon_monoxide"],
    ["carbon monoxide", "carbon_monoxide"],
    ["Carbon-Monoxide", "carbon_monoxide"],
    ["Kohlenmonoxid", "carbon_monoxide"],
    ["monoxyde de carbone", "carbon_monoxide"],
    ["H2S", "hydrogen_sulphide"],
    ["H₂S", "hydrogen_sulphide"],
    ["hydrogen sulfide", "hydrogen_sulphide"],
    ["HYDROGÈNE SULFURÉ", "hydrogen_sulphide"],
    ["O2", "oxygen"],
    ["Sauerstoff", "oxygen"],
    ["NH3", "ammonia"],
    ["ammonia", "ammonia"],
    ["Benzol", "benzene"],
    ["Benzin", "gasoline"],
    ["petrol", "gasoline"],
    ["n-hexane", "n_hexane"],
    ["1,3-Butadiene", "butadiene"],
    ["CH4", "methane"],
    ["MEK", "mek"],
    ["EtO", "ethylene_oxide"],
    ["isobutene", "isobutylene"],
    ["Flußsäure", "hydrogen_fluoride"],
    ["n-butane", "n_butane"],
    ["ethane", "ethane"],
  ])("%s is %s", (text, id) => {
    expect(idOf(text)).toBe(id);
  });

  test.each([
    ["C4H10", ["n_butane", "isobutane"]],
    ["Bottled gas", ["propane", "lpg"]],
  ])("%s belongs to several, so a person says which", (text, near) => {
    expect(idOf(text)).toEqual({ type: "unknown-gas", gas: text, near, several: true });
  });

  test.each([
    ["methan0l", "methanol"],
    ["chlorin", "chlorine"],
    ["hydrogen sulfite", "hydrogen_sulphide"],
    ["Tolulol", "toluene"],
  ])("%s is nothing, and %s is offered", (text, near) => {
    const found = substanceByName(text);
    expect(found).toMatchObject({ ok: false, refusal: { several: false } });
    expect(found.ok ? [] : found.refusal.near).toContain(near);
  });

  test.each(["", "x", "CO3", "gas", "2", "argon", "Xe"])("%j is nothing", (text) => {
    expect(idOf(text)).toMatchObject({ type: "unknown-gas" });
  });

  test("every id and every own name leads to its substance alone", () => {
    for (const { id, name } of substances) expect([idOf(id), idOf(name)]).toEqual([id, id]);
  });

  test("a suggestion is never an answer: changing a letter of a long name gives that gas only if the new word is a name", () => {
    const long = substances.filter(({ name }) => name.length > 8);
    fc.assert(
      fc.property(fc.constantFrom(...long), fc.nat(), fc.constantFrom("q", "z", "x"), ({ name }, at, letter) => {
        const slipped = name.slice(0, at % name.length) + letter + name.slice((at % name.length) + 1);
        expect(substanceByName(slipped).ok).toBe(gasesNamed(slipped).length === 1);
      }),
    );
  });
});

describe("headings", () => {
  test.each([
    ["CO (ppm)", "carbon_monoxide", "ppm", "certain"],
    ["CO [ppm]", "carbon_monoxide", "ppm", "certain"],
    ["CO_ppm", "carbon_monoxide", "ppm", "certain"],
    ["CO", "carbon_monoxide", null, "certain"],
    ["CO_A", "carbon_monoxide", null, "certain"],
    ["CO-1", "carbon_monoxide", null, "certain"],
    ["CO2_B", "carbon_dioxide", null, "certain"],
    ["CO2 (vol%)", "carbon_dioxide", "vol%", "certain"],
    ["H2S [ppm]", "hydrogen_sulphide", "ppm", "certain"],
    ["H₂S in ppm", "hydrogen_sulphide", "ppm", "certain"],
    ["h2s_ppm", "hydrogen_sulphide", "ppm", "strong"],
    ["co_ppm", "carbon_monoxide", "ppm", "weak"],
    ["O2", "oxygen", null, "certain"],
    ["O2 (%)", "oxygen", "ambiguous per cent", "certain"],
    ["O2 [%vol]", "oxygen", "vol%", "certain"],
    ["Sauerstoff in Vol.-%", "oxygen", "vol%", "certain"],
    ["Oxygène % vol", "oxygen", "vol%", "certain"],
    ["Benzol (µg/m³)", "benzene", "ug/m3", "certain"],
    ["CO (mg/m3)", "carbon_monoxide", "mg/m3", "certain"],
    ["Carbon monoxide, ppm", "carbon_monoxide", "ppm", "certain"],
    ["Carbon Dioxide", "carbon_dioxide", null, "certain"],
    ["Cl2", "chlorine", null, "certain"],
    ["CL2", "chlorine", null, "certain"],
    ["NO (ppm)", "nitric_oxide", "ppm", "certain"],
    ["NO", "nitric_oxide", null, "weak"],
    ["NO2", "nitrogen_dioxide", null, "certain"],
    ["CH4", "methane", null, "certain"],
    ["CH4 (%LEL)", "methane", "%LEL", "strong"],
    ["LEL (CH4)", "methane", null, "strong"],
    ["Pentane % LEL", "n_pentane", "%LEL", "strong"],
    ["LEL", "flammable, gas not said", null, "certain"],
    ["Flammable", "flammable, gas not said", null, "certain"],
    ["% UEG", "flammable, gas not said", "%LEL", "certain"],
    ["Combustible gas (%LEL)", "flammable, gas not said", "%LEL", "certain"],
    ["EX", "flammable, gas not said", null, "weak"],
    ["CO TWA (ppm)", "carbon_monoxide", "ppm", "weak"],
    ["H2S alarm", "hydrogen_sulphide", null, "weak"],
    ["CO north gate", "carbon_monoxide", null, "strong"],
    ["Sensor 2: H2S", "hydrogen_sulphide", null, "certain"],
    ["Alcohol", "ethanol", null, "weak"],
  ] as const)("%s: %s, %s, %s", (label, gas, unit, sureness) => {
    const meaning = labelMeaning(label);
    expect([meaning.gas, meaning.unit, meaning.sureness]).toEqual([gas, unit, sureness]);
    expect(meaning.reasons.length).toBeGreaterThan(0);
  });

  test.each([
    ["No", "no-gas-word"],
    ["No.", "no-gas-word"],
    ["no", "no-gas-word"],
    ["Co", "no-gas-word"],
    ["Time", "no-gas-word"],
    ["Datum", "no-gas-word"],
    ["Battery (V)", "no-gas-word"],
    ["Temp (°C)", "no-gas-word"],
    ["Serial no", "no-gas-word"],
    ["note", "no-gas-word"],
    ["Comment", "no-gas-word"],
    ["CT214J3", "no-gas-word"],
    ["Fuel Flow", "no-gas-word"],
    ["Air Flow", "no-gas-word"],
    ["Pressure", "no-gas-word"],
    ["", "no-gas-word"],
    ["CO/H2S", "several-gases"],
    ["CO (H2 compensated)", "several-gases"],
    ["LEL / O2", "several-gases"],
    ["VOC (ppm)", "sum-of-gases"],
    ["NOx", "sum-of-gases"],
  ])("%j names no one gas: %s", (label, code) => {
    const meaning = labelMeaning(label);
    expect(meaning.gas).toBeNull();
    expect(meaning.reasons.map((reason) => reason.code)).toEqual([code]);
    expect(gasInLabel(label)).toBeNull();
  });

  test("handed to the reader of tables, flammable without a gas is a gas of null", () => {
    expect(gasInLabel("LEL")).toMatchObject({ gas: null, sureness: "certain" });
    expect(gasInLabel("CO")).toMatchObject({ gas: "carbon_monoxide", reasons: [{ code: "formula", line: null, text: "CO" }] });
  });

  test("every formula that one gas alone has reads as that gas, with any unit behind it", () => {
    for (const { id, formula } of substances) {
      if (formula === null || gasesNamed(formula).length !== 1) continue;
      expect([formula, labelMeaning(`${formula} (ppm)`).gas]).toEqual([formula, id]);
    }
  });

  test("any text is answered", () => {
    fc.assert(
      fc.property(fc.string({ unit: "grapheme" }), (label) => {
        expect(["certain", "strong", "weak"]).toContain(labelMeaning(label).sureness);
      }),
    );
  });
});
