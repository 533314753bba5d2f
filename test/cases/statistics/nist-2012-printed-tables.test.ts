// NIST/SEMATECH e-Handbook of Statistical Methods (2012), tables 1.3.6.7.1 to 1.3.6.7.4: upper critical values as printed, to the
// printed digits. The figures are from memory of those (and every other) printed tables.
import { describe, expect, test } from "vitest";
import { chiSquare, fDistribution, normal, studentT } from "../../../src/core/statistics/index.ts";

describe("standard normal: probability below z", () => {
  test.each([
    [0.5, 0.69146],
    [1, 0.84134],
    [1.28, 0.89973],
    [1.645, 0.95002],
    [1.96, 0.975],
    [2.58, 0.99506],
    [3, 0.99865],
  ])("%d", (z, below) => expect(normal.below(z)).toBeCloseTo(below, 5));
});

describe("Student's t: upper critical values", () => {
  test.each([
    [1, 0.95, 6.314],
    [1, 0.975, 12.706],
    [2, 0.975, 4.303],
    [5, 0.95, 2.015],
    [5, 0.99, 3.365],
    [10, 0.975, 2.228],
    [10, 0.999, 4.144],
    [20, 0.975, 2.086],
    [30, 0.975, 2.042],
    [100, 0.975, 1.984],
  ])("%d degrees of freedom, %d", (degreesOfFreedom, p, value) => expect(studentT({ degreesOfFreedom }).quantile(p)).toBeCloseTo(value, 3));
});

describe("chi-square: upper critical values", () => {
  test.each([
    [1, 0.95, 3.841],
    [2, 0.95, 5.991],
    [5, 0.95, 11.07],
    [10, 0.95, 18.307],
    [10, 0.99, 23.209],
    [10, 0.05, 3.94],
    [30, 0.95, 43.773],
    [100, 0.95, 124.342],
  ])("%d degrees of freedom, %d", (degreesOfFreedom, p, value) =>
    expect(chiSquare({ degreesOfFreedom }).quantile(p)).toBeCloseTo(value, 3),
  );
});

describe("F: upper 5 % values", () => {
  test.each([
    [1, 1, 161.448],
    [1, 10, 4.965],
    [2, 10, 4.103],
    [5, 5, 5.05],
    [5, 20, 2.711],
    [10, 10, 2.978],
  ])("%d and %d degrees of freedom", (numerator, denominator, value) =>
    expect(fDistribution({ numerator, denominator }).quantile(0.95)).toBeCloseTo(value, 3),
  );
});
