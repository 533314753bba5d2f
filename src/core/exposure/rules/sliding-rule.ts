/** Limits on the mean of a sliding window: short-term limits, excursion limits, ceilings with an averaging time. */
import type { Finding } from "../../finding.ts";
import type { Limit } from "../../gas/index.ts";
import { decidingLevel } from "../break-even.ts";
import { levelSum } from "../exact-limit.ts";
import type { LimitTerms } from "../limit-terms.ts";
import { seenByWindow, windowBounds } from "../period.ts";
import { outcomeOfBounds, rangeOf } from "../shown-range.ts";
import { madeFinding } from "./made-finding.ts";
import { openSeconds } from "./open-time.ts";
import type { Subject } from "./subject.ts";

export const MINUTE_MS = 60_000;

/** The finding of the greatest mean over any window of the limit's own minutes. */
export function slidingFinding(subject: Subject, limit: Limit, terms: LimitTerms, minutes: number): Finding {
  const windowMs = minutes * MINUTE_MS;
  const bounds = windowBounds(subject.period, windowMs);
  const outcome = outcomeOfBounds(bounds, terms, limit.operator);
  const { decimals } = subject.channel;
  const { sums, within } = seenByWindow(subject.period, windowMs);
  const steps = outcome === "exceeds" ? null : decidingLevel(sums, windowMs, levelSum(terms.level, decimals, windowMs), within);
  return madeFinding(subject, {
    limit,
    method: "sliding-mean",
    unit: terms.unit,
    range: rangeOf(bounds, terms.scale),
    outcome,
    coverage: bounds.coverage,
    wStar: steps === null ? null : (steps / 10 ** decimals) * terms.scale,
    shiftRule: null,
    window: { from: bounds.from, to: bounds.to },
    open: bounds.high === null ? openSeconds(subject.period, "any window") : null,
    assumptions: [{ type: "level-constant-in-interval" }, ...(terms.assumption === null ? [] : [terms.assumption])],
  });
}
