/** Limits on the average of a working day, by the shift treatment of their regime. */
import type { Finding } from "../../finding.ts";
import { type Limit, regimeById } from "../../gas/index.ts";
import { type AverageBounds, averageBounds, type ShiftRule } from "../average.ts";
import { limitDigits } from "../exact-limit.ts";
import { briefScalaDaily } from "../extended-shift.ts";
import type { LimitTerms } from "../limit-terms.ts";
import { outcomeOfBounds, rangeOf } from "../shown-range.ts";
import { madeFinding } from "./made-finding.ts";
import { type OpenSeconds, openSeconds } from "./open-time.ts";
import type { Subject } from "./subject.ts";

const HOUR_MS = 3_600_000;

/** The finding of an 8-hour (or 10-hour) average; with the site's model for long shifts, a second one of its own. */
export function averageFindings(subject: Subject, limit: Limit, terms: LimitTerms): readonly Finding[] {
  const finding = averageFinding(subject, limit, { terms, rule: shiftRuleOf(limit), name: shiftRuleOf(limit), lowered: null });
  return [finding, ...longShiftFinding(subject, limit, terms)];
}

/**
 * What is averaged, and over what: nitrous oxide over the time exposed, all else as the regime has it, regimes of one's own
 * the stricter European way.
 *
 * @example
 * ```ts
 * import { limitById } from "../../gas/index.ts";
 * import { shiftRuleOf } from "./average-rule.ts";
 * ["US-OSHA/carbon_monoxide/twa", "US-NIOSH/nitrous_oxide/twa"].map((id) => limitById(id)).map((limit) => limit && shiftRuleOf(limit)); // => ["worst-8h", "time-exposed"]
 * ```
 * Never refuses. Source: as `ShiftRule`; own regimes: ours.
 */
export function shiftRuleOf(limit: Limit): ShiftRule {
  if (limit.id === "US-NIOSH/nitrous_oxide/twa") return "time-exposed";
  return regimeById(limit.regime)?.shiftTreatment ?? "any-24h-over-8h";
}

interface AverageTerms {
  readonly terms: LimitTerms;
  readonly rule: ShiftRule;
  readonly name: string;
  readonly lowered: number | null;
}

function averageFinding(subject: Subject, limit: Limit, { terms, rule, name, lowered }: AverageTerms): Finding {
  const bounds = averageBounds(subject.period, rule, subject.earlier);
  return madeFinding(subject, {
    limit,
    method: "average",
    unit: terms.unit,
    range: rangeOf(bounds, terms.scale),
    outcome: outcomeOfBounds(bounds, terms, limit.operator),
    coverage: bounds.coverage,
    wStar: breakEven(subject, bounds, terms),
    holds: bounds.isSliding ? "at any moment" : "as an average",
    shiftRule: name,
    lowered,
    window: bounds.window,
    open: bounds.high === null ? openOf(subject, bounds) : null,
    grounds: [{ type: "divisor", hours: bounds.divisorMs / HOUR_MS, why: bounds.why }],
    assumptions: terms.assumption === null ? [] : [terms.assumption],
  });
}

/** An average that slides is no average over the whole period; one over a day may be open in an earlier shift alone. */
export function openOf({ period }: Subject, bounds: AverageBounds): OpenSeconds {
  const open = openSeconds(period, bounds.isSliding ? "any window" : "whole period");
  return open.overRange + open.unsampled > 0 ? open : { overRange: 0, unsampled: bounds.unknownMs / 1000 };
}

function breakEven(subject: Subject, bounds: AverageBounds, terms: LimitTerms): number | null {
  const steps = bounds.breakEven(terms.level);
  return steps === null ? null : (steps / 10 ** subject.channel.decimals) * terms.scale;
}

/** Brief & Scala: the mean of the shift against a limit lowered for its length. Chosen by the site, never by default. */
function longShiftFinding(subject: Subject, limit: Limit, terms: LimitTerms): readonly Finding[] {
  // It lowers limits on an 8-hour average only: NIOSH averages of up to 10 h have their own divisor.
  if (subject.settings.longShiftModel === undefined || subject.period.shift === null || limit.averagingMinutes !== 480) return [];
  const factor = briefScalaDaily(subject.period.stretch.lengthMs / HOUR_MS);
  if (!factor.ok || factor.value >= 1) return [];
  const level = limitDigits(terms.level.value * factor.value);
  const lowered = terms.published * factor.value;
  return [averageFinding(subject, limit, { terms: { ...terms, level }, rule: "whole-shift", name: "brief-scala-daily", lowered })];
}
