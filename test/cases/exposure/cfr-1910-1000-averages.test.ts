// 29 CFR 1910.1000(d), HSE EH40 reference periods, NIOSH Pocket Guide: averages over a working day. Each case names its
// own source and mark in its title.
import { expect, test } from "vitest";
import type { ShiftSpan, Unsampled } from "../../../src/core/exposure/index.ts";
import { limitForLongShift } from "../../../src/core/exposure/index.ts";
import { answerOf, goldenRow, nameOf } from "../golden-rows.ts";
import { assessedShift, assessedShifts, channelOf, HOUR, limitOf, MINUTE, type WrittenPiece } from "./written-shift.ts";

/** Pieces given as [length, level], one after the other. */
function inARow(pieces: readonly (readonly [number, number])[]): WrittenPiece[] {
  let at = 0;
  return pieces.map(([length, level]) => {
    const from = at;
    at += length;
    return [from, at, level];
  });
}

const eightHours: readonly ShiftSpan[] = [{ from: 0, to: 8 * HOUR }];
const rest: Unsampled = { kind: "zero" };

test(nameOf("exposure-twa-01"), () => {
  const { inputs, expected } = goldenRow("exposure-twa-01");
  const { channel, found } = assessedShift(channelOf(inARow(inputs.pieces_h_ppm), HOUR), [{ kind: "twa", value: inputs.limit_ppm }], {
    shifts: eightHours,
  });
  expect(channel.twa8h).toEqual({ low: expected.twa_ppm, best: expected.twa_ppm, high: expected.twa_ppm });
  expect(found("twa")).toMatchObject({ outcome: expected.verdict, shiftRule: "worst-8h", low: 81.25 });
});

test.each(["exposure-twa-02", "exposure-twa-03"])("%s", (id) => {
  const { inputs, expected } = goldenRow(id);
  const { channel } = assessedShift(channelOf(inARow(inputs.pieces_min_mg_m3), MINUTE, { unit: "mg/m3" }), [], {
    shifts: eightHours,
    unsampled: rest,
  });
  expect(channel.twa8h.best, nameOf(id)).toBeCloseTo(expected.twa_mg_m3, 9);
});

test(nameOf("exposure-twa-04"), () => {
  const { inputs, expected } = goldenRow("exposure-twa-04");
  const hours = (clock: string): number => Number(clock.slice(0, 2)) + Number(clock.slice(3)) / 60;
  const pieces: WrittenPiece[] = inputs.periods.map(([from, to, level]: [string, string, number]) => [
    hours(from) * 60,
    hours(to) * 60,
    level,
  ]);
  const { channel } = assessedShift(channelOf(pieces, MINUTE), [], { shifts: [{ from: 8 * HOUR, to: 17.25 * HOUR }], unsampled: rest });
  expect(channel.twa8h.best).toBeCloseTo(expected.twa_mg_m3, 9);
  expect(channel.twa8h.best).not.toBeCloseTo(expected["wrong_if_divided_by_elapsed_9.25_h"], 3);
});

test(nameOf("exposure-twa-06"), () => {
  const { inputs, expected } = goldenRow("exposure-twa-06");
  const { channel } = assessedShift(channelOf(inARow(inputs.pieces_h_ppm), HOUR), [], { shifts: eightHours, unsampled: rest });
  expect(channel.twa8h.best).toBe(expected.rule_a_twa_ppm);
  expect(channel.mean.best).toBe(expected.rule_b_mean_ppm);
});

test(nameOf("exposure-twa-07"), () => {
  const { inputs, expected } = goldenRow("exposure-twa-07");
  const times = Float64Array.from({ length: inputs.count }, (_, i) => (i + 1) * inputs.step_s * 1000);
  const channel = channelOf([], 1, {
    times,
    values: new Int32Array(inputs.count).fill(7),
    codes: null,
    decimals: 1,
    kind: "interval mean",
  });
  const { found } = assessedShift(channel, [{ kind: "twa", value: inputs.limit_ppm, operator: inputs.operator }], {
    shifts: eightHours,
    largestGapMs: null,
  });
  expect(found("twa")).toMatchObject({ outcome: expected.verdict, low: expected.twa_ppm, high: expected.twa_ppm, coverage: 1 });
});

test(nameOf("exposure-twa-09"), () => {
  const { inputs, expected } = goldenRow("exposure-twa-09");
  const pieces: WrittenPiece[] = [[0, expected.elapsed_h, inputs.level_ppm]];
  const { found } = assessedShift(channelOf(pieces, HOUR), [{ kind: "twa", value: inputs.limit_ppm, regime: "GB-WEL" }], {
    shifts: [{ from: 0, to: expected.elapsed_h * HOUR }],
  });
  expect(found("twa")).toMatchObject({ low: expected.exposure_8h_ppm, outcome: expected.verdict, shiftRule: "any-24h-over-8h" });
  expect(found("twa").low).not.toBe(expected.wrong_from_wall_clock_ppm);
});

test(nameOf("exposure-twa-11"), () => {
  const { inputs, expected } = goldenRow("exposure-twa-11");
  const shifts = inputs.segments_h_ppm.map(([from, to]: [number, number]) => ({ from: from * HOUR, to: to * HOUR }));
  const assessed = assessedShifts(channelOf(inputs.segments_h_ppm, HOUR), [{ kind: "twa", value: inputs.limit_ppm, regime: "GB-WEL" }], {
    shifts,
  });
  const findings = assessed.map(({ channels }) => channels[0]?.findings[0]);
  expect(assessed.map(({ channels }) => channels[0]?.twa8h.best)).toEqual(expected.each_shift_alone_ppm);
  expect(findings[1]).toMatchObject({
    low: expected.largest_8h_equivalent_ppm,
    high: expected.largest_8h_equivalent_ppm,
    outcome: expected.verdict,
  });
  expect([findings[1]?.window?.from, findings[1]?.window?.to].map((at) => (at ?? 0) / HOUR)).toEqual(expected.window_h);
});

test.each(["exposure-unsampled-01", "exposure-unsampled-02", "exposure-unsampled-03"])("%s", (id) => {
  const { inputs, expected } = goldenRow(id);
  const unsampled: Unsampled = inputs.worst_case_ppm === null ? { kind: "open" } : { kind: "level", text: String(inputs.worst_case_ppm) };
  const { channel, found } = assessedShift(
    channelOf(inARow(inputs.sampled_pieces_min_ppm), MINUTE),
    [{ kind: "twa", value: inputs.limit_ppm }],
    { shifts: eightHours, unsampled },
  );
  expect(found("twa"), nameOf(id)).toMatchObject({ low: expected.low_ppm, high: expected.high_ppm, outcome: expected.verdict });
  const best = expected.high_ppm === expected.low_ppm ? expected.low_ppm : null;
  expect(channel.twa8h.best, "no best while the end is open or only declared").toBe(best);
  if (expected.break_even_unsampled_mean_ppm !== undefined)
    expect(found("twa").wStar).toBeCloseTo(expected.break_even_unsampled_mean_ppm, 3);
});

test(nameOf("exposure-unsampled-06"), () => {
  const { inputs, expected } = goldenRow("exposure-unsampled-06");
  const { found, channel } = assessedShift(
    channelOf(inARow(inputs.sampled_pieces_min_ppm), MINUTE),
    [{ kind: "twa", value: inputs.limit_ppm }],
    { shifts: eightHours, unsampled: { kind: "like" } },
  );
  expect(found("twa")).toMatchObject({ low: expected.low_ppm, high: expected.high_ppm, outcome: expected.verdict });
  expect(channel.stel.high, "never for a short window").toBeNull();
});

test(nameOf("exposure-unsampled-07"), () => {
  const { inputs, expected } = goldenRow("exposure-unsampled-07");
  const { found } = assessedShift(channelOf(inARow(inputs.sampled_pieces_min_ppm), MINUTE), [{ kind: "twa", value: inputs.limit_ppm }]);
  expect(found("twa")).toMatchObject({ low: expected.low_ppm, high: expected.high_ppm, outcome: expected.verdict });
});

test(nameOf("exposure-shift-09"), () => {
  const { inputs, expected } = goldenRow("exposure-shift-09");
  const { found } = assessedShift(
    channelOf([[0, inputs.shift_h, inputs.shift_mean_mg_m3]], HOUR),
    [{ kind: "twa", value: inputs.limit_mg_m3, regime: "GB-WEL" }],
    {
      shifts: [{ from: 0, to: inputs.shift_h * HOUR }],
    },
  );
  expect(found("twa")).toMatchObject({ low: expected.exposure_8h_mg_m3, outcome: expected.verdict });
});

test(nameOf("exposure-shift-10"), () => {
  const { inputs, expected } = goldenRow("exposure-shift-10");
  const channel = channelOf(inputs.segments_h_ppm, HOUR);
  const shifts = [{ from: 0, to: 12 * HOUR }];
  const osha = assessedShift(channel, [{ kind: "twa", value: inputs.limit_ppm }], { shifts });
  expect(osha.found("twa")).toMatchObject({ low: expected.worst_8h_ppm, high: expected.worst_8h_ppm, outcome: expected.worst_8h_verdict });
  const british = assessedShift(channel, [{ kind: "twa", value: inputs.limit_ppm, regime: "GB-WEL" }], { shifts });
  expect(british.found("twa")).toMatchObject({ low: expected.sum_24h_over_8_ppm, outcome: expected.uk_verdict });
  const lowered = assessedShift(channel, [{ kind: "twa", value: inputs.limit_ppm }], { shifts, longShiftModel: "brief-scala-daily" });
  const own = lowered.channel.findings.find(({ shiftRule }) => shiftRule === "brief-scala-daily");
  expect(own).toMatchObject({ low: expected.shift_mean_ppm, outcome: expected.shift_mean_against_reduced_limit });
  expect(
    answerOf(limitForLongShift(limitOf({ kind: "twa", value: inputs.limit_ppm }), { model: "brief-scala-daily", hours: 12 })).value,
  ).toBe(expected.reduced_limit_ppm);
});

test(nameOf("exposure-shift-12"), () => {
  const { inputs, expected } = goldenRow("exposure-shift-12");
  const { found } = assessedShift(channelOf(inputs.segments_h_ppm, HOUR), [{ kind: "twa", value: inputs.limit_ppm, regime: "US-NIOSH" }], {
    shifts: [{ from: 0, to: inputs.shift_h * HOUR }],
  });
  expect(found("twa")).toMatchObject({ low: expected.twa_ppm, outcome: expected.verdict, shiftRule: "shift-8-to-10h" });
  expect(found("twa").grounds).toContainEqual(expect.objectContaining({ type: "divisor", hours: expected.divisor_h }));
});
