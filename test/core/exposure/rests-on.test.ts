// What stands beside an outcome: the statement that decided it, how evenly the readings came, what over range leaves open.
import fc from "fast-check";
import { expect, test } from "vitest";
import { assessRecording } from "../../../src/core/exposure/index.ts";
import type { Assumption, Finding } from "../../../src/core/finding.ts";
import { type Channel, READING } from "../../../src/core/recording/index.ts";
import { assessedShift, HOUR, MINUTE, type WrittenLimit } from "../../cases/exposure/written-shift.ts";
import { logged } from "./made-up-channel.ts";

const limits: readonly WrittenLimit[] = [
  { kind: "twa", value: 50 },
  { kind: "stel", value: 100 },
  { kind: "ceiling", value: 200 },
  {
    kind: "three-level",
    value: null,
    threeLevel: { ceiling: 20, peak: 50, unit: "ppm", longestMinutes: 10, withinMinutes: null, onceOnly: true },
  },
];
const stated = { by: "A. Hallam", reason: "in the canteen" };
const takenAs = (finding: Pick<Finding, "assumptions">): Extract<Assumption, { type: "unsampled-taken-as" }> | undefined =>
  finding.assumptions.find((one) => one.type === "unsampled-taken-as");
const steady = (hours: number, level = 4): Channel => logged(Array(hours * 60 + 1).fill(level));

test.each([
  ["zero, up to 8 h", 6.5, { kind: "zero" }, { as: "unexposed", levelText: null, seconds: 5400, where: "up to 8 h" }],
  ["a level, up to 8 h", 6.5, { kind: "level", text: "12" }, { as: "worst case", levelText: "12", seconds: 5400, where: "up to 8 h" }],
  ["like, up to 8 h", 6.5, { kind: "like" }, { as: "like the sampled time", levelText: null, seconds: 5400, where: "up to 8 h" }],
  [
    "a level around 8 h",
    8,
    { kind: "level", text: "12" },
    { as: "worst case", levelText: "12", seconds: 0, where: "around the recording" },
  ],
] as const)("%s stands beside every finding, with who said it", (_, hours, unsampled, expected) => {
  const { channel } = assessedShift(steady(hours), limits, { unsampled, unsampledBy: stated });
  expect(channel.findings.length).toBeGreaterThan(0);
  for (const finding of channel.findings) expect(takenAs(finding)).toMatchObject({ ...expected, ...stated });
  const nobody = assessedShift(steady(hours), limits, { unsampled }).channel;
  for (const finding of nobody.findings) expect(takenAs(finding)).toMatchObject({ by: null, reason: null });
});

test("property: where a statement moves any figure, every finding of the channel names it", () => {
  const levels = fc.array(fc.constantFrom(0, 3, 30, 90), { minLength: 3, maxLength: 60 });
  fc.assert(
    fc.property(
      levels,
      fc.integer({ min: 1, max: 12 }),
      fc.boolean(),
      fc.constantFrom("zero", "like", "level"),
      (values, step, told, kind) => {
        const channel = logged(values, { stepMs: step * 10 * MINUTE });
        const shifts = told ? [{ from: 0, to: (channel.times.at(-1) ?? 0) + HOUR }] : [];
        if ((channel.times.at(-1) ?? 0) > 23 * HOUR) return;
        const unsampled = kind === "level" ? ({ kind, text: "60" } as const) : { kind };
        const bare = assessedShift(channel, limits, { shifts }).channel;
        const said = assessedShift(channel, limits, { shifts, unsampled }).channel;
        const figures = ({ findings, twa8h, stel }: typeof bare): unknown => [
          twa8h,
          stel,
          findings.map(({ low, high, best, outcome }) => [low, high, best, outcome]),
        ];
        if (JSON.stringify(figures(bare)) === JSON.stringify(figures(said))) return;
        for (const finding of said.findings) expect(takenAs(finding)).toBeDefined();
      },
    ),
    { numRuns: 300 },
  );
});

test("a declared level counts around a recording of 8 h and more, since nobody said how long the shift was", () => {
  const { found, channel } = assessedShift(steady(8), limits, { unsampled: { kind: "level", text: "5000" } });
  expect(found("stel")).toMatchObject({ low: 4, high: 5000, outcome: "undetermined" });
  expect(found("ceiling")).toMatchObject({ low: 4, high: 5000, outcome: "undetermined" });
  expect(found("three-level")?.outcome).toBe("undetermined");
  expect(channel.stel.high).toBe(5000);
  const low = assessedShift(steady(8), limits, { unsampled: { kind: "level", text: "90" } });
  expect(low.found("stel")).toMatchObject({ high: 90, outcome: "within" });
});

test("a level between ceiling and peak leaves the minutes above open where the shift is not known", () => {
  const { found } = assessedShift(steady(8), limits, { unsampled: { kind: "level", text: "40" } });
  const minutes = found("three-level")?.parts.find(({ name }) => name === "minutes above the ceiling");
  expect(minutes).toMatchObject({ low: 0, high: null, outcome: "undetermined" });
});

test("over range without a known top: at least the greatest reading, at the instant over range", () => {
  const codes = Uint8Array.of(READING.valid, READING.overRangeUnbounded, READING.valid);
  const { channel } = assessedShift(logged([5, 0, 4], { codes }), limits);
  expect(channel.peak).toEqual({ value: 5, at: MINUTE, atLeast: true });
  expect(channel.grounds).toContainEqual({ type: "over-range", seconds: 60, atLeast: null });
});

test.each([
  ["even steps", [0, 60, 120, 180], 60_000, { leastMs: 60_000, mostMs: 60_000 }],
  ["steps of any length", [0, 20, 67, 77, 137], null, { leastMs: 10_000, mostMs: 60_000 }],
  ["even but for a gap", [0, 10, 20, 30, 600, 610, 620], 10_000, { leastMs: 10_000, mostMs: 10_000 }],
] as const)("%s are told as they came", (_, seconds, everyMs, steps) => {
  const times = Float64Array.from(seconds, (second) => second * 1000);
  const { channel } = assessedShift(logged(Array(seconds.length).fill(1), { times }), limits, {
    largestGapMs: seconds.length === 7 ? null : 90_000,
  });
  expect(channel.grounds?.find(({ type }) => type === "readings")).toMatchObject({ everyMs, steps });
});

test("a row that exceeds by a second excursion says so in a part of its own", () => {
  const levels = [...Array(10).fill(0), 30, 30, ...Array(30).fill(0), 30, ...Array(437).fill(0)];
  const { found } = assessedShift(logged(levels), limits, { shifts: [{ from: 0, to: 8 * HOUR }], unsampled: { kind: "zero" } });
  expect(found("three-level")?.outcome).toBe("exceeds");
  expect(found("three-level")?.parts.find(({ name }) => name === "once only")).toMatchObject({ low: 2, outcome: "exceeds" });
});

test("an OSHA ceiling stands beside the average that its text allows, and keeps its own outcome", () => {
  const levels = [...Array(60).fill(1), 250, ...Array(60).fill(1)];
  const more = { shifts: [{ from: 0, to: 2 * HOUR }] };
  const { found } = assessedShift(logged(levels), [{ kind: "ceiling", value: 200, regime: "US-OSHA" }], more);
  expect(found("ceiling")?.outcome).toBe("exceeds");
  const expected = { type: "ceiling-as-average", minutes: 15, low: (250 + 14) / 15, high: (250 + 14) / 15, unit: "ppm", outcome: "within" };
  expect(found("ceiling")?.grounds).toContainEqual(expected);
  const elsewhere = assessedShift(logged(levels), [{ kind: "ceiling", value: 200, regime: "US-NIOSH" }], more).found("ceiling");
  expect(elsewhere?.grounds.some(({ type }) => type === "ceiling-as-average")).toBe(false);
});

test.each([
  ["nobody said it", {}, "default"],
  ["the file says it", { kindChosenBy: "file" }, "file"],
  ["a person said it", { kindChosenBy: "person" }, "person"],
] as const)("what kind the readings are stands beside every finding: %s", (_, more, chosenBy) => {
  const { channel } = assessedShift(logged([1, 2, 3], more), limits);
  for (const finding of channel.findings) expect(finding.assumptions).toContainEqual({ type: "reading-kind", kind: "spot", chosenBy });
});

test("a declared level is used as it was said, finer than the display", () => {
  const { channel, found } = assessedShift(steady(6.5, 40), limits, {
    shifts: [{ from: 0, to: 8 * HOUR }],
    unsampled: { kind: "level", text: "93.3" },
  });
  expect(found("twa")).toMatchObject({ low: 32.5, high: (390 * 40 + 90 * 93.3) / 480, outcome: "within" });
  expect(channel.stel.high).toBeCloseTo(93.3, 12);
  expect(channel.peak?.value).toBe(40);
});

test("readings outside the named shifts are told, and may count where a rule looks back over a day", () => {
  const levels = Array.from({ length: 29 * 60 + 1 }, (_, minute) => (minute < 480 ? 3 : minute >= 20 * 60 ? 4 : 0));
  const shift = { from: 20 * HOUR, to: 28 * HOUR };
  const day: WrittenLimit = { kind: "twa", value: 5, regime: "GB-WEL" };
  const { channel, found } = assessedShift(logged(levels), [day], { shifts: [shift], unsampled: { kind: "zero" } });
  expect(channel.grounds).toContainEqual({ type: "outside-shift", count: 20 * 60 + 60, greatest: 4, atLeast: false });
  // 8 h at 4 and, of the 24 h that end with the shift, 4 h at 3 before it: 4 to 5.5.
  expect(found("twa")).toMatchObject({ low: 4, high: 5.5, outcome: "undetermined", undecidedBy: [{ type: "readings-outside-shift" }] });
  const named = assessedShift(logged(levels), [day], { shifts: [{ from: 0, to: 8 * HOUR }, shift], unsampled: { kind: "zero" } });
  expect(named.channel.grounds?.some(({ type }) => type === "outside-shift")).toBe(true);
});

test("noughts of a display coarser than the limit do not show that it was kept", () => {
  const fine: readonly WrittenLimit[] = [{ kind: "stel", value: 0.5 }];
  const told = { shifts: [{ from: 0, to: 2 * HOUR }] };
  const { found } = assessedShift(steady(2, 0), fine, told);
  expect(found("stel")).toMatchObject({ outcome: "undetermined", undecidedBy: [{ type: "limit-finer-than-a-step", step: 1 }] });
  const tenths = { ...steady(2, 0), decimals: 1 };
  expect(assessedShift(tenths, fine, told).found("stel")?.outcome).toBe("within");
  const banded = assessedShift(steady(2, 0), fine, { ...told, deadBand: () => "0.4" }).found("stel");
  expect(banded).toMatchObject({ low: 0, high: 0.4, outcome: "within" });
});

test("a drifted nought and doubt after over range stand beside the figures", () => {
  const codes = Uint8Array.of(0, 0, 0, READING.overRange, 0, 0);
  const { channel } = assessedShift(logged([5, -50, -50, 500, 7, 7], { codes, rangeTop: 500 }), limits);
  expect(channel.grounds).toContainEqual({ type: "drift", lowest: -50, longestRunSeconds: 60, floorDeclared: false });
  expect(channel.grounds).toContainEqual({ type: "doubtful-after-over-range", seconds: 60 });
});

test("the greatest window of noughts lies within the recording", () => {
  const { channel } = assessedShift(steady(6, 0), limits, { unsampled: { kind: "level", text: "13" } });
  expect(channel.stel).toMatchObject({ low: 0, high: 13 });
  expect(channel.stel.windowEnd).toBeGreaterThan(0);
  expect(channel.stel.windowStart).toBeLessThan(6 * HOUR);
});

test("an under-range reading that is the lowest is at most what stands", () => {
  const codes = Uint8Array.of(READING.valid, READING.underRange, READING.valid);
  expect(assessedShift(logged([9, 5, 8], { codes }), limits).channel.lowest).toEqual({ value: 5, at: MINUTE, atMost: true });
});

test("readings before a shift that cannot be summed exactly are refused, not left out", () => {
  const channel = logged(Array(28 * 60 + 1).fill(2e8));
  const recording = { file: "a", sha256: "", clock: { kind: "elapsed" }, channels: [channel], notes: [], cutOff: false } as const;
  const none = () => null;
  const assessed = assessRecording(recording, {
    ...{ limits: () => [], regimes: [], largestGapMs: null, shifts: [{ from: 20 * HOUR, to: 28 * HOUR }], unsampled: { kind: "open" } },
    ...{ declarations: [], deadBand: none, negativeFloor: none, measurableThreshold: none, meansStandForCeilings: false },
  });
  expect(assessed).toMatchObject({ ok: false, refusal: { type: "too-long-for-exact-sums" } });
});
