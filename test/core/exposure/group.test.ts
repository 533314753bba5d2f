import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { betaSubstitution, substitutedSummary } from "../../../src/core/exposure/detection-limit.ts";
import {
  lognormalPlot,
  preliminaryTest,
  sampleSizeForHighest,
  statisticalTest,
  toleranceFactor,
} from "../../../src/core/exposure/group.ts";
import { lognormalSummary } from "../../../src/core/exposure/shift-results.ts";
import { seededChance } from "../../../src/core/statistics/index.ts";
import { answerOf } from "../../cases/golden-rows.ts";

const shifts = (values: readonly number[], below: readonly number[] = []) => [
  ...values.map((value) => ({ value, isBelowDetection: false })),
  ...below.map((value) => ({ value, isBelowDetection: true })),
];

describe("the preliminary test", () => {
  test.each([
    ["three at a tenth are no decision", shifts([0.1, 0.05, 0.05]), "no decision"],
    ["three below a tenth", shifts([0.099, 0.05, 0.05]), "compliant"],
    ["two decide nothing", shifts([0.01, 0.01]), "no decision"],
    ["but one above the limit does", shifts([1.001]), "not compliant"],
    ["exactly the limit is not above it", shifts([1]), "no decision"],
    ["five below a fifth", shifts([0.19, 0.19, 0.19, 0.19, 0.19]), "compliant"],
    ["seven are judged as five", shifts([0.19, 0.19, 0.19, 0.19, 0.19, 0.19, 0.19]), "compliant"],
    ["below a detection limit of a tenth is below a tenth", shifts([0.05, 0.05], [0.1]), "compliant"],
    ["below a high detection limit says nothing", shifts([0.05, 0.05], [2]), "no decision"],
  ])("%s", (_name, results, answer) => expect(answerOf(preliminaryTest(results, { limit: 1 })).answer).toBe(answer));
});

describe("the statistical test", () => {
  test("a wide set is refused less than a narrow one is passed: the answer turns where UTL95,70 meets the limit", () => {
    const values = [1.3, 1.8, 1.2, 4.5, 2.0, 2.1, 5.5, 2.2];
    const { upper70 } = answerOf(statisticalTest(shifts(values), { limit: 10 }));
    expect(answerOf(statisticalTest(shifts(values), { limit: upper70 * 1.0001 })).answer).toBe("compliant");
    expect(answerOf(statisticalTest(shifts(values), { limit: upper70 * 0.9999 })).answer).toBe("not compliant");
  });
  test("property: results and limit in other units give the same answer", () => {
    const result = fc.integer({ min: 1, max: 10_000 }).map((steps) => steps / 100);
    fc.assert(
      fc.property(fc.array(result, { minLength: 6, maxLength: 12 }), result, (values, limit) => {
        fc.pre(new Set(values).size > 1);
        const plain = answerOf(statisticalTest(shifts(values), { limit }));
        const other = answerOf(statisticalTest(shifts(values.map((value) => value * 1024)), { limit: limit * 1024 }));
        expect([other.ratio, other.exceedance]).toEqual([expect.closeTo(plain.ratio, 8), expect.closeTo(plain.exceedance, 9)]);
        expect(plain.straightness).toBeGreaterThan(0);
        expect(plain.straightness).toBeLessThanOrEqual(1 + 1e-12);
        expect(plain.upper95).toBeGreaterThan(plain.upper70);
      }),
      { numRuns: 30 },
    );
  });
  test.each([
    [shifts([1, 2, 3, 4, 5]), "too-few-results"],
    [shifts([1, 2, 3, 4, 5], [1]), "result-below-detection"],
    [shifts([1, 2, 3, 4, 5, 0]), "result-not-above-nought"],
    [shifts([2, 2, 2, 2, 2, 2]), "all-results-equal"],
  ])("%o is refused: %s", (results, type) => {
    const finding = statisticalTest(results, { limit: 5 });
    expect(finding.ok ? "given" : finding.refusal.type).toBe(type);
  });
  test("the factor falls with the number of results towards that of the whole distribution", () => {
    const factors = [3, 6, 10, 30, 100, 1000, 10_000].map((count) => toleranceFactor({ count, confidence: 0.7, coverage: 0.95 }));
    expect(factors).toEqual([...factors].sort((a, b) => b - a));
    expect(factors.at(-1)).toBeCloseTo(1.6449, 1);
  });
  test("70 % confidence holds: of simulated groups at exactly 5 % exceedance three in ten pass", () => {
    const chance = seededChance(6892018);
    const limit = Math.exp(1.6448536269514722 * Math.log(2.5));
    const passed = Array.from({ length: 400 }, () => Array.from({ length: 6 }, () => Math.exp(chance.normal() * Math.log(2.5))))
      .map((values) => answerOf(lognormalSummary(values)))
      .filter(
        ({ geometricMean, geometricDeviation }) => (Math.log(limit) - Math.log(geometricMean)) / Math.log(geometricDeviation) >= 2.18674,
      );
    // 0.30 of 400 is 120, standard deviation 9.2; the seed is fixed.
    expect(Math.abs(passed.length - 120)).toBeLessThan(28);
  });
});

test("the plot stands in order, its middle at nought", () => {
  const points = answerOf(lognormalPlot([5, 1, 3]));
  expect(points.map((point) => point.value)).toEqual([1, 3, 5]);
  expect(points.map((point) => point.score)).toEqual([
    expect.closeTo(-(points[2]?.score ?? 0), 12),
    expect.closeTo(0, 12),
    expect.any(Number),
  ]);
});

describe("below detection", () => {
  test("β-substitution finds mean and spread of simulated groups (Ganser & Hewett's own kind of check)", () => {
    const chance = seededChance(2010);
    const sets = Array.from({ length: 400 }, () => Array.from({ length: 30 }, () => Math.exp(chance.normal() * Math.log(2))));
    // 30 % lie below exp(-0.5244 ln 2).
    const detectionLimit = Math.exp(-0.5244005127080407 * Math.log(2));
    const found = sets
      .map((values) => ({
        detected: values.filter((value) => value >= detectionLimit),
        below: values.filter((value) => value < detectionLimit).length,
        detectionLimit,
      }))
      .filter(({ below }) => below > 0)
      .map((results) => answerOf(betaSubstitution(results)));
    const mean = (of: (one: (typeof found)[number]) => number) => found.reduce((sum, one) => sum + of(one), 0) / found.length;
    expect(mean((one) => one.geometricMean)).toBeCloseTo(1, 1);
    expect(mean((one) => one.mean)).toBeCloseTo(Math.exp(Math.log(2) ** 2 / 2), 1);
    expect(mean((one) => one.geometricDeviation ?? 0)).toBeCloseTo(2, 1);
  });
  test.each([
    [{ detected: [2, 3], below: 0, detectionLimit: 1 }, "none-below-detection"],
    [{ detected: [2, 0.5], below: 1, detectionLimit: 1 }, "detected-below-detection-limit"],
    [{ detected: [], below: 3, detectionLimit: 1 }, "too-few-results"],
    [{ detected: [2], below: 1.5, detectionLimit: 1 }, "not-a-count"],
    [{ detected: [2], below: 1, detectionLimit: 0 }, "detection-limit-not-above-nought"],
  ])("%o is refused: %s", (results, type) => {
    for (const found of [betaSubstitution(results), substitutedSummary(results, { substitute: 0.5 })])
      expect(found.ok ? "given" : found.refusal.type).toBe(type);
  });
  test("outside the range in which it was tried it says so", () => {
    expect(answerOf(betaSubstitution({ detected: [2, 5], below: 8, detectionLimit: 1 })).isWithinTrials).toBe(false);
  });
});

test("group sizes: all of a small one, never more than there are, never less for more", () => {
  const sizes = Array.from({ length: 120 }, (_, index) => answerOf(sampleSizeForHighest(index + 1)));
  expect(sizes.slice(0, 7)).toEqual([1, 2, 3, 4, 5, 6, 7]);
  expect(sizes.every((size, index) => size <= index + 1)).toBe(true);
  expect(sizes).toEqual([...sizes].sort((a, b) => a - b));
  expect(sampleSizeForHighest(0)).toMatchObject({ refusal: { type: "not-a-group-size" } });
});
