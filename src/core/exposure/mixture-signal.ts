/** Several substances with additive effect as one signal: the sum of C_i(t) / L_i, before any window slides over it. */
import type { TwoEdgedSignal } from "../recording/index.ts";
import { OPEN, STRETCH } from "../recording/index.ts";
import { assert } from "../result.ts";
import { edgeAt, segmentAt } from "./edge-sums.ts";

/** Digits of the index kept: a millionth of the limit. */
const INDEX_DECIMALS = 6;

export interface MixtureShare {
  readonly signal: TwoEdgedSignal;
  /** The substance's own limit of the same kind, in the unit of its signal; above 0. */
  readonly limit: number;
}

/**
 * The additive index at every moment, i(t) = sum of C_i(t) / L_i, as a two-edged signal in millionths: the lower edge
 * rounded down, the upper one up. Slide windows over it and compare with 1. Adding separate maxima instead overstates
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
 * Open where any part is open; unsampled where any part is. Never refuses. Source: 29 CFR 1910.1000(d)(2)(i) [read] for
 * the index; forming the signal first: ours.
 */
export function mixtureSignal(shares: readonly MixtureShare[]): TwoEdgedSignal {
  assert(shares.length > 0 && shares.every(({ limit }) => limit > 0), "a mixture has parts, each with a limit above nought");
  const edges = mergedEdges(shares.map(({ signal }) => signal));
  const count = edges.length - 1;
  const low = new Int32Array(count);
  const high = new Int32Array(count);
  const stretches = new Uint8Array(count);
  for (let i = 0; i < count; i += 1) {
    const moment = indexAt(shares, edges[i] as number); // count + 1 edges
    low[i] = Math.floor(moment.low * 10 ** INDEX_DECIMALS + 1e-6);
    high[i] = moment.high === null ? OPEN : Math.ceil(moment.high * 10 ** INDEX_DECIMALS - 1e-6);
    stretches[i] = moment.stretch;
  }
  const outside = shares.some(({ signal }) => signal.outside === "unsampled") ? "unsampled" : "unexposed";
  const largest = high.reduce(
    (most, value) => (value === OPEN ? most : Math.max(most, Math.abs(value))),
    low.reduce((most, value) => Math.max(most, Math.abs(value)), 1),
  );
  return { decimals: INDEX_DECIMALS, timing: { kind: "uneven", edges }, low, high, stretches, averageOnly: [], outside, largest };
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
    stretch = Math.max(stretch, part.stretch);
  }
  return { low, high, stretch };
}

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
    stretch: stretches === null ? STRETCH.sampled : (stretches[at] as number),
  };
}
