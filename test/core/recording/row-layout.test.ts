import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { ReadingKind } from "../../../src/core/quantity/reading-kind.ts";
import { type Channel, OPEN, type Period, regularStep, STRETCH } from "../../../src/core/recording/index.ts";
import { onlyCommonStep } from "../../../src/core/recording/largest-gap.ts";
import { edgeAt, type Pieces, segmentCount } from "../../../src/core/recording/pieces.ts";
import { type RowBounds, rowBounds } from "../../../src/core/recording/row-bounds.ts";
import { paddedLayout, piecewiseLayout, rowLayout, straightLayout } from "../../../src/core/recording/row-layout.ts";
import { type WrittenRow, written } from "./written-channel.ts";

const SECOND = 1000;
const RANGE_TOP = 40;

interface Laid {
  readonly channel: Channel;
  readonly bounds: RowBounds;
  readonly step: number | null;
  readonly largestGapMs: number;
  readonly period: Period | null;
}

/** One second of a signal as numbers that can be compared: both edges, and what they rest on. */
type SecondOfSignal = readonly [low: number, high: number, stretch: number];
const OPEN_SECOND: SecondOfSignal = [0, OPEN, STRETCH.unsampled];

/** The table of "how long a reading stands", read for one second alone. */
function expectedAt({ channel, bounds, largestGapMs }: Laid, at: number): SecondOfSignal {
  const times = [...channel.times];
  const closes = channel.kind !== "spot";
  const row = closes ? times.findIndex((time) => time > at) : times.findLastIndex((time) => time <= at);
  const time = times[row];
  if (time === undefined || (!closes && row >= bounds.lastReading)) return OPEN_SECOND;
  const before = row === 0 ? time - (onlyCommonStep(channel.times) ?? 0) : (times[row - 1] ?? 0);
  const stands = closes ? at >= Math.max(before, time - largestGapMs) : at - time < largestGapMs;
  if (!stands) return OPEN_SECOND;
  const low = bounds.low[row] ?? Number.NaN;
  return [low, bounds.high === null ? low : (bounds.high[row] ?? Number.NaN), bounds.stretches?.[row] ?? STRETCH.sampled];
}

/** A layout cut into seconds; all times of these tests are whole seconds. */
function secondsOf({ timing, low, high, stretches }: Pieces): Map<number, SecondOfSignal> {
  const seconds = new Map<number, SecondOfSignal>();
  for (let segment = 0; segment < segmentCount(timing); segment += 1) {
    const lowest = low[segment] ?? Number.NaN;
    const cell: SecondOfSignal = [lowest, high === null ? lowest : (high[segment] ?? Number.NaN), stretches?.[segment] ?? STRETCH.sampled];
    for (let at = edgeAt(timing, segment); at < edgeAt(timing, segment + 1); at += SECOND) seconds.set(at, cell);
  }
  return seconds;
}

function integralsOf(pieces: Pieces): { low: number; high: number; openMs: number; msByStretch: number[] } {
  const sum = { low: 0, high: 0, openMs: 0, msByStretch: Array<number>(7).fill(0) };
  for (const [low, high, stretch] of secondsOf(pieces).values()) {
    sum.low += low * SECOND;
    if (high === OPEN) sum.openMs += SECOND;
    else sum.high += high * SECOND;
    sum.msByStretch[stretch] = (sum.msByStretch[stretch] ?? 0) + SECOND;
  }
  return sum;
}

const readings = fc.oneof(
  { weight: 8, arbitrary: fc.integer({ min: -4, max: RANGE_TOP + 3 }).map(String) },
  fc.integer({ min: 0, max: RANGE_TOP }).map((low) => `${low}..${low + 2}`),
  fc.constantFrom("none", "fault", ">", ">40", "<3"),
);
/** Plain readings alone come out with one edge, without a column of stretches. */
const plainReadings = fc.integer({ min: 0, max: RANGE_TOP - 1 }).map(String);

const rowsOf = (steps: fc.Arbitrary<number>): fc.Arbitrary<WrittenRow[]> =>
  fc.constantFrom(readings, plainReadings).chain((reading) =>
    fc.array(fc.tuple(steps, reading), { minLength: 1, maxLength: 25 }).map((cells) => {
      let seconds = 0;
      return cells.map(([step, cell]): WrittenRow => [(seconds += step), cell]);
    }),
  );
const none = fc.array(fc.constantFrom("none", "fault"), { maxLength: 2 });

/** Regular, uneven without gaps, and with gaps; some with rows at either end that hold no reading. */
const channels = fc
  .tuple(
    fc.oneof(rowsOf(fc.constant(10)), rowsOf(fc.integer({ min: 7, max: 12 })), rowsOf(fc.constantFrom(10, 10, 10, 60))),
    none,
    none,
    fc.constantFrom<ReadingKind>("spot", "spot", "interval mean", "interval peak"),
    fc.constantFrom(null, RANGE_TOP),
  )
  .map(([rows, before, after, kind, rangeTop]) => {
    const silent = (cells: readonly string[], from: number) => cells.map((cell, index): WrittenRow => [from + index * 10, cell]);
    const first = (rows[0]?.[0] ?? 0) - 10 * before.length;
    return written([...silent(before, first), ...rows, ...silent(after, (rows.at(-1)?.[0] ?? 0) + 10)], { kind, rangeTop });
  });

/** None; on rows; around the rows by whole steps or not; cutting into them; or beside them altogether. */
const periodsOf = ({ times }: Channel): fc.Arbitrary<Period | null> => {
  const [start, end] = [times[0] ?? 0, times.at(-1) ?? 0];
  const row = fc.nat({ max: times.length - 1 }).map((index) => times[index] ?? 0);
  const steps = fc.integer({ min: 0, max: 6 }).map((count) => count * 10 * SECOND);
  const odd = fc.integer({ min: 0, max: 47 }).map((count) => count * SECOND);
  const around = (margin: fc.Arbitrary<number>) =>
    fc.tuple(margin, margin).map(([before, after]) => ({ from: start - before, to: end + after }));
  const within = fc
    .tuple(fc.integer({ min: -40, max: 300 }), fc.integer({ min: 1, max: 300 }))
    .map(([from, length]) => ({ from: start + from * SECOND, to: start + (from + length) * SECOND }));
  const onRows = fc.tuple(row, row).map(([one, other]) => ({ from: Math.min(one, other), to: Math.max(one, other) }));
  return fc
    .oneof(fc.constant(null), onRows, around(steps), around(odd), within)
    .filter((period) => period === null || period.to > period.from);
};

const layouts: fc.Arbitrary<Laid> = channels.chain((channel) =>
  fc.tuple(periodsOf(channel), fc.constantFrom(10, 12, 15, 90)).map(([period, gap]) => ({
    channel,
    period,
    largestGapMs: gap * SECOND,
    step: regularStep(channel.times),
    bounds: rowBounds(channel, { deadBand: 2, negativeFloor: 2, failedChecks: [], clockJumps: [], largestGapMs: gap * SECOND }),
  })),
);

const RUNS = { numRuns: 1500 };

describe("rows laid over a period", () => {
  test("say, second by second, what the reading that stands there says, and are open elsewhere", () => {
    fc.assert(
      fc.property(layouts, (laid) => {
        const pieces = rowLayout(laid.channel, laid.bounds, laid.step, laid.largestGapMs, laid.period);
        const seconds = secondsOf(pieces);
        for (const [at, second] of seconds) expect([at, second]).toEqual([at, expectedAt(laid, at)]);
        if (laid.period !== null) expect(seconds.size * SECOND).toBe(laid.period.to - laid.period.from);
      }),
      RUNS,
    );
  });

  test("give the same integrals straight, padded and row by row", () => {
    const served = { straight: 0, padded: 0 };
    fc.assert(
      fc.property(layouts, ({ channel, bounds, step, largestGapMs, period }) => {
        const byRow = integralsOf(piecewiseLayout(channel, bounds, largestGapMs, period));
        const straight = straightLayout(channel, bounds, step, largestGapMs, period);
        const padded = paddedLayout(channel, bounds, step, largestGapMs, period);
        if (straight !== null) expect(integralsOf(straight)).toEqual(byRow);
        if (padded !== null) expect(integralsOf(padded)).toEqual(byRow);
        served.straight += Number(straight !== null);
        served.padded += Number(padded !== null);
      }),
      RUNS,
    );
    // Else the comparison above would have compared nothing.
    expect(Math.min(served.straight, served.padded)).toBeGreaterThan(RUNS.numRuns / 50);
  });

  test.each([
    ["a file that is one shift", "spot", null, "straight"],
    ["a shift that begins and ends on rows", "spot", { from: 10, to: 30 }, "straight"],
    ["means, each of the step before", "interval mean", { from: -10, to: 30 }, "straight"],
    ["a shift around its rows, on their grid", "spot", { from: -20, to: 60 }, "padded"],
    ["a shift that begins between two rows", "spot", { from: 4, to: 60 }, "row by row"],
    ["a shift off the grid", "spot", { from: -13, to: 60 }, "row by row"],
    ["a shift that cells of the grid would make far too long", "spot", { from: -20, to: 90_000 }, "row by row"],
  ] as const)("%s (%s, %j) is laid %s", (_, kind, seconds, way) => {
    const channel = written(
      [0, 10, 20, 30, 40].map((at): WrittenRow => [at, at / 10]),
      { kind },
    );
    const bounds = rowBounds(channel, { deadBand: null, negativeFloor: null, failedChecks: [], clockJumps: [], largestGapMs: 15_000 });
    const period = seconds === null ? null : { from: seconds.from * SECOND, to: seconds.to * SECOND };
    const straight = straightLayout(channel, bounds, 10_000, 15_000, period);
    const padded = paddedLayout(channel, bounds, 10_000, 15_000, period);
    expect(straight !== null ? "straight" : padded !== null ? "padded" : "row by row").toBe(way);
    if (straight !== null) expect(straight.low.buffer).toBe(channel.values.buffer); // nothing was copied
  });
});
