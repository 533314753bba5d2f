// EN 689:2018 preliminary and statistical test, U_T(n); criterion of BOHS/NVvA 2011. Data: Mulhausen & Damiano 1998, table V.2.
import { describe, expect, test } from "vitest";
import { preliminaryTest, type ShiftResult, statisticalTest, toleranceFactor } from "../../../src/core/exposure/group.ts";
import { lognormalSummary } from "../../../src/core/exposure/shift-results.ts";
import { answerOf, goldenRow, nameOf } from "../golden-rows.ts";

const shifts = (values: readonly number[]): readonly ShiftResult[] => values.map((value) => ({ value, isBelowDetection: false }));

describe("factors of one-sided tolerance limits", () => {
  test.each(["exposure-group-01", "exposure-group-03"])("%s", (id) => {
    const { inputs, expected, tolerance } = goldenRow(id);
    for (const count of inputs.n) {
      const factor = toleranceFactor({ count, confidence: inputs.confidence, coverage: inputs.percentile });
      expect(Math.abs(factor - expected.k[count]), `${nameOf(id)}, n = ${count}: ${factor}`).toBeLessThanOrEqual(Number(tolerance));
    }
  });
});

test(nameOf("exposure-group-05"), () => {
  const { inputs, expected } = goldenRow("exposure-group-05");
  const finding = answerOf(statisticalTest(shifts(inputs.results_mg_m3), { limit: inputs.limit_mg_m3 }));
  expect(finding.answer).toBe(expected.conclusion);
  expect(finding.count).toBe(expected.n);
  const found = { am: finding.mean, gm: finding.geometricMean, gsd: finding.geometricDeviation, p95: finding.percentile95 };
  expect(found).toEqual({
    am: expect.closeTo(expected.am, 4),
    gm: expect.closeTo(expected.gm, 4),
    gsd: expect.closeTo(expected.gsd, 4),
    p95: expect.closeTo(expected.p95, 3),
  });
  const against = {
    ur: finding.ratio,
    ut: finding.factor,
    utl95_70: finding.upper70,
    utl95_95: finding.upper95,
    exceedance_pct: finding.exceedance * 100,
  };
  expect(against).toEqual({
    ur: expect.closeTo(expected.ur, 3),
    ut: expect.closeTo(expected.ut, 3),
    utl95_70: expect.closeTo(expected.utl95_70, 2),
    utl95_95: expect.closeTo(expected.utl95_95, 2),
    exceedance_pct: expect.closeTo(expected.exceedance_pct, 2),
  });
  // UTL95,70 against the limit says the same as UR against U_T.
  expect(finding.upper70 > inputs.limit_mg_m3).toBe(true);
  expect(answerOf(lognormalSummary(inputs.results_mg_m3)).geometricMean).toBe(finding.geometricMean);
});

test(nameOf("exposure-group-08"), () => {
  const { inputs, expected } = goldenRow("exposure-group-08");
  const answers = Object.entries(inputs.fractions_of_limit).map(([name, fractions]) => [
    name,
    answerOf(preliminaryTest(shifts(fractions as readonly number[]), { limit: 1 })).answer, // the case holds lists of fractions
  ]);
  expect(Object.fromEntries(answers)).toEqual(expected);
});
