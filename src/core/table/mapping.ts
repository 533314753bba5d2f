import type { KindChooser, ReadingKind } from "../quantity/reading-kind.ts";
import type { Unit } from "../quantity/unit.ts";
import type { HalfDay } from "./half-day.ts";

export type Encoding = "utf-8" | "utf-16le" | "utf-16be" | "windows-1252" | (string & { readonly __brand: "NamedEncoding" });

/** How the bytes become cells. */
export interface Dialect {
  readonly encoding: Encoding;
  /** One character; empty where the file has one column only. */
  readonly delimiter: string;
  readonly quote: string;
  /** How a quote stands inside a quoted cell. "lenient": not at all, and the cell ends at quote + delimiter. */
  readonly quoteInside: "doubled" | "backslash" | "lenient";
  readonly commentPrefix: string | null;
  /** Every line is one quoted cell that holds the real line. */
  readonly wrapped: boolean;
  readonly trim: boolean;
}

export type ColumnRole =
  | "time" // date and clock, or a count since the start or since 1970
  | "date"
  | "clock"
  | "reading"
  | "status"
  | "series" // tells several recordings in one file apart
  | "sensor" // long form: which channel the line is about
  | "value" // long form
  | "unit" // long form
  | "text"
  | "number" // a number that is no gas reading (battery, temperature, flow)
  | "ignored";

export interface ColumnMapping {
  readonly label: string;
  readonly role: ColumnRole;
  /** Id of `core/gas`, or null where nobody said. */
  readonly gas: string | null;
  readonly unit: Unit | null;
  readonly decimalMark: "." | ",";
  readonly groupMark: "," | "." | " " | "'" | null;
  readonly kind: ReadingKind;
  /** Left out = "default". */
  readonly kindChosenBy?: KindChooser;
  /** Digits as written; null = the file does not say. */
  readonly rangeTop: string | null;
}

export type TimeForm =
  | "year-month-day" // also every RFC 3339 and RFC 9557 text
  | "day-month-year"
  | "month-day-year"
  | "seconds-from-start"
  | "milliseconds-from-start"
  | "minutes-from-start"
  | "hours-from-start"
  | "unix-seconds"
  | "unix-milliseconds"
  | "day-number-1900"
  | "day-number-1904";

export interface TimeMapping {
  readonly form: TimeForm;
  /** Which clock local times are in: an IANA zone, an offset such as "+02:00", or null (each text carries its own, or it is a count). */
  readonly zone: string | null;
  /** First year of the hundred that a two-digit year stands for; null = none seen. */
  readonly twoDigitYearsFrom: number | null;
  /** Instant (RFC 3339) of second 0 for counts from the start; null = elapsed time only. */
  readonly start: string | null;
  /** Which of the two hours is meant where the row order does not settle the hour that happens twice. */
  readonly repeatedHour: "earlier" | "later" | null;
  /** What the clock is where its hours may be of twelve without AM and PM; null = no question of this file. */
  readonly halfDay: HalfDay | null;
  /** Offsets or zones of zone letters found in the times: `EST` -> "-05:00". */
  readonly zoneLetters: Readonly<Record<string, string>>;
}

/** What words and numbers that are no readings stand for. Keys as written in the file, spaces trimmed. */
export interface WordMapping {
  readonly overRange: readonly string[];
  readonly underRange: readonly string[];
  readonly noReading: readonly string[];
  readonly fault: readonly string[];
  /** Status column texts under which the row's readings do not count. */
  readonly badStatus: readonly string[];
}

/**
 * Everything a person confirmed about files with this heading. Saved under the fingerprint of the heading: the same
 * fingerprint asks no more, a changed one asks again. Plain JSON.
 */
export interface TableMapping {
  readonly form: "lamproom-mapping/1";
  readonly fingerprint: string;
  readonly dialect: Dialect;
  /** Physical lines, counted from 1. Empty = no heading. */
  readonly headerLines: readonly number[];
  readonly unitLine: number | null;
  readonly shape: "wide" | "long";
  readonly columns: readonly ColumnMapping[];
  /** Long form: one channel for each text of the sensor column. Empty in wide form. */
  readonly channels: readonly ColumnMapping[];
  readonly time: TimeMapping;
  readonly words: WordMapping;
}
