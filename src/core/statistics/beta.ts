import { assert } from "../result.ts";
import { type Distribution, distributionOf } from "./distribution.ts";
import { type BetaShape, betaWeight, incompleteBeta } from "./incomplete-beta.ts";

/**
 * The beta distribution on 0 to 1.
 *
 *     density x^(a-1) (1-x)^(b-1) / B(a, b)        P(X <= x) = I_x(a, b)
 *
 * (NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.6.17.)
 *
 * @param shape a and b above 0.
 * @example
 * ```ts
 * import { beta } from "./beta.ts";
 * beta({ a: 1, b: 59 }).quantile(0.95); // => 0.049507609888227
 * ```
 */
export function beta(shape: BetaShape): Distribution {
  const { a, b } = shape;
  assert(a > 0 && b > 0, "the shapes of a beta distribution are above 0");
  const tails = (x: number) => incompleteBeta({ x, rest: 1 - x }, shape);
  return distributionOf({
    density: (x) =>
      x < 0 || x > 1
        ? 0
        : x === 0 || x === 1
          ? atEnd(x === 0 ? a : b, x === 0 ? b : a)
          : betaWeight({ x, rest: 1 - x }, shape) / (x * (1 - x)),
    below: (x) => (x <= 0 ? 0 : x >= 1 ? 1 : tails(x).below),
    above: (x) => (x <= 0 ? 1 : x >= 1 ? 0 : tails(x).above),
    start: a / (a + b),
    support: "unit",
  });
}

/** Density at an end: of shape 1 there the other shape, below 1 without bound, above 1 nought. */
function atEnd(here: number, other: number): number {
  if (here > 1) return 0;
  return here === 1 ? other : Number.POSITIVE_INFINITY;
}

/**
 * Fisher's F distribution with m (numerator) and n (denominator) degrees of freedom.
 *
 *     P(F <= x) = I_y(m/2, n/2),   y = m x / (m x + n)
 *
 * (NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.6.5 and table 1.3.6.7.3.)
 *
 * @example
 * ```ts
 * import { fDistribution } from "./beta.ts";
 * fDistribution({ numerator: 2, denominator: 2 }).quantile(0.95); // => 19
 * ```
 */
export function fDistribution({ numerator, denominator }: { readonly numerator: number; readonly denominator: number }): Distribution {
  assert(numerator > 0 && denominator > 0, "degrees of freedom are above 0");
  const shape: BetaShape = { a: numerator / 2, b: denominator / 2 };
  const part = (x: number) => ({ x: (numerator * x) / (numerator * x + denominator), rest: denominator / (numerator * x + denominator) });
  return distributionOf({
    density: (x) => (x < 0 ? 0 : x === 0 ? atNought(shape.a) : betaWeight(part(x), shape) / x),
    below: (x) => (x <= 0 ? 0 : incompleteBeta(part(x), shape).below),
    above: (x) => (x <= 0 ? 1 : incompleteBeta(part(x), shape).above),
    start: 1,
    support: "positive",
  });
}

function atNought(a: number): number {
  if (a > 1) return 0;
  return a === 1 ? 1 : Number.POSITIVE_INFINITY;
}
