import { assert } from "../result.ts";
import { type Distribution, distributionOf } from "./distribution.ts";
import { stirlingRest } from "./gamma-function.ts";
import { incompleteBeta } from "./incomplete-beta.ts";

/**
 * Student's t distribution.
 *
 *     P(T > t) = I_x(ν/2, 1/2) / 2,   x = ν / (ν + t²),   t >= 0
 *
 * (NIST Digital Library of Mathematical Functions, 8.17; NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.6.4 and table
 * 1.3.6.7.2.)
 *
 * @param shape degreesOfFreedom ν above 0, not necessarily whole.
 * @example
 * ```ts
 * import { studentT } from "./student-t.ts";
 * studentT({ degreesOfFreedom: 10 }).quantile(0.975); // => 2.228138851986274
 * ```
 */
export function studentT({ degreesOfFreedom }: { readonly degreesOfFreedom: number }): Distribution {
  assert(degreesOfFreedom > 0, "degrees of freedom are above 0");
  const v = degreesOfFreedom;
  const top = Math.sqrt(1 / (2 * Math.PI)) * Math.exp(stirlingRest((v + 1) / 2) - stirlingRest(v / 2) + 0.5 * (v * Math.log1p(1 / v) - 1));
  const outer = (size: number): number =>
    0.5 * incompleteBeta({ x: v / (v + size * size), rest: (size * size) / (v + size * size) }, { a: v / 2, b: 0.5 }).below;
  const above = (t: number): number => (t >= 0 ? outer(t) : 1 - outer(-t));
  return distributionOf({
    density: (t) => top * Math.exp(-0.5 * (v + 1) * Math.log1p((t * t) / v)),
    above,
    below: (t) => above(-t),
    start: 0,
    support: "real",
  });
}
