/** Table Z-2 of 29 CFR 1910.1000: an average, an acceptable ceiling, and a maximum peak for at most so many minutes. */
import type { Finding, FindingPart, Range } from "../../finding.ts";
import type { Limit, ThreeLevel } from "../../gas/index.ts";
import { type CombinedOutcome, combinedOutcome, type Outcome, outcomeOf } from "../../outcome.ts";
import { averageBounds } from "../average.ts";
import type { LimitTerms } from "../limit-terms.ts";
import type { OnceOnlyAnswer } from "../once-only.ts";
import { isOpenOutside } from "../period.ts";
import { outcomeOfBounds, rangeOf } from "../shown-range.ts";
import { openOf, shiftRuleOf } from "./average-rule.ts";
import { greatestBounds, hiddenCause, meansHidePeaks } from "./greatest-rule.ts";
import { madeFinding } from "./made-finding.ts";
import { type OpenSeconds, openSeconds } from "./open-time.ts";
import { decidingSteps, mayBeAboveAround, minutesAbove, minutesOfEdges, onceOnlyOf, type RowTerms, rowTerms } from "./row-tests.ts";
import { lastIsOpen, type Subject, shiftCoverage } from "./subject.ts";

/** The finding of a three-level row: four tests, each with two ends, combined; null where the units do not meet. */
export function threeLevelFinding(subject: Subject, limit: Limit, levels: ThreeLevel): Finding | null {
  const row = rowTerms(subject, limit, levels);
  if (row === null) return null;
  const average = row.average === null ? null : averagePart(subject, limit, row.average);
  const once = levels.onceOnly ? onceOnlyOf(subject, row, subject.period.around) : null;
  const hidden = meansHidePeaks(subject);
  const peak = peakPart(subject, row, hidden);
  const minutes = minutesPart(subject, row, hidden);
  const parts = [...(average === null ? [] : [average.part]), peak, minutes, ...(once === null ? [] : [oncePart(once)])];
  const outcome = asOutcome(combinedOutcome(parts.map((part) => part.outcome)));
  const shown = average === null ? peak : average.part;
  return madeFinding(subject, {
    limit,
    method: "three-level",
    unit: row.ceiling.unit,
    range: { low: shown.low, best: shown.best, high: shown.high },
    outcome,
    coverage: average === null ? shiftCoverage(subject) : average.coverage,
    wStar: outcome === "exceeds" || hidden ? null : rowBreakEven(subject, row, average),
    shiftRule: row.average === null ? null : shiftRuleOf(limit),
    window: average?.window ?? null,
    parts,
    assumptions: subject.channel.kind === "interval mean" ? [{ type: "level-constant-in-interval" }] : [],
    open: rowOpen(subject, average),
    causes: [
      ...(once?.needsThreshold === true ? [{ type: "measurable-threshold-not-declared" } as const] : []),
      ...hiddenCause(hidden && peak.outcome === "undetermined"),
    ],
  });
}

/** The greatest value is the first to be open; the average can be so by an earlier shift alone. */
function rowOpen(subject: Subject, average: AverageAnswer | null): OpenSeconds | null {
  const { channel, made, greatest, settings, period } = subject;
  const isLastOverRange = lastIsOpen(channel, made, settings.declarations);
  if (greatest.high === null) return { ...openSeconds(period, "any window"), isLastOverRange };
  return average?.open ?? null;
}

/** What all tests of the row together leave to open time, as a level that it was at no moment above. */
function rowBreakEven(subject: Subject, row: RowTerms, average: AverageAnswer | null): number | null {
  const steps = decidingSteps(subject, row);
  if (steps === null) return null;
  const level = (steps / 10 ** subject.channel.decimals) * row.ceiling.scale;
  if (average === null || average.part.outcome === "within") return level;
  return average.wStar === null ? null : Math.min(level, average.wStar);
}

interface AverageAnswer {
  readonly part: FindingPart;
  readonly coverage: number;
  readonly wStar: number | null;
  readonly window: Finding["window"];
  readonly open: OpenSeconds | null;
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
    open: bounds.high === null ? openOf(subject, bounds) : null,
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

/** An open stretch, and an interval whose mean hides peaks, can have been above the ceiling. */
function minutesPart(subject: Subject, row: RowTerms, hidden: boolean): FindingPart {
  const { sums } = subject.period;
  const isOpen = hidden || isOpenOutside(subject.period) || mayBeAboveAround(subject, row);
  const { low, upper } = isOpen ? { low: minutesAbove(subject, row, sums.low), upper: null } : minutesOfEdges(subject, row, sums);
  const range: Range = { low, high: upper, best: upper === low ? low : null };
  return {
    ...range,
    name: "minutes above the ceiling",
    limit: row.levels.longestMinutes,
    unit: "min",
    outcome: outcomeOf(range, row.levels.longestMinutes, ">"),
  };
}

function oncePart({ outcome, fewestRuns, mostRuns }: OnceOnlyAnswer): FindingPart {
  const best = mostRuns === fewestRuns ? fewestRuns : null;
  return { name: "once only", limit: 1, unit: "count", outcome, low: fewestRuns, best, high: mostRuns };
}

/** Parts that are computed always have an outcome of their own. */
const asOutcome = (combined: CombinedOutcome): Outcome => (combined === "exceeds" || combined === "within" ? combined : "undetermined");
