/** Times of an answer on the clock of its file, for people: the zone is named once beside them, not with every time. */
import { civilFromLocal, daysFromCivil, type Instant, localAt, readRfc3339, rfc3339FromInstant, zoneClock } from "../core/time/index.ts";
import { durationText } from "./figure.ts";

const WEEKDAYS = ["Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"];
const MONTHS = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];

export interface ClockTexts {
  /** "Tue 24 Nov 2026"; null for a recording that only counts from its own start. */
  readonly date: string | null;
  /** "10:44:50", or "32 min 24 s" from the start. */
  readonly clock: string;
}

/**
 * Date and wall clock of a time as the answer prints it.
 *
 * @param text an RFC 3339 instant, or an ISO 8601 duration in seconds from the start ("PT1943.5S").
 * @param zone zone of the file, or null = UTC.
 * @example
 * ```ts
 * import { clockTexts } from "./clock-words.ts";
 * clockTexts("2026-11-24T10:44:50Z", "Europe/Berlin"); // => { "date": "Tue 24 Nov 2026", "clock": "11:44:50" }
 * clockTexts("PT70S", null); // => { "date": null, "clock": "70\u202fs" }
 * ```
 */
export function clockTexts(text: string, zone: string | null): ClockTexts {
  const seconds = secondsFromStart(text);
  if (seconds !== null) return { date: null, clock: durationText(seconds) };
  const read = readRfc3339(text);
  if (!read.ok) return { date: null, clock: text };
  const clock = zoneClock(zone ?? "UTC");
  const local = clock.ok ? localAt(read.value.instant, clock.value) : read.value.instant;
  const { year, month, day, hour, minute, second, millisecond } = civilFromLocal(local);
  const weekday = WEEKDAYS[(((daysFromCivil(year, month, day) + 4) % 7) + 7) % 7] ?? "";
  const fraction = millisecond === 0 ? "" : `.${String(millisecond).padStart(3, "0").replace(/0+$/, "")}`;
  return {
    date: `${weekday} ${day} ${MONTHS[month - 1]} ${year}`,
    clock: `${two(hour)}:${two(minute)}:${two(second)}${fraction}`,
  };
}

/** From here on a reader of a span has no use for parts of a second. */
const FINE_UNTIL_MS = 60_000;

/**
 * "10:30:00 to 10:45:00", with the dates where they differ; a span of a minute and more is told to the nearest second.
 *
 * @example
 * ```ts
 * import { spanText } from "./clock-words.ts";
 * spanText("2026-03-04T01:00:02.013Z", "2026-03-04T01:15:02.013Z", null); // => "01:00:02 to 01:15:02"
 * spanText("2026-03-04T01:00:02.013Z", "2026-03-04T01:00:04.5Z", null); // => "01:00:02.013 to 01:00:04.5"
 * ```
 */
export function spanText(from: string, to: string, zone: string | null): string {
  const [first, last] = [readRfc3339(from), readRfc3339(to)];
  const isLong = first.ok && last.ok && last.value.instant - first.value.instant >= FINE_UNTIL_MS;
  const start = clockTexts(isLong ? nearestSecond(first.value.instant) : from, zone);
  const end = clockTexts(isLong ? nearestSecond(last.value.instant) : to, zone);
  if (start.date === end.date) return `${start.clock} to ${end.clock}`;
  return `${start.date} ${start.clock} to ${end.date} ${end.clock}`;
}

function nearestSecond(instant: Instant): string {
  return rfc3339FromInstant((Math.round(instant / 1000) * 1000) as Instant); // still an instant, a second at most away
}

function secondsFromStart(text: string): number | null {
  const match = /^(-?)PT(\d+(?:\.\d+)?)S$/.exec(text);
  return match === null ? null : Number(match[2]) * (match[1] === "-" ? -1 : 1);
}

const two = (value: number): string => String(value).padStart(2, "0");
