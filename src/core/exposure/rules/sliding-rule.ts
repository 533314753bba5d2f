/** Limits on the mean of a sliding window: short-term limits, excursion limits, ceilings with an averaging time. */
import type { Finding, UndecidedBy } from "../../finding.ts";
import type { Limit } from "../../gas/index.ts";
import { decidingLevel } from "../break-even.ts";
import { levelSum } from "../exact-limit.ts";
import type { LimitTerms } from "../limit-terms.ts";
import { outcomeOfBounds, rangeOf } from "../shown-range.ts";
import { namedBounds, type SeenByWindow, seenByWindow, type WindowBounds, windowBounds } from "../window-bounds.ts";
import { madeFinding } from "./made-finding.ts";
import { type OpenSeconds, openSeconds } from "./open-time.ts";
import type { Subject } from "./subject.ts";

export const MINUTE_MS = 60_000;

/** The finding of the greatest mean over any window of the limit's own minutes. */
export function slidingFinding(subject: Subject, limit: Limit, terms: LimitTerms, minutes: number): Finding {
  const asked: Asked = { subject, limit, terms, windowMs: minutes * MINUTE_MS };
  const bounds = windowBounds(subject.period, asked.windowMs);
  const seen = seenByWindow(subject.period, asked.windowMs);
  const outcome = outcomeOfBounds(bounds, terms, limit.operator);
  const steps = outcome === "exceeds" ? null : levelThatDecides(asked, seen);
  return madeFinding(subject, {
    limit,
    method: "sliding-mean",
    unit: terms.unit,
    range: rangeOf(bounds, terms.scale),
    outcome,
    coverage: bounds.coverage,
    wStar: steps === null ? null : (steps / 10 ** subject.channel.decimals) * terms.scale,
    shiftRule: null,
    window: { from: bounds.from, to: bounds.to },
    ...leftUndecidedBy(asked, { seen, bounds, steps }),
    assumptions: [{ type: "level-constant-in-interval" }, ...(terms.assumption === null ? [] : [terms.assumption])],
  });
}

interface Asked {
  readonly subject: Subject;
  readonly limit: Limit;
  readonly terms: LimitTerms;
  readonly windowMs: number;
}

/** What was over range in no named shift no statement about unsampled time closes. */
function levelThatDecides({ subject, terms, windowMs }: Asked, { sums, within, before }: SeenByWindow): number | null {
  if (before.some(({ isNamed, sums: { high } }) => !isNamed && high === null)) return null;
  return decidingLevel(sums, windowMs, levelSum(terms.level, subject.channel.decimals, windowMs), within);
}

interface Found {
  readonly seen: SeenByWindow;
  readonly bounds: WindowBounds;
  readonly steps: number | null;
}

/**
 * Readings of no named shift keep it undecided where without them it would be decided, or where without them some level of
 * the open time would decide it.
 */
function leftUndecidedBy(
  asked: Asked,
  { seen, bounds, steps }: Found,
): { readonly open: OpenSeconds | null; readonly causes: readonly UndecidedBy[] } {
  const { subject, limit, terms, windowMs } = asked;
  const openIn = ({ high }: WindowBounds): OpenSeconds | null => (high === null ? openSeconds(subject.period, "any window") : null);
  if (seen.before.every(({ isNamed }) => isNamed)) return { open: openIn(bounds), causes: [] };
  const named = namedBounds(subject.period, windowMs);
  const open = openIn(named);
  const isTheirs =
    open === null
      ? outcomeOfBounds(named, terms, limit.operator) !== "undetermined"
      : steps === null && levelThatDecides(asked, seenByWindow(subject.period, windowMs, "named shifts")) !== null;
  return { open, causes: isTheirs ? [{ type: "readings-outside-shift" }] : [] };
}
