// 29 CFR 1910.1000(b), Table Z-2: average, acceptable ceiling and maximum peak at once. Each case names its own source
// and mark in its title.
import { expect, test } from "vitest";
import type { AssessmentSettings } from "../../../src/core/exposure/index.ts";
import type { Finding } from "../../../src/core/finding.ts";
import { goldenRow, nameOf } from "../golden-rows.ts";
import { assessedShift, channelOf, HOUR, MINUTE, type WrittenPiece } from "./written-shift.ts";

interface Row {
  readonly twa_ppm?: number;
  readonly ceiling_ppm: number;
  readonly peak_ppm: number;
  readonly max_duration_min: number;
  readonly within_min?: number;
}

function assessed(row: Row, pieces: readonly WrittenPiece[], settings: Partial<AssessmentSettings> = {}, onceOnly = false): Finding {
  const threeLevel = {
    ceiling: row.ceiling_ppm,
    peak: row.peak_ppm,
    unit: "ppm",
    longestMinutes: row.max_duration_min,
    withinMinutes: row.within_min ?? null,
    onceOnly,
  } as const;
  const shifts = [{ from: 0, to: 8 * HOUR }];
  return assessedShift(channelOf(pieces, MINUTE), [{ kind: "three-level", value: row.twa_ppm ?? null, threeLevel }], {
    shifts,
    unsampled: { kind: "zero" },
    ...settings,
  }).found("three-level");
}

const part = (finding: Finding, name: string) => finding.parts.find((one) => one.name === name);

/** Compared with what the example states, whatever of it is stated. */
function expectAsStated(finding: Finding, expected: Record<string, number | string>): void {
  const found: Record<string, number | string | undefined> = {
    twa_ppm: part(finding, "average")?.low,
    max_ppm: part(finding, "peak")?.low,
    minutes_above_ceiling: part(finding, "minutes above the ceiling")?.low,
    minutes_above_ceiling_low: part(finding, "minutes above the ceiling")?.low,
    minutes_above_ceiling_high: part(finding, "minutes above the ceiling")?.high ?? undefined,
    twa_low_ppm: part(finding, "average")?.low,
    twa_high_ppm: part(finding, "average")?.high ?? undefined,
    twa_verdict: part(finding, "average")?.outcome,
    peak_verdict: part(finding, "peak")?.outcome,
    duration_verdict: part(finding, "minutes above the ceiling")?.outcome,
    verdict: finding.outcome,
  };
  for (const [key, value] of Object.entries(expected)) {
    expect(found, key).toHaveProperty(key);
    expect(found[key], key).toEqual(typeof value === "number" ? expect.closeTo(value, 3) : value);
  }
}

test.each(["exposure-z2-02", "exposure-z2-03", "exposure-z2-05", "exposure-z2-09"])("%s", (id) => {
  const { inputs, expected } = goldenRow(id);
  expectAsStated(assessed(inputs, inputs.segments_min_ppm), expected);
});

test(nameOf("exposure-z2-01"), () => {
  const { inputs, expected } = goldenRow("exposure-z2-01");
  for (const name of ["case_a", "case_b", "case_c"]) {
    const [minutes, level] = inputs[name];
    expectAsStated(
      assessed(inputs, [
        [0, minutes, level],
        [minutes, 480, inputs.rest_ppm],
      ]),
      expected[name],
    );
  }
});

test(nameOf("exposure-z2-07"), () => {
  const { inputs, expected } = goldenRow("exposure-z2-07");
  const declared = { measurableThreshold: () => String(inputs.measurable_threshold_ppm) };
  for (const name of ["case_a", "case_b"]) {
    expect(assessed(inputs, inputs[`${name}_segments_min_ppm`], declared, true).outcome, name).toBe(expected[name]);
  }
  const undeclared = assessed(inputs, inputs.case_a_segments_min_ppm, {}, true);
  expect(undeclared.outcome, "nobody said what is measurable").toBe("undetermined");
  expect(undeclared.undecidedBy).toEqual([{ type: "measurable-threshold-not-declared" }]);
});

test.each(["exposure-z2-11", "exposure-z2-12"])("%s", (id) => {
  const { inputs, expected } = goldenRow(id);
  const pieces = inputs.segments.map(
    ({ from_min, to_min, ppm }: { from_min: number; to_min: number; ppm?: number }): WrittenPiece => [from_min, to_min, ppm ?? "gap"],
  );
  const unsampled =
    inputs.worst_case_ppm === null ? ({ kind: "open" } as const) : ({ kind: "level", text: String(inputs.worst_case_ppm) } as const);
  expectAsStated(assessed(inputs, pieces, { unsampled }), expected);
});
