import { describe, expect, test } from "vitest";
import { clockOf } from "../../src/web/parts/clock.ts";
import { typedTime } from "../../src/web/parts/dates.ts";
import { ticksOf } from "../../src/web/recording/ticks.ts";

const london = clockOf({ kind: "instants", zone: "Europe/London" });
const elapsed = clockOf({ kind: "elapsed" });
const july = Date.UTC(2026, 6, 1, 6, 0, 0);

describe("times on the clock of a recording", () => {
  test.each([
    ["10:36", july, "2026-07-01T09:36:00.000Z"],
    ["10:36:20", july, "2026-07-01T09:36:20.000Z"],
    ["2026-11-24 10:36", july, "2026-11-24T10:36:00.000Z"],
  ])("%s is read in the zone of the file", (text, near, instant) => {
    const read = typedTime(text, london, near);
    expect(read === null ? null : new Date(read).toISOString()).toBe(instant);
  });

  test.each([["25:99"], ["half past ten"], [""], ["10:75"]])("%j is no time", (text) => {
    expect(typedTime(text, london, july)).toBeNull();
  });

  test("an hour that the clock skips, or shows twice, is no time", () => {
    expect(typedTime("2026-03-29 01:30", london, july)).toBeNull();
    expect(typedTime("2026-10-25 01:30", london, july)).toBeNull();
  });

  test("elapsed times count from the start and are written so", () => {
    expect(typedTime("00:32:24", elapsed, 0)).toBe(1_944_000);
    expect(elapsed.time(1_943_500)).toBe("00:32:23");
    expect(elapsed.ms("PT1943.5S")).toBe(1_943_500);
    expect(elapsed.text(1_943_500)).toBe("PT1943.5S");
  });

  test("dates and clock times are those of the zone", () => {
    expect(london.time(july)).toBe("07:00:00");
    expect(london.date(july)).toBe("Wed 1 Jul 2026");
  });

  test("ticks are round times of the zone, also where it is not whole hours off", () => {
    const kathmandu = clockOf({ kind: "instants", zone: "Asia/Kathmandu" });
    const labels = ticksOf({ from: july, to: july + 4 * 3_600_000 }, kathmandu, 6).map((tick) => tick.label);
    expect(labels).toEqual(["12:00", "13:00", "14:00", "15:00"]);
  });
});
