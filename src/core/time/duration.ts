/** Lengths of time as text, ISO 8601-1:2019, 5.5.2 (also ISO 8601-2:2019 for the sign). */
import { given, type Result, refused } from "../result.ts";
import { MILLISECONDS_PER_DAY, MILLISECONDS_PER_HOUR, MILLISECONDS_PER_MINUTE, MILLISECONDS_PER_SECOND } from "./civil.ts";

export type DurationRefusal =
  | { readonly type: "not-a-duration"; readonly text: string }
  /** Years and months have no fixed length. */
  | { readonly type: "duration-without-fixed-length"; readonly text: string };

/**
 * A length of time in seconds, the form in which recordings without a clock give their times.
 *
 * @param milliseconds whole milliseconds of either sign.
 * @example
 * ```ts
 * import { durationText } from "./duration.ts";
 * [durationText(1943500), durationText(0), durationText(-40)]; // => ["PT1943.5S", "PT0S", "-PT0.04S"]
 * ```
 */
export function durationText(milliseconds: number): string {
  const size = Math.abs(milliseconds);
  const fraction = String(size % MILLISECONDS_PER_SECOND)
    .padStart(3, "0")
    .replace(/0+$/, "");
  const seconds = Math.floor(size / MILLISECONDS_PER_SECOND);
  return `${milliseconds < 0 ? "-" : ""}PT${seconds}${fraction === "" ? "" : `.${fraction}`}S`;
}

/**
 * Milliseconds of an ISO 8601 duration in weeks, days, hours, minutes and seconds.
 *
 * @param text `PT8H30M`, `P1DT2H`, `P2W`, `PT0.5S`, `-PT5S`; a fraction (point or comma) in the last part only.
 * @returns milliseconds, a fraction of one kept; refused: years and months, an empty "P" or "PT", parts out of order.
 * @example
 * ```ts
 * import { readDuration } from "./duration.ts";
 * const read = ["PT8H30M", "P1DT0,5H", "PT1943.5S"].map((text) => readDuration(text));
 * read.map((length) => length.ok && length.value); // => [30600000, 88200000, 1943500]
 * readDuration("P1M").ok; // => false
 * ```
 */
export function readDuration(text: string): Result<number, DurationRefusal> {
  if (/^[+-]?P(?:[\d.,]+W)?[\d.,]+[YM]/.test(text)) return refused({ type: "duration-without-fixed-length", text });
  const match = DURATION.exec(text);
  if (match === null) return refused({ type: "not-a-duration", text });
  const parts = match.slice(2);
  const written = parts.filter((part) => part !== undefined);
  if (written.length === 0 || written.slice(0, -1).some((part) => /[.,]/.test(part))) return refused({ type: "not-a-duration", text });
  const size = parts.reduce((sum, part, index) => sum + Number((part ?? "0").replace(",", ".")) * (PART_LENGTHS[index] as number), 0);
  return given(match[1] === "-" ? -size : size);
}

const DURATION =
  /^([+-]?)P(?=.)(?:(\d+(?:[.,]\d+)?)W)?(?:(\d+(?:[.,]\d+)?)D)?(?:T(?=.)(?:(\d+(?:[.,]\d+)?)H)?(?:(\d+(?:[.,]\d+)?)M)?(?:(\d+(?:[.,]\d+)?)S)?)?$/;
/** Week, day, hour, minute, second: the order of the groups. */
const PART_LENGTHS: readonly number[] = [
  7 * MILLISECONDS_PER_DAY,
  MILLISECONDS_PER_DAY,
  MILLISECONDS_PER_HOUR,
  MILLISECONDS_PER_MINUTE,
  MILLISECONDS_PER_SECOND,
];
