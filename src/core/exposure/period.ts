/** One channel over one shift: the signal with what was said of unsampled time, and its sums. */
import { OPEN, STRETCH, type TwoEdgedSignal } from "../recording/index.ts";
import type { ShiftSpan } from "./assessment.ts";
import { BLOCK, type EdgeSums, edgeAt, edgeSums, edgesOf, type SignalSums, signalSums } from "./edge-sums.ts";
import type { ExactMean } from "./exact-limit.ts";
import { type GreatestWindow, greatestWindow } from "./greatest-window.ts";
import { signalFrom } from "./signal-from.ts";
import { type StretchSums, sampledMsBetween, stretchSums } from "./stretch-sums.ts";

/** What was said of unsampled time, a level in whole steps rounded up. */
export type UnsampledSteps =
  | { readonly kind: "open" }
  | { readonly kind: "zero" }
  | { readonly kind: "like" }
  | { readonly kind: "level"; readonly steps: number };

export const EIGHT_HOURS_MS = 28_800_000;

export interface Period {
  readonly signal: TwoEdgedSignal;
  readonly sums: SignalSums;
  readonly stretch: StretchSums;
  /** Null: the file is one shift, and how long the shift was is not known. */
  readonly shift: ShiftSpan | null;
  readonly unsampled: UnsampledSteps;
  /** What short windows see: as `sums`, with the declared level on both sides where the shift is not known. */
  readonly around: SignalSums;
  /** Declared shifts before this one: a window that ends in this shift may have begun in them. */
  readonly before: readonly Period[];
  readonly windows: Map<number, WindowBounds>;
}

/** Greatest sliding mean of both edges, each in its own window. */
export interface WindowBounds {
  readonly windowMs: number;
  readonly low: ExactMean;
  readonly high: ExactMean | null;
  readonly best: ExactMean | null;
  /** Window of the greatest low mean. */
  readonly from: number;
  readonly to: number;
  readonly coverage: number;
}

/**
 * A period of a signal under what was said of unsampled time. `shift` null where nobody said how long the shift was:
 * then the rest of 8 h is unsampled too, before or after the recording. `doubt`: what a shown nought can hide, in steps, and
 * whether readings are known to claim one instant and differ, so that no best figure can be given. `before`: declared
 * shifts before this one, in order of time. Never refuses.
 *
 * @example
 * ```ts
 * import { periodOf } from "./period.ts";
 * const signal = { decimals: 0, timing: { kind: "uneven", edges: Float64Array.of(0, 25_200_000) } as const, low: Int32Array.of(20),
 *   high: null, stretches: null, averageOnly: [], outside: "unsampled", largest: 600 } as const;
 * const period = periodOf(signal, null, { kind: "open" });
 * [period.stretch.sampledMs, period.shift]; // => [25200000, null]
 * ```
 * Source: time without a record is declared unexposed or unsampled, never "not there": ours.
 */
export function periodOf(
  recorded: TwoEdgedSignal,
  shift: ShiftSpan | null,
  unsampled: UnsampledSteps,
  {
    noughtHides = 0,
    isContested = false,
    before = [],
  }: { readonly noughtHides?: number; readonly isContested?: boolean; readonly before?: readonly Period[] } = {},
): Period {
  const signal = withUnsampled(recorded, unsampled);
  const sums = signalSums(signal);
  const known = stretchSums(sums, noughtHides);
  const stretch = isContested ? { ...known, best: null } : known;
  // How long the shift was is not known: a window may lie anywhere in 8 h before the recording, and after it.
  const around = unsampled.kind === "level" && shift === null ? signalSums(padded(signal, EIGHT_HOURS_MS, unsampled.steps)) : sums;
  return { signal, sums, stretch, shift, unsampled, around, before, windows: new Map() };
}

/**
 * Rest of the 8 h that a recording without a declared shift leaves unsampled, milliseconds; 0 where the shift is known.
 *
 * @example
 * ```ts
 * import { periodOf, restOfEightHours } from "./period.ts";
 * const signal = { decimals: 0, timing: { kind: "uneven", edges: Float64Array.of(0, 25_200_000) } as const, low: Int32Array.of(20),
 *   high: null, stretches: null, averageOnly: [], outside: "unsampled", largest: 600 } as const;
 * restOfEightHours(periodOf(signal, null, { kind: "open" })); // => 3600000
 * restOfEightHours(periodOf(signal, { from: 0, to: 25_200_000 }, { kind: "open" })); // => 0
 * ```
 * Never refuses. Source: ours.
 */
export const restOfEightHours = (period: Period): number =>
  period.shift === null ? Math.max(0, EIGHT_HOURS_MS - period.stretch.lengthMs) : 0;

/**
 * Whether time outside the signal is open: nobody said how long the shift was, nor what the rest was like.
 *
 * @example
 * ```ts
 * import { isOpenOutside, periodOf } from "./period.ts";
 * const signal = { decimals: 0, timing: { kind: "uneven", edges: Float64Array.of(0, 25_200_000) } as const, low: Int32Array.of(20),
 *   high: null, stretches: null, averageOnly: [], outside: "unsampled", largest: 600 } as const;
 * isOpenOutside(periodOf(signal, null, { kind: "open" })); // => true
 * isOpenOutside(periodOf(signal, null, { kind: "zero" })); // => false
 * ```
 * Never refuses. Source: ours.
 */
export const isOpenOutside = (period: Period): boolean => period.around.signal.outside === "unsampled";

/**
 * Greatest mean over any window of this length, both edges, found once a length.
 *
 * max F_low <= max F <= max F_high, each maximum in a window of its own; the upper one is open (null) as soon as any
 * window meets open time. `best` takes readings as shown and declared worst cases at their word; null where over range
 * was met, where readings conflict, or where the upper end is open. Never refuses.
 *
 * @example
 * ```ts
 * import { meanValue } from "./exact-limit.ts";
 * import { periodOf, windowBounds } from "./period.ts";
 * // 10 min at 30, 5 min unsampled with a worst case of 36 at any moment, 15 min at 6.
 * const signal = { decimals: 0, timing: { kind: "uneven", edges: Float64Array.of(0, 600_000, 900_000, 1_800_000) } as const, low: Int32Array.of(30, 0, 6),
 *   high: Int32Array.of(30, 36, 6), stretches: Uint8Array.of(0, 4, 0), averageOnly: [], outside: "unexposed", largest: 600 } as const;
 * const bounds = windowBounds(periodOf(signal, { from: 0, to: 1_800_000 }, { kind: "open" }), 900_000);
 * meanValue(bounds.low); // => 20
 * bounds.high && meanValue(bounds.high); // => 32
 * ```
 * Source: as `greatestWindow`; two ends apart: ours.
 */
export function windowBounds(period: Period, windowMs: number): WindowBounds {
  const known = period.windows.get(windowMs);
  if (known !== undefined) return known;
  const seen = seenByWindow(period, windowMs);
  const { sums, within } = seen;
  const { signal } = sums;
  const mean = (window: GreatestWindow): ExactMean => ({ sum: window.sum, decimals: signal.decimals, durationMs: windowMs });
  // Around the recording the lower edge is nought: no window there is the greatest, and none is named.
  const low = greatestWindow(seen.before.length > 0 ? sums.low : period.sums.low, windowMs, within);
  const upper =
    sums.high === null || isOpenOutside(period) ? null : sums.high === sums.low ? low : greatestWindow(sums.high, windowMs, within);
  const isContested = [period, ...seen.before].some(({ stretch }) => stretch.best === null);
  const bounds: WindowBounds = {
    windowMs,
    low: mean(low),
    high: upper === null ? null : mean(upper),
    best: upper === null || isContested ? null : mean(likelyWindow(period, seen, { low, upper, windowMs, within })),
    from: low.from,
    to: low.from + windowMs,
    coverage: sampledMsBetween(signal, low.from, low.from + windowMs) / windowMs,
  };
  period.windows.set(windowMs, bounds);
  return bounds;
}

export interface WindowEnds {
  readonly low: GreatestWindow;
  readonly upper: GreatestWindow;
  readonly windowMs: number;
  readonly within: { readonly from: number; readonly to: number } | null;
}

export interface SeenByWindow {
  readonly sums: SignalSums;
  readonly within: { readonly from: number; readonly to: number } | null;
  /** Earlier shifts that some window reaches into. */
  readonly before: readonly Period[];
}

/**
 * What windows of this length see that end in the shift: "at any time" knows no end of a shift, so a window may have
 * begun in the one before. Each window belongs to the shift in which it ends; what follows counts there.
 *
 * @example
 * ```ts
 * import { greatestWindow } from "./greatest-window.ts";
 * import { periodOf, seenByWindow } from "./period.ts";
 * const signal = (from: number, ...levels: number[]) => ({ decimals: 0, timing: { kind: "regular", start: from, stepMs: 10, count: 2 } as const,
 *   low: Int32Array.from(levels), high: null, stretches: null, averageOnly: [], outside: "unexposed", largest: 600 }) as const;
 * const first = periodOf(signal(0, 0, 8), { from: 0, to: 20 }, { kind: "open" });
 * const second = periodOf(signal(20, 8, 0), { from: 20, to: 40 }, { kind: "open" }, { before: [first] });
 * const { sums, within } = seenByWindow(second, 20);
 * [greatestWindow(second.sums.low, 20, null).sum, greatestWindow(sums.low, 20, within).sum]; // => [80, 160]
 * ```
 * Never refuses. Source: "at any time in the work day", OSHA Table Z-1-A definitions (1989 rule, reprint: docslib.org)
 * [read]; the shift in which a window ends: ours.
 */
export function seenByWindow(period: Period, windowMs: number): SeenByWindow {
  const { around, shift, signal } = period;
  const from = shift === null ? Number.NaN : shift.from - windowMs;
  const before = shift === null ? [] : period.before.filter(({ sums }) => sums.low.end > from);
  if (shift === null || before.length === 0) return { sums: around, within: null, before: [] };
  const parts = before.map((one) => signalFrom(one.signal, from));
  return { sums: signalSums(joined([...parts, signal])), within: { from, to: shift.to }, before };
}

function likelyWindow({ around, sums, stretch }: Period, seen: SeenByWindow, ends: WindowEnds): GreatestWindow {
  return seen.before.length > 0 || around !== sums ? windowAtWord(seen.sums, ends) : likelyInside(sums, stretch, ends);
}

/**
 * The greatest window of what was said; where no worst case was declared, that is the one of the readings. `ends`: the
 * greatest windows of both edges, found before.
 *
 * @example
 * ```ts
 * import { signalSums } from "./edge-sums.ts";
 * import { greatestWindow } from "./greatest-window.ts";
 * import { likelyInside } from "./period.ts";
 * import { stretchSums } from "./stretch-sums.ts";
 * // 10 ms at 5, 10 ms unsampled that were declared to be at most 9.
 * const signal = { decimals: 0, timing: { kind: "uneven", edges: Float64Array.of(0, 10, 20) } as const, low: Int32Array.of(5, 0),
 *   high: Int32Array.of(5, 9), stretches: Uint8Array.of(0, 4), averageOnly: [], outside: "unexposed", largest: 600 } as const;
 * const sums = signalSums(signal);
 * const ends = { low: greatestWindow(sums.low, 10, null), upper: greatestWindow(sums.high ?? sums.low, 10, null), windowMs: 10, within: null };
 * [ends.low.sum, likelyInside(sums, stretchSums(sums), ends).sum]; // => [50, 90]
 * ```
 * Never refuses. Source: ours.
 */
export function likelyInside(sums: SignalSums, { msByCode }: StretchSums, ends: WindowEnds): GreatestWindow {
  return (msByCode[STRETCH.declaredWorstCase] ?? 0) > 0 ? windowAtWord(sums, ends) : ends.low;
}

function windowAtWord(sums: SignalSums, { upper, windowMs, within }: WindowEnds): GreatestWindow {
  const atWord = sumsAtWord(sums);
  return atWord === sums.high ? upper : greatestWindow(atWord, windowMs, within);
}

/** Kept for as long as the sums they belong to: every window length asks for them. */
const knownAtWord = new WeakMap<SignalSums, EdgeSums>();

/**
 * Sums of readings as shown and declared worst cases at their word; nought where nothing was measured or said.
 *
 * @example
 * ```ts
 * import { signalSums } from "./edge-sums.ts";
 * import { sumsAtWord } from "./period.ts";
 * const signal = { decimals: 0, timing: { kind: "uneven", edges: Float64Array.of(0, 10, 20, 30) } as const, low: Int32Array.of(5, 0, 0),
 *   high: Int32Array.of(5, 9, 0x7fffffff), stretches: Uint8Array.of(0, 4, 2), averageOnly: [], outside: "unexposed", largest: 600 } as const;
 * [...sumsAtWord(signalSums(signal)).values]; // => [5, 9, 0]
 * ```
 * Never refuses. Source: ours.
 */
export function sumsAtWord(sums: SignalSums): EdgeSums {
  const known = knownAtWord.get(sums);
  if (known !== undefined) return known;
  const made = sums.high !== null && partsOnlyInWorstCases(sums) ? sums.high : sumsOfLevels(sums, levelsAtWord(sums.signal));
  knownAtWord.set(sums, made);
  return made;
}

const sumsOfLevels = ({ low, signal }: SignalSums, levels: Int32Array): EdgeSums =>
  levels === signal.low ? low : edgeSums(levels, signal.timing);

/** Whether the two edges differ nowhere but where a worst case was declared: then the upper one is what was said. */
function partsOnlyInWorstCases({ signal, apart }: SignalSums): boolean {
  const { low, high, stretches } = signal;
  if (high === null || stretches === null || apart === null) return true;
  for (let block = apart.indexOf(1); block >= 0; block = apart.indexOf(1, block + 1)) {
    const past = Math.min(low.length, (block + 1) * BLOCK);
    for (let i = block * BLOCK; i < past; i += 1) {
      if (low[i] !== high[i] && stretches[i] !== STRETCH.declaredWorstCase) return false;
    }
  }
  return true;
}

/** Readings as shown, declared worst cases at their word. */
function levelsAtWord({ low, high, stretches }: TwoEdgedSignal): Int32Array {
  if (high === null || stretches === null || !stretches.includes(STRETCH.declaredWorstCase)) return low;
  const levels = Int32Array.from(low);
  for (let i = stretches.indexOf(STRETCH.declaredWorstCase); i >= 0; i = stretches.indexOf(STRETCH.declaredWorstCase, i + 1)) {
    levels[i] = high[i] as number; // as long as stretches
  }
  return levels;
}

/**
 * The signal with unsampled stretches as they were said to be: nought ("zero"), at most a level at any moment, like
 * the sampled time (averages over the whole period only), or open.
 *
 * @example
 * ```ts
 * import { withUnsampled } from "./period.ts";
 * const signal = { decimals: 0, timing: { kind: "uneven", edges: Float64Array.of(0, 10, 20) } as const, low: Int32Array.of(5, 0),
 *   high: Int32Array.of(5, 0x7fffffff), stretches: Uint8Array.of(0, 2), averageOnly: [], outside: "unsampled", largest: 600 } as const;
 * [...(withUnsampled(signal, { kind: "level", steps: 8 }).high ?? [])]; // => [5, 8]
 * withUnsampled(signal, { kind: "zero" }).outside; // => "unexposed"
 * ```
 * Never refuses. Source: time without a record is declared or unsampled, never nought by itself: ours.
 */
export function withUnsampled(signal: TwoEdgedSignal, unsampled: UnsampledSteps): TwoEdgedSignal {
  if (unsampled.kind === "open") return signal;
  const outside = unsampled.kind === "zero" ? "unexposed" : signal.outside;
  const { stretches, high } = signal;
  if (stretches === null || high === null || !stretches.includes(STRETCH.unsampled)) return { ...signal, outside };
  const code =
    unsampled.kind === "zero"
      ? STRETCH.declaredUnexposed
      : unsampled.kind === "level"
        ? STRETCH.declaredWorstCase
        : STRETCH.declaredLikeSampled;
  const upper = unsampled.kind === "zero" ? 0 : unsampled.kind === "level" ? unsampled.steps : OPEN;
  const newHigh = Int32Array.from(high);
  const newStretches = Uint8Array.from(stretches);
  for (let i = 0; i < stretches.length; i += 1) {
    if (stretches[i] !== STRETCH.unsampled) continue;
    newHigh[i] = upper;
    newStretches[i] = code;
  }
  const largest = unsampled.kind === "level" ? Math.max(signal.largest, unsampled.steps) : signal.largest;
  return { ...signal, high: newHigh, stretches: newStretches, outside, largest };
}

/** The signal with a declared level before and after it: where in the shift the recording lay, and how long it was, is not known. */
function padded(signal: TwoEdgedSignal, restMs: number, steps: number): TwoEdgedSignal {
  const count = signal.low.length;
  const edges = edgesOf(signal.timing);
  const newEdges = new Float64Array(count + 3);
  newEdges.set(edges, 1);
  newEdges[0] = edgeAt(signal.timing, 0) - restMs;
  newEdges[count + 2] = edgeAt(signal.timing, count) + restMs;
  const around = <Column extends Int32Array | Uint8Array>(column: Column, inside: Int32Array | Uint8Array, value: number): Column => {
    column.fill(value);
    column.set(inside, 1);
    return column;
  };
  return {
    ...signal,
    timing: { kind: "uneven", edges: newEdges },
    low: around(new Int32Array(count + 2), signal.low, 0),
    high: around(new Int32Array(count + 2), signal.high ?? signal.low, steps),
    stretches: around(new Uint8Array(count + 2), signal.stretches ?? new Uint8Array(count), STRETCH.declaredWorstCase),
    outside: "unexposed",
    largest: Math.max(signal.largest, steps),
  };
}

/**
 * Signals that follow each other as one, nought and declared unexposed between them. In order of time, not overlapping, of
 * one channel.
 *
 * @example
 * ```ts
 * import { joined } from "./period.ts";
 * const shift = (from: number, to: number, level: number) => ({ decimals: 0, timing: { kind: "uneven", edges: Float64Array.of(from, to) }, low: Int32Array.of(level),
 *   high: null, stretches: null, averageOnly: [], outside: "unexposed", largest: 600 }) as const;
 * const day = joined([shift(0, 10, 5), shift(30, 40, 7)]);
 * [[...day.low], [...(day.stretches ?? [])]]; // => [[5, 0, 7], [0, 3, 0]]
 * ```
 * Never refuses. Source: ours.
 */
export function joined(signals: readonly TwoEdgedSignal[]): TwoEdgedSignal {
  const edges: number[] = [];
  const low: number[] = [];
  const high: number[] = [];
  const stretches: number[] = [];
  for (const signal of signals) {
    const count = signal.low.length;
    if (edges.length > 0) {
      if (edges.at(-1) === edgeAt(signal.timing, 0)) edges.pop();
      else {
        low.push(0);
        high.push(0);
        stretches.push(STRETCH.declaredUnexposed);
      }
    }
    for (let i = 0; i < count; i += 1) {
      edges.push(edgeAt(signal.timing, i));
      low.push(signal.low[i] as number); // i < count
      high.push((signal.high ?? signal.low)[i] as number); // as long as low
      stretches.push(signal.stretches === null ? STRETCH.sampled : (signal.stretches[i] as number)); // as long as low
    }
    edges.push(edgeAt(signal.timing, count));
  }
  return {
    decimals: signals[0]?.decimals ?? 0,
    timing: { kind: "uneven", edges: Float64Array.from(edges) },
    low: Int32Array.from(low),
    high: Int32Array.from(high),
    stretches: Uint8Array.from(stretches),
    averageOnly: signals.flatMap((signal) => signal.averageOnly),
    outside: "unexposed",
    largest: Math.max(...signals.map((signal) => signal.largest)),
  };
}
