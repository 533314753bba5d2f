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
  ["PT0S/PT8H", elapsed, 8],
] as const)("%s on %j lasts %d h", (text, clock, hours) => {
  const placed = placedShifts([text], clock);
  if (!placed.ok) throw new Error(placed.refusal.why);
  expect(placed.value.map(({ from, to }) => (to - from) / HOUR)).toEqual([hours]);
});

test.each([
  ["06:00/14:00", london, "form"],
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
