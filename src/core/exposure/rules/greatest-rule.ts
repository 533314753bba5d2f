/** Limits on the greatest value: ceilings at any instant, immediately dangerous values, means over any shorter period. */
import type { Finding, Ground, UndecidedBy } from "../../finding.ts";
import type { Limit } from "../../gas/index.ts";
import { openTime } from "../break-even.ts";
import { stepsAtLeast, stepsAtMost } from "../exact-limit.ts";
import type { LimitTerms } from "../limit-terms.ts";
import { bareValue, type ExactBounds, outcomeOfBounds, rangeOf } from "../shown-range.ts";
import { windowBounds } from "../window-bounds.ts";
import { madeFinding } from "./made-finding.ts";
import { openSeconds } from "./open-time.ts";
import { MINUTE_MS } from "./sliding-rule.ts";
import { lastHigh, lastIsOpen, type Subject, shiftCoverage } from "./subject.ts";

/**
 * The finding of the greatest level at any instant.
 *
 * Logged means hide what was above them: a mean above the limit proves an excess, one below proves nothing, unless the
 * site declared that means stand as they are. "Any period not exceeding 15 min" has no such doubt: no window mean is
 * above the largest logged mean.
 */
export function greatestFinding(subject: Subject, limit: Limit, terms: LimitTerms): Finding {
  const hidden = limit.kind !== "any-shorter-period" && meansHidePeaks(subject);
  const bounds = greatestBounds(subject, hidden);
  const { at, high } = subject.greatest;
  const isLastOverRange = lastIsOpen(subject.channel, subject.made, subject.settings.declarations);
  return madeFinding(subject, {
    limit,
    method: "greatest-value",
    unit: terms.unit,
    range: rangeOf(bounds, terms.scale),
    outcome: outcomeOfBounds(bounds, terms, limit.operator),
    coverage: shiftCoverage(subject),
    wStar: hidden ? null : decidingValue(subject, limit, terms),
    open: high === null ? { ...openSeconds(subject.period, "any window"), isLastOverRange } : null,
    shiftRule: null,
    window: at === null ? null : { from: at, to: at },
    assumptions: terms.assumption === null ? [] : [terms.assumption],
    causes: hiddenCause(hidden),
    grounds: asAverage(subject, limit, terms),
  });
}

const FALLBACK_MINUTES = 15;

/**
 * OSHA's ceiling as a 15-minute average at any time of the day, "if instantaneous monitoring is not feasible": 29 CFR
 * 1910.1000(a)(1) [read]. Whether that holds beside a logging instrument is for a person to say, so it moves no outcome.
 */
function asAverage({ period }: Subject, limit: Limit, terms: LimitTerms): readonly Ground[] {
  if (limit.kind !== "ceiling" || limit.regime !== "US-OSHA") return [];
  const bounds = windowBounds(period, FALLBACK_MINUTES * MINUTE_MS);
  const { low, high } = rangeOf(bounds, terms.scale);
  const outcome = outcomeOfBounds(bounds, terms, limit.operator);
  return [{ type: "ceiling-as-average", minutes: FALLBACK_MINUTES, low, high, unit: terms.unit, outcome }];
}

/** Open time decides at the limit itself, unless readings that are intervals pass it by their own upper ends. */
function decidingValue({ channel, period, made, settings }: Subject, { operator }: Limit, { level, scale }: LimitTerms): number | null {
  const { opened, intervals } = openTime(period.around);
  const most = operator === ">" ? stepsAtMost(level, channel.decimals) : stepsAtLeast(level, channel.decimals) - 1;
  const known = Math.max((intervals ?? period.sums.low).greatest, lastHigh(channel, made, settings.declarations));
  if ((opened === null && !lastIsOpen(channel, made, settings.declarations)) || known > most) return null;
  return (operator === ">" ? level.value : most / 10 ** channel.decimals) * scale;
}

/** Whether the channel logs interval means that do not stand for what happened within the interval. */
export const meansHidePeaks = ({ channel, settings }: Subject): boolean =>
  channel.kind === "interval mean" && !settings.meansStandForCeilings;

export const hiddenCause = (hidden: boolean): readonly UndecidedBy[] => (hidden ? [{ type: "interval-average-hides-peaks" }] : []);

/** All ends of the greatest level; the upper one open also where logged means hide peaks. */
export function greatestBounds({ channel, greatest }: Subject, hidden: boolean): ExactBounds {
  const value = (steps: number | null) => (hidden || steps === null ? null : bareValue(steps, channel.decimals));
  return { low: bareValue(greatest.low, channel.decimals), high: value(greatest.high), best: value(greatest.best) };
}
