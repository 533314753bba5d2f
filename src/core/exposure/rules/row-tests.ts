/** The tests of a three-level row on one signal: minutes above the ceiling, the peak, and once only. */
import type { Limit, ThreeLevel } from "../../gas/index.ts";
import { decimalFromText, stepsAround } from "../../quantity/index.ts";
import { nextLevel, OPEN, type TwoEdgedSignal } from "../../recording/index.ts";
import { openTime } from "../break-even.ts";
import { type EdgeSums, type SignalSums, withUpperEdge } from "../edge-sums.ts";
import { stepsAtMost } from "../exact-limit.ts";
import { type LimitTerms, limitTerms, type MolarTerms } from "../limit-terms.ts";
import { type OnceOnlyAnswer, onceOnly } from "../once-only.ts";
import { greatestTimeWithin, runsAbove, timeAbove, timesAbove } from "../time-above.ts";
import { MINUTE_MS } from "./sliding-rule.ts";
import { lastHigh, lastIsOpen, type Subject, sumsWithLast } from "./subject.ts";

export interface RowTerms {
  readonly levels: ThreeLevel;
  readonly average: LimitTerms | null;
  readonly ceiling: LimitTerms;
  readonly peak: LimitTerms;
}

/** Null where the units do not meet. */
export function rowTerms({ channel, molar }: Subject, limit: Limit, levels: ThreeLevel): RowTerms | null {
  const weights: MolarTerms | null = limit.statedAs === undefined ? molar(limit.regime) : null;
  const terms = (value: number): LimitTerms | null => limitTerms([{ value, unit: levels.unit }], channel.unit, weights);
  const ceiling = terms(levels.ceiling);
  const peak = terms(levels.peak);
  const average = limit.published === null ? null : limitTerms([limit.published], channel.unit, weights);
  return ceiling === null || peak === null || (limit.published !== null && average === null) ? null : { levels, average, ceiling, peak };
}

/** Exactly the ceiling is not above it. In the shift, or the greatest total in any window of the row's own length. */
export function minutesAbove({ channel }: Subject, { ceiling, levels }: RowTerms, edge: EdgeSums): number {
  const threshold = stepsAtMost(ceiling.level, channel.decimals);
  const ms =
    levels.withinMinutes === null
      ? timeAbove(edge, threshold)
      : greatestTimeWithin(runsAbove(edge, threshold), levels.withinMinutes * MINUTE_MS);
  return ms / MINUTE_MS;
}

/** The same of both edges. */
export function minutesOfEdges(subject: Subject, row: RowTerms, sums: SignalSums): { readonly low: number; readonly upper: number } {
  const { low, upper } = sums;
  if (row.levels.withinMinutes !== null) return { low: minutesAbove(subject, row, low), upper: minutesAbove(subject, row, upper) };
  const ms = timesAbove(sums, stepsAtMost(row.ceiling.level, subject.channel.decimals));
  return { low: ms.low / MINUTE_MS, upper: ms.upper / MINUTE_MS };
}

/** Whether a level above the ceiling was declared for time around the recording: how long that was is not known. */
export function mayBeAboveAround({ channel, period }: Subject, { ceiling }: RowTerms): boolean {
  const { unsampled, shift } = period;
  return shift === null && unsampled.kind === "level" && unsampled.steps > stepsAtMost(ceiling.level, channel.decimals);
}

export function onceOnlyOf(subject: Subject, { ceiling, peak, levels }: RowTerms, sums: SignalSums): OnceOnlyAnswer {
  const { decimals } = subject.channel;
  const measurable = measurableSteps(subject);
  const above = stepsAtMost(ceiling.level, decimals);
  const seen = sumsWithLast(subject, sums, Math.min(measurable ?? Infinity, above + 1));
  return onceOnly(seen.sums, {
    ceiling: above,
    peak: stepsAtMost(peak.level, decimals),
    longestMs: levels.longestMinutes * MINUTE_MS + seen.addedMs,
    measurable,
  });
}

/** Least steps that count as measurable; null where nobody declared it. */
function measurableSteps({ channel, settings, gas }: Subject): number | null {
  const text = settings.measurableThreshold(gas);
  const threshold = text === null ? null : decimalFromText(text);
  return threshold?.ok === true ? stepsAround(threshold.value, channel.decimals).above : null; // what is no number was refused
}

/**
 * Level at or below which open time, declared worst cases included, leaves all tests but the average met; in steps.
 * Three levels come into question: the peak (where open time is short), the ceiling, and the last level that is not
 * measurable. Null where none of them does.
 */
export function decidingSteps(subject: Subject, row: RowTerms): number | null {
  const { channel, period, made, settings } = subject;
  const { opened } = openTime(period.around);
  if (opened === null || lastIsOpen(channel, made, settings.declarations)) return null;
  const measurable = measurableSteps(subject);
  const lengthKnown = period.shift !== null || period.unsampled.kind === "zero";
  const levels = [
    ...(lengthKnown ? [stepsAtMost(row.peak.level, channel.decimals)] : []),
    stepsAtMost(row.ceiling.level, channel.decimals),
    ...(row.levels.onceOnly && measurable !== null && measurable > 0 ? [measurable - 1] : []),
  ].sort((first, second) => second - first);
  return levels.find((level) => isMetAt(subject, row, opened, level)) ?? null;
}

/** Whether every test but the average is met with open time at a level. */
function isMetAt(subject: Subject, row: RowTerms, opened: TwoEdgedSignal, level: number): boolean {
  const { low, high } = opened;
  const closed = (high ?? low).slice();
  for (let i = nextLevel(closed, OPEN, -1); i >= 0; i = nextLevel(closed, OPEN, i)) {
    if ((low[i] as number) > level) return false; // over range: it was at least the range top
    closed[i] = level;
  }
  const sums = withUpperEdge(subject.period.around, closed, Math.max(opened.largest, level));
  const { upper } = sums;
  const last = lastHigh(subject.channel, subject.made, subject.settings.declarations);
  return (
    Math.max(upper.greatest, last) <= stepsAtMost(row.peak.level, subject.channel.decimals) &&
    minutesAbove(subject, row, upper) <= row.levels.longestMinutes &&
    (!row.levels.onceOnly || onceOnlyOf(subject, row, sums).outcome === "within")
  );
}
