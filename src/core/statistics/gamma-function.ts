/** The logarithm of the gamma function, and the two small differences by which large arguments keep their digits. */
import { assert } from "../result.ts";

/**
 * ln Γ(x) for x > 0.
 *
 *     ln Γ(x) = (x - 1/2) ln x - x + ln(2π)/2 + δ(x),   δ(x) = 1/(12x) - 1/(360x³) + 1/(1260x⁵) - …
 *
 * Stirling's series (NIST Digital Library of Mathematical Functions, 5.11.1; from memory, checked against exact
 * factorials), after the argument has been carried above 12 by Γ(x+1) = x Γ(x). Absolute error below 1e-14 up to x = 10,
 * relative beyond.
 *
 * @param x above 0.
 * @example
 * ```ts
 * import { logGamma } from "./gamma-function.ts";
 * logGamma(11); // => 15.104412573075516
 * logGamma(0.5); // => 0.5723649429247001
 * ```
 */
export function logGamma(x: number): number {
  assert(x > 0, "the argument of logGamma is above 0");
  return (x - 0.5) * Math.log(x) - x + HALF_LOG_TWO_PI + stirlingRest(x);
}

/**
 * δ(x) of Stirling's series: ln Γ(x) less its main part. For small x carried up: each step adds
 * (x + 1/2) ln(1 + 1/x) - 1.
 */
export function stirlingRest(x: number): number {
  let carried = 0;
  let at = x;
  while (at < SERIES_FROM) {
    carried += (at + 0.5) * Math.log1p(1 / at) - 1;
    at += 1;
  }
  const inverse = 1 / at;
  const square = inverse * inverse;
  return carried + inverse * SERIES.reduceRight((sum, coefficient) => sum * square + coefficient, 0);
}

/**
 * ln r - (r - 1) without loss, for a ratio r that is known together with its distance from 1: near 1 a series in u, far
 * from 1 the logarithm of r itself (1 + u would have lost the digits of a small r).
 *
 * @param ratio r above 0, and less one: u = r - 1.
 * @example
 * ```ts
 * import { logLessRise } from "./gamma-function.ts";
 * logLessRise({ ratio: 1.000001, rise: 1e-6 }); // => -4.9999966666691665e-13
 * ```
 */
export function logLessRise({ ratio, rise }: { readonly ratio: number; readonly rise: number }): number {
  if (Math.abs(rise) > 0.3) return Math.log(ratio) - rise;
  // With q = u/(2+u): ln(1+u) = 2(q + q³/3 + q⁵/5 + …), and 2q - u = -u q.
  const q = rise / (2 + rise);
  const square = q * q;
  let term = q * square;
  let sum = 0;
  for (let odd = 3; Math.abs(term) > 1e-19 * Math.abs(q); odd += 2) {
    sum += term / odd;
    term *= square;
  }
  return 2 * sum - rise * q;
}

export const HALF_LOG_TWO_PI = 0.918_938_533_204_672_8;

const SERIES_FROM = 12;
const SERIES: readonly number[] = [1 / 12, -1 / 360, 1 / 1260, -1 / 1680, 1 / 1188, -691 / 360360, 1 / 156];
