// Negative readings, gaps, over range, conflicting instruments, failed checks; outcomes of intervals; entry readings.
// Each case names its own source and mark in its title.
import { expect, test } from "vitest";
import { alternateEntryLevel, averageBounds, limitTerms, meanValue, outcomeOfBounds, periodOf } from "../../../src/core/exposure/index.ts";
import { combinedOutcome, outcomeOf } from "../../../src/core/outcome.ts";
import { PLAIN_SETTINGS, signalOf } from "../../../src/core/recording/index.ts";
import { answerOf, goldenRow, nameOf } from "../golden-rows.ts";
import { assessedShift, channelOf, HOUR, MINUTE, type WrittenPiece } from "./written-shift.ts";

const eightHours = [{ from: 0, to: 8 * HOUR }];

test(nameOf("exposure-data-01"), () => {
  const { inputs, expected } = goldenRow("exposure-data-01");
  const levels: number[] = Array.from({ length: inputs.repeats }, () => inputs.pattern_ppm).flat();
  const pieces = levels.map((level, i): WrittenPiece => [i * inputs.step_min, (i + 1) * inputs.step_min, level]);
  for (const name of ["a", "b"]) {
    const { found } = assessedShift(channelOf(pieces, MINUTE), [{ kind: "twa", value: inputs[`limit_${name}_ppm`] }], {
      shifts: eightHours,
      negativeFloor: () => String(-inputs.floor_ppm),
    });
    expect(found("twa")).toMatchObject({ low: expected.low_ppm, high: expected.high_ppm, outcome: expected[`verdict_${name}`] });
  }
});

const overRange: readonly WrittenPiece[] = [
  [0, 200, 10],
  [200, 202, "over 500"],
  [202, 480, 10],
];

test(nameOf("exposure-data-03"), () => {
  const { inputs, expected } = goldenRow("exposure-data-03");
  const limits = [
    { kind: "twa", value: inputs.twa_limit_ppm },
    { kind: "stel", value: inputs.stel_ppm, minutes: inputs.stel_window_min },
    { kind: "ceiling", value: inputs.ceiling_ppm },
  ] as const;
  const { found } = assessedShift(channelOf(overRange, MINUTE), limits, { shifts: eightHours });
  expect(found("twa")).toMatchObject({
    low: expect.closeTo(expected.twa_low_ppm, 3),
    high: expected.twa_high_ppm,
    outcome: expected.twa_verdict,
  });
  expect(found("stel")).toMatchObject({ low: expect.closeTo(expected.stel_low_ppm, 3), outcome: expected.stel_verdict });
  expect(found("ceiling")).toMatchObject({ low: expected.ceiling_low_ppm, outcome: expected.ceiling_verdict });
  expect(found("twa").undecidedBy).toEqual([expect.objectContaining({ type: "over-range", seconds: 120 })]);
});

test(nameOf("exposure-data-04"), () => {
  const { inputs, expected } = goldenRow("exposure-data-04");
  inputs.declared_upper_bound_ppm.forEach((bound: number, i: number) => {
    const said = {
      id: "1",
      channel: "*",
      from: null,
      to: null,
      by: "Ada Thorne",
      on: "2026-03-04",
      reason: "known release",
      kind: "over-range bound",
      levelText: String(bound),
      holds: "at any moment",
    } as const;
    const { found } = assessedShift(channelOf(overRange, MINUTE), [{ kind: "twa", value: inputs.twa_limit_ppm }], {
      shifts: eightHours,
      declarations: [said],
    });
    expect(found("twa")).toMatchObject({ high: expect.closeTo(expected.twa_high_ppm[i], 3), outcome: expected.twa_verdict[i] });
  });
});

test(nameOf("exposure-data-06"), () => {
  const { inputs, expected } = goldenRow("exposure-data-06");
  const [lower, upper] = inputs.readings_ppm;
  const pieces: WrittenPiece[] = [
    [0, inputs.overlap_min, lower],
    [inputs.overlap_min, inputs.overlap_min + inputs.rest_min, inputs.rest_ppm],
  ];
  const channel = channelOf(pieces, MINUTE);
  const { found } = assessedShift(
    { ...channel, uppers: Int32Array.from(channel.values, (value, i) => (i === 0 ? upper : value)) },
    [{ kind: "twa", value: inputs.limit_ppm }],
    { shifts: eightHours },
  );
  expect(found("twa")).toMatchObject({ low: expected.low_ppm, high: expected.high_ppm, outcome: expected.verdict });
});

test(nameOf("exposure-data-08"), () => {
  // The ambient precedent divides by the hours present. For workers that is the mean of the sampled time, and no more.
  const { inputs, expected } = goldenRow("exposure-data-08");
  const pieces = inputs.hours_ppm.map((level: number | null, i: number): WrittenPiece => [i, i + 1, level ?? "gap"]);
  const { channel } = assessedShift(channelOf(pieces, HOUR), [], { shifts: eightHours });
  expect(channel.mean.best).toBe(expected.mean_ppm);
  expect(channel.twa8h, "not taken for the average of the shift").toEqual({ low: 7.5, best: null, high: null });
});

test(nameOf("exposure-data-09"), () => {
  const { inputs, expected } = goldenRow("exposure-data-09");
  const failed = { from: 0, to: null, reading: String(inputs.after_use_response), known: "1" };
  const made = answerOf(
    signalOf(
      channelOf([[0, inputs.minutes, inputs.reading_ppm]], MINUTE),
      { ...PLAIN_SETTINGS, largestGapMs: 1e12, failedChecks: [failed] },
      [],
      { from: 0, to: 8 * HOUR },
    ),
  );
  const bounds = averageBounds(periodOf(made.signal, { from: 0, to: 8 * HOUR }, { kind: "open" }), "worst-8h", []);
  const terms = limitTerms([{ value: inputs.limit_ppm, unit: "ppm" }], "ppm", null);
  if (terms === null || bounds.high === null) throw new Error("both ends are known");
  expect([meanValue(bounds.low), meanValue(bounds.high)]).toEqual([expected.low_ppm, expected.high_ppm]);
  expect(outcomeOfBounds(bounds, terms, ">")).toBe(expected.verdict);
});

test(nameOf("exposure-nondetect-04"), () => {
  const { inputs, expected } = goldenRow("exposure-nondetect-04");
  for (const name of ["a", "b"]) {
    const { found } = assessedShift(
      channelOf([[0, inputs.duration_min, inputs.displayed_ppm]], MINUTE),
      [{ kind: "twa", value: inputs[`limit_${name}_ppm`] }],
      { shifts: eightHours, deadBand: () => String(inputs.dead_band_ppm) },
    );
    expect(found("twa")).toMatchObject({ low: expected.low_ppm, high: expected.high_ppm, outcome: expected[`verdict_${name}`] });
  }
});

test(nameOf("exposure-verdict-01"), () => {
  const { inputs, expected } = goldenRow("exposure-verdict-01");
  const verdicts = inputs.intervals_low_high.map(([low, high]: [number, number | null]) =>
    outcomeOf({ low, high }, inputs.limit, inputs.operator),
  );
  expect(verdicts).toEqual(expected.verdicts);
});

test(nameOf("exposure-verdict-03"), () => {
  const { inputs, expected } = goldenRow("exposure-verdict-03");
  expect(inputs.cases.map(combinedOutcome)).toEqual(expected.combined);
});

test(nameOf("exposure-entry-01"), () => {
  const { inputs, expected } = goldenRow("exposure-entry-01");
  const guide = alternateEntryLevel(inputs.limit_ppm);
  expect(guide).toBe(expected.guide_ppm);
  expect(inputs.readings_ppm.map((reading: number) => outcomeOf({ low: reading, high: reading }, guide, ">") === "within")).toEqual(
    expected.acceptable,
  );
});
