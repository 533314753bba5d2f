// JCGM 100:2008 (GUM) H.3, and a regression example of Walpole & Myers; both as reprinted in an open library of the Measurement
// Standards Laboratory of New Zealand.
import { describe, expect, test } from "vitest";
import { lineThrough } from "../../../src/core/statistics/index.ts";
import { answerOf, goldenRow, nameOf } from "../golden-rows.ts";

const near = (given: number, wanted: number): void => expect(Math.abs(given - wanted)).toBeLessThanOrEqual(1e-8 * Math.abs(wanted));

describe("a straight line and its uncertainties", () => {
  test(nameOf("st-line-fit-05"), () => {
    const { inputs, expected } = goldenRow("st-line-fit-05");
    const points = inputs.t_degC.map((t: number, index: number) => ({ x: t - inputs.x_offset_degC, y: inputs.correction_degC[index] }));
    const line = answerOf(lineThrough(points));
    near(line.intercept, expected.intercept);
    near(line.interceptDeviation, expected.sd_intercept);
    near(line.slope, expected.slope);
    near(line.slopeDeviation, expected.sd_slope);
    near(line.covariance / (line.interceptDeviation * line.slopeDeviation), expected.r_intercept_slope);
    near(line.residualDeviation, expected.residual_sd);
    near(line.residualSquares, expected.rss);
    expect(line.degreesOfFreedom).toBe(expected.df);
  });

  test(nameOf("st-line-fit-07"), () => {
    const { inputs, expected } = goldenRow("st-line-fit-07");
    const line = answerOf(lineThrough(inputs.x.map((x: number, index: number) => ({ x, y: inputs.y[index] }))));
    near(line.intercept, expected.intercept);
    near(line.interceptDeviation, expected.sd_intercept);
    near(line.slope, expected.slope);
    near(line.slopeDeviation, expected.sd_slope);
    near(line.residualDeviation, expected.residual_sd);
  });
});
