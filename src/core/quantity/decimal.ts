/**
 * Decimal digits kept as they were written: value = mantissa x 10^-decimals, both whole numbers. Limits, thresholds
 * and readings are compared as such, because 0.7 has no exact binary form.
 */
import { assert, given, type Result, refused } from "../result.ts";

export interface Decimal {
  /** A whole number, |mantissa| <= 2^53 - 1. */
  readonly mantissa: number;
  /** How many digits stand after the point; 0 or more. */
  readonly decimals: number;
}

export type DecimalRefusal =
  | { readonly type: "not-a-decimal"; readonly text: string }
  /** More digits than a whole number can hold exactly. */
  | { readonly type: "too-many-digits"; readonly text: string };

/** Digits beyond this many after the point mean nothing for any gas, and keep the powers of ten small. */
const MOST_DECIMALS = 30;

const DECIMAL = /^([+-]?)(\d*)(?:\.(\d*))?(?:[eE]([+-]?\d{1,3}))?$/u;

/**
 * The exact digits of a number written with a decimal point.
 *
 * @param text such as "0.70", "-1", "2.09E-01"; a typographic minus is read as one. A decimal comma is the reader's
 * business (it needs the file's habits), not this function's.
 * @returns mantissa and decimals, trailing noughts kept: "0.70" is 70 hundredths. Refused: no number; more digits
 * than 2^53 - 1 can hold, or more than 30 decimals.
 * @example
 * ```ts
 * import { decimalFromText } from "./decimal.ts";
 * decimalFromText("0.70"); // => { "ok": true, "value": { "mantissa": 70, "decimals": 2 } }
 * decimalFromText("2.09E-01"); // => { "ok": true, "value": { "mantissa": 209, "decimals": 3 } }
 * decimalFromText("1,5").ok; // => false
 * ```
 */
export function decimalFromText(text: string): Result<Decimal, DecimalRefusal> {
  const match = DECIMAL.exec(text.trim().replace("\u2212", "-"));
  const whole = match?.[2] ?? "";
  const fraction = match?.[3] ?? "";
  if (match === null || whole + fraction === "") return refused({ type: "not-a-decimal", text });
  const decimals = fraction.length - Number(match[4] ?? 0);
  const digits = decimals < 0 ? whole + fraction + "0".repeat(-decimals) : whole + fraction;
  const mantissa = Number(digits) * (match[1] === "-" ? -1 : 1) + 0;
  if (!Number.isSafeInteger(mantissa) || decimals > MOST_DECIMALS) return refused({ type: "too-many-digits", text });
  return given({ mantissa, decimals: Math.max(decimals, 0) });
}

/**
 * The digits that a number prints as: the shortest text that reads back as the same number.
 *
 * A published 0.7 comes back as 7 tenths although the number itself is a little less.
 *
 * @param value any finite number whose shortest text has at most 15 digits or fits 2^53 - 1; else refused
 * @example
 * ```ts
 * import { decimalFromNumber } from "./decimal.ts";
 * decimalFromNumber(0.7); // => { "ok": true, "value": { "mantissa": 7, "decimals": 1 } }
 * decimalFromNumber(Number.NaN).ok; // => false
 * ```
 */
export const decimalFromNumber = (value: number): Result<Decimal, DecimalRefusal> => decimalFromText(String(value));

/**
 * The digits as text, with exactly as many after the point as the decimal has.
 *
 * @example
 * ```ts
 * import { textFromDecimal } from "./decimal.ts";
 * textFromDecimal({ mantissa: -70, decimals: 2 }); // => "-0.70"
 * ```
 */
export function textFromDecimal({ mantissa, decimals }: Decimal): string {
  const sign = mantissa < 0 ? "-" : "";
  const digits = String(BigInt(Math.abs(mantissa))).padStart(decimals + 1, "0");
  const split = digits.length - decimals;
  return decimals === 0 ? sign + digits : `${sign}${digits.slice(0, split)}.${digits.slice(split)}`;
}

/** The nearest binary number; only for display and for sums that need no exactness. */
export const numberFromDecimal = (decimal: Decimal): number => Number(`${decimal.mantissa}e${-decimal.decimals}`);

/**
 * The same digits in a unit that is 10^exponent times smaller: 0.5 vol % is 5000 ppm (exponent 4).
 *
 * @param decimal digits in the unit at hand
 * @param exponent whole number, as `powerOfTenBetween` gives it
 * @returns exact digits in the other unit; refused where the mantissa would pass 2^53 - 1 or the decimals 30
 * @example
 * ```ts
 * import { shiftDecimal } from "./decimal.ts";
 * shiftDecimal({ mantissa: 5, decimals: 1 }, 4); // => { "ok": true, "value": { "mantissa": 5000, "decimals": 0 } }
 * shiftDecimal({ mantissa: 35, decimals: 0 }, -4); // => { "ok": true, "value": { "mantissa": 35, "decimals": 4 } }
 * ```
 */
export function shiftDecimal(decimal: Decimal, exponent: number): Result<Decimal, DecimalRefusal> {
  assert(Number.isInteger(exponent), "a shift is a whole number of digits");
  return decimalFromText(`${textFromDecimal(decimal)}e${exponent}`);
}

/**
 * Which of two decimals is greater, exactly.
 *
 * @returns -1 where the first is less, 0 where they are equal, 1 where it is greater
 * @example
 * ```ts
 * import { compareDecimals } from "./decimal.ts";
 * compareDecimals({ mantissa: 70, decimals: 2 }, { mantissa: 7, decimals: 1 }); // => 0
 * ```
 */
export function compareDecimals(first: Decimal, second: Decimal): -1 | 0 | 1 {
  const left = BigInt(first.mantissa) * 10n ** BigInt(second.decimals);
  const right = BigInt(second.mantissa) * 10n ** BigInt(first.decimals);
  return left < right ? -1 : left > right ? 1 : 0;
}

/**
 * A level in whole steps of 10^-decimals, rounded down and up where the digits are finer than a step. A bound that
 * is widened takes `above` for an upper edge and `below` for a lower one; a threshold compares against both.
 *
 * @param decimal the level
 * @param decimals digits after the point of the steps, 0 to 30
 * @returns two whole numbers, equal where the level is a whole number of steps
 * @example
 * ```ts
 * import { stepsAround } from "./decimal.ts";
 * stepsAround({ mantissa: 25, decimals: 2 }, 1); // => { "below": 2, "above": 3 }
 * stepsAround({ mantissa: 7, decimals: 1 }, 3); // => { "below": 700, "above": 700 }
 * ```
 */
export function stepsAround({ mantissa, decimals: finer }: Decimal, decimals: number): { readonly below: number; readonly above: number } {
  assert(Number.isInteger(decimals) && decimals >= 0, "steps have a whole number of decimals");
  if (finer <= decimals) {
    const steps = Number(BigInt(mantissa) * 10n ** BigInt(decimals - finer));
    assert(Number.isSafeInteger(steps), "a level in steps is a safe whole number");
    return { below: steps, above: steps };
  }
  const unit = 10n ** BigInt(finer - decimals);
  const whole = BigInt(mantissa) / unit;
  const rest = BigInt(mantissa) % unit;
  return { below: Number(rest < 0n ? whole - 1n : whole), above: Number(rest > 0n ? whole + 1n : whole) };
}

/**
 * A number times a power of ten, in decimal digits: 0.07 vol % is 700 ppm, not 700.0000000000001.
 *
 * The shortest digits of the number are shifted and read again, so a number of up to 15 digits comes back unchanged
 * when it is shifted forth and back.
 *
 * @param value finite
 * @param exponent whole number
 * @example
 * ```ts
 * import { scaleByPowerOfTen } from "./decimal.ts";
 * scaleByPowerOfTen(0.07, 4); // => 700
 * ```
 */
export function scaleByPowerOfTen(value: number, exponent: number): number {
  assert(Number.isFinite(value) && Number.isInteger(exponent), "a finite number is scaled by a whole power of ten");
  const [digits, own] = String(value).split("e");
  return Number(`${digits}e${Number(own ?? 0) + exponent}`);
}
