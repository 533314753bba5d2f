// ECMA-376 Part 1, 18.17.4.1 (day numbers, from memory); 12-hour clock and 24:00: ISO 8601-1:2004 and common practice.
import { describe, expect, test } from "vitest";
import {
  clockOfDay,
  daysFromCivil,
  localFromDayNumber1900,
  localFromDayNumber1904,
  localText,
  MILLISECONDS_PER_DAY,
} from "../../../src/core/time/index.ts";
import { answerOf, goldenRow, nameOf } from "../golden-rows.ts";

test(nameOf("formats-g-csv-serial-01"), () => {
  const { inputs, expected } = goldenRow("formats-g-csv-serial-01");
  const [in1900, in1904] = inputs.serial;
  expect([localText(localFromDayNumber1900(in1900)), localText(localFromDayNumber1904(in1904))]).toEqual(expected.local);
});

test(nameOf("formats-g-csv-clock-01"), () => {
  const { expected } = goldenRow("formats-g-csv-clock-01");
  const midnight = daysFromCivil(2026, 3, 4) * MILLISECONDS_PER_DAY;
  const shown = ["12:00 AM", "12:00 PM", "12:01 AM", "24:00"].map((text) => localText(midnight + answerOf(clockOfDay(text))).slice(0, 16));
  expect(shown).toEqual(expected.times.map((time: string) => (time.length === 5 ? `2026-03-04T${time}` : time)));
});

describe("the 1900 system counts a day that never was", () => {
  test.each([
    [1, "1900-01-01T00:00:00"],
    [59, "1900-02-28T00:00:00"],
    [61, "1900-03-01T00:00:00"],
    [59.75, "1900-02-28T18:00:00"],
    [25569, "1970-01-01T00:00:00"],
    [36526, "2000-01-01T00:00:00"],
  ])("%d", (number, text) => expect(localText(localFromDayNumber1900(number))).toBe(text));

  test.each([60, 60.999, -1, 2_958_466, Number.NaN])("%d is no date", (number) => expect(localFromDayNumber1900(number)).toBeNaN());
});
