import { instantsOf, localTime, zoneClock } from "../../core/time/index.ts";
import type { Clock } from "./clock.ts";

/**
 * Reads a time as typed on a recording's page: "10:36", "10:36:20" on the day of `near`, "2026-11-24 10:36", or
 * counted from the start. Null = not a time, or one that this zone's clock skips or shows twice.
 */
export const typedTime = (text: string, clock: Clock, near: number): number | null => {
  const parts = /^\s*(?:(\d{4})-(\d{1,2})-(\d{1,2})[T ]+)?(\d{1,3}):(\d{2})(?::(\d{2}))?\s*$/.exec(text);
  if (parts === null) return null;
  const [, year, month, day, hour = "0", minute = "0", second = "0"] = parts;
  const sinceMidnight = Number(hour) * 3_600_000 + Number(minute) * 60_000 + Number(second) * 1000;
  if (Number(minute) > 59 || Number(second) > 59) return null;
  if (clock.elapsed) return sinceMidnight;
  const zone = zoneClock(clock.zone ?? "UTC");
  if (!zone.ok) return null;
  const date =
    year === undefined
      ? null
      : localTime({ year: Number(year), month: Number(month), day: Number(day), hour: 0, minute: 0, second: 0, millisecond: 0 });
  if (date !== null && !date.ok) return null;
  const dayStart = date === null ? Math.floor((near + zone.value.offsetAt(near)) / 86_400_000) * 86_400_000 : date.value;
  const found = instantsOf(dayStart + sinceMidnight, zone.value);
  return found.kind === "one" ? found.instant : null;
};

/** "Wed 4 Mar 2026, 06:00 to 14:00"; a span that crosses midnight names both of its days. */
export const daySpan = (clock: Clock, from: number, to: number): string => {
  if (clock.elapsed) return `${clock.time(from)} to ${clock.time(to)} from the start`;
  const [first, last] = [clock.date(from), clock.date(to)];
  const end = first === last ? clock.time(to, false) : `${last}, ${clock.time(to, false)}`;
  return `${first}, ${clock.time(from, false)} to ${end}`;
};

/** An hour of this machine's clock: "14:05", with the day where it is not today's. */
export const hourHere = (ms: number, now: number): string => {
  const at = new Date(ms);
  const clock = `${String(at.getHours()).padStart(2, "0")}:${String(at.getMinutes()).padStart(2, "0")}`;
  return at.toDateString() === new Date(now).toDateString() ? clock : `${at.toDateString().slice(0, 10)} ${clock}`;
};
