import betaOracle from "@stdlib/stats-base-dists-beta";
import normalOracle from "@stdlib/stats-base-dists-normal";
import tOracle from "@stdlib/stats-base-dists-t";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  beta,
  chiSquare,
  type Distribution,
  fDistribution,
  gamma,
  incompleteBeta,
  incompleteGamma,
  logGamma,
  noncentralT,
  normal,
  studentT,
} from "../../../src/core/statistics/index.ts";

const near = (given: number, wanted: number, relative: number): void => {
  if (!(Math.abs(given - wanted) <= relative * Math.abs(wanted))) expect({ given, wanted, relative }).toBe("near each other");
};
const probability = fc.double({ min: 1e-9, max: 1 - 1e-9, noNaN: true });
const freedom = fc.oneof(fc.integer({ min: 1, max: 200 }), fc.double({ min: 0.5, max: 1e5, noNaN: true }));
const shape = fc.double({ min: 0.2, max: 500, noNaN: true });

const anyDistribution: fc.Arbitrary<readonly [string, Distribution]> = fc.oneof(
  fc.constant(["normal", normal] as const),
  freedom.map((degreesOfFreedom) => [`t ${degreesOfFreedom}`, studentT({ degreesOfFreedom })] as const),
  freedom.map((degreesOfFreedom) => [`chi-square ${degreesOfFreedom}`, chiSquare({ degreesOfFreedom })] as const),
  fc.tuple(shape, shape).map(([a, scale]) => [`gamma ${a} ${scale}`, gamma({ shape: a, scale })] as const),
  fc.tuple(shape, shape).map(([a, b]) => [`beta ${a} ${b}`, beta({ a, b })] as const),
  fc
    .tuple(freedom, freedom)
    .map(([numerator, denominator]) => [`F ${numerator} ${denominator}`, fDistribution({ numerator, denominator })] as const),
);
const anyNoncentralT = fc
  .tuple(fc.integer({ min: 1, max: 400 }), fc.double({ min: -60, max: 60, noNaN: true }))
  .map(([degreesOfFreedom, noncentrality]) => noncentralT({ degreesOfFreedom, noncentrality }));

/** What lies beyond a quantile is the probability that was asked for, seen from the smaller tail. */
function comesBack(distribution: Distribution, p: number, relative: number): void {
  const x = distribution.quantile(p);
  if (p <= 0.5) near(distribution.below(x), p, relative);
  else near(distribution.above(x), 1 - p, relative);
}

describe("properties", () => {
  test("a quantile has its probability below it", () => {
    // A beta quantile next to 1 cannot be held closer than the doubles there lie apart, so the probability is kept off the very ends.
    fc.assert(
      fc.property(anyDistribution, fc.double({ min: 1e-6, max: 1 - 1e-6, noNaN: true }), ([name, distribution], p) => {
        const x = distribution.quantile(p);
        const step = Number.EPSILON * 4 * Math.abs(x) * distribution.density(x);
        const missed = p <= 0.5 ? Math.abs(distribution.below(x) - p) : Math.abs(distribution.above(x) - (1 - p));
        if (!(missed <= 1e-11 * Math.min(p, 1 - p) + step)) expect({ name, p, x, missed }).toBe("a quantile with its probability below it");
      }),
      { numRuns: 500 },
    );
  });
  test("below and above make 1, rise and fall, and the density is their slope", () => {
    fc.assert(
      fc.property(anyDistribution, probability, probability, ([name, distribution], first, second) => {
        const [low, high] = [first, second].map((p) => distribution.quantile(p)).sort((a, b) => a - b) as [number, number];
        near(distribution.below(low) + distribution.above(low), 1, 1e-13);
        if (distribution.below(low) > distribution.below(high) * (1 + 1e-13)) expect({ name, low, high }).toBe("rising");
        const middle = distribution.quantile(0.3);
        const width = Math.abs(middle) * 1e-5 + 1e-9;
        const slope = (distribution.below(middle + width) - distribution.below(middle - width)) / (2 * width);
        if (!(Math.abs(slope - distribution.density(middle)) <= 2e-3 * slope + 1e-6))
          expect({ name, slope, density: distribution.density(middle) }).toBe("its slope");
      }),
      { numRuns: 300 },
    );
  });
  test("noncentral t: quantiles come back, tails make 1, the mirrored one is the same", () => {
    fc.assert(
      fc.property(anyNoncentralT, fc.double({ min: 1e-5, max: 1 - 1e-5, noNaN: true }), (distribution, p) => {
        comesBack(distribution, p, 1e-11);
        const x = distribution.quantile(p);
        near(distribution.below(x) + distribution.above(x), 1, 1e-12);
      }),
      { numRuns: 60 },
    );
    for (const t of [-3, 0.5, 7]) {
      near(
        noncentralT({ degreesOfFreedom: 4, noncentrality: 2 }).below(t),
        noncentralT({ degreesOfFreedom: 4, noncentrality: -2 }).above(-t),
        1e-13,
      );
    }
  });
  test("noncentral t without noncentrality is Student's t", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 2000 }), fc.double({ min: -8, max: 8, noNaN: true }), (degreesOfFreedom, t) => {
        near(noncentralT({ degreesOfFreedom, noncentrality: 0 }).above(t), studentT({ degreesOfFreedom }).above(t), 1e-11);
      }),
    );
  });
  test("distributions that are one another: F and t², chi-square and normal², beta and F", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 300 }), fc.double({ min: 0.01, max: 6, noNaN: true }), (v, x) => {
        near(fDistribution({ numerator: 1, denominator: v }).above(x * x), 2 * studentT({ degreesOfFreedom: v }).above(x), 1e-11);
        near(chiSquare({ degreesOfFreedom: 1 }).above(x * x), 2 * normal.above(x), 1e-11);
        near(fDistribution({ numerator: 2 * v, denominator: 6 }).below(x), beta({ a: v, b: 3 }).below((2 * v * x) / (2 * v * x + 6)), 1e-9);
      }),
    );
  });
});

describe("exact sums in whole numbers", () => {
  /** Σ from k = a of C(n, k) p^k (1-p)^(n-k), n = a + b - 1, p in 128ths: I_p(a, b) by the binomial distribution. */
  function binomialTail(a: number, b: number, of128: number): number {
    const n = BigInt(a + b - 1);
    let chosen = 1n;
    let sum = 0n;
    for (let k = 0n; k <= n; k++) {
      if (k > 0n) chosen = (chosen * (n - k + 1n)) / k;
      if (k >= BigInt(a)) sum += chosen * BigInt(of128) ** k * BigInt(128 - of128) ** (n - k);
    }
    return Number(`${(sum * 10n ** 330n) / 128n ** n}e-330`);
  }
  const shapes = [
    [1, 1],
    [2, 3],
    [5, 40],
    [20, 5],
    [100, 100],
    [300, 20],
    [5, 700],
  ] as const;
  test.each(shapes)("incomplete beta, a %d, b %d", (a, b) => {
    for (const of128 of [1, 2, 10, 33, 64, 90, 127]) {
      const wanted = binomialTail(a, b, of128);
      if (wanted > 1e-290) near(incompleteBeta({ x: of128 / 128, rest: (128 - of128) / 128 }, { a, b }).below, wanted, 1e-12);
    }
  });
  test.each([1, 2, 7, 30])("incomplete gamma, shape %d: sums of Poisson terms", (a) => {
    for (const x of [0.1, 1, 5, 20, 60]) {
      let term = Math.exp(-x);
      let sum = term;
      for (let k = 1; k < a; k++) sum += term *= x / k;
      near(incompleteGamma(x, { shape: a }).above, sum, 1e-12);
    }
  });
  test("the logarithm of factorials", () => {
    let factorial = 1n;
    for (let n = 1; n <= 170; n++) {
      factorial *= BigInt(n);
      expect(Math.abs(logGamma(n + 1) - Math.log(Number(factorial)))).toBeLessThan(2e-15 * Math.max(5, Math.log(Number(factorial))));
    }
    near(logGamma(0.5), Math.log(Math.PI) / 2, 1e-14);
  });
});

// @stdlib/stats-base-dists 0.x (Apache-2.0): an independent library.
describe("an independent library gives the same", () => {
  test("normal", () => {
    for (let x = -37; x <= 9; x += 0.0625) near(normal.below(x), normalOracle.cdf(x, 0, 1), 1e-12);
    for (let p = 0.0005; p < 1; p += 0.001) near(normal.quantile(p), normalOracle.quantile(p, 0, 1), 1e-11);
    // The library's far quantiles are good to eight digits; the tail below ours, checked above, says that ours are good to more.
    for (const p of [1e-300, 1e-100, 1e-20, 1e-10]) {
      near(normal.quantile(p), normalOracle.quantile(p, 0, 1), 1e-8);
      near(normal.below(normal.quantile(p)), p, 1e-11);
    }
  });
  test("Student's t", () => {
    for (const v of [0.5, 1, 2, 3.5, 10, 30, 100, 1e4, 1e6]) {
      for (const x of [0.01, 0.5, 1, 2, 5, 20]) near(studentT({ degreesOfFreedom: v }).above(x), tOracle.cdf(-x, v), 2e-10);
      for (const x of [0, 1, 3]) near(studentT({ degreesOfFreedom: v }).density(x), tOracle.pdf(x, v), 1e-10);
      for (const p of [0.6, 0.9, 0.975, 0.9995]) near(studentT({ degreesOfFreedom: v }).quantile(p), tOracle.quantile(p, v), 1e-8);
    }
  });
  test("beta", () => {
    for (const a of [0.5, 1, 2, 20, 200]) {
      for (const b of [0.5, 1, 3, 30, 1000]) {
        for (let x = 0.001; x < 1; x += 0.0371) {
          const wanted = betaOracle.cdf(x, a, b);
          if (wanted > 1e-250) near(beta({ a, b }).below(x), wanted, 1e-10);
        }
        for (const p of [0.05, 0.5, 0.9]) near(beta({ a, b }).quantile(p), betaOracle.quantile(p, a, b), 1e-8);
      }
    }
  });
});

describe("ends", () => {
  test("probabilities 0 and 1", () => {
    expect([normal.quantile(0), normal.quantile(1)]).toEqual([Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY]);
    expect([studentT({ degreesOfFreedom: 3 }).quantile(0), chiSquare({ degreesOfFreedom: 3 }).quantile(0)]).toEqual([
      Number.NEGATIVE_INFINITY,
      0,
    ]);
    expect([beta({ a: 2, b: 2 }).quantile(0), beta({ a: 2, b: 2 }).quantile(1)]).toEqual([0, 1]);
    expect([normal.below(Number.NEGATIVE_INFINITY), normal.above(Number.NEGATIVE_INFINITY)]).toEqual([0, 1]);
  });
  test("what no distribution has is a broken promise", () => {
    for (const wrong of [
      () => normal.quantile(1.1),
      () => normal.quantile(Number.NaN),
      () => studentT({ degreesOfFreedom: 0 }),
      () => beta({ a: -1, b: 2 }),
      () => gamma({ shape: 1, scale: 0 }),
    ]) {
      expect(wrong).toThrow("broken promise");
    }
  });
});
