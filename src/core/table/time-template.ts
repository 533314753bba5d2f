/**
 * Where the digits stand in times that all look alike: `2026-03-04T07:30:00Z`, `04/03/2026 07:30`. Learnt from one
 * cell, it reads the next ones by position and leaves everything that looks otherwise to the careful way.
 */
import { daysFromCivil, isDate, MILLISECONDS_PER_DAY, MILLISECONDS_PER_MINUTE } from "../time/index.ts";
import type { DateOrder } from "./time-text.ts";

const ZERO = 48;

/** Positions are counted from the start of the cell; -1 where the cell has no such part. */
export class TimeTemplate {
  readonly length: number;
  readonly dateAt: number;
  readonly yearAt: number;
  readonly hourAt: number;
  readonly secondAt: number;
  readonly fractionAt: number;
  readonly fractionLength: number;
  /** Minutes east of UTC that every cell carries; null where none does. */
  readonly offset: number | null;
  /** Minutes that the half of the day adds, where every cell ends in the same of AM and PM; null where none does. */
  readonly half: number | null;
  private readonly sample: Uint8Array;
  /** First and second number of a date in numbers, for the evidence. */
  first = 0;
  second = 0;
  /** An hour of 0 or above 12 was read: it is no clock of twelve hours. */
  hasOtherHours = false;

  constructor(text: string, parts: TemplateParts) {
    this.length = text.length;
    this.dateAt = parts.dateAt;
    this.yearAt = parts.yearAt;
    this.hourAt = parts.hourAt;
    this.secondAt = parts.secondAt;
    this.fractionAt = parts.fractionAt;
    this.fractionLength = parts.fractionLength;
    this.offset = parts.offset;
    this.half = parts.half;
    this.sample = Uint8Array.from(text, (letter) => letter.charCodeAt(0));
  }

  /** True where all that is no digit stands as in the sample, and the offset is the same. */
  fits(bytes: Uint8Array, from: number): boolean {
    const end =
      this.fractionAt >= 0
        ? this.fractionAt + this.fractionLength
        : this.secondAt >= 0
          ? this.secondAt + 2
          : this.hourAt >= 0
            ? this.hourAt + 5
            : 10;
    for (let index = 0; index < this.length; index++) {
      const byte = bytes[from + index] as number; // the caller stays before the limit
      const here = this.sample[index] as number; // index is below the length
      const isDigit = byte >= ZERO && byte <= 57;
      if (index >= end ? byte !== here : here >= ZERO && here <= 57 ? !isDigit : byte !== here) return false;
    }
    return true;
  }

  /** Letters after the last digit of the clock. */
  ending(): Uint8Array {
    const end = this.fractionAt >= 0 ? this.fractionAt + this.fractionLength : this.secondAt >= 0 ? this.secondAt + 2 : this.length;
    return this.sample.subarray(end);
  }

  /** Local milliseconds of the day; NaN where there is no such date. */
  day(bytes: Uint8Array, from: number, order: DateOrder): number {
    const start = from + this.dateAt;
    const isYearFirst = this.yearAt === this.dateAt;
    const year = two(bytes, from + this.yearAt) * 100 + two(bytes, from + this.yearAt + 2);
    this.first = isYearFirst ? 0 : two(bytes, start);
    this.second = isYearFirst ? 0 : two(bytes, start + 3);
    const month = isYearFirst ? two(bytes, start + 5) : order === "month-day-year" ? this.first : this.second;
    const day = isYearFirst ? two(bytes, start + 8) : order === "month-day-year" ? this.second : this.first;
    return isDate(year, month, day) ? daysFromCivil(year, month, day) * MILLISECONDS_PER_DAY : Number.NaN;
  }

  /** Milliseconds of hour and minute; NaN where there is no such clock time. */
  minute(bytes: Uint8Array, from: number): number {
    if (this.hourAt < 0) return 0;
    const hour = two(bytes, from + this.hourAt);
    const minute = two(bytes, from + this.hourAt + 3);
    this.hasOtherHours ||= hour === 0 || hour > 12 || this.half !== null;
    if (this.half !== null)
      return hour >= 1 && hour <= 12 && minute < 60 ? ((hour % 12) * 60 + minute + this.half) * MILLISECONDS_PER_MINUTE : Number.NaN;
    return hour < 24 && minute < 60 ? (hour * 60 + minute) * MILLISECONDS_PER_MINUTE : Number.NaN;
  }
}

interface TemplateParts {
  readonly dateAt: number;
  readonly yearAt: number;
  readonly hourAt: number;
  readonly secondAt: number;
  readonly fractionAt: number;
  readonly fractionLength: number;
  readonly offset: number | null;
  readonly half: number | null;
}

const DATE = /^(?:\d{4}([-/.])\d\d\1\d\d|\d\d([-/.])\d\d\2\d{4})/;
const CLOCK = /^\d\d:\d\d(?::\d\d(?:\.(\d{1,3}))?)?/;
const OFFSET = /^(?:Z|([+-])(\d\d):(\d\d))$/;
const HALF = /^ ([ap])m$/i;

/** The template of a cell, or null where its form is read the careful way only. */
export function templateOf(text: string): TimeTemplate | null {
  const date = DATE.exec(text);
  let position = date === null ? 0 : date[0].length;
  if (date !== null && position < text.length) {
    if (!/^[T ]\d/.test(text.slice(position))) return null;
    position++;
  }
  const clock = CLOCK.exec(text.slice(position));
  if (date === null && clock === null) return null;
  const hourAt = clock === null ? -1 : position;
  const fractionLength = clock?.[1]?.length ?? 0;
  const hasSeconds = clock !== null && clock[0].length > 5;
  if (clock !== null) position += clock[0].length;
  const suffix = text.slice(position);
  const offset = OFFSET.exec(suffix);
  const half = clock === null ? null : HALF.exec(suffix);
  if (suffix !== "" && offset === null && half === null) return null;
  const minutes =
    offset === null ? null : offset[1] === undefined ? 0 : (offset[1] === "-" ? -1 : 1) * (Number(offset[2]) * 60 + Number(offset[3]));
  return new TimeTemplate(text, {
    dateAt: date === null ? -1 : 0,
    yearAt: date === null ? -1 : date[1] === undefined ? 6 : 0,
    hourAt,
    secondAt: hasSeconds ? hourAt + 6 : -1,
    fractionAt: fractionLength > 0 ? hourAt + 9 : -1,
    fractionLength,
    offset: minutes,
    half: half === null ? null : half[1]?.toLowerCase() === "p" ? 720 : 0,
  });
}

const two = (bytes: Uint8Array, at: number): number => ((bytes[at] as number) - ZERO) * 10 + (bytes[at + 1] as number) - ZERO; // digits, as `fits` has seen
