/**
 * Dates and wall clocks by counting days, without a calendar package: this runs once a row.
 *
 * The proleptic Gregorian calendar throughout, as ISO 8601-1:2019, 4.2.1 has it. The day count is the well-known one
 * over eras of 400 years (Howard Hinnant, "chrono-Compatible Low-Level Date Algorithms", 2013; published, from
 * memory; every day from 1899 to 2105 is checked against the count of days one by one).
 */
import { given, type Result, refused } from "../result.ts";

/** Milliseconds since 1970-01-01T00:00 on a wall clock; which clock, and so which instant, is not said. */
export type LocalTime = number & { readonly __brand: "LocalTime" };

/** A date and a wall clock as people write them. */
export interface Civil {
  readonly year: number;
  readonly month: number;
  readonly day: number;
  readonly hour: number;
  readonly minute: number;
  readonly second: number;
  readonly millisecond: number;
}

export interface CivilDate {
  readonly year: number;
  readonly month: number;
  readonly day: number;
}

export type CivilRefusal =
  | {
      readonly type: "no-such-date";
      readonly year: number;
      readonly month: number;
      readonly day: number;
      readonly daysInMonth: number | null;
    }
  | {
      readonly type: "no-such-clock-time";
      readonly hour: number;
      readonly minute: number;
      readonly second: number;
      readonly millisecond: number;
    }
  | { readonly type: "leap-second" };

export const MILLISECONDS_PER_SECOND = 1_000;
export const MILLISECONDS_PER_MINUTE = 60_000;
export const MILLISECONDS_PER_HOUR = 3_600_000;
export const MILLISECONDS_PER_DAY = 86_400_000;

/** First millisecond of year 0 and the first after year 9999: what four digits of a year can say. */
export const FIRST_WRITABLE = -62_167_219_200_000;
export const AFTER_LAST_WRITABLE = 253_402_300_800_000;

/**
 * The wall-clock milliseconds of a date and time.
 *
 * @param civil year 0 to 9999, month 1 to 12, day 1 to the length of the month, hour 0 to 23, minute and second 0 to
 * 59, millisecond 0 to 999; whole numbers.
 * @returns milliseconds since 1970-01-01T00:00 of the same wall clock. Refused: a date that does not exist, an hour 24
 * (`clockOfDay` reads the text 24:00), second 60 (instants here do not count leap seconds, RFC 3339 appendix D).
 * @example
 * ```ts
 * import { localTime } from "./civil.ts";
 * localTime({ year: 2026, month: 3, day: 4, hour: 7, minute: 31, second: 0, millisecond: 0 }).ok; // => true
 * localTime({ year: 2026, month: 2, day: 29, hour: 0, minute: 0, second: 0, millisecond: 0 }).ok; // => false
 * ```
 */
export function localTime(civil: Civil): Result<LocalTime, CivilRefusal> {
  const { year, month, day, hour, minute, second, millisecond } = civil;
  if (!isDate(year, month, day)) return refused({ type: "no-such-date", year, month, day, daysInMonth: monthLength(year, month) });
  if (second === 60 && isClockTime(hour, minute, 59, millisecond)) return refused({ type: "leap-second" });
  if (!isClockTime(hour, minute, second, millisecond)) return refused({ type: "no-such-clock-time", hour, minute, second, millisecond });
  const clock = hour * MILLISECONDS_PER_HOUR + minute * MILLISECONDS_PER_MINUTE + second * MILLISECONDS_PER_SECOND + millisecond;
  return given((daysFromCivil(year, month, day) * MILLISECONDS_PER_DAY + clock) as LocalTime); // the brand is given here
}

/**
 * Days since 1970-01-01 of a date of the Gregorian calendar. Does not check the date: see `isDate`.
 *
 * @example
 * ```ts
 * import { daysFromCivil } from "./civil.ts";
 * daysFromCivil(1970, 1, 1); // => 0
 * daysFromCivil(2000, 3, 1); // => 11017
 * daysFromCivil(1899, 12, 30); // => -25569
 * ```
 */
export function daysFromCivil(year: number, month: number, day: number): number {
  // The year begins in March here, so that the leap day is the last of its year and needs no case of its own.
  const shifted = month <= 2 ? year - 1 : year;
  const era = Math.floor(shifted / 400);
  const yearOfEra = shifted - era * 400;
  const dayOfYear = Math.floor((153 * (month > 2 ? month - 3 : month + 9) + 2) / 5) + day - 1;
  const dayOfEra = yearOfEra * 365 + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100) + dayOfYear;
  return era * 146_097 + dayOfEra - 719_468;
}

/**
 * The date of a count of days since 1970-01-01; turns `daysFromCivil` round.
 *
 * @example
 * ```ts
 * import { civilFromDays } from "./civil.ts";
 * civilFromDays(11016); // => { year: 2000, month: 2, day: 29 }
 * ```
 */
export function civilFromDays(days: number): CivilDate {
  const shifted = days + 719_468;
  const era = Math.floor(shifted / 146_097);
  const dayOfEra = shifted - era * 146_097;
  const yearOfEra = Math.floor(
    (dayOfEra - Math.floor(dayOfEra / 1_460) + Math.floor(dayOfEra / 36_524) - Math.floor(dayOfEra / 146_096)) / 365,
  );
  const dayOfYear = dayOfEra - (365 * yearOfEra + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100));
  const monthFromMarch = Math.floor((5 * dayOfYear + 2) / 153);
  const month = monthFromMarch < 10 ? monthFromMarch + 3 : monthFromMarch - 9;
  const year = yearOfEra + era * 400 + (month <= 2 ? 1 : 0);
  return { year, month, day: dayOfYear - Math.floor((153 * monthFromMarch + 2) / 5) + 1 };
}

/**
 * The date and clock of wall-clock milliseconds (or, read on UTC, of an instant).
 *
 * @param milliseconds whole milliseconds since 1970-01-01T00:00 of that clock.
 * @example
 * ```ts
 * import { civilFromLocal } from "./civil.ts";
 * civilFromLocal(-1); // => { year: 1969, month: 12, day: 31, hour: 23, minute: 59, second: 59, millisecond: 999 }
 * ```
 */
export function civilFromLocal(milliseconds: number): Civil {
  const days = Math.floor(milliseconds / MILLISECONDS_PER_DAY);
  const clock = milliseconds - days * MILLISECONDS_PER_DAY;
  return {
    ...civilFromDays(days),
    hour: Math.floor(clock / MILLISECONDS_PER_HOUR),
    minute: Math.floor(clock / MILLISECONDS_PER_MINUTE) % 60,
    second: Math.floor(clock / MILLISECONDS_PER_SECOND) % 60,
    millisecond: clock % MILLISECONDS_PER_SECOND,
  };
}

/**
 * True where the Gregorian calendar has this date and four digits can write its year.
 *
 * @example
 * ```ts
 * import { isDate } from "./civil.ts";
 * [isDate(2024, 2, 29), isDate(2026, 2, 29), isDate(2026, 2, 31)]; // => [true, false, false]
 * ```
 */
export function isDate(year: number, month: number, day: number): boolean {
  const length = monthLength(year, month);
  return length !== null && Number.isInteger(day) && day >= 1 && day <= length;
}

/**
 * Days of a month, or null where there is no such month or the year is not one of 0 to 9999.
 *
 * @example
 * ```ts
 * import { monthLength } from "./civil.ts";
 * [monthLength(1900, 2), monthLength(2000, 2), monthLength(2026, 13)]; // => [28, 29, null]
 * ```
 */
export function monthLength(year: number, month: number): number | null {
  if (!Number.isInteger(year) || year < 0 || year > 9999 || !Number.isInteger(month)) return null;
  if (month === 2) return isLeapYear(year) ? 29 : 28;
  return MONTH_LENGTHS[month - 1] ?? null;
}

export const isLeapYear = (year: number): boolean => year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);

/**
 * True for 00:00:00.000 to 23:59:59.999, given as hour, minute, second, millisecond.
 *
 * @example
 * ```ts
 * import { isClockTime } from "./civil.ts";
 * [isClockTime(23, 59, 59, 999), isClockTime(24, 0, 0, 0)]; // => [true, false]
 * ```
 */
export function isClockTime(hour: number, minute: number, second: number, millisecond: number): boolean {
  return isBelow(hour, 24) && isBelow(minute, 60) && isBelow(second, 60) && isBelow(millisecond, 1_000);
}

const isBelow = (part: number, end: number): boolean => Number.isInteger(part) && part >= 0 && part < end;

const MONTH_LENGTHS: readonly number[] = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
