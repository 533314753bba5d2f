/** A recording set against limits: every channel of every shift, with what was measured and what was found. */
import type { Range } from "../finding.ts";
import { regimeById, substance } from "../gas/index.ts";
import { decimalFromText, numberFromDecimal, stepsAround, type Unit } from "../quantity/index.ts";
import type { Channel, ChannelSignal, LentMemory, Recording, SignalSettings, TwoEdgedSignal } from "../recording/index.ts";
import { OPEN, PLAIN_SETTINGS, READING, STRETCH, signalOf } from "../recording/index.ts";
import { given, type Result, refused } from "../result.ts";
import type { AssessmentRefusal, AssessmentSettings, ChannelAssessment, ShiftAssessment, ShiftSpan, ShortTerm } from "./assessment.ts";
import { eightHourAverage } from "./average.ts";
import { edgeAt } from "./edge-sums.ts";
import { holdsRows, type ReadingExtremes, readingExtremes } from "./extremes.ts";
import { inFinerSteps } from "./finer-steps.ts";
import type { MolarTerms } from "./limit-terms.ts";
import { EIGHT_HOURS_MS, type Period, periodOf, type UnsampledSteps } from "./period.ts";
import { assumptionsOf, groundsOf, type ReadingsOutside, readingsOutside } from "./rests-on.ts";
import { limitEpisodes } from "./rules/limit-episodes.ts";
import { limitFindings, limitsNotCompared } from "./rules/limit-findings.ts";
import { MINUTE_MS } from "./rules/sliding-rule.ts";
import { greatestLevels, type Subject } from "./rules/subject.ts";
import { rangeOf } from "./shown-range.ts";
import { windowBounds } from "./window-bounds.ts";

const DAY_MS = 86_400_000;
const SHORT_TERM_MINUTES = 15;

/**
 * Every channel of a recording over every shift: mean, 8-hour average, greatest 15-minute mean, peak, and one finding
 * for each limit, each with its lowest and highest possible value.
 *
 * Without shifts the recording is one shift whose length nobody declared: time beyond it is unsampled, so an 8-hour
 * average has no upper end until someone says what that time was like.
 *
 * @param recording channels in whole steps, times in milliseconds
 * @param settings limits, shifts, declarations; digits in the unit of the channel they are for
 * @returns refused: nothing to read; longer than 24 h and no shifts; shifts that overlap, end before they start, or
 * hold no row; levels that are no numbers
 * @example
 * ```ts
 * import { assessRecording } from "./assess-recording.ts";
 * const channel = { name: "CO", series: null, gas: null, unit: "ppm", kind: "spot", decimals: 0, times: Float64Array.of(0, 14_400_000, 28_800_000),
 *   values: Int32Array.of(60, 0, 0), uppers: null, codes: null, lines: null, rangeTop: null } as const;
 * const recording = { file: "a.csv", sha256: "", clock: { kind: "elapsed" }, channels: [channel], notes: [], cutOff: false } as const;
 * const none = () => null;
 * const settings = { limits: () => [], regimes: [], largestGapMs: null, shifts: [{ from: 0, to: 28_800_000 }], unsampled: { kind: "open" }, declarations: [],
 *   deadBand: none, negativeFloor: none, measurableThreshold: none, meansStandForCeilings: false } as const;
 * const assessed = assessRecording(recording, settings);
 * assessed.ok && assessed.value[0]?.channels[0]?.twa8h; // => { "low": 30, "best": 30, "high": 30 }
 * ```
 * Source: exposure method page; 29 CFR 1910.1000(d)(1)(i) [read] for the average, the rest as each rule names.
 */
export function assessRecording(recording: Recording, settings: AssessmentSettings): Result<readonly ShiftAssessment[], AssessmentRefusal> {
  const channels = recording.channels.filter(({ times }) => times.length > 0);
  const faulty =
    channels.length === 0 ? ({ type: "no-readings" } as const) : (shiftFault(settings.shifts) ?? coverageFault(channels, settings.shifts));
  if (faulty !== null) return refused(faulty);
  const shifts = settings.shifts.length === 0 ? [null] : [...settings.shifts].sort((first, second) => first.from - second.from);
  const assessed: { shift: ShiftSpan | null; channels: ChannelAssessment[] }[] = shifts.map((shift) => ({ shift, channels: [] }));
  for (const channel of channels) {
    const perShift = assessChannel(recording, channel, shifts, settings);
    if (!perShift.ok) return perShift;
    perShift.value.forEach((assessment, index) => {
      assessed[index]?.channels.push(assessment);
    });
  }
  return given(assessed);
}

function shiftFault(shifts: readonly ShiftSpan[]): AssessmentRefusal | null {
  const backwards = shifts.find(({ from, to }) => !(to > from));
  if (backwards !== undefined) return { type: "shift-ends-before-start", shift: backwards };
  const sorted = [...shifts].sort((first, second) => first.from - second.from);
  for (let i = 1; i < sorted.length; i += 1) {
    const [first, second] = [sorted[i - 1], sorted[i]];
    if (first !== undefined && second !== undefined && second.from < first.to) return { type: "shifts-overlap", first, second };
  }
  return null;
}

/** A file is one shift unless told; what is longer than a day cannot be one. */
function coverageFault(channels: readonly Channel[], shifts: readonly ShiftSpan[]): AssessmentRefusal | null {
  const empty = shifts.find((shift) => !channels.some((channel) => holdsRows(channel, shift.from, shift.to)));
  if (empty !== undefined) return { type: "shift-without-readings", shift: empty };
  if (shifts.length > 0) return null;
  const longest = Math.max(...channels.map(({ times }) => (times.at(-1) ?? 0) - (times[0] ?? 0)));
  return longest > DAY_MS ? { type: "longer-than-a-day", hours: longest / 3_600_000 } : null;
}

/** Most rows for which memory is kept: a day of a reading a second. */
const MOST_KEPT = 90_000;
const BYTES_A_ROW = 24;

/** Nothing of a signal outlives the assessment of its channel, so that the next one is laid into the same memory. */
let kept: LentMemory | null = { buffer: new ArrayBuffer(0), used: 0 };

function assessChannel(
  recording: Recording,
  logged: Channel,
  shifts: readonly (ShiftSpan | null)[],
  settings: AssessmentSettings,
): Result<readonly ChannelAssessment[], AssessmentRefusal> {
  const lent = memoryFor(kept, logged.times.length);
  // Who asks for an assessment while one is going on has memory of his own.
  kept = null;
  try {
    return assessShifts(recording, logged, shifts, settings, lent);
  } finally {
    kept = lent ?? { buffer: new ArrayBuffer(0), used: 0 };
  }
}

function memoryFor(memory: LentMemory | null, rows: number): LentMemory | null {
  if (memory === null || rows > MOST_KEPT) return null;
  const isEnough = memory.buffer.byteLength >= rows * BYTES_A_ROW;
  return { buffer: isEnough ? memory.buffer : new ArrayBuffer(rows * BYTES_A_ROW), used: 0 };
}

function assessShifts(
  recording: Recording,
  logged: Channel,
  shifts: readonly (ShiftSpan | null)[],
  settings: AssessmentSettings,
  lent: LentMemory | null,
): Result<readonly ChannelAssessment[], AssessmentRefusal> {
  const channel = inFinerSteps(logged, settings);
  const outside = readingsOutside(channel, settings.shifts);
  const unsampled = unsampledSteps(settings, channel);
  if (!unsampled.ok) return unsampled;
  const threshold = thresholdFault(settings, channel);
  if (threshold !== null) return refused(threshold);
  const assessments: ChannelAssessment[] = [];
  const earlier: Period[] = [];
  const unnamed: Period[] = [];
  for (const shift of shifts) {
    const signalMade = signalOf(channel, signalSettings(channel, settings), settings.declarations, shift, lent);
    if (!signalMade.ok) return signalMade;
    const signal = withLength(signalMade.value.signal, channel);
    const before = shift === null ? given([]) : unnamedBefore(channel, settings, shift, earlier.at(-1) ?? null);
    if (!before.ok) return before;
    unnamed.push(...before.value);
    const lookedBackOn = [...earlier, ...unnamed].sort((first, second) => first.sums.low.start - second.sums.low.start);
    const inexact = exactnessFault(signal, shift, { settings, unsampled: unsampled.value, earlier: lookedBackOn });
    if (inexact !== null) return refused(inexact);
    const span = shift ?? { from: channel.times[0] ?? 0, to: channel.times.at(-1) ?? 0 };
    // A mean or a peak stands for the interval that it closes: one at the very start of a shift is of the time before it.
    const first = channel.kind !== "spot" && shift !== null ? span.from + 1 : span.from;
    const extremes = readingExtremes(channel, first, span.to, signalMade.value.shown);
    const made = withLastAtEnd(signalMade.value, channel, { shift, row: extremes.lastRow });
    const period = periodOf(signal, shift, unsampled.value, {
      isContested: extremes.apart > 0,
      noughtHides: noughtHides(channel, settings),
      before: lookedBackOn,
    });
    const parts = { recording, channel, settings, made, period, span, extremes, outside, shownDecimals: logged.decimals };
    assessments.push(assessPeriod({ ...parts, earlier: lookedBackOn }));
    earlier.push(period);
  }
  return given(assessments);
}

/**
 * Readings of the 24 h before a shift that stand in no named shift. Whether this person breathed them nobody said: for an
 * average that looks back over a day, and for a window that ends in the shift, they are nought at the least and what was read
 * at the most. Naming the shift makes the time outside it unexposed, handbook on exposure section 2; what was read there
 * speaks against it, so it proves nothing and is not passed over [ours].
 */
function unnamedBefore(
  channel: Channel,
  settings: AssessmentSettings,
  shift: ShiftSpan,
  last: Period | null,
): Result<readonly Period[], AssessmentRefusal> {
  const from = Math.max(shift.from - DAY_MS, last?.sums.low.end ?? -Infinity, channel.times[0] ?? shift.from);
  const span = { from, to: shift.from };
  if (!(span.to > span.from) || !holdsRows(channel, from, shift.from - 1)) return given([]);
  const made = signalOf(channel, signalSettings(channel, settings), [], span);
  if (!made.ok) return made;
  const { signal } = made.value;
  const low = new Int32Array(signal.low.length);
  const isRead = (i: number): boolean => signal.stretches?.[i] !== STRETCH.unsampled;
  const high = (signal.high ?? signal.low).map((value, i) => (isRead(i) ? Math.max(0, value) : 0));
  const stretches = new Uint8Array(low.length).map((_, i) => (isRead(i) ? STRETCH.bounded : STRETCH.declaredUnexposed));
  return given([periodOf({ ...signal, low, high, stretches }, span, { kind: "open" }, { isNamed: false })]);
}

/** A spot reading on the stroke of the end has no length within its shift, as the last one of a log; yet it was read in it. */
function withLastAtEnd(
  made: ChannelSignal,
  { kind, times, codes }: Channel,
  { shift, row }: { readonly shift: ShiftSpan | null; readonly row: number },
): ChannelSignal {
  const isReading = codes === null || (codes[row] !== READING.none && codes[row] !== READING.fault);
  if (made.last !== null || kind !== "spot" || shift === null || times[row] !== shift.to || !isReading) return made;
  return { ...made, last: { at: shift.to, row } };
}

interface Exactness {
  readonly settings: AssessmentSettings;
  readonly unsampled: UnsampledSteps;
  readonly earlier: readonly Period[];
}

/** A signal promises exact sums over its own length; a declared level, 8 h around it and shifts before it reach further. */
function exactnessFault(
  signal: TwoEdgedSignal,
  shift: ShiftSpan | null,
  { settings, unsampled, earlier }: Exactness,
): AssessmentRefusal | null {
  const [start, end] = [edgeAt(signal.timing, 0), edgeAt(signal.timing, signal.low.length)];
  const near = shift === null ? undefined : earlier.find((one) => one.sums.low.end > shift.from - DAY_MS);
  const aroundMs = shift !== null ? 0 : unsampled.kind === "level" ? EIGHT_HOURS_MS : Math.max(0, EIGHT_HOURS_MS - (end - start));
  const reachMs = Math.max(end - (near?.sums.low.start ?? start), end - start + 2 * aroundMs);
  if (unsampled.kind === "level" && settings.unsampled.kind === "level" && !Number.isSafeInteger(unsampled.steps * reachMs))
    return { type: "unsampled-level-too-large", text: settings.unsampled.text };
  const largest = earlier.reduce((most, one) => Math.max(most, one.signal.largest), signal.largest);
  return Number.isSafeInteger(largest * reachMs) ? null : { type: "too-long-for-exact-sums", hours: reachMs / 3_600_000 };
}

/** One spot reading has no length, so its signal has none; a millisecond in which nothing is known stands in for it. */
function withLength(signal: TwoEdgedSignal, { times }: Channel): TwoEdgedSignal {
  if (signal.low.length > 0) return signal;
  const at = times[0] ?? 0;
  return {
    ...signal,
    timing: { kind: "uneven", edges: Float64Array.of(at, at + 1) },
    low: Int32Array.of(0),
    high: Int32Array.of(OPEN),
    stretches: Uint8Array.of(STRETCH.unsampled),
  };
}

function unsampledSteps({ unsampled }: AssessmentSettings, channel: Channel): Result<UnsampledSteps, AssessmentRefusal> {
  if (unsampled.kind !== "level") return given(unsampled);
  const level = decimalFromText(unsampled.text);
  if (!level.ok || level.value.mantissa < 0) return refused({ type: "unsampled-level-not-a-number", text: unsampled.text });
  if (numberFromDecimal(level.value) * 10 ** channel.decimals >= OPEN - 1)
    return refused({ type: "unsampled-level-too-large", text: unsampled.text });
  return given({ kind: "level", steps: stepsAround(level.value, channel.decimals).above });
}

function thresholdFault({ measurableThreshold }: AssessmentSettings, { gas }: Channel): AssessmentRefusal | null {
  const text = gas === null ? null : measurableThreshold(gas);
  if (text === null) return null;
  const threshold = decimalFromText(text);
  return threshold.ok && threshold.value.mantissa > 0 ? null : { type: "setting-not-a-number", setting: "measurable threshold", text };
}

function signalSettings({ gas }: Channel, { largestGapMs, deadBand, negativeFloor }: AssessmentSettings): SignalSettings {
  return {
    ...PLAIN_SETTINGS,
    largestGapMs,
    deadBand: gas === null ? null : deadBand(gas),
    negativeFloor: gas === null ? null : negativeFloor(gas),
  };
}

/** The dead band in steps; that it is a number the signal has seen to. */
function noughtHides({ gas, decimals }: Channel, { deadBand }: AssessmentSettings): number {
  const text = gas === null ? null : deadBand(gas);
  const band = text === null ? null : decimalFromText(text);
  return band?.ok === true ? stepsAround(band.value, decimals).above : 0;
}

interface ChannelPeriod {
  readonly recording: Recording;
  readonly channel: Channel;
  readonly settings: AssessmentSettings;
  readonly made: ChannelSignal;
  readonly period: Period;
  readonly span: ShiftSpan;
  readonly extremes: ReadingExtremes;
  readonly earlier: readonly Period[];
  readonly outside: ReadingsOutside | null;
  /** Decimals that the instrument shows; the channel may be kept in finer steps. */
  readonly shownDecimals: number;
}

function assessPeriod(parts: ChannelPeriod): ChannelAssessment {
  const { channel, period, span, extremes, settings } = parts;
  const { stretch } = period;
  const scale = 10 ** -channel.decimals;
  const rows = channel.times;
  const { least, firstRow, lastRow } = extremes;
  const { unit, gas } = channel;
  const restsOn = { grounds: groundsOf(parts), assumptions: assumptionsOf(parts) };
  const subject = unit === null || gas === null ? null : subjectOf(parts, { ...channel, unit }, gas, restsOn);
  const limits = gas === null ? [] : settings.limits(gas);
  return {
    name: channel.name,
    series: channel.series,
    gas,
    unit,
    samples: extremes.readings,
    start: extremes.rows === 0 ? span.from : (rows[firstRow] ?? span.from),
    end: extremes.rows === 0 ? span.to : (rows[lastRow] ?? span.to),
    sampledSeconds: stretch.sampledMs / 1000,
    mean: sampledRange(period, scale),
    twa8h: rangeOf(eightHourAverage(period), 1),
    stel: shortTerm(period),
    peak: peakOf(extremes, channel.decimals),
    lowest: least === null ? null : { value: shown(least.steps, channel.decimals), at: least.at, atMost: least.atMost },
    ...restsOn,
    findings: subject === null ? [] : limitFindings(subject, limits),
    notCompared: limitsNotCompared(subject, limits),
    episodes: subject === null ? [] : limitEpisodes(subject, limits),
  };
}

/** Digits as they were shown: one division, the nearest double to the decimal. */
const shown = (steps: number, decimals: number): number => steps / 10 ** decimals;

/** Over range without a known top is above all that was shown: at least the greatest reading, at the first such instant. */
function peakOf({ greatest, overRangeAt }: ReadingExtremes, decimals: number): ChannelAssessment["peak"] {
  if (overRangeAt !== null) return { value: shown(Math.max(0, greatest?.steps ?? 0), decimals), at: overRangeAt, atLeast: true };
  return greatest === null ? null : { value: shown(greatest.steps, decimals), at: greatest.at, atLeast: greatest.atLeast };
}

/** Over the measured time alone; an over-range stretch leaves the upper end open. */
function sampledRange({ stretch }: Period, scale: number): Range {
  const { sampledMs, sampledLow, sampledHigh, best } = stretch;
  if (sampledMs === 0) return { low: 0, best: null, high: null };
  const mean = (sum: number): number => sum / (sampledMs / scale);
  return {
    low: mean(sampledLow),
    best: best === null && sampledHigh !== sampledLow ? null : mean(sampledLow),
    high: sampledHigh === null ? null : mean(sampledHigh),
  };
}

function shortTerm(period: Period): ShortTerm {
  const bounds = windowBounds(period, SHORT_TERM_MINUTES * MINUTE_MS);
  return {
    ...rangeOf(bounds, 1),
    windowMinutes: SHORT_TERM_MINUTES,
    windowStart: bounds.from,
    windowEnd: bounds.to,
    coverage: bounds.coverage,
  };
}

function subjectOf(
  { settings, made, period, extremes, earlier, shownDecimals }: ChannelPeriod,
  channel: Channel & { readonly unit: Unit },
  gas: string,
  restsOn: Pick<Subject, "grounds" | "assumptions">,
): Subject {
  return {
    channel,
    gas,
    made,
    period,
    earlier,
    extremes,
    settings,
    shownDecimals,
    greatest: greatestLevels(channel, { made, period, extremes, settings }),
    molar: (regime) => molarTerms(gas, regime),
    grounds: restsOn.grounds,
    assumptions: restsOn.assumptions,
  };
}

function molarTerms(gas: string, regime: string): MolarTerms | null {
  const gramsPerMole = substance(gas)?.molarMassGramsPerMole ?? null;
  const volume = regimeById(regime)?.molarVolume;
  return gramsPerMole === null || volume === undefined ? null : { gramsPerMole, litresPerMole: volume.litresPerMole };
}
