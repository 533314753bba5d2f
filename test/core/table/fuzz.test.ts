/** A short run of the fuzz; scripts/fuzz-tables.ts makes longer ones. */
import { expect, test } from "vitest";
import { fuzzCase } from "./fuzz-case.ts";

test("600 made-up, damaged and random files", () => {
  const problems = Array.from({ length: 600 }, (_, seed) => ({ seed, problem: fuzzCase(seed + 20_261_125) })).filter(
    ({ problem }) => problem !== null,
  );
  expect(problems).toEqual([]);
});
