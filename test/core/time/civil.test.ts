import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  civilFromDays,
  civilFromLocal,
  datePlusYears,
  daysFromCivil,
  isDate,
  isLeapYear,
  localTime,
  monthLength,
} from "../../../src/core/time/index.ts";

test("every day from 1899 to 2105 is the next one", () => {
  let days = daysFromCivil(1899, 1, 1);
  for (let year = 1899; year <= 2105; year++) {
    for (let month = 1; month <= 12; month++) {
      for (let day = 1; day <= (monthLength(year, month) ?? 0); day++, days++) {
        if (daysFromCivil(year, month, day) !== days)
          expect([year, month, day, daysFromCivil(year, month, day)]).toEqual([year, month, day, days]);
      }
    }
  }
  expect(civilFromDays(days - 1)).toEqual({ year: 2105, month: 12, day: 31 });
});

test("a year has 365 days, a leap year 366", () => {
  for (let year = 0; year < 9999; year++)
    expect(daysFromCivil(year + 1, 1, 1) - daysFromCivil(year, 1, 1)).toBe(isLeapYear(year) ? 366 : 365);
});

test("property: days and dates turn each other round, as the machine's own calendar does", () => {
  fc.assert(
    fc.property(fc.integer({ min: -719_528, max: 2_932_896 }), (days) => {
      const { year, month, day } = civilFromDays(days);
      expect(daysFromCivil(year, month, day)).toBe(days);
      expect(new Date(days * 86_400_000).toISOString().slice(0, 10)).toBe(
        `${String(year).padStart(4, "0")}-${String(month).padStart(2, "0")}-${String(day).padStart(2, "0")}`,
      );
    }),
  );
});

test("property: wall-clock milliseconds turn round", () => {
  fc.assert(
    fc.property(fc.integer({ min: -62_167_219_200_000, max: 253_402_300_799_999 }), (milliseconds) => {
      expect(localTime(civilFromLocal(milliseconds))).toEqual({ ok: true, value: milliseconds });
    }),
  );
});

describe("what does not exist is refused by name", () => {
  const at = { year: 2026, month: 3, day: 4, hour: 7, minute: 31, second: 0, millisecond: 0 };
  test.each([
    [{ month: 2, day: 29 }, "no-such-date"],
    [{ month: 2, day: 31 }, "no-such-date"],
    [{ month: 0 }, "no-such-date"],
    [{ month: 13 }, "no-such-date"],
    [{ day: 0 }, "no-such-date"],
    [{ day: 1.5 }, "no-such-date"],
    [{ year: 10_000 }, "no-such-date"],
    [{ hour: 24 }, "no-such-clock-time"],
    [{ minute: 60 }, "no-such-clock-time"],
    [{ second: 61 }, "no-such-clock-time"],
    [{ hour: 24, second: 60 }, "no-such-clock-time"],
    [{ millisecond: 1000 }, "no-such-clock-time"],
    [{ second: 60 }, "leap-second"],
  ])("%o: %s", (part, type) => {
    const read = localTime({ ...at, ...part });
    expect(read.ok ? "read" : read.refusal.type).toBe(type);
  });
  test("29 February stands in leap years", () =>
    expect([isDate(2000, 2, 29), isDate(2024, 2, 29), isDate(1900, 2, 29)]).toEqual([true, true, false]));
});

describe("a date so many years later", () => {
  test.each([
    ["2024-02-29", 1, "2025-03-01"],
    ["2024-02-29", 4, "2028-02-29"],
    ["2024-02-29", 76, "2100-03-01"],
    ["2026-12-31", 30, "2056-12-31"],
    ["2026-05-10", 0, "2026-05-10"],
  ])("%s + %d is %s", (text, years, later) => expect(datePlusYears(text, years)).toEqual({ ok: true, value: later }));
  test.each([
    ["2026-02-30", 1, "no-such-day"],
    ["26-02-03", 1, "not-a-date"],
    ["9990-01-01", 10, "beyond-year-9999"],
  ])("%s + %d is refused: %s", (text, years, type) => {
    const later = datePlusYears(text, years);
    expect(later.ok ? "read" : later.refusal.type).toBe(type);
  });
});
