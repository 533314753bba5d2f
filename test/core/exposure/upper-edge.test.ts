// The upper edge takes over what was summed of the lower one: every figure must be what a sum of its own gives.
import fc from "fast-check";
import { expect, test } from "vitest";
import { BLOCK, type SignalSums, signalSums, withUpperEdge } from "../../../src/core/exposure/edge-sums.ts";
import { timeAbove, timesAbove } from "../../../src/core/exposure/time-above.ts";
import { OPEN, type Timing, type TwoEdgedSignal } from "../../../src/core/recording/index.ts";

const LARGEST = 2 ** 27;

const segment = fc.record({
  ms: fc.integer({ min: 1, max: 5000 }),
  low: fc.oneof(fc.integer({ min: -5, max: 50 }), fc.constantFrom(LARGEST - 1, -LARGEST)),
  above: fc.oneof({ weight: 40, arbitrary: fc.constant(0) }, { weight: 2, arbitrary: fc.integer({ min: 1, max: 9 }) }, fc.constant(OPEN)),
});

const signals = fc
  .record({ segments: fc.array(segment, { minLength: 1, maxLength: 200 }), isRegular: fc.boolean(), isNarrow: fc.boolean() })
  .map(({ segments: written, isRegular, isNarrow }) => {
    const segments = isNarrow ? written.map((one) => ({ ...one, low: Math.sign(one.low) * (Math.abs(one.low) % 97) })) : written;
    const count = segments.length;
    const edges = new Float64Array(count + 1);
    segments.forEach(({ ms }, i) => {
      edges[i + 1] = (edges[i] ?? 0) + ms;
    });
    const timing: Timing = isRegular ? { kind: "regular", start: 500, stepMs: 1000, count } : { kind: "uneven", edges };
    const low = Int32Array.from(segments, (one) => one.low);
    const high = Int32Array.from(segments, (one) => (one.above === OPEN ? OPEN : one.low + one.above));
    const rest = { decimals: 0, stretches: null, averageOnly: [], outside: "unexposed" } as const;
    return { ...rest, timing, low, high, largest: isNarrow ? 110 : LARGEST + 9 } satisfies TwoEdgedSignal;
  });

function msOf(timing: Timing, i: number): number {
  return timing.kind === "regular" ? timing.stepMs : (timing.edges[i + 1] ?? 0) - (timing.edges[i] ?? 0);
}

function checkUpper({ upper, low, high, apart }: SignalSums, values: Int32Array, timing: Timing): void {
  let total = 0;
  for (let block = 0; block < low.blocks; block += 1) {
    const part = values.subarray(block * BLOCK, (block + 1) * BLOCK);
    part.forEach((value, i) => {
      total += value === OPEN ? 0 : value * msOf(timing, block * BLOCK + i);
    });
    expect(upper.sums[block + 1]).toBe(total);
    expect([upper.lowest[block], upper.highest[block]]).toEqual([Math.min(...part), Math.max(...part)]);
    expect(apart?.[block]).toBe(part.some((value, i) => value !== low.values[block * BLOCK + i]) ? 1 : 0);
  }
  expect(upper.greatest).toBe(Math.max(...values));
  expect(high === null).toBe(values.includes(OPEN));
}

test("sums, extremes and differing blocks of the upper edge are those of a plain walk", () => {
  fc.assert(
    fc.property(signals, (signal) => checkUpper(signalSums(signal), signal.high, signal.timing)),
    { numRuns: 300 },
  );
});

test("with another upper edge they are those of that edge", () => {
  fc.assert(
    fc.property(signals, fc.integer({ min: 0, max: 60 }), (signal, level) => {
      const closed = signal.high.map((value) => (value === OPEN ? level : value));
      const sums = withUpperEdge(signalSums(signal), closed, signal.largest);
      checkUpper(sums, closed, signal.timing);
      expect(sums.signal.high).toBe(closed);
    }),
    { numRuns: 300 },
  );
});

test("time above of both edges is that of each, and of a plain walk", () => {
  fc.assert(
    fc.property(signals, fc.integer({ min: -20, max: 110 }), (signal, threshold) => {
      const sums = signalSums(signal);
      const walked = (values: Int32Array): number =>
        values.reduce((ms, value, i) => ms + (value > threshold ? msOf(signal.timing, i) : 0), 0);
      expect(timesAbove(sums, threshold)).toEqual({ low: walked(signal.low), upper: walked(signal.high) });
      expect([timeAbove(sums.low, threshold), timeAbove(sums.upper, threshold)]).toEqual([walked(signal.low), walked(signal.high)]);
    }),
    { numRuns: 300 },
  );
});
