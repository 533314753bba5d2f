/** Several substances with additive effect as one signal: the sum of C_i(t) / L_i, before any window slides over it. */
import type { TwoEdgedSignal } from "../recording/index.ts";
import { OPEN, STRETCH } from "../recording/index.ts";
import { assert } from "../result.ts";
import { edgeAt, segmentAt } from "./edge-sums.ts";
import { EIGHT_HOURS_MS } from "./period.ts";

/** Digits of the index kept, a millionth of the limit; fewer where so large an index would not stay exact. */
const MOST_DECIMALS = 6;

export interface MixtureShare {
  readonly signal: TwoEdgedSignal;
  /** The substance's own limit of the same kind, in the unit of its signal; above 0. */
  readonly limit: number;
}

/**
 * The additive index at every moment, i(t) = sum of C_i(t) / L_i, as a two-edged signal in millionths (coarser where the
 * index is so large that its sums would not stay exact): the lower edge rounded down, the upper one up. Slide windows over it and compare with 1. Adding separate maxima instead overstates
 * where the peaks fall at different times.
 *
 * @param shares at least one; substances that a competent person has declared additive, each with a limit of one kind
 * @example
 * ```ts
 * import { edgeSums } from "./edge-sums.ts";
 * import { greatestWindow } from "./greatest-window.ts";
 * import { mixtureSignal } from "./mixture-signal.ts";
 * const signal = (...levels: number[]) => ({ decimals: 0, timing: { kind: "regular", start: 0, stepMs: 900000, count: levels.length }, low: Int32Array.from(levels),
 *   high: null, stretches: null, averageOnly: [], outside: "unexposed", largest: 100 }) as const;
 * const index = mixtureSignal([{ signal: signal(80, 20), limit: 100 }, { signal: signal(1, 9), limit: 10 }]);
 * greatestWindow(edgeSums(index.low, index.timing), 900000, null).sum / 900000 / 1e6; // => 1.1
 * ```
 * Open where any part is open; unsampled where any part is. "Like the sampled time" and bounds for averages stay open: they
 * are about one substance over one period. Never refuses. Source: 29 CFR 1910.1000(d)(2)(i) [read] for
 * the index; forming the signal first: ours.
 */
export function mixtureSignal(shares: readonly MixtureShare[]): TwoEdgedSignal {
  assert(shares.length > 0 && shares.every(({ limit }) => limit > 0), "a mixture has parts, each with a limit above nought");
  const edges = mergedEdges(shares.map(({ signal }) => signal));
  const moments = Array.from({ length: edges.length - 1 }, (_, i) => indexAt(shares, edges[i] as number)); // count + 1 edges
  const greatest = moments.reduce((most, { low, high }) => Math.max(most, Math.abs(low), high ?? 0), 0);
  const decimals = decimalsFor(greatest, (edges.at(-1) ?? 0) - (edges[0] ?? 0));
  const scale = 10 ** decimals;
  // What a double leaves of a sum of ratios is far below a step: it must not push the ends a whole step apart.
  const low = Int32Array.from(moments, (moment) => Math.floor(moment.low * scale + 1e-6));
  const high = Int32Array.from(moments, (moment) => (moment.high === null ? OPEN : Math.ceil(moment.high * scale - 1e-6)));
  const outside = shares.some(({ signal }) => signal.outside === "unsampled") ? "unsampled" : "unexposed";
  const stretches = Uint8Array.from(moments, ({ stretch }) => stretch);
  const largest = Math.ceil(greatest * scale) + 1;
  return { decimals, timing: { kind: "uneven", edges }, low, high, stretches, averageOnly: [], outside, largest };
}

/** The most decimals at which steps fit 32 bits, and steps x milliseconds stay below 2^53 with 8 h around them. */
function decimalsFor(greatest: number, lengthMs: number): number {
  const reachMs = lengthMs + 2 * EIGHT_HOURS_MS;
  let decimals = MOST_DECIMALS;
  while (greatest * 10 ** decimals + 2 > Math.min(OPEN - 1, Number.MAX_SAFE_INTEGER / reachMs)) decimals -= 1;
  return decimals;
}

function mergedEdges(signals: readonly TwoEdgedSignal[]): Float64Array {
  const edges = new Set<number>();
  for (const { timing, low } of signals) for (let i = 0; i <= low.length; i += 1) edges.add(edgeAt(timing, i));
  return Float64Array.from(edges).sort();
}

interface Moment {
  readonly low: number;
  readonly high: number | null;
  readonly stretch: number;
}

function indexAt(shares: readonly MixtureShare[], instant: number): Moment {
  let low = 0;
  let high: number | null = 0;
  let stretch: number = STRETCH.sampled;
  for (const { signal, limit } of shares) {
    const part = levelAt(signal, instant);
    const unit = limit * 10 ** signal.decimals;
    low += part.low / unit;
    high = high === null || part.high === null ? null : high + part.high / unit;
    stretch = weaker(stretch, part.stretch);
  }
  return { low, high, stretch };
}

/** What a sum rests on is what its weakest part rests on: unsampled first, measured last. */
const WEAKEST_FIRST: readonly number[] = [
  STRETCH.unsampled,
  STRETCH.declaredWorstCase,
  STRETCH.bounded,
  STRETCH.declaredUnexposed,
  STRETCH.sampled,
];

function weaker(first: number, second: number): number {
  return WEAKEST_FIRST.indexOf(first) <= WEAKEST_FIRST.indexOf(second) ? first : second;
}

/** What was said of one substance over its period is said of no sum of substances. */
const ofThePeriodAlone = (code: number): number =>
  code === STRETCH.declaredLikeSampled || code === STRETCH.declaredAverageOnly ? STRETCH.unsampled : code;

function levelAt({ timing, low, high, stretches, outside }: TwoEdgedSignal, instant: number): Moment {
  const at = segmentAt(timing, low.length, instant);
  if (at < 0 || at >= low.length)
    return {
      low: 0,
      high: outside === "unsampled" ? null : 0,
      stretch: outside === "unsampled" ? STRETCH.unsampled : STRETCH.declaredUnexposed,
    };
  const upper = (high ?? low)[at] as number; // at < length
  return {
    low: low[at] as number,
    high: upper === OPEN ? null : upper,
    stretch: stretches === null ? STRETCH.sampled : ofThePeriodAlone(stretches[at] as number),
  };
}
