// chemicals 1.5.2 (github.com/CalebBell/chemicals): fire_mixing, LFL_ISO_10156_2017 and its tests, Crowl_Louvar_LFL, Suzuki.
import { describe, expect, test } from "vitest";
import {
  blendLimit,
  type FuelPart,
  INERT_COEFFICIENTS,
  lelAtTemperature,
  lelBases,
  lelFromHeat,
  limitsFromFormula,
  mixtureLimit,
  percentOfLel,
  substanceByName,
} from "../../../src/core/gas/index.ts";
import { type GoldenCase, goldenCase, goldenCases, within } from "../quantity/golden-cases.ts";

const value = <Value>(result: { readonly ok: true; readonly value: Value } | { readonly ok: false; readonly refusal: unknown }): Value => {
  if (!result.ok) throw new Error(JSON.stringify(result.refusal));
  return result.value;
};

interface Component {
  readonly name: string;
  readonly fuel_fraction: number;
  readonly [limit: string]: number | string;
}

const parts = (components: readonly Component[], key: string, times = 1): readonly FuelPart[] =>
  components.map((one) => ({ gas: one.name, share: one.fuel_fraction, limitVolumePercent: (one[key] as number) * times, source: key }));

describe("Le Chatelier on two bases, by shares and by concentrations", () => {
  const mixtures = goldenCases("chemicals", "le-chatelier", 15).filter(([, one]) => one.expected.lel_mix_iec_volpct !== undefined);
  test.each(mixtures)("%s", (_, { inputs, expected }) => {
    const components: readonly Component[] = inputs.components;
    expect(within(value(mixtureLimit(parts(components, "lel_iec_volpct"))), expected.lel_mix_iec_volpct, 1e-9)).toBe(true);
    expect(within(value(mixtureLimit(parts(components, "lel_nfpa_volpct"))), expected.lel_mix_nfpa_volpct, 1e-9)).toBe(true);
    expect(within(value(mixtureLimit(parts(components, "uel_nfpa_volpct"))), expected.uel_mix_nfpa_volpct, 1e-9)).toBe(true);
    const fuels = components.map((one) => ({
      gas: one.name,
      volumePercent: inputs.total_volpct * one.fuel_fraction,
      lelVolumePercent: one.lel_nfpa_volpct as number, // A limit; only `name` is a text.
      source: "NFPA",
    }));
    const air = value(percentOfLel(fuels));
    expect(within(air.percentOfLel, expected.percent_lel_nfpa, 1e-9)).toBe(true);
    expect(within(air.percentOfLel, expected.percent_lel_nfpa_by_sum, 1e-9)).toBe(true);
    expect(within(air.mixtureLelVolumePercent ?? 0, expected.lel_mix_nfpa_volpct, 1e-9)).toBe(true);
  });

  test.each(mixtures)("the limits of %s are those of the tables", (_, { inputs }) => {
    for (const one of inputs.components) {
      const found = substanceByName(one.name.replace(/ \(.*/, ""));
      const gas = found.ok ? found.value.id : one.name;
      const tabulated = Object.fromEntries(lelBases(gas).map((basis) => [basis.source, basis.lelVolumePercent]));
      // Isomers of xylene stand under one limit entry and three flammable ones: the general name is no basis for them.
      if (!/xylene/i.test(one.name))
        expect({ [one.name]: [tabulated.IEC, tabulated.NFPA] }).toEqual({ [one.name]: [one.lel_iec_volpct, one.lel_nfpa_volpct] });
    }
  });
});

describe("library examples after Crowl and Louvar", () => {
  const fractions = ["chem-fire-mixing-example-lel", "chem-fire-mixing-example-uel"].map((id) => goldenCase("chemicals", id));
  test.each(fractions.map((one) => [`${one.id} [${one.source}]`, one] as const))("%s", (_, { inputs, expected }) => {
    const [wanted, key] =
      expected.lel_mix_volpct === undefined ? [expected.uel_mix_volpct, "uel_volfrac"] : [expected.lel_mix_volpct, "lel_volfrac"];
    expect(within(value(mixtureLimit(parts(inputs.components, key, 100))), wanted, 1e-9)).toBe(true);
  });

  const percents = goldenCases("sensing", "le-chatelier", 4).filter(([, one]) => one.inputs.components[0].fuel_fraction !== undefined);
  test.each(percents)("%s", (_, { inputs, expected }) => {
    const [wanted, key] =
      expected.lel_mix_volpct === undefined ? [expected.uel_mix_volpct, "uel_volpct"] : [expected.lel_mix_volpct, "lel_volpct"];
    expect(within(value(mixtureLimit(parts(inputs.components, key))), wanted, 1e-7)).toBe(true);
  });

  test("sens-lc-air-three-fuels", () => {
    const { inputs, expected } = goldenCase("sensing", "sens-lc-air-three-fuels");
    const fuels = inputs.components.map((one: { readonly name: string; readonly volpct: number; readonly lel_volpct: number }) => ({
      gas: one.name,
      volumePercent: one.volpct,
      lelVolumePercent: one.lel_volpct,
      source: "NFPA",
    }));
    const air = value(percentOfLel(fuels));
    expect(within(air.percentOfLel, expected.pct_lel, 1e-6)).toBe(true);
    expect(within(air.mixtureLelVolumePercent ?? 0, expected.lel_mix_volpct, 1e-6)).toBe(true);
  });
});

describe("blends with inert gases, ISO 10156:2017", () => {
  const blends: readonly (readonly [string, GoldenCase])[] = [
    ...goldenCases("chemicals", "le-chatelier-inert", 8),
    ...goldenCases("sensing", "le-chatelier-inert", 5),
  ];
  const blendOf = (inputs: GoldenCase["inputs"]) => {
    const limits: Readonly<Record<string, number>> = inputs.lel_inputs_volfrac ?? inputs.lel_volfrac;
    return Object.entries<number>(inputs.mole_fractions).map(([gas, fraction]) => ({ gas, fraction, lelFraction: limits[gas] ?? null }));
  };

  test.each(blends.filter(([, one]) => one.expected.lel_blend_volpct !== undefined))("%s", (_, { inputs, expected, tolerance }) => {
    const { lelVolumePercent, factor } = value(blendLimit(blendOf(inputs)));
    const { rel } = tolerance as { readonly rel: number };
    expect(within(lelVolumePercent, expected.lel_blend_volpct, rel)).toBe(true);
    if (expected.dilution_factor !== undefined) expect(within(factor, expected.dilution_factor, rel)).toBe(true);
  });

  test("chem-iso10156-inert-coefficients", () => {
    expect(INERT_COEFFICIENTS).toEqual(goldenCase("chemicals", "chem-iso10156-inert-coefficients").expected.K_k);
  });

  test("sens-lc-iso-unknown-inert: refused", () => {
    expect(blendLimit(blendOf(goldenCase("sensing", "sens-lc-iso-unknown-inert").inputs))).toEqual({
      ok: false,
      refusal: { type: "no-coefficient-for-inert", gas: "steam" },
    });
  });
});

describe("estimates where no limit is tabulated", () => {
  const formula = ({ C, H, O }: { readonly C: number; readonly H: number; readonly O: number }) => `C${C}H${H}${O === 0 ? "" : `O${O}`}`;
  const estimates = ["sens-est-crowl-louvar-hexane-lel", "sens-est-crowl-louvar-ethanol-lel"].map((id) => goldenCase("sensing", id));
  test.each([...estimates, goldenCase("chemicals", "chem-crowl-louvar-hexane")].map((one) => [`${one.id} [${one.source}]`, one] as const))(
    "%s",
    (_, { inputs, expected }) => {
      const { lel } = value(limitsFromFormula(formula(inputs.atoms)));
      expect(lel.flag).toBe("estimate");
      expect(within(lel.volumePercent, 100 * expected.lel_volfrac, 1e-9)).toBe(true);
    },
  );

  test("sens-est-suzuki-propane", () => {
    const { inputs, expected } = goldenCase("sensing", "sens-est-suzuki-propane");
    const estimate = value(lelFromHeat({ formula: "C3H8", heatMegajoulesPerMole: inputs.heat_of_combustion_MJ_mol }));
    expect(estimate.flag).toBe(expected.flag);
    expect(within(estimate.volumePercent, expected.lel_volpct, 1e-6)).toBe(true);
    // An estimate can lie above the tabulated limit (2.1 vol %), which is why it must never replace one.
    expect(estimate.volumePercent).toBeGreaterThan(
      lelBases("propane").find((basis) => basis.source === "NFPA")?.lelVolumePercent ?? Number.NaN,
    );
  });

  test("sens-est-suzuki-refuse-halogen, sens-est-crowl-louvar-refuse-nitrogen", () => {
    const halogen = goldenCase("sensing", "sens-est-suzuki-refuse-halogen").inputs.formula;
    const nitrogen = goldenCase("sensing", "sens-est-crowl-louvar-refuse-nitrogen").inputs.formula;
    expect(lelFromHeat({ formula: halogen, heatMegajoulesPerMole: -1 })).toMatchObject({
      ok: false,
      refusal: { type: "element-outside-rule", element: "Cl" },
    });
    expect(limitsFromFormula(nitrogen)).toMatchObject({ ok: false, refusal: { type: "element-outside-rule", element: "N" } });
  });

  test.each(goldenCases("sensing", "lel-temperature", 2))("%s", (_, { inputs, expected }) => {
    expect(
      within(lelAtTemperature({ lelVolumePercentAt25: inputs.lel_25C_volpct, celsius: inputs.temperature_C }), expected.lel_volpct, 1e-6),
    ).toBe(true);
  });
});
