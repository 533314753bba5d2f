// What holds for every signal: sliding maxima against brute force in whole fractions, two ends, invariances.
import fc from "fast-check";
import { expect, test } from "vitest";
import {
  averageBounds,
  boundedWindowMean,
  breakEvenLevel,
  edgeSums,
  greatestTimeWithin,
  greatestWindow,
  integralBetween,
  levelSum,
  limitDigits,
  mixtureSignal,
  outcomeOfBounds,
  periodOf,
  readingEpisodes,
  rollingMean,
  runsAbove,
  signalSums,
  timeAbove,
  windowBounds,
  windowEpisodes,
} from "../../../src/core/exposure/index.ts";
import { OPEN, STRETCH, type Timing, type TwoEdgedSignal } from "../../../src/core/recording/index.ts";

const RUNS = { numRuns: 400 };

/** Levels and lengths of segments; regular where all lengths are one. */
const written = fc
  .record({
    levels: fc.array(fc.integer({ min: -3, max: 60 }), { minLength: 1, maxLength: 150 }),
    regular: fc.boolean(),
    step: fc.integer({ min: 1, max: 9 }),
    seed: fc.infiniteStream(fc.integer({ min: 1, max: 9 })),
  })
  .map(({ levels, regular, step, seed }) => {
    const lengths = levels.map(() => (regular ? step : Number(seed.next().value)));
    return { levels, timing: timingOf(lengths, regular) };
  });

function timingOf(lengths: readonly number[], regular: boolean): Timing {
  if (regular) return { kind: "regular", start: 7, stepMs: lengths[0] ?? 1, count: lengths.length };
  const edges = new Float64Array(lengths.length + 1);
  edges[0] = 7;
  lengths.forEach((length, i) => {
    edges[i + 1] = (edges[i] ?? 0) + length;
  });
  return { kind: "uneven", edges };
}

const edgeOf = (timing: Timing, i: number): number =>
  timing.kind === "regular" ? timing.start + i * timing.stepMs : (timing.edges[i] ?? 0);

/** Integral by walking millisecond by millisecond: slow, and with nothing to get wrong. */
function bruteIntegral(levels: readonly number[], timing: Timing, from: number, to: number): number {
  let sum = 0;
  levels.forEach((level, i) => {
    sum += level * Math.max(0, Math.min(to, edgeOf(timing, i + 1)) - Math.max(from, edgeOf(timing, i)));
  });
  return sum;
}

function bruteGreatest(levels: readonly number[], timing: Timing, windowMs: number, from: number, to: number): number {
  let best = Number.NEGATIVE_INFINITY;
  for (let start = from; start + windowMs <= to; start += 1) best = Math.max(best, bruteIntegral(levels, timing, start, start + windowMs));
  return best;
}

test("the sliding maximum is that of every millisecond's window, free and confined", () => {
  fc.assert(
    fc.property(written, fc.integer({ min: 1, max: 200 }), ({ levels, timing }, windowMs) => {
      const sums = edgeSums(Int32Array.from(levels), timing);
      const free = greatestWindow(sums, windowMs, null);
      const margin = windowMs + 1;
      expect(free.sum).toBe(bruteGreatest(levels, timing, windowMs, sums.start - margin, sums.end + margin));
      expect(bruteIntegral(levels, timing, free.from, free.from + windowMs)).toBe(free.sum);
      if (windowMs > sums.end - sums.start) return;
      const inside = greatestWindow(sums, windowMs, { from: sums.start, to: sums.end });
      expect(inside.sum).toBe(bruteGreatest(levels, timing, windowMs, sums.start, sums.end));
    }),
    { numRuns: 150 },
  );
});

test("integrals, time above and runs agree with a walk", () => {
  fc.assert(
    fc.property(written, fc.integer({ min: -4, max: 61 }), fc.nat(900), fc.nat(900), ({ levels, timing }, threshold, a, b) => {
      const sums = edgeSums(Int32Array.from(levels), timing);
      const [from, to] = [Math.min(a, b), Math.max(a, b)];
      expect(integralBetween(sums, from, to)).toBe(bruteIntegral(levels, timing, from, to));
      const lengths = levels.map((level, i) => (level > threshold ? edgeOf(timing, i + 1) - edgeOf(timing, i) : 0));
      const total = lengths.reduce((sum, length) => sum + length, 0);
      expect(timeAbove(sums, threshold)).toBe(total);
      const runs = runsAbove(sums, threshold);
      expect(runs.reduce((sum, run) => sum + run.to - run.from, 0)).toBe(total);
      expect(greatestTimeWithin(runs, 1e6)).toBe(total);
      const episodes = readingEpisodes(sums, null, { above: threshold, until: threshold, shortestMs: 0 });
      expect(episodes.map((one) => [one.from, one.to])).toEqual(runs.map((run) => [run.from, run.to]));
    }),
    RUNS,
  );
});

test("episodes of window means are where the mean of the window that ends there is above the level", () => {
  fc.assert(
    fc.property(written, fc.integer({ min: 2, max: 60 }), fc.integer({ min: 0, max: 50 }), ({ levels, timing }, windowMs, level) => {
      const values = levels.map((one) => Math.max(0, one));
      const sums = edgeSums(Int32Array.from(values), timing);
      const episodes = windowEpisodes(sums, windowMs, level * windowMs);
      for (let end = sums.start - 2; end <= sums.end + windowMs + 2; end += 1) {
        const above = bruteIntegral(values, timing, end - windowMs, end) > level * windowMs;
        expect(
          episodes.some((one) => one.from < end && end < one.to),
          `window end ${end}`,
        ).toBe(above);
      }
    }),
    { numRuns: 150 },
  );
});

/** Segments that are sampled, open, or between two levels. */
const twoEdged = fc
  .array(
    fc.record({
      length: fc.integer({ min: 1, max: 9 }),
      low: fc.integer({ min: 0, max: 60 }),
      width: fc.constantFrom(0, 0, 0, 3, 40),
      what: fc.constantFrom("sampled", "sampled", "sampled", "unsampled", "bounded"),
    }),
    { minLength: 1, maxLength: 100 },
  )
  .map((segments): TwoEdgedSignal => {
    const low = segments.map(({ low: level, what }) => (what === "unsampled" ? 0 : level));
    const high = segments.map(({ low: level, width, what }) => (what === "sampled" ? level + width : OPEN));
    return {
      decimals: 0,
      timing: timingOf(
        segments.map(({ length }) => length),
        false,
      ),
      low: Int32Array.from(low),
      high: Int32Array.from(high),
      stretches: Uint8Array.from(segments, ({ what }) => STRETCH[what as keyof typeof STRETCH]), // the three words above
      averageOnly: [],
      outside: "unexposed",
      largest: 100,
    };
  });

const spanOf = ({ timing, low }: TwoEdgedSignal) => ({ from: edgeOf(timing, 0), to: edgeOf(timing, low.length) });

test("low is never above high, and the low maximum is that of the low edge", () => {
  fc.assert(
    fc.property(twoEdged, fc.integer({ min: 1, max: 200 }), (signal, windowMs) => {
      const bounds = windowBounds(periodOf(signal, spanOf(signal), { kind: "open" }), windowMs);
      expect(Number(bounds.low.sum)).toBe(Math.max(0, greatestWindow(edgeSums(signal.low, signal.timing), windowMs, null).sum));
      const isOpen = signal.high?.includes(OPEN) === true;
      expect(bounds.high === null).toBe(isOpen);
      if (bounds.high !== null) expect(Number(bounds.high.sum)).toBeGreaterThanOrEqual(Number(bounds.low.sum));
    }),
    RUNS,
  );
});

test("sums of both edges are those of each edge alone", () => {
  fc.assert(
    fc.property(twoEdged, (signal) => {
      const closed = { ...signal, high: (signal.high ?? signal.low).map((level) => (level === OPEN ? 77 : level)) };
      const { low, high } = signalSums(closed);
      const alone = edgeSums(closed.high, closed.timing);
      expect([...low.sums]).toEqual([...edgeSums(closed.low, closed.timing).sums]);
      expect([high?.sums, high?.lowest, high?.highest, high?.greatest]).toEqual([alone.sums, alone.lowest, alone.highest, alone.greatest]);
    }),
    RUNS,
  );
});

test("splitting a segment changes nothing; shifting time moves the window with it", () => {
  fc.assert(
    fc.property(written, fc.integer({ min: 1, max: 120 }), fc.nat(1e6), ({ levels, timing }, windowMs, later) => {
      const sums = edgeSums(Int32Array.from(levels), timing);
      const lengths = levels.map((_, i) => edgeOf(timing, i + 1) - edgeOf(timing, i));
      const halves = timingOf(
        lengths.flatMap((length) => (length > 1 ? [1, length - 1] : [length])),
        false,
      );
      const split = edgeSums(Int32Array.from(levels.flatMap((level, i) => ((lengths[i] ?? 0) > 1 ? [level, level] : [level]))), halves);
      const moved: Timing =
        timing.kind === "regular"
          ? { ...timing, start: timing.start + later }
          : { kind: "uneven", edges: timing.edges.map((edge) => edge + later) };
      const best = greatestWindow(sums, windowMs, null);
      expect(greatestWindow(split, windowMs, null).sum).toBe(best.sum);
      expect(greatestWindow(edgeSums(Int32Array.from(levels), moved), windowMs, null)).toEqual({ sum: best.sum, from: best.from + later });
    }),
    RUNS,
  );
});

test("a longer average bounds the window mean: max F >= mean_T T / (w ceil(T / w))", () => {
  fc.assert(
    fc.property(written, fc.integer({ min: 1, max: 300 }), ({ levels, timing }, windowMs) => {
      const sums = edgeSums(
        Int32Array.from(levels, (level) => Math.max(0, level)),
        timing,
      );
      const span = sums.end - sums.start;
      const dose = integralBetween(sums, sums.start, sums.end);
      expect(greatestWindow(sums, windowMs, null).sum * Math.ceil(span / windowMs)).toBeGreaterThanOrEqual(dose);
    }),
    RUNS,
  );
});

test("means over log intervals: M <= true maximum <= M'", () => {
  fc.assert(
    fc.property(fc.array(fc.integer({ min: 0, max: 50 }), { minLength: 12, maxLength: 240 }), fc.integer({ min: 2, max: 5 }), (fine, k) => {
      const interval = 4;
      const whole = fine.slice(0, fine.length - (fine.length % interval));
      const means = Array.from(
        { length: whole.length / interval },
        (_, i) => whole.slice(i * interval, (i + 1) * interval).reduce((a, b) => a + b, 0) / interval,
      );
      const sumsOf = (levels: readonly number[], stepMs: number) =>
        edgeSums(
          Int32Array.from(levels, (level) => level * interval),
          { kind: "regular", start: 0, stepMs, count: levels.length },
        );
      const window = k * interval;
      const held = greatestWindow(sumsOf(means, interval), window, null).sum / window / interval;
      const really = greatestWindow(sumsOf(whole, 1), window, null).sum / window / interval;
      expect(held).toBeLessThanOrEqual(really + 1e-9);
      expect(really).toBeLessThanOrEqual(boundedWindowMean([...means, ...Array(k).fill(0)], { interval, window }) + 1e-9);
    }),
    RUNS,
  );
});

test("at W* the greatest window is exactly at the limit, above it over", () => {
  fc.assert(
    fc.property(twoEdged, fc.integer({ min: 1, max: 120 }), fc.integer({ min: 1, max: 80 }), (signal, windowMs, limit) => {
      const target = levelSum(limitDigits(limit), 0, windowMs);
      const level = breakEvenLevel(signal, windowMs, target, null);
      const closed = (signal.high ?? signal.low).map((one) => (one === OPEN ? 0 : one));
      if (level === null || greatestWindow(edgeSums(closed, signal.timing), windowMs, null).sum > target) return;
      const scale = 1000;
      const at = (steps: number) =>
        greatestWindow(
          edgeSums(
            (signal.high ?? signal.low).map((one) => (one === OPEN ? Math.round(steps * scale) : one * scale)),
            signal.timing,
          ),
          windowMs,
          null,
        ).sum / scale;
      expect(at(level)).toBeGreaterThanOrEqual(target - windowMs / scale);
      expect(at(Math.max(0, level - 0.01))).toBeLessThanOrEqual(target + windowMs / scale);
    }),
    RUNS,
  );
});

test("the rolling mean at a window's end is the integral over the window before it", () => {
  fc.assert(
    fc.property(twoEdged, fc.integer({ min: 1, max: 60 }), (signal, windowMs) => {
      const { from, to } = spanOf(signal);
      const columns = to - from;
      const chart = rollingMean(signal, { windowMs, from, to, columns });
      const upper = (signal.high ?? signal.low).map((level) => (level === OPEN ? 0 : level));
      const isOpen = (signal.high ?? signal.low).map((level) => (level === OPEN ? 1 : 0));
      const measured = (signal.stretches ?? new Uint8Array(signal.low.length)).map((code) => (code <= STRETCH.bounded ? 1 : 0));
      // Edges are whole milliseconds, so a column of one millisecond has its extremes at its own two edges.
      const over = (levels: ArrayLike<number>, column: number) =>
        [from + column, from + column + 1].map((end) => bruteIntegral(Array.from(levels), signal.timing, end - windowMs, end) / windowMs);
      for (let column = 0; column < columns; column += 1) {
        const low = over(signal.low, column);
        expect(chart.lowMax[column]).toBeCloseTo(Math.max(...low), 9);
        expect(chart.lowMin[column]).toBeCloseTo(Math.min(...low), 9);
        expect(chart.coverage[column]).toBeCloseTo(Math.min(...over(measured, column)), 9);
        const closed = over(upper, column).filter((_, i) => (over(isOpen, column)[i] ?? 0) === 0);
        if (closed.length === 0) expect(chart.highMax[column]).toBeNaN();
        else
          expect([chart.highMin[column], chart.highMax[column]]).toEqual(
            [Math.min(...closed), Math.max(...closed)].map((mean) => expect.closeTo(mean, 9)),
          );
      }
    }),
    { numRuns: 100 },
  );
});

/** Outcomes of the whole-shift average and the greatest window against one limit. */
function outcomes(signal: TwoEdgedSignal, limit: number): readonly string[] {
  const terms = { level: limitDigits(limit), published: limit, unit: "ppm", scale: 1, assumption: null } as const;
  const period = periodOf(signal, spanOf(signal), { kind: "open" });
  return [averageBounds(period, "whole-shift", []), windowBounds(period, 10)].map((bounds) => outcomeOfBounds(bounds, terms, ">"));
}

test("widening never turns undetermined into a firm outcome, nor one firm outcome into the other", () => {
  fc.assert(
    fc.property(
      twoEdged,
      fc.integer({ min: 1, max: 60 }),
      fc.integer({ min: 0, max: 20 }),
      fc.integer({ min: 0, max: 20 }),
      fc.boolean(),
      (signal, limit, down, up, open) => {
        const widened = {
          ...signal,
          low: signal.low.map((level) => Math.max(0, level - down)),
          high: (signal.high ?? signal.low).map((level, i) => (level === OPEN || (open && i === 0) ? OPEN : level + up)),
          largest: 200,
        };
        outcomes(signal, limit).forEach((before, i) => {
          const after = outcomes(widened, limit)[i];
          expect(after === before || after === "undetermined").toBe(true);
        });
      },
    ),
    RUNS,
  );
});

test("scaling levels and limit together keeps every outcome", () => {
  fc.assert(
    fc.property(twoEdged, fc.integer({ min: 1, max: 60 }), fc.integer({ min: 2, max: 9 }), (signal, limit, times) => {
      const scaled = {
        ...signal,
        low: signal.low.map((level) => level * times),
        high: (signal.high ?? signal.low).map((level) => (level === OPEN ? OPEN : level * times)),
        largest: 2000,
      };
      expect(outcomes(scaled, limit * times)).toEqual(outcomes(signal, limit));
    }),
    RUNS,
  );
});

test("saying that unsampled time was unexposed never raises an end and never lowers the low one", () => {
  fc.assert(
    fc.property(twoEdged, fc.integer({ min: 1, max: 80 }), (signal, windowMs) => {
      const open = windowBounds(periodOf(signal, spanOf(signal), { kind: "open" }), windowMs);
      const said = windowBounds(periodOf(signal, spanOf(signal), { kind: "zero" }), windowMs);
      expect(Number(said.low.sum)).toBe(Number(open.low.sum));
      if (open.high !== null) expect(Number(said.high?.sum)).toBeLessThanOrEqual(Number(open.high.sum));
    }),
    RUNS,
  );
});

test("the index of a mixture holds the exact sum of ratios between its two ends, however large", () => {
  const share = fc.record({ signal: twoEdged, limit: fc.constantFrom(0.001, 0.3, 7, 50) });
  fc.assert(
    fc.property(fc.array(share, { minLength: 1, maxLength: 3 }), (shares) => {
      const index = mixtureSignal(shares);
      const step = 10 ** -index.decimals;
      index.low.forEach((low, i) => {
        const at = edgeOf(index.timing, i);
        const parts = shares.map(({ signal, limit }) => ({ ...levelsAt(signal, at), limit }));
        const least = parts.reduce((sum, part) => sum + part.low / part.limit, 0);
        expect(low * step).toBeLessThanOrEqual(least * (1 + 1e-12) + 1e-12);
        expect(low * step).toBeGreaterThan(least - step * 1.001 - 1e-9);
        const upper = index.high?.[i];
        if (parts.some(({ high }) => high === OPEN)) expect(upper).toBe(OPEN);
        else {
          const most = parts.reduce((sum, part) => sum + part.high / part.limit, 0);
          expect((upper ?? 0) * step).toBeGreaterThanOrEqual(most * (1 - 1e-12) - 1e-12);
        }
        if (parts.some(({ code }) => code === STRETCH.unsampled)) expect(index.stretches?.[i]).toBe(STRETCH.unsampled);
      });
      const reach = edgeOf(index.timing, index.low.length) - edgeOf(index.timing, 0);
      expect(Number.isSafeInteger(index.largest * reach)).toBe(true);
    }),
    RUNS,
  );
});

/** Levels and code of a signal at an instant; nought and unexposed outside. */
function levelsAt({ timing, low, high, stretches }: TwoEdgedSignal, at: number): { low: number; high: number; code: number } {
  const i = low.findIndex((_, segment) => edgeOf(timing, segment) <= at && at < edgeOf(timing, segment + 1));
  if (i < 0) return { low: 0, high: 0, code: STRETCH.declaredUnexposed };
  return { low: low[i] ?? 0, high: (high ?? low)[i] ?? 0, code: stretches?.[i] ?? STRETCH.sampled };
}
