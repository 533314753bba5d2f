/**
 * Shifts other than 8 hours. These models lower a limit; which of them applies, if any, is a declared choice, and most
 * places give them no legal force. Print the model's name beside each number.
 */
import type { Limit } from "../gas/index.ts";
import { given, type Result, refused } from "../result.ts";

export type LongShiftModel = "brief-scala-daily" | "brief-scala-weekly";

export type ShiftHoursRefusal =
  | { readonly type: "hours-not-in-a-day"; readonly hours: number }
  | { readonly type: "hours-not-in-a-week"; readonly hours: number };

/**
 * Reduction factor of Brief & Scala for the hours of a day.
 *
 *     RF = (8 / h) · ((24 - h) / 16),   cut at 1: a short day never raises a limit
 *
 * R. S. Brief & R. A. Scala, American Industrial Hygiene Association Journal 36 (1975) 467-469, daily form [formula read in
 * reprints]. For the 8-hour limit only; short-term limits and ceilings stay (common practice).
 *
 * @param hoursPerDay above 0 and below 24; else refused.
 * @example
 * ```ts
 * import { briefScalaDaily } from "./extended-shift.ts";
 * [12, 10, 6].map((hours) => briefScalaDaily(hours)).map((factor) => factor.ok && factor.value); // => [0.5, 0.7, 1]
 * briefScalaDaily(24).ok; // => false
 * ```
 */
export function briefScalaDaily(hoursPerDay: number): Result<number, ShiftHoursRefusal> {
  if (!(hoursPerDay > 0 && hoursPerDay < 24)) return refused({ type: "hours-not-in-a-day", hours: hoursPerDay });
  return given(Math.min(1, (8 * (24 - hoursPerDay)) / (hoursPerDay * 16)));
}

/**
 * Reduction factor of Brief & Scala for the hours of a week.
 *
 *     RF = (40 / h) · ((168 - h) / 128),   cut at 1
 *
 * Source as for the daily form [memory].
 *
 * @param hoursPerWeek above 0 and below 168; else refused.
 * @example
 * ```ts
 * import { briefScalaWeekly } from "./extended-shift.ts";
 * [48, 60, 30].map((hours) => briefScalaWeekly(hours)).map((factor) => factor.ok && factor.value); // => [0.78125, 0.5625, 1]
 * ```
 */
export function briefScalaWeekly(hoursPerWeek: number): Result<number, ShiftHoursRefusal> {
  if (!(hoursPerWeek > 0 && hoursPerWeek < 168)) return refused({ type: "hours-not-in-a-week", hours: hoursPerWeek });
  return given(Math.min(1, (40 * (168 - hoursPerWeek)) / (hoursPerWeek * 128)));
}

export interface ReducedLimit {
  /** In the unit of the published limit; null where the limit has no single value. */
  readonly value: number | null;
  /** 1 where the limit stands as published. */
  readonly factor: number;
  readonly model: LongShiftModel;
}

/**
 * A limit under a long-shift model. Only an 8-hour average is lowered: not a short-term limit, not a ceiling, and not a
 * 10-hour average, which already is one for long shifts.
 *
 * @param limit of the table. @param worked the declared model and its hours, per day or per week.
 * @returns the value unrounded; refused where the hours are outside the model.
 * @example
 * ```ts
 * import { limitForLongShift } from "./extended-shift.ts";
 * const published = { value: 25, unit: "ppm" as const };
 * const average = limitForLongShift({ kind: "twa", published, averagingMinutes: 480 }, { model: "brief-scala-daily", hours: 12 });
 * average.ok && average.value.value; // => 12.5
 * const short = limitForLongShift({ kind: "stel", published, averagingMinutes: 15 }, { model: "brief-scala-daily", hours: 12 });
 * short.ok && short.value.value; // => 25
 * ```
 * Source: the model's own; that 10-hour averages stay: NIOSH Pocket Guide, definition of the REL [read].
 */
export function limitForLongShift(
  limit: Pick<Limit, "kind" | "published" | "averagingMinutes">,
  worked: { readonly model: LongShiftModel; readonly hours: number },
): Result<ReducedLimit, ShiftHoursRefusal> {
  const factor = worked.model === "brief-scala-daily" ? briefScalaDaily(worked.hours) : briefScalaWeekly(worked.hours);
  if (!factor.ok) return factor;
  const isLowered = limit.kind === "twa" && limit.averagingMinutes === 480;
  const published = limit.published?.value ?? null;
  if (!isLowered) return given({ value: published, factor: 1, model: worked.model });
  return given({ value: published === null ? null : published * factor.value, factor: factor.value, model: worked.model });
}

/**
 * OSHA's limit for lead on a long day: 400 / h, and 50 up to 8 hours. For lead only; other OSHA limits are not reduced
 * but set against the worst 8 hours of the shift.
 *
 *     PEL = 400 / h  µg/m³       29 CFR 1910.1025(c)(2) [read]
 *
 * @param hoursPerDay above 0, at most 24. @returns micrograms per cubic metre.
 * @example
 * ```ts
 * import { oshaLeadLimit } from "./extended-shift.ts";
 * [10, 8, 4].map((hours) => oshaLeadLimit(hours)).map((limit) => limit.ok && limit.value); // => [40, 50, 50]
 * ```
 */
export function oshaLeadLimit(hoursPerDay: number): Result<number, ShiftHoursRefusal> {
  if (!(hoursPerDay > 0 && hoursPerDay <= 24)) return refused({ type: "hours-not-in-a-day", hours: hoursPerDay });
  return given(Math.min(50, 400 / hoursPerDay));
}
