import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Unit } from "../../../src/core/quantity/unit.ts";
import {
  INSTANTS,
  type Recording,
  recordingFromSenml,
  resolveSenml,
  resolveSenmlText,
  SENML_READING,
  type SenmlRecording,
  senmlFromRecording,
} from "../../../src/core/recording/index.ts";
import { jsonFault } from "../../../src/core/recording/senml/json-fault.ts";
import { type WrittenRow, written } from "./written-channel.ts";

function isJson(text: string): boolean {
  try {
    JSON.parse(text);
    return true;
  } catch {
    return false; // nothing but JSON.parse can throw here
  }
}

const START = 1_772_609_400;

function read(pack: unknown, now: number | null = null): SenmlRecording {
  const resolved = resolveSenml(pack, SENML_READING);
  if (!resolved.ok) throw new Error(JSON.stringify(resolved.refusal));
  const made = recordingFromSenml(resolved.value, {
    file: "pack.json",
    sha256: "00",
    now,
    gasOf: (name) => (name.endsWith("co") ? "carbon_monoxide" : null),
  });
  if (!made.ok) throw new Error(JSON.stringify(made.refusal));
  return made.value;
}

const channelsOf = (made: SenmlRecording) => made.collected.recording.channels;

describe("resolveSenml", () => {
  test.each([
    [{}, "not an array"],
    [[3], "a record is no object"],
    [[{ n: "a", v: "1" }], "wrong type of field"],
    [
      [
        { n: "a", v: 1, bver: 26 },
        { n: "a", v: 1, bver: 10 },
      ],
      "versions differ",
    ],
    [
      [
        { n: "a", v: 1 },
        { n: "a", v: 1, bver: 26 },
      ],
      "versions differ",
    ],
    [[{ n: "a", vd: "a" }], "data not base64url"],
    [[{ v: 1 }], "name not allowed"],
    [[{ n: "a" }], "no value and no sum"],
    [[{ n: "a", v: 1, __proto__x_: 1 }], "label that must be understood"],
  ])("refuses %j", (pack, why) => {
    expect(resolveSenml(pack, SENML_READING)).toMatchObject({ ok: false, refusal: { type: "senml-not-readable", why } });
  });

  test("refuses text that is no JSON, and takes a record that only sets base fields", () => {
    expect(resolveSenmlText("[{", SENML_READING)).toMatchObject({ refusal: { why: "not JSON" } });
    expect(resolveSenmlText('[{"bn":"a:","bt":1772609400},{"n":"b","v":1}]', SENML_READING)).toMatchObject({
      ok: true,
      value: { records: [{ name: "a:b", record: 2 }] },
    });
  });

  test.each([
    ["[{", 1, 3],
    ['[{"n":"co","v":1},\n {"n":"co",,"v":2}]', 2, 12],
    ['[{"n":"co","v":[', 1, 17],
    ["[1] x", 1, 5],
    ["[01]", 1, 3],
    ['["a\tb"]', 1, 4],
    ['["\\x"]', 1, 4],
    ["[tru]", 1, 2],
    ["[{}", 1, 4],
    ["[1.e5]", 1, 4],
  ])("%j stops being JSON at line %i, character %i", (text, line, character) => {
    expect(resolveSenmlText(text, SENML_READING)).toMatchObject({ refusal: { why: "not JSON", at: { line, character } } });
  });

  test("the place of a fault in JSON: none in JSON, one where a letter is taken out that it needs", () => {
    fc.assert(
      fc.property(fc.jsonValue(), fc.nat(), fc.integer({ min: 0, max: 2 }), (json, at, indent) => {
        const text = JSON.stringify(json, null, indent);
        expect(jsonFault(text)).toBeNull();
        const cut = text.slice(0, at % text.length);
        expect(jsonFault(cut) === null).toBe(isJson(cut));
        const holed = text.slice(0, at % text.length) + text.slice((at % text.length) + 1);
        expect(jsonFault(holed) === null).toBe(isJson(holed));
      }),
    );
    fc.assert(
      fc.property(fc.string({ unit: fc.constantFrom(...'[]{}",:0-1.eE+ntrufals\\ \n') }), (text) => {
        expect(jsonFault(text) === null).toBe(isJson(text));
      }),
      { numRuns: 2000 },
    );
    expect(jsonFault("[".repeat(200_000))).toEqual({ line: 1, character: 200_001 });
  });

  test("never throws, whatever JSON comes", () => {
    fc.assert(fc.property(fc.jsonValue(), (json) => void resolveSenml(json, SENML_READING)));
    fc.assert(
      fc.property(
        fc.array(fc.dictionary(fc.constantFrom("bn", "n", "u", "v", "vs", "t", "bt", "bver", "x_"), fc.jsonValue())),
        (pack) => void resolveSenml(pack, SENML_READING),
      ),
    );
  });
});

describe("recordingFromSenml", () => {
  test.each<[string, number, Unit, number, number]>([
    ["/", 3.5e-5, "mol/mol", 35, 6],
    ["/100", 20.9, "vol%", 209, 1],
    ["ppm", 35, "ppm", 35, 0],
    ["ug/m3", 12.5, "ug/m3", 125, 1],
    ["kg/m3", 5e-6, "mg/m3", 5, 0],
    ["/1000", 5, "mol/mol", 5, 3],
  ])("%s %d is kept by its digits", (u, v, unit, steps, decimals) => {
    const [channel] = channelsOf(read([{ bver: 26, n: "works:co", u, v, t: START }]));
    expect(channel).toMatchObject({ unit, decimals, gas: "carbon_monoxide" });
    expect([...(channel?.values ?? [])]).toEqual([steps]);
  });

  test("a fraction of LEL is known by its name, a battery level is none", () => {
    const made = read([
      { n: "ch4:lel-fraction", u: "/", v: 0.1, bt: START },
      { n: "battery", u: "%EL", v: 80 },
    ]);
    expect(channelsOf(made).map(({ unit, values, decimals }) => [unit, [...values], decimals])).toEqual([["%LEL", [10], 0]]);
    expect(made.marks).toEqual([{ type: "left out", name: "battery", unit: "%EL" }]);
  });

  test("two units under one name are two channels, each known by its unit; the gas goes by the name alone", () => {
    const made = read([
      { n: "works:co", u: "ppm", v: 40, bt: START },
      { n: "works:co", u: "/", v: 4e-5, t: 60 },
      { n: "works:h2s", u: "ppm", v: 1, t: 60 },
      { n: "works:co", u: "%EL", v: 80, t: 60 },
    ]);
    expect(channelsOf(made).map(({ name, unit, gas, values }) => [name, unit, gas, [...values]])).toEqual([
      ["works:co (ppm)", "ppm", "carbon_monoxide", [40]],
      ["works:co (/)", "mol/mol", "carbon_monoxide", [4]],
      ["works:h2s", "ppm", null, [1]],
    ]);
  });

  test("says what a pack should not have done", () => {
    const made = read([
      { n: "o2", u: "%", v: 20.9, bt: START },
      { n: "co", u: "ppm", v: 3 },
      { n: "h2s", u: "ppb", v: 300 },
      { n: "co", u: "ppm", v: 4, t: 10 },
      { n: "co:flag", vs: "odd", t: 10 },
    ]);
    expect(made.marks).toEqual([
      { type: "ratio above one", name: "o2", unit: "%" },
      { type: "unit needs version 26", name: "co", unit: "ppm" },
      { type: "unit not registered", name: "h2s", unit: "ppb" },
      { type: "flag not known", name: "co", text: "odd" },
    ]);
  });

  test("relative times count back from now, or from the first record", () => {
    const pack = [
      { n: "co", u: "/", v: 1e-6, t: -20.5 },
      { n: "co", u: "/", v: 2e-6, t: -10 },
    ];
    expect([...(channelsOf(read(pack, START * 1000))[0]?.times ?? [])]).toEqual([START * 1000 - 20_500, START * 1000 - 10_000]);
    const counted = read(pack);
    expect(counted.collected.recording.clock).toEqual({ kind: "elapsed" });
    expect([...(channelsOf(counted)[0]?.times ?? [])]).toEqual([0, 10_500]);
    expect(counted.marks).toEqual([{ type: "times count from the first record" }]);
    const mixed = resolveSenml([...pack, { n: "co", u: "/", v: 1, t: START }], SENML_READING);
    expect(mixed.ok && recordingFromSenml(mixed.value, { file: "", sha256: "", now: null, gasOf: () => null })).toMatchObject({
      ok: false,
      refusal: { why: "times relative and absolute" },
    });
  });
});

describe("senmlFromRecording", () => {
  const recording = (rows: readonly WrittenRow[], unit: Unit, decimals: number): Recording => {
    const channel = { ...written(rows, { decimals, unit }), times: Float64Array.from(rows, ([seconds]) => (START + seconds) * 1000) };
    return { file: "", sha256: "", clock: INSTANTS, channels: [channel], notes: [], cutOff: false };
  };

  const cells = fc.oneof(
    { weight: 5, arbitrary: fc.integer({ min: -50, max: 90_000 }).map((steps) => (steps / 100).toFixed(2)) },
    fc.constantFrom("none", "fault", ">", ">500", "<0.25", "30.5..36"),
  );
  const powers: Readonly<Record<Unit, number>> = { ppm: -6, ppb: -9, "vol%": -2, "mol/mol": 0, "%LEL": 0, "mg/m3": 0, "ug/m3": -3 };

  test("what is written reads back as the same recording, in either choice of units", () => {
    fc.assert(
      fc.property(
        fc.array(cells, { minLength: 1, maxLength: 30 }),
        fc.constantFrom<Unit>("ppm", "ppb", "vol%", "mol/mol", "%LEL", "mg/m3", "ug/m3"),
        fc.constantFrom("primary" as const, "secondary" as const),
        (texts, unit, units) => {
          const original = recording(
            texts.map((text, row) => [row * 10.5, text] as const),
            unit,
            2,
          );
          const made = senmlFromRecording(original, { baseName: "marl-beck:", units });
          if (!made.ok) throw new Error(made.refusal.type);
          const resolved = resolveSenmlText(JSON.stringify(made.value.pack), SENML_READING);
          expect(resolved).toMatchObject({ ok: true });
          const [back] = channelsOf(read(JSON.parse(JSON.stringify(made.value.pack))));
          const [channel] = original.channels;
          expect([...(back?.times ?? [])]).toEqual([...(channel?.times ?? [])]);
          expect([...(back?.codes ?? new Uint8Array(texts.length))]).toEqual([...(channel?.codes ?? new Uint8Array(texts.length))]);
          const scaled = (steps: number, decimals: number, of: Unit) => `${steps}e${powers[of] - decimals}`;
          texts.forEach((_, row) => {
            expect(Number(scaled(back?.values[row] ?? 0, back?.decimals ?? 0, back?.unit ?? "ppm"))).toBe(
              Number(scaled(channel?.values[row] ?? 0, 2, unit)),
            );
            const upper = back?.uppers?.[row] ?? back?.values[row] ?? 0;
            expect(Number(scaled(upper, back?.decimals ?? 0, back?.unit ?? "ppm"))).toBe(
              Number(scaled(channel?.uppers?.[row] ?? channel?.values[row] ?? 0, 2, unit)),
            );
          });
        },
      ),
    );
  });

  test("names that SenML does not allow are made so, and told apart", () => {
    const one = recording([[0, 1]], "ppm", 0);
    const channels = [
      { ...one.channels[0], name: "CO (ppm)" },
      { ...one.channels[0], name: "CO [ppm)" },
      { ...one.channels[0], name: "LEL", unit: "%LEL" },
    ] as Recording["channels"];
    const made = senmlFromRecording({ ...one, channels }, { baseName: "a:", units: "primary" });
    expect(made.ok && made.value.names).toEqual(["CO-ppm-", "CO-ppm-:2", "LEL:lel-fraction"]);
  });

  test.each([
    [{ clock: { kind: "elapsed" } }, "a:", "recording-without-instants"],
    [{}, "_a:", "name-not-allowed"],
    [{ channels: [{ ...written([[0, 1]]), unit: null, times: Float64Array.of(START * 1000) }] }, "a:", "channel-without-unit"],
    [{ channels: [written([[0, 1]])] }, "a:", "recording-before-1978-07-04"],
  ] as const)("refuses %j", (more, baseName, type) => {
    const refusal = senmlFromRecording({ ...recording([[0, 1]], "ppm", 0), ...more } as Recording, { baseName, units: "primary" });
    expect(refusal).toMatchObject({ ok: false, refusal: { type } });
  });
});
