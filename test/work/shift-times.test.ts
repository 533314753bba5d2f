import { expect, test } from "vitest";
import { type FileClock, placedShifts } from "../../src/work/shift-times.ts";

const london: FileClock = { kind: "instants", zone: "Europe/London" };
const noZone: FileClock = { kind: "instants", zone: null };
const elapsed: FileClock = { kind: "elapsed" };
const HOUR = 3_600_000;

test.each([
  ["2026-03-04T06:00:00Z/2026-03-04T14:00:00Z", noZone, 8],
  ["2026-03-04T06:00:00+01:00/2026-03-04T14:00:00+01:00", london, 8],
  ["2026-03-04T06:00/2026-03-04T14:00", london, 8],
  ["2026-03-04 06:00/2026-03-04 02:00 PM", london, 8],
  // Clocks go back at 01:00 UTC on 2025-10-26 in London: the night has 9 h (IANA time zone database).
  ["2025-10-25T22:00/2025-10-26T06:00", london, 9],
  ["2025-03-29T22:00/2025-03-30T06:00", london, 7],
  ["2026-03-04T06:00Z/2026-03-04T15:00+01:00", noZone, 8],
  ["0/28800", elapsed, 8],
  ["-500/28300", elapsed, 8],
  ["0/86400", elapsed, 24],
  ["PT0S/PT8H", elapsed, 8],
] as const)("%s on %j lasts %d h", (text, clock, hours) => {
  const placed = placedShifts([text], clock);
  if (!placed.ok) throw new Error(placed.refusal.type);
  expect(placed.value.map(({ from, to }) => (to - from) / HOUR)).toEqual([hours]);
});

test.each([
  ["06:00-14:00", london, "form"],
  ["06:00/14:00", london, "no date"],
  ["06:00/14:00", noZone, "no zone"],
  ["06:00/14:00", elapsed, "counts from its own start"],
  ["2026-03-04T06:00:00Z", london, "form"],
  ["2026-02-31T06:00/2026-03-04T14:00", london, "form"],
  ["2026-03-04T06:00/2026-03-04T14:00", noZone, "no zone"],
  ["2026-03-04T06:00/2026-03-04T14:00", elapsed, "counts from its own start"],
  ["0/28800", london, "has instants"],
  ["2025-10-26T01:30/2025-10-26T06:00", london, "clock change"],
  ["2025-03-30T01:30/2025-03-30T06:00", london, "clock change"],
] as const)("%s on %j is refused: %s", (text, clock, why) => {
  expect(placedShifts([text], clock)).toEqual({ ok: false, refusal: { type: "shift-not-readable", text, why } });
});

const at = (text: string): number => Date.parse(text);
const early = { from: at("2026-03-04T05:50:00Z"), to: at("2026-03-04T14:10:00Z") };
const night = { from: at("2026-03-04T21:55:00Z"), to: at("2026-03-05T06:05:00Z") };
// Clocks go forward in London at 01:00 UTC on 2026-03-29.
const springNight = { from: at("2026-03-28T21:00:00Z"), to: at("2026-03-29T05:00:00Z") };
test.each([
  ["06:00/14:00", early, "2026-03-04T06:00:00Z", "2026-03-04T14:00:00Z"],
  ["6:00 AM/2:00 PM", early, "2026-03-04T06:00:00Z", "2026-03-04T14:00:00Z"],
  ["22:00/06:00", night, "2026-03-04T22:00:00Z", "2026-03-05T06:00:00Z"],
  ["00:00/06:00", night, "2026-03-05T00:00:00Z", "2026-03-05T06:00:00Z"],
  ["22:00/06:00", springNight, "2026-03-28T22:00:00Z", "2026-03-29T05:00:00Z"],
  // A recording of the small hours belongs to the shift that began on the evening before.
  ["22:00/06:00", { from: at("2026-03-05T01:00:00Z"), to: at("2026-03-05T05:00:00Z") }, "2026-03-04T22:00:00Z", "2026-03-05T06:00:00Z"],
])("%s is of the day that the rows are on", (text, span, from, to) => {
  expect(placedShifts([text], london, span)).toEqual({ ok: true, value: [{ from: at(from), to: at(to) }] });
});

test.each([
  ["two days of rows", { from: at("2026-03-04T05:00:00Z"), to: at("2026-03-05T15:00:00Z") }],
  ["a week of rows", { from: at("2026-03-04T05:00:00Z"), to: at("2026-03-11T05:00:00Z") }],
])("clock times alone do not say which day of %s is meant", (_, span) => {
  expect(placedShifts(["06:00/14:00"], london, span)).toMatchObject({ ok: false, refusal: { why: "several days" } });
});

test("a shift is 24 h at most", () => {
  expect(placedShifts(["2026-03-04T06:00Z/2026-03-06T06:00Z"], noZone)).toEqual({
    ok: false,
    refusal: { type: "shift-longer-than-a-day", hours: 48 },
  });
});
