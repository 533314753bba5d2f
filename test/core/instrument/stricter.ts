// What it means that one rule set asks at least as much as another, written from the sentences of the design and apart
// from the code under test.
import fc from "fast-check";
import type { Duty, Period, RuleSet, SetPointRow } from "../../../src/core/instrument/index.ts";
import { firstRules } from "../../../src/core/instrument/index.ts";

const HOUR = 3_600_000;
const DAY = 24 * HOUR;

/** The instant at which what began at `from` runs out, in UTC; the working day begins at 06:00, a shift at 06:00, 14:00, 22:00. */
export function runsOut(period: Period, from: number): number {
  const midnight = Math.floor(from / DAY) * DAY;
  const nextOf = (hours: readonly number[]) =>
    Math.min(...[0, 1].flatMap((day) => hours.map((hour) => midnight + day * DAY + hour * HOUR)).filter((at) => at > from));
  switch (period.form) {
    case "each-use":
      return from;
    case "each-shift":
      return nextOf([6, 14, 22]);
    case "working-day":
      return nextOf([6]);
    case "hours":
      return from + period.hours * HOUR;
    case "days":
      return midnight + (period.days + 1) * DAY;
    case "months": {
      const date = new Date(midnight);
      const last = new Date(Date.UTC(date.getUTCFullYear(), date.getUTCMonth() + period.months + 1, 0)).getUTCDate();
      return Date.UTC(date.getUTCFullYear(), date.getUTCMonth() + period.months, Math.min(date.getUTCDate(), last) + 1);
    }
  }
}

/** Half hours of a leap year and the two around it, thinned. */
export const BEGINS: readonly number[] = Array.from({ length: 3 * 366 }, (_, day) => Date.UTC(2023, 0, 1) + day * DAY).flatMap((day) =>
  [0, 5.5, 6, 13.5, 23.5].map((hour) => day + hour * HOUR),
);

const isAtMost = (period: Period, other: Period, begins: readonly number[]): boolean =>
  begins.every((from) => runsOut(period, from) <= runsOut(other, from));
const fewBegins = BEGINS.filter((_, index) => index % 97 === 0 || index < 10);
const known = new Map<string, boolean>();

export const neverLonger = (period: Period, other: Period): boolean => isAtMost(period, other, BEGINS);

/** On few beginnings, each pair once: what many random rule sets ask. */
function isAtMostRoughly(period: Period, other: Period): boolean {
  const key = JSON.stringify([period, other]);
  const answer = known.get(key) ?? isAtMost(period, other, fewBegins);
  known.set(key, answer);
  return answer;
}

/** First place at which `rules` asks less than `than`; null where there is none. Settings that have no order must be the same. */
export function asksLess(rules: RuleSet, than: RuleSet): string | null {
  const faults: [string, boolean][] = [
    ["longestStintHours", rules.longestStintHours.value > than.longestStintHours.value],
    ["repeatMinutes", rules.repeatMinutes.value > than.repeatMinutes.value],
    ["clockMinutes", rules.clockMinutes.value > than.clockMinutes.value],
    ["leastHoldT90s", rules.leastHoldT90s.value < than.leastHoldT90s.value],
    ["leastChargePercent", rules.leastChargePercent.value < than.leastChargePercent.value],
    ["readingAsked", than.readingAsked.value && !rules.readingAsked.value],
    ["throughWorkingLine", than.throughWorkingLine.value && !rules.throughWorkingLine.value],
    ["whoReturns", rules.whoReturns.value.some((duty) => !than.whoReturns.value.includes(duty))],
    ["whoAgrees", rules.whoAgrees.value.some((duty) => !than.whoAgrees.value.includes(duty))],
    ["bindingTexts", than.bindingTexts.some((code) => !rules.bindingTexts.includes(code))],
    ["dayBegins", rules.dayBegins !== than.dayBegins || rules.zone !== than.zone],
    ["workingDays", JSON.stringify(rules.workingDays) !== JSON.stringify(than.workingDays)],
    [
      "zeroBands",
      than.zeroBands.some(
        ({ gas, band }) => !rules.zeroBands.some((one) => one.gas === gas && Number(one.band.digits) <= Number(band.digits)),
      ),
    ],
    [
      "walls",
      than.walls.some(
        (wall) => !rules.walls.some((one) => one.rule === wall.rule && one.gas === wall.gas && isAtMostRoughly(one.longest, wall.longest)),
      ),
    ],
    [
      "substitutes",
      rules.substitutes.some(
        (row) =>
          !than.substitutes.some(
            (one) =>
              one.gas === row.gas &&
              one.component === row.component &&
              one.readsAs === row.readsAs &&
              (one.sensorKind ?? row.sensorKind) === row.sensorKind,
          ),
      ),
    ],
  ];
  for (const [name, { isAsked, period }] of Object.entries(than.rules)) {
    const mine = rules.rules[name as keyof RuleSet["rules"]];
    faults.push([`rules.${name}`, isAsked && !(mine.isAsked && isAtMostRoughly(mine.period, period))]);
  }
  for (const row of than.setPoints) faults.push([`setPoints.${row.gas}`, !asksPoints(rowOf(rules, row.gas, row.sensorKind), row)]);
  // A row of one kind of sensor must not ask less than the row for any kind asked of it before.
  for (const row of rules.setPoints) {
    const before = rowOf(than, row.gas, row.sensorKind);
    faults.push([`setPoints.${row.gas}`, before !== undefined && !asksPoints(row, before)]);
  }
  for (const row of than.acceptance)
    faults.push([`acceptance.${row.gas}`, !rules.acceptance.some((one) => one.gas === row.gas && allowsNoMore(one, row))]);
  return faults.find(([, isLess]) => isLess)?.[0] ?? null;
}

const rowOf = (rules: RuleSet, gas: string, kind: string | null): SetPointRow | undefined =>
  rules.setPoints.find((row) => row.gas === gas && row.sensorKind === kind) ??
  rules.setPoints.find((row) => row.gas === gas && row.sensorKind === null);

function asksPoints(mine: SetPointRow | undefined, than: SetPointRow): boolean {
  if (mine === undefined) return false;
  const isRaised = than.raisedByGasTest.every((name) => mine.raisedByGasTest.includes(name));
  const isInTime = than.withinSeconds === null || (mine.withinSeconds !== null && Number(mine.withinSeconds) <= Number(than.withinSeconds));
  return (
    isRaised &&
    isInTime &&
    than.points.every((point) => {
      const one = mine.points.find(({ name }) => name === point.name);
      if (one === undefined || one.direction !== point.direction || one.value.unit !== point.value.unit) return false;
      if (point.isLatching !== null && one.isLatching !== point.isLatching) return false;
      const [value, before] = [Number(one.value.digits), Number(point.value.digits)];
      return point.direction === "rising" ? value <= before : value >= before;
    })
  );
}

const GUARDS = { none: 0, "one-sided-5-percent": 1.645, "expanded-uncertainty": 2 };

/** Of gas at 10 and at 1000 of the unit, what may the error be? */
function allowsNoMore(one: RuleSet["acceptance"][number], than: RuleSet["acceptance"][number]): boolean {
  const allowed = ({ percentOfApplied, absolute }: RuleSet["acceptance"][number], applied: number) =>
    Math.max((applied * Number(percentOfApplied ?? 0)) / 100, Number(absolute?.digits ?? 0));
  return [10, 1000].every((applied) => allowed(one, applied) <= allowed(than, applied)) && GUARDS[one.guard] >= GUARDS[than.guard];
}

export const someRules: RuleSet = firstRules({
  zone: "UTC",
  regime: "GB-WEL",
  gases: ["oxygen", "carbon_monoxide", "hydrogen_sulphide", "methane"],
}).rules;

const source = { title: "Site", place: "", mark: "own" as const };
export const periods: fc.Arbitrary<Period> = fc.oneof(
  fc.constantFrom<Period>({ form: "each-use" }, { form: "each-shift" }, { form: "working-day" }),
  fc.constantFrom(1, 8, 23, 24, 25, 47, 48, 671, 672, 743, 744, 800).map((hours): Period => ({ form: "hours", hours })),
  fc.constantFrom(1, 2, 7, 27, 28, 29, 30, 31, 32, 59, 62, 180, 181, 184, 365, 366, 400).map((days): Period => ({ form: "days", days })),
  fc.constantFrom(1, 2, 4, 6, 12, 13).map((months): Period => ({ form: "months", months })),
);

const duties = fc.subarray<Duty>(["tester", "keeper", "hygienist", "administrator"], { minLength: 1 });
const setting = <Value>(value: fc.Arbitrary<Value>) => value.map((one) => ({ value: one, source }));
const digits = fc.integer({ min: 1, max: 12 }).map(String);
const shown = (unit: string) => digits.map((text) => ({ digits: text, unit, kind: "volume-fraction" as const, step: null }));

const points = fc.uniqueArray(
  fc.record({
    name: fc.constantFrom("low", "high", "stel"),
    value: shown("[ppm]"),
    direction: fc.constant("rising" as const),
    acts: fc.constant("momentary" as const),
    averageMinutes: fc.constant(null),
    isLatching: fc.constantFrom(null, true, false),
  }),
  { selector: ({ name }) => name, maxLength: 3 },
);

const setPointRows = fc.uniqueArray(
  fc
    .record({
      gas: fc.constantFrom("carbon_monoxide", "chlorine"),
      sensorKind: fc.constantFrom(null, "electrochemical" as const, "infrared" as const),
      points,
      withinSeconds: fc.option(digits),
    })
    .chain((row) => fc.subarray(row.points.map(({ name }) => name)).map((raisedByGasTest) => ({ ...row, raisedByGasTest, source }))),
  { selector: ({ gas, sensorKind }) => `${gas} ${sensorKind}`, maxLength: 5 },
);

/** Rule sets that a keeper might type: each setting of a few values, so that two of them often agree. */
export const ruleSets: fc.Arbitrary<RuleSet> = fc
  .record({
    zone: fc.constantFrom("UTC", "UTC", "UTC", "+01:00"),
    dayBegins: fc.constantFrom("06:00", "06:00", "07:30"),
    longestStintHours: setting(fc.constantFrom(8, 10, 12)),
    repeatMinutes: setting(fc.constantFrom(5, 15, 60)),
    clockMinutes: setting(fc.constantFrom(2, 5)),
    leastHoldT90s: setting(fc.constantFrom(2, 3)),
    leastChargePercent: setting(fc.constantFrom(25, 50)),
    readingAsked: setting(fc.boolean()),
    throughWorkingLine: setting(fc.boolean()),
    whoReturns: setting(duties),
    whoAgrees: setting(duties),
    bindingTexts: fc.subarray(["us-30-cfr-75-320", "de-dguv-213-056"]),
    setPoints: setPointRows,
    zeroBands: fc.uniqueArray(fc.record({ gas: fc.constantFrom("oxygen", "methane"), band: shown("%"), source: fc.constant(source) }), {
      selector: ({ gas }) => gas,
    }),
    acceptance: fc.uniqueArray(
      fc.record({
        gas: fc.constantFrom("methane", "chlorine"),
        percentOfApplied: fc.constantFrom("5", "10", "20"),
        absolute: fc.option(shown("[ppm]")),
        guard: fc.constantFrom("none" as const, "one-sided-5-percent" as const, "expanded-uncertainty" as const),
        source: fc.constant(source),
      }),
      { selector: ({ gas }) => gas },
    ),
    substitutes: fc.uniqueArray(
      fc.record({
        gas: fc.constantFrom("benzene", "toluene"),
        sensorKind: fc.constantFrom(null, "photoionisation" as const),
        component: fc.constant("isobutylene"),
        readsAs: fc.constantFrom(null, "0.5"),
        source: fc.constant(source),
      }),
      { selector: ({ gas, sensorKind }) => `${gas} ${sensorKind}` },
    ),
    walls: fc.uniqueArray(
      fc.record({
        rule: fc.constantFrom("calibration" as const, "gas-test" as const),
        gas: fc.constantFrom(null, "methane"),
        model: fc.constant(null),
        longest: periods,
        source: fc.constant(source),
      }),
      { selector: ({ rule, gas }) => `${rule} ${gas}`, maxLength: 3 },
    ),
    rules: fc.record(
      Object.fromEntries(
        Object.keys(someRules.rules).map((name) => [
          name,
          fc.record({ isAsked: fc.boolean(), period: periods, source: fc.constant(source) }),
        ]),
      ),
    ),
  })
  // The names of the rules are those of a rule set.
  .map((change) => ({ ...someRules, ...change }) as unknown as RuleSet);
