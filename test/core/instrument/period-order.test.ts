import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { isNoLonger, type Period } from "../../../src/core/instrument/index.ts";
import { neverLonger, periods } from "./stricter.ts";

describe("which of two periods lasts longer", () => {
  test("never longer means that it runs out no later, whenever it begins", () => {
    fc.assert(
      fc.property(periods, periods, (period, other) => {
        if (isNoLonger(period, other)) expect(neverLonger(period, other)).toBe(true);
      }),
      { numRuns: 400 },
    );
  });

  test("what is no longer than a second one is no longer than what that is no longer than", () => {
    fc.assert(
      fc.property(periods, periods, periods, (one, two, three) => {
        if (isNoLonger(one, two) && isNoLonger(two, three)) expect(isNoLonger(one, three)).toBe(true);
      }),
      { numRuns: 3000 },
    );
  });

  // In UTC no day has 23 or 25 hours: the pairs at that edge are left out.
  const said: readonly Period[] = [
    ...[8, 22, 49, 700].map((hours): Period => ({ form: "hours", hours })),
    ...[1, 27, 28, 29, 31, 32, 181, 184, 365, 366].map((days): Period => ({ form: "days", days })),
    ...[1, 6, 12].map((months): Period => ({ form: "months", months })),
  ];
  test.each(said.flatMap((period) => said.map((other) => [period, other] as const)))(
    "%j, %j: it is said wherever it holds",
    (period, other) => {
      expect(isNoLonger(period, other)).toBe(neverLonger(period, other));
    },
  );

  test.each([
    [{ form: "each-shift" }, { form: "working-day" }, false],
    [{ form: "working-day" }, { form: "each-shift" }, false],
    [{ form: "each-use" }, { form: "hours", hours: 1 }, true],
    [{ form: "hours", hours: 1 }, { form: "each-use" }, false],
    [{ form: "working-day" }, { form: "hours", hours: 24 }, false],
    [{ form: "working-day" }, { form: "hours", hours: 25 }, true],
    [{ form: "hours", hours: 23 }, { form: "days", days: 1 }, true],
    [{ form: "hours", hours: 24 }, { form: "days", days: 1 }, false],
  ] as const)("%j is no longer than %j: %s", (period, other, wanted) => {
    expect(isNoLonger(period, other)).toBe(wanted);
  });
});
