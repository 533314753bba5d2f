/** One channel over one shift, with everything that the rules of limits read from it. */
import type { Assumption, Ground } from "../../finding.ts";
import type { Unit } from "../../quantity/index.ts";
import type { Channel, ChannelSignal } from "../../recording/index.ts";
import { READING } from "../../recording/index.ts";
import type { AssessmentSettings } from "../assessment.ts";
import type { ReadingExtremes } from "../extremes.ts";
import type { MolarTerms } from "../limit-terms.ts";
import { isOpenOutside, type Period, restOfEightHours } from "../period.ts";

export interface Subject {
  readonly channel: Channel & { readonly unit: Unit };
  readonly gas: string;
  readonly made: ChannelSignal;
  readonly period: Period;
  /** Periods of the same channel before this one, for averages that look back over a day. */
  readonly earlier: readonly Period[];
  readonly extremes: ReadingExtremes;
  readonly greatest: GreatestLevels;
  readonly settings: AssessmentSettings;
  readonly molar: (regime: string) => MolarTerms | null;
  readonly grounds: readonly Ground[];
  readonly assumptions: readonly Assumption[];
}

/** Greatest level that was surely reached, and the greatest that can have been; steps. `high` null = open. */
export interface GreatestLevels {
  readonly low: number;
  readonly at: number | null;
  readonly high: number | null;
}

/**
 * Greatest level of a period. The last of spot readings has no length, yet it was read. Of logged interval peaks the
 * greatest was reached; of interval means some instant reached at least the mean, and no bound is known above.
 */
export function greatestLevels(channel: Channel, made: ChannelSignal, period: Period, extremes: ReadingExtremes): GreatestLevels {
  const { low, high } = period.sums;
  const shown = extremes.greatest;
  const least = channel.kind === "interval peak" ? (shown?.steps ?? 0) : Math.max(low.greatest, lastLow(channel, made));
  const open = high === null || isOpenOutside(period) || lastIsOpen(channel, made);
  const most = open ? null : Math.max(least, high.greatest, lastHigh(channel, made));
  return { low: least, at: shown?.at ?? null, high: most };
}

const isReading = (code: number | undefined): boolean =>
  code !== READING.none && code !== READING.fault && code !== READING.overRangeUnbounded;

function lastLow(channel: Channel, { last }: ChannelSignal): number {
  if (last === null || !isReading(channel.codes?.[last.row])) return Number.NEGATIVE_INFINITY;
  return channel.codes?.[last.row] === READING.underRange ? 0 : (channel.values[last.row] ?? 0);
}

function lastHigh(channel: Channel, { last }: ChannelSignal): number {
  if (last === null || !isReading(channel.codes?.[last.row])) return Number.NEGATIVE_INFINITY;
  return (channel.uppers ?? channel.values)[last.row] ?? 0;
}

/** Over range, or at the top of the range, where an instrument may stop. */
function lastIsOpen(channel: Channel, { last }: ChannelSignal): boolean {
  if (last === null) return false;
  const code = channel.codes?.[last.row];
  if (code === READING.overRange || code === READING.overRangeUnbounded) return true;
  return channel.rangeTop !== null && isReading(code) && (channel.values[last.row] ?? 0) >= channel.rangeTop;
}

/** Seconds of the shift that nobody measured and nobody spoke for; the rest of 8 h where the shift is not known. */
export function unsampledSeconds({ made, period }: Subject): number {
  const rest = period.unsampled.kind === "open" ? restOfEightHours(period) : 0;
  const within = period.unsampled.kind === "open" ? made.tally.unsampledMs : 0;
  return (within + rest) / 1000;
}

/** Share of the shift that was really measured; of 8 h where the shift is not known and was shorter. */
export const shiftCoverage = ({ period }: Subject): number =>
  period.stretch.sampledMs / (period.stretch.lengthMs + restOfEightHours(period));
