/** Limits on the mean of a sliding window: short-term limits, excursion limits, ceilings with an averaging time. */
import type { Finding } from "../../finding.ts";
import type { Limit } from "../../gas/index.ts";
import { OPEN, type TwoEdgedSignal } from "../../recording/index.ts";
import { breakEvenLevel } from "../break-even.ts";
import { edgeSums } from "../edge-sums.ts";
import { levelSum } from "../exact-limit.ts";
import { greatestWindow } from "../greatest-window.ts";
import type { LimitTerms } from "../limit-terms.ts";
import { windowBounds } from "../period.ts";
import { outcomeOfBounds, rangeOf } from "../shown-range.ts";
import { madeFinding } from "./made-finding.ts";
import type { Subject } from "./subject.ts";

export const MINUTE_MS = 60_000;

/** The finding of the greatest mean over any window of the limit's own minutes. */
export function slidingFinding(subject: Subject, limit: Limit, terms: LimitTerms, minutes: number): Finding {
  const windowMs = minutes * MINUTE_MS;
  const bounds = windowBounds(subject.period, windowMs);
  const { signal } = subject.period.around;
  const level = levelSum(terms.level, signal.decimals, windowMs);
  const canDecide = bounds.high === null && !knownPartPasses(subject, signal, { windowMs, level });
  const steps = canDecide ? breakEvenLevel(signal, windowMs, level, null) : null;
  return madeFinding(subject, {
    limit,
    method: "sliding-mean",
    unit: terms.unit,
    range: rangeOf(bounds, terms.scale),
    outcome: outcomeOfBounds(bounds, terms, limit.operator),
    coverage: bounds.coverage,
    wStar: steps === null ? null : (steps / 10 ** signal.decimals) * terms.scale,
    shiftRule: null,
    window: { from: bounds.from, to: bounds.to },
    assumptions: [{ type: "level-constant-in-interval" }, ...(terms.assumption === null ? [] : [terms.assumption])],
  });
}

/** Where readings are intervals their own upper ends may pass the limit: then no statement about open time decides it. */
function knownPartPasses(
  { made, settings, gas }: Subject,
  { low, high, timing }: TwoEdgedSignal,
  { windowMs, level }: { readonly windowMs: number; readonly level: number },
): boolean {
  const isPlain = made.tally.intervalReadings === 0 && made.tally.negativeMs === 0 && settings.deadBand(gas) === null;
  if (isPlain || high === null) return false;
  const known = high.map((upper, i) => (upper === OPEN ? (low[i] as number) : upper)); // as long as high
  return greatestWindow(edgeSums(known, timing), windowMs, null).sum > level;
}
