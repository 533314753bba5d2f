/** Which of two periods lasts longer, where that can be said at all. */
import type { Period } from "./rule-set.ts";

/**
 * Whether a period never lasts longer than another, whenever it begins. Each use is the shortest of all, as every test that
 * was good at the start of a stint holds to its end. Where that cannot be said of every beginning, it is false: a shift
 * and a working day, a shift and eight hours.
 *
 * Days are calendar days and the last one counts whole: 1 day lasts from more than 24 hours (less one for the clock) to 48.
 * A working day and a shift last at most 25 hours, with the hour that the clock is put back. A month lasts from 28 days.
 *
 * @example
 * ```ts
 * import { isNoLonger } from "./period-order.ts";
 * isNoLonger({ form: "each-shift" }, { form: "days", days: 1 }); // => true
 * isNoLonger({ form: "each-shift" }, { form: "working-day" }); // => false
 * isNoLonger({ form: "days", days: 31 }, { form: "months", months: 1 }); // => false
 * isNoLonger({ form: "days", days: 28 }, { form: "months", months: 1 }); // => true
 * ```
 * Source: 31 calendar days with the last one whole, 30 CFR 75.320(a) [read]; the order of the forms: ours. Never refuses.
 */
export function isNoLonger(period: Period, other: Period): boolean {
  if (period.form === other.form) return isNoLongerInForm(period, other);
  if (period.form === "each-use") return true;
  if (period.form === "each-shift" || period.form === "working-day")
    return other.form === "hours" ? other.hours >= LONGEST_DAY_HOURS : other.form === "days" || other.form === "months";
  if (period.form === "hours") return isHoursNoLonger(period.hours, other);
  const most = period.form === "days" ? period.days : longestDays(period.months);
  if (other.form === "hours") return (most + 1) * 24 + 1 <= other.hours;
  if (period.form === "days") return other.form === "months" && most <= shortestDays(other.months);
  return other.form === "days" && most <= other.days;
}

const LONGEST_DAY_HOURS = 25;

function isNoLongerInForm(period: Period, other: Period): boolean {
  if (period.form === "hours" && other.form === "hours") return period.hours <= other.hours;
  if (period.form === "days" && other.form === "days") return period.days <= other.days;
  if (period.form === "months" && other.form === "months") return period.months <= other.months;
  return true;
}

/** The last calendar day counts whole, so that n days last longer than n times 24 hours, less an hour for the clock, and at most a day and an hour more. */
function isHoursNoLonger(hours: number, other: Period): boolean {
  if (other.form === "days") return hours <= other.days * 24 - 1;
  return other.form === "months" && hours <= shortestDays(other.months) * 24 - 1;
}

/** Fewest and most days of so many calendar months in a row, 1 to 12. */
const FEWEST = [0, 28, 59, 89, 120, 150, 181, 212, 242, 273, 303, 334, 365];
const MOST = [0, 31, 62, 92, 123, 153, 184, 215, 245, 276, 306, 337, 366];

const shortestDays = (months: number): number => Math.floor(months / 12) * 365 + (FEWEST[months % 12] ?? 0);
const longestDays = (months: number): number => Math.floor(months / 12) * 366 + (MOST[months % 12] ?? 0);
