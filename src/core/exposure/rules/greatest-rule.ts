/** Limits on the greatest value: ceilings at any instant, immediately dangerous values, means over any shorter period. */
import type { Finding, UndecidedBy } from "../../finding.ts";
import type { Limit } from "../../gas/index.ts";
import type { LimitTerms } from "../limit-terms.ts";
import { sumsAtWord } from "../period.ts";
import { bareValue, type ExactBounds, outcomeOfBounds, rangeOf } from "../shown-range.ts";
import { madeFinding } from "./made-finding.ts";
import { type Subject, shiftCoverage } from "./subject.ts";

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
  const { at } = subject.greatest;
  return madeFinding(subject, {
    limit,
    method: "greatest-value",
    unit: terms.unit,
    range: rangeOf(bounds, terms.scale),
    outcome: outcomeOfBounds(bounds, terms, limit.operator),
    coverage: shiftCoverage(subject),
    wStar: bounds.high === null ? terms.level.value * terms.scale : null,
    shiftRule: null,
    window: at === null ? null : { from: at, to: at },
    assumptions: terms.assumption === null ? [] : [terms.assumption],
    causes: hiddenCause(hidden),
  });
}

/** Whether the channel logs interval means that do not stand for what happened within the interval. */
export const meansHidePeaks = ({ channel, settings }: Subject): boolean =>
  channel.kind === "interval mean" && !settings.meansStandForCeilings;

export const hiddenCause = (hidden: boolean): readonly UndecidedBy[] => (hidden ? [{ type: "interval-average-hides-peaks" }] : []);

/** Both ends of the greatest level; the upper one open also where logged means hide peaks. */
export function greatestBounds(subject: Subject, hidden: boolean): ExactBounds {
  const { channel, greatest } = subject;
  const high = hidden ? null : greatest.high;
  const best = high === null ? null : likelyGreatest(subject);
  const value = (steps: number) => bareValue(steps, channel.decimals);
  return {
    low: value(Number.isFinite(greatest.low) ? greatest.low : 0),
    high: high === null ? null : value(high),
    best: best === null ? null : value(best),
  };
}

/** The greatest reading as shown, or a declared worst case at its word; none where readings conflict or were over range. */
function likelyGreatest({ channel, extremes, period }: Subject): number | null {
  const { greatest, apart } = extremes;
  // Of logged peaks every interval is known as a bound only, yet the greatest of them is what was shown.
  const isInDoubt = channel.kind === "interval peak" ? apart > 0 : period.stretch.best === null;
  return greatest === null || greatest.atLeast || isInDoubt ? null : Math.max(greatest.steps, sumsAtWord(period.around).greatest);
}
