// NIST/ITL Statistical Reference Datasets (StRD): univariate summaries and linear regression, certified values. The files are
// not in this repository: they are looked for beside it, or where LAMPROOM_DATASETS says.
import { existsSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { lineThrough, lineThroughOrigin, summaryOf } from "../../../src/core/statistics/index.ts";
import { answerOf, goldenRow, nameOf } from "../golden-rows.ts";

const datasets = process.env.LAMPROOM_DATASETS ?? fileURLToPath(new URL("../../../../shared/handbook/datasets", import.meta.url));
const isThere = existsSync(datasets);
const why = isThere ? "" : " (skipped: no data sets at LAMPROOM_DATASETS or beside the repository)";

/** Numbers of the data lines: the heading says "Data : lines 61 to 1061", or its last line begins with "#". */
function dataOf(file: string): readonly (readonly number[])[] {
  const lines = readFileSync(`${datasets}/${file.replace("datasets/", "")}`, "latin1").split(/\r?\n/);
  return dataLines(lines).map((line) => line.trim().split(/\s+/).map(Number));
}

function dataLines(lines: readonly string[]): readonly string[] {
  const lastMark = lines.findLastIndex((line) => line.startsWith("#"));
  if (lastMark !== -1) return lines.slice(lastMark + 1).filter((line) => line.trim() !== "");
  const place = lines.map((line) => /^\s*Data\s*[:(]?.*lines\s+(\d+)\s+to\s+(\d+)/.exec(line)).find((match) => match !== null);
  if (place === null || place === undefined) throw new Error("the heading does not say where the data stand");
  return lines.slice(Number(place[1]) - 1, Number(place[2]));
}

const near = (given: number | null, wanted: number, relative: number): void =>
  expect(Math.abs((given ?? Number.NaN) - wanted)).toBeLessThanOrEqual(relative * Math.abs(wanted));

describe.skipIf(!isThere)(`univariate summaries${why}`, () => {
  test.each(["st-univariate-01", "st-univariate-02", "st-univariate-03", "st-univariate-04", "st-univariate-05"])("%s", (id) => {
    const { inputs, expected } = goldenRow(id);
    const summary = answerOf(summaryOf(dataOf(inputs.data_file).map((row) => row[0] as number))); // a data line holds a number
    expect(summary.count, nameOf(id)).toBe(inputs.n);
    near(summary.mean, expected.mean, 1e-14);
    near(summary.standardDeviation, expected.sd, 1e-9);
    near(summary.lagOneCorrelation, expected.lag1_correlation, 1e-9);
  });
});

test.skipIf(!isThere)(`${nameOf("st-line-fit-01")}${why}`, () => {
  const { inputs, expected } = goldenRow("st-line-fit-01");
  // In these files y stands first.
  const line = answerOf(lineThrough(dataOf(inputs.data_file).map(([y, x]) => ({ x: x as number, y: y as number })))); // two numbers a line
  near(line.intercept, expected.intercept, 1e-9);
  near(line.slope, expected.slope, 1e-12);
  near(line.interceptDeviation, expected.sd_intercept, 1e-9);
  near(line.slopeDeviation, expected.sd_slope, 1e-9);
  near(line.residualDeviation, expected.residual_sd, 1e-9);
  near(line.covariance, expected.cov_intercept_slope, 1e-9);
  near(line.determination, expected.r2, 1e-12);
  expect(line.degreesOfFreedom).toBe(expected.df);
});

test(nameOf("st-line-fit-02"), () => {
  const { inputs, expected } = goldenRow("st-line-fit-02");
  const line = answerOf(lineThroughOrigin(inputs.x.map((x: number, index: number) => ({ x, y: inputs.y[index] }))));
  near(line.slope, expected.slope, 1e-9);
  near(line.slopeDeviation, expected.sd_slope, 1e-9);
  near(line.residualSquares, expected.rss, 1e-9);
  expect(line.degreesOfFreedom).toBe(expected.df);
});
