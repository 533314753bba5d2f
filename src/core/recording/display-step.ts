/**
 * Readings are kept as whole numbers of display steps (10^-decimals of the unit), so that sums of steps times
 * milliseconds are exact. Digits finer than a step are rounded outward into an interval, never to the nearest.
 */
import { type Decimal, decimalFromNumber, decimalFromText } from "../quantity/index.ts";

/** Largest |steps| that may be held for a whole day and still sum exactly: floor((2^53 - 1) / 86 400 000 ms). */
export const LARGEST_STEPS = 104_249_991;

/** More decimals than this are never kept: 10^22 is the last power of ten that a double holds exactly. */
export const MOST_DECIMALS = 22;

const POWERS = Array.from({ length: MOST_DECIMALS + 1 }, (_, exponent) => Number(`1e${exponent}`));

/**
 * Ten to the power of a whole number from 0 to 22, exactly.
 *
 * @example
 * ```ts
 * import { powerOfTen } from "./display-step.ts";
 * powerOfTen(8); // => 100000000
 * ```
 */
export function powerOfTen(exponent: number): number {
  return POWERS[exponent] ?? 10 ** exponent;
}

/**
 * Digits of a number as a person or a file writes it; null where the text is no number, or has more digits than can be
 * held exactly.
 *
 * @param text decimal point, optional sign and exponent
 * @example
 * ```ts
 * import { digitsOf } from "./display-step.ts";
 * digitsOf("3.98E-06"); // => { "mantissa": 398, "decimals": 8 }
 * digitsOf("n/a"); // => null
 * ```
 */
export function digitsOf(text: string): Decimal | null {
  const read = decimalFromText(text);
  return read.ok ? read.value : null;
}

/**
 * The digits of a double as its shortest text writes them: what a number that came through JSON was shown as.
 *
 * @example
 * ```ts
 * import { digitsOfNumber } from "./display-step.ts";
 * digitsOfNumber(0.209); // => { "mantissa": 209, "decimals": 3 }
 * ```
 */
export function digitsOfNumber(value: number): Decimal | null {
  const read = decimalFromNumber(value);
  return read.ok ? read.value : null;
}

/**
 * Largest whole number of steps that is not above mantissa x 10^-decimals.
 *
 * @param mantissa whole number; beyond 2^53 it is taken one unit in the last place lower
 * @param decimals of the mantissa, 0 to 255
 * @param target decimals of the step, 0 to 22
 * @example
 * ```ts
 * import { stepsBelow } from "./display-step.ts";
 * stepsBelow(12345, 3, 1); // => 123
 * stepsBelow(-12345, 3, 1); // => -124
 * ```
 */
export function stepsBelow(mantissa: number, decimals: number, target: number): number {
  const sure = Number.isSafeInteger(mantissa) ? mantissa : mantissa - Math.abs(mantissa) * 2 ** -52;
  if (decimals <= target) return Math.floor(sure * powerOfTen(target - decimals));
  return floorQuotient(sure, powerOfTen(decimals - target));
}

/**
 * Smallest whole number of steps that is not below mantissa x 10^-decimals.
 *
 * @param mantissa whole number
 * @param decimals of the mantissa, 0 to 255
 * @param target decimals of the step, 0 to 22
 * @example
 * ```ts
 * import { stepsAbove } from "./display-step.ts";
 * stepsAbove(12345, 3, 1); // => 124
 * stepsAbove(12300, 3, 1); // => 123
 * ```
 */
export function stepsAbove(mantissa: number, decimals: number, target: number): number {
  return 0 - stepsBelow(-mantissa, decimals, target);
}

/**
 * Floor of a quotient of whole numbers. A rounded division can land on the next whole number; multiplying back
 * shows that.
 *
 * @param numerator whole number below 2^53 in size
 * @param divisor whole number above 0
 * @example
 * ```ts
 * import { floorQuotient } from "./display-step.ts";
 * floorQuotient(9007199254740991, 9007199254740990); // => 1
 * floorQuotient(-7, 2); // => -4
 * ```
 */
export function floorQuotient(numerator: number, divisor: number): number {
  const quotient = Math.floor(numerator / divisor);
  return quotient * divisor > numerator ? quotient - 1 : quotient;
}
