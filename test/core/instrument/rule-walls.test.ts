import { describe, expect, test } from "vitest";
import { BINDING_TEXTS, type Period, periodsAsked, type RuleSet, unknownTexts, wallsMet } from "../../../src/core/instrument/index.ts";
import { someRules } from "./stricter.ts";

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
