import fc from "fast-check";
import { expect, test } from "vitest";
import { type MixturePart, mixtureIndex, ratioSum } from "../../../src/core/exposure/mixture.ts";
import { answerOf } from "../../cases/golden-rows.ts";

const declared = { additiveBy: "the hygienist", operator: ">" as const };
const part = (gas: string, low: number, high: number | null, limit: number, more: Partial<MixturePart> = {}): MixturePart => ({
  ...{ gas, low, high, limit, limitKind: "twa", averagingMinutes: 480, samplingError: null },
  ...more,
});

test("parts that add up to exactly the limit are within it, whatever their binary digits", () => {
  expect([0.7 + 0.1 + 0.2, 0.1 + 0.2]).not.toEqual([1, 0.3]); // what adding in binary would give
  const tenths = [7, 1, 2].map((share) => part(`gas ${share}`, share / 10, share / 10, 1));
  expect(answerOf(mixtureIndex(tenths, declared))).toMatchObject({ low: 1, high: 1, outcome: "within" });
  expect(answerOf(mixtureIndex(tenths, { ...declared, operator: ">=" })).outcome).toBe("exceeds");
  const thirds = [0.1, 0.2].map((level) => part(`gas ${level}`, level, level, 0.3));
  expect(answerOf(mixtureIndex(thirds, declared)).outcome).toBe("within");
  expect(answerOf(mixtureIndex(thirds, { ...declared, operator: ">=" })).outcome).toBe("exceeds");
});

test("one open part opens the high end, and the low end may still prove an excess", () => {
  const open = [part("a", 30, null, 50), part("b", 9, 9, 20)];
  expect(answerOf(mixtureIndex(open, declared))).toMatchObject({ low: 1.05, high: null, outcome: "exceeds" });
  expect(answerOf(mixtureIndex([part("a", 10, null, 50)], declared)).outcome).toBe("undetermined");
});

test("property: the order of the parts changes nothing, one more part or a wider one never makes it better", () => {
  const level = fc.integer({ min: 0, max: 300 }).map((steps) => steps / 10);
  const anyPart = fc.tuple(level, level, fc.integer({ min: 1, max: 400 }));
  fc.assert(
    fc.property(fc.array(anyPart, { minLength: 1, maxLength: 5 }), level, (rows, wider) => {
      const parts = rows.map(([low, more, limit], index) => part(`gas ${index}`, low, low + more, limit / 10));
      const plain = answerOf(mixtureIndex(parts, declared));
      expect(answerOf(mixtureIndex([...parts].reverse(), declared))).toMatchObject({
        low: plain.low,
        high: plain.high,
        outcome: plain.outcome,
      });
      const widened = answerOf(
        mixtureIndex(
          parts.map((one) => ({ ...one, high: (one.high ?? 0) + wider })),
          declared,
        ),
      );
      expect([plain.outcome, "undetermined"]).toContain(widened.outcome);
      if (parts.length > 1) expect(answerOf(mixtureIndex(parts.slice(1), declared)).low).toBeLessThanOrEqual(plain.low);
    }),
  );
});

test("within needs the index at or below 1 less its error; parts without a stated error are named", () => {
  const near = [part("a", 24, 24, 50, { samplingError: 0.1 }), part("b", 9.6, 9.6, 20)];
  const finding = answerOf(mixtureIndex(near, declared));
  expect(finding.outcome).toBe("within");
  expect(finding.withErrors).toMatchObject({ outcome: "undetermined", withoutError: ["b"] });
  const far = near.map((one) => ({ ...one, low: one.low / 2, high: one.low / 2 }));
  expect(answerOf(mixtureIndex(far, declared)).withErrors?.outcome).toBe("within");
});

test.each([
  ["nobody declared it", [part("a", 1, 1, 2)], { ...declared, additiveBy: " " }, "not-declared-additive"],
  ["nothing in it", [], declared, "no-parts"],
  ["one gas twice", [part("a", 1, 1, 2), part("a", 1, 1, 2)], declared, "gas-twice"],
  [
    "an 8-hour average beside a short-term one",
    [part("a", 1, 1, 2), part("b", 1, 1, 2, { limitKind: "stel", averagingMinutes: 15 })],
    declared,
    "limits-of-different-kinds",
  ],
  ["no limit to speak of", [part("a", 1, 1, 0)], declared, "limit-not-above-nought"],
  ["high below low", [part("a", 2, 1, 5)], declared, "not-a-level"],
  ["a negative error", [part("a", 1, 1, 2, { samplingError: -0.1 })], declared, "sampling-error-negative"],
] as const)("%s is refused", (_name, parts, by, type) => {
  const finding = mixtureIndex(parts, by);
  expect(finding.ok ? "given" : finding.refusal.type).toBe(type);
});

test("very small and very large numbers keep their ratio", () => {
  expect(ratioSum([{ level: 1e-12, limit: 3e-12 }])).toBeCloseTo(1 / 3, 15);
  expect(ratioSum([{ level: 2e21, limit: 1e21 }])).toBe(2);
  expect(ratioSum([])).toBe(0);
});
