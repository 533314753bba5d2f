import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type RuleSet, ruleDifference } from "../../../src/core/instrument/index.ts";
import { asksLess, ruleSets, someRules } from "./stricter.ts";

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
