/**
 * Instants as text: RFC 3339 (2002) section 5.6, and RFC 9557 (2024), which adds the zone in brackets. Strict: seconds
 * always, an offset always. Looser forms of people's files are the business of the room table.
 */
import { given, type Result, refused } from "../result.ts";
import { type CivilRefusal, civilFromLocal, localTime, MILLISECONDS_PER_MINUTE } from "./civil.ts";
import type { Instant } from "./instant.ts";
import { offsetFromText, textFromOffset, twoDigits } from "./offset.ts";
import { instantsOf, isWritable, localAt, type ZoneClock, type ZoneRefusal, zoneClock } from "./zone-clock.ts";

export interface TimedText {
  readonly instant: Instant;
  /** Minutes east of UTC that the text claims as local; null where it says the instant only ("Z" and "-00:00", RFC 9557 section 2.1). */
  readonly offsetMinutes: number | null;
  /** The text has digits finer than the millisecond that are not nought; the instant is the millisecond they fall into. */
  readonly isFiner: boolean;
}

export interface ZonedText extends TimedText {
  /** As the zone database spells it, or an offset; null where the text names none. */
  readonly zone: string | null;
  /** Elective suffixes that mean nothing here, `key=value`, as they stood. */
  readonly unusedTags: readonly string[];
}

export type Rfc3339Refusal =
  | CivilRefusal
  | {
      readonly type: "not-a-timestamp";
      readonly text: string;
      readonly missing: "date" | "T" | "clock" | "seconds" | "offset" | "fraction digits" | "end of text";
    }
  | { readonly type: "no-such-offset"; readonly offset: string }
  | { readonly type: "outside-written-years"; readonly text: string };

export type Rfc9557Refusal =
  | Rfc3339Refusal
  | ZoneRefusal
  | { readonly type: "bad-suffix"; readonly suffix: string }
  | { readonly type: "critical-suffix-not-understood"; readonly suffix: string }
  | { readonly type: "offset-disagrees-with-zone"; readonly offset: string; readonly zone: string; readonly zoneSays: readonly string[] };

/**
 * Reads a strict RFC 3339 date-time.
 *
 * @param text `2026-03-04T07:31:00.250+01:00`; the letters T and Z in either case (section 5.6, note), no space for T.
 * @returns the instant, or why not: what is missing, a date or clock time that does not exist, an offset of 24 h, second
 * 60 (instants do not count leap seconds).
 * @example
 * ```ts
 * import { readRfc3339 } from "./rfc3339.ts";
 * const read = readRfc3339("2026-03-04T13:16:00+05:45");
 * read.ok && [read.value.instant / 1000, read.value.offsetMinutes]; // => [1772609460, 345]
 * const short = readRfc3339("2026-03-04 07:31");
 * short.ok || short.refusal; // => { type: "not-a-timestamp", text: "2026-03-04 07:31", missing: "T" }
 * ```
 */
export function readRfc3339(text: string): Result<TimedText, Rfc3339Refusal> {
  const match = TIMESTAMP.exec(text);
  if (match === null) return refused(whatIsMissing(text));
  const [, year, month, day, hour, minute, second, fraction, offset] = match as unknown as TimestampParts; // the pattern has these groups
  const local = localTime({
    ...{ year: Number(year), month: Number(month), day: Number(day) },
    ...{ hour: Number(hour), minute: Number(minute), second: Number(second) },
    millisecond: Number((fraction ?? "").slice(0, 3).padEnd(3, "0")),
  });
  if (!local.ok) return local;
  const minutes = offset === "Z" || offset === "z" ? 0 : offsetFromText(offset);
  if (minutes === null) return refused({ type: "no-such-offset", offset });
  const instant = (local.value - minutes * MILLISECONDS_PER_MINUTE) as Instant; // local less its offset is an instant
  if (!isWritable(instant)) return refused({ type: "outside-written-years", text });
  const saysInstantOnly = !offset.includes(":") || offset === "-00:00";
  return given({ instant, offsetMinutes: saysInstantOnly ? null : minutes, isFiner: /[1-9]/.test((fraction ?? "").slice(3)) });
}

/**
 * Reads RFC 9557: a timestamp with a zone, `2025-10-26T01:30:00+00:00[Europe/London]`. The zone is optional.
 *
 * @returns instant, offset and zone; or a refusal: whatever `readRfc3339` refuses; a zone that does not exist; an
 * offset that the zone does not have at that instant (ours: always refused, marked critical or not; section 3.4 leaves
 * it open); an unknown suffix marked critical with "!" (section 3.3); a calendar other than ISO marked critical.
 * @example
 * ```ts
 * import { readRfc9557 } from "./rfc3339.ts";
 * const read = readRfc9557("2025-10-26T01:30:00+00:00[Europe/London]");
 * read.ok && read.value.zone; // => "Europe/London"
 * const wrong = readRfc9557("2025-07-01T12:00:00+00:00[Europe/London]");
 * wrong.ok || wrong.refusal; // => { type: "offset-disagrees-with-zone", offset: "+00:00", zone: "Europe/London", zoneSays: ["+01:00"] }
 * ```
 */
export function readRfc9557(text: string): Result<ZonedText, Rfc9557Refusal> {
  const bracket = text.indexOf("[");
  const timed = readRfc3339(bracket === -1 ? text : text.slice(0, bracket));
  if (!timed.ok) return timed;
  const suffixes = readSuffixes(bracket === -1 ? "" : text.slice(bracket));
  if (!suffixes.ok) return suffixes;
  const { zone, unusedTags } = suffixes.value;
  if (zone === null) return given({ ...timed.value, zone: null, unusedTags });
  const clock = zoneClock(zone);
  if (!clock.ok) return clock;
  const disagreement = disagreementOf(timed.value, clock.value);
  return disagreement === null ? given({ ...timed.value, zone: clock.value.zone, unusedTags }) : refused(disagreement);
}

/**
 * An instant as RFC 3339 text.
 *
 * @param offsetMinutes minutes east of UTC to show it at; null (the default) writes "Z".
 * @returns seconds always; three digits of fraction where the instant is not a whole second. Instants outside years 0 to
 * 9999 are a broken promise: every reader here refuses them.
 * @example
 * ```ts
 * import { readRfc3339, rfc3339FromInstant } from "./rfc3339.ts";
 * const read = readRfc3339("2026-03-04T07:31:00.25+01:00");
 * read.ok && rfc3339FromInstant(read.value.instant); // => "2026-03-04T06:31:00.250Z"
 * read.ok && rfc3339FromInstant(read.value.instant, 60); // => "2026-03-04T07:31:00.250+01:00"
 * ```
 */
export function rfc3339FromInstant(instant: Instant, offsetMinutes: number | null = null): string {
  if (offsetMinutes === null) return `${localText(instant)}Z`;
  return `${localText(instant + offsetMinutes * MILLISECONDS_PER_MINUTE)}${textFromOffset(offsetMinutes)}`;
}

/**
 * An instant with the offset and the name of a zone, RFC 9557.
 *
 * @returns where the zone's offset is not of whole minutes (some are before 1972) no offset can be written, and the text
 * says "Z" with the zone (RFC 9557 section 2.1: the instant only).
 * @example
 * ```ts
 * import { readRfc3339, rfc9557FromInstant } from "./rfc3339.ts";
 * import { zoneClock } from "./zone-clock.ts";
 * const read = readRfc3339("2025-10-26T01:30:00Z");
 * const london = zoneClock("Europe/London");
 * read.ok && london.ok && rfc9557FromInstant(read.value.instant, london.value); // => "2025-10-26T01:30:00+00:00[Europe/London]"
 * ```
 */
export function rfc9557FromInstant(instant: Instant, clock: ZoneClock): string {
  const minutes = clock.offsetAt(instant) / MILLISECONDS_PER_MINUTE;
  return `${rfc3339FromInstant(instant, Number.isInteger(minutes) ? minutes : null)}[${clock.zone}]`;
}

/**
 * Date and wall clock without offset, for people and for local columns: "2025-10-26T01:30:00".
 *
 * @param milliseconds wall-clock milliseconds since 1970-01-01T00:00, within years 0 to 9999.
 * @example
 * ```ts
 * import { localText } from "./rfc3339.ts";
 * localText(1500); // => "1970-01-01T00:00:01.500"
 * ```
 */
export function localText(milliseconds: number): string {
  if (!isWritable(milliseconds)) throw new Error("broken promise: a time to be written lies within years 0 to 9999");
  const { year, month, day, hour, minute, second, millisecond } = civilFromLocal(milliseconds);
  const clock = `${twoDigits(hour)}:${twoDigits(minute)}:${twoDigits(second)}`;
  const fraction = millisecond === 0 ? "" : `.${String(millisecond).padStart(3, "0")}`;
  return `${String(year).padStart(4, "0")}-${twoDigits(month)}-${twoDigits(day)}T${clock}${fraction}`;
}

/** Local text of an instant in a zone, for messages that name both. */
export const localTextAt = (instant: Instant, clock: ZoneClock): string => localText(localAt(instant, clock));

const TIMESTAMP = /^(\d{4})-(\d\d)-(\d\d)[Tt](\d\d):(\d\d):(\d\d)(?:\.(\d+))?([Zz]|[+-]\d\d:\d\d)$/;
type TimestampParts = readonly [string, string, string, string, string, string, string, string | undefined, string];

function whatIsMissing(text: string): Rfc3339Refusal {
  const said = (missing: Extract<Rfc3339Refusal, { type: "not-a-timestamp" }>["missing"]): Rfc3339Refusal => ({
    type: "not-a-timestamp",
    text,
    missing,
  });
  if (!/^\d{4}-\d\d-\d\d/.test(text)) return said("date");
  if (!/^.{10}[Tt]/.test(text)) return said("T");
  if (!/^.{11}\d\d:\d\d/.test(text)) return said("clock");
  if (!/^.{16}:\d\d/.test(text)) return said("seconds");
  if (/^.{19}\.(?!\d)/.test(text)) return said("fraction digits");
  if (!/^.{19}(?:\.\d+)?(?:[Zz]|[+-]\d\d:\d\d)/.test(text)) return said("offset");
  return said("end of text");
}

interface Suffixes {
  readonly zone: string | null;
  readonly unusedTags: readonly string[];
}

/** Section 4.1: first at most one zone, then tags `key=value`; "!" makes either critical. */
function readSuffixes(text: string): Result<Suffixes, Rfc9557Refusal> {
  const parts = text.match(/\[[^[\]]*\]/g) ?? [];
  if (parts.join("") !== text) return refused({ type: "bad-suffix", suffix: text });
  const first = parts[0]?.slice(1, -1) ?? "";
  const hasZone = first !== "" && !first.includes("=");
  if (hasZone && !ZONE.test(first)) return refused({ type: "bad-suffix", suffix: `[${first}]` });
  const unusedTags: string[] = [];
  const keys = new Set<string>();
  for (const part of parts.slice(hasZone ? 1 : 0)) {
    const fault = takeTag(part.slice(1, -1), keys, unusedTags);
    if (fault !== null) return refused(fault);
  }
  return given({ zone: hasZone ? first.replace(/^!/, "") : null, unusedTags });
}

const ZONE = /^!?(?:[A-Za-z._][A-Za-z._0-9+-]*(?:\/[A-Za-z._][A-Za-z._0-9+-]*)*|[+-]\d\d:\d\d)$/;
const TAG = /^(!?)([a-z_][a-z0-9_-]*)=([A-Za-z0-9]+(?:-[A-Za-z0-9]+)*)$/;

/** The ISO calendar is what is used anyway. Of a key that comes twice the first counts, and a critical second refuses (section 3.3). */
function takeTag(tag: string, keys: Set<string>, unusedTags: string[]): Rfc9557Refusal | null {
  const match = TAG.exec(tag);
  if (match === null) return { type: "bad-suffix", suffix: `[${tag}]` };
  const [, critical, key, value] = match as unknown as readonly [string, string, string, string]; // the pattern has these groups
  const isKnown = key === "u-ca" && (value === "iso8601" || value === "gregory");
  if (critical === "!" && (!isKnown || keys.has(key))) return { type: "critical-suffix-not-understood", suffix: `[${tag}]` };
  if (!isKnown || keys.has(key)) unusedTags.push(`${key}=${value}`);
  keys.add(key);
  return null;
}

function disagreementOf(timed: TimedText, clock: ZoneClock): Rfc9557Refusal | null {
  const { instant, offsetMinutes } = timed;
  if (offsetMinutes === null) return null; // "Z" claims no local offset
  const there = clock.offsetAt(instant) / MILLISECONDS_PER_MINUTE;
  if (there === offsetMinutes) return null;
  return {
    type: "offset-disagrees-with-zone",
    offset: textFromOffset(offsetMinutes),
    zone: clock.zone,
    zoneSays: offsetsOf(instant + offsetMinutes * MILLISECONDS_PER_MINUTE, clock),
  };
}

/** The offsets that the zone would allow for the local time of the text. */
function offsetsOf(local: number, clock: ZoneClock): string[] {
  const found = instantsOf(local, clock);
  const offsets = found.kind === "one" ? [found.offset] : found.kind === "two" ? [found.earlierOffset, found.laterOffset] : [];
  return offsets.map((offset) => textFromOffset(Math.trunc(offset / MILLISECONDS_PER_MINUTE)));
}
