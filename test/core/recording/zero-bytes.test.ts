// Four codes at a time must find what one at a time finds, wherever the codes lie in memory.
import fc from "fast-check";
import { expect, test } from "vitest";
import { pastZeros } from "../../../src/core/recording/index.ts";

test("the first code that is not nought is that of a plain walk", () => {
  const written = fc.array(fc.constantFrom(0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 1, 255), { maxLength: 60 });
  fc.assert(
    fc.property(written, fc.nat(7), fc.nat(70), fc.nat(70), (levels, offset, first, second) => {
      const codes = new Uint8Array(levels.length + offset).subarray(offset);
      codes.set(levels);
      const past = Math.min(Math.max(first, second), levels.length);
      const from = Math.min(first, second, past);
      const found = levels.findIndex((code, i) => i >= from && code !== 0);
      expect(pastZeros(codes, from, past)).toBe(found < 0 || found > past ? past : found);
    }),
    { numRuns: 2000 },
  );
});
