/** Calendar dates as text, for rules that count in years. */
import { given, type Result, refused } from "../result.ts";
import { type CivilDate, civilFromDays, daysFromCivil, isDate, monthLength } from "./civil.ts";
import { twoDigits } from "./offset.ts";

/** An ISO 8601 calendar date, "2026-03-04"; only `readDate` and what rests on it make one. */
export type DateText = string & { readonly __brand: "DateText" };

export type DateRefusal =
  | { readonly type: "not-a-date"; readonly text: string }
  | { readonly type: "no-such-day"; readonly text: string; readonly daysInMonth: number | null }
  | { readonly type: "beyond-year-9999"; readonly text: string; readonly years: number };

/**
 * Reads a date of the form yyyy-mm-dd (RFC 3339 section 5.6, full-date).
 *
 * @example
 * ```ts
 * import { readDate } from "./calendar-date.ts";
 * const read = readDate("2026-02-31");
 * read.ok || read.refusal; // => { type: "no-such-day", text: "2026-02-31", daysInMonth: 28 }
 * ```
 */
export function readDate(text: string): Result<CivilDate, DateRefusal> {
  if (!/^\d{4}-\d\d-\d\d$/.test(text)) return refused({ type: "not-a-date", text });
  const date = { year: Number(text.slice(0, 4)), month: Number(text.slice(5, 7)), day: Number(text.slice(8)) };
  const { year, month, day } = date;
  return isDate(year, month, day) ? given(date) : refused({ type: "no-such-day", text, daysInMonth: monthLength(year, month) });
}

/**
 * The text of a date that exists.
 *
 * @example
 * ```ts
 * import { dateText } from "./calendar-date.ts";
 * dateText({ year: 2026, month: 3, day: 4 }); // => "2026-03-04"
 * ```
 */
export function dateText({ year, month, day }: CivilDate): DateText {
  return `${String(year).padStart(4, "0")}-${twoDigits(month)}-${twoDigits(day)}` as DateText; // the brand is given here
}

/**
 * The same day so many years later. A date that does not exist in that year, 29 February, becomes the next later day,
 * so that a period of keeping never comes out shorter (ours).
 *
 * @param text yyyy-mm-dd. @param years whole years, 0 or more.
 * @example
 * ```ts
 * import { datePlusYears } from "./calendar-date.ts";
 * const later = [datePlusYears("2024-02-29", 30), datePlusYears("2024-02-29", 40), datePlusYears("2026-03-01", 30)];
 * later.map((date) => date.ok && date.value); // => ["2054-03-01", "2064-02-29", "2056-03-01"]
 * ```
 */
export function datePlusYears(text: string, years: number): Result<DateText, DateRefusal> {
  const date = readDate(text);
  if (!date.ok) return date;
  const year = date.value.year + years;
  if (year > 9999) return refused({ type: "beyond-year-9999", text, years });
  // Day 29 counted on from the first of February lands on 1 March where the month has 28 days.
  return given(dateText(civilFromDays(daysFromCivil(year, date.value.month, 1) + date.value.day - 1)));
}
