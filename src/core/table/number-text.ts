/**
 * Numbers as people and loggers write them. What a mark means is never decided here: `numberForm` says how a text is
 * built, `readNumber` reads it once the marks are known.
 */

/** How a text that may be a number is built. The names tell which mark stands where. */
export type NumberForm =
  | "whole" // 12
  | "point" // 12.5
  | "point three" // 1.234: a decimal point or a group
  | "comma" // 12,5
  | "comma three" // 1,234
  | "comma groups" // 1,234,567
  | "point groups" // 1.234.567
  | "commas then point" // 1,234.5
  | "points then comma" // 1.234,5
  | "spaced" // 1 234
  | "spaced comma" // 1 234,5
  | "spaced point" // 1 234.5
  | "apostrophes" // 1'234 and 1'234.5
  | "wrong grouping"; // 300,0,00.40

export interface NumberSeen {
  readonly form: NumberForm;
  /** Text after the number: a unit, perhaps. */
  readonly unitText: string;
  /** "09001": a code rather than a count. */
  readonly leadingNought: boolean;
  readonly bound: ">" | "<" | null;
}

const NUMBER = /^([<>]=?|[≥≤])?\s*([+-]?)((?:\d[\d.,' ]*|[.,]\d+))(?:[eE]([+-]?\d{1,3}))?(?![\d.,'])\s*(.*)$/su;

/** Full-width digits, no-break spaces and the real minus sign become plain ones. */
export function plainDigits(text: string): string {
  if (isAscii(text)) return text.trim();
  return text
    .normalize("NFKC")
    .replace(/[\u2212\u2013]/gu, "-")
    .replace(/[\u00a0\u202f\u2009]/gu, " ")
    .replace(/\u2019/gu, "'")
    .trim();
}

function isAscii(text: string): boolean {
  for (let index = 0; index < text.length; index++) if (text.charCodeAt(index) > 127) return false;
  return true;
}

/** How a text is built as a number; null where it is none. */
export function numberForm(text: string): NumberSeen | null {
  const plain = plainForm(text);
  if (plain !== null) return plain;
  const match = NUMBER.exec(plainDigits(text));
  if (match === null) return null;
  const [, bound, , digits, , rest] = match as unknown as readonly [string, string | undefined, string, string, string | undefined, string]; // the pattern has these groups
  const unitText = rest.trim();
  if (/^\d|^[.,:/-]/.test(unitText) || /^[+-]?\d/.test(unitText)) return null;
  const body = digits.trim();
  const sign = bound === undefined ? null : /[>≥]/u.test(bound) ? ">" : "<";
  return { form: formOf(body), unitText, leadingNought: /^0\d/.test(body), bound: sign };
}

const WHOLE: NumberSeen = { form: "whole", unitText: "", leadingNought: false, bound: null };
const POINT: NumberSeen = { form: "point", unitText: "", leadingNought: false, bound: null };

/** Most cells are no more than this: the answer without a pattern, or null. */
function plainForm(text: string): NumberSeen | null {
  const { length } = text;
  const from = text.charCodeAt(0) === 45 ? 1 : 0;
  let mark = -1;
  if (length === from || length > 16) return null;
  for (let index = from; index < length; index++) {
    const code = text.charCodeAt(index);
    if (code === 46 && mark < 0 && index > from) mark = index;
    else if (code < 48 || code > 57) return null;
  }
  const whole = (mark < 0 ? length : mark) - from;
  if (text.charCodeAt(from) === 48 && whole > 1) return null;
  if (mark < 0) return WHOLE;
  return length - mark === 4 && whole <= 3 && text.charCodeAt(from) !== 48 ? null : POINT;
}

function formOf(body: string): NumberForm {
  if (/^\d+$/.test(body)) return "whole";
  if (/^\d*\.\d*$/.test(body)) return /^[1-9]\d{0,2}\.\d{3}$/.test(body) ? "point three" : "point";
  if (/^\d*,\d*$/.test(body)) return /^[1-9]\d{0,2},\d{3}$/.test(body) ? "comma three" : "comma";
  if (/^\d{1,3}(,\d{3})+$/.test(body)) return "comma groups";
  if (/^\d{1,3}(\.\d{3})+$/.test(body)) return "point groups";
  if (/^\d{1,3}(,\d{3})+\.\d*$/.test(body)) return "commas then point";
  if (/^\d{1,3}(\.\d{3})+,\d*$/.test(body)) return "points then comma";
  if (/^\d{1,3}( \d{3})+$/.test(body)) return "spaced";
  if (/^\d{1,3}( \d{3})+,\d*$/.test(body)) return "spaced comma";
  if (/^\d{1,3}( \d{3})+\.\d*$/.test(body)) return "spaced point";
  if (/^\d{1,3}('\d{3})+(\.\d*)?$/.test(body)) return "apostrophes";
  return "wrong grouping";
}

/** A number with its digits: value = mantissa x 10^-decimals. */
export interface ExactNumber {
  readonly mantissa: number;
  readonly decimals: number;
  readonly unitText: string;
  readonly bound: ">" | "<" | null;
}

export type NumberRead = ExactNumber | "not a number" | "wrong grouping";

/** Digits that a double holds exactly, whatever they are. */
const EXACT_DIGITS = 15;

/**
 * The number that a text says under given marks, digit by digit; nothing is guessed.
 *
 * @param text as in the cell; a unit may follow, a bound (`>`, `<`) may precede.
 * @param decimalMark what marks the decimals. @param groupMark what groups thousands; null = nothing may.
 * @returns mantissa and decimals; digits beyond the fifteenth significant one are cut (a double holds no more exactly,
 * and no instrument shows them). "wrong grouping" where groups are not of three; "not a number" for the rest.
 * @example
 * ```ts
 * import { readNumber } from "./number-text.ts";
 * readNumber("1.234,5", ",", "."); // => { mantissa: 12345, decimals: 1, unitText: "", bound: null }
 * readNumber("2.09E-01", ".", null); // => { mantissa: 209, decimals: 3, unitText: "", bound: null }
 * readNumber("300,0,00.40", ".", ","); // => "wrong grouping"
 * readNumber("145,00", ".", null); // => "not a number"
 * ```
 */
export function readNumber(text: string, decimalMark: "." | ",", groupMark: string | null): NumberRead {
  const plain = plainNumber(text, decimalMark.charCodeAt(0));
  if (plain !== null) return plain;
  const match = NUMBER.exec(plainDigits(text));
  if (match === null) return "not a number";
  const [, bound, sign, digits, exponent, rest] = match as unknown as readonly [
    string,
    string | undefined,
    string,
    string,
    string | undefined,
    string,
  ]; // the pattern has these groups
  if (/^[\d.,:/-]/.test(rest)) return "not a number";
  const parts = digits.trim().split(decimalMark);
  if (parts.length > 2) return groupMark === null ? "not a number" : "wrong grouping";
  const [whole, fraction = ""] = parts as [string, string?]; // split always gives one part
  const plainWhole = withoutGroups(whole, groupMark);
  if (plainWhole === null) return groupMark === null ? "not a number" : "wrong grouping";
  if (!/^\d*$/.test(fraction)) return groupMark !== null && fraction.includes(groupMark) ? "wrong grouping" : "not a number";
  const exact = exactly(plainWhole, fraction, exponent === undefined ? 0 : Number(exponent), sign === "-");
  if (exact === null) return "not a number";
  return { ...exact, unitText: rest.trim(), bound: bound === undefined ? null : /[>≥]/u.test(bound) ? ">" : "<" };
}

/** Digits, a mark and a sign and nothing else, without a pattern; null for all that is less plain. */
function plainNumber(text: string, mark: number): ExactNumber | null {
  const { length } = text;
  const from = text.charCodeAt(0) === 45 ? 1 : 0;
  if (length === from || length > EXACT_DIGITS) return null;
  let mantissa = 0;
  let markAt = -1;
  for (let index = from; index < length; index++) {
    const code = text.charCodeAt(index);
    if (code === mark && markAt < 0 && index > from) markAt = index;
    else if (code < 48 || code > 57) return null;
    else mantissa = mantissa * 10 + code - 48;
  }
  return { mantissa: from === 1 ? 0 - mantissa : mantissa, decimals: markAt < 0 ? 0 : length - markAt - 1, unitText: "", bound: null };
}

function withoutGroups(whole: string, groupMark: string | null): string | null {
  if (/^\d*$/.test(whole)) return whole;
  if (groupMark === null) return null;
  const groups = whole.split(groupMark);
  const isGood = groups.every((group, index) => (index === 0 ? /^\d{1,3}$/ : /^\d{3}$/).test(group));
  return isGood ? groups.join("") : null;
}

function exactly(whole: string, fraction: string, exponent: number, isNegative: boolean): { mantissa: number; decimals: number } | null {
  let digits = (whole + fraction).replace(/^0+(?=\d)/, "");
  let decimals = fraction.length - exponent;
  if (digits.length > EXACT_DIGITS) {
    decimals -= digits.length - EXACT_DIGITS;
    digits = digits.slice(0, EXACT_DIGITS);
  }
  if (decimals < 0) {
    if (Number(digits) === 0) decimals = 0;
    else if (digits.length - decimals > EXACT_DIGITS) return null;
    else {
      digits += "0".repeat(-decimals);
      decimals = 0;
    }
  }
  while (decimals > 255 && digits.endsWith("0")) {
    digits = digits.slice(0, -1);
    decimals--;
  }
  if (decimals > 255) return null;
  const mantissa = Number(digits);
  return { mantissa: isNegative && mantissa !== 0 ? -mantissa : mantissa, decimals };
}

/**
 * Digits of an exact number as plain text, with a point: what a preview shows.
 *
 * @param mantissa whole number below 2^53. @param decimals 0 to 255.
 * @example
 * ```ts
 * import { textOfExact } from "./number-text.ts";
 * [textOfExact(-5, 2), textOfExact(1234, 0)]; // => ["-0.05", "1234"]
 * ```
 */
export function textOfExact(mantissa: number, decimals: number): string {
  const digits = String(Math.abs(mantissa)).padStart(decimals + 1, "0");
  const cut = digits.length - decimals;
  return `${mantissa < 0 ? "-" : ""}${digits.slice(0, cut)}${decimals > 0 ? `.${digits.slice(cut)}` : ""}`;
}
