/** The short way of times says what the patterns say, or nothing; and such a text is never a number. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { numberForm } from "../../../src/core/table/number-text.ts";
import { plainTime } from "../../../src/core/table/plain-time.ts";
import { timeText } from "../../../src/core/table/time-text.ts";

/** A space before keeps a text off the short way, and means nothing to the patterns. */
const byPatterns = (text: string) => timeText(` ${text}`);

const two = fc.oneof({ weight: 4, arbitrary: fc.integer({ min: 0, max: 61 }) }, { weight: 1, arbitrary: fc.integer({ min: 0, max: 99 }) });
const padded = two.map((number) => String(number).padStart(2, "0"));
const year = fc.integer({ min: 0, max: 9999 }).map((number) => String(number).padStart(4, "0"));
const mark = fc.constantFrom("-", "/", ".");
const dates = fc
  .tuple(fc.boolean(), year, padded, padded, mark)
  .map(([isFirst, long, one, other, by]) => (isFirst ? [long, one, other] : [one, other, long]).join(by));
const clocks = fc
  .tuple(padded, padded, fc.option(fc.tuple(padded, fc.option(fc.stringMatching(/^\d{1,10}$/)))))
  .map(([hour, minute, rest]) => `${hour}:${minute}${rest === null ? "" : `:${rest[0]}${rest[1] === null ? "" : `.${rest[1]}`}`}`);
const endings = fc.constantFrom("", "Z", " AM", " pm", " Pm", "AM", " Z", "z", "+01:00", " +0100", " EST", ".", " XM", " A", "  PM");
const times = fc.oneof(
  dates,
  fc.tuple(dates, fc.constantFrom("T", " ", "  ", "t", ",", ""), clocks, endings).map((parts) => parts.join("")),
);

test("whatever the short way reads, the patterns read alike", () => {
  let read = 0;
  fc.assert(
    fc.property(times, fc.nat(), fc.constantFrom(..."0123456789-/.:T ZAPM,x"), fc.boolean(), (text, at, letter, spoils) => {
      const place = at % text.length;
      const given = spoils ? text.slice(0, place) + letter + text.slice(place + 1) : text;
      const plain = plainTime(given);
      if (plain === null) return;
      read++;
      expect(plain).toEqual(byPatterns(given));
      const number = numberForm(given);
      expect(number === null || number.form === "wrong grouping").toBe(true);
    }),
    { numRuns: 20_000 },
  );
  expect(read).toBeGreaterThan(5000);
});

test.each([
  "2026-03-04",
  "2026-03-04T07:30:00Z",
  "2026-03-04 07:30",
  "2026-03-04 07:30:15.250",
  "2026/03/04 07:30:15.123456789",
  "04.03.2026 24:00:00",
  "04/03/2026 12:30 PM",
  "04/03/2026 00:30 AM",
  "99-99-9999 99:99:99",
])("%s takes the short way", (text) => {
  expect(plainTime(text)).not.toBeNull();
  expect(plainTime(text)).toEqual(byPatterns(text));
});
