/**
 * The commonest texts of times without a pattern: a date of ten letters, a clock, perhaps Z or AM and PM. What comes
 * out is what the patterns of `time-text.ts` make of the same text, and a test holds the two to that.
 */
import { isClockTime } from "../time/index.ts";
import type { ClockSeen, DateSeen, TimeText } from "./time-text.ts";

const ZERO = 48;
const COLON = 58;
const DATE_LENGTH = 10;
const NOT = -1;

/** Parts of such a text; null where it is built otherwise, or is no time. */
export function plainTime(text: string): TimeText | null {
  const { length } = text;
  if (length < DATE_LENGTH || length > 32) return null;
  const date = plainDate(text);
  if (date === null) return null;
  if (length === DATE_LENGTH) return { date, clock: null, offset: null, letters: null };
  const between = text.charCodeAt(DATE_LENGTH);
  if (between !== 32 && between !== 84) return null;
  return withClock(text, date);
}

/** `2026-03-04`, or `04/03/2026` with the year last. */
function plainDate(text: string): DateSeen | null {
  const mark = text.charCodeAt(4);
  if (isMark(mark)) {
    if (text.charCodeAt(7) !== mark) return null;
    return dated("year first", two(text, 0) * 100 + two(text, 2), two(text, 5), two(text, 8), two(text, 0) | two(text, 2));
  }
  const other = text.charCodeAt(2);
  if (!isMark(other) || text.charCodeAt(5) !== other) return null;
  return dated("numbers", two(text, 0), two(text, 3), two(text, 6) * 100 + two(text, 8), two(text, 6) | two(text, 8));
}

/** Any part that is no two digits is below nought, and so is `year` then. */
function dated(order: DateSeen["order"], first: number, second: number, third: number, year: number): DateSeen | null {
  return (first | second | third | year) < 0 ? null : { order, first, second, third, twoDigitYear: false };
}

function withClock(text: string, date: DateSeen): TimeText | null {
  const hour = two(text, 11);
  const minute = two(text, 14);
  if ((hour | minute) < 0 || text.charCodeAt(13) !== COLON) return null;
  let end = 16;
  const hasSeconds = text.charCodeAt(end) === COLON;
  const second = hasSeconds ? two(text, 17) : 0;
  if (second < 0) return null;
  if (hasSeconds) end = 19;
  let millisecond = 0;
  if (hasSeconds && text.charCodeAt(end) === 46) {
    const from = ++end;
    while (end < text.length && isDigit(text.charCodeAt(end))) end++;
    if (end === from || end > from + 9) return null;
    millisecond = Number(text.slice(from, Math.min(end, from + 3)).padEnd(3, "0"));
  }
  return ended(text, end, date, { hour, minute, second, millisecond, hasSeconds });
}

interface Clock {
  readonly hour: number;
  readonly minute: number;
  readonly second: number;
  readonly millisecond: number;
  readonly hasSeconds: boolean;
}

/** Nothing, Z, or AM and PM after a space may follow. */
function ended(text: string, end: number, date: DateSeen, clock: Clock): TimeText | null {
  if (end === text.length) return { date, clock: seen(clock, false), offset: null, letters: null };
  const first = text.charCodeAt(end);
  if (first === 90 && end + 1 === text.length) return { date, clock: seen(clock, false), offset: 0, letters: null };
  if (first !== 32 || end + 3 !== text.length || (text.charCodeAt(end + 2) | 32) !== 109) return null;
  const half = text.charCodeAt(end + 1) | 32;
  if (half !== 97 && half !== 112) return null;
  const isHour = clock.hour >= 1 && clock.hour <= 12;
  const hour = isHour ? (clock.hour % 12) + (half === 112 ? 12 : 0) : Number.NaN;
  return { date, clock: seen({ ...clock, hour }, true), offset: null, letters: null };
}

function seen({ hour, minute, second, millisecond, hasSeconds }: Clock, isTwelveHour: boolean): ClockSeen {
  const isEnd = hour === 24 && minute === 0 && second === 0 && !isTwelveHour;
  const exists = isEnd || (!Number.isNaN(hour) && isClockTime(hour, minute, second, millisecond));
  return { milliseconds: exists ? ((hour * 60 + minute) * 60 + second) * 1000 + millisecond : Number.NaN, hasSeconds, isTwelveHour };
}

const isMark = (code: number): boolean => code === 45 || code === 46 || code === 47;
const isDigit = (code: number): boolean => code >= ZERO && code < COLON;

/** The number of two digits, or -1. */
function two(text: string, at: number): number {
  const tens = text.charCodeAt(at) - ZERO;
  const ones = text.charCodeAt(at + 1) - ZERO;
  return tens >= 0 && tens <= 9 && ones >= 0 && ones <= 9 ? tens * 10 + ones : NOT;
}
