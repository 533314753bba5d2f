import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  columnInstants,
  dayOf,
  type Instant,
  instantsOf,
  localAt,
  nearZoneNames,
  readRfc9557,
  rfc9557FromInstant,
  type ZoneClock,
  zoneClock,
} from "../../../src/core/time/index.ts";
import { answerOf } from "../../cases/golden-rows.ts";

const zones = [
  "Europe/London",
  "Europe/Dublin",
  "America/New_York",
  "America/Sao_Paulo",
  "America/St_Johns",
  "Australia/Lord_Howe",
  "Australia/Adelaide",
  "Asia/Kathmandu",
  "Asia/Tehran",
  "Africa/Casablanca",
  "Pacific/Apia",
  "Pacific/Chatham",
  "Antarctica/Troll",
  "America/Havana",
];
const clocks = new Map<string, ZoneClock>(zones.map((zone) => [zone, answerOf(zoneClock(zone))]));
const clockOf = (zone: string): ZoneClock => clocks.get(zone) as ZoneClock; // every zone asked for is in the list

/** The machine's own answer, by another way: its formatted parts. */
const formats = new Map(
  zones.map((zone) => [
    zone,
    new Intl.DateTimeFormat("en-GB", {
      ...{ timeZone: zone, hourCycle: "h23", year: "numeric", month: "numeric", day: "numeric" },
      ...{ hour: "numeric", minute: "numeric", second: "numeric" },
    } as const),
  ]),
);
function localByFormat(instant: number, zone: string): number {
  const parts = Object.fromEntries((formats.get(zone)?.formatToParts(instant) ?? []).map(({ type, value }) => [type, Number(value)]));
  return Date.UTC(parts.year ?? 0, (parts.month ?? 0) - 1, parts.day ?? 0, parts.hour ?? 0, parts.minute ?? 0, parts.second ?? 0);
}

const anyZone = fc.constantFrom(...zones);
/** Whole seconds from 1972 to 2037; before 1972 some offsets were not of whole minutes. */
const anyInstant = fc.integer({ min: 63_072_000, max: 2_145_916_800 }).map((seconds) => seconds * 1000);
/** Near a clock change: one of the offset's changes of the zone, give or take two hours. */
const nearChange = fc
  .tuple(anyZone, fc.integer({ min: 1972, max: 2037 }), fc.integer({ min: -7200, max: 7200 }))
  .map(([zone, year, seconds]) => {
    const clock = clockOf(zone);
    const from = Date.UTC(year, 0, 1);
    for (let at = from; at < from + 366 * 86_400_000; at += 86_400_000) {
      if (clock.offsetAt(at) === clock.offsetAt(at + 86_400_000)) continue;
      let [low, high] = [at, at + 86_400_000];
      while (high - low > 1000) {
        const middle = Math.floor((low + high) / 2000) * 1000;
        if (clock.offsetAt(middle) === clock.offsetAt(at)) low = middle;
        else high = middle;
      }
      return { zone, instant: high + seconds * 1000 };
    }
    return { zone, instant: from + seconds * 1000 };
  });
const anyMoment = fc.oneof(fc.record({ zone: anyZone, instant: anyInstant }), nearChange);

test("property: offsets are those of the machine's own calendar", () => {
  fc.assert(
    fc.property(anyMoment, ({ zone, instant }) => {
      expect(localAt(instant, clockOf(zone))).toBe(localByFormat(instant, zone));
    }),
    { numRuns: 3000 },
  );
});

test("property: an instant is among the instants of its local time", () => {
  fc.assert(
    fc.property(anyMoment, ({ zone, instant }) => {
      const found = instantsOf(localAt(instant, clockOf(zone)), clockOf(zone));
      expect(found.kind === "one" ? [found.instant] : found.kind === "two" ? [found.earlier, found.later] : []).toContain(instant);
    }),
    { numRuns: 3000 },
  );
});

test("property: the instants of any local time show that local time, and around a missing one the clock jumps over it", () => {
  fc.assert(
    fc.property(anyMoment, ({ zone, instant }) => {
      const clock = clockOf(zone);
      const local = instant; // any number of milliseconds is some wall clock's
      const found = instantsOf(local, clock);
      if (found.kind === "one") expect(localByFormat(found.instant, zone)).toBe(local);
      if (found.kind === "two") {
        expect([localByFormat(found.earlier, zone), localByFormat(found.later, zone)]).toEqual([local, local]);
        expect(found.later).toBeGreaterThan(found.earlier);
      }
      if (found.kind === "none") {
        expect(localByFormat(found.lastSecondBefore, zone)).toBeLessThan(local);
        expect(localByFormat(found.firstAfter, zone)).toBeGreaterThan(local);
        expect(found.firstAfter - found.lastSecondBefore).toBe(1000);
      }
    }),
    { numRuns: 3000 },
  );
});

test("property: RFC 9557 text reads back as the same instant and zone", () => {
  fc.assert(
    fc.property(anyMoment, ({ zone, instant }) => {
      const text = rfc9557FromInstant(instant as Instant, clockOf(zone));
      expect(answerOf(readRfc9557(text))).toMatchObject({ instant, zone: clockOf(zone).zone });
    }),
  );
});

test("property: a column says what single times say", () => {
  fc.assert(
    fc.property(anyZone, fc.array(fc.oneof(anyInstant, fc.constant(Number.NaN)), { maxLength: 50 }), (zone, locals) => {
      const clock = clockOf(zone);
      const instants = new Float64Array(locals.length);
      const seams = columnInstants(Float64Array.from(locals), clock, instants);
      const single = locals.map((local) => (Number.isNaN(local) ? null : instantsOf(local, clock)));
      expect([...instants]).toEqual(single.map((found) => (found?.kind === "one" ? found.instant : Number.NaN)));
      expect(seams).toEqual({
        twice: single.filter((found) => found?.kind === "two").length,
        missing: single.filter((found) => found?.kind === "none").length,
      });
    }),
  );
});

describe("zones that a table of rules is easily wrong about", () => {
  test("Samoa left out 30 December 2011", () => {
    const clock = clockOf("Pacific/Apia");
    const hours = [29, 30, 31].map((day) => dayOf({ year: 2011, month: 12, day }, clock)).map(({ from, to }) => (to - from) / 3_600_000);
    expect(hours).toEqual([24, 0, 24]);
    expect(instantsOf(Date.UTC(2011, 11, 30, 12), clock).kind).toBe("none");
  });
  test("Sao Paulo began summer time at midnight, so that a day began at one", () => {
    const day = dayOf({ year: 2018, month: 11, day: 4 }, clockOf("America/Sao_Paulo"));
    expect([new Date(day.from).toISOString(), (day.to - day.from) / 3_600_000]).toEqual(["2018-11-04T03:00:00.000Z", 23]);
  });
  test("Havana's midnight happened twice", () => {
    const day = dayOf({ year: 2023, month: 11, day: 5 }, clockOf("America/Havana"));
    expect((day.to - day.from) / 3_600_000).toBe(25);
  });
  test("an offset of odd seconds is written with Z", () => {
    const monrovia = answerOf(zoneClock("Africa/Monrovia"));
    expect(monrovia.offsetAt(0)).toBe(-2_670_000);
    expect(rfc9557FromInstant(0 as Instant, monrovia)).toBe("1970-01-01T00:00:00Z[Africa/Monrovia]");
  });
});

describe("names", () => {
  test.each([
    ["europe/london", "Europe/London"],
    ["Z", "UTC"],
    ["UTC", "UTC"],
    ["+05:45", "+05:45"],
    ["-03:30", "-03:30"],
  ])("%s is %s", (text, zone) => expect(answerOf(zoneClock(text)).zone).toBe(zone));
  test.each([
    ["Europe/Lundon", "Europe/London"],
    ["london", "Europe/London"],
    ["America/New York", "America/New_York"],
    ["Asia/Kathmandoo", "Asia/Katmandu"],
  ])("%s is unknown, and %s is near", (text, near) => {
    const read = zoneClock(text);
    expect(read.ok ? [] : read.refusal.near).toContain(near);
  });
  test.each(["", "BST", "+25:00", "Marl Beck", "Europe", "\u0000", "x".repeat(100_000)])("%j is refused", (text) =>
    expect(zoneClock(text).ok).toBe(false),
  );
  test("no name is offered for a text without letters", () => expect(nearZoneNames("   ")).toEqual([]));
});
