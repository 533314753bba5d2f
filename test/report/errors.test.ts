import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import {
  assumptionSentence,
  FAULTS,
  faultSentence,
  findingSentence,
  groundSentence,
  limitName,
  partText,
  REFUSALS,
  type Refusal,
  refusalWords,
  whatWouldDecide,
} from "../../src/report/index.ts";

const examples = Object.entries(REFUSALS).map(([type, { example }]) => [type, example as Refusal] as const);

describe("the catalogue of errors", () => {
  test.each(examples)("%s says what is wrong and what mends it, in whole sentences", (type, example) => {
    expect(example.type).toBe(type);
    const { message, mend } = refusalWords(example);
    for (const sentence of [message, mend]) {
      expect(sentence).toMatch(/^\S.*[.?]$/su);
      expect(sentence).not.toMatch(/undefined|null|NaN|\[object|invalid|forbidden|oops|please|\bsafe\b/i);
    }
  });

  test("every type of refusal that core or work names has an entry", () => {
    const named = refusalTypesIn(["src/core", "src/work", "src/report"]);
    expect(named.length).toBeGreaterThan(80);
    expect(named.filter((type) => !(type in REFUSALS))).toEqual([]);
  });

  test("every fault of a line has words, and its sentence names line, column and value", () => {
    const types = /export type FaultType =([^;]*);/s.exec(readFileSync("src/core/table/question.ts", "utf8"))?.[1]?.match(/"[^"]+"/g) ?? [];
    expect(types.map((type) => type.slice(1, -1)).toSorted()).toEqual(Object.keys(FAULTS).toSorted());
    expect(
      faultSentence({ type: "impossible time", line: 7, byteOffset: 1, column: "Time", raw: "31/02/2026 10:00", rejected: true }),
    ).toMatch(/^Line 7, column Time: "31\/02\/2026 10:00": no calendar or clock has this time\. The row is left out\. /);
  });
});

/** Types in unions and interfaces whose name ends in Refusal, read from the source itself. */
function refusalTypesIn(folders: readonly string[]): readonly string[] {
  const sources = folders.flatMap((folder) =>
    readdirSync(folder, { recursive: true, encoding: "utf8" })
      .filter((name) => name.endsWith(".ts"))
      .map((name) => readFileSync(join(folder, name), "utf8")),
  );
  const unions = sources.flatMap(
    (source) =>
      source.match(/export (?:type|interface) \w*(?:Refusal|UnknownGas)\b[\s\S]*?\n(?=\n|\/\*\*|export|const|function|type|interface)/g) ??
      [],
  );
  return [...new Set(unions.flatMap((union) => [...union.matchAll(/readonly type: "([^"]+)"/g)].map((match) => match[1] ?? "")))];
}

const LIMIT = {
  regime: "US-OSHA",
  kind: "twa",
  value: 50,
  unit: "ppm",
  averagingMinutes: 480,
  mark: "read",
  source: "Table Z-1",
  edition: "2018",
};
const finding = { limit: LIMIT, unit: "ppm", coverage: 1, wStar: null, shiftRule: null, parts: [], assumptions: [], undecidedBy: [] };
const plain = (text: string): string => text.replaceAll("\u202f", " ");

describe("findings in words", () => {
  test.each([
    [{ outcome: "exceeds", low: 61.2, best: 61.2, high: 61.2 }, "Exceeds US-OSHA 8 h average 50 ppm: 61.2 ppm."],
    [
      { outcome: "within", low: 28.34, best: 31.02, high: 33.61 },
      "Within US-OSHA 8 h average 50 ppm on these data: 31.0 ppm, 28.3 to 33.7.",
    ],
    [{ outcome: "undetermined", low: 32.5, best: 55, high: 55 }, "Undetermined against US-OSHA 8 h average 50 ppm: 32.5 to 55.0 ppm."],
    [
      { outcome: "undetermined", low: 14.9, best: null, high: null },
      "Undetermined against US-OSHA 8 h average 50 ppm: at least 14.9 ppm, open above.",
    ],
    [{ outcome: "within", low: 49.996, best: 49.996, high: 49.996 }, "Within US-OSHA 8 h average 50 ppm on these data: 49.996 ppm."],
    [
      { outcome: "exceeds", low: 50.0001, best: 50.0001, high: null },
      "Exceeds US-OSHA 8 h average 50 ppm: at least 50.0001 ppm, open above.",
    ],
  ] as const)("%j", (figures, sentence) => expect(plain(findingSentence({ ...finding, ...figures }))).toBe(sentence));

  const row = { name: "peak", low: 2, best: null, high: null, limit: 50, unit: "ppm", outcome: "undetermined" } as const;
  test.each([
    [
      "an average",
      { type: "unsampled-time", seconds: 5400, wStar: 93.39, holds: "as an average" },
      { shiftRule: "worst-8h" },
      "A named person's statement that the 1 h 30 min without readings averaged no more than 93.3 ppm.",
    ],
    [
      "an average that slides through a longer shift",
      { type: "unsampled-time", seconds: 5400, wStar: 93.39, holds: "at any moment" },
      { shiftRule: "worst-8h" },
      "A named person's statement that the 1 h 30 min without readings were at no moment above 93.3 ppm.",
    ],
    [
      "a short window",
      { type: "unsampled-time", seconds: 5400, wStar: 93.39, holds: "at any moment" },
      { shiftRule: null },
      "A named person's statement that the 1 h 30 min without readings were at no moment above 93.3 ppm.",
    ],
    [
      "a row with an average among its tests",
      { type: "unsampled-time", seconds: 300, wStar: 20, holds: "at any moment" },
      { shiftRule: "worst-8h", parts: [row] },
      "A named person's statement that the 5 min without readings were at no moment above 20.0 ppm.",
    ],
    [
      "no level that would do",
      { type: "unsampled-time", seconds: 300, wStar: null, holds: "at any moment" },
      {},
      "Declare what the 5 min without readings can have been, and why.",
    ],
    [
      "a shift of unknown length",
      { type: "unsampled-time", seconds: 0, wStar: null, holds: "at any moment" },
      {},
      "The shift, named by its beginning and end; what its time without readings can have been comes after that.",
    ],
    [
      "a rest of 8 h that no shift claims",
      { type: "unsampled-time", seconds: 5400, wStar: 13.3, holds: "as an average" },
      { shiftRule: "worst-8h", assumptions: [{ type: "file-is-one-shift" }] },
      "The shift, named by its beginning and end; what its time without readings can have been comes after that.",
    ],
    [
      "a rest of 8 h that somebody has spoken for",
      { type: "unsampled-time", seconds: 5400, wStar: 93.39, holds: "as an average" },
      {
        shiftRule: "worst-8h",
        assumptions: [
          { type: "file-is-one-shift" },
          {
            type: "unsampled-taken-as",
            as: "worst case",
            levelText: "120",
            unit: "ppm",
            seconds: 5400,
            where: "up to 8 h",
            by: "A. Hallam",
            reason: "in the canteen",
          },
        ],
      },
      "A named person's statement that the 1 h 30 min without readings averaged no more than 93.3 ppm.",
    ],
    [
      "time over range",
      { type: "over-range", seconds: 120, wStar: 800 },
      {},
      "An upper bound, with its reason, of no more than 800 ppm for the 2 min over range.",
    ],
    [
      "the last reading over range",
      { type: "over-range", seconds: 0, wStar: null },
      {},
      "An upper bound, with its reason, for the last reading, which was over range.",
    ],
  ] as const)("what would decide it: %s", (_, reason, more, expected) => {
    const [sentence] = whatWouldDecide({
      ...finding,
      ...{ outcome: "undetermined", low: 32.5, best: null, high: null, undecidedBy: [reason] },
      ...more,
    });
    expect(plain(sentence ?? "")).toBe(expected);
  });

  test.each([
    [
      {
        type: "unsampled-taken-as",
        as: "worst case",
        levelText: "13",
        unit: "ppm",
        seconds: 5400,
        where: "up to 8 h",
        by: null,
        reason: null,
      },
      "1 h 30 min without readings, up to 8 h, is taken as no more than 13 ppm at any moment. Nobody put a name to this.",
    ],
    [
      {
        type: "declared-setting",
        setting: "measurable threshold",
        valueText: "1",
        unit: "ppm",
        by: "A. Hallam",
        reason: "step of the log.",
      },
      "An exposure counts as measurable from 1 ppm on. Declared by A. Hallam: step of the log.",
    ],
    [
      { type: "declared-setting", setting: "dead band", valueText: "3", unit: "ppm", by: null, reason: null },
      "The instrument shows nought up to 3 ppm, so nought stands for anything up to it. Nobody put a name to this.",
    ],
  ] as const)("%j", (assumption, sentence) => expect(plain(assumptionSentence(assumption))).toBe(sentence));

  test.each([
    [{ leastMs: 10_000, mostMs: 60_000 }, "700 readings, steps of 10 s to 60 s."],
    [{ leastMs: 60_000, mostMs: 60_000 }, "700 readings, one every 60 s."],
  ] as const)("an even step is claimed only where there is one: %j", (steps, sentence) =>
    expect(plain(groundSentence({ type: "readings", count: 700, of: 700, everyMs: 60_000, steps, firstLine: null, lastLine: null }))).toBe(
      sentence,
    ),
  );

  test("why a pattern that is allowed once only was not kept to", () => {
    const part = { name: "once only", limit: 1, unit: "count", outcome: "exceeds", low: 2, best: 2, high: 2 } as const;
    expect(partText(part)).toBe("measurable 2 times or more, where once only is allowed above the ceiling: exceeds");
  });

  test("a recalled figure says so", () => expect(limitName({ ...LIMIT, mark: "memory" })).toMatch(/\(memory\)$/));
});
