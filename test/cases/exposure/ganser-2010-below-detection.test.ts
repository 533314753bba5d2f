// Ganser & Hewett 2010 (formula recalled); Hornung & Reed 1990 (abstract). Data: Mulhausen & Damiano 1998, table V.2.
import { expect, test } from "vitest";
import {
  averageWithDetection,
  betaSubstitution,
  simpleSubstitute,
  substitutedSummary,
} from "../../../src/core/exposure/detection-limit.ts";
import type { LognormalSummary } from "../../../src/core/exposure/shift-results.ts";
import { outcomeOf } from "../../../src/core/outcome.ts";
import { answerOf, goldenRow, nameOf } from "../golden-rows.ts";

const rows = (summary: Omit<LognormalSummary, "geometricDeviation"> & { readonly geometricDeviation: number | null }) => [
  summary.mean,
  summary.geometricMean,
  summary.geometricDeviation,
];
const near = (numbers: readonly number[]) => numbers.map((number) => expect.closeTo(number, 3));

test(nameOf("exposure-nondetect-01"), () => {
  const { inputs, expected } = goldenRow("exposure-nondetect-01");
  const results = { detected: inputs.detects_mg_m3, below: inputs.nondetects, detectionLimit: inputs.detection_limit_mg_m3 };
  const found = answerOf(betaSubstitution(results));
  expect([found.betaMean, found.betaGeometricMean]).toEqual([expect.closeTo(expected.beta_mean, 4), expect.closeTo(expected.beta_gm, 4)]);
  expect(rows(found)).toEqual(near(expected.beta_substitution));
  expect(found.isWithinTrials).toBe(true);
  const by = (substitute: number) => rows(answerOf(substitutedSummary(results, { substitute })));
  const limit = results.detectionLimit;
  expect(by(limit / 2)).toEqual(near(expected.half_limit));
  expect(by(limit / Math.SQRT2)).toEqual(near(expected.limit_over_sqrt2));
  expect(by(limit)).toEqual(near(expected.limit_itself));
});

test(nameOf("exposure-nondetect-03"), () => {
  const { inputs, expected } = goldenRow("exposure-nondetect-03");
  const found = inputs.gsd.map((geometricDeviation: number) => simpleSubstitute(inputs.detection_limit, { geometricDeviation }));
  expect(found).toEqual(expected.substitute.map((value: number) => expect.closeTo(value, 4)));
});

test(`${nameOf("exposure-nondetect-04")} (the interval; from readings it is tested with the signals)`, () => {
  const { inputs, expected } = goldenRow("exposure-nondetect-04");
  const bounds = averageWithDetection(inputs.displayed_ppm, { detectionLimit: inputs.dead_band_ppm });
  expect(bounds).toEqual({ low: expected.low_ppm, high: expected.high_ppm, isBelowDetection: true });
  expect([outcomeOf(bounds, inputs.limit_a_ppm, ">"), outcomeOf(bounds, inputs.limit_b_ppm, ">")]).toEqual([
    expected.verdict_a,
    expected.verdict_b,
  ]);
});
