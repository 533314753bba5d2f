/** A mapping made ready for the walk: every look-up that a row needs, done once. */

import type { Unit } from "../quantity/unit.ts";
import type { ReadingCode } from "../recording/channel.ts";
import { assert } from "../result.ts";
import { readRfc3339, type ZoneClock, zoneClock } from "../time/index.ts";
import type { HalfDay } from "./half-day.ts";
import type { ColumnMapping, TableMapping, TimeForm } from "./mapping.ts";
import { readNumber } from "./number-text.ts";
import { CODE } from "./reading-code.ts";
import type { DateOrder } from "./time-text.ts";

export interface ExactDigits {
  readonly mantissa: number;
  readonly decimals: number;
}

export interface PlannedChannel {
  readonly column: ColumnMapping;
  readonly rangeTop: ExactDigits | null;
  /** Greatest value that can be, in the unit: no volume fraction is above 100 %. */
  readonly possible: number;
}

export interface Plan {
  readonly mapping: TableMapping;
  readonly width: number;
  /** Cells that a row may leave out at its end: columns without a label. */
  readonly least: number;
  readonly isLong: boolean;
  readonly time: number;
  readonly date: number;
  readonly clock: number;
  readonly sensor: number;
  readonly value: number;
  readonly unit: number;
  readonly series: number;
  /** All columns that together tell recordings apart. */
  readonly seriesColumns: readonly number[];
  readonly statuses: readonly number[];
  readonly channels: readonly PlannedChannel[];
  /** Channel of each column, -1 where it is none. */
  readonly channelOf: Int32Array;
  readonly sensors: ReadonlyMap<string, number>;
  /** Columns that are no channels but whose numbers are still looked at: tables without any reading. */
  readonly looseNumbers: readonly number[];
  readonly words: ReadonlyMap<string, ReadingCode>;
  readonly badStatus: ReadonlySet<string>;
  readonly order: DateOrder;
  readonly yearsFrom: number | null;
  readonly zone: ZoneClock | null;
  readonly letters: ReadonlyMap<string, ZoneClock>;
  readonly form: TimeForm;
  /** Milliseconds of one unit of a count; 0 where times are texts. */
  readonly countScale: number;
  readonly countStart: number;
  /** Days since 1970 of the first row, for clock times without a date. */
  readonly firstDay: string | null;
  /** Half of the day of the first row of a clock of twelve hours; null where the clock is taken as written. */
  readonly halfDay: Exclude<HalfDay, "as written"> | null;
}

const COUNT_SCALES: Readonly<Partial<Record<TimeForm, number>>> = {
  "seconds-from-start": 1000,
  "milliseconds-from-start": 1,
  "minutes-from-start": 60_000,
  "hours-from-start": 3_600_000,
  "unix-seconds": 1000,
  "unix-milliseconds": 1,
  "day-number-1900": 86_400_000,
  "day-number-1904": 86_400_000,
};

/** The largest share of a volume: all of it. Mass concentrations and %LEL have no such bound. */
const WHOLE: Readonly<Partial<Record<Unit, number>>> = { ppm: 1e6, ppb: 1e9, "vol%": 100, "mol/mol": 1 };

export function planOf(mapping: TableMapping): Plan {
  const { columns, time, words } = mapping;
  const at = (role: ColumnMapping["role"]): number => columns.findIndex((column) => column.role === role);
  const isLong = mapping.shape === "long";
  const channels = (isLong ? mapping.channels : columns.filter((column) => column.role === "reading")).map(plannedChannel);
  const channelOf = new Int32Array(columns.length).fill(-1);
  if (!isLong) for (const [channel, { column }] of channels.entries()) channelOf[columns.indexOf(column)] = channel;
  const countScale = COUNT_SCALES[time.form] ?? 0;
  return {
    mapping,
    width: columns.length,
    least: leastCells(columns),
    isLong,
    time: at("time"),
    date: at("date"),
    clock: at("clock"),
    sensor: at("sensor"),
    value: at("value"),
    unit: at("unit"),
    series: at("series"),
    seriesColumns: columns.flatMap((column, index) => (column.role === "series" ? [index] : [])),
    statuses: columns.flatMap((column, index) => (column.role === "status" ? [index] : [])),
    channels,
    channelOf,
    sensors: new Map(channels.map(({ column }, channel) => [column.label, channel])),
    looseNumbers: channels.length > 0 || isLong ? [] : columns.flatMap((column, index) => (column.role === "number" ? [index] : [])),
    words: wordCodes(words),
    badStatus: new Set(words.badStatus),
    order: time.form === "day-month-year" || time.form === "month-day-year" ? time.form : "year-month-day",
    yearsFrom: time.twoDigitYearsFrom,
    zone: time.zone === null ? null : clockOf(time.zone),
    letters: new Map(Object.entries(time.zoneLetters).map(([letters, zone]) => [letters, clockOf(zone)])),
    form: time.form,
    countScale,
    countStart: countScale > 0 && time.start !== null ? startOf(time.start) : 0,
    firstDay: countScale === 0 ? time.start : null,
    halfDay: time.halfDay === "as written" ? null : time.halfDay,
  };
}

function plannedChannel(column: ColumnMapping): PlannedChannel {
  const top = column.rangeTop === null ? null : readNumber(column.rangeTop, ".", null);
  return {
    column,
    rangeTop: top === null || typeof top === "string" ? null : { mantissa: top.mantissa, decimals: top.decimals },
    possible: column.unit === null ? Number.POSITIVE_INFINITY : (WHOLE[column.unit] ?? Number.POSITIVE_INFINITY),
  };
}

/** Trailing columns that are ignored need no cells. */
function leastCells(columns: readonly ColumnMapping[]): number {
  let least = columns.length;
  while (least > 1 && columns[least - 1]?.role === "ignored") least--;
  return least;
}

function wordCodes({ overRange, underRange, noReading, fault }: TableMapping["words"]): ReadonlyMap<string, ReadingCode> {
  return new Map<string, ReadingCode>([
    ...overRange.map((word): [string, ReadingCode] => [word, CODE.overRange]),
    ...underRange.map((word): [string, ReadingCode] => [word, CODE.underRange]),
    ...noReading.map((word): [string, ReadingCode] => [word, CODE.none]),
    ...fault.map((word): [string, ReadingCode] => [word, CODE.fault]),
  ]);
}

function clockOf(zone: string): ZoneClock {
  const clock = zoneClock(zone);
  assert(clock.ok, "the zones of a mapping were checked");
  return clock.value;
}

function startOf(text: string): number {
  const read = readRfc3339(text);
  assert(read.ok, "the start of a mapping was checked");
  return read.value.instant;
}
