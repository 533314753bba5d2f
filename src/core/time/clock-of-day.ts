/** A clock time of day as people write it. */
import { given, type Result, refused } from "../result.ts";
import { isClockTime, MILLISECONDS_PER_DAY, MILLISECONDS_PER_HOUR, MILLISECONDS_PER_MINUTE, MILLISECONDS_PER_SECOND } from "./civil.ts";

export type ClockRefusal =
  | { readonly type: "not-a-clock-time"; readonly text: string }
  | { readonly type: "no-such-clock-text"; readonly text: string };

/**
 * Milliseconds since the midnight that begins the day.
 *
 * @param text `h:mm`, `hh:mm:ss` or `hh:mm:ss.fff` (a comma may mark the fraction, ISO 8601-1:2019, 5.3.1.4), with AM or
 * PM in any case, with dots or without, or without either.
 * @returns "24:00" is the midnight that ends the day, 86 400 000 (ISO 8601-1:2004, 4.2.3; only as 24:00[:00]). 12 AM is
 * midnight and 12 PM noon (common practice). Digits finer than the millisecond are cut. Refused: hour 0 or above 12
 * beside AM or PM, minute 60, anything that is no clock time.
 * @example
 * ```ts
 * import { clockOfDay } from "./clock-of-day.ts";
 * const minutes = ["12:00 AM", "12:00 PM", "12:01 a.m.", "24:00"].map((text) => clockOfDay(text));
 * minutes.map((read) => read.ok && read.value / 60000); // => [0, 720, 1, 1440]
 * clockOfDay("13:00 PM").ok; // => false
 * ```
 */
export function clockOfDay(text: string): Result<number, ClockRefusal> {
  const match = CLOCK.exec(text.trim());
  if (match === null) return refused({ type: "not-a-clock-time", text });
  const [, hourText, minuteText, secondText, fraction, half] = match as unknown as ClockParts; // the pattern has these groups
  const minute = Number(minuteText);
  const second = Number(secondText ?? 0);
  const millisecond = Number((fraction ?? "").slice(0, 3).padEnd(3, "0"));
  const hour = half === undefined ? Number(hourText) : hourOfHalf(Number(hourText), half);
  if (hour === 24 && half === undefined && minute === 0 && second === 0 && !/[1-9]/.test(fraction ?? ""))
    return given(MILLISECONDS_PER_DAY);
  if (hour === null || !isClockTime(hour, minute, second, millisecond)) return refused({ type: "no-such-clock-text", text });
  return given(hour * MILLISECONDS_PER_HOUR + minute * MILLISECONDS_PER_MINUTE + second * MILLISECONDS_PER_SECOND + millisecond);
}

/**
 * Hour 0 to 23 of an hour 1 to 12 with its half of the day; null where there is no such hour.
 *
 * @param half starts with "a" or "p", in either case.
 * @example
 * ```ts
 * import { hourOfHalf } from "./clock-of-day.ts";
 * [hourOfHalf(12, "AM"), hourOfHalf(12, "pm"), hourOfHalf(1, "PM"), hourOfHalf(0, "AM")]; // => [0, 12, 13, null]
 * ```
 */
export function hourOfHalf(hour: number, half: string): number | null {
  if (!Number.isInteger(hour) || hour < 1 || hour > 12) return null;
  return (hour % 12) + (/^p/i.test(half) ? 12 : 0);
}

const CLOCK = /^(\d{1,2}):(\d\d)(?::(\d\d)(?:[.,](\d+))?)?(?:\s*([AaPp]\.?[Mm]\.?))?$/;
type ClockParts = readonly [string, string, string, string | undefined, string | undefined, string | undefined];
