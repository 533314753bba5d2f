import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  clockOfDay,
  durationText,
  type Instant,
  instantFromUnixMilliseconds,
  instantFromUnixSeconds,
  type LocalTime,
  localFromDayNumber1900,
  localFromDayNumber1904,
  readDuration,
  readRfc3339,
  readRfc9557,
  rfc3339FromInstant,
  spanOf,
  zoneClock,
} from "../../../src/core/time/index.ts";
import { answerOf } from "../../cases/golden-rows.ts";

const written = fc.integer({ min: -62_167_219_200_000, max: 253_402_300_799_999 });

test("property: an instant reads back from its text, at any offset", () => {
  fc.assert(
    fc.property(written, fc.option(fc.integer({ min: -1439, max: 1439 })), (instant, offset) => {
      const local = instant + (offset ?? 0) * 60_000;
      fc.pre(local >= -62_167_219_200_000 && local < 253_402_300_800_000);
      expect(answerOf(readRfc3339(rfc3339FromInstant(instant as Instant, offset)))).toEqual({
        instant,
        offsetMinutes: offset,
        isFiner: false,
      });
    }),
  );
});

test("property: texts sort as their instants do", () => {
  fc.assert(
    fc.property(written, written, (first, second) => {
      const [a, b] = [first, second].map((instant) => rfc3339FromInstant((Math.floor(instant / 1000) * 1000) as Instant));
      expect(Math.sign(Math.floor(first / 1000) - Math.floor(second / 1000))).toBe((a as string) < (b as string) ? -1 : a === b ? 0 : 1);
    }),
  );
});

test("property: no text makes a reader throw", () => {
  const nearly = fc.stringMatching(/^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d{0,12})?(Z|[+-]\d\d:\d\d)(\[!?[\w/+:=-]{0,12}\]){0,3}$/);
  fc.assert(
    fc.property(fc.oneof(fc.string(), nearly), (text) => {
      for (const read of [readRfc3339, readRfc9557, clockOfDay, readDuration]) expect(typeof read(text).ok).toBe("boolean");
    }),
    { numRuns: 1000 },
  );
});

describe("a timestamp that is refused says what is missing", () => {
  test.each([
    ["2026-03-04 07:31", "T"],
    ["2026-03-04 07:31:00Z", "T"],
    ["2026-03-04T07", "clock"],
    ["2026-03-04T07:31Z", "seconds"],
    ["2026-03-04T07:31:00", "offset"],
    ["2026-03-04T07:31:00+0100", "offset"],
    ["2026-03-04T07:31:00+01", "offset"],
    ["2026-03-04T07:31:00.Z", "fraction digits"],
    ["2026-03-04T07:31:00,5Z", "offset"],
    ["2026-03-04T07:31:00Z ", "end of text"],
    ["04/03/2026", "date"],
    ["20260304T073100Z", "date"],
    ["+2026-03-04T07:31:00Z", "date"],
    ["", "date"],
    ["２０２６-03-04T07:31:00Z", "date"],
  ])("%j: %s", (text, missing) => expect(readRfc3339(text)).toEqual({ ok: false, refusal: { type: "not-a-timestamp", text, missing } }));

  test.each([
    ["2026-02-29T00:00:00Z", "no-such-date"],
    ["2026-13-01T00:00:00Z", "no-such-date"],
    ["2026-03-04T24:00:00Z", "no-such-clock-time"],
    ["2026-03-04T07:60:00Z", "no-such-clock-time"],
    ["2026-03-04T07:31:00+24:00", "no-such-offset"],
    ["2026-03-04T07:31:00+01:60", "no-such-offset"],
    ["2026-03-04T07:31:60Z", "leap-second"],
    ["0000-01-01T00:00:00+00:01", "outside-written-years"],
    ["9999-12-31T23:59:59-00:01", "outside-written-years"],
  ])("%s: %s", (text, type) => {
    const read = readRfc3339(text);
    expect(read.ok ? "read" : read.refusal.type).toBe(type);
  });

  test("digits finer than a millisecond are told, and the millisecond is the one they fall into", () => {
    expect(answerOf(readRfc3339("1970-01-01t00:00:00.0019999z"))).toEqual({ instant: 1, offsetMinutes: null, isFiner: true });
    expect(answerOf(readRfc3339("1970-01-01T00:00:00.001000Z")).isFiner).toBe(false);
    expect(answerOf(readRfc3339("1969-12-31T23:59:59.9991Z")).instant).toBe(-1);
  });

  test("the zone's own offsets are named when a text disagrees", () => {
    const read = readRfc9557("2025-10-26T01:30:00+02:00[Europe/London]");
    expect(read.ok || read.refusal).toEqual({
      type: "offset-disagrees-with-zone",
      offset: "+02:00",
      zone: "Europe/London",
      zoneSays: ["+01:00", "+00:00"],
    });
  });
});

describe("a clock time of day", () => {
  test.each([
    ["7:31", 27_060_000],
    ["07:31:05.25", 27_065_250],
    ["07:31:05,25", 27_065_250],
    ["11:59:59 p.m.", 86_399_000],
    ["12:30AM", 1_800_000],
    ["24:00:00", 86_400_000],
    [" 00:00 ", 0],
  ])("%j", (text, milliseconds) => expect(clockOfDay(text)).toEqual({ ok: true, value: milliseconds }));
  test.each(["24:01", "24:00:00.001", "0:30 AM", "13:00 PM", "24:00 PM", "07:60", "07:31:60"])("%j does not exist", (text) =>
    expect(clockOfDay(text)).toEqual({ ok: false, refusal: { type: "no-such-clock-text", text } }),
  );
  test.each(["", "7", "07.31", "07:3", "noon", "07:31 XM", "-1:00"])("%j is no clock time", (text) =>
    expect(clockOfDay(text)).toEqual({ ok: false, refusal: { type: "not-a-clock-time", text } }),
  );
});

describe("lengths of time", () => {
  test("property: whole milliseconds read back", () => {
    fc.assert(
      fc.property(fc.integer({ min: -1e12, max: 1e12 }), (milliseconds) => {
        expect(answerOf(readDuration(durationText(milliseconds)))).toBeCloseTo(milliseconds, 3);
      }),
      { examples: [[0], [-1], [999], [1_943_500]] },
    );
  });
  test.each([
    ["PT9H", 32_400_000],
    ["PT7H30M", 27_000_000],
    ["P1D", 86_400_000],
    ["P1W", 604_800_000],
    ["-PT0.5S", -500],
    ["PT1,5H", 5_400_000],
  ])("%s", (text, milliseconds) => expect(readDuration(text)).toEqual({ ok: true, value: milliseconds }));
  test.each([
    ["P1Y", "duration-without-fixed-length"],
    ["P2M", "duration-without-fixed-length"],
    ["P", "not-a-duration"],
    ["PT", "not-a-duration"],
    ["P1DT", "not-a-duration"],
    ["PT1.5H30M", "not-a-duration"],
    ["PT30M1H", "not-a-duration"],
    ["1H", "not-a-duration"],
    ["", "not-a-duration"],
  ])("%s is refused: %s", (text, type) => {
    const read = readDuration(text);
    expect(read.ok ? "read" : read.refusal.type).toBe(type);
  });
});

describe("counts", () => {
  test("property: a clock to the second survives a day number of either system", () => {
    fc.assert(
      fc.property(fc.integer({ min: Date.UTC(1904, 0, 2) / 1000, max: Date.UTC(2200, 0, 1) / 1000 }), (seconds) => {
        expect(localFromDayNumber1900(seconds / 86_400 + 25_569)).toBe(seconds * 1000);
        expect(localFromDayNumber1904(seconds / 86_400 + 24_107)).toBe(seconds * 1000);
      }),
    );
  });
  test("seconds with fractions, and what lies outside four-digit years", () => {
    expect([instantFromUnixSeconds(1.0005), instantFromUnixSeconds(-0.25), instantFromUnixMilliseconds(5)]).toEqual([1001, -250, 5]);
    expect([1e15, Number.NaN, Number.POSITIVE_INFINITY].map((count) => instantFromUnixSeconds(count))).toEqual([
      Number.NaN,
      Number.NaN,
      Number.NaN,
    ]);
    expect([localFromDayNumber1904(-1), localFromDayNumber1904(2_957_004)]).toEqual([Number.NaN, Number.NaN]);
  });
});

describe("an end of a shift that a wall clock does not settle", () => {
  const london = answerOf(zoneClock("Europe/London"));
  const local = (...parts: [number, number, number, number, number]) => Date.UTC(...parts) as LocalTime; // a wall clock counted as if on UTC
  test.each([
    ["from the hour that happens twice", local(2025, 9, 26, 1, 30), local(2025, 9, 26, 9, 30), "local-time-happens-twice", "start"],
    ["to the hour that happens twice", local(2025, 9, 25, 17, 30), local(2025, 9, 26, 1, 30), "local-time-happens-twice", "end"],
    ["to the missing hour", local(2025, 2, 29, 17, 30), local(2025, 2, 30, 1, 30), "local-time-does-not-happen", "end"],
  ])("%s", (_name, from, to, type, which) => {
    const span = spanOf({ from, to }, london);
    expect(span.ok || span.refusal).toMatchObject({ type, which });
  });
  test("ends before it starts", () => {
    const span = spanOf({ from: local(2025, 5, 2, 6, 0), to: local(2025, 5, 1, 22, 0) }, london);
    expect(span.ok || span.refusal.type).toBe("ends-before-start");
  });
});
