/** The rules that a new book begins with: every setting with its source, for a keeper to read, tighten and complete. */

import { ENTRY_RULES, type EntryRule, type Limit, lelBases, limitsFor, PUBLISHED_REGIMES, type RegimeId } from "../gas/index.ts";
import { type Unit, ucumFromUnit } from "../quantity/index.ts";
import { assert } from "../result.ts";
import type { Duty, SetPoint, Shown, Source } from "./body-parts.ts";
import type { AcceptanceRow, RuleSet, RuleSetting, SetPointRow, Setting, Weekday, ZeroBand } from "./rule-set.ts";

export interface FirstRules {
  readonly rules: RuleSet;
  /** What no text and no common practice gives for a gas: the keeper must set it before the rule can be met. */
  readonly unset: readonly { readonly gas: string; readonly setting: "set-points" | "zero-band" }[];
}

export interface Site {
  /** IANA zone or offset. */
  readonly zone: string;
  /** Regime whose exposure limits are taken as alarm levels. */
  readonly regime: RegimeId;
  /** Codes of the gases that the instruments of the site measure. */
  readonly gases: readonly string[];
}

/**
 * Rules to begin with.
 *
 * Alarm levels: for oxygen and flammable gases from the text on entry of 29 CFR 1910.146(b); for toxic gases the limits of
 * the regime, the 8-hour limit as the low and the short-term limit or ceiling as the high momentary alarm (common
 * practice), and both as averaged alarms. A gas test must raise all momentary ones, but the upper one of oxygen, which no gas
 * of a low share of oxygen raises. What neither a text nor common practice gives is left out and named in `unset`.
 *
 * @example
 * ```ts
 * import { firstRules } from "./first-rules.ts";
 * const { rules, unset } = firstRules({ zone: "Europe/London", regime: "GB-WEL", gases: ["oxygen", "carbon_monoxide", "chlorine"] });
 * rules.setPoints.map(({ gas, points }) => [gas, points.map(({ name, value }) => `${name} ${value.digits}`)]); // => [["oxygen", ["low 19.5", "high 23.5"]], ["carbon_monoxide", ["low 20", "high 100", "twa 20", "stel 100"]], ["chlorine", ["high 0.5", "stel 0.5"]]]
 * unset; // => [{ "gas": "chlorine", "setting": "zero-band" }]
 * ```
 * Source: each setting carries its own. Refuses nothing: a gas without limits is named in `unset`; that the zone is known
 * is asked where the rules are said.
 */
export function firstRules({ zone, regime, gases }: Site): FirstRules {
  const setPoints = gases.flatMap((gas) => setPointsFor(gas, regime) ?? []);
  const zeroBands = ZERO_BANDS.filter(({ gas }) => gases.includes(gas));
  const rules: RuleSet = {
    ...WHEN,
    ...LIMITS_OF_USE,
    zone,
    rules: TIMED,
    setPoints,
    substitutes: [],
    acceptance: gases.map(acceptanceFor),
    zeroBands,
    bindingTexts: [],
    walls: [],
  };
  const without = (list: readonly { readonly gas: string }[], setting: FirstRules["unset"][number]["setting"]) =>
    gases.filter((gas) => !list.some((row) => row.gas === gas)).map((gas) => ({ gas, setting }));
  return { rules, unset: [...without(setPoints, "set-points"), ...without(zeroBands, "zero-band")] };
}

const practice = (title: string): Source => ({ title, place: "", mark: "common-practice" });
const SHIB: Source = {
  title: "OSHA SHIB 09-30-2013, replaced by SHIB 11-26-2024",
  place: "reprints: osha.gov, ishn.com, manualzilla.com",
  mark: "read",
};
const DGUV: Source = { title: "DGUV Information 213-056 and 213-057", place: "BG RCI FAQ 2.7; DGUV 203-092", mark: "read" };

const WORKING_DAYS: readonly Weekday[] = ["monday", "tuesday", "wednesday", "thursday", "friday"];
const WHEN = { workingDays: WORKING_DAYS, shifts: [], dayBegins: "06:00" };

const setting = <Value>(value: Value, source: Source): Setting<Value> => ({ value, source });
const KEEPERS: readonly Duty[] = ["keeper"];
const TWO_PEOPLE: readonly Duty[] = ["keeper", "administrator"];

const LIMITS_OF_USE = {
  longestStintHours: setting(12, practice("Longest shift that is worked in most trades")),
  readingAsked: setting(false, { ...SHIB, place: "a function test is yes or no, and shows nothing about accuracy" }),
  leastHoldT90s: setting(2, practice("First-order response: after twice t90 a good sensor shows 99 %")),
  throughWorkingLine: setting(true, {
    title: "HSE alert of 10 September 2020 on gas detectors with sample tubes",
    place: "reprints: UCL, IChemE, pib-riskmanagement.co.uk",
    mark: "read",
  }),
  whoReturns: setting(KEEPERS, practice("Whoever keeps the instruments puts them back to use")),
  whoAgrees: setting(TWO_PEOPLE, { title: "OWASP ASVS 5.0.0", place: "2.3.5, two people for acts of high value", mark: "read" }),
  repeatMinutes: setting(15, practice("A repeat follows at once, on the same cylinder and station")),
  leastChargePercent: setting(25, practice("A quarter left at hand-out")),
  clockMinutes: setting(5, practice("A clock five minutes out has been set by somebody, or runs wrong")),
} satisfies Partial<RuleSet>;

const asked = (period: RuleSetting["period"], source: Source): RuleSetting => ({ isAsked: true, period, source });
const SETTINGS_SOURCE = practice("A set point out by a factor passes every gas test: compared with the list at each calibration");

const TIMED: RuleSet["rules"] = {
  "daily-card": asked(
    { form: "working-day" },
    { ...DGUV, place: `${DGUV.place}: visual check before every shift; once a working day may do` },
  ),
  settings: asked({ form: "months", months: 6 }, SETTINGS_SOURCE),
  "clean-air": asked({ form: "working-day" }, practice("Zero is looked at in clean air before use, and before the air test")),
  "gas-test": asked({ form: "working-day" }, { ...SHIB, place: "before each day's use: function test or calibration check" }),
  "function-check": asked({ form: "months", months: 4 }, { title: "DGUV Information 213-056 and 213-057", place: "", mark: "memory" }),
  "calibration-check": {
    isAsked: false,
    period: { form: "months", months: 1 },
    source: { ...SHIB, place: "a calibration check or a function test, one of the two" },
  },
  calibration: asked({ form: "months", months: 6 }, practice("Half a year, where neither maker nor law says less")),
  charge: asked({ form: "each-use" }, practice("Charge is looked at when an instrument is handed out")),
};

/** Per cent of the applied value: the lower end of what makers are said to allow. Oxygen is in vol %. */
function acceptanceFor(gas: string): AcceptanceRow {
  const guard = "expanded-uncertainty";
  if (gas !== "oxygen")
    return {
      gas,
      percentOfApplied: "10",
      absolute: null,
      guard,
      source: { ...SHIB, place: "within the maker's limits, typically 10 to 20 % of the applied value" },
    };
  const source: Source = { title: "30 CFR 75.320, reprint: self-law.org", place: "(b), detects 19.5 % within 0.5 %", mark: "read" };
  return { gas, percentOfApplied: null, absolute: shown("0.5", "vol%"), guard, source };
}

const STEPS = practice("Two or three steps of a common display; the site sets its own");

const ZERO_BANDS: readonly ZeroBand[] = [
  { gas: "oxygen", band: shown("0.3", "vol%"), source: STEPS },
  { gas: "carbon_monoxide", band: shown("3", "ppm"), source: STEPS },
  { gas: "hydrogen_sulphide", band: shown("1", "ppm"), source: STEPS },
  { gas: "methane", band: shown("3", "%LEL"), source: STEPS },
];

function shown(digits: string, unit: Unit): Shown {
  const kind = unit === "%LEL" ? "fraction-of-lel" : unit === "mg/m3" || unit === "ug/m3" ? "mass-concentration" : "volume-fraction";
  return { digits, unit: unit === "%LEL" ? "%" : ucumFromUnit(unit), kind, step: null };
}

/** Null where nothing gives a level: an alarm that nobody can show the source of is not set. */
function setPointsFor(gas: string, regime: RegimeId): SetPointRow | null {
  if (gas === "oxygen") return OXYGEN;
  const toxic = toxicPoints(gas, regime);
  if (toxic !== null) return toxic;
  // A tenth of the LEL is thousands of ppm: never a level for a gas that harms below it, whichever regime says so.
  const isLimited = PUBLISHED_REGIMES.some(({ id }) => limitsFor(gas, id, { on: null }).status === "limits");
  return !isLimited && lelBases(gas).length > 0 ? { ...FLAMMABLE, gas } : null;
}

const point = (
  name: string,
  value: Shown,
  direction: SetPoint["direction"] = "rising",
  averageMinutes: number | null = null,
): SetPoint => ({
  ...{ name, value, direction, acts: averageMinutes === null ? "momentary" : "averaged" },
  ...{ averageMinutes: averageMinutes === null ? null : String(averageMinutes), isLatching: null },
});

const HAZARDOUS: EntryRule = (() => {
  const rule = ENTRY_RULES.find((one) => one.gas === "oxygen" && one.rule.startsWith("OSHA 29 CFR 1910.146(b)"));
  assert(rule !== undefined && rule.low !== null && rule.high !== null, "the table of entry rules holds 29 CFR 1910.146(b)");
  return rule;
})();

const OXYGEN: SetPointRow = {
  gas: "oxygen",
  sensorKind: null,
  points: [
    point("low", shown(String(HAZARDOUS.low?.volumePercent), "vol%"), "falling"),
    point("high", shown(String(HAZARDOUS.high?.volumePercent), "vol%")),
  ],
  raisedByGasTest: ["low"],
  withinSeconds: null,
  source: { title: "29 CFR 1910.146(b), reprint: paint-inspector.com", place: HAZARDOUS.asPublished, mark: "read" },
};

const FLAMMABLE: Omit<SetPointRow, "gas"> = {
  sensorKind: null,
  points: [point("low", shown("10", "%LEL")), point("high", shown("20", "%LEL"))],
  raisedByGasTest: ["low", "high"],
  withinSeconds: null,
  source: {
    title: "29 CFR 1910.146(b), reprint: paint-inspector.com",
    place: "hazardous above 10 % of the lower flammable limit; the high alarm at twice that is common practice",
    mark: "read",
  },
};

/** Limits in ppm alone: instruments for toxic gases show ppm, and a conversion is nobody's published level. */
function toxicPoints(gas: string, regime: RegimeId): SetPointRow | null {
  const answer = limitsFor(gas, regime, { on: null });
  if (answer.status !== "limits") return null;
  const long = answer.limits.find(({ kind, published }) => kind === "twa" && published?.unit === "ppm");
  const short = answer.limits.find(({ kind, published }) => (kind === "stel" || kind === "ceiling") && published?.unit === "ppm");
  const levels = answer.limits.find(({ threeLevel }) => threeLevel?.unit === "ppm");
  const points = [...levelOf(long, "low", false), ...highOf(short, levels), ...levelOf(long, "twa", true), ...levelOf(short, "stel", true)];
  const source = long ?? short ?? levels;
  if (points.length === 0 || source === undefined) return null;
  const raisedByGasTest = points.filter(({ acts }) => acts === "momentary").map(({ name }) => name);
  return { gas, sensorKind: null, points, raisedByGasTest, withinSeconds: null, source: sourceOf(source) };
}

/** Of a row of three levels (Table Z-2) the acceptable ceiling, as the maximum peak above it is allowed for minutes only. */
function highOf(short: Limit | undefined, levels: Limit | undefined): readonly SetPoint[] {
  if (short !== undefined || levels?.threeLevel == null) return levelOf(short, "high", false);
  return [point("high", shown(String(levels.threeLevel.ceiling), levels.threeLevel.unit))];
}

/** A ceiling without a time is no average; its momentary alarm is all there is. */
function levelOf(limit: Limit | undefined, name: string, isAveraged: boolean): readonly SetPoint[] {
  if (limit?.published == null || (isAveraged && limit.averagingMinutes === null)) return [];
  return [point(name, shown(String(limit.published.value), limit.published.unit), "rising", isAveraged ? limit.averagingMinutes : null)];
}

function sourceOf({ regime, edition, sources, mark }: Limit): Source {
  const [source] = sources;
  const place = `${regime}, edition ${edition}: exposure limits, set as alarm levels by common practice`;
  return {
    title: cut(source?.title ?? regime),
    place: cut(place),
    mark: mark === "read" ? "read" : mark === "memory" ? "memory" : "common-practice",
  };
}

/** Longest text of a source in the forms. */
const cut = (text: string): string => [...text].slice(0, 200).join("");
