import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { localAt, type SeriesNote, steadySeriesInstants, type ZoneClock, zoneClock } from "../../../src/core/time/index.ts";
import { answerOf } from "../../cases/golden-rows.ts";

const london = answerOf(zoneClock("Europe/London"));
/** Wall clocks of 26 October 2025 in London, where 01:00 to 02:00 happens twice. */
const rows = (texts: string, day = "2025-10-26"): Float64Array =>
  Float64Array.from(texts.split(" "), (text) =>
    text === "-" ? Number.NaN : Date.parse(`${day}T${text.length === 5 ? `${text}:00` : text}Z`),
  );
const clockTimes = (instants: Float64Array): string =>
  [...instants].map((instant) => (Number.isNaN(instant) ? "-" : new Date(instant).toISOString().slice(11, 16))).join(" ");
const kinds = (notes: readonly SeriesNote[]) => notes.map((note) => note.type);

describe("the repeated hour by order", () => {
  test.each([
    ["no row in it", "00:10 00:30 00:50 02:10", "23:10 23:30 23:50 02:10", null],
    ["a fall inside", "00:45 01:15 01:45 01:15 01:45 02:15", "23:45 00:15 00:45 01:15 01:45 02:15", 3],
    ["a log that begins in it and falls", "01:20 01:40 01:00 01:20 01:40 02:00", "00:20 00:40 01:00 01:20 01:40 02:00", 2],
    ["a log that ends in it after a fall", "00:40 01:00 01:20 01:40 01:00 01:20", "23:40 00:00 00:20 00:40 01:00 01:20", 4],
    ["begins in the second passage: the step goes on", "01:20 01:40 02:00 02:20 02:40 03:00", "01:20 01:40 02:00 02:20 02:40 03:00", 0],
    ["ends in the first passage: the step goes on", "00:00 00:20 00:40 01:00 01:20 01:40", "23:00 23:20 23:40 00:00 00:20 00:40", 6],
    ["hourly, the same time twice", "22:30 23:30 00:30 01:30 01:30 02:30", "21:30 22:30 23:30 00:30 01:30 02:30", 4],
    ["an unreadable row inside", "00:40 01:00 - 01:40 01:00 01:20 01:40 02:00", "23:40 00:00 - 00:40 01:00 01:20 01:40 02:00", 4],
  ])("%s", (_name, local, utc, laterFromRow) => {
    const texts = local.split(" ");
    // Times of the evening before stand on the day before.
    const locals = rows(local);
    texts.forEach((text, row) => {
      if (text > "22:00") locals[row] = (locals[row] as number) - 86_400_000; // the row is there
    });
    const read = steadySeriesInstants(locals, london, null);
    expect(clockTimes(read.instants)).toBe(utc);
    expect(read.notes.map((note) => (note.type === "repeated-hour-resolved-by-order" ? note.laterFromRow : note))).toEqual(
      laterFromRow === null ? [] : [laterFromRow],
    );
  });
});

describe("what order does not settle is left open and told", () => {
  test.each([
    ["a single reading", "00:30 01:30 02:30", true, false],
    ["a single reading alone", "01:30", true, false],
    ["uneven steps", "00:05 00:52 01:10 01:11 01:50 03:40", false, false],
    [
      "a steady row that passes once, as a logger on fixed time would",
      "00:00 00:20 00:40 01:00 01:20 01:40 02:00 02:20 02:40",
      false,
      true,
    ],
    ["two falls", "00:40 01:00 01:40 01:10 01:50 01:20 02:00", false, false],
  ])("%s", (_name, local, isSingle, passesOnce) => {
    const read = steadySeriesInstants(rows(local), london, null);
    expect(kinds(read.notes)).toEqual(["repeated-hour-not-settled"]);
    const note = read.notes[0] as Extract<SeriesNote, { type: "repeated-hour-not-settled" }>; // its kind was just checked
    expect(note).toMatchObject({ isSingle, passesOnce });
    expect(note.later - note.earlier).toBe(3_600_000);
    const open = [...read.instants].map((instant, row) => (Number.isNaN(instant) ? row : -1)).filter((row) => row >= 0);
    expect(open).toEqual(Array.from({ length: note.toRow - note.fromRow }, (_, index) => note.fromRow + index));
  });

  test.each([
    ["earlier", "23:30 00:30 02:30"],
    ["later", "23:30 01:30 02:30"],
  ] as const)("a person says: %s", (answer, utc) => {
    const read = steadySeriesInstants(rows("00:30 01:30 02:30"), london, answer);
    expect([clockTimes(read.instants), kinds(read.notes)]).toEqual([utc, ["repeated-hour-not-settled"]]);
  });

  test("an answer does not overrule what order settles", () => {
    const local = rows("00:45 01:15 01:45 01:15 01:45 02:15");
    expect(clockTimes(steadySeriesInstants(local, london, "later").instants)).toBe(
      clockTimes(steadySeriesInstants(local, london, null).instants),
    );
  });

  test("times in the missing hour: the logger ran on fixed time", () => {
    const read = steadySeriesInstants(rows("00:30 01:00 01:30 02:00", "2025-03-30"), london, null);
    expect(clockTimes(read.instants)).toBe("00:30 - - 01:00");
    expect(read.notes).toEqual([{ type: "times-in-the-missing-hour", fromRow: 1, toRow: 3, offsetBefore: 0, offsetAfter: 3_600_000 }]);
  });
});

/** Instants at which a zone puts its clocks back, 1995 to 2030, found hour by hour. */
function fallsOf(zone: string): readonly { readonly clock: ZoneClock; readonly at: number }[] {
  const clock = answerOf(zoneClock(zone));
  const falls: { readonly clock: ZoneClock; readonly at: number }[] = [];
  for (let at = Date.UTC(1995, 0, 1); at < Date.UTC(2031, 0, 1); at += 1_800_000) {
    if (clock.offsetAt(at) < clock.offsetAt(at - 1_800_000)) falls.push({ clock, at });
  }
  return falls;
}

test("property: a steady log on the zone's own clock comes back whole through every night on which clocks go back", () => {
  const falls = ["Europe/London", "America/New_York", "Australia/Lord_Howe", "America/Sao_Paulo", "Pacific/Chatham"].flatMap(fallsOf);
  expect(falls.length).toBeGreaterThan(100);
  const around = fc.record({
    fall: fc.constantFrom(...falls),
    before: fc.integer({ min: 4 * 3600, max: 20 * 3600 }),
    after: fc.integer({ min: 4 * 3600, max: 20 * 3600 }),
    step: fc.integer({ min: 1, max: 600 }),
  });
  fc.assert(
    fc.property(around, ({ fall: { clock, at }, before, after, step }) => {
      const start = at - before * 1000;
      const instants = Float64Array.from({ length: Math.ceil((before + after) / step) }, (_, row) => start + row * step * 1000);
      const read = steadySeriesInstants(
        instants.map((instant) => localAt(instant, clock)),
        clock,
        null,
      );
      expect(kinds(read.notes)).toEqual(["repeated-hour-resolved-by-order"]);
      expect(read.instants).toEqual(instants);
    }),
    { numRuns: 200 },
  );
});

test("property: a steady log that begins or ends anywhere in that night is right wherever it is settled", () => {
  const falls = ["Europe/London", "America/New_York", "Australia/Lord_Howe"].flatMap(fallsOf);
  const around = fc.record({
    fall: fc.constantFrom(...falls),
    from: fc.integer({ min: -7200, max: 7200 }),
    rows: fc.integer({ min: 1, max: 60 }),
    step: fc.integer({ min: 1, max: 600 }),
  });
  fc.assert(
    fc.property(around, ({ fall: { clock, at }, from, rows: count, step }) => {
      const instants = Float64Array.from({ length: count }, (_, row) => at + (from + row * step) * 1000);
      const read = steadySeriesInstants(
        instants.map((instant) => localAt(instant, clock)),
        clock,
        null,
      );
      expect([...read.instants].map((instant, row) => (Number.isNaN(instant) ? instants[row] : instant))).toEqual([...instants]);
      expect(read.instants.some(Number.isNaN)).toBe(kinds(read.notes).includes("repeated-hour-not-settled"));
    }),
    { numRuns: 1000 },
  );
});

test("hostile rows cost no squares: a million rows that jump between the two hours", () => {
  const locals = Float64Array.from({ length: 1_000_000 }, (_, row) =>
    row % 2 === 0 ? Date.UTC(2025, 9, 26, 1, 30) : Date.UTC(2025, 2, 30, 1, 30),
  );
  const read = steadySeriesInstants(locals, london, null);
  expect([read.notes.length, read.instants.every(Number.isNaN)]).toEqual([1_000_000, true]);
});
