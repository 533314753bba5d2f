/**
 * Numbers for readers: the only place where anything is rounded. Lower bounds go down, upper bounds go up, the best
 * figure goes to the nearest, and none of them ever crosses the limit it stands beside: one more digit is shown instead.
 */

/** Stands before a unit and between thousands; it copies with the figure and never breaks the line. */
export const NARROW_SPACE = "\u202f";
const MINUS = "\u2212";
/** Beyond fifteen digits a double has nothing more to say. */
const MOST_DECIMALS = 15;
/** A sum divided once is off by at most half a unit in the last place; four such places are still the same number. */
const SAME = 4 * 2 ** -53;

export type Rounding = "down" | "up" | "nearest";

/**
 * Every digit that the number has, never an exponent.
 *
 * @example
 * ```ts
 * import { exactText } from "./digits.ts";
 * exactText(0.7); // => "0.7"
 * exactText(1e-7); // => "0.0000001"
 * exactText(-12500); // => "\u221212\u202f500"
 * ```
 */
export function exactText(value: number): string {
  const shortest = String(value);
  if (!shortest.includes("e")) return grouped(shortest);
  return grouped(Math.abs(value) >= 1 ? BigInt(value).toString() : withoutExponent(shortest));
}

/**
 * The number at so many decimals, in one direction, and never on the other side of `limit`.
 *
 * @example
 * ```ts
 * import { roundedText } from "./digits.ts";
 * roundedText(28.34, 1, "down", null); // => "28.3"
 * roundedText(28.31, 1, "up", null); // => "28.4"
 * roundedText(49.97, 0, "nearest", 50); // => "49.97"
 * roundedText(50.004, 1, "down", 50); // => "50.004"
 * ```
 */
export function roundedText(value: number, decimals: number, rounding: Rounding, limit: number | null): string {
  for (let places = decimals; places < MOST_DECIMALS; places += 1) {
    const text = at(value, places, rounding);
    if (limit === null || Math.sign(Number(text) - limit) === Math.sign(value - limit)) return grouped(text);
  }
  return exactText(value);
}

/**
 * Decimals that show three significant digits of the greatest of the values.
 *
 * @example
 * ```ts
 * import { decimalsFor } from "./digits.ts";
 * decimalsFor([31.02, 28.3, 35]); // => 1
 * decimalsFor([1012]); // => 0
 * decimalsFor([0.186]); // => 3
 * ```
 */
export function decimalsFor(values: readonly (number | null)[]): number {
  const greatest = Math.max(0, ...values.map((value) => Math.abs(value ?? 0)).filter(Number.isFinite));
  if (greatest === 0) return 0;
  return Math.min(12, Math.max(0, 2 - Math.floor(Math.log10(greatest))));
}

/** A share as whole per cent, rounded down so that 100 % means all; what is above nought never shows as nought. */
export function percentText(share: number): string {
  if (share > 0 && share < 0.01) return `under 1${NARROW_SPACE}%`;
  return `${roundedText(share * 100, 0, "down", share < 1 ? 100 : null)}${NARROW_SPACE}%`;
}

/** A whole count with its thousands kept apart. */
export function countText(count: number): string {
  return grouped(String(count));
}

function at(value: number, places: number, rounding: Rounding): string {
  const nearest = value.toFixed(places);
  const off = Number(nearest) - value;
  if (rounding === "nearest" || Math.abs(off) <= SAME * Math.abs(value)) return withoutMinusZero(nearest);
  if (rounding === "down" && off > 0) return withoutMinusZero((Number(nearest) - 10 ** -places).toFixed(places));
  if (rounding === "up" && off < 0) return withoutMinusZero((Number(nearest) + 10 ** -places).toFixed(places));
  return withoutMinusZero(nearest);
}

function withoutMinusZero(text: string): string {
  return /^-0(\.0*)?$/.test(text) ? text.slice(1) : text;
}

/** "-3.98e-7" is "-0.000000398". */
function withoutExponent(text: string): string {
  const [mantissa = "", exponent = "0"] = text.split("e");
  const digits = mantissa.replace(/[-.]/g, "");
  return `${text.startsWith("-") ? "-" : ""}0.${"0".repeat(-Number(exponent) - 1)}${digits}`;
}

function grouped(text: string): string {
  const [whole = "", part] = text.replace(/^-/, "").split(".");
  const inThousands = whole.replace(/\B(?=(\d{3})+$)/g, NARROW_SPACE);
  return `${text.startsWith("-") ? MINUS : ""}${inThousands}${part === undefined ? "" : `.${part}`}`;
}

/** "1 reading", "2 750 readings". */
export function counted(count: number, one: string, many = `${one}s`): string {
  return `${countText(count)} ${count === 1 ? one : many}`;
}
