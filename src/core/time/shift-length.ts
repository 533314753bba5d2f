/** How long a shift or a day really was: elapsed time, not the difference of two wall clocks. */
import { given, type Result, refused } from "../result.ts";
import { type CivilDate, daysFromCivil, type LocalTime, MILLISECONDS_PER_DAY } from "./civil.ts";
import type { Instant, Span } from "./instant.ts";
import { instantsOf, type LocalInstants, type ZoneClock } from "./zone-clock.ts";

export type ShiftEnd = "start" | "end";

export type SpanRefusal =
  | { readonly type: "local-time-happens-twice"; readonly which: ShiftEnd; readonly earlier: Instant; readonly later: Instant }
  | {
      readonly type: "local-time-does-not-happen";
      readonly which: ShiftEnd;
      readonly lastSecondBefore: Instant;
      readonly firstAfter: Instant;
    }
  | { readonly type: "ends-before-start"; readonly start: Instant; readonly end: Instant };

export interface LocalSpan {
  readonly from: LocalTime;
  readonly to: LocalTime;
}

/**
 * The real stretch of time between two local times of one place. On the night the clocks go back a shift from 22:00 to
 * 06:00 has 9 h, in spring 7 (exposure rests on elapsed time).
 *
 * @returns [from, to) in instants. Refused: an end that happens twice or not at all (a person must say which), an end
 * that is not after the start.
 * @example
 * ```ts
 * import { spanOf } from "./shift-length.ts";
 * import { localTime } from "./civil.ts";
 * import { zoneClock } from "./zone-clock.ts";
 * const london = zoneClock("Europe/London");
 * const onTheHour = { minute: 0, second: 0, millisecond: 0 };
 * const from = localTime({ year: 2025, month: 10, day: 25, hour: 22, ...onTheHour });
 * const to = localTime({ year: 2025, month: 10, day: 26, hour: 6, ...onTheHour });
 * const span = london.ok && from.ok && to.ok && spanOf({ from: from.value, to: to.value }, london.value);
 * span && span.ok && (span.value.to - span.value.from) / 3600000; // => 9
 * ```
 */
export function spanOf(local: LocalSpan, clock: ZoneClock): Result<Span, SpanRefusal> {
  const from = theInstant(instantsOf(local.from, clock), "start");
  if (!from.ok) return from;
  const to = theInstant(instantsOf(local.to, clock), "end");
  if (!to.ok) return to;
  if (to.value <= from.value) return refused({ type: "ends-before-start", start: from.value, end: to.value });
  return given({ from: from.value, to: to.value });
}

/**
 * The stretch of time in which the clocks of a place show a date: 24 h, but 23 or 25 on the days of a clock change, and
 * none at all for a date that a place has left out (Samoa, 30 December 2011).
 *
 * @example
 * ```ts
 * import { dayOf } from "./shift-length.ts";
 * import { zoneClock } from "./zone-clock.ts";
 * const london = zoneClock("Europe/London");
 * const hours = (day: { from: number; to: number }) => (day.to - day.from) / 3600000;
 * london.ok && hours(dayOf({ year: 2025, month: 3, day: 30 }, london.value)); // => 23
 * ```
 */
export function dayOf({ year, month, day }: CivilDate, clock: ZoneClock): Span {
  const midnight = daysFromCivil(year, month, day) * MILLISECONDS_PER_DAY;
  return { from: firstInstantFrom(midnight, clock), to: firstInstantFrom(midnight + MILLISECONDS_PER_DAY, clock) };
}

/** The first instant at which the clock shows the local time, or has just jumped over it. */
function firstInstantFrom(local: number, clock: ZoneClock): Instant {
  const found = instantsOf(local, clock);
  return found.kind === "one" ? found.instant : found.kind === "two" ? found.earlier : found.firstAfter;
}

function theInstant(found: LocalInstants, which: ShiftEnd): Result<Instant, SpanRefusal> {
  if (found.kind === "one") return given(found.instant);
  if (found.kind === "two") return refused({ type: "local-time-happens-twice", which, earlier: found.earlier, later: found.later });
  return refused({ type: "local-time-does-not-happen", which, lastSecondBefore: found.lastSecondBefore, firstAfter: found.firstAfter });
}
