import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { limitsFor, PUBLISHED_REGIMES, substances } from "../../../src/core/gas/index.ts";
import {
  BINDING_TEXTS,
  type Duty,
  firstRules,
  isNoLonger,
  nextWorkingDay,
  type Period,
  periodsAsked,
  type RuleAgreement,
  type RuleChange,
  type RuleSet,
  ruleDifference,
  ruleSetAt,
  rulesOverTime,
  sayable,
  unknownTexts,
  wallsMet,
} from "../../../src/core/instrument/index.ts";
import { asksLess, neverLonger, periods, ruleSets, someRules } from "./stricter.ts";

describe("which of two periods lasts longer", () => {
  test("never longer means that it runs out no later, whenever it begins", () => {
    fc.assert(
      fc.property(periods, periods, (period, other) => {
        if (isNoLonger(period, other)) expect(neverLonger(period, other)).toBe(true);
      }),
      { numRuns: 400 },
    );
  });

  test("what is no longer than a second one is no longer than what that is no longer than", () => {
    fc.assert(
      fc.property(periods, periods, periods, (one, two, three) => {
        if (isNoLonger(one, two) && isNoLonger(two, three)) expect(isNoLonger(one, three)).toBe(true);
      }),
      { numRuns: 3000 },
    );
  });

  // In UTC no day has 23 or 25 hours: the pairs at that edge are left out.
  const said: readonly Period[] = [
    ...[8, 22, 49, 700].map((hours): Period => ({ form: "hours", hours })),
    ...[1, 27, 28, 29, 31, 32, 181, 184, 365, 366].map((days): Period => ({ form: "days", days })),
    ...[1, 6, 12].map((months): Period => ({ form: "months", months })),
  ];
  test.each(said.flatMap((period) => said.map((other) => [period, other] as const)))(
    "%j, %j: it is said wherever it holds",
    (period, other) => {
      expect(isNoLonger(period, other)).toBe(neverLonger(period, other));
    },
  );

  test.each([
    [{ form: "each-shift" }, { form: "working-day" }, false],
    [{ form: "working-day" }, { form: "each-shift" }, false],
    [{ form: "each-use" }, { form: "hours", hours: 1 }, true],
    [{ form: "hours", hours: 1 }, { form: "each-use" }, false],
    [{ form: "working-day" }, { form: "hours", hours: 24 }, false],
    [{ form: "working-day" }, { form: "hours", hours: 25 }, true],
    [{ form: "hours", hours: 23 }, { form: "days", days: 1 }, true],
    [{ form: "hours", hours: 24 }, { form: "days", days: 1 }, false],
  ] as const)("%j is no longer than %j: %s", (period, other, wanted) => {
    expect(isNoLonger(period, other)).toBe(wanted);
  });
});

describe("what a change tightens and loosens", () => {
  test("the strictest asks no less than what was before", () => {
    fc.assert(
      fc.property(ruleSets, ruleSets, (before, after) => {
        expect(asksLess(ruleDifference(before, after).strictest, before)).toBeNull();
      }),
    );
  });

  test("what is not named as loosened is asked as the change asks it", () => {
    fc.assert(
      fc.property(ruleSets, ruleSets, (before, after) => {
        const { strictest, loosened } = ruleDifference(before, after);
        const less = asksLess(strictest, after);
        if (less !== null)
          expect(loosened.some((name) => name.startsWith(less) || less.startsWith(name) || less === "dayBegins")).toBe(true);
        if (loosened.length === 0) expect(less).toBeNull();
      }),
    );
  });

  test("without a change there is none, and what is strictest stays so", () => {
    fc.assert(
      fc.property(ruleSets, ruleSets, (before, after) => {
        expect(ruleDifference(before, before)).toMatchObject({ tightened: [], loosened: [] });
        const { strictest } = ruleDifference(before, after);
        expect(ruleDifference(before, strictest).loosened).toEqual([]);
        expect(ruleDifference(strictest, after).tightened).toEqual([]);
      }),
    );
  });

  const point = (rules: RuleSet) => rules.setPoints.find(({ gas }) => gas === "carbon_monoxide") ?? rules.setPoints[0];
  const withPoints = (change: (row: RuleSet["setPoints"][number]) => RuleSet["setPoints"][number]): RuleSet => ({
    ...someRules,
    setPoints: someRules.setPoints.map((row) => (row === point(someRules) ? change(row) : row)),
  });
  const low = (digits: string, more: object = {}) =>
    withPoints((row) => ({
      ...row,
      points: row.points.map((one) => (one.name === "low" ? { ...one, ...more, value: { ...one.value, digits } } : one)),
    }));
  const oxygenLow = (digits: string): RuleSet => ({
    ...someRules,
    setPoints: someRules.setPoints.map((row) =>
      row.gas === "oxygen"
        ? { ...row, points: row.points.map((one) => (one.direction === "falling" ? { ...one, value: { ...one.value, digits } } : one)) }
        : row,
    ),
  });
  const source = { title: "Site", place: "", mark: "own" as const };

  test.each<readonly [string, RuleSet, readonly string[], readonly string[]]>([
    ["a lower alarm", low("10"), ["setPoints.carbon_monoxide"], []],
    ["a higher alarm", low("30"), [], ["setPoints.carbon_monoxide"]],
    ["an alarm in another unit", low("10", { value: undefined, direction: "falling" }), [], ["setPoints.carbon_monoxide"]],
    ["an earlier alarm of oxygen", oxygenLow("20.0"), ["setPoints.oxygen"], []],
    ["a later alarm of oxygen", oxygenLow("19.0"), [], ["setPoints.oxygen"]],
    [
      "an alarm less",
      withPoints((row) => ({ ...row, points: row.points.slice(1), raisedByGasTest: [] })),
      [],
      ["setPoints.carbon_monoxide"],
    ],
    [
      "one alarm lower, another higher",
      withPoints((row) => ({
        ...row,
        points: row.points.map((one) => ({ ...one, value: { ...one.value, digits: one.name === "low" ? "15" : "200" } })),
      })),
      ["setPoints.carbon_monoxide"],
      ["setPoints.carbon_monoxide"],
    ],
    [
      "other alarms for one kind of sensor",
      {
        ...someRules,
        setPoints: [...someRules.setPoints, { ...low("200").setPoints[1], sensorKind: "infrared" } as RuleSet["setPoints"][number]],
      },
      ["setPoints.carbon_monoxide.infrared"],
      ["setPoints.carbon_monoxide.infrared"],
    ],
    ["the test of a gas in another zone", { ...someRules, zone: "Europe/London" }, [], ["zone"]],
    [
      "another gas allowed",
      { ...someRules, substitutes: [{ gas: "benzene", sensorKind: null, component: "isobutylene", readsAs: null, source }] },
      [],
      ["substitutes.benzene.isobutylene"],
    ],
    ["a law less", { ...someRules, bindingTexts: [] }, [], []],
    [
      "a rule no longer asked",
      { ...someRules, rules: { ...someRules.rules, "gas-test": { ...someRules.rules["gas-test"], isAsked: false } } },
      [],
      ["rules.gas-test"],
    ],
    [
      "a rule asked anew",
      { ...someRules, rules: { ...someRules.rules, "calibration-check": { ...someRules.rules["calibration-check"], isAsked: true } } },
      ["rules.calibration-check"],
      [],
    ],
    ["the same with another source", { ...someRules, repeatMinutes: { ...someRules.repeatMinutes, source } }, [], []],
    ["shifts in another order", { ...someRules, workingDays: [...someRules.workingDays].reverse() }, [], []],
  ])("%s", (_, after, tightened, loosened) => {
    expect(ruleDifference(someRules, after)).toMatchObject({ tightened, loosened });
  });

  test("a law that bound and binds no more is a loosening", () => {
    const bound = { ...someRules, bindingTexts: ["us-30-cfr-75-320"] };
    expect(ruleDifference(bound, someRules)).toMatchObject({ tightened: [], loosened: ["bindingTexts.us-30-cfr-75-320"] });
  });
});

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

describe("walls", () => {
  const mine = (codes: readonly string[]): RuleSet => ({ ...someRules, bindingTexts: codes });
  const months = (count: number): Period => ({ form: "months", months: count });

  test.each([
    [
      "30 CFR 75.320(a): methane, at least once every 31 days [read]",
      ["us-30-cfr-75-320"],
      "calibration",
      "methane",
      [months(6), { form: "days", days: 31 }],
    ],
    [
      "30 CFR 75.320(b): oxygen, at the start of each shift [read]",
      ["us-30-cfr-75-320"],
      "calibration",
      "oxygen",
      [months(6), { form: "each-shift" }],
    ],
    ["30 CFR 75.320 says nothing of carbon monoxide [read]", ["us-30-cfr-75-320"], "calibration", "carbon_monoxide", [months(6)]],
    ["where that text is not chosen it does not bind", [], "calibration", "methane", [months(6)]],
    [
      "DGUV Vorschrift 21 section 36: before every use [read]",
      ["de-dguv-vorschrift-21"],
      "gas-test",
      "methane",
      [{ form: "working-day" }, { form: "each-use" }],
    ],
    ["a text of another release adds nothing", ["xx-2031"], "calibration", "methane", [months(6)]],
  ] as const)("%s", (_, codes, rule, gas, wanted) => {
    expect(periodsAsked(mine(codes), rule, gas, null)).toEqual(wanted);
  });

  test("a wall holds though the rule is not asked for", () => {
    const none = {
      ...mine(["us-30-cfr-75-320"]),
      rules: { ...someRules.rules, calibration: { ...someRules.rules.calibration, isAsked: false } },
    };
    expect(periodsAsked(none, "calibration", "methane", null)).toEqual([{ form: "days", days: 31 }]);
    expect(wallsMet(none)).toHaveLength(2);
  });

  test("a maker's wall concerns its model, and every instrument whose model is not known", () => {
    const model = "7d1e2f30-4152-4637-8859-6a7b8c9dae0f";
    const wall = {
      rule: "calibration" as const,
      gas: null,
      model,
      longest: { form: "days" as const, days: 90 },
      source: { title: "Manual", place: "p. 7", mark: "read" as const },
    };
    const rules = { ...someRules, walls: [wall] };
    expect([model, "other", null].map((one) => periodsAsked(rules, "calibration", "methane", one).length)).toEqual([2, 1, 2]);
  });

  test("texts that this release does not know are named, and every text that it knows has walls with a source", () => {
    expect(unknownTexts(mine(["us-30-cfr-75-320", "xx-2031"]))).toEqual(["xx-2031"]);
    for (const { walls } of BINDING_TEXTS) for (const { source } of walls) expect(source.title).not.toBe("");
    expect(new Set(BINDING_TEXTS.map(({ code }) => code)).size).toBe(BINDING_TEXTS.length);
  });
});

describe("the first rules", () => {
  const now = "2026-03-04T07:31:00.000Z";
  const gases = substances.map(({ id }) => id);

  describe.each(PUBLISHED_REGIMES.map(({ id }) => id))("%s", (regime) => {
    const { rules, unset } = firstRules({ zone: "Europe/London", regime, gases });

    test("can be said as they are, and need nobody's agreement", () => {
      const happened = { earliest: now, latest: now, basis: "typed" as const };
      expect(sayable({ kind: "rules-set", happened, by: null, subjects: [], restsOn: [], body: { rules }, private: null })).toMatchObject({
        ok: true,
      });
    });

    test("every setting names where it is from", () => {
      const sources = [...JSON.stringify(rules).matchAll(/"title":"([^"]*)"/g)].map(([, title]) => title);
      expect(sources.length).toBeGreaterThan(100);
      expect(sources.filter((title) => title === "")).toEqual([]);
    });

    test("a gas that harms below its explosive limit has no alarm in parts of that", () => {
      const inLel = rules.setPoints
        .filter(({ points }) => points.some(({ value }) => value.kind === "fraction-of-lel"))
        .map(({ gas }) => gas);
      expect(inLel).toContain("methane");
      expect(inLel).not.toContain("hydrogen_sulphide");
      const limited = inLel.filter((gas) => PUBLISHED_REGIMES.some(({ id }) => limitsFor(gas, id, { on: null }).status === "limits"));
      expect(limited).toEqual([]);
    });

    test("no momentary alarm lies above every limit of its gas in ppm", () => {
      for (const { gas, points } of rules.setPoints) {
        const answer = limitsFor(gas, regime, { on: null });
        if (answer.status !== "limits") continue;
        const highest = Math.max(
          ...answer.limits.flatMap(({ kind, published, threeLevel }) =>
            kind === "immediately-dangerous"
              ? []
              : [published?.unit === "ppm" ? published.value : 0, threeLevel?.unit === "ppm" ? threeLevel.ceiling : 0],
          ),
        );
        for (const { value } of points) expect(Number(value.digits)).toBeLessThanOrEqual(highest);
      }
    });

    test("a gas has its alarms, or is named as one without", () => {
      const without = unset.filter(({ setting }) => setting === "set-points").map(({ gas }) => gas);
      expect([...rules.setPoints.map(({ gas }) => gas), ...without].sort()).toEqual([...gases].sort());
    });
  });

  test.each([
    ["oxygen, 29 CFR 1910.146(b) [read]", "GB-WEL", "oxygen", ["low 19.5 %", "high 23.5 %"], ["low"]],
    [
      "methane, 29 CFR 1910.146(b): 10 % of the LEL [read]; the high one: common practice",
      "GB-WEL",
      "methane",
      ["low 10 %", "high 20 %"],
      ["low", "high"],
    ],
    [
      "carbon monoxide, EH40/2005 [memory]",
      "GB-WEL",
      "carbon_monoxide",
      ["low 20 [ppm]", "high 100 [ppm]", "twa 20 [ppm]", "stel 100 [ppm]"],
      ["low", "high"],
    ],
    [
      "hydrogen sulphide, Table Z-2 of 29 CFR 1910.1000: ceiling 20 ppm [read]",
      "US-OSHA",
      "hydrogen_sulphide",
      ["high 20 [ppm]"],
      ["high"],
    ],
    ["chlorine, Table Z-1 of 29 CFR 1910.1000: ceiling 1 ppm [read]", "US-OSHA", "chlorine", ["high 1 [ppm]"], ["high"]],
  ] as const)("%s", (_, regime, gas, wanted, raised) => {
    const [row] = firstRules({ zone: "UTC", regime, gases: [gas] }).rules.setPoints;
    expect(row?.points.map(({ name, value }) => `${name} ${value.digits} ${value.unit}`)).toEqual(wanted);
    expect(row?.raisedByGasTest).toEqual(raised);
  });
});
