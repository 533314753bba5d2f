/** What no setting of a site lets pass: laws that bind it, and makers' texts. */
import { isNoLonger } from "./period-order.ts";
import type { Period, RuleSet, TimedRule, Wall } from "./rule-set.ts";

/** A text that binds a site which says so. Its walls cannot be edited. */
export interface BindingText {
  readonly code: string;
  readonly title: string;
  readonly walls: readonly Wall[];
}

const MSHA = "30 CFR 75.320, reprint: self-law.org";
const SEWAGE = "DGUV Vorschrift 21, rule text of BGN";
const CHEMICAL = "DGUV Information 213-056 and 213-057";

export const BINDING_TEXTS: readonly BindingText[] = [
  {
    code: "us-30-cfr-75-320",
    title: "30 CFR 75.320, air quality detectors and measurement devices in underground coal mines",
    walls: [
      { ...wall("calibration", { form: "days", days: 31 }), gas: "methane", source: { title: MSHA, place: "(a)", mark: "read" } },
      { ...wall("calibration", { form: "each-shift" }), gas: "oxygen", source: { title: MSHA, place: "(b)", mark: "read" } },
    ],
  },
  {
    code: "de-dguv-vorschrift-21",
    title: "DGUV Vorschrift 21, sewage works",
    walls: [
      { ...wall("gas-test", { form: "each-use" }), source: { title: SEWAGE, place: "section 36", mark: "read" } },
      { ...wall("function-check", { form: "months", months: 12 }), source: { title: SEWAGE, place: "section 36", mark: "read" } },
    ],
  },
  {
    code: "de-dguv-213-056",
    title: "DGUV Information 213-056 and 213-057, gas warning equipment",
    walls: [
      // Before every shift; once a working day may do where use runs across a change of shifts: the longest that it allows.
      { ...wall("gas-test", { form: "working-day" }), source: { title: CHEMICAL, place: "BG RCI FAQ 2.7", mark: "read" } },
      { ...wall("daily-card", { form: "working-day" }), source: { title: CHEMICAL, place: "BG RCI FAQ 2.7", mark: "read" } },
      { ...wall("function-check", { form: "months", months: 4 }), source: { title: CHEMICAL, place: "", mark: "memory" } },
    ],
  },
];

function wall(rule: TimedRule, longest: Period): Pick<Wall, "rule" | "gas" | "model" | "longest"> {
  return { rule, gas: null, model: null, longest };
}

/**
 * All walls of a site: those of the texts that bind it, and those that it typed from makers' texts. A text that this
 * release does not know adds none: `unknownTexts` names it.
 *
 * @example
 * ```ts
 * import { wallsOf } from "./rule-walls.ts";
 * wallsOf({ bindingTexts: ["us-30-cfr-75-320"], walls: [] }).map(({ gas, longest }) => [gas, longest.form]); // => [["methane", "days"], ["oxygen", "each-shift"]]
 * ```
 * Source: each wall carries its own. Never refuses.
 */
export function wallsOf({ bindingTexts, walls }: Pick<RuleSet, "bindingTexts" | "walls">): readonly Wall[] {
  return [...BINDING_TEXTS.filter(({ code }) => bindingTexts.includes(code)).flatMap((text) => text.walls), ...walls];
}

/** Binding texts of a rule set that this release does not know; while there are some, nobody can tell what they demand. */
export const unknownTexts = ({ bindingTexts }: Pick<RuleSet, "bindingTexts">): readonly string[] =>
  bindingTexts.filter((code) => !BINDING_TEXTS.some((text) => text.code === code));

/**
 * Every period that must hold for a rule, a gas and a model: that of the rule where it is asked for, and that of each
 * wall. What supports the rule counts only while all of them last. Empty = the rule is not asked for.
 *
 * @param gas code of the gas; null for what concerns the whole instrument, which a wall for one gas then concerns too
 * @param model id of the model; null where it is not known: then every maker's wall counts
 * @example
 * ```ts
 * import { firstRules } from "./first-rules.ts";
 * import { periodsAsked } from "./rule-walls.ts";
 * const { rules } = firstRules({ zone: "America/Denver", regime: "US-OSHA", gases: ["methane"] });
 * const mine = { ...rules, bindingTexts: ["us-30-cfr-75-320"] };
 * periodsAsked(mine, "calibration", "methane", null); // => [{ "form": "months", "months": 6 }, { "form": "days", "days": 31 }]
 * periodsAsked(mine, "calibration", "carbon_monoxide", null); // => [{ "form": "months", "months": 6 }]
 * periodsAsked(rules, "calibration-check", "methane", null); // => []
 * ```
 * Source: that a law is never passed: ours. Never refuses.
 */
export function periodsAsked(rules: RuleSet, rule: TimedRule, gas: string | null, model: string | null): readonly Period[] {
  const { isAsked, period } = rules.rules[rule];
  const walls = wallsOf(rules).filter((one) => one.rule === rule && concerns(one.gas, gas) && concerns(one.model, model));
  return [...(isAsked ? [period] : []), ...walls.map(({ longest }) => longest)];
}

/** Where it is not known what is asked about, every wall concerns it. */
const concerns = (about: string | null, asked: string | null): boolean => about === null || asked === null || about === asked;

/**
 * Walls at which a site's own setting ends: where the rule is not asked for, or could last longer than the wall lets it.
 * The wall holds there all the same; a keeper is shown it.
 *
 * @example
 * ```ts
 * import { firstRules } from "./first-rules.ts";
 * import { wallsMet } from "./rule-walls.ts";
 * const { rules } = firstRules({ zone: "Europe/Berlin", regime: "EU-IOELV", gases: [] });
 * wallsMet({ ...rules, bindingTexts: ["de-dguv-213-056"] }); // => []
 * wallsMet({ ...rules, bindingTexts: ["de-dguv-vorschrift-21"] }).map(({ rule }) => rule); // => ["gas-test"]
 * ```
 * Source: ours. Never refuses.
 */
export function wallsMet(rules: RuleSet): readonly Wall[] {
  return wallsOf(rules).filter(({ rule, longest }) => {
    const { isAsked, period } = rules.rules[rule];
    return !isAsked || !isNoLonger(period, longest);
  });
}
