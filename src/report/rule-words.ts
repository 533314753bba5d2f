/** Rules of a site, their periods and walls, in words. */
import { substance } from "../core/gas/index.ts";
import type { Period, RuleSet, SetPointRow, TimedRule, Wall } from "../core/instrument/index.ts";
import { counted } from "./digits.ts";
import { codeWords } from "./entry-words.ts";
import { gasWords } from "./gas-words.ts";
import { visibleText } from "./visible-text.ts";

/**
 * How long a support lasts, as it stands after "asked for".
 *
 * @example
 * ```ts
 * import { periodWords } from "./rule-words.ts";
 * periodWords({ form: "each-shift" }); // => "before each shift"
 * periodWords({ form: "days", days: 31 }); // => "every 31 days"
 * periodWords({ form: "months", months: 1 }); // => "every month"
 * ```
 */
export function periodWords(period: Period): string {
  switch (period.form) {
    case "hours":
      return every(period.hours, "hour");
    case "days":
      return every(period.days, "day");
    case "months":
      return every(period.months, "month");
    default:
      return codeWords("form", period.form);
  }
}

const every = (count: number, unit: string): string => (count === 1 ? `every ${unit}` : `every ${counted(count, unit)}`);

/**
 * A wall as a sentence with its text.
 *
 * @example
 * ```ts
 * import { wallWords } from "./rule-words.ts";
 * const source = { title: "30 CFR 75.320", place: "(a)", mark: "read" as const };
 * wallWords({ rule: "calibration", gas: "methane", model: null, longest: { form: "days", days: 31 }, source }); // => "30 CFR 75.320, (a): calibration every 31 days at the longest for methane."
 * ```
 */
export function wallWords({ rule, gas, longest, source }: Wall): string {
  const of = gas === null ? "" : ` for ${gasWords(gas)}`;
  const place = source.place === "" ? "" : `, ${visibleText(source.place)}`;
  return `${visibleText(source.title)}${place}: ${codeWords("rule", rule)} ${periodWords(longest)} at the longest${of}.`;
}

/**
 * A setting of the rules by the name that a comparison gives it.
 *
 * @example
 * ```ts
 * import { settingWords } from "./rule-words.ts";
 * settingWords("rules.gas-test"); // => "gas test"
 * settingWords("setPoints.carbon_monoxide.infrared"); // => "set points, carbon monoxide, infrared"
 * settingWords("repeatMinutes"); // => "minutes for the repeat of a failed test"
 * ```
 */
export function settingWords(name: string): string {
  const [member = "", ...rest] = name.split(".");
  if (member === "rules") return codeWords("rule", rest.join("."));
  return [SETTINGS[member] ?? visibleText(member), ...rest.map(partWords)].join(", ");
}

/** A gas, a kind of sensor, a rule, or the id of a model. */
const partWords = (part: string): string => (substance(part) === null ? codeWords("part", part) : gasWords(part));

const SETTINGS: Readonly<Record<string, string>> = {
  zone: "time zone",
  workingDays: "working days",
  shifts: "shifts",
  dayBegins: "begin of the working day",
  longestStintHours: "longest stretch of use, hours",
  setPoints: "set points",
  substitutes: "gas shown in place of another",
  acceptance: "error allowed",
  zeroBands: "band of the clean-air reading",
  readingAsked: "reading asked beside the alarms",
  leastHoldT90s: "how long gas is held, times T90",
  throughWorkingLine: "tested through the working line",
  whoReturns: "who returns to use",
  whoAgrees: "who agrees to a looser rule",
  repeatMinutes: "minutes for the repeat of a failed test",
  leastChargePercent: "least charge, per cent",
  clockMinutes: "minutes that a device clock may be out",
  bindingTexts: "laws that bind",
  walls: "longest period by a maker's text",
};

/**
 * What becomes of a setting, as a sentence: what it is now, and what it would be.
 *
 * @param name as a comparison of rule sets names it
 * @example
 * ```ts
 * import { firstRules } from "../core/instrument/index.ts";
 * import { changeWords } from "./rule-words.ts";
 * const { rules } = firstRules({ zone: "UTC", regime: "GB-WEL", gases: [] });
 * const wanted = { ...rules, repeatMinutes: { ...rules.repeatMinutes, value: 60 } };
 * changeWords("repeatMinutes", rules, wanted); // => "Minutes for the repeat of a failed test: 60 in place of 15."
 * changeWords("rules.calibration", rules, { ...rules, rules: { ...rules.rules, calibration: { ...rules.rules.calibration, isAsked: false } } }); // => "Calibration: not asked for in place of every 6 months."
 * ```
 */
export function changeWords(name: string, before: RuleSet, after: RuleSet): string {
  const words = settingWords(name);
  const label = words.slice(0, 1).toUpperCase() + words.slice(1);
  const [old, wanted] = [valueWords(name, before), valueWords(name, after)];
  if (old === wanted) return `${label}: changed.`;
  return `${label}: ${wanted ?? "no more"}${old === null ? ", which was not there" : ` in place of ${old}`}.`;
}

/** Null where the rules have no such row. */
function valueWords(name: string, rules: RuleSet): string | null {
  const [member = "", ...rest] = name.split(".");
  const key = rest.join(".");
  if (member === "rules") return timedWords(rules.rules[key as TimedRule]); // a comparison names these alone
  if (member === "setPoints") return pointWords(rules.setPoints.find((row) => rowKey(row) === key));
  if (member === "bindingTexts") return rules.bindingTexts.includes(key) ? "bound by it" : null;
  if (key !== "") return null;
  const value: unknown = rules[member as keyof RuleSet];
  const setting = typeof value === "object" && value !== null && "value" in value ? value.value : value;
  if (Array.isArray(setting))
    return member === "shifts" ? shiftWords(rules) : setting.map((one) => codeWords(member, String(one))).join(", ") || "none";
  return typeof setting === "boolean" ? (setting ? "yes" : "no") : visibleText(String(setting));
}

const timedWords = ({ isAsked, period }: RuleSet["rules"][TimedRule]): string => (isAsked ? periodWords(period) : "not asked for");

const rowKey = ({ gas, sensorKind }: SetPointRow): string => [gas, sensorKind].filter((part) => part !== null).join(".");

const pointWords = (row: SetPointRow | undefined): string | null =>
  row === undefined ? null : row.points.map(({ name, value }) => `${visibleText(name)} ${visibleText(value.digits)}`).join(", ");

const shiftWords = ({ shifts }: RuleSet): string =>
  shifts.length === 0 ? "none" : shifts.map(({ name, from, to }) => `${visibleText(name)} ${from} to ${to}`).join(", ");
