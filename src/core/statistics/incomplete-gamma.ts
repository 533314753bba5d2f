import { assert } from "../result.ts";
import { logLessRise, stirlingRest } from "./gamma-function.ts";

export interface TwoTails {
  readonly below: number;
  readonly above: number;
}

/**
 * The regularised incomplete gamma functions P(a, x) and Q(a, x) = 1 - P(a, x), each with its own digits.
 *
 *     P(a, x) = (1/Γ(a)) ∫ from 0 to x of t^(a-1) e^(-t) dt
 *
 * Series for x < a + 1, Legendre's continued fraction by Lentz's method above (NIST Digital Library of Mathematical
 * Functions, 8.7.1 and 8.9.2; from memory; checked against exact sums of Poisson terms).
 *
 * @param x 0 or more. @param shape a, above 0; up to 1e7 the work grows as its square root.
 * @example
 * ```ts
 * import { incompleteGamma } from "./incomplete-gamma.ts";
 * incompleteGamma(2, { shape: 1 }).above; // => 0.1353352832366127
 * ```
 */
export function incompleteGamma(x: number, { shape }: { readonly shape: number }): TwoTails {
  assert(shape > 0 && x >= 0, "incompleteGamma takes a shape above 0 and x of at least 0");
  if (x === 0) return { below: 0, above: 1 };
  if (x === Number.POSITIVE_INFINITY) return { below: 1, above: 0 };
  const weight = gammaWeight(x, shape);
  if (x < shape + 1) {
    const below = Math.min(1, weight * series(x, shape));
    return { below, above: 1 - below };
  }
  const above = Math.min(1, weight * fraction(x, shape));
  return { below: 1 - above, above };
}

/** x^a e^(-x) / Γ(a): written about its peak at x = a, where the large parts cancel on paper and not in the digits. */
export function gammaWeight(x: number, shape: number): number {
  return (
    Math.sqrt(shape / (2 * Math.PI)) * Math.exp(shape * logLessRise({ ratio: x / shape, rise: (x - shape) / shape }) - stirlingRest(shape))
  );
}

function series(x: number, shape: number): number {
  let term = 1 / shape;
  let sum = term;
  for (let k = 1; term > sum * 1e-17; k++) {
    term *= x / (shape + k);
    sum += term;
  }
  return sum;
}

function fraction(x: number, shape: number): number {
  let b = x + 1 - shape;
  let c = 1 / TINY;
  let d = 1 / b;
  let value = d;
  for (let k = 1; k < MOST_TERMS; k++) {
    const a = -k * (k - shape);
    b += 2;
    d = 1 / away(a * d + b);
    c = away(b + a / c);
    value *= d * c;
    if (Math.abs(d * c - 1) < 1e-16) return value;
  }
  throw new Error("broken promise: the continued fraction of the incomplete gamma function settles");
}

const TINY = 1e-300;
const MOST_TERMS = 100_000;

/** Lentz's method must not divide by nought. */
const away = (value: number): number => (Math.abs(value) < TINY ? TINY : value);
