/** Times that a file gives as a bare count: days of a spreadsheet, seconds since 1970. */
import { MILLISECONDS_PER_DAY, MILLISECONDS_PER_SECOND } from "./civil.ts";
import { isWritable } from "./zone-clock.ts";

/** Days from 1899-12-30 to 1970-01-01, from 1904-01-01 to 1970-01-01. */
const DAYS_1900 = 25_569;
const DAYS_1904 = 24_107;
const FALSE_LEAP_DAY = 60;
/** Day 0 of the years 1900 and 1904 up to 31 December 9999, the largest that spreadsheets write (common practice). */
const END_1900 = 2_958_466;
const END_1904 = END_1900 - 1_462;

/**
 * Wall-clock milliseconds of a spreadsheet day number of the 1900 system.
 *
 *     local = (n - 25 569) x 86 400 000 ms   for n >= 61;   n + 1 instead of n for 0 <= n < 60
 *
 * The 1900 system counts a 29 February 1900 that never was, as day 60 (ECMA-376 Part 1, 18.17.4.1; from memory): later
 * days are counted from 1899-12-30, earlier ones from 1899-12-31.
 *
 * @param days days and fraction, 0 to below 2 958 466. The millisecond nearest to the fraction is taken: a double holds a
 * day number of today to within 0.6 microseconds, so that a clock written to the millisecond comes back.
 * @returns NaN for day 60 itself (that date does not exist), and outside the range.
 * @example
 * ```ts
 * import { localFromDayNumber1900 } from "./count.ts";
 * localFromDayNumber1900(46085.3125); // => 1772609400000
 * localFromDayNumber1900(61) - localFromDayNumber1900(59); // => 86400000
 * Number.isNaN(localFromDayNumber1900(60.5)); // => true
 * ```
 */
export function localFromDayNumber1900(days: number): number {
  if (!(days >= 0 && days < END_1900)) return Number.NaN;
  if (days >= FALSE_LEAP_DAY && days < FALSE_LEAP_DAY + 1) return Number.NaN;
  return Math.round((days - (days < FALSE_LEAP_DAY ? DAYS_1900 - 1 : DAYS_1900)) * MILLISECONDS_PER_DAY);
}

/**
 * Wall-clock milliseconds of a spreadsheet day number of the 1904 system: day 0 is 1904-01-01.
 *
 * @param days days and fraction, 0 to below 2 957 004; NaN outside.
 * @example
 * ```ts
 * import { localFromDayNumber1904 } from "./count.ts";
 * localFromDayNumber1904(44623.3125); // => 1772609400000
 * ```
 */
export function localFromDayNumber1904(days: number): number {
  return days >= 0 && days < END_1904 ? Math.round((days - DAYS_1904) * MILLISECONDS_PER_DAY) : Number.NaN;
}

/**
 * Instant of a count of seconds since 1970-01-01T00:00:00Z, leap seconds not counted (POSIX.1-2017, XBD 4.16).
 *
 * @param seconds seconds and fraction; the millisecond nearest to the fraction is taken.
 * @returns NaN where the instant lies outside years 0 to 9999.
 * @example
 * ```ts
 * import { instantFromUnixSeconds } from "./count.ts";
 * instantFromUnixSeconds(1772609460.25); // => 1772609460250
 * ```
 */
export function instantFromUnixSeconds(seconds: number): number {
  return instantFromUnixMilliseconds(Math.round(seconds * MILLISECONDS_PER_SECOND));
}

/**
 * Instant of a count of milliseconds since 1970-01-01T00:00:00Z, to the nearest whole one; NaN outside years 0 to 9999.
 *
 * @example
 * ```ts
 * import { instantFromUnixMilliseconds } from "./count.ts";
 * [instantFromUnixMilliseconds(1772609460250), Number.isNaN(instantFromUnixMilliseconds(1e18))]; // => [1772609460250, true]
 * ```
 */
export function instantFromUnixMilliseconds(milliseconds: number): number {
  return isWritable(milliseconds) ? Math.round(milliseconds) : Number.NaN;
}
