// Blocks are summed in 32 bits where values are small and in doubles where they are not: both must agree with a plain walk.
import fc from "fast-check";
import { expect, test } from "vitest";
import { edgeSums, greatestWindow, timeAbove } from "../../../src/core/exposure/index.ts";

const written = fc
  .record({ reach: fc.constantFrom(5, 2 ** 26, 2 ** 30, 2 ** 31 - 2), count: fc.integer({ min: 1, max: 150 }) })
  .chain(({ reach, count }) =>
    fc.record({
      reach: fc.constant(reach),
      levels: fc.array(fc.oneof(fc.integer({ min: -reach, max: reach }), fc.constantFrom(-reach, reach)), {
        minLength: count,
        maxLength: count,
      }),
      threshold: fc.integer({ min: -reach, max: reach }),
    }),
  );

const regular = (count: number) => ({ kind: "regular", start: 0, stepMs: 10, count }) as const;

test("sum, least, greatest and time above are those of a plain walk, however large the values", () => {
  fc.assert(
    fc.property(written, ({ reach, levels, threshold }) => {
      const values = Int32Array.from(levels);
      for (const sums of [edgeSums(values, regular(levels.length)), edgeSums(values, regular(levels.length), reach)]) {
        expect(sums.sums.at(-1)).toBe(levels.reduce((sum, level) => sum + level * 10, 0));
        expect([sums.least, sums.greatest]).toEqual([Math.min(...levels), Math.max(...levels)]);
        expect(timeAbove(sums, threshold)).toBe(levels.filter((level) => level > threshold).length * 10);
      }
    }),
    { numRuns: 500 },
  );
});

test("the greatest window of whole steps is that of a plain walk, however large the values", () => {
  fc.assert(
    fc.property(written, fc.integer({ min: 1, max: 170 }), ({ levels }, length) => {
      const found = greatestWindow(edgeSums(Int32Array.from(levels), regular(levels.length)), length * 10, null);
      const sumFrom = (start: number): number =>
        levels.reduce((sum, level, i) => (i >= start && i < start + length ? sum + level * 10 : sum), 0);
      const starts = Array.from({ length: levels.length + length + 1 }, (_, i) => i - length);
      expect(found.sum).toBe(Math.max(...starts.map(sumFrom)));
      expect(sumFrom(found.from / 10)).toBe(found.sum);
    }),
    { numRuns: 300 },
  );
});
