import { describe, expect, test } from "vitest";
import type { Channel, Cut, Declaration, FailedCheck, SignalSettings } from "../../../src/core/recording/index.ts";
import { PLAIN_SETTINGS, signalOf } from "../../../src/core/recording/index.ts";
import { declared, segmentsOf, signalled, type WrittenRow, type WrittenSegment, written } from "./written-channel.ts";

interface Case {
  readonly what: string;
  readonly rows: readonly WrittenRow[];
  readonly channel?: Partial<Channel>;
  readonly settings?: Partial<SignalSettings>;
  readonly declarations?: readonly Declaration[];
  /** Seconds. */
  readonly period?: readonly [number, number];
  readonly gives: readonly WrittenSegment[];
}

const cut = (from: number, to: number): Cut => ({ from: from * 1000, to: to * 1000, why: "on test gas" });
const check = (reading: string, known: string, from = 0): FailedCheck => ({ from: from * 1000, to: null, reading, known });
const worst = (levelText: string, from: number | null = null, to: number | null = null, holds = "at any moment") =>
  declared({ kind: "worst case", levelText, holds, from: from === null ? null : from * 1000, to: to === null ? null : to * 1000 });

/** Every row of the table in section 2 of the exposure chapter, and how long readings stand. */
// biome-ignore format: a table, one case a line
const cases: readonly Case[] = [
  { what: "a reading stands until the next", rows: [[0, 4], [10, 7], [20, 2]], gives: [[0, 10, 4, 4, "sampled"], [10, 20, 7, 7, "sampled"]] },
  { what: "a displayed nought hides the dead band", rows: [[0, 0], [10, 3], [20, 0]], settings: { deadBand: "2" }, gives: [[0, 10, 0, 2, "sampled"], [10, 20, 3, 3, "sampled"]] },
  { what: "a dead band between two steps is rounded up", rows: [[0, 0], [10, 3]], settings: { deadBand: "1.2" }, gives: [[0, 10, 0, 2, "sampled"]] },
  { what: "a nought without a dead band is nought", rows: [[0, 0], [10, 3]], gives: [[0, 10, 0, 0, "sampled"]] },
  { what: "a negative above the floor: low as read, high nought", rows: [[0, -2], [10, 3]], settings: { negativeFloor: "3" }, gives: [[0, 10, -2, 0, "sampled"]] },
  { what: "a negative at the floor is above it", rows: [[0, -3], [10, 3]], settings: { negativeFloor: "3" }, gives: [[0, 10, -3, 0, "sampled"]] },
  { what: "a negative below the floor is a gap", rows: [[0, -4], [10, 3]], settings: { negativeFloor: "3.9" }, gives: [[0, 10, 0, "open", "unsampled"]] },
  { what: "a negative without a floor: low as read, high nought", rows: [[0, -40], [10, 3]], gives: [[0, 10, -40, 0, "sampled"]] },
  { what: "over range is a lower bound", rows: [[0, 10], [10, ">500"], [20, 10]], gives: [[0, 10, 10, 10, "sampled"], [10, 20, 500, "open", "bounded"]] },
  { what: "over range without a top is at least nought", rows: [[0, ">"], [10, 10]], gives: [[0, 10, 0, "open", "bounded"]] },
  { what: "a reading at the range top counts as over range", rows: [[0, 500], [10, 499], [20, 1]], channel: { rangeTop: 500 }, gives: [[0, 10, 500, "open", "bounded"], [10, 20, 499, 499, "sampled"]] },
  { what: "under range is an upper bound", rows: [[0, "<2"], [10, 3]], gives: [[0, 10, 0, 2, "sampled"]] },
  { what: "under range of nought or less says nothing", rows: [[0, "<0"], [10, 3]], gives: [[0, 10, 0, "open", "unsampled"]] },
  { what: "a row without a reading is a gap", rows: [[0, 4], [10, "none"], [20, "fault"], [30, 5], [40, 6]], gives: [[0, 10, 4, 4, "sampled"], [10, 20, 0, "open", "unsampled"], [20, 30, 0, "open", "unsampled"], [30, 40, 5, 5, "sampled"]] },
  { what: "the last reading has no length, whatever empty rows follow", rows: [[0, 4], [10, 5], [20, "none"], [30, "none"]], gives: [[0, 10, 4, 4, "sampled"], [10, 20, 0, "open", "unsampled"], [20, 30, 0, "open", "unsampled"]] },
  { what: "two readings of one instant are an interval", rows: [[0, "30..36"], [10, 20]], gives: [[0, 10, 30, 36, "sampled"]] },
  { what: "a failed check widens: v / q above", rows: [[0, 40], [10, 40]], settings: { failedChecks: [check("0.8", "1")] }, gives: [[0, 10, 40, 50, "sampled"]] },
  { what: "a failed check widens: v / q below", rows: [[0, 40], [10, 40]], settings: { failedChecks: [check("25", "20")] }, gives: [[0, 10, 32, 40, "sampled"]] },
  { what: "a failed check reaches back to the last good proof only", rows: [[0, 40], [10, 41], [20, 1]], settings: { failedChecks: [check("30", "60", 10)] }, gives: [[0, 10, 40, 40, "sampled"], [10, 20, 41, 82, "sampled"]] },
  { what: "v / q is rounded outward", rows: [[0, 10], [10, 40]], settings: { failedChecks: [check("3", "2"), check("2", "3")] }, gives: [[0, 10, 6, 15, "sampled"]] },
  { what: "a spot reading stands at most the largest gap", rows: [[0, 4], [10, 7], [60, 2], [70, 1]], settings: { largestGapMs: 15_000 }, gives: [[0, 10, 4, 4, "sampled"], [10, 25, 7, 7, "sampled"], [25, 60, 0, "open", "unsampled"], [60, 70, 2, 2, "sampled"]] },
  { what: "a step of exactly the largest gap is none", rows: [[0, 4], [15, 7], [25, 1]], settings: { largestGapMs: 15_000 }, gives: [[0, 15, 4, 4, "sampled"], [15, 25, 7, 7, "sampled"]] },
  { what: "before the first and after the last row of a shift nothing is sampled", rows: [[10, 4], [20, 7], [30, 2]], period: [0, 40], gives: [[0, 10, 0, "open", "unsampled"], [10, 20, 4, 4, "sampled"], [20, 30, 7, 7, "sampled"], [30, 40, 0, "open", "unsampled"]] },
  { what: "a shift cuts readings at its ends", rows: [[0, 4], [10, 7], [20, 2]], period: [5, 12], gives: [[5, 10, 4, 4, "sampled"], [10, 12, 7, 7, "sampled"]] },
  { what: "a shift on rows needs no cutting", rows: [[0, 4], [10, 7], [20, 2], [30, 9]], period: [10, 30], gives: [[10, 20, 7, 7, "sampled"], [20, 30, 2, 2, "sampled"]] },
  { what: "a shift without rows is open", rows: [[0, 4], [10, 7]], period: [100, 200], gives: [[100, 200, 0, "open", "unsampled"]] },
  { what: "a mean stands for the interval that it closes; the first for one step of a regular log", rows: [[60, 4], [120, 7], [180, 2]], channel: { kind: "interval mean" }, gives: [[0, 60, 4, 4, "sampled"], [60, 120, 7, 7, "sampled"], [120, 180, 2, 2, "sampled"]] },
  { what: "the first mean of an irregular log has no length", rows: [[0, 4], [10, 7], [30, 2], [60, 5]], channel: { kind: "interval mean" }, settings: { largestGapMs: 40_000 }, gives: [[0, 10, 7, 7, "sampled"], [10, 30, 2, 2, "sampled"], [30, 60, 5, 5, "sampled"]] },
  { what: "a mean after a gap stands back for at most the largest gap", rows: [[60, 4], [120, 7], [180, 2], [240, 3], [600, 9]], channel: { kind: "interval mean" }, gives: [[0, 60, 4, 4, "sampled"], [60, 120, 7, 7, "sampled"], [120, 180, 2, 2, "sampled"], [180, 240, 3, 3, "sampled"], [240, 510, 0, "open", "unsampled"], [510, 600, 9, 9, "sampled"]] },
  { what: "a shift that begins inside the interval of a mean", rows: [[60, 4], [120, 7], [180, 2]], channel: { kind: "interval mean" }, period: [90, 180], gives: [[90, 120, 7, 7, "sampled"], [120, 180, 2, 2, "sampled"]] },
  { what: "a peak bounds the mean of its interval from above only", rows: [[60, 4], [120, 7]], channel: { kind: "interval peak" }, gives: [[0, 60, 0, 4, "bounded"], [60, 120, 0, 7, "bounded"]] },
  { what: "a cut takes readings out and puts nothing in", rows: [[0, 4], [10, 7], [20, 2]], settings: { cuts: [cut(5, 12)] }, gives: [[0, 5, 4, 4, "sampled"], [5, 12, 0, "open", "unsampled"], [12, 20, 7, 7, "sampled"]] },
  { what: "declared unexposed", rows: [[0, 4], [10, "none"], [20, 2], [30, 1]], declarations: [declared({ kind: "unexposed" })], gives: [[0, 10, 4, 4, "sampled"], [10, 20, 0, 0, "declaredUnexposed"], [20, 30, 2, 2, "sampled"]] },
  { what: "a worst case for part of a gap", rows: [[0, 4], [10, "none"], [30, 2], [40, 1]], declarations: [worst("60.1", 15, 25)], gives: [[0, 10, 4, 4, "sampled"], [10, 15, 0, "open", "unsampled"], [15, 25, 0, 61, "declaredWorstCase"], [25, 30, 0, "open", "unsampled"], [30, 40, 2, 2, "sampled"]] },
  { what: "of two declarations the one that allows more stands", rows: [[0, "none"], [10, 1], [20, 1]], declarations: [worst("60"), declared({ id: "d2", kind: "unexposed" }), { ...worst("30"), id: "d3" }], gives: [[0, 10, 0, 60, "declaredWorstCase"], [10, 20, 1, 1, "sampled"]] },
  { what: "a worst case as an average stays open at any moment", rows: [[0, "none"], [10, 1], [20, 1]], declarations: [worst("60", null, null, "as an average")], gives: [[0, 10, 0, "open", "declaredAverageOnly"], [10, 20, 1, 1, "sampled"]] },
  { what: "like the sampled time stays open at any moment", rows: [[0, "none"], [10, 1], [20, 1]], declarations: [declared({ kind: "like the sampled time" })], gives: [[0, 10, 0, "open", "declaredLikeSampled"], [10, 20, 1, 1, "sampled"]] },
  { what: "a declaration for another channel says nothing", rows: [[0, "none"], [10, 1], [20, 1]], declarations: [{ ...worst("60"), channel: "H2S" }], gives: [[0, 10, 0, "open", "unsampled"], [10, 20, 1, 1, "sampled"]] },
  { what: "a declaration never speaks where a reading stands", rows: [[0, 40], [10, 1]], declarations: [declared({ kind: "unexposed" })], gives: [[0, 10, 40, 40, "sampled"]] },
  { what: "an over-range bound", rows: [[0, ">500"], [10, 1]], declarations: [declared({ kind: "over-range bound", levelText: "5000", holds: "at any moment" })], gives: [[0, 10, 500, 5000, "bounded"]] },
  { what: "an over-range bound below what was read is not used", rows: [[0, ">500"], [10, 1]], declarations: [declared({ kind: "over-range bound", levelText: "400", holds: "at any moment" })], gives: [[0, 10, 500, "open", "bounded"]] },
  { what: "an over-range bound says nothing of a gap, nor a worst case of over range", rows: [[0, ">500"], [10, "none"], [20, 1], [30, 1]], declarations: [declared({ id: "b", kind: "over-range bound", levelText: "900", holds: "at any moment" }), worst("60")], gives: [[0, 10, 500, 900, "bounded"], [10, 20, 0, 60, "declaredWorstCase"], [20, 30, 1, 1, "sampled"]] },
  { what: "one row has no length", rows: [[0, 4]], gives: [] },
];

describe("signalOf", () => {
  test.each(cases)("$what", ({ rows, channel, settings, declarations, period, gives }) => {
    const span = period === undefined ? null : { from: period[0] * 1000, to: period[1] * 1000 };
    const { signal, tally } = signalled(written(rows, channel), settings, declarations, span);
    expect(segmentsOf(signal)).toEqual(gives);
    expect(tally.sampledMs + tally.boundedMs + tally.unsampledMs + tally.declaredMs).toBe(tally.periodMs);
  });

  test("a regular valid log is laid out without copying", () => {
    const channel = written([
      [0, 4],
      [10, 7],
      [20, 2],
      [30, 5],
    ]);
    const { signal, last, largestGap } = signalled(channel);
    expect(signal.low.buffer).toBe(channel.values.buffer);
    expect(signal).toMatchObject({
      high: null,
      stretches: null,
      timing: { kind: "regular", start: 0, stepMs: 10_000, count: 3 },
      outside: "unsampled",
      largest: 7,
    });
    expect(last).toEqual({ at: 30_000, row: 3 });
    expect(largestGap).toMatchObject({ ms: 15_000, chosenBy: "default" });
  });

  test("an uneven log without gaps is laid out without copying", () => {
    const channel = written([
      [0, 4],
      [10, 7],
      [21, 2],
      [30, 5],
    ]);
    const { signal } = signalled(channel);
    expect(signal.timing.kind === "uneven" && signal.timing.edges.buffer).toBe(channel.times.buffer);
    expect(signal.low.buffer).toBe(channel.values.buffer);
  });

  test("outside a shift nobody was exposed; outside a file nothing is known", () => {
    const channel = written([
      [0, 4],
      [10, 7],
    ]);
    expect(signalled(channel, {}, [], { from: 0, to: 5000 }).signal.outside).toBe("unexposed");
    expect(signalled(channel).signal.outside).toBe("unsampled");
    expect(signalled(channel, { outside: "unexposed" }).signal.outside).toBe("unexposed");
  });

  test("an average bound keeps the stretch that it is about, and reaches out of the shift where it was declared so", () => {
    const channel = written([
      [0, 4],
      [10, "none"],
      [30, 2],
      [40, 1],
    ]);
    const inside = signalled(channel, {}, [worst("60", 5, 35, "as an average")]).signal.averageOnly;
    expect(inside).toEqual([{ from: 10_000, to: 30_000, high: 60 }]);
    const beyond = signalled(channel, {}, [worst("60", -100, 35, "as an average")], { from: 15_000, to: 30_000 }).signal.averageOnly;
    expect(beyond).toEqual([{ from: -100_000, to: 35_000, high: 60 }]);
  });

  test("counts time by what it rests on", () => {
    const rows: WrittenRow[] = [
      [0, -1],
      [10, 5],
      [20, ">50"],
      [30, "none"],
      [50, 4],
      [60, 4],
    ];
    const { tally, notes } = signalled(written(rows), {}, [worst("60", 35, 45)]);
    expect(tally).toMatchObject({
      periodMs: 60_000,
      sampledMs: 30_000,
      boundedMs: 10_000,
      unsampledMs: 10_000,
      declaredMs: 10_000,
      overRangeMs: 10_000,
      overRangeAtLeast: 50,
      negativeMs: 10_000,
    });
    expect([...tally.declaredById]).toEqual([["d1", 10_000]]);
    expect(notes.map(({ type }) => type)).toEqual(["negative readings", "doubtful after over-range"]);
    expect(notes[1]).toMatchObject({ from: 30_000, until: 60_000 });
  });

  test.each([
    [{ deadBand: "little" }, "setting-not-a-number"],
    [{ negativeFloor: "-3" }, "setting-not-a-number"],
    [{ failedChecks: [check("0", "50")] }, "setting-not-a-number"],
    [{ largestGapMs: 0 }, "largest-gap-not-above-nought"],
  ] as const)("refuses %j", (settings, type) => {
    const refusal = signalOf(
      written([
        [0, 1],
        [10, 1],
      ]),
      { ...PLAIN_SETTINGS, ...settings },
      [],
      null,
    );
    expect(refusal).toMatchObject({ ok: false, refusal: { type } });
  });

  test("refuses no rows, an empty period, a level that is no number, and a time too long to sum exactly", () => {
    const channel = written([
      [0, 1],
      [10, 1],
    ]);
    expect(signalOf(written([]), PLAIN_SETTINGS, [], null)).toMatchObject({ refusal: { type: "no-readings" } });
    expect(signalOf(channel, PLAIN_SETTINGS, [], { from: 5, to: 5 })).toMatchObject({ refusal: { type: "period-ends-before-start" } });
    expect(signalOf(channel, PLAIN_SETTINGS, [worst("much")], null)).toMatchObject({
      refusal: { type: "declared-level-not-a-number", text: "much" },
    });
    const long = {
      ...written([
        [0, 1],
        [3e6, 1],
        [6e6, 1],
      ]),
      values: Int32Array.of(2e9, 2e9, 2e9),
    };
    expect(signalOf(long, PLAIN_SETTINGS, [], null)).toMatchObject({ refusal: { type: "too-long-for-exact-sums" } });
  });

  test("where a clock was set back both parts count", () => {
    const channel = written(
      [
        [0, 1],
        [10, 2],
        [20, 3],
        [22, 40],
        [30, 4],
        [32, 50],
        [42, 60],
        [52, 70],
      ],
      { lines: Uint32Array.of(2, 3, 4, 6, 5, 7, 8, 9) },
    );
    const { signal, notes } = signalled(channel, { largestGapMs: 15_000 });
    expect(segmentsOf(signal).filter(([from]) => from >= 20 && from <= 32)).toEqual([
      [20, 22, 3, 3, "sampled"],
      [22, 30, 2, 40, "sampled"],
      [30, 32, 3, 40, "sampled"],
      [32, 42, 50, 50, "sampled"],
    ]);
    expect(notes).toContainEqual({ type: "clock set back", lineBefore: 5, lineAfter: 6, backMs: 8000, from: 22_000, to: 30_000 });
  });
});
