/**
 * Fractions of whole numbers, for sums of ratios that must be set against 1 exactly: 0.7 + 0.3 of a limit is at the
 * limit and not above it, whatever the binary digits of 0.7 and 0.3 are.
 */

import type { Comparison } from "../outcome.ts";
import { assert } from "../result.ts";

export interface Fraction {
  readonly top: bigint;
  /** Above nought. */
  readonly bottom: bigint;
}

/**
 * The fraction that a number prints as: 0.7 is 7/10, not the binary number beside it.
 *
 * @param value finite.
 * @example
 * ```ts
 * import { addFractions, compareFractions, fractionFromNumber } from "./exact-fraction.ts";
 * const sum = addFractions([0.1, 0.2].map(fractionFromNumber));
 * [compareFractions(sum, fractionFromNumber(0.3)), 0.1 + 0.2 > 0.3]; // => [0, true]
 * ```
 */
export function fractionFromNumber(value: number): Fraction {
  const match = /^(-?\d+)(?:\.(\d+))?(?:e([+-]\d+))?$/.exec(String(value));
  assert(match !== null, "a fraction is made of a finite number");
  const decimals = match[2] ?? "";
  const top = BigInt(`${match[1]}${decimals}`);
  const exponent = Number(match[3] ?? 0) - decimals.length;
  return exponent >= 0 ? { top: top * 10n ** BigInt(exponent), bottom: 1n } : { top, bottom: 10n ** BigInt(-exponent) };
}

/**
 * The first divided by the second, which is above nought.
 *
 * @example
 * ```ts
 * import { divideFractions, fractionFromNumber, ONE, compareFractions } from "./exact-fraction.ts";
 * compareFractions(divideFractions(fractionFromNumber(0.7), fractionFromNumber(0.7)), ONE); // => 0
 * ```
 */
export function divideFractions(first: Fraction, second: Fraction): Fraction {
  assert(second.top > 0n, "a divisor is above nought");
  return { top: first.top * second.bottom, bottom: first.bottom * second.top };
}

/**
 * The sum; nought for none.
 *
 * @example
 * ```ts
 * import { addFractions, fractionFromNumber } from "./exact-fraction.ts";
 * const { top, bottom } = addFractions([0.7, 0.3].map(fractionFromNumber));
 * top === bottom; // => true
 * ```
 */
export function addFractions(fractions: readonly Fraction[]): Fraction {
  return fractions.reduce(
    (sum, next) => ({ top: sum.top * next.bottom + next.top * sum.bottom, bottom: sum.bottom * next.bottom }),
    NOUGHT,
  );
}

/**
 * -1 where the first is less, 0 where they are equal, 1 where it is greater.
 *
 * @example
 * ```ts
 * import { compareFractions, fractionFromNumber } from "./exact-fraction.ts";
 * compareFractions(fractionFromNumber(0.1), fractionFromNumber(0.3)); // => -1
 * ```
 */
export function compareFractions(first: Fraction, second: Fraction): Comparison {
  const left = first.top * second.bottom;
  const right = second.top * first.bottom;
  return left < right ? -1 : left > right ? 1 : 0;
}

export const ONE: Fraction = { top: 1n, bottom: 1n };
const NOUGHT: Fraction = { top: 0n, bottom: 1n };
