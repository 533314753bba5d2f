import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { exampleFiles, SEED, seededChance } from "../../../scripts/make-example.ts";
import { gasInLabel } from "../../../src/core/gas/index.ts";
import { unitFromText } from "../../../src/core/quantity/index.ts";
import { collectRows, PLAIN_SETTINGS, type Recording, recordedSpans, signalOf } from "../../../src/core/recording/index.ts";
import { surveyAndRead } from "../../../src/core/table/index.ts";

const folder = new URL("../../../examples/", import.meta.url);
const MINUTE = 60_000;

function readRecording(name: string): Recording {
  const collector = collectRows();
  const reader = surveyAndRead({ decodeText: () => null, vocabulary: { unitFromText, gasInLabel } }, {}, collector.sink);
  reader.push(new Uint8Array(readFileSync(new URL(name, folder))));
  const read = reader.finish();
  if (!read.ok || read.value.summary === null) throw new Error(JSON.stringify(read));
  return collector.finish({ file: name, sha256: "", clock: read.value.summary.clock, notes: read.value.summary.notes, cutOff: false })
    .recording;
}

describe("the invented recordings for a first click", () => {
  test("are what the seed gives, and say what they are", () => {
    const made = exampleFiles(seededChance(SEED));
    expect(
      readdirSync(folder)
        .filter((name) => name.endsWith(".csv"))
        .sort(),
    ).toEqual(made.map(({ name }) => name));
    for (const { name, text } of made) {
      expect(readFileSync(new URL(name, folder), "utf8")).toBe(text);
      expect(text.slice(0, 30)).toContain("Demonstration: invented");
    }
  });

  test("the first one opens without a question: a release that leaves the range for a minute or so, and a hole of 22 minutes", () => {
    const { channels } = readRecording("marl-beck-1-four-gases.csv");
    expect(channels.map(({ unit }) => unit)).toEqual(["ppm", "ppm", "%LEL", "vol%"]);
    const sulphide = channels[1];
    if (sulphide === undefined) throw new Error("no hydrogen sulphide");
    const spans = recordedSpans(sulphide, 15_000);
    expect(spans.map(({ why }) => why)).toEqual(["over range", "gap"]);
    const [over, hole] = spans;
    expect(over?.atLeast).toBe(1000);
    expect(new Date(over?.from ?? 0).toISOString()).toMatch(/^2026-03-17T10:3/);
    expect((over?.to ?? 0) - (over?.from ?? 0)).toBeGreaterThanOrEqual(MINUTE);
    expect((over?.to ?? 0) - (over?.from ?? 0)).toBeLessThanOrEqual(1.5 * MINUTE);
    expect((hole?.to ?? 0) - (hole?.from ?? 0)).toBe(22 * MINUTE - 15_000);
    const made = signalOf(sulphide, PLAIN_SETTINGS, [], null);
    expect(made.ok && made.value.tally.unsampledMs).toBe(22 * MINUTE - 15_000);
  });
});
