// What lies at the edges of a shift, and what is said of time without readings: what was read on the stroke of the end,
// what still held at the start, what a declared level allows where the shift is not known, and which act decides.
import { expect, test } from "vitest";
import { type AssessmentSettings, assessRecording } from "../../../src/core/exposure/index.ts";
import type { Finding } from "../../../src/core/finding.ts";
import { type Channel, type Declaration, READING } from "../../../src/core/recording/index.ts";
import { assessedShift, assessedShifts, HOUR, MINUTE, type WrittenLimit } from "../../cases/exposure/written-shift.ts";
import { logged } from "./made-up-channel.ts";

const ceiling: WrittenLimit = { kind: "ceiling", value: 50 };
const minutes = (from: number, to: number) => ({ from: from * MINUTE, to: to * MINUTE });

test.each([
  ["on the stroke of the end, the log ends", [4, 4, 60], [0, 2], 60, 2],
  ["on the stroke of the end, the log goes on", [4, 4, 60, 4], [0, 2], 60, 2],
  ["after the end", [4, 4, 4, 60], [0, 2], 4, 0],
  ["before the start, and still holding", [60, 4, 4, 4], [0.5, 2], 60, 0.5],
  ["before the start, and over by then", [60, 4, 4, 4], [1, 2], 4, 1],
])("the greatest reading %s", (_, levels, [from = 0, to = 0], greatest, at) => {
  const { found } = assessedShift(logged(levels), [ceiling], { shifts: [minutes(from, to)] });
  const outcome = greatest > 50 ? "exceeds" : "within";
  expect(found("ceiling")).toMatchObject({ low: greatest, best: greatest, high: greatest, outcome, window: minutes(at, at) });
});

test("a channel without rows in a shift says so for that shift, not for the rows around it", () => {
  const silent = { ...logged([1, 2]), name: "silent", lines: Uint32Array.of(7, 8), times: Float64Array.of(0, 20 * MINUTE) };
  const shift = minutes(5, 8);
  const channels = [silent, logged(Array(21).fill(3))];
  const recording = { file: "a", sha256: "", clock: { kind: "elapsed" }, channels, notes: [], cutOff: false } as const;
  const assessed = assessRecording(recording, {
    ...{ limits: () => [], regimes: [], largestGapMs: MINUTE, shifts: [shift], unsampled: { kind: "open" }, declarations: [] },
    ...{ deadBand: () => null, negativeFloor: () => null, measurableThreshold: () => null, meansStandForCeilings: false },
  });
  const channel = assessed.ok ? assessed.value[0]?.channels[0] : undefined;
  expect(channel).toMatchObject({ samples: 0, start: shift.from, end: shift.to, peak: null, sampledSeconds: 0 });
});

test.each([["spot"], ["interval mean"], ["interval peak"]] as const)("a %s under range was not reached", (kind) => {
  const channel = logged([1, 60, 1], { kind, codes: Uint8Array.of(READING.valid, READING.underRange, READING.valid) });
  const { found, channel: assessed } = assessedShift(channel, [ceiling], {
    ...{ shifts: [minutes(0, 2)], unsampled: { kind: "zero" }, meansStandForCeilings: true },
  });
  expect(found("ceiling")).toMatchObject({ low: 1, high: 60, outcome: "undetermined" });
  expect(assessed.peak?.value).toBe(1);
});

const styrene: WrittenLimit = {
  kind: "three-level",
  value: 100,
  threeLevel: { ceiling: 200, peak: 600, unit: "ppm", longestMinutes: 5, withinMinutes: 180, onceOnly: false },
};
const sulphide: WrittenLimit = {
  kind: "three-level",
  value: null,
  threeLevel: { ceiling: 20, peak: 50, unit: "ppm", longestMinutes: 10, withinMinutes: null, onceOnly: true },
};

test.each([
  ["a ceiling", [ceiling], "60", 60, "undetermined"],
  ["a ceiling", [ceiling], "50", 50, "within"],
  ["the minutes of a three-level row", [sulphide], "21", 21, "undetermined"],
  ["the minutes of a three-level row", [sulphide], "20", 20, "within"],
] as const)("where the shift is not known, %s sees a level declared for the rest of 8 h (%#)", (_, limits, text, high, outcome) => {
  const { channel } = assessedShift(logged(Array(61).fill(2)), [...limits], { unsampled: { kind: "level", text } });
  expect(channel.findings[0]).toMatchObject({ low: 2, high, outcome });
});

const unsampledFor = (finding: Finding): readonly (number | null)[] =>
  finding.undecidedBy.flatMap((cause) => (cause.type === "unsampled-time" ? [cause.seconds, cause.wStar] : [Number.NaN]));

/** 60 min at 2, a gap of so many minutes, 60 min at 2. */
const withGap = (gapMinutes: number, level = 2): Channel => {
  const rows = [...Array(61).keys(), ...Array.from({ length: 61 }, (_, i) => 60 + gapMinutes + i)];
  const codes = Uint8Array.from(rows, (_, i) => (i === 60 ? READING.none : READING.valid));
  return logged(Array(rows.length).fill(level), { times: Float64Array.from(rows, (minute) => minute * MINUTE), codes });
};

test.each([
  ["longer than the minutes allowed: the ceiling", withGap(12), [styrene], [12 * 60, 200]],
  ["no longer than they are: the peak", withGap(5), [styrene], [5 * 60, 600]],
  ["beside other measurable exposure: the ceiling", withGap(5), [sulphide], [5 * 60, 20]],
  ["short, nothing else measurable: the ceiling, it can have been passed twice", withGap(5, 0), [sulphide], [5 * 60, 20]],
] as const)("a gap that is %s decides a three-level row", (_, channel, limits, expected) => {
  const { found } = assessedShift(channel, [...limits], {
    shifts: [minutes(0, (channel.times.at(-1) ?? 0) / MINUTE)],
    measurableThreshold: () => "1",
  });
  expect(unsampledFor(found("three-level"))).toEqual(expected);
  expect(found("three-level").wStar).toBe(expected[1]);
});

test("after an excursion the gap decides by what is not measurable", () => {
  const channel = withGap(5, 0);
  channel.values[10] = 40;
  const { found } = assessedShift(channel, [sulphide], { shifts: [minutes(0, 125)], measurableThreshold: () => "1.5" });
  expect(unsampledFor(found("three-level"))).toEqual([5 * 60, 1]);
});

const said = { id: "d", channel: "*", from: null, to: null, by: "hygienist", on: "2026-03-04", reason: "asked at the place" } as const;

test.each<readonly [string, Partial<AssessmentSettings>]>([
  ["like the sampled time", { unsampled: { kind: "like" } }],
  ["like the sampled time, by a declaration", { declarations: [{ ...said, kind: "like the sampled time" }] }],
  ["a worst case as an average", { declarations: [{ ...said, kind: "worst case", levelText: "9", holds: "as an average" }] }],
])("%s closes the average and leaves short windows to be decided", (_, settings) => {
  const limits: WrittenLimit[] = [{ kind: "twa", value: 5 }, { kind: "stel", value: 20, minutes: 15 }, ceiling, sulphide];
  const { found } = assessedShift(withGap(12), limits, { shifts: [minutes(0, 132)], ...settings, measurableThreshold: () => "1" });
  expect(found("twa").outcome).toBe("within");
  expect(unsampledFor(found("stel"))).toEqual([12 * 60, 24.5]);
  expect(unsampledFor(found("ceiling"))).toEqual([12 * 60, 50]);
  expect(unsampledFor(found("three-level"))).toEqual([12 * 60, 20]);
});

test("a declared worst case that leaves it undetermined is named as what decides, with the level that would", () => {
  const { found } = assessedShift(withGap(12), [{ kind: "stel", value: 20, minutes: 15 }, ceiling], {
    ...{ shifts: [minutes(0, 132)], unsampled: { kind: "level", text: "51" } },
  });
  expect(unsampledFor(found("stel"))).toEqual([12 * 60, 24.5]);
  expect(unsampledFor(found("ceiling"))).toEqual([12 * 60, 50]);
});

test("a bound for averages that reaches beyond the shift closes no other gap", () => {
  const rows = [0, 10, 20, 30, 40, 60];
  const channel = logged(Array(6).fill(2), {
    times: Float64Array.from(rows, (minute) => minute * MINUTE),
    codes: Uint8Array.of(READING.none, READING.valid, READING.none, READING.valid, READING.valid, READING.valid),
  });
  const bound: Declaration = {
    ...{ ...said, from: (-50 * MINUTE) as NonNullable<Declaration["from"]>, to: (10 * MINUTE) as NonNullable<Declaration["from"]> }, // elapsed milliseconds
    ...({ kind: "worst case", levelText: "9", holds: "as an average" } as const),
  };
  const { found } = assessedShift(channel, [{ kind: "twa", value: 500 }], { shifts: [minutes(0, 60)], declarations: [bound] });
  expect(found("twa")).toMatchObject({ high: null, outcome: "undetermined" });
  expect(unsampledFor(found("twa"))[0]).toBe(10 * 60);
});

test.each([
  ["nothing known", [], null, [{ type: "over-range", seconds: 0, wStar: 50 }]],
  ["a bound for it", [{ ...said, kind: "over-range bound", levelText: "50", holds: "at any moment" } as const], 50, []],
  [
    "a bound below it",
    [{ ...said, kind: "over-range bound", levelText: "39", holds: "at any moment" } as const],
    null,
    [{ type: "over-range", seconds: 0, wStar: 50 }],
  ],
])("the last spot reading over range: %s", (_, declarations, high, undecidedBy) => {
  const channel = logged([2, 2, 40], { codes: Uint8Array.of(0, 0, READING.overRange) });
  const { found } = assessedShift(channel, [ceiling], { shifts: [minutes(0, 2)], declarations });
  expect(found("ceiling")).toMatchObject({ low: 40, best: null, high, undecidedBy });
});

test("interval means and a gap: both stand between the finding and a decision", () => {
  const { found } = assessedShift({ ...withGap(12), kind: "interval mean" }, [ceiling], {
    shifts: [minutes(0, 132)],
    largestGapMs: MINUTE,
  });
  expect(found("ceiling").undecidedBy).toEqual([
    { type: "interval-average-hides-peaks" },
    { type: "unsampled-time", seconds: 12 * 60, wStar: null, holds: "at any moment" },
  ]);
});

test.each([
  ["the shift goes on and was exposed to nothing", [minutes(0, 120)], "zero", false],
  ["nobody knows what came after the log", [minutes(0, 120)], "open", true],
  ["nobody knows how long the shift was", [], "open", true],
  ["the shift ends with the log", [minutes(0, 20)], "open", false],
] as const)("an episode of window means: %s", (_, shifts, kind, openEnd) => {
  const { channel } = assessedShift(logged(Array(21).fill(60)), [{ kind: "stel", value: 20, minutes: 15 }], {
    shifts,
    unsampled: { kind },
  });
  expect(channel.episodes.map((episode) => [episode.from / MINUTE, episode.to / MINUTE, episode.openEnd])).toEqual([[5, 30, openEnd]]);
});

test.each(["small", "0", "-1"])("a measurable threshold of %s is refused", (text) => {
  const channels = [logged([1, 2])];
  const recording = { file: "a", sha256: "", clock: { kind: "elapsed" }, channels, notes: [], cutOff: false } as const;
  const assessed = assessRecording(recording, {
    ...{ limits: () => [], regimes: [], largestGapMs: null, shifts: [], unsampled: { kind: "open" }, declarations: [] },
    ...{ deadBand: () => null, negativeFloor: () => null, measurableThreshold: () => text, meansStandForCeilings: false },
  });
  expect(assessed).toEqual({ ok: false, refusal: { type: "setting-not-a-number", setting: "measurable threshold", text } });
});

test("the worst 8 h of a longer shift: W* speaks of the gap inside the window", () => {
  const hours = [0, 4, 5, 10];
  const channel = logged([9, 0, 9, 0], {
    times: Float64Array.from(hours, (hour) => hour * HOUR),
    codes: Uint8Array.of(READING.valid, READING.none, READING.valid, READING.valid),
  });
  const [assessed] = assessedShifts(channel, [{ kind: "twa", value: 10 }], { shifts: [{ from: 0, to: 10 * HOUR }] });
  expect(assessed?.channels[0]?.findings[0]).toMatchObject({ low: 7.875, high: null, wStar: 17, shiftRule: "worst-8h" });
});
