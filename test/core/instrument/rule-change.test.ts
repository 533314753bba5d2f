import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  type Duty,
  nextWorkingDay,
  type RuleAgreement,
  type RuleChange,
  type RuleSet,
  ruleDifference,
  ruleSetAt,
  rulesOverTime,
} from "../../../src/core/instrument/index.ts";
import { asksLess, ruleSets, someRules } from "./stricter.ts";

describe("which rules hold when", () => {
  const day = (number: number, hour = 10) => Date.UTC(2026, 2, 2 + number, hour); // a Monday, and on
  const people = ["ann", "bob", "cyd"];
  const instants = fc.integer({ min: 0, max: 40 }).map((half) => day(0, half * 12));
  const change = fc.record({
    by: fc.constantFrom(null, ...people),
    settled: instants,
    before: fc.constantFrom(0, 3_600_000, 86_400_000),
    rules: ruleSets,
  });
  const agreement = fc.record({
    by: fc.constantFrom(null, ...people),
    settled: instants,
    of: fc.nat(5),
    duties: fc.subarray<Duty>(["keeper", "administrator", "tester"]),
  });

  /** As a book would number them: in the order in which they were received. */
  const histories = fc
    .tuple(fc.array(change, { minLength: 1, maxLength: 4 }), fc.array(agreement, { maxLength: 5 }))
    .map(([sets, agreed]) => {
      const changes: RuleChange[] = sets
        .sort((one, other) => one.settled - other.settled)
        .map(({ before, ...one }, index) => ({ ...one, number: index + 1, submission: `set-${index}`, earliest: one.settled - before }));
      const agreements: RuleAgreement[] = agreed
        .map(({ of, ...one }) => ({ ...one, change: changes[of % changes.length]?.submission ?? "" }))
        .filter((one) => one.settled >= (changes.find(({ submission }) => submission === one.change)?.settled ?? 0))
        .map((one, index) => ({ ...one, number: 10 + index }));
      return { changes, agreements };
    });

  test("nothing is loosened without another, entitled person, and then not before a working day begins", () => {
    fc.assert(
      fc.property(histories, ({ changes, agreements }) => {
        const course = rulesOverTime(changes, agreements);
        for (const [index, now] of course.entries()) {
          const before = course[index - 1];
          const at = now.from;
          if (before === undefined || asksLess(now.rules, before.rules) === null) continue;
          const set = changes.find(({ number }) => number === now.change);
          const agreed = agreements.filter(
            (one) => one.change === set?.submission && one.by !== null && set.by !== null && one.by !== set.by && one.settled < at,
          );
          expect(agreed.length).toBeGreaterThan(0);
          expect(agreed.some((one) => one.duties.length > 0)).toBe(true);
          // No agreement of the same working day: a working day begins between the agreement and now.
          expect(agreed.some((one) => at - one.settled > 0 && workingDayBegins(one.settled, at, before.rules.zone === "UTC" ? 0 : 1))).toBe(
            true,
          );
        }
      }),
      { numRuns: 300 },
    );
  });

  /** Whether 06:00 or 07:30 of a day from Monday to Friday lies between; the zone is an hour or none ahead. */
  function workingDayBegins(from: number, to: number, ahead: number): boolean {
    for (let at = Math.floor(from / 86_400_000) * 86_400_000; at <= to; at += 86_400_000)
      for (const hour of [6, 7.5]) {
        const begin = at + (hour - ahead) * 3_600_000;
        const weekday = new Date(at).getUTCDay();
        if (begin > from && begin <= to && weekday >= 1 && weekday <= 5) return true;
      }
    return false;
  }

  test("what tightens holds at once", () => {
    fc.assert(
      fc.property(histories, ({ changes }) => {
        for (const one of changes.slice(1)) {
          const at = Math.max(one.earliest, changes[0]?.settled ?? 0);
          const now = ruleSetAt(changes, [], at);
          if (now !== null) expect(ruleDifference(now.rules, one.rules).tightened).toEqual([]);
        }
      }),
      { numRuns: 300 },
    );
  });

  test("the order in which they are handed in has no say", () => {
    fc.assert(
      fc.property(
        histories.chain((one) =>
          fc.tuple(
            fc.constant(one),
            fc.shuffledSubarray(one.changes, { minLength: one.changes.length }),
            fc.shuffledSubarray(one.agreements, { minLength: one.agreements.length }),
          ),
        ),
        ([{ changes, agreements }, shuffled, agreed]) => {
          expect(rulesOverTime(shuffled, agreed)).toEqual(rulesOverTime(changes, agreements));
        },
      ),
      { numRuns: 200 },
    );
  });

  const looser = { ...someRules, repeatMinutes: { ...someRules.repeatMinutes, value: 60 } };
  const tighter = { ...someRules, repeatMinutes: { ...someRules.repeatMinutes, value: 5 } };
  const first: RuleChange = { number: 1, submission: "first", by: "ann", earliest: day(-30), settled: day(-30), rules: someRules };
  const set = (number: number, at: number, rules: RuleSet, more: Partial<RuleChange> = {}): RuleChange => ({
    number,
    submission: `set-${number}`,
    by: "ann",
    earliest: at,
    settled: at,
    rules,
    ...more,
  });
  const agreed = (number: number, of: number, at: number, more: Partial<RuleAgreement> = {}): RuleAgreement => ({
    number,
    change: `set-${of}`,
    by: "bob",
    duties: ["keeper"],
    settled: at,
    ...more,
  });

  // Minutes in force: 15 at first. Asked on Monday, 2 March, 10:00; the working day begins at 06:00.
  test.each<readonly [string, readonly RuleChange[], readonly RuleAgreement[], readonly (readonly [number, number | null])[]]>([
    [
      "before the first rules there are none",
      [first],
      [],
      [
        [day(-31), null],
        [day(-30), 15],
      ],
    ],
    [
      "a first change that was back-dated holds from when the book had it",
      [{ ...first, earliest: 0 }],
      [],
      [
        [day(-31), null],
        [day(-30), 15],
      ],
    ],
    [
      "tightened at once",
      [first, set(2, day(0), tighter)],
      [],
      [
        [day(0) - 1, 15],
        [day(0), 5],
      ],
    ],
    [
      "tightened from the earliest that it can have happened",
      [first, set(2, day(0), tighter, { earliest: day(-2) })],
      [],
      [
        [day(-2) - 1, 15],
        [day(-2), 5],
      ],
    ],
    [
      "not agreed to, never loosened",
      [first, set(2, day(0), looser)],
      [],
      [
        [day(0), 15],
        [day(300), 15],
      ],
    ],
    [
      "agreed to, from the next working day",
      [first, set(2, day(0), looser)],
      [agreed(3, 2, day(0, 11))],
      [
        [day(0, 12), 15],
        [day(1, 6) - 1, 15],
        [day(1, 6), 60],
      ],
    ],
    [
      "agreed to before six in the morning, from six",
      [first, set(2, day(0), looser)],
      [agreed(3, 2, day(1, 5))],
      [
        [day(1, 6) - 1, 15],
        [day(1, 6), 60],
      ],
    ],
    [
      "agreed to as the day begins, from the next",
      [first, set(2, day(0), looser)],
      [agreed(3, 2, day(1, 6))],
      [
        [day(2, 6) - 1, 15],
        [day(2, 6), 60],
      ],
    ],
    [
      "agreed to on a Friday, from Monday",
      [first, set(2, day(4), looser)],
      [agreed(3, 2, day(4, 11))],
      [
        [day(7, 6) - 1, 15],
        [day(7, 6), 60],
      ],
    ],
    ["agreed to by the same person", [first, set(2, day(0), looser)], [agreed(3, 2, day(0, 11), { by: "ann" })], [[day(9), 15]]],
    ["agreed to by nobody", [first, set(2, day(0), looser)], [agreed(3, 2, day(0, 11), { by: null })], [[day(9), 15]]],
    ["asked for by nobody", [first, set(2, day(0), looser, { by: null })], [agreed(3, 2, day(0, 11))], [[day(9), 15]]],
    [
      "agreed to by a tester, who may not",
      [first, set(2, day(0), looser)],
      [agreed(3, 2, day(0, 11), { duties: ["tester"] })],
      [[day(9), 15]],
    ],
    [
      "a newer change takes the place of one that has not begun",
      [first, set(2, day(0), looser), set(4, day(0, 12), someRules)],
      [agreed(3, 2, day(0, 11))],
      [[day(9), 15]],
    ],
    [
      "a newer change tightens what was loosened",
      [first, set(2, day(0), looser), set(4, day(3), tighter)],
      [agreed(3, 2, day(0, 11))],
      [
        [day(2), 60],
        [day(3), 5],
      ],
    ],
    [
      "agreeing to the older of two does nothing",
      [first, set(2, day(0), looser), set(3, day(0, 11), someRules)],
      [agreed(4, 2, day(0, 12))],
      [[day(9), 15]],
    ],
    [
      "agreeing to the older of two does nothing, also where the newer one was back-dated",
      [first, set(2, day(0), looser), set(3, day(1), someRules, { earliest: day(-1) })],
      [agreed(4, 2, day(1, 12))],
      [[day(9), 15]],
    ],
    [
      "agreed to twice, the first one counts",
      [first, set(2, day(0), looser)],
      [agreed(3, 2, day(0, 11)), agreed(4, 2, day(0, 12))],
      [[day(1, 6), 60]],
    ],
    [
      "in a zone that this machine does not know nothing begins",
      [{ ...first, rules: { ...someRules, zone: "Mars/Olympus" } }, set(2, day(0), { ...looser, zone: "Mars/Olympus" })],
      [agreed(3, 2, day(0, 11))],
      [[day(9), 15]],
    ],
  ])("%s", (_, changes, agreements, wanted) => {
    expect(wanted.map(([at]) => [at, ruleSetAt(changes, agreements, at)?.rules.repeatMinutes.value ?? null])).toEqual(wanted);
  });

  test("what waits is named with when it begins", () => {
    const changes = [first, set(2, day(0), looser)];
    expect(ruleSetAt(changes, [], day(0))?.waiting).toEqual({ loosened: ["repeatMinutes"], begins: null });
    expect(ruleSetAt(changes, [agreed(3, 2, day(0, 11))], day(0, 12))?.waiting).toEqual({ loosened: ["repeatMinutes"], begins: day(1, 6) });
    expect(ruleSetAt(changes, [agreed(3, 2, day(0, 11))], day(1, 6))?.waiting).toBeNull();
  });
});

describe("the next working day", () => {
  const site = { zone: "Europe/London", workingDays: ["monday", "tuesday", "sunday"] as const, dayBegins: "01:30" };
  test.each([
    ["where the clock leaves the hour out, after the gap", "2026-03-28T12:00:00Z", site, "2026-03-29T01:00:00.000Z"],
    ["where it has the hour twice, with the second", "2026-10-24T12:00:00Z", site, "2026-10-25T01:30:00.000Z"],
    ["between the two hours, still with the second", "2026-10-25T00:45:00Z", site, "2026-10-25T01:30:00.000Z"],
    ["by summer time", "2026-06-01T00:31:00Z", site, "2026-06-02T00:30:00.000Z"],
    ["six days on", "2026-06-02T00:30:00Z", site, "2026-06-07T00:30:00.000Z"],
    [
      "on the one working day, a week on",
      "2026-06-01T09:00:00Z",
      { ...site, workingDays: ["monday"] as const },
      "2026-06-08T00:30:00.000Z",
    ],
    [
      "of a zone ahead by hours and three quarters",
      "2026-06-01T00:00:00Z",
      { ...site, zone: "Asia/Kathmandu", dayBegins: "06:00" },
      "2026-06-01T00:15:00.000Z",
    ],
    [
      "before 1970",
      "1969-12-30T09:00:00Z",
      { ...site, zone: "UTC", workingDays: ["thursday"] as const, dayBegins: "00:00" },
      "1970-01-01T00:00:00.000Z",
    ],
  ])("%s", (_, after, place, wanted) => {
    const begin = nextWorkingDay(Date.parse(after), place);
    expect(begin === null ? null : new Date(begin).toISOString()).toBe(wanted);
  });

  test("without a working day or a zone there is none", () => {
    expect(nextWorkingDay(0, { ...site, workingDays: [] })).toBeNull();
    expect(nextWorkingDay(0, { ...site, zone: "Mars/Olympus" })).toBeNull();
  });
});
