import { readFileSync } from "node:fs";
import Ajv from "ajv/dist/2020.js";
import { describe, expect, test } from "vitest";
import { answerSchema, calculators, inputSchema, type SlateObject, workOut } from "../../src/work/slate/index.ts";

interface Golden {
  readonly id: string;
  readonly source: string;
  readonly inputs: Record<string, never>;
  readonly expected: Record<string, never>;
}
const goldens: readonly Golden[] = JSON.parse(readFileSync("test/cases/goldens/exposure.json", "utf8"));
const golden = (id: string): Golden => {
  const found = goldens.find((one) => one.id === id);
  if (found === undefined) throw new Error(`no golden ${id}`);
  return found;
};

const answer = (name: string, input: unknown) => {
  const worked = workOut(name, input);
  if (!worked.ok) throw new Error(`${name}: ${JSON.stringify(worked.refusal)}`);
  return worked.value;
};

/** [from, to, level] in minutes as pieces. */
const pieces = (segments: readonly (readonly number[])[]) =>
  segments.map(([from = 0, to = 0, level = 0]) => ({ minutes: to - from, level }));

describe("published cases through the slate", () => {
  test.each(["exposure-twa-01", "exposure-twa-02", "exposure-twa-03"])("%s", (id) => {
    const { inputs, expected } = golden(id) as { inputs: Record<string, number[][]>; expected: Record<string, number | string> };
    const given =
      inputs["pieces_h_ppm"]?.map(([hours = 0, level = 0]) => ({ minutes: hours * 60, level })) ??
      inputs["pieces_min_mg_m3"]?.map(([minutes = 0, level = 0]) => ({ minutes, level }));
    const { outputs, outcome } = answer("twa", {
      pieces: given,
      // Each of the three says what the rest of the 8 h was: there is none, or it was without exposure.
      unsampledMinutes: 0,
      ...(typeof inputs["limit_ppm"] === "number" ? { limit: inputs["limit_ppm"] } : {}),
    });
    expect(outputs["best"]).toBeCloseTo(Number(expected["twa_ppm"] ?? expected["twa_mg_m3"]), 8);
    if (expected["verdict"] !== undefined) expect(outcome).toBe(expected["verdict"]);
  });

  test.each(["exposure-stel-01", "exposure-stel-02", "exposure-stel-03", "exposure-stel-05"])("%s", (id) => {
    const { inputs, expected } = golden(id) as unknown as {
      inputs: { segments_min_ppm: number[][]; window_min: number; limit_ppm?: number };
      expected: Record<string, number | string>;
    };
    const { outputs, outcome } = answer("stel", {
      pieces: pieces(inputs.segments_min_ppm),
      windowMinutes: inputs.window_min,
      outside: "unexposed",
      ...(inputs.limit_ppm === undefined ? {} : { limit: inputs.limit_ppm }),
    });
    expect(outputs["high"]).toBeCloseTo(Number(expected["max_window_ppm"] ?? expected["sliding_max_ppm"]), 5);
    if (expected["verdict"] !== undefined) expect(outcome).toBe(expected["verdict"]);
  });

  test("exposure-mixture-01, 29 CFR 1910.1000(d)(2)(ii)", () => {
    const { inputs, expected } = golden("exposure-mixture-01") as unknown as {
      inputs: { pairs_c_and_limit_ppm: number[][] };
      expected: { index: number; verdict: string };
    };
    const parts = inputs.pairs_c_and_limit_ppm.map(([low = 0, limit = 0], index) => ({ gas: `gas ${index}`, low, limit }));
    const { outputs, outcome } = answer("mixture", { parts, additiveBy: "the example" });
    expect(outputs["low"]).toBeCloseTo(expected.index, 10);
    expect(outcome).toBe(expected.verdict);
  });

  test("exposure-mixture-03, sampling errors keep it undetermined", () => {
    const { inputs, expected } = golden("exposure-mixture-03") as unknown as {
      inputs: { c_limit_sae: number[][] };
      expected: { control_limit: number; conclusion: string };
    };
    const parts = inputs.c_limit_sae.map(([low = 0, limit = 0, samplingError = 0], index) => ({
      gas: `gas ${index}`,
      low,
      limit,
      samplingError,
    }));
    const { outputs, outcome } = answer("mixture", { parts, additiveBy: "the example" });
    expect(Number(outputs["controlLimit"])).toBeCloseTo(expected.control_limit, 3);
    expect(outcome).toBe(expected.conclusion);
  });

  test("exposure-mixture-06, an interval", () => {
    const { inputs, expected } = golden("exposure-mixture-06") as unknown as {
      inputs: { pairs_low_high_limit_ppm: number[][] };
      expected: { index_low: number; index_high: number; verdict: string };
    };
    const parts = inputs.pairs_low_high_limit_ppm.map(([low = 0, high = 0, limit = 0], index) => ({
      gas: `gas ${index}`,
      low,
      high,
      limit,
    }));
    const { outputs, outcome } = answer("mixture", { parts, additiveBy: "the example" });
    expect([outputs["low"], outputs["high"]]).toEqual([expect.closeTo(expected.index_low, 10), expect.closeTo(expected.index_high, 10)]);
    expect(outcome).toBe(expected.verdict);
  });

  test.each([
    ["exposure-shift-01", 12],
    ["exposure-shift-02", 10],
  ] as const)("%s, Brief & Scala 1975, %d h", (id, hours) => {
    const { expected } = golden(id) as unknown as { expected: { factor: number } };
    expect(modelsOf({ limit: 100, hoursPerDay: hours })["Brief and Scala, daily"]?.["factor"]).toBeCloseTo(expected.factor, 4);
  });

  test("three models of one 12-hour shift (exposure chapter section 8, computed there)", () => {
    const models = modelsOf({ limit: 50, hoursPerDay: 12, pieces: [20, 60, 40].map((level) => ({ minutes: 240, level })) });
    expect(models["OSHA, worst 8 h"]).toMatchObject({ low: 50, outcome: "within" });
    expect(models["UK and EU, any 24 h over 8 h"]).toMatchObject({ low: 60, outcome: "exceeds" });
    expect(models["Brief and Scala, daily"]).toMatchObject({ low: 40, limit: 25, outcome: "exceeds" });
  });

  // 29 CFR 1910.1000 Table Z-1 footnote (24.45 L/mol) with the molar mass of the table; NIOSH prints 1.15 mg/m3 per ppm.
  test("exposure-units-03, CO by the US molar volume", () => {
    const { outputs } = answer("unit", { value: 1, from: "ppm", to: "mg/m3", gas: "CO", molarVolume: "24.45" });
    expect(outputs["value"]).toBeCloseTo(1.15, 2);
  });

  // IEC 60079-20-1:2010 4.4 vol %, NFPA 497 (2008) 5 vol %, both read in reprint.
  test("10 %LEL of methane after IEC is 8.8 %LEL after NFPA", () => {
    const { outputs } = answer("lel", { gas: "methane", value: 10, unit: "%LEL", basis: "IEC" });
    expect(outputs["volumePercent"]).toBeCloseTo(0.44, 12);
    expect((outputs["bases"] as readonly SlateObject[]).find(({ basis }) => basis === "NFPA")?.["percentLel"]).toBeCloseTo(8.8, 12);
  });
});

describe("unsampled time (exposure chapter section 4, computed there)", () => {
  test.each([
    [{ pieces: [{ minutes: 390, level: 40 }], unsampledMinutes: 90, worstCase: 120, limit: 50 }, 32.5, 55, "undetermined", 93.3333],
    [{ pieces: [{ minutes: 390, level: 40 }], unsampledMinutes: 90, limit: 50 }, 32.5, null, "undetermined", 93.3333],
    [{ pieces: [{ minutes: 300, level: 90 }], unsampledMinutes: 180, limit: 50 }, 56.25, null, "exceeds", null],
  ] as const)("%j", (input, low, high, outcome, wStar) => {
    const { outputs } = answer("twa", input);
    expect(outputs).toMatchObject({ low, high, outcome });
    if (wStar !== null) expect(outputs["wStar"]).toBeCloseTo(wStar, 3);
  });

  test.each([
    ["worst-8h", "the time without a level was at no moment above"],
    ["any-24h-over-8h", "the time without a level averaged no more than"],
  ])("what decides a 12-h shift under %s", (rule, said) => {
    const { grounds } = answer("twa", { pieces: [{ minutes: 600, level: 20 }], unsampledMinutes: 120, limit: 50, rule });
    expect(grounds.join(" ")).toContain(said);
  });

  test("a rest of 8 h that nobody spoke of is open, not nought", () => {
    const input = { pieces: [{ minutes: 390, level: 40 }], limit: 50 };
    expect(answer("twa", input).outputs).toMatchObject({ low: 32.5, high: null, best: null, outcome: "undetermined" });
    expect(answer("twa", { ...input, unsampledMinutes: 0 }).outputs).toMatchObject({ low: 32.5, high: 32.5, outcome: "within" });
  });

  test("a bare five-minute record inside a longer shift is open above", () => {
    expect(answer("stel", { pieces: [{ minutes: 5, level: 600 }], outside: "unsampled" }).outputs).toMatchObject({
      low: 200,
      high: null,
      best: null,
    });
  });
});

describe("every calculator", () => {
  const ajv = new Ajv({ strict: true, allowUnionTypes: true });
  test.each(
    calculators.flatMap((calculator) =>
      calculator.examples.map((example) => [calculator.id, example.says, calculator, example.input] as const),
    ),
  )("%s: %s fits its schemas and is answered", (id, _says, calculator, input) => {
    expect(ajv.validate(inputSchema(calculator), input), JSON.stringify(ajv.errors)).toBe(true);
    const given = answer(id, input);
    expect(ajv.validate(answerSchema(calculator), JSON.parse(JSON.stringify(given))), JSON.stringify(ajv.errors)).toBe(true);
    expect(given.sentence).not.toMatch(/undefined|null|NaN|\bsafe\b/);
  });

  test.each(calculators.map((calculator) => [calculator.id, calculator] as const))(
    "%s refuses what its schema refuses",
    (id, calculator) => {
      const example: Record<string, unknown> = { ...(calculator.examples[0]?.input ?? {}) };
      for (const wrong of [
        { ...example, misspelt: 1 },
        [],
        null,
        "text",
        Object.fromEntries(Object.keys(example).map((key) => [key, {}])),
      ]) {
        expect(ajv.validate(inputSchema(calculator), wrong)).toBe(false);
        expect(workOut(id, wrong).ok).toBe(false);
      }
    },
  );
});

test.each([
  ["unit", { value: 1, from: "ppm", to: "mg/m3" }, "gas-not-said"],
  ["unit", { value: 1, from: "ppm", to: "mg/m3", gas: "CO" }, "molar-volume-missing"],
  ["unit", { value: 1, from: "%LEL", to: "vol%", gas: "methane" }, "lel-basis-missing"],
  ["unit", { value: 1, from: "ppm", to: "mg/m3", gas: "LPG", molarVolume: "24.45" }, "molar-mass-missing"],
  ["unit", { value: 1, from: "ppm", to: "mg/m3", gas: "CO", molarVolume: "at T and P" }, "input-missing"],
  ["unit", { value: 1, from: "ppm", to: "ppb", gas: "unobtainium" }, "unknown-gas"],
  ["lel", { gas: "carbon_dioxide", value: 1, unit: "vol%" }, "no-flammable-limit"],
  ["lel", { gas: "methane", value: 200, unit: "vol%" }, "input-not-fitting"],
  ["lel", { gas: "methane", value: -0.1, unit: "vol%" }, "input-not-fitting"],
  ["lel", { gas: "methane", value: -10, unit: "%LEL", basis: "IEC" }, "input-not-fitting"],
  ["lel", { gas: "methane", value: 2500, unit: "%LEL", basis: "IEC" }, "input-not-fitting"],
  ["lel", { gas: "methane", value: 1000001, unit: "ppm" }, "input-not-fitting"],
  ["lel", { gas: "methane", value: 1, unit: "%LEL" }, "input-missing"],
  ["twa", { pieces: [{ minutes: 1441, level: 1 }] }, "input-not-fitting"],
  [
    "twa",
    {
      pieces: [
        { minutes: 1000, level: 1 },
        { minutes: 1000, level: 1 },
      ],
    },
    "input-not-fitting",
  ],
  ["twa", { pieces: [{ minutes: 10, level: -1 }] }, "input-not-fitting"],
  ["twa", { pieces: [{ minutes: 10, level: 123456789.123456 }] }, "too-many-digits"],
  ["twa", { pieces: [] }, "input-not-fitting"],
  [
    "mixture",
    {
      parts: [
        { gas: "a", low: 1, limit: 2 },
        { gas: "a", low: 1, limit: 2 },
      ],
      additiveBy: "x",
    },
    "gas-twice",
  ],
  ["mixture", { parts: [{ gas: "a", low: 1, limit: 2 }] }, "input-missing"],
  ["extended-shift", { limit: 50, hoursPerDay: 24 }, "input-not-fitting"],
  ["nothing", {}, "no-such-calculator"],
])("%s refuses %j: %s", (name, input, type) => {
  const worked = workOut(name, input);
  expect(worked.ok ? "answered" : worked.refusal.type).toBe(type);
});

function modelsOf(input: unknown): Record<string, SlateObject> {
  const rows = answer("extended-shift", input).outputs["models"] as readonly SlateObject[];
  return Object.fromEntries(rows.map((row) => [row["model"], row]));
}
