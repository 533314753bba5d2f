/** One channel over one shift, with everything that the rules of limits read from it. */
import type { Assumption, Ground } from "../../finding.ts";
import type { Unit } from "../../quantity/index.ts";
import type { Channel, ChannelSignal } from "../../recording/index.ts";
import { OPEN, READING, STRETCH, type TwoEdgedSignal } from "../../recording/index.ts";
import type { AssessmentSettings } from "../assessment.ts";
import { edgeAt, type SignalSums, signalSums } from "../edge-sums.ts";
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

/** The last of spot readings and its instant; null where there is none, or it holds no reading. */
export function lastReached({ channel, made }: Subject): { readonly at: number | null; readonly steps: number } {
  const steps = lastLow(channel, made);
  return { at: Number.isFinite(steps) ? (made.last?.at ?? null) : null, steps };
}

function lastLow(channel: Channel, { last }: ChannelSignal): number {
  if (last === null || !isReading(channel.codes?.[last.row])) return Number.NEGATIVE_INFINITY;
  return channel.codes?.[last.row] === READING.underRange ? 0 : (channel.values[last.row] ?? 0);
}

function lastHigh(channel: Channel, { last }: ChannelSignal): number {
  if (last === null || !isReading(channel.codes?.[last.row])) return Number.NEGATIVE_INFINITY;
  return (channel.uppers ?? channel.values)[last.row] ?? 0;
}

/**
 * The sums of a period with its last spot reading as one millisecond of its own: a pattern of readings ("once, and no
 * other") must see it, although it has no length. `addedMs` is what that millisecond adds to a duration. A last
 * reading that can only have been below `least` steps changes no pattern and is left out.
 */
export function sumsWithLast({ channel, made, period }: Subject, least: number): { readonly sums: SignalSums; readonly addedMs: number } {
  const { last } = made;
  const low = lastLow(channel, made);
  const open = lastIsOpen(channel, made);
  if (last === null || !Number.isFinite(low) || (!open && Math.max(low, lastHigh(channel, made)) < least)) {
    return { sums: period.sums, addedMs: 0 };
  }
  const high = open ? OPEN : Math.max(low, lastHigh(channel, made));
  const code = open ? STRETCH.bounded : STRETCH.sampled;
  return { sums: signalSums(withMoment(period.signal, last.at, { low, high, code })), addedMs: 1 };
}

interface Moment {
  readonly low: number;
  readonly high: number;
  readonly code: number;
}

/** The signal with one millisecond from an instant on, within it or at its end, laid over with other levels. */
function withMoment(signal: TwoEdgedSignal, at: number, moment: Moment): TwoEdgedSignal {
  const { timing, low, high, stretches } = signal;
  const edges: number[] = [];
  const moments: Moment[] = [];
  const add = (from: number, to: number, levels: Moment): void => {
    if (to <= from) return;
    edges.push(from);
    moments.push(levels);
  };
  low.forEach((lower, i) => {
    const [from, to] = [edgeAt(timing, i), edgeAt(timing, i + 1)];
    const levels = { low: lower, high: (high ?? low)[i] as number, code: stretches?.[i] ?? STRETCH.sampled }; // as long as low
    add(from, Math.min(to, at), levels);
    if (from <= at && at < to) add(at, at + 1, moment);
    add(Math.max(from, at + 1), to, levels);
  });
  const end = edgeAt(timing, low.length);
  if (at >= end) add(at, at + 1, moment);
  const closed = moment.high === OPEN ? 0 : Math.abs(moment.high);
  return {
    ...signal,
    timing: { kind: "uneven", edges: Float64Array.from([...edges, Math.max(end, at + 1)]) },
    low: Int32Array.from(moments, (one) => one.low),
    high: Int32Array.from(moments, (one) => one.high),
    stretches: Uint8Array.from(moments, (one) => one.code),
    largest: Math.max(signal.largest, Math.abs(moment.low), closed),
  };
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
