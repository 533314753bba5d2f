// What the rules of limits must not say: "within" where a peak can hide, or where the last reading breaks the pattern;
// no event where the log holds one.
import { expect, test } from "vitest";
import { type AssessmentSettings, assessRecording } from "../../../src/core/exposure/index.ts";
import type { Finding } from "../../../src/core/finding.ts";
import { READING } from "../../../src/core/recording/index.ts";
import { assessedShift, limitOf, type WrittenLimit } from "../../cases/exposure/written-shift.ts";
import { logged } from "./made-up-channel.ts";

const MINUTE = 60_000;

const sulphideRow: WrittenLimit = {
  kind: "three-level",
  value: null,
  threeLevel: { ceiling: 20, peak: 50, unit: "ppm", longestMinutes: 10, withinMinutes: null, onceOnly: true },
};

const SPANNED: Partial<AssessmentSettings> = { unsampled: { kind: "zero" }, measurableThreshold: () => "1" };

const outcomes = (finding: Finding): Record<string, string> =>
  Object.fromEntries([["row", finding.outcome], ...finding.parts.map(({ name, outcome }) => [name, outcome])]);

test.each([
  ["nothing, and a last reading above the peak", [0, 0, 0, 60], "exceeds"],
  ["nothing, and a last reading above the ceiling: one stretch, once", [0, 0, 0, 40], "within"],
  ["a run, and a last reading apart from it above the ceiling", [0, 5, 0, 40], "exceeds"],
  ["an excursion, and a last reading that is measurable", [0, 40, 0, 3], "exceeds"],
  ["an excursion, and a last reading that is not", [0, 40, 0, 0], "within"],
  ["ten minutes above the ceiling up to a last reading above it", [0, ...Array.from({ length: 11 }, () => 30)], "within"],
  ["eleven minutes above the ceiling", [0, ...Array.from({ length: 11 }, () => 30), 0], "exceeds"],
])("once only: %s", (_, levels, outcome) => {
  const { found } = assessedShift(logged(levels), [sulphideRow], SPANNED);
  expect(outcomes(found("three-level")).row).toBe(outcome);
});

test("once only: a last reading at the start of declared time is seen within the shift", () => {
  const shifts = [{ from: 0, to: 60 * MINUTE }];
  const { found } = assessedShift(logged([0, 40, 0, 30]), [sulphideRow], { ...SPANNED, shifts });
  expect(outcomes(found("three-level")).row).toBe("exceeds");
});

test("once only: logged means below the ceiling hide peaks, so nothing is within", () => {
  const channel = logged([0, 5, 5, 0], { kind: "interval mean" });
  const row = assessedShift(channel, [sulphideRow], SPANNED).found("three-level");
  expect(outcomes(row)).toMatchObject({ row: "undetermined", peak: "undetermined", "minutes above the ceiling": "undetermined" });
  expect(row.undecidedBy).toEqual([{ type: "interval-average-hides-peaks" }]);
  const declared = assessedShift(channel, [sulphideRow], { ...SPANNED, meansStandForCeilings: true }).found("three-level");
  expect(outcomes(declared).row).toBe("within");
});

const dangerous: WrittenLimit = { kind: "immediately-dangerous", value: 100, operator: ">=" };

test.each([
  ["the last reading alone", [0, 0, 120], [[2, 2, 120, 2]]],
  ["the last reading as the peak of what came before", [0, 110, 120], [[1, 2, 120, 2]]],
  ["the last reading below the peak of what came before", [0, 130, 100], [[1, 2, 130, 1]]],
  ["exactly at the value", [0, 100, 0], [[1, 2, 100, 1]]],
  ["nothing", [0, 99, 0], []],
])("an event of immediate danger: %s", (_, levels, expected) => {
  const { channel, found } = assessedShift(logged(levels), [dangerous], SPANNED);
  const inMinutes = channel.episodes.map(({ from, to, peak, peakAt }) => [from / MINUTE, to / MINUTE, peak, peakAt / MINUTE]);
  expect(inMinutes).toEqual(expected);
  expect(found("immediately-dangerous").outcome).toBe(expected.length > 0 ? "exceeds" : "within");
});

test("an event of immediate danger: logged peaks were reached, over range too, whatever bound was declared", () => {
  const channel = logged([0, 0, 120, 0, 500, 0], {
    kind: "interval peak",
    codes: Uint8Array.of(0, 0, 0, 0, READING.overRange, 0),
    rangeTop: 500,
  });
  const declarations: AssessmentSettings["declarations"] = [
    {
      ...{ id: "d1", channel: "*", from: null, to: null, by: "hygienist", on: "2026-03-04", reason: "known source" },
      ...({ kind: "over-range bound", levelText: "900", holds: "at any moment" } as const),
    },
  ];
  const { channel: assessed } = assessedShift(channel, [dangerous], { ...SPANNED, declarations });
  expect(assessed.episodes.map(({ from, to, peak }) => [from / MINUTE, to / MINUTE, peak])).toEqual([
    [1, 2, 120],
    [3, 4, 500],
  ]);
});

test.each(["900000", "99999999999999", "2147483.647"])(
  "a level of %s for unsampled time is refused, not a fault of the program",
  (text) => {
    const channel = logged([1234, 1200, 100], { decimals: 3 });
    const recording = { file: "example", sha256: "", clock: { kind: "elapsed" }, channels: [channel], notes: [], cutOff: false } as const;
    const assessed = assessRecording(recording, {
      ...{ limits: () => [], regimes: [], largestGapMs: null, shifts: [], unsampled: { kind: "level", text }, declarations: [] },
      ...{ deadBand: () => null, negativeFloor: () => null, measurableThreshold: () => null, meansStandForCeilings: false },
    });
    expect(assessed).toEqual({ ok: false, refusal: { type: "unsampled-level-too-large", text } });
  },
);

test("shifts within a day of each other whose sums would not be exact together are refused", () => {
  const hour = 60 * MINUTE;
  const top = 2 ** 53 / (30 * hour);
  const channel = logged([0, 0], {
    times: Float64Array.of(0, hour, 2 * hour, 23 * hour, 24 * hour, 30 * hour + MINUTE),
    values: Int32Array.of(top, 0, 0, top, 0, 0),
  });
  const shifts = [
    { from: 0, to: 2 * hour },
    { from: 23 * hour, to: 31 * hour },
  ];
  const recording = { file: "example", sha256: "", clock: { kind: "elapsed" }, channels: [channel], notes: [], cutOff: false } as const;
  const assessed = assessRecording(recording, {
    ...{ limits: () => [], regimes: [], largestGapMs: 1e12, shifts, unsampled: { kind: "open" }, declarations: [] },
    ...{ deadBand: () => null, negativeFloor: () => null, measurableThreshold: () => null, meansStandForCeilings: false },
  });
  expect(assessed).toEqual({ ok: false, refusal: { type: "too-long-for-exact-sums", hours: 31 } });
});

test.each([
  ["two readings that differ", [4, 9, 4], null],
  ["digits finer than a step", [4, 5, 4], 4],
  ["one reading an instant", [4, 4, 4], 4],
])("the best figure of %s", (_, uppers, best) => {
  const levels = [4, 4, 4];
  const limits: WrittenLimit[] = [
    { kind: "twa", value: 50 },
    { kind: "stel", value: 50, minutes: 15 },
    { kind: "immediately-dangerous", value: 50 },
  ];
  const channel = logged(levels, { uppers: Int32Array.from(uppers) });
  const { channel: assessed, found } = assessedShift(channel, limits, { shifts: [{ from: 0, to: 2 * MINUTE }] });
  expect(assessed.mean.best).toBe(best);
  expect(assessed.twa8h.best).toBe(best === null ? null : 8 / 480);
  expect(assessed.stel.best).toBe(best === null ? null : 8 / 15);
  expect(found("twa").best).toBe(best === null ? null : 8 / 480);
  expect(found("immediately-dangerous").best).toBe(best);
});

test.each([
  ["%LEL", "US-OSHA", undefined, "other kind of unit"],
  ["mg/m3", "US-OSHA", "F", "counts a part of the molecule"],
  ["mg/m3", "OWN" as never, undefined, "no conversion known"],
  ["mg/m3", "US-OSHA", undefined, null],
  [null, "US-OSHA", undefined, "unit not known"],
] as const)("a limit in ppm against readings in %s of %s stated as %s: %s", (unit, regime, statedAs, why) => {
  const channel = logged([1, 2, 3], { unit });
  const limit = { ...limitOf({ kind: "stel", value: 5, minutes: 15, regime }), ...(statedAs === undefined ? {} : { statedAs }) };
  const recording = { file: "example", sha256: "", clock: { kind: "elapsed" }, channels: [channel], notes: [], cutOff: false } as const;
  const assessed = assessRecording(recording, {
    ...{ limits: () => [limit], regimes: [], largestGapMs: null, shifts: [], unsampled: { kind: "open" }, declarations: [] },
    ...{ deadBand: () => null, negativeFloor: () => null, measurableThreshold: () => null, meansStandForCeilings: false },
  });
  const answered = assessed.ok ? assessed.value[0]?.channels[0] : undefined;
  expect(answered?.notCompared).toEqual(why === null ? [] : [{ limit, why }]);
  expect(answered?.findings.length).toBe(why === null ? 1 : 0);
});

test.each([
  ["spot", 3, 9],
  ["interval mean", 2, 5],
] as const)("a %s reading at the start of a shift: %i readings, peak %i", (kind, samples, peak) => {
  const shifts = [{ from: MINUTE, to: 3 * MINUTE }];
  const { channel } = assessedShift(logged([0, 9, 4, 5], { kind }), [], { shifts });
  expect([channel.samples, channel.peak?.value]).toEqual([samples, peak]);
});

test.each([
  ["of 8 h", 8, "US-OSHA", "as an average"],
  ["of 12 h, of which the worst 8 h count", 12, "US-OSHA", "at any moment"],
  ["of 12 h, all of it over 8 h", 12, "GB-WEL", "as an average"],
] as const)("what a statement must say of unsampled time in a shift %s", (_, hours, regime, holds) => {
  const hour = 60 * MINUTE;
  const channel = logged([40, 40], { times: Float64Array.of(0, (hours - 2) * hour) });
  const { found } = assessedShift(channel, [{ kind: "twa", value: 50, regime }], { shifts: [{ from: 0, to: hours * hour }] });
  expect(found("twa").undecidedBy).toMatchObject([{ type: "unsampled-time", seconds: 7200, holds }]);
});
