/** Rules of a site, their periods and walls, in words. */
import type { Period, Wall } from "../core/instrument/index.ts";
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
 * settingWords("setPoints.carbon_monoxide"); // => "set points, carbon monoxide"
 * settingWords("repeatMinutes"); // => "repeat minutes"
 * ```
 */
export function settingWords(name: string): string {
  const [member = "", ...rest] = name.split(".");
  const key = rest.join(".");
  if (member === "rules") return codeWords("rule", key);
  const words = member.replaceAll(/([a-z])([A-Z])/g, "$1 $2").toLowerCase();
  return key === "" ? words : `${words}, ${gasWords(visibleText(key))}`;
}
