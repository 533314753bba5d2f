import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { ReadingKind } from "../../../src/core/quantity/reading-kind.ts";
import { type Channel, type Cut, type Declaration, OPEN, type SignalSettings } from "../../../src/core/recording/index.ts";
import { declared, integral, signalled, type WrittenRow, written } from "./written-channel.ts";

const readings = (least: number) =>
  fc.oneof(
    { weight: 6, arbitrary: fc.integer({ min: least, max: 600 }).map(String) },
    fc.integer({ min: 0, max: 600 }).map((top) => `>${top}`),
    fc.integer({ min: 1, max: 9 }).map((bound) => `<${bound}`),
    fc.tuple(fc.integer({ min: 0, max: 99 }), fc.integer({ min: 0, max: 99 })).map(([low, more]) => `${low}..${low + more}`),
    fc.constantFrom("none", "fault", ">"),
  );

const rowsOf = (least: number): fc.Arbitrary<WrittenRow[]> =>
  fc.array(fc.tuple(fc.constantFrom(10, 10, 10, 7, 90), readings(least)), { minLength: 2, maxLength: 30 }).map((steps) => {
    let seconds = 0;
    return steps.map(([step, reading]) => [(seconds += step), reading] as const);
  });

const kinds = fc.constantFrom<ReadingKind>("spot", "interval mean", "interval peak");
const spans = fc
  .tuple(fc.integer({ min: 0, max: 400 }), fc.integer({ min: 1, max: 300 }))
  .map(([from, length]) => ({ from: from * 1000, to: (from + length) * 1000 }));
const periods = fc.option(spans, { nil: null });
const settingsOf: fc.Arbitrary<Partial<SignalSettings>> = fc.record({
  deadBand: fc.constantFrom(null, "0.5", "3"),
  negativeFloor: fc.constantFrom(null, "0", "5"),
  failedChecks: fc.constantFrom([], [{ from: 50_000, to: null, reading: "17", known: "20" }]),
  cuts: fc.array(
    spans.map((span): Cut => ({ ...span, why: "on test gas" })),
    { maxLength: 2 },
  ),
});
const declarationsOf: fc.Arbitrary<Declaration[]> = fc.array(
  fc
    .tuple(
      spans,
      fc.constantFrom("unexposed", "worst case", "like the sampled time", "over-range bound"),
      fc.integer({ min: 0, max: 900 }),
      fc.boolean(),
    )
    .map(([span, kind, level, moment]) =>
      declared({ ...span, id: `${kind} ${level}`, kind, levelText: String(level), holds: moment ? "at any moment" : "as an average" }),
    ),
  { maxLength: 3 },
);

const edgesOf = (channel: Channel, signal: ReturnType<typeof signalled>["signal"]) => {
  void channel;
  return signal.timing.kind === "regular"
    ? Array.from({ length: signal.timing.count + 1 }, (_, edge) =>
        signal.timing.kind === "regular" ? signal.timing.start + edge * signal.timing.stepMs : 0,
      )
    : [...signal.timing.edges];
};

describe("the two-edged signal", () => {
  test("low is never above high, edges rise, segments fill the period, and the tally adds up", () => {
    fc.assert(
      fc.property(rowsOf(-20), kinds, settingsOf, declarationsOf, periods, (rows, kind, settings, declarations, period) => {
        const channel = written(rows, { kind });
        const { signal, tally } = signalled(channel, settings, declarations, period);
        const edges = edgesOf(channel, signal);
        for (let edge = 1; edge < edges.length; edge += 1) expect(edges[edge]).toBeGreaterThan(edges[edge - 1] ?? 0);
        if (period !== null) expect([edges[0], edges.at(-1)]).toEqual([period.from, period.to]);
        signal.low.forEach((low, segment) => {
          const high = signal.high === null ? low : (signal.high[segment] ?? 0);
          expect(low).toBeLessThanOrEqual(high);
          if (high !== OPEN) expect(Math.max(high, -low)).toBeLessThanOrEqual(signal.largest);
        });
        expect(tally.sampledMs + tally.boundedMs + tally.unsampledMs + tally.declaredMs).toBeCloseTo(tally.periodMs, 6);
      }),
    );
  });

  test("widening the status of a row never narrows the signal", () => {
    const widen = (reading: string) => (/^\d+$/.test(reading) ? [`0..${Number(reading) + 5}`, `>${reading}`, "none", "fault"] : ["fault"]);
    fc.assert(
      fc.property(rowsOf(0), fc.nat(), fc.nat(), settingsOf, (rows, at, how, settings) => {
        const row = at % (rows.length - 1);
        const choices = widen(String(rows[row]?.[1]));
        const wider = rows.map(
          ([seconds, reading], index): WrittenRow =>
            index === row ? [seconds, choices[how % choices.length] ?? "fault"] : [seconds, reading],
        );
        const before = signalled(written(rows), settings).signal;
        const after = signalled(written(wider), settings).signal;
        for (let second = 0; second < 400; second += 1) {
          const narrow = integral(before, second * 1000, second * 1000 + 1000);
          const wide = integral(after, second * 1000, second * 1000 + 1000);
          expect(wide.low).toBeLessThanOrEqual(narrow.low);
          expect(wide.high).toBeGreaterThanOrEqual(narrow.high);
        }
      }),
      { numRuns: 60 },
    );
  });

  test("a reading repeated in between, and a stretch declared in two parts, change no integral", () => {
    fc.assert(
      fc.property(rowsOf(-5), spans, fc.integer({ min: 1, max: 99 }), (rows, span, share) => {
        const ended: WrittenRow[] = [...rows, [(rows.at(-1)?.[0] ?? 0) + 10, 1]];
        const plain = signalled(written(ended), { largestGapMs: 15_000 }).signal;
        const isStep = (row: number) => (ended[row + 1]?.[0] ?? 0) - (ended[row]?.[0] ?? 0) === 10;
        const doubled = ended.flatMap(([seconds, reading], row): WrittenRow[] =>
          isStep(row)
            ? [
                [seconds, reading],
                [seconds + 5, reading],
              ]
            : [[seconds, reading]],
        );
        expect(integral(signalled(written(doubled), { largestGapMs: 15_000 }).signal, 0, 1e7)).toEqual(integral(plain, 0, 1e7));
        const middle = span.from + ((span.to - span.from) * share) / 100;
        const whole = declared({ kind: "worst case", levelText: "60", holds: "at any moment", ...span });
        const parts = [
          { ...whole, id: "a", to: middle as Declaration["to"] },
          { ...whole, id: "b", from: middle as Declaration["from"] },
        ];
        const one = integral(signalled(written(ended), {}, [whole]).signal, 0, 1e7);
        const two = integral(signalled(written(ended), {}, parts).signal, 0, 1e7);
        expect(two.low).toBe(one.low);
        if (one.high === Infinity) expect(two.high).toBe(Infinity);
        else expect(two.high).toBeCloseTo(one.high, 3);
      }),
    );
  });

  test("taking a cut away can only raise what was shown", () => {
    fc.assert(
      fc.property(rowsOf(0), spans, periods, (rows, span, period) => {
        const channel = written(rows);
        const withCut = signalled(channel, { cuts: [{ ...span, why: "being zeroed" }] }, [], period).signal;
        const without = signalled(channel, {}, [], period).signal;
        expect(integral(without, 0, 1e7).low).toBeGreaterThanOrEqual(integral(withCut, 0, 1e7).low);
      }),
    );
  });

  test("a declaration never moves the low edge, and never raises the high edge", () => {
    fc.assert(
      fc.property(rowsOf(-20), kinds, declarationsOf, periods, (rows, kind, declarations, period) => {
        const channel = written(rows, { kind });
        const plain = signalled(channel, {}, [], period).signal;
        const withDeclarations = signalled(channel, {}, declarations, period).signal;
        expect(integral(withDeclarations, 0, 1e7).low).toBe(integral(plain, 0, 1e7).low);
        expect(integral(withDeclarations, 0, 1e7).high).toBeLessThanOrEqual(integral(plain, 0, 1e7).high);
      }),
    );
  });

  test("declaring time unexposed, beside whatever else is declared, never raises an edge", () => {
    fc.assert(
      fc.property(rowsOf(-20), declarationsOf, spans, periods, (rows, declarations, span, period) => {
        const channel = written(rows);
        const before = signalled(channel, {}, declarations, period).signal;
        const after = signalled(channel, {}, [...declarations, declared({ ...span, id: "u", kind: "unexposed" })], period).signal;
        expect(integral(after, 0, 1e7).low).toBe(integral(before, 0, 1e7).low);
        expect(integral(after, 0, 1e7).high).toBeLessThanOrEqual(integral(before, 0, 1e7).high);
      }),
    );
  });

  test("a longer shift adds open time around the rows and changes nothing between them, on the grid of the log or off it", () => {
    const steady = fc
      .tuple(fc.array(readings(-9), { minLength: 2, maxLength: 20 }), fc.constantFrom(0, 3))
      .map(([cells, jitter]) => cells.map((cell, row): WrittenRow => [row * 10 + (row % 3 === 1 ? jitter : 0), cell]));
    fc.assert(
      fc.property(steady, fc.integer({ min: 0, max: 90 }), fc.integer({ min: 0, max: 90 }), (rows, before, after) => {
        const end = rows.at(-1)?.[0] ?? 0;
        const channel = written(rows);
        const alone = signalled(channel, { largestGapMs: 15_000 }).signal;
        const { signal, tally } = signalled(channel, { largestGapMs: 15_000 }, [], { from: -before * 1000, to: (end + after) * 1000 });
        for (let second = 0; second < end; second += 1) {
          expect(integral(signal, second * 1000, second * 1000 + 1000)).toEqual(integral(alone, second * 1000, second * 1000 + 1000));
        }
        expect(integral(signal, -before * 1000, 0)).toEqual({ low: 0, high: before === 0 ? 0 : Infinity });
        expect(integral(signal, end * 1000, (end + after) * 1000)).toEqual({ low: 0, high: after === 0 ? 0 : Infinity });
        expect(tally.periodMs).toBe((end + before + after) * 1000);
      }),
    );
  });

  test("shifting the clock shifts the signal and nothing else", () => {
    fc.assert(
      fc.property(rowsOf(-20), kinds, settingsOf, fc.integer({ min: 1, max: 2_000_000_000 }), (rows, kind, settings, seconds) => {
        const later = rows.map(([at, reading]): WrittenRow => [at + seconds, reading]);
        const plain = signalled(written(rows, { kind }), { ...settings, cuts: [], failedChecks: [] });
        const moved = signalled(written(later, { kind }), { ...settings, cuts: [], failedChecks: [] });
        expect([...moved.signal.low]).toEqual([...plain.signal.low]);
        expect(moved.tally).toEqual(plain.tally);
        expect(moved.largestGap).toEqual(plain.largestGap);
      }),
    );
  });
});
