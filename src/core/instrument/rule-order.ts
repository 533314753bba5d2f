/** The strictest of two rule sets, setting by setting: what holds between a change and the agreement to what it loosens. */
import { compareDecimals, decimalFromText } from "../quantity/index.ts";
import { canonicalJson } from "../record/index.ts";
import type { Duty, SetPoint, Shown } from "./body-parts.ts";
import { isNoLonger } from "./period-order.ts";
import type { AcceptanceRow, RuleSet, RuleSetting, SetPointRow, Setting, SubstituteRow, TimedRule, Wall, ZeroBand } from "./rule-set.ts";

/**
 * What a change does, and what holds of it at once.
 *
 * `tightened` and `loosened` name settings such as `rules.gas-test` or `setPoints.carbon_monoxide`. What can be told to be
 * neither tighter nor looser (another zone, other shifts, a set point in another unit) counts as loosened, and waits.
 */
export interface RuleDifference {
  readonly strictest: RuleSet;
  readonly tightened: readonly string[];
  readonly loosened: readonly string[];
}

/**
 * Two rule sets compared, setting by setting.
 *
 * @example
 * ```ts
 * import { firstRules } from "./first-rules.ts";
 * import { ruleDifference } from "./rule-order.ts";
 * const { rules } = firstRules({ zone: "Europe/London", regime: "GB-WEL", gases: ["carbon_monoxide"] });
 * const changed = { ...rules, longestStintHours: { ...rules.longestStintHours, value: 10 }, repeatMinutes: { ...rules.repeatMinutes, value: 60 } };
 * const { tightened, loosened, strictest } = ruleDifference(rules, changed);
 * [tightened, loosened]; // => [["longestStintHours"], ["repeatMinutes"]]
 * [strictest.longestStintHours.value, strictest.repeatMinutes.value]; // => [10, 15]
 * ```
 * Source: that tightening holds at once and loosening waits: design of this book, ours. Never refuses.
 */
export function ruleDifference(before: RuleSet, after: RuleSet): RuleDifference {
  const strictest = strictestRules(before, after);
  const [old, both, wanted] = [namedSettings(before), namedSettings(strictest), namedSettings(after)];
  const names = [...new Set([...old.keys(), ...wanted.keys(), ...both.keys()])];
  return {
    strictest,
    tightened: names.filter((name) => both.get(name) !== old.get(name)),
    loosened: names.filter((name) => both.get(name) !== wanted.get(name)),
  };
}

function strictestRules(before: RuleSet, after: RuleSet): RuleSet {
  return {
    ...sameOrBefore(before, after, ["zone", "workingDays", "shifts", "dayBegins"]),
    ...least(before, after, ["longestStintHours", "repeatMinutes", "clockMinutes"]),
    ...greatest(before, after, ["leastHoldT90s", "leastChargePercent", "readingAsked", "throughWorkingLine"]),
    rules: Object.fromEntries(TIMED_RULES.map((rule) => [rule, strictestRule(before.rules[rule], after.rules[rule])])) as RuleSet["rules"],
    setPoints: strictestRows(before.setPoints, after.setPoints, strictestPoints),
    substitutes: sharedSubstitutes(before.substitutes, after.substitutes),
    acceptance: strictestRows(before.acceptance.map(ofAnyKind), after.acceptance.map(ofAnyKind), strictestAcceptance).map(withoutKind),
    zeroBands: strictestRows(before.zeroBands.map(ofAnyKind), after.zeroBands.map(ofAnyKind), strictestBand).map(withoutKind),
    whoReturns: fewest(before.whoReturns, after.whoReturns),
    whoAgrees: fewest(before.whoAgrees, after.whoAgrees),
    bindingTexts: [...new Set([...before.bindingTexts, ...after.bindingTexts])],
    walls: strictestWalls(before.walls, after.walls),
  };
}

const TIMED_RULES: readonly TimedRule[] = [
  ...(["daily-card", "settings", "clean-air", "gas-test", "function-check", "calibration-check", "calibration", "charge"] as const),
];

type Picked<Name extends keyof RuleSet> = { readonly [Key in Name]: RuleSet[Key] };

/** Neither of two is the tighter one: the old one stays. */
const sameOrBefore = <Name extends keyof RuleSet>(before: RuleSet, _after: RuleSet, names: readonly Name[]): Picked<Name> =>
  Object.fromEntries(names.map((name) => [name, before[name]])) as Picked<Name>; // one for each name

type Ordered =
  | "longestStintHours"
  | "repeatMinutes"
  | "clockMinutes"
  | "leastHoldT90s"
  | "leastChargePercent"
  | "readingAsked"
  | "throughWorkingLine";

const chosen = <Name extends Ordered>(
  before: RuleSet,
  after: RuleSet,
  names: readonly Name[],
  isTighter: (now: number, then: number) => boolean,
) =>
  // One for each name; true counts as more than false.
  Object.fromEntries(
    names.map((name) => [name, isTighter(Number(after[name].value), Number(before[name].value)) ? after[name] : before[name]]),
  ) as Picked<Name>;

const least = <Name extends Ordered>(before: RuleSet, after: RuleSet, names: readonly Name[]) =>
  chosen(before, after, names, (now, then) => now <= then);
const greatest = <Name extends Ordered>(before: RuleSet, after: RuleSet, names: readonly Name[]) =>
  chosen(before, after, names, (now, then) => now >= then);

function strictestRule(before: RuleSetting, after: RuleSetting): RuleSetting {
  if (!before.isAsked || !after.isAsked) return before.isAsked ? before : after;
  return isNoLonger(after.period, before.period) ? after : before;
}

/** Fewer people may. Where nobody is in both lists nothing could ever be done, so that the old list stays until the new one is agreed to. */
function fewest(before: Setting<readonly Duty[]>, after: Setting<readonly Duty[]>): Setting<readonly Duty[]> {
  const both = after.value.filter((duty) => before.value.includes(duty));
  if (both.length === after.value.length) return after;
  return both.length === 0 || both.length === before.value.length ? before : { value: both, source: after.source };
}

interface Row {
  readonly gas: string;
  readonly sensorKind: string | null;
}

/** The row that holds for a kind of sensor: its own, else that for any kind. */
const rowFor = <One extends Row>(rows: readonly One[], gas: string, sensorKind: string | null): One | undefined =>
  rows.find((row) => row.gas === gas && row.sensorKind === sensorKind) ?? rows.find((row) => row.gas === gas && row.sensorKind === null);

/** A row that only one side has demands something that the other does not: it holds. */
function strictestRows<One extends Row>(
  before: readonly One[],
  after: readonly One[],
  strictest: (before: One, after: One) => One,
): readonly One[] {
  return rowKeys(before, after).map(({ gas, sensorKind }) => {
    const [old, wanted] = [rowFor(before, gas, sensorKind), rowFor(after, gas, sensorKind)];
    const one = old === undefined ? wanted : wanted === undefined ? old : strictest(old, wanted);
    return { ...(one as One), sensorKind }; // one side has the key
  });
}

function rowKeys(before: readonly Row[], after: readonly Row[]): readonly Row[] {
  return [...new Map([...after, ...before].map(({ gas, sensorKind }) => [`${gas} ${sensorKind}`, { gas, sensorKind }])).values()];
}

const ofAnyKind = <One extends { readonly gas: string }>(row: One): One & { readonly sensorKind: null } => ({ ...row, sensorKind: null });
const withoutKind = <One extends { readonly sensorKind: null }>({ sensorKind: _, ...row }: One): Omit<One, "sensorKind"> => row;

function strictestPoints(before: SetPointRow, after: SetPointRow): SetPointRow {
  const names = [...new Set([...after.points, ...before.points].map(({ name }) => name))];
  const points = names.map((name) => {
    const [old, wanted] = [before.points.find((one) => one.name === name), after.points.find((one) => one.name === name)];
    return old === undefined || wanted === undefined ? ((old ?? wanted) as SetPoint) : strictestPoint(old, wanted); // one side has the name
  });
  const raised = [...new Set([...after.raisedByGasTest, ...before.raisedByGasTest])];
  return { ...after, points, raisedByGasTest: raised, withinSeconds: fewestDigits(before.withinSeconds, after.withinSeconds) };
}

function strictestPoint(before: SetPoint, after: SetPoint): SetPoint {
  const isSameAlarm = before.direction === after.direction && before.acts === after.acts && before.averageMinutes === after.averageMinutes;
  const order = isSameAlarm && isLatchingKept(before, after) ? orderOf(after.value, before.value) : null;
  if (order === null) return before;
  return order === 0 || order < 0 === (after.direction === "rising") ? after : before;
}

/** Null asks for neither: to ask for one is tighter, to ask for the other one is not. */
const isLatchingKept = (before: SetPoint, after: SetPoint): boolean => before.isLatching === null || before.isLatching === after.isLatching;

/** Sign of the difference; null where the two are not in the same terms. */
function orderOf(one: Shown, other: Shown): number | null {
  return one.unit === other.unit && one.kind === other.kind ? orderOfDigits(one.digits, other.digits) : null;
}

function orderOfDigits(one: string, other: string): number | null {
  const [first, second] = [decimalFromText(one), decimalFromText(other)];
  return first.ok && second.ok ? compareDecimals(first.value, second.value) : null;
}

/** Null = without a limit. */
function fewestDigits(before: string | null, after: string | null): string | null {
  if (before === null || after === null) return before ?? after;
  return (orderOfDigits(after, before) ?? 1) <= 0 ? after : before;
}

/** Only what both sides allow; another value for it waits. */
function sharedSubstitutes(before: readonly SubstituteRow[], after: readonly SubstituteRow[]): readonly SubstituteRow[] {
  const allowed = (rows: readonly SubstituteRow[], component: string) => rows.filter((row) => row.component === component);
  const components = [...new Set(after.map(({ component }) => component))];
  return components.flatMap((component) => {
    const [old, wanted] = [allowed(before, component), allowed(after, component)];
    return rowKeys(old, wanted).flatMap(({ gas, sensorKind }) => {
      const [then, now] = [rowFor(old, gas, sensorKind), rowFor(wanted, gas, sensorKind)];
      if (then === undefined || now === undefined) return [];
      return [{ ...(then.readsAs === now.readsAs ? now : then), sensorKind: sensorKind as SubstituteRow["sensorKind"] }]; // a key of these rows
    });
  });
}

type AnyKind<One> = One & { readonly sensorKind: null };

const GUARDS = ["none", "one-sided-5-percent", "expanded-uncertainty"] as const;

function strictestAcceptance(before: AnyKind<AcceptanceRow>, after: AnyKind<AcceptanceRow>): AnyKind<AcceptanceRow> {
  const error = allowsNoMore(after, before) ? after : before;
  const guard = GUARDS.indexOf(after.guard) >= GUARDS.indexOf(before.guard) ? after.guard : before.guard;
  return { ...error, guard };
}

/** The larger of both members holds, so that each of them must be no more; one that is not there allows nothing. */
function allowsNoMore(one: AcceptanceRow, other: AcceptanceRow): boolean {
  const isPercentNoMore =
    one.percentOfApplied === null ||
    (other.percentOfApplied !== null && (orderOfDigits(one.percentOfApplied, other.percentOfApplied) ?? 1) <= 0);
  const isAbsoluteNoMore = one.absolute === null || (other.absolute !== null && (orderOf(one.absolute, other.absolute) ?? 1) <= 0);
  return isPercentNoMore && isAbsoluteNoMore;
}

const strictestBand = (before: AnyKind<ZeroBand>, after: AnyKind<ZeroBand>): AnyKind<ZeroBand> =>
  (orderOf(after.band, before.band) ?? 1) <= 0 ? after : before;

function strictestWalls(before: readonly Wall[], after: readonly Wall[]): readonly Wall[] {
  const keyOf = ({ rule, gas, model }: Wall): string => `${rule} ${gas} ${model}`;
  const walls = new Map(after.map((wall) => [keyOf(wall), wall]));
  for (const wall of before) {
    const wanted = walls.get(keyOf(wall));
    if (wanted === undefined || !isNoLonger(wanted.longest, wall.longest)) walls.set(keyOf(wall), wall);
  }
  return [...walls.values()];
}

/** Each setting by name, with a text of what it asks; sources are not asked for, and order in lists is none. */
function namedSettings(rules: RuleSet): ReadonlyMap<string, string> {
  const settings = new Map<string, string>();
  const { rules: timed, setPoints, substitutes, acceptance, zeroBands, bindingTexts, walls, ...single } = rules;
  for (const [name, value] of Object.entries(single)) settings.set(name, askedText(value));
  for (const [rule, setting] of Object.entries(timed)) settings.set(`rules.${rule}`, setting.isAsked ? askedText(setting) : "not asked");
  const rows = { setPoints, substitutes, acceptance, zeroBands, walls };
  for (const [name, list] of Object.entries(rows)) for (const row of list) settings.set(`${name}.${rowName(row)}`, askedText(row));
  for (const code of bindingTexts) settings.set(`bindingTexts.${code}`, "bound");
  return settings;
}

function rowName(row: Readonly<Record<string, unknown>> | SetPointRow | SubstituteRow | AcceptanceRow | ZeroBand | Wall): string {
  const { rule, gas, sensorKind, component, model } = row as Readonly<Record<string, unknown>>;
  return [rule, gas, sensorKind, component, model].filter((part) => typeof part === "string").join(".");
}

function askedText(value: unknown): string {
  const text = canonicalJson(asked(value));
  return text.ok ? text.value : "";
}

/** Without sources; lists in one order, as none of them has a meaning in its order. */
function asked(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(asked).sort((one, other) => (askedText(one) < askedText(other) ? -1 : 1));
  if (typeof value !== "object" || value === null) return value;
  return Object.fromEntries(Object.entries(value).flatMap(([name, inner]) => (name === "source" ? [] : [[name, asked(inner)]])));
}
