// IEC 60079-20-1:2010 and NFPA 497 (2008), NIOSH Pocket Guide IDLH entries marked [10%LEL]: goldens/sensing.json, topic lel-basis.
import { describe, expect, test } from "vitest";
import { lelBasis, limitsFor, substanceByName } from "../../../src/core/gas/index.ts";
import {
  compareQuantities,
  convertQuantity,
  type LelBasis,
  type Quantity,
  quantity,
  type Target,
} from "../../../src/core/quantity/index.ts";
import { goldenCase, goldenCases, within } from "../quantity/golden-cases.ts";

const cases = goldenCases("sensing", "lel-basis", 17);
const relative = 1e-6;

/** Gas and basis out of the product's own tables, held against the figure that the case prints. */
function tabulated(name: string, source: string, printed: number): LelBasis {
  const gas = substanceByName(name);
  const basis = gas.ok ? lelBasis(gas.value.id, source) : gas;
  if (!basis.ok) throw new Error(`${name} has no basis ${source}`);
  expect(basis.value.lelVolumePercent).toBe(printed);
  return { gas: basis.value.gas, source, lelVolumePercent: basis.value.lelVolumePercent };
}

function made(parts: Parameters<typeof quantity>[0]): Quantity {
  const one = quantity(parts);
  if (!one.ok) throw new Error(one.refusal.type);
  return one.value;
}

function moved(from: Quantity, to: Target): number {
  const result = convertQuantity(from, to);
  if (!result.ok) throw new Error(result.refusal.type);
  return result.value.value;
}

describe("the same reading on two bases", () => {
  test.each(cases.filter(([, one]) => one.expected.pct_lel_nfpa_of_100_pct_lel_iec !== undefined))("%s", (_, { inputs, expected }) => {
    const iec = tabulated(inputs.gas, "IEC", inputs.lel_iec_volpct);
    const nfpa = tabulated(inputs.gas, "NFPA", inputs.lel_nfpa_volpct);
    const across = (value: number, from: LelBasis, to: LelBasis) =>
      moved(made({ value, unit: "%LEL", gas: from.gas, lelBasis: from }), { unit: "%LEL", lelBasis: to });
    expect(within(across(100, iec, nfpa), expected.pct_lel_nfpa_of_100_pct_lel_iec, relative)).toBe(true);
    expect(within(across(10, nfpa, iec), expected.pct_lel_iec_of_10_pct_lel_nfpa, relative)).toBe(true);
    expect(within(across(10, iec, nfpa), expected.pct_lel_nfpa_of_10_pct_lel_iec, relative)).toBe(true);
  });
});

describe("a cylinder in vol % read on two bases", () => {
  test.each(cases.filter(([, one]) => one.inputs.concentration_volpct !== undefined))("%s", (_, { inputs, expected }) => {
    const cylinder = made({ value: inputs.concentration_volpct, unit: "vol%", gas: "methane" });
    const on = (lelBasisOf: LelBasis) => moved(cylinder, { unit: "%LEL", lelBasis: lelBasisOf });
    expect(within(on(tabulated(inputs.gas, "NFPA", inputs.lel_nfpa_volpct)), expected.pct_lel_nfpa, relative)).toBe(true);
    expect(within(on(tabulated(inputs.gas, "IEC", inputs.lel_iec_volpct)), expected.pct_lel_iec, relative)).toBe(true);
  });
});

test("sens-basis-alarm-10-volpct: one set point, two concentrations", () => {
  const { inputs, expected } = goldenCase("sensing", "sens-basis-alarm-10-volpct");
  const at = (source: string, printed: number) =>
    moved(made({ value: inputs.set_point_pct_lel, unit: "%LEL", gas: "methane", lelBasis: tabulated(inputs.gas, source, printed) }), {
      unit: "vol%",
    });
  expect(at("NFPA", inputs.lel_nfpa_volpct)).toBe(expected.volpct_nfpa);
  expect(within(at("IEC", inputs.lel_iec_volpct), expected.volpct_iec, 1e-9)).toBe(true);
});

describe("10 %LEL in ppm, and the immediately dangerous value that NIOSH set there", () => {
  test.each(cases.filter(([, one]) => one.inputs.lel_npg_volpct !== undefined))("%s", (_, { inputs, expected }) => {
    const basis = tabulated(inputs.gas, "NPG", inputs.lel_npg_volpct);
    const ppm = moved(made({ value: inputs.pct_lel, unit: "%LEL", gas: basis.gas, lelBasis: basis }), { unit: "ppm" });
    expect(within(ppm, expected.concentration_ppm, 1e-9)).toBe(true);
    const answer = limitsFor(basis.gas, "US-NIOSH", { on: null });
    const dangerous = answer.status === "limits" ? answer.limits.find((limit) => limit.kind === "immediately-dangerous") : undefined;
    expect(dangerous?.published?.value).toBe(expected.concentration_ppm);
  });
});

test("sens-basis-missing: refused", () => {
  const { inputs } = goldenCase("sensing", "sens-basis-missing");
  const a = made({
    value: inputs.a.pct_lel,
    unit: "%LEL",
    gas: "methane",
    lelBasis: { gas: "methane", source: "NFPA", lelVolumePercent: inputs.a.lel_volpct },
  });
  const b = made({ value: inputs.b.pct_lel, unit: "%LEL", gas: "methane", lelBasis: inputs.b.lel_volpct });
  expect(compareQuantities(a, b)).toEqual({ ok: false, refusal: { type: "lel-basis-missing", gas: "methane" } });
});

test("sens-basis-same-gas-two-bases: compared in vol %", () => {
  const { inputs, expected } = goldenCase("sensing", "sens-basis-same-gas-two-bases");
  const [a, b] = [inputs.a, inputs.b].map((one, index) =>
    made({
      value: one.pct_lel,
      unit: "%LEL",
      gas: "propane",
      lelBasis: tabulated("propane", index === 0 ? "NFPA" : "IEC", one.lel_volpct),
    }),
  ) as [Quantity, Quantity]; // Two in, two out.
  expect(within(moved(a, { unit: "vol%" }), expected.a_volpct, 1e-9)).toBe(true);
  expect(within(moved(b, { unit: "vol%" }), expected.b_volpct, 1e-9)).toBe(true);
  expect(compareQuantities(a, b)).toEqual({ ok: true, value: expected.higher === "a" ? 1 : -1 });
});
