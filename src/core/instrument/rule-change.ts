/** Which rules hold at an instant, from what was set and agreed to. */
import { clockOfDay, instantsOf, type LocalInstants, localAt, MILLISECONDS_PER_DAY, type ZoneClock, zoneClock } from "../time/index.ts";
import type { Duty } from "./body-parts.ts";
import { ruleDifference } from "./rule-order.ts";
import type { RuleSet, Weekday } from "./rule-set.ts";

/** An entry `rules-set` that was granted. Times in milliseconds since 1970. */
export interface RuleChange {
  readonly number: number;
  readonly submission: string;
  readonly by: string | null;
  /** Earliest that it can have happened: what it tightens holds from here on. */
  readonly earliest: number;
  /** The later of the latest that it can have happened and when the book received it. */
  readonly settled: number;
  readonly rules: RuleSet;
}

/** An entry `rules-agreed` that was granted. */
export interface RuleAgreement {
  readonly number: number;
  /** Submission of the change. */
  readonly change: string;
  readonly by: string | null;
  /** Duties that the person had then. */
  readonly duties: readonly Duty[];
  readonly settled: number;
}

export interface RulesInForce {
  /** From when on, until the next of a course begins. */
  readonly from: number;
  readonly rules: RuleSet;
  /** Number of the change that was asked for last. */
  readonly change: number;
  /** What that change loosens and does not hold yet; null where all of it holds. */
  readonly waiting: {
    readonly loosened: readonly string[];
    /** When it begins to hold; null where nobody has agreed to it, or no begin can be told. */
    readonly begins: number | null;
  } | null;
}

/**
 * The rules that hold at an instant; null before the first ones.
 *
 * The first change holds as a whole, once the book has it. Of a later one, what tightens holds from the earliest that it
 * can have happened; what loosens begins with the next working day after another person, entitled by the rules in force,
 * agreed to it: by the zone, the working days and the day's beginning of the rules in force then. A newer change takes the place
 * of an older one whose loosening has not begun: that one lapses.
 *
 * @param changes and agreements in any order; those that count, not those above the number that was known
 * @param at milliseconds since 1970
 * @example
 * ```ts
 * import { firstRules } from "./first-rules.ts";
 * import { ruleSetAt } from "./rule-change.ts";
 * const { rules } = firstRules({ zone: "UTC", regime: "GB-WEL", gases: [] });
 * const later = { ...rules, repeatMinutes: { ...rules.repeatMinutes, value: 60 }, clockMinutes: { ...rules.clockMinutes, value: 2 } };
 * const monday = Date.UTC(2026, 2, 2, 10);
 * const changes = [
 *   { number: 1, submission: "a", by: "ann", earliest: 0, settled: 0, rules },
 *   { number: 2, submission: "b", by: "ann", earliest: monday, settled: monday, rules: later },
 * ];
 * const agreements = [{ number: 3, change: "b", by: "bob", duties: ["keeper" as const], settled: monday }];
 * const minutes = (at: number) => {
 *   const { rules } = ruleSetAt(changes, agreements, at) ?? { rules: later };
 *   return [rules.repeatMinutes.value, rules.clockMinutes.value];
 * };
 * [minutes(monday - 1), minutes(monday), minutes(Date.UTC(2026, 2, 3, 6))]; // => [[15, 5], [15, 2], [60, 2]]
 * ```
 * Source: design of this book, ours. Never refuses.
 */
export const ruleSetAt = (changes: readonly RuleChange[], agreements: readonly RuleAgreement[], at: number): RulesInForce | null =>
  rulesOverTime(changes, agreements).findLast(({ from }) => from <= at) ?? null;

/**
 * The rules from the first ones on, each with when it begins to hold: what `ruleSetAt` looks up, for whoever asks about many
 * instants. Begins rise.
 *
 * @example
 * ```ts
 * import { rulesOverTime } from "./rule-change.ts";
 * rulesOverTime([], []); // => []
 * ```
 * Source: as `ruleSetAt`. Never refuses.
 */
export function rulesOverTime(changes: readonly RuleChange[], agreements: readonly RuleAgreement[]): readonly RulesInForce[] {
  const ordered = [...changes].sort((one, other) => one.settled - other.settled || one.number - other.number);
  const [first, ...later] = ordered;
  if (first === undefined) return [];
  const steps: Step[] = [
    ...later.map((change) => ({ at: Math.max(change.earliest, first.settled), change })),
    ...agreements.map((agreement) => ({ at: Math.max(agreement.settled, first.settled), agreement })),
  ];
  // What tightens goes before what is agreed to at the same instant, so that nobody agrees by rules that hold no more.
  steps.sort(
    (one, other) => one.at - other.at || Number("agreement" in one) - Number("agreement" in other) || numberOf(one) - numberOf(other),
  );
  const course = new Course(first);
  for (const step of steps) {
    course.beginUntil(step.at);
    if ("change" in step) course.tighten(step.change, step.at);
    else course.agree(step.agreement);
  }
  course.beginUntil(Number.POSITIVE_INFINITY);
  return course.stretches;
}

type Step = { readonly at: number } & ({ readonly change: RuleChange } | { readonly agreement: RuleAgreement });
const numberOf = (step: Step): number => ("change" in step ? step.change.number : step.agreement.number);

class Course {
  readonly stretches: RulesInForce[] = [];
  private newest: RuleChange;
  private begins: number | null = null;

  constructor(first: RuleChange) {
    this.newest = first;
    this.hold(first.settled, first.rules);
  }

  private get rules(): RuleSet {
    return this.stretches.at(-1)?.rules ?? this.newest.rules;
  }

  /** From an instant on; what held from the same one on never did. */
  private hold(from: number, rules: RuleSet): void {
    if (this.stretches.at(-1)?.from === from) this.stretches.pop();
    const { loosened } = ruleDifference(rules, this.newest.rules);
    const waiting = loosened.length === 0 ? null : { loosened, begins: this.begins };
    this.stretches.push({ from, rules, change: this.newest.number, waiting });
  }

  /** What was agreed to begins, if its time has come. */
  beginUntil(at: number): void {
    if (this.begins === null || at < this.begins) return;
    const from = this.begins;
    this.begins = null;
    this.hold(from, this.newest.rules);
  }

  tighten(change: RuleChange, at: number): void {
    const { strictest } = ruleDifference(this.rules, change.rules);
    const isNewer = change.settled > this.newest.settled || (change.settled === this.newest.settled && change.number > this.newest.number);
    if (isNewer) [this.newest, this.begins] = [change, null];
    this.hold(at, strictest);
  }

  agree({ change, by, duties, settled }: RuleAgreement): void {
    const isOfNewest = this.newest.submission === change && settled >= this.newest.settled;
    const isAnother = by !== null && this.newest.by !== null && by !== this.newest.by;
    const isEntitled = duties.some((duty) => this.rules.whoAgrees.value.includes(duty));
    if (!isOfNewest || !isAnother || !isEntitled || this.begins !== null) return;
    this.begins = nextWorkingDay(settled, this.rules);
    this.hold(settled, this.rules);
  }
}

/** From Thursday, 1 January 1970, on. */
const WEEKDAYS: readonly Weekday[] = ["thursday", "friday", "saturday", "sunday", "monday", "tuesday", "wednesday"];

/**
 * The beginning of the next working day after an instant, by a site's own clock; null where the zone is not known here, or
 * there is no working day. Where the clock leaves the hour of the beginning out, the day begins after the gap; where it has
 * that hour twice, with the second one.
 *
 * @param after milliseconds since 1970
 * @example
 * ```ts
 * import { nextWorkingDay } from "./rule-change.ts";
 * const site = { zone: "Europe/London", workingDays: ["monday" as const], dayBegins: "06:00" };
 * nextWorkingDay(Date.UTC(2026, 2, 27, 12), site) === Date.UTC(2026, 2, 30, 5); // => true
 * ```
 * Source: IANA time zones through core/time; which of two hours: ours. Never refuses.
 */
export function nextWorkingDay(after: number, site: Pick<RuleSet, "zone" | "workingDays" | "dayBegins">): number | null {
  const [clock, begins] = [zoneClock(site.zone), clockOfDay(site.dayBegins)];
  if (!clock.ok || !begins.ok) return null;
  const today = Math.floor(localAt(after, clock.value) / MILLISECONDS_PER_DAY);
  for (let day = today; day <= today + 8; day += 1) {
    const weekday = WEEKDAYS[((day % 7) + 7) % 7];
    if (weekday === undefined || !site.workingDays.includes(weekday)) continue;
    const begin = laterInstant(day * MILLISECONDS_PER_DAY + begins.value, clock.value);
    if (begin > after) return begin;
  }
  return null;
}

function laterInstant(local: number, clock: ZoneClock): number {
  const found: LocalInstants = instantsOf(local, clock);
  if (found.kind === "one") return found.instant;
  return found.kind === "two" ? found.later : found.firstAfter;
}
