import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  blockSummaries,
  type Channel,
  coverage,
  keptRows,
  m4Columns,
  OPEN,
  READING,
  recordedSpans,
  SEEN,
  STRETCH,
  sampledMean,
  signalColumns,
  stretchRuns,
} from "../../../src/core/recording/index.ts";
import { declared, signalled, written } from "./written-channel.ts";

const channels = fc
  .record({ count: fc.integer({ min: 1, max: 1500 }), seed: fc.integer({ min: 1, max: 1e6 }), empty: fc.constantFrom(0, 0.1, 0.9) })
  .map(({ count, seed, empty }): Channel => {
    let state = seed;
    const next = () => (state = (state * 48_271) % 2_147_483_647) / 2_147_483_647;
    let seconds = 0;
    return written(
      Array.from(
        { length: count },
        () =>
          [
            (seconds += 1 + Math.floor(next() * next() * 40)),
            next() < empty ? "none" : next() < 0.02 ? ">40" : Math.floor(next() * 30) - 3,
          ] as const,
      ),
    );
  });
const views = fc.tuple(fc.integer({ min: -50, max: 4000 }), fc.integer({ min: 1, max: 9000 }), fc.integer({ min: 1, max: 300 }));

describe("m4Columns", () => {
  test("each column holds what a plain walk over its readings finds, with and without summaries", () => {
    fc.assert(
      fc.property(channels, views, (channel, [start, length, width]) => {
        const from = start * 1000;
        const to = from + length * 1000;
        const columns = m4Columns(channel, from, to, width, 15_000, null);
        expect(m4Columns(channel, from, to, width, 15_000, blockSummaries(channel, 15_000))).toEqual(columns);
        const found = Array.from({ length: width }, (): number[] => []);
        channel.times.forEach((time, row) => {
          const code = channel.codes?.[row] ?? READING.valid;
          if (time < from || time > to || code === READING.none) return;
          found[Math.min(width - 1, Math.floor(((time - from) * width) / (to - from)))]?.push(row);
        });
        found.forEach((rows, column) => {
          const values = rows.map((row) => channel.values[row] ?? 0);
          expect([columns.first[column], columns.last[column]]).toEqual([rows[0] ?? -1, rows.at(-1) ?? -1]);
          expect(columns.lowest[column]).toBe(rows[values.indexOf(Math.min(...values))] ?? -1);
          expect(columns.highest[column]).toBe(rows[values.indexOf(Math.max(...values))] ?? -1);
        });
        expect(keptRows(columns)).toEqual(
          [
            ...new Set(
              found.flatMap((rows, column) =>
                rows.length === 0 ? [] : [rows[0], columns.lowest[column], columns.highest[column], rows.at(-1)],
              ),
            ),
          ].sort((one, other) => (one ?? 0) - (other ?? 0)),
        );
      }),
    );
  });

  test("gaps, empty rows and readings out of range are marked in their column", () => {
    const channel = written([
      [0, 1],
      [10, ">50"],
      [20, 2],
      [100, "none"],
      [110, "<3"],
      [120, "4..6"],
    ]);
    expect([...m4Columns(channel, 0, 160_000, 4, 15_000, null).seen]).toEqual([
      SEEN.overRange,
      0,
      SEEN.gap | SEEN.noReading | SEEN.underRange,
      SEEN.interval,
    ]);
  });
});

describe("blockSummaries", () => {
  test("sums and open time add up to those of the signal", () => {
    fc.assert(
      fc.property(channels, (channel) => {
        const blocks = blockSummaries(channel, 15_000);
        const sum = blocks.sums.reduce((total, part) => total + part, 0);
        let expected = 0;
        channel.times.forEach((time, row) => {
          if ((channel.codes?.[row] ?? 0) >= READING.none) return;
          expected += Math.min(15_000, (channel.times[row + 1] ?? time) - time) * (channel.values[row] ?? 0);
        });
        expect(sum).toBe(expected);
      }),
    );
  });
});

describe("signalColumns", () => {
  test("no column is narrower than the signal within it", () => {
    fc.assert(
      fc.property(channels, fc.integer({ min: 1, max: 120 }), (channel, width) => {
        const { signal } = signalled(channel, { largestGapMs: 15_000 });
        const end = channel.times.at(-1) ?? 0;
        const columns = signalColumns(signal, 0, end + 1, width);
        const edge = (index: number) =>
          signal.timing.kind === "regular" ? signal.timing.start + index * signal.timing.stepMs : (signal.timing.edges[index] ?? 0);
        signal.low.forEach((low, segment) => {
          const middle = (edge(segment) + edge(segment + 1)) / 2;
          const column = Math.floor((middle * width) / (end + 1));
          expect(columns.low[column]).toBeLessThanOrEqual(low);
          expect(columns.high[column]).toBeGreaterThanOrEqual(signal.high?.[segment] ?? low);
          expect((columns.stretches[column] ?? 0) & (1 << (signal.stretches?.[segment] ?? 0))).not.toBe(0);
        });
      }),
      { numRuns: 50 },
    );
  });

  test("names open time", () => {
    const { signal } = signalled(
      written([
        [0, 5],
        [10, "none"],
        [30, 5],
        [40, 5],
      ]),
    );
    const columns = signalColumns(signal, 0, 40_000, 4);
    expect([...columns.high]).toEqual([5, OPEN, OPEN, 5]);
    const open = 1 << STRETCH.unsampled;
    expect([...columns.stretches]).toEqual([1, open, open, 1]);
  });
});

describe("spans", () => {
  test("rows say why there is no plain reading", () => {
    const rows = [
      [0, 4],
      [10, ">50"],
      [20, ">40"],
      [30, "none"],
      [40, "fault"],
      [50, 3],
      [100, "<2"],
      [110, 9],
    ] as const;
    expect(recordedSpans(written(rows), 15_000)).toEqual([
      { from: 10_000, to: 30_000, why: "over range", atLeast: 40 },
      { from: 30_000, to: 40_000, why: "no reading", atLeast: null },
      { from: 40_000, to: 50_000, why: "fault", atLeast: null },
      { from: 65_000, to: 100_000, why: "gap", atLeast: null },
      { from: 100_000, to: 110_000, why: "under range", atLeast: null },
    ]);
    expect(
      recordedSpans(
        written(
          [
            [0, 4],
            [60, 5],
            [300, 6],
          ],
          { kind: "interval mean" },
        ),
        90_000,
      ),
    ).toEqual([{ from: 60_000, to: 210_000, why: "gap", atLeast: null }]);
  });

  test("the signal says what a stretch rests on", () => {
    const { signal } = signalled(
      written([
        [0, 4],
        [10, ">50"],
        [20, ">40"],
        [30, "none"],
        [40, "none"],
        [50, 3],
        [60, 1],
      ]),
      {},
      [declared({ kind: "worst case", levelText: "9", holds: "at any moment", from: 35_000, to: 45_000 })],
    );
    expect(stretchRuns(signal)).toEqual([
      { from: 10_000, to: 30_000, stretch: STRETCH.bounded, low: 40, high: null },
      { from: 30_000, to: 35_000, stretch: STRETCH.unsampled, low: 0, high: null },
      { from: 35_000, to: 45_000, stretch: STRETCH.declaredWorstCase, low: 0, high: 9 },
      { from: 45_000, to: 50_000, stretch: STRETCH.unsampled, low: 0, high: null },
    ]);
  });
});

describe("means over the sampled time", () => {
  test("each reading counts for as long as it stands; open time has no upper mean", () => {
    const gappy = signalled(
      written([
        [0, 10],
        [60, 100],
        [120, "none"],
        [180, 10],
        [240, 10],
      ]),
    ).signal;
    expect(sampledMean(gappy)).toEqual({ sampledMs: 180_000, low: 40, high: 40 });
    expect(coverage(gappy, 0, 300_000)).toBeCloseTo(0.6, 12);
    expect(
      sampledMean(
        signalled(
          written([
            [0, ">50"],
            [10, 1],
            [20, 1],
          ]),
        ).signal,
      ),
    ).toEqual({ sampledMs: 20_000, low: 25.5, high: null });
    expect(
      sampledMean(
        signalled(
          written([
            [0, "none"],
            [10, "none"],
          ]),
        ).signal,
      ),
    ).toEqual({ sampledMs: 0, low: null, high: null });
  });
});
