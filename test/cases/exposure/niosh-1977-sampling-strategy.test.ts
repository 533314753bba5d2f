// NIOSH 77-173, Leidel, Busch & Lynch, Occupational Exposure Sampling Strategy Manual (1977): table 3.1 and the worked example of
// consecutive samples, both recalled.
import { expect, test } from "vitest";
import { sampleSizeForHighest } from "../../../src/core/exposure/group.ts";
import { consecutiveSamples, samplingErrorFromVariation } from "../../../src/core/exposure/sampling-error.ts";
import { answerOf, goldenRow, nameOf } from "../golden-rows.ts";

test(nameOf("exposure-group-10"), () => {
  const { inputs, expected } = goldenRow("exposure-group-10");
  expect(inputs.group_size.map((workers: number) => answerOf(sampleSizeForHighest(workers)))).toEqual(expected.sample_size);
});

test(nameOf("exposure-sae-03"), () => {
  const { inputs, expected } = goldenRow("exposure-sae-03");
  const samples = inputs.t_min.map((minutes: number, index: number) => ({
    minutes,
    value: inputs.x_ppm[index],
    calibration: `tube ${index}`,
  }));
  const terms = { limit: inputs.limit_ppm, operator: ">" as const, samplingError: samplingErrorFromVariation(inputs.cv_t) };
  const finding = answerOf(consecutiveSamples(samples, terms));
  expect(finding.average).toBe(expected.twa_ppm);
  expect(finding.exact.ratio).toEqual({ low: expected.ratio, high: expected.ratio });
  expect(finding.simple.lowerLimit).toBeCloseTo(expected.lcl_simple, 3);
  expect(finding.exact.lowerLimit).toBeCloseTo(expected.lcl_exact, 4);
  expect([finding.simple.outcome, finding.exact.outcome]).toEqual([expected.conclusion, expected.conclusion]);
});
