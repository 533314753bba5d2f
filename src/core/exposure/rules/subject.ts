/** One channel over one shift, with everything that the rules of limits read from it. */
import type { Assumption, Ground } from "../../finding.ts";
import { decimalFromText, stepsAround, type Unit } from "../../quantity/index.ts";
import type { Channel, ChannelSignal, Declaration, LooseReading } from "../../recording/index.ts";
import { OPEN, READING, STRETCH, type TwoEdgedSignal } from "../../recording/index.ts";
import { assert } from "../../result.ts";
import type { AssessmentSettings } from "../assessment.ts";
import { sumsAtWord, sumsInDoubt } from "../at-word.ts";
import { type EdgeSums, edgeAt, type SignalSums, segmentAt, signalSums } from "../edge-sums.ts";
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
  /** Decimals that the instrument shows; the channel may be kept in finer steps. */
  readonly shownDecimals: number;
  readonly molar: (regime: string) => MolarTerms | null;
  readonly grounds: readonly Ground[];
  readonly assumptions: readonly Assumption[];
}

/** Greatest level that was surely reached, that was shown or declared, and that can have been; steps. Null = open. */
export interface GreatestLevels {
  readonly low: number;
  readonly at: number | null;
  readonly best: number | null;
  readonly high: number | null;
}

type Parts = Pick<Subject, "made" | "period" | "extremes" | "settings">;

/**
 * Greatest level of a period. The last of spot readings has no length, yet it was read. Of logged interval peaks the
 * greatest was reached; of interval means some instant reached at least the mean, and no bound is known above.
 */
export function greatestLevels(channel: Channel, { made, period, extremes, settings }: Parts): GreatestLevels {
  const { sums, around } = period;
  const shown = extremes.greatest;
  const held = channel.kind === "interval peak" ? 0 : Math.max(sums.low.greatest, lastLow(channel, made));
  // The first of logged means may close an interval whose length nobody knows, and no signal holds it.
  const least = channel.kind === "spot" ? held : Math.max(held, shown?.steps ?? 0);
  const open = isOpenOutside(period) || lastIsOpen(channel, made, settings.declarations);
  const high = open || around.high === null ? null : Math.max(least, around.high.greatest, lastHigh(channel, made, settings.declarations));
  const wasOver = made.tally.overRangeMs > 0 || (made.last !== null && isOverRange(channel, made.last.row));
  return {
    low: least,
    // At the start of a shift a reading from before it still holds.
    at: held > Math.max(0, shown?.steps ?? 0) ? startOf(sums.low, held) : (shown?.at ?? null),
    best: high === null || shown === null || wasOver ? null : bestLevel(channel, { made, period, extremes, settings }, shown.steps, least),
    high,
  };
}

/** What was shown and said at its word; null where readings in doubt can have been above it. */
function bestLevel(channel: Channel, parts: Parts, shown: number, least: number): number | null {
  const word = Math.max(shown, least, sumsAtWord(parts.period.around).greatest);
  return isInDoubt(channel, parts, word) ? null : word;
}

/**
 * Whether readings in doubt can have been above a level. Of logged peaks every interval is known as a bound only, yet the
 * greatest of them is what was shown; what logged means close may lie outside of the signal.
 */
function isInDoubt(channel: Channel, { made, period, extremes, settings }: Parts, level: number): boolean {
  if (channel.kind === "interval peak") return extremes.apart > 0;
  if (channel.kind === "interval mean") return period.stretch.best === null;
  const last = lastHigh(channel, made, settings.declarations);
  if (last > level && last - lastLow(channel, made) > 1) return true;
  return (sumsInDoubt(period.around, period.noughtHides)?.greatest ?? level) > level;
}

/** When a level was first reached; null where it never was. */
function startOf({ values, timing }: EdgeSums, steps: number): number | null {
  const first = values.indexOf(steps);
  return first < 0 ? null : edgeAt(timing, first);
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

export function lastHigh(channel: Channel, { last }: ChannelSignal, declarations: readonly Declaration[]): number {
  if (last === null) return Number.NEGATIVE_INFINITY;
  if (isOverRange(channel, last.row)) return declaredBound(channel, last, declarations) ?? Number.NEGATIVE_INFINITY;
  return isReading(channel.codes?.[last.row]) ? ((channel.uppers ?? channel.values)[last.row] ?? 0) : Number.NEGATIVE_INFINITY;
}

/**
 * Sums of a period with its last spot reading as one millisecond of its own: a pattern of readings ("once, and no
 * other") must see it, although it has no length. `addedMs` is what that millisecond adds to a duration. A last
 * reading that can only have been below `least` steps changes no pattern and is left out.
 */
export function sumsWithLast(
  { channel, made, settings }: Subject,
  sums: SignalSums,
  least: number,
): { readonly sums: SignalSums; readonly addedMs: number } {
  const { last } = made;
  const low = lastLow(channel, made);
  const open = lastIsOpen(channel, made, settings.declarations);
  const most = Math.max(low, lastHigh(channel, made, settings.declarations));
  if (last === null || !Number.isFinite(low) || (!open && most < least)) return { sums, addedMs: 0 };
  const moment = { low, high: open ? OPEN : most, code: open ? STRETCH.bounded : STRETCH.sampled };
  return { sums: signalSums(withMoment(sums.signal, last.at, moment)), addedMs: 1 };
}

interface Moment {
  readonly low: number;
  readonly high: number;
  readonly code: number;
}

/** The signal with one millisecond from an instant on, within it or at its end, laid over with other levels. */
function withMoment(signal: TwoEdgedSignal, at: number, { low, high, code }: Moment): TwoEdgedSignal {
  const { timing } = signal;
  const count = signal.low.length;
  const holding = segmentAt(timing, count, at);
  assert(holding >= 0, "the last reading of a period stands within it, or at its end");
  const before = holding < count && edgeAt(timing, holding) < at ? holding + 1 : holding;
  const after = segmentAt(timing, count, at + 1);
  const around = <Column extends Int32Array | Uint8Array>(into: Column, inside: Int32Array | Uint8Array, level: number): Column => {
    into.set(inside.subarray(0, before));
    into[before] = level;
    into.set(inside.subarray(after), before + 1);
    return into;
  };
  const length = before + 1 + count - after;
  const edges = new Float64Array(length + 1);
  for (let i = 0; i < before; i += 1) edges[i] = edgeAt(timing, i);
  edges[before] = at;
  edges[before + 1] = at + 1;
  for (let i = after + 1; i <= count; i += 1) edges[before + 1 + i - after] = edgeAt(timing, i);
  const closed = high === OPEN ? 0 : Math.abs(high);
  return {
    ...signal,
    timing: { kind: "uneven", edges },
    low: around(new Int32Array(length), signal.low, low),
    high: around(new Int32Array(length), signal.high ?? signal.low, high),
    stretches: around(new Uint8Array(length), signal.stretches ?? new Uint8Array(count), code),
    largest: Math.max(signal.largest, Math.abs(low), closed),
  };
}

/** Over range, or at the top of the range, where an instrument may stop, and nobody gave a bound for it. */
export function lastIsOpen(channel: Channel, { last }: ChannelSignal, declarations: readonly Declaration[]): boolean {
  return last !== null && isOverRange(channel, last.row) && declaredBound(channel, last, declarations) === null;
}

function isOverRange({ codes, values, rangeTop }: Channel, row: number): boolean {
  const code = codes?.[row];
  if (code === READING.overRange || code === READING.overRangeUnbounded) return true;
  return rangeTop !== null && isReading(code) && (values[row] ?? 0) >= rangeTop;
}

/** The bound for any moment that was declared for a reading over range: of several the one that allows most; steps. */
function declaredBound(channel: Channel, { at, row }: LooseReading, declarations: readonly Declaration[]): number | null {
  const least = channel.codes?.[row] === READING.overRangeUnbounded ? 0 : (channel.values[row] ?? 0);
  let bound: number | null = null;
  for (const one of declarations) {
    if (one.kind !== "over-range bound" || one.holds !== "at any moment") continue;
    if ((one.channel !== "*" && one.channel !== channel.name) || at < (one.from ?? -Infinity) || at > (one.to ?? Infinity)) continue;
    const level = decimalFromText(one.levelText);
    const steps = level.ok ? stepsAround(level.value, channel.decimals).above : 0; // the signal refused what is no number
    if (steps >= least) bound = Math.max(bound ?? 0, steps);
  }
  return bound;
}

/** Share of the shift that was really measured; of 8 h where the shift is not known and was shorter. */
export const shiftCoverage = ({ period }: Subject): number =>
  period.stretch.sampledMs / (period.stretch.lengthMs + restOfEightHours(period));
