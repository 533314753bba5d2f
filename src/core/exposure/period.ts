/** One channel over one shift: the signal with what was said of unsampled time, and its sums. */
import { OPEN, STRETCH, type TwoEdgedSignal } from "../recording/index.ts";
import type { ShiftSpan } from "./assessment.ts";
import { edgeAt, edgesOf, type SignalSums, signalSums } from "./edge-sums.ts";
import { type StretchSums, stretchSums } from "./stretch-sums.ts";
import type { WindowBounds } from "./window-bounds.ts";

/** What was said of unsampled time, a level in whole steps rounded up. */
export type UnsampledSteps =
  | { readonly kind: "open" }
  | { readonly kind: "zero" }
  | { readonly kind: "like" }
  | { readonly kind: "level"; readonly steps: number };

export const EIGHT_HOURS_MS = 28_800_000;

/** Hidden by a level below nought where two readings of some instant differ: even an upper end of nought is in doubt there. */
const NOTHING_FOR_SURE = -2;

export interface PeriodContext {
  readonly noughtHides?: number;
  readonly isContested?: boolean;
  readonly before?: readonly Period[];
  readonly isNamed?: boolean;
}

export interface Period {
  readonly signal: TwoEdgedSignal;
  readonly sums: SignalSums;
  readonly stretch: StretchSums;
  /** Null: the file is one shift, and how long the shift was is not known. */
  readonly shift: ShiftSpan | null;
  readonly unsampled: UnsampledSteps;
  /** What short windows see: as `sums`, with the declared level on both sides where the shift is not known. */
  readonly around: SignalSums;
  /** What lies before this one, in order of time: a window that ends in this shift may have begun there. */
  readonly before: readonly Period[];
  /** Whether it is a named shift; else it holds readings of no named one, each as an upper bound alone. */
  readonly isNamed: boolean;
  /** What a shown nought can hide, in steps; below nought where readings claim one instant and differ, see `sumsInDoubt`. */
  readonly noughtHides: number;
  readonly windows: Map<number, WindowBounds>;
}

/**
 * A period of a signal under what was said of unsampled time. `shift` null where nobody said how long the shift was:
 * then the rest of 8 h is unsampled too, before or after the recording. `doubt`: what a shown nought can hide, in steps, and
 * whether readings are known to claim one instant and differ, so that no best average can be given. `before`: shifts and
 * readings of no shift before this one, in order of time. Never refuses.
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
  { noughtHides = 0, isContested = false, before = [], isNamed = true }: PeriodContext = {},
): Period {
  const signal = withUnsampled(recorded, unsampled);
  const sums = signalSums(signal);
  const known = stretchSums(sums, noughtHides);
  const stretch = isContested ? { ...known, best: null } : known;
  // How long the shift was is not known: a window may lie anywhere in 8 h before the recording, and after it.
  const around = unsampled.kind === "level" && shift === null ? signalSums(padded(signal, EIGHT_HOURS_MS, unsampled.steps)) : sums;
  const hides = isContested ? NOTHING_FOR_SURE : noughtHides;
  return { signal, sums, stretch, shift, unsampled, around, before, isNamed, noughtHides: hides, windows: new Map() };
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
