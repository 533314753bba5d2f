/** From a channel to its two-edged signal: what the air was at least, and at most, at every moment of a period. */

import type { Result } from "../result.ts";
import { given, refused } from "../result.ts";
import type { Channel } from "./channel.ts";
import type { ClockJump } from "./clock-jump.ts";
import { clockJumps } from "./clock-jump.ts";
import type { Declaration } from "./declaration.ts";
import type { DeclaredSteps, DeclaredTime } from "./declared-time.ts";
import { withDeclarations } from "./declared-time.ts";
import { digitsOf, LARGEST_STEPS, stepsAbove, stepsBelow } from "./display-step.ts";
import type { LargestGap } from "./largest-gap.ts";
import { defaultLargestGap, regularStep } from "./largest-gap.ts";
import { nextCode } from "./next-equal.ts";
import type { LentMemory, Pieces } from "./pieces.ts";
import { edgeAt, relaid, segmentCount } from "./pieces.ts";
import type { BoundRules, FailedCheckRatio, RowBounds, ShownSpan } from "./row-bounds.ts";
import { type BoundsRoom, boundsRoom, rowBounds } from "./row-bounds.ts";
import type { Period } from "./row-layout.ts";
import { rowLayout } from "./row-layout.ts";
import type { TwoEdgedSignal } from "./signal.ts";
import { OPEN, STRETCH } from "./signal.ts";
import type { SignalNote } from "./signal-note.ts";
import { signalNotes } from "./signal-note.ts";
import { pastZeros } from "./zero-bytes.ts";

/** An after-use check that failed; readings since the last good proof are widened by reading / known gas. */
export interface FailedCheck {
  /** Time of the last good proof, and of the check (null = the end). */
  readonly from: number;
  readonly to: number | null;
  /** What the instrument showed and what it was given, digits in one unit. */
  readonly reading: string;
  readonly known: string;
}

/** A stretch that is not the wearer's air, named by a check or air-test entry. */
export interface Cut {
  readonly from: number;
  readonly to: number;
  readonly why: "on test gas" | "being zeroed" | "sampling through a line" | "hung at a place" | "idle";
}

export interface SignalSettings {
  /** Null = by the recording's own rhythm. */
  readonly largestGapMs: number | null;
  /** Digits in the unit of the channel; null = none declared. */
  readonly deadBand: string | null;
  /** How far below nought a reading is still drift around nought, as a number above 0; null = none declared. */
  readonly negativeFloor: string | null;
  readonly failedChecks: readonly FailedCheck[];
  readonly cuts: readonly Cut[];
  /** What the time outside the period is; null = unexposed where a period is given, else unsampled. */
  readonly outside: "unexposed" | "unsampled" | null;
}

/** Nothing is declared, known or cut out. */
export const PLAIN_SETTINGS: SignalSettings = {
  largestGapMs: null,
  deadBand: null,
  negativeFloor: null,
  failedChecks: [],
  cuts: [],
  outside: null,
};

/** How the time of the signal divides; milliseconds. The first five add up to `periodMs`. */
export interface SignalTally {
  readonly periodMs: number;
  readonly sampledMs: number;
  /** Measured as a bound only: over range, under range, interval peaks. */
  readonly boundedMs: number;
  /** Neither measured nor declared. */
  readonly unsampledMs: number;
  readonly declaredMs: number;
  readonly declaredById: ReadonlyMap<string, number>;
  /** Of the measured time: over range, with the lowest that it can have been (steps; null without over-range time). */
  readonly overRangeMs: number;
  readonly overRangeAtLeast: number | null;
  readonly negativeMs: number;
  /** Readings that are intervals: conflicting rows, or digits finer than a step. Of the whole channel. */
  readonly intervalReadings: number;
}

/** A reading without a length: the last of spot readings. It counts for the greatest value, not for averages. */
export interface LooseReading {
  readonly at: number;
  readonly row: number;
}

export interface ChannelSignal {
  readonly signal: TwoEdgedSignal;
  readonly largestGap: LargestGap;
  readonly tally: SignalTally;
  readonly notes: readonly SignalNote[];
  readonly last: LooseReading | null;
  /** Of the valid readings of the whole channel, as shown; null where nobody looked at them one by one. */
  readonly shown: ShownSpan | null;
}

export type SignalRefusal =
  | { readonly type: "no-readings" }
  | { readonly type: "period-ends-before-start"; readonly from: number; readonly to: number }
  | { readonly type: "largest-gap-not-above-nought"; readonly ms: number }
  | { readonly type: "setting-not-a-number"; readonly setting: "dead band" | "negative floor" | "failed check"; readonly text: string }
  | { readonly type: "declared-level-not-a-number"; readonly declaration: string; readonly text: string }
  | { readonly type: "too-long-for-exact-sums"; readonly hours: number };

/**
 * The two-edged signal of a channel: lowest and highest level at every moment, c_lo(t) <= c(t) <= c_hi(t).
 *
 * | stretch | low | high |
 * |---|---|---|
 * | reading v >= 0 | v | v |
 * | displayed nought, dead band D | 0 | D |
 * | negative, -d <= v < 0 (or no floor d declared) | v | 0 |
 * | negative below -d | 0 | open |
 * | over range, top R | R | declared bound or open |
 * | under range, at most v > 0 | 0 | v |
 * | gap, fault, before the first or after the last row | 0 | declared or open |
 * | two readings of one instant, or two parts that claim one time | smallest | largest |
 * | failed after-use check, response q = reading / known | min(v, v/q) | max(v, v/q) |
 * | cut out (test gas, zeroing, line, hung, idle) | 0 | declared or open |
 *
 * A spot reading stands from its row to the next row, for at most the largest gap; the time beyond is unsampled, and
 * the last reading has no length. A mean or a peak stands for the interval back to the row before, for at most the
 * largest gap; the first one for the step of the log, where the log has only one. A peak bounds the mean of its
 * interval from above only: low 0.
 *
 * A reading at or above the range top counts as over range, since an instrument may stop there. A cut-out stretch
 * never enters a dose; what the wearer breathed then is not known unless someone declares it.
 *
 * @param channel rows in steps of 10^-decimals of its unit
 * @param settings digits in the unit of the channel, times in milliseconds on the clock of the recording
 * @param declarations those for other channels are passed over
 * @param period milliseconds; null = from the first row to the last (the file is one shift)
 * @param lent memory that the signal may lie in, for one who drops it before he lends the memory again; null = its own
 * Refuses a channel without rows, an empty period, numbers that are none, and a period too long to sum exactly.
 * @example
 * ```ts
 * import { PLAIN_SETTINGS, signalOf } from "./signal-of.ts";
 * const channel = { name: "CO", series: null, gas: null, unit: "ppm", kind: "spot", decimals: 0, times: Float64Array.of(0, 10_000, 20_000, 90_000, 100_000),
 *   values: Int32Array.of(4, 500, 2, 3, 1), uppers: null, codes: Uint8Array.of(0, 1, 0, 0, 0), lines: null, rangeTop: 500 } as const;
 * const made = signalOf(channel, { ...PLAIN_SETTINGS, largestGapMs: 15_000 }, [], null);
 * const timing = made.ok ? made.value.signal.timing : null;
 * timing?.kind === "uneven" && [...timing.edges]; // => [0, 10000, 20000, 35000, 90000, 100000]
 * made.ok && [...made.value.signal.low]; // => [4, 500, 2, 0, 3]
 * made.ok && [...(made.value.signal.high ?? [])]; // => [4, 2147483647, 2, 2147483647, 3]
 * ```
 * Source: exposure chapter sections 2 and 13; 40 CFR 50 App. I, US EPA AQS memo of 28 Feb 2011 on negatives as
 * precedents; the two-sided form is ours.
 */
export function signalOf(
  channel: Channel,
  settings: SignalSettings,
  declarations: readonly Declaration[],
  period: Period | null,
  lent: LentMemory | null = null,
): Result<ChannelSignal, SignalRefusal> {
  if (channel.times.length === 0) return refused({ type: "no-readings" });
  if (period !== null && !(period.to > period.from)) return refused({ type: "period-ends-before-start", ...period });
  if (settings.largestGapMs !== null && !(settings.largestGapMs > 0))
    return refused({ type: "largest-gap-not-above-nought", ms: settings.largestGapMs });
  const step = regularStep(channel.times);
  const largestGap = chosenGap(channel, settings);
  const jumps = clockJumps(channel);
  const rules = boundRules(channel, settings, jumps, largestGap.ms);
  if (!rules.ok) return rules;
  const declared = declaredSteps(channel, declarations);
  if (!declared.ok) return declared;
  const bounds = rowBounds(channel, rules.value, roomFor(channel.times.length));
  const laid = withCuts(rowLayout(channel, bounds, step, largestGap.ms, period, lent), settings.cuts);
  const withDeclared = withDeclarations(laid, declared.value);
  const signal = madeSignal(
    channel,
    bounds,
    withDeclared,
    declared.value,
    settings.outside ?? (period === null ? "unsampled" : "unexposed"),
  );
  const hours = signalMs(signal) / 3_600_000;
  if (!Number.isSafeInteger(Math.ceil(signal.largest * signalMs(signal)))) return refused({ type: "too-long-for-exact-sums", hours });
  return given({
    signal,
    largestGap,
    tally: tallyOf(laid, signal, withDeclared.msById, bounds),
    notes: signalNotes(channel, bounds, rules.value, jumps, withDeclared, declared.value, period),
    last: looseReading(channel, bounds, period),
    shown: bounds.shown,
  });
}

/** Most rows for which the working space is kept: a day of a reading a second. */
const MOST_KEPT = 90_000;

/** Working space for bounds, which are copied into the signal: making it anew would cost more than filling it. */
let room = boundsRoom(0);

function roomFor(count: number): BoundsRoom {
  if (count > MOST_KEPT) return boundsRoom(count);
  if (room.low.length < count) room = boundsRoom(count);
  return room;
}

/** In whole milliseconds, so that what a reading stands for sums exactly. */
function chosenGap(channel: Channel, { largestGapMs }: SignalSettings): LargestGap {
  return largestGapMs === null
    ? defaultLargestGap(channel.times)
    : { ms: Math.max(1, Math.floor(largestGapMs)), chosenBy: "person", stepMs: null, why: "chosen by a person" };
}

/** Largest whole number that may stand in a failed check: steps times it stay exact. */
const LARGEST_RATIO_PART = 1e7;

function boundRules(
  channel: Channel,
  settings: SignalSettings,
  jumps: readonly ClockJump[],
  largestGapMs: number,
): Result<BoundRules, SignalRefusal> {
  const { deadBand, negativeFloor, failedChecks } = settings;
  const band = deadBand === null ? null : digitsOf(deadBand);
  const floor = negativeFloor === null ? null : digitsOf(negativeFloor);
  if (deadBand !== null && (band === null || band.mantissa < 0))
    return refused({ type: "setting-not-a-number", setting: "dead band", text: deadBand });
  if (negativeFloor !== null && (floor === null || floor.mantissa < 0))
    return refused({ type: "setting-not-a-number", setting: "negative floor", text: negativeFloor });
  const ratios: FailedCheckRatio[] = [];
  for (const check of failedChecks) {
    const ratio = ratioOf(check);
    if (ratio === null)
      return refused({ type: "setting-not-a-number", setting: "failed check", text: `${check.reading} / ${check.known}` });
    ratios.push(ratio);
  }
  return given({
    deadBand: band === null ? null : Math.min(LARGEST_STEPS, stepsAbove(band.mantissa, band.decimals, channel.decimals)),
    negativeFloor: floor === null ? null : stepsBelow(floor.mantissa, floor.decimals, channel.decimals),
    failedChecks: ratios,
    clockJumps: jumps,
    largestGapMs,
  });
}

function ratioOf({ from, to, reading, known }: FailedCheck): FailedCheckRatio | null {
  const shown = digitsOf(reading);
  const true_ = digitsOf(known);
  if (shown === null || true_ === null) return null;
  const decimals = Math.max(shown.decimals, true_.decimals);
  const parts = { reading: shown.mantissa * 10 ** (decimals - shown.decimals), known: true_.mantissa * 10 ** (decimals - true_.decimals) };
  const usable = [parts.reading, parts.known].every((part) => part > 0 && part <= LARGEST_RATIO_PART);
  return usable ? { from, to: to ?? Infinity, ...parts } : null;
}

function declaredSteps(channel: Channel, declarations: readonly Declaration[]): Result<readonly DeclaredSteps[], SignalRefusal> {
  const declared: DeclaredSteps[] = [];
  for (const declaration of declarations) {
    if (declaration.channel !== "*" && declaration.channel !== channel.name) continue;
    const level = levelOf(declaration, channel.decimals);
    if (level === undefined)
      return refused({
        type: "declared-level-not-a-number",
        declaration: declaration.id,
        text: "levelText" in declaration ? declaration.levelText : "",
      });
    declared.push({ declaration, from: declaration.from ?? -Infinity, to: declaration.to ?? Infinity, level });
  }
  return given(declared);
}

/** Steps, rounded up; null where the kind has no level, undefined where the text is no level that steps can hold. */
function levelOf(declaration: Declaration, decimals: number): number | null | undefined {
  if (!("levelText" in declaration)) return null;
  const digits = digitsOf(declaration.levelText);
  if (digits === null || digits.mantissa < 0) return undefined;
  const level = stepsAbove(digits.mantissa, digits.decimals, decimals);
  return level < OPEN ? level : undefined;
}

/** A cut takes readings out, it puts nothing in: what the wearer breathed meanwhile is unsampled. */
function withCuts(pieces: Pieces, cuts: readonly Cut[]): Pieces {
  const real = cuts.filter((cut) => cut.to > cut.from);
  if (real.length === 0) return pieces;
  const boundaries = real.flatMap(({ from, to }) => [from, to]);
  return relaid(pieces, boundaries, (_, from, to) =>
    real.some((cut) => cut.from <= from && cut.to >= to) ? { low: 0, high: OPEN, stretch: STRETCH.unsampled } : null,
  );
}

function madeSignal(
  channel: Channel,
  bounds: RowBounds,
  { pieces, averageOnly }: DeclaredTime,
  declared: readonly DeclaredSteps[],
  outside: TwoEdgedSignal["outside"],
): TwoEdgedSignal {
  const largest = declared.reduce((size, one) => Math.max(size, one.level ?? 0), bounds.largest);
  return { decimals: channel.decimals, ...pieces, averageOnly, outside, largest };
}

function signalMs({ timing }: TwoEdgedSignal): number {
  return edgeAt(timing, segmentCount(timing)) - edgeAt(timing, 0);
}

function looseReading({ kind, times }: Channel, { lastReading }: RowBounds, period: Period | null): LooseReading | null {
  const at = times[lastReading];
  if (kind !== "spot" || at === undefined || (period !== null && (at < period.from || at >= period.to))) return null;
  return { at, row: lastReading };
}

function tallyOf(laid: Pieces, signal: TwoEdgedSignal, declaredById: ReadonlyMap<string, number>, bounds: RowBounds): SignalTally {
  const periodMs = signalMs(signal);
  const byStretch = timeByStretch(signal);
  const negativeMs = bounds.anyNegative ? negativeTime(signal.low, signal.timing) : 0;
  const [sampledMs = 0, boundedMs = 0, unsampledMs = 0, ...declared] = byStretch;
  const declaredMs = declared.reduce((sum, ms) => sum + ms, 0);
  const over = boundedMs === 0 ? { overRangeMs: 0, overRangeAtLeast: null } : overRangeTime(laid);
  return { periodMs, sampledMs, boundedMs, unsampledMs, declaredMs, declaredById, ...over, negativeMs, intervalReadings: bounds.intervals };
}

function timeByStretch(signal: TwoEdgedSignal): Float64Array {
  const { stretches, timing, low } = signal;
  const byStretch = new Float64Array(Object.keys(STRETCH).length);
  const count = low.length;
  let start = 0;
  while (start < count) {
    const run = stretches === null ? STRETCH.sampled : (stretches[start] as number); // start < count
    const past = stretches === null ? count : pastRun(stretches, start);
    byStretch[run] = (byStretch[run] ?? 0) + (edgeAt(timing, past) - edgeAt(timing, start));
    start = past;
  }
  return byStretch;
}

/** End of a run of equal codes; nearly all are `sampled`, which is nought. */
function pastRun(codes: Uint8Array, start: number): number {
  const run = codes[start] as number; // a segment
  if (run === STRETCH.sampled) return pastZeros(codes, start, codes.length);
  let past = start + 1;
  while (past < codes.length && codes[past] === run) past += 1;
  return past;
}

/** Time below nought; without a branch, since a drifting sensor goes to and fro: x >>> 31 is 1 below nought. */
function negativeTime(low: Int32Array, timing: TwoEdgedSignal["timing"]): number {
  let ms = 0;
  if (timing.kind === "regular") {
    let segments = 0;
    for (let segment = 0; segment < low.length; segment += 1) segments += (low[segment] as number) >>> 31; // segment < length
    return segments * timing.stepMs;
  }
  const { edges } = timing;
  let start = edges[0] as number; // one more than segments
  for (let segment = 0; segment < low.length; segment += 1) {
    const end = edges[segment + 1] as number; // one more than segments
    ms += ((low[segment] as number) >>> 31) * (end - start); // segment < length
    start = end;
  }
  return ms;
}

/** Before declarations are laid over it, over-range time is what is bounded and open above. */
function overRangeTime({ timing, low, high, stretches }: Pieces): { overRangeMs: number; overRangeAtLeast: number | null } {
  let overRangeMs = 0;
  let overRangeAtLeast: number | null = null;
  if (stretches === null || high === null) return { overRangeMs, overRangeAtLeast };
  for (let segment = nextCode(stretches, STRETCH.bounded, -1); segment >= 0; segment = nextCode(stretches, STRETCH.bounded, segment)) {
    if (high[segment] !== OPEN) continue;
    overRangeMs += edgeAt(timing, segment + 1) - edgeAt(timing, segment);
    overRangeAtLeast = Math.min(overRangeAtLeast ?? OPEN, low[segment] ?? 0);
  }
  return { overRangeMs, overRangeAtLeast };
}
