import { assert } from "../result.ts";
import { type Distribution, distributionOf } from "./distribution.ts";
import { gammaWeight, incompleteGamma } from "./incomplete-gamma.ts";

/**
 * The gamma distribution, shape k and scale θ.
 *
 *     density x^(k-1) e^(-x/θ) / (Γ(k) θ^k)        P(X <= x) = P(k, x/θ)
 *
 * (NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.6.11.)
 *
 * @param parameters shape and scale above 0.
 * @example
 * ```ts
 * import { gamma } from "./chi-square.ts";
 * gamma({ shape: 1, scale: 2 }).above(2); // => 0.36787944117144233
 * ```
 */
export function gamma({ shape, scale }: { readonly shape: number; readonly scale: number }): Distribution {
  assert(shape > 0 && scale > 0, "shape and scale are above 0");
  return distributionOf({
    density: (x) => (x <= 0 ? atNought(x, shape) / scale : gammaWeight(x / scale, shape) / x),
    below: (x) => (x <= 0 ? 0 : incompleteGamma(x / scale, { shape }).below),
    above: (x) => (x <= 0 ? 1 : incompleteGamma(x / scale, { shape }).above),
    start: shape * scale,
    support: "positive",
  });
}

/**
 * The chi-square distribution with ν degrees of freedom: gamma of shape ν/2 and scale 2 (NIST/SEMATECH e-Handbook of
 * Statistical Methods, 1.3.6.6.6 and table 1.3.6.7.4).
 *
 * @example
 * ```ts
 * import { chiSquare } from "./chi-square.ts";
 * chiSquare({ degreesOfFreedom: 2 }).quantile(0.95); // => 5.991464547107982
 * ```
 */
export function chiSquare({ degreesOfFreedom }: { readonly degreesOfFreedom: number }): Distribution {
  return gamma({ shape: degreesOfFreedom / 2, scale: 2 });
}

function atNought(x: number, shape: number): number {
  if (x < 0 || shape > 1) return 0;
  return shape === 1 ? 1 : Number.POSITIVE_INFINITY;
}
