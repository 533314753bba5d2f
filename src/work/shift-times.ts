/** Shifts as people write them, placed on the clock of a file. */
import type { ShiftSpan } from "../core/exposure/assessment.ts";
import { given, type Result, refused } from "../core/result.ts";
import {
  clockOfDay,
  daysFromCivil,
  type Instant,
  instantsOf,
  isDate,
  MILLISECONDS_PER_DAY,
  readDuration,
  readRfc3339,
  zoneClock,
} from "../core/time/index.ts";
import type { DoorRefusal } from "../report/index.ts";

/** Which clock the times of a file are on: the world's, with the zone of its local times, or its own start. */
export type FileClock = { readonly kind: "instants"; readonly zone: string | null } | { readonly kind: "elapsed" };

export type ShiftRefusal = Extract<DoorRefusal, { readonly type: "shift-not-readable" }>;
type Why = ShiftRefusal["why"];

/**
 * Each shift in milliseconds on the clock of the file.
 *
 * A side of `FROM/TO` is an instant with its offset, a local time in the file's zone (date, T or space, clock), or,
 * where the file counts from its own start, seconds or an ISO 8601 duration.
 */
export function placedShifts(texts: readonly string[], clock: FileClock): Result<readonly ShiftSpan[], ShiftRefusal> {
  const spans: ShiftSpan[] = [];
  for (const text of texts) {
    const [from = "", to = "", ...rest] = text.split("/");
    if (from === "" || to === "" || rest.length > 0) return refused({ type: "shift-not-readable", text, why: "form" });
    const [start, end] = [placedTime(from, clock), placedTime(to, clock)];
    if (typeof start === "string") return refused({ type: "shift-not-readable", text, why: start });
    if (typeof end === "string") return refused({ type: "shift-not-readable", text, why: end });
    spans.push({ from: start, to: end });
  }
  return given(spans);
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
  if (/^\d+(\.\d+)?$/.test(text)) return Math.round(Number(text) * 1000);
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
