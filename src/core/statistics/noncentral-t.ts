import { assert } from "../result.ts";
import { type Distribution, distributionOf } from "./distribution.ts";
import { stirlingRest } from "./gamma-function.ts";
import { normal } from "./normal.ts";

export interface NoncentralT {
  readonly degreesOfFreedom: number;
  readonly noncentrality: number;
}

/**
 * The noncentral t distribution: of (Z + δ) / √(V/ν), Z standard normal, V chi-square with ν degrees of freedom.
 *
 *     P(T <= t) = ∫ Φ(t w - δ) g(w) dw,    w = √(V/ν),
 *     with u = ln w:  w g(w) = √(ν/π) e^(-δ_S(ν/2)) e^(ν (u - (e^(2u) - 1)/2))     (δ_S the rest of Stirling's series)
 *
 * The definition itself, integrated by the trapezoidal rule in ln w, which settles exponentially fast for such a
 * function; the step is halved until the answer no longer moves. (Definition: NIST/SEMATECH e-Handbook of Statistical
 * Methods, 7.2.6.3, factors of one-sided tolerance limits; checked against their published tables.)
 *
 * @param parameters degreesOfFreedom ν above 0, noncentrality δ from -1000 to 1000.
 * @example
 * ```ts
 * import { noncentralT } from "./noncentral-t.ts";
 * const t = noncentralT({ degreesOfFreedom: 5, noncentrality: 1.6448536269514722 * Math.sqrt(6) });
 * Math.round((t.quantile(0.95) / Math.sqrt(6)) * 1000); // => 3708
 * ```
 */
export function noncentralT(parameters: NoncentralT): Distribution {
  const { degreesOfFreedom, noncentrality } = parameters;
  assert(
    degreesOfFreedom > 0 && Math.abs(noncentrality) <= 1_000,
    "degrees of freedom are above 0, the noncentrality within 1000 of nought",
  );
  const mean = meanOverSpread(parameters);
  return distributionOf({
    density: (t) => mean((w) => w * normal.density(t * w - noncentrality)),
    below: (t) => mean((w) => normal.below(t * w - noncentrality)),
    above: (t) => mean((w) => normal.above(t * w - noncentrality)),
    start: noncentrality,
    support: "real",
  });
}

/** Beyond this exponent a weight adds nothing to the last digit even of a tail of 1e-30. */
const LEAST_EXPONENT = -110;
const MOST_HALVINGS = 8;

/** The mean of a function of w over the distribution of w. */
function meanOverSpread({ degreesOfFreedom, noncentrality }: NoncentralT): (of: (w: number) => number) => number {
  const v = degreesOfFreedom;
  const exponent = (u: number): number => v * (u - Math.expm1(2 * u) / 2);
  const from = reach(exponent, -1);
  const to = reach(exponent, 1);
  const scale = Math.sqrt(v / Math.PI) * Math.exp(-stirlingRest(v / 2));
  // The weight is 1/√(2ν) wide, the normal integral 1/δ wide: both are met from the start.
  const firstStep = 1 / (3 * Math.max(1, Math.sqrt(2 * v), Math.abs(noncentrality)));
  return (of) => scale * trapezoids((u) => Math.exp(exponent(u)) * of(Math.exp(u)), { from, to, firstStep });
}

function trapezoids(
  of: (u: number) => number,
  { from, to, firstStep }: { readonly from: number; readonly to: number; readonly firstStep: number },
): number {
  let count = Math.ceil((to - from) / firstStep);
  let step = (to - from) / count;
  let sum = 0;
  for (let k = 0; k <= count; k++) sum += of(from + k * step);
  for (let halving = 0; halving < MOST_HALVINGS; halving++) {
    let between = 0;
    for (let k = 0; k < count; k++) between += of(from + (k + 0.5) * step);
    const before = sum * step;
    sum += between;
    step /= 2;
    count *= 2;
    if (Math.abs(sum * step - before) <= 4e-15 * before) return sum * step;
  }
  return sum * step;
}

/** Where the weight has fallen away, going down or up from its peak at u = 0. */
function reach(exponent: (u: number) => number, direction: 1 | -1): number {
  let u: number = direction;
  while (exponent(u) > LEAST_EXPONENT) u *= 2;
  let near = 0;
  for (let halving = 0; halving < 30; halving++) {
    const middle = (near + u) / 2;
    if (exponent(middle) > LEAST_EXPONENT) near = middle;
    else u = middle;
  }
  return u;
}
