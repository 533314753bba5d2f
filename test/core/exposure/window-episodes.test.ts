// Quiet stretches are passed over block by block: what is found must be what a walk over every edge finds.
import fc from "fast-check";
import { expect, test } from "vitest";
import { edgeSums, type WindowEpisode, windowEpisodes } from "../../../src/core/exposure/index.ts";
import type { Timing } from "../../../src/core/recording/index.ts";

/** Long quiet stretches with plumes in them; also levels below nought, and steps that differ. */
const shifts = fc
  .array(
    fc.oneof(
      { weight: 3, arbitrary: fc.record({ count: fc.integer({ min: 1, max: 150 }), base: fc.integer({ min: -2, max: 4 }) }) },
      fc.record({ count: fc.integer({ min: 1, max: 40 }), base: fc.integer({ min: 20, max: 90 }) }),
    ),
    { minLength: 1, maxLength: 9 },
  )
  .chain((parts) => {
    const levels = parts.flatMap(({ count, base }) => Array.from({ length: count }, (_, i) => base + (i % 3)));
    const steps = fc.array(fc.integer({ min: 1, max: 12 }), { minLength: levels.length, maxLength: levels.length });
    return fc.record({ levels: fc.constant(levels), steps: fc.oneof(steps, fc.constant(levels.map(() => 10))) });
  })
  .map(({ levels, steps }) => {
    const edges = new Float64Array(levels.length + 1);
    edges[0] = 1000;
    steps.forEach((step, i) => {
      edges[i + 1] = (edges[i] ?? 0) + step;
    });
    return { levels, edges };
  });

/** Sums of the window that ends at each instant where its course can bend. */
function kinksOf(levels: readonly number[], edges: Float64Array, windowMs: number): { at: number; sum: number }[] {
  const upTo = (instant: number): number =>
    levels.reduce((sum, level, i) => {
      const [begin = 0, end = 0] = [edges[i], edges[i + 1]];
      return begin >= instant ? sum : sum + level * (Math.min(end, instant) - begin);
    }, 0);
  const instants = [...new Set([...edges, ...[...edges].map((edge) => edge + windowMs)])].sort((one, other) => one - other);
  return instants.map((at) => ({ at, sum: upTo(at) - upTo(at - windowMs) }));
}

function walkedEpisodes(kinks: readonly { at: number; sum: number }[], level: number): WindowEpisode[] {
  const found: WindowEpisode[] = [];
  let open: Omit<WindowEpisode, "to"> | null = null;
  for (const [i, { at, sum }] of kinks.entries()) {
    const before = kinks[i - 1] ?? { at, sum };
    const crossing = before.at + ((level - before.sum) * (at - before.at)) / (sum - before.sum);
    if (open === null && sum > level) open = { from: i === 0 ? at : crossing, peakSum: sum, peakAt: at };
    else if (open !== null && sum > open.peakSum) open = { from: open.from, peakSum: sum, peakAt: at };
    else if (open !== null && sum <= level) {
      found.push({ ...open, to: crossing });
      open = null;
    }
  }
  return found;
}

test("episodes of window means are those of a walk over every edge, however long the quiet between them", () => {
  let several = 0;
  fc.assert(
    fc.property(shifts, fc.integer({ min: 1, max: 1500 }), fc.integer({ min: 0, max: 40 }), ({ levels, edges }, windowMs, level) => {
      const isRegular = edges.every((edge, i) => edge === 1000 + i * 10);
      const timing: Timing = isRegular ? { kind: "regular", start: 1000, stepMs: 10, count: levels.length } : { kind: "uneven", edges };
      const found = windowEpisodes(edgeSums(Int32Array.from(levels), timing), windowMs, level * windowMs);
      const wanted = walkedEpisodes(kinksOf(levels, edges, windowMs), level * windowMs);
      expect(found.map(({ peakSum, peakAt }) => [peakSum, peakAt])).toEqual(wanted.map(({ peakSum, peakAt }) => [peakSum, peakAt]));
      found.forEach(({ from, to }, i) => {
        expect(from).toBeCloseTo(wanted[i]?.from ?? Number.NaN, 6);
        expect(to).toBeCloseTo(wanted[i]?.to ?? Number.NaN, 6);
      });
      several += Number(found.length > 1);
    }),
    { numRuns: 200 },
  );
  expect(several).toBeGreaterThan(0);
});
