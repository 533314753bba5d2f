/**
 * Dates and clock times as loggers write them, loosely: which number is the day is decided by the caller, over the
 * whole file. Strict instants (RFC 3339) are read by the room time; here a space for the T, missing seconds, months by
 * name and half-day clocks pass too.
 */
import { daysFromCivil, isClockTime, isDate, MILLISECONDS_PER_DAY, offsetFromText } from "../time/index.ts";
import { plainTime } from "./plain-time.ts";

export interface TimeText {
  /** Null where the text has no date. `order` "year first": first is the year, whatever its length. */
  readonly date: DateSeen | null;
  readonly clock: ClockSeen | null;
  /** Minutes east of UTC; null where the text carries no offset. */
  readonly offset: number | null;
  /** Zone letters other than UTC, GMT and Z, in capitals: they mean different offsets in different places. */
  readonly letters: string | null;
}

export interface DateSeen {
  readonly order: "year first" | "numbers" | "month named";
  readonly first: number;
  readonly second: number;
  readonly third: number;
  readonly twoDigitYear: boolean;
}

export interface ClockSeen {
  /** Milliseconds since midnight; NaN where such a clock time does not exist. 24:00 is the end of the day. */
  readonly milliseconds: number;
  readonly hasSeconds: boolean;
  readonly isTwelveHour: boolean;
}

const YEAR_FIRST = /^(\d{4})([-/.])(\d{1,2})\2(\d{1,2})/;
const COMPACT = /^(\d{4})(\d\d)(\d\d)(?=T\d)/;
const NUMBERS = /^(\d{1,2})([-/.])(\d{1,2})\2(\d{4}|\d{2})(?!\d)/;
const DAY_NAMED = /^(\d{1,2})[-\s./]*([A-Za-z\u00c0-\u024f]{3,10})\.?[-\s.,/]*(\d{4}|\d{2})(?!\d)/;
const NAMED_FIRST = /^([A-Za-z\u00c0-\u024f]{3,10})\.?[-\s.]+(\d{1,2})(?:st|nd|rd|th)?[,\s-]+(\d{4})(?!\d)/;
const WEEKDAY = /^(?:mon|tue|wed|thu|fri|sat|sun)[a-z]*[.,]?\s+/i;
const CLOCK = /^(\d{1,2})(?::(\d\d)(?::(\d\d)(?:[.,](\d{1,9}))?)?|\.(\d\d)\.(\d\d)(?![\d.]))(?!\d)(?:\s*([ap])\.?\s?m\b\.?)?/i;
const COMPACT_CLOCK = /^(\d\d)(\d\d)(\d\d)(?:[.,](\d{1,9}))?(?!\d)/;
const OFFSET = /^\s*([+-])(\d\d)(?::?(\d\d))?(?!\d)/;
const LETTERS = /^\s*([A-Za-z]{1,5})\b/;

/** Months by the first letters of their names in English, German, French, Spanish, Italian, Dutch (common practice). */
const MONTHS: readonly (readonly string[])[] = [
  ["jan", "ene", "gen", "jän"],
  ["feb", "fév", "fev"],
  ["mar", "mär", "mrt", "maa"],
  ["apr", "avr", "abr"],
  ["may", "mai", "mag", "mei"],
  ["jun", "juin", "giu"],
  ["jul", "juil", "lug"],
  ["aug", "aoû", "aou", "ago"],
  ["sep", "set"],
  ["oct", "okt", "ott"],
  ["nov"],
  ["dec", "dez", "déc", "dic"],
];

function monthOf(name: string): number | null {
  const plain = name.toLowerCase().normalize("NFC");
  // June and July share three letters in French.
  if (plain.startsWith("juil")) return 7;
  if (plain.startsWith("juin")) return 6;
  const month = MONTHS.findIndex((starts) => starts.some((start) => plain.startsWith(start)));
  return month < 0 ? null : month + 1;
}

let lastText = "";
let lastSeen: TimeText | null = null;

/** The parts of a text that is a date, a clock time or both and nothing else; null otherwise. */
export function timeText(text: string): TimeText | null {
  // A cell is looked at for the evidence, and again for its row.
  if (text === lastText) return lastSeen;
  // Words between the two looks do not count.
  if (!/\d/.test(text)) return null;
  lastSeen = plainTime(text) ?? partsOfText(text);
  lastText = text;
  return lastSeen;
}

function partsOfText(text: string): TimeText | null {
  let rest = text.trim().replace(WEEKDAY, "");
  const dated = dateAt(rest);
  if (dated !== null) rest = rest.slice(dated.length).replace(/^(?:\s*[T,]\s*|\s+)(?=\d)/i, "");
  if (dated !== null && rest !== "" && rest.length === text.length) return null;
  const timed = clockAt(rest, dated?.isCompact ?? false);
  if (timed !== null) rest = rest.slice(timed.length);
  if (dated === null && timed === null) return null;
  const zone = zoneOf(rest, timed !== null);
  if (zone === null) return null;
  return { date: dated?.date ?? null, clock: timed?.clock ?? null, ...zone };
}

function dateAt(text: string): { date: DateSeen; length: number; isCompact: boolean } | null {
  const yearFirst = YEAR_FIRST.exec(text) ?? COMPACT.exec(text);
  if (yearFirst !== null) {
    const isCompact = yearFirst.length === 4;
    const [first, second, third] = (isCompact ? yearFirst.slice(1) : [yearFirst[1], yearFirst[3], yearFirst[4]]).map(Number) as [
      number,
      number,
      number,
    ]; // three groups
    return { date: { order: "year first", first, second, third, twoDigitYear: false }, length: yearFirst[0].length, isCompact };
  }
  const numbers = NUMBERS.exec(text);
  if (numbers !== null) {
    const [first, second, third] = [numbers[1], numbers[3], numbers[4]].map(Number) as [number, number, number]; // three groups
    return {
      date: { order: "numbers", first, second, third, twoDigitYear: numbers[4]?.length === 2 },
      length: numbers[0].length,
      isCompact: false,
    };
  }
  return namedDateAt(text);
}

function namedDateAt(text: string): { date: DateSeen; length: number; isCompact: boolean } | null {
  const dayFirst = DAY_NAMED.exec(text);
  const monthFirst = dayFirst === null ? NAMED_FIRST.exec(text) : null;
  const match = dayFirst ?? monthFirst;
  if (match === null) return null;
  const [, one, two, year] = match as unknown as readonly [string, string, string, string]; // the patterns have these groups
  const month = monthOf(dayFirst === null ? one : two);
  if (month === null) return null;
  const day = Number(dayFirst === null ? two : one);
  return {
    date: { order: "month named", first: day, second: month, third: Number(year), twoDigitYear: year.length === 2 },
    length: match[0].length,
    isCompact: false,
  };
}

function clockAt(text: string, isCompact: boolean): { clock: ClockSeen; length: number } | null {
  const match = (isCompact ? COMPACT_CLOCK.exec(text) : null) ?? CLOCK.exec(text);
  if (match === null) return null;
  const isPlain = match.length > 5;
  const [hourText, minuteText, secondText, fraction, half] = isPlain
    ? [match[1], match[2] ?? match[5], match[3] ?? match[6], match[4], match[7]]
    : [match[1], match[2], match[3], match[4], undefined];
  const hour = half === undefined ? Number(hourText) : hourOfHalf(Number(hourText), half);
  const minute = Number(minuteText);
  const second = Number(secondText ?? 0);
  const millisecond = Number((fraction ?? "").slice(0, 3).padEnd(3, "0"));
  const isEnd = hour === 24 && minute === 0 && second === 0 && half === undefined;
  const exists = isEnd || (!Number.isNaN(hour) && isClockTime(hour, minute, second, millisecond));
  const milliseconds = exists ? ((hour * 60 + minute) * 60 + second) * 1000 + millisecond : Number.NaN;
  return { clock: { milliseconds, hasSeconds: secondText !== undefined, isTwelveHour: half !== undefined }, length: match[0].length };
}

/** 12 AM is midnight, 12 PM noon (common practice). */
const hourOfHalf = (hour: number, half: string): number =>
  hour < 1 || hour > 12 ? Number.NaN : (hour % 12) + (half.toLowerCase() === "p" ? 12 : 0);

/** Null where what follows the clock is no zone. */
function zoneOf(rest: string, hasClock: boolean): { offset: number | null; letters: string | null } | null {
  const plain = rest.trim();
  if (plain === "") return { offset: null, letters: null };
  if (!hasClock) return null;
  const offset = OFFSET.exec(plain);
  if (offset !== null) {
    const minutes = offsetFromText(`${offset[1]}${offset[2]}:${offset[3] ?? "00"}`);
    return minutes !== null && tagOrNothing(plain.slice(offset[0].length)) ? { offset: minutes + 0, letters: null } : null;
  }
  const letters = LETTERS.exec(plain);
  if (letters === null || !tagOrNothing(plain.slice(letters[0].length))) return null;
  const name = (letters[1] as string).toUpperCase(); // the pattern has this group
  return name === "Z" || name === "UTC" || name === "GMT" ? { offset: 0, letters: null } : { offset: null, letters: name };
}

/** RFC 9557 puts the zone in brackets after the offset; the offset gives the instant. */
const tagOrNothing = (text: string): boolean => /^\s*(?:\[[^[\]]*\])*\s*$/.test(text);

export type DateOrder = "year-month-day" | "day-month-year" | "month-day-year";

/**
 * Days since 1970-01-01 of a date under an order of day and month; NaN where that date does not exist.
 *
 * @param yearsFrom first of the hundred years that a two-digit year stands for; null = two digits are refused (NaN).
 */
export function daysOf(date: DateSeen, order: DateOrder, yearsFrom: number | null): number {
  const [year, month, day] = partsOf(date, order);
  const isShort = date.twoDigitYear;
  if (isShort && yearsFrom === null) return Number.NaN;
  const full = isShort ? fullYear(year, yearsFrom as number) : year; // null was refused above
  return isDate(full, month, day) ? daysFromCivil(full, month, day) : Number.NaN;
}

function partsOf(date: DateSeen, order: DateOrder): [number, number, number] {
  const { first, second, third } = date;
  if (date.order === "year first") return [first, second, third];
  if (date.order === "month named" || order === "day-month-year") return [third, second, first];
  if (order === "month-day-year") return [third, first, second];
  return date.twoDigitYear ? [first, second, third] : [third, second, first];
}

const fullYear = (short: number, from: number): number => from + ((((short - from) % 100) + 100) % 100);

/** Wall-clock milliseconds of a complete text; NaN where the date or the clock time does not exist. */
export function localOf(text: TimeText, order: DateOrder, yearsFrom: number | null): number {
  const days = text.date === null ? 0 : daysOf(text.date, order, yearsFrom);
  return days * MILLISECONDS_PER_DAY + (text.clock === null ? 0 : text.clock.milliseconds);
}
