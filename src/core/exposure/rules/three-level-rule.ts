/** Table Z-2 of 29 CFR 1910.1000: an average, an acceptable ceiling, and a maximum peak for at most so many minutes. */
import type { Finding, FindingPart, Range } from "../../finding.ts";
import type { Limit, ThreeLevel } from "../../gas/index.ts";
import { type CombinedOutcome, combinedOutcome, type Outcome, outcomeOf } from "../../outcome.ts";
import { averageBounds } from "../average.ts";
import { edgeSums } from "../edge-sums.ts";
import { limitDigits, stepsAtLeast, stepsAtMost } from "../exact-limit.ts";
import { type LimitTerms, limitTerms, type MolarTerms } from "../limit-terms.ts";
import { type OnceOnlyAnswer, onceOnly } from "../once-only.ts";
import { isOpenOutside } from "../period.ts";
import { outcomeOfBounds, rangeOf } from "../shown-range.ts";
import { greatestTimeWithin, runsAbove, timeAbove } from "../time-above.ts";
import { shiftRuleOf } from "./average-rule.ts";
import { greatestBounds, hiddenCause, meansHidePeaks } from "./greatest-rule.ts";
import { madeFinding } from "./made-finding.ts";
import { MINUTE_MS } from "./sliding-rule.ts";
import { type Subject, shiftCoverage, sumsWithLast } from "./subject.ts";

/** The finding of a three-level row: four tests, each with two ends, combined; null where the units do not meet. */
export function threeLevelFinding(subject: Subject, limit: Limit, levels: ThreeLevel): Finding | null {
  const row = rowTerms(subject, limit, levels);
  if (row === null) return null;
  const average = row.average === null ? null : averagePart(subject, limit, row.average);
  const once = levels.onceOnly ? onceOnlyOf(subject, row) : null;
  const hidden = meansHidePeaks(subject);
  const peak = peakPart(subject, row, hidden);
  const minutes = minutesPart(subject, row, hidden);
  const parts = [
    ...(average === null ? [] : [average.part]),
    peak,
    minutes,
    ...(once === null || subject.settings.measurableThreshold(subject.gas) === null ? [] : [oncePart(once)]),
  ];
  return madeFinding(subject, {
    limit,
    method: "three-level",
    unit: row.ceiling.unit,
    range:
      average === null
        ? { low: peak.low, best: peak.best, high: peak.high }
        : { low: average.part.low, best: average.part.best, high: average.part.high },
    outcome: asOutcome(combinedOutcome([...parts.map(({ outcome }) => outcome), ...(once === null ? [] : [once.outcome])])),
    coverage: average === null ? shiftCoverage(subject) : average.coverage,
    wStar: average?.wStar ?? null,
    shiftRule: row.average === null ? null : shiftRuleOf(limit),
    window: average?.window ?? null,
    parts,
    causes:
      once?.needsThreshold === true
        ? [{ type: "measurable-threshold-not-declared" }]
        : hiddenCause(hidden && peak.outcome === "undetermined"),
  });
}

interface RowTerms {
  readonly levels: ThreeLevel;
  readonly average: LimitTerms | null;
  readonly ceiling: LimitTerms;
  readonly peak: LimitTerms;
}

function rowTerms({ channel, molar }: Subject, limit: Limit, levels: ThreeLevel): RowTerms | null {
  const weights: MolarTerms | null = limit.statedAs === undefined ? molar(limit.regime) : null;
  const terms = (value: number): LimitTerms | null => limitTerms([{ value, unit: levels.unit }], channel.unit, weights);
  const ceiling = terms(levels.ceiling);
  const peak = terms(levels.peak);
  const average = limit.published === null ? null : limitTerms([limit.published], channel.unit, weights);
  return ceiling === null || peak === null || (limit.published !== null && average === null) ? null : { levels, average, ceiling, peak };
}

interface AverageAnswer {
  readonly part: FindingPart;
  readonly coverage: number;
  readonly wStar: number | null;
  readonly window: Finding["window"];
}

function averagePart(subject: Subject, limit: Limit, terms: LimitTerms): AverageAnswer {
  const bounds = averageBounds(subject.period, shiftRuleOf(limit), subject.earlier);
  const steps = bounds.breakEven(terms.level);
  return {
    part: {
      ...rangeOf(bounds, terms.scale),
      name: "average",
      limit: terms.level.value * terms.scale,
      unit: terms.unit,
      outcome: outcomeOfBounds(bounds, terms, ">"),
    },
    coverage: bounds.coverage,
    wStar: steps === null ? null : (steps / 10 ** subject.channel.decimals) * terms.scale,
    window: bounds.window,
  };
}

/** Exactly the peak is allowed. */
function peakPart(subject: Subject, { peak }: RowTerms, hidden: boolean): FindingPart {
  const bounds = greatestBounds(subject, hidden);
  return {
    ...rangeOf(bounds, peak.scale),
    name: "peak",
    limit: peak.level.value * peak.scale,
    unit: peak.unit,
    outcome: outcomeOfBounds(bounds, peak, ">"),
  };
}

/** Exactly the ceiling is not above it; an open stretch, and an interval whose mean hides peaks, can have been above it. */
function minutesPart({ period, channel }: Subject, { ceiling, levels }: RowTerms, hidden: boolean): FindingPart {
  const { sums, signal } = period;
  const threshold = stepsAtMost(ceiling.level, channel.decimals);
  const upper = sums.high ?? edgeSums(signal.high ?? signal.low, signal.timing);
  const within = levels.withinMinutes === null ? null : levels.withinMinutes * MINUTE_MS;
  const above = (edge: typeof upper): number =>
    (within === null ? timeAbove(edge, threshold) : greatestTimeWithin(runsAbove(edge, threshold), within)) / MINUTE_MS;
  const low = above(sums.low);
  const high = hidden || isOpenOutside(period) ? null : upper === sums.low ? low : above(upper);
  const range: Range = { low, high, best: high === low ? low : null };
  return {
    ...range,
    name: "minutes above the ceiling",
    limit: levels.longestMinutes,
    unit: "min",
    outcome: outcomeOf(range, levels.longestMinutes, ">"),
  };
}

function onceOnlyOf(subject: Subject, { ceiling, peak, levels }: RowTerms): OnceOnlyAnswer {
  const { channel, settings, gas } = subject;
  const threshold = settings.measurableThreshold(gas);
  const measurable = threshold === null ? null : stepsAtLeast(limitDigits(Number(threshold)), channel.decimals);
  const above = stepsAtMost(ceiling.level, channel.decimals);
  const { sums, addedMs } = sumsWithLast(subject, Math.min(measurable ?? Infinity, above + 1));
  return onceOnly(sums, {
    ceiling: above,
    peak: stepsAtMost(peak.level, channel.decimals),
    longestMs: levels.longestMinutes * MINUTE_MS + addedMs,
    measurable,
  });
}

function oncePart({ outcome, runsLow, runsHigh }: OnceOnlyAnswer): FindingPart {
  return { name: "once only", limit: 1, unit: "count", outcome, low: runsLow, best: runsHigh === runsLow ? runsLow : null, high: runsHigh };
}

/** Parts that are computed always have an outcome of their own. */
const asOutcome = (combined: CombinedOutcome): Outcome => (combined === "exceeds" || combined === "within" ? combined : "undetermined");
