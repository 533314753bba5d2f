/** Shifts as people write them, placed on the clock of a file. */
import type { ShiftSpan } from "../core/exposure/assessment.ts";
import { given, type Result, refused } from "../core/result.ts";
import {
  clockOfDay,
  daysFromCivil,
  type Instant,
  instantsOf,
  isDate,
  localAt,
  MILLISECONDS_PER_DAY,
  readDuration,
  readRfc3339,
  rfc3339FromInstant,
  type ZoneClock,
  zoneClock,
} from "../core/time/index.ts";
import type { DoorRefusal } from "../report/index.ts";

/** Which clock the times of a file are on: the world's, with the zone of its local times, or its own start. */
export type FileClock = { readonly kind: "instants"; readonly zone: string | null } | { readonly kind: "elapsed" };

type NotReadable = Extract<DoorRefusal, { readonly type: "shift-not-readable" }>;
export type ShiftRefusal = NotReadable | Extract<DoorRefusal, { readonly type: "shift-longer-than-a-day" }>;
type Why = NotReadable["why"];

/**
 * Each shift in milliseconds on the clock of the file.
 *
 * A side of `FROM/TO` is an instant with its offset, a local time in the file's zone (date, T or space, clock), or,
 * where the file counts from its own start, seconds or an ISO 8601 duration. Clock times alone (`06:00/14:00`) are
 * those of the one day on which such a shift meets the rows.
 *
 * @param span earliest and latest time of the rows; null where they are not known.
 */
export function placedShifts(
  texts: readonly string[],
  clock: FileClock,
  span: ShiftSpan | null = null,
): Result<readonly ShiftSpan[], ShiftRefusal> {
  const spans: ShiftSpan[] = [];
  for (const text of texts) {
    const placed = placedShift(text, clock, span);
    if (typeof placed === "string") return refused({ type: "shift-not-readable", text, why: placed });
    const tooLong = longerThanADay([placed]);
    if (tooLong !== null) return refused(tooLong);
    spans.push(placed);
  }
  return given(spans);
}

/** What is longer than a day cannot be one shift, in a file as on the command line. */
export function longerThanADay(shifts: readonly ShiftSpan[]): Extract<ShiftRefusal, { readonly type: "shift-longer-than-a-day" }> | null {
  const longest = Math.max(0, ...shifts.map(({ from, to }) => to - from));
  return longest > MILLISECONDS_PER_DAY ? { type: "shift-longer-than-a-day", hours: longest / 3_600_000 } : null;
}

function placedShift(text: string, clock: FileClock, span: ShiftSpan | null): ShiftSpan | Why {
  const [from = "", to = "", ...rest] = text.split("/");
  if (from === "" || to === "" || rest.length > 0) return "form";
  if (isClockAlone(from) && isClockAlone(to))
    return clock.kind === "elapsed" ? "counts from its own start" : shiftOfDay(from, to, clock, span);
  const [start, end] = [placedTime(from, clock), placedTime(to, clock)];
  if (typeof start === "string") return start;
  return typeof end === "string" ? end : { from: start, to: end };
}

function isClockAlone(text: string): boolean {
  return text.includes(":") && clockOfDay(text.trim()).ok;
}

/** Clock times without a date: only the day on which the shift meets the rows can be meant, if there is one and no other. */
function shiftOfDay(from: string, to: string, { zone }: { readonly zone: string | null }, span: ShiftSpan | null): ShiftSpan | Why {
  const clock = zone === null ? null : zoneClock(zone);
  if (clock === null || !clock.ok) return "no zone";
  if (span === null) return "no date";
  const [first, last] = [dayOf(span.from, clock.value), dayOf(span.to, clock.value)];
  if (last - first > 1) return "several days";
  const placed = [...new Set([first - 1, first, last])].map((day) => shiftOn(day, from, to, zone ?? ""));
  const meeting = placed.filter((shift) => typeof shift === "string" || (shift.from < span.to && shift.to > span.from));
  if (meeting.length > 1) return "several days";
  return meeting[0] ?? shiftOn(first, from, to, zone ?? "");
}

/** The span is one of instants, whose brand is lost in its plain numbers. */
function dayOf(milliseconds: number, clock: ZoneClock): number {
  return Math.floor(localAt(milliseconds as Instant, clock) / MILLISECONDS_PER_DAY);
}

/** A shift that ends at an earlier clock time than it began ends on the next day. */
function shiftOn(day: number, from: string, to: string, zone: string): ShiftSpan | Why {
  const start = localInstant(`${dateText(day)} ${from.trim()}`, zone);
  const sameDay = localInstant(`${dateText(day)} ${to.trim()}`, zone);
  if (typeof start === "string") return start;
  const end = typeof sameDay !== "string" && sameDay <= start ? localInstant(`${dateText(day + 1)} ${to.trim()}`, zone) : sameDay;
  return typeof end === "string" ? end : { from: start, to: end };
}

function dateText(day: number): string {
  return rfc3339FromInstant((day * MILLISECONDS_PER_DAY) as Instant).slice(0, 10); // midnight of that day in UTC
}

/** Milliseconds on the clock of the file, or why the text has no place there. Seconds may be left out. */
export function placedTime(text: string, clock: FileClock): number | Why {
  const elapsed = elapsedTime(text.trim());
  if (clock.kind === "elapsed") return elapsed ?? (looksLikeDate(text) ? "counts from its own start" : "form");
  if (elapsed !== null) return "has instants";
  const instant = readRfc3339(withSeconds(text.trim().replace(" ", "T")));
  return instant.ok ? instant.value.instant : localInstant(text.trim(), clock.zone);
}

/** "…T07:00Z" is "…T07:00:00Z": people leave the seconds out, and a whole minute has none. */
function withSeconds(text: string): string {
  return text.replace(/^(\d{4}-\d\d-\d\dT\d\d:\d\d)([Zz]|[+-]\d\d:\d\d)$/, "$1:00$2");
}

function elapsedTime(text: string): number | null {
  if (/^-?\d+(\.\d+)?$/.test(text)) return Math.round(Number(text) * 1000);
  const read = readDuration(text);
  return read.ok ? Math.round(read.value) : null;
}

function looksLikeDate(text: string): boolean {
  return /^\d{4}-\d\d-\d\d/.test(text.trim());
}

function localInstant(text: string, zone: string | null): Instant | Why {
  const match = /^(\d{4})-(\d\d)-(\d\d)[T ](.+)$/.exec(text);
  const clockTime = clockOfDay(match?.[4] ?? "");
  if (match === null || !clockTime.ok) return "form";
  const [year, month, day] = [Number(match[1]), Number(match[2]), Number(match[3])];
  if (!isDate(year, month, day)) return "form";
  if (zone === null) return "no zone";
  const clock = zoneClock(zone);
  if (!clock.ok) return "no zone";
  const instants = instantsOf(daysFromCivil(year, month, day) * MILLISECONDS_PER_DAY + clockTime.value, clock.value);
  return instants.kind === "one" ? instants.instant : "clock change";
}
