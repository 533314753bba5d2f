// Most blocks are ruled out by sums and extremes alone: what is found must be what a plain walk over all windows finds.
import fc from "fast-check";
import { expect, test } from "vitest";
import { edgeSums } from "../../../src/core/exposure/edge-sums.ts";
import { greatestWindow, isWindowAbove } from "../../../src/core/exposure/greatest-window.ts";

const STEP = 1000;

/** Every window of whole steps that touches the signal, the earliest of the greatest that lies in it first. */
function plainGreatest(values: Int32Array, length: number): { readonly sum: number; readonly from: number } {
  let best = { sum: Number.NEGATIVE_INFINITY, from: 0 };
  const starts = [...Array.from(values, (_, i) => i), values.length, ...Array.from({ length }, (_, i) => i - length)];
  for (const start of starts) {
    let sum = 0;
    for (let i = Math.max(0, start); i < Math.min(values.length, start + length); i += 1) sum += (values[i] ?? 0) * STEP;
    if (sum > best.sum) best = { sum, from: start * STEP };
  }
  return best;
}

const noise = fc.integer({ min: 0, max: 40 });
const signals = fc
  .record({
    base: fc.constantFrom(0, -20, 150, 1_000_000),
    levels: fc.array(noise, { minLength: 1, maxLength: 700 }),
    dip: fc.option(fc.record({ at: fc.nat(699), length: fc.integer({ min: 1, max: 90 }) })),
  })
  .map(({ base, levels, dip }) => {
    const values = Int32Array.from(levels, (level) => base + level);
    if (dip !== null) values.fill(0, dip.at, dip.at + dip.length);
    return values;
  });

test("the greatest window on regular steps is the one of a plain walk", () => {
  fc.assert(
    fc.property(signals, fc.integer({ min: 1, max: 200 }), (values, length) => {
      const sums = edgeSums(values, { kind: "regular", start: 0, stepMs: STEP, count: values.length });
      const plain = plainGreatest(values, length);
      const found = greatestWindow(sums, length * STEP, null);
      expect(found.sum).toBe(plain.sum);
      const held = values.subarray(Math.max(0, found.from / STEP), Math.max(0, found.from / STEP + length));
      expect(held.reduce((sum, value) => sum + value * STEP, 0)).toBe(plain.sum);
      for (const level of [plain.sum - 1, plain.sum, plain.sum + 1])
        expect(isWindowAbove(sums, length * STEP, null, level)).toBe(plain.sum > level);
    }),
    { numRuns: 400 },
  );
});
