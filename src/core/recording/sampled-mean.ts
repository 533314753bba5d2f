/** What a signal says over the time that was really measured. */
import { edgeAt, segmentCount } from "./pieces.ts";
import { OPEN, STRETCH, type TwoEdgedSignal } from "./signal.ts";

export interface SampledMean {
  /** Measured time, bounds included, milliseconds. */
  readonly sampledMs: number;
  /** Mean of the lower edge over it, in the unit of the channel; null where nothing was measured. */
  readonly low: number | null;
  /** Mean of the upper edge; null where nothing was measured, or some of it has no upper bound. */
  readonly high: number | null;
}

/**
 * Means of both edges over the measured time, each reading weighted by how long it stands (previous-value hold for
 * spot readings): sum(c_i t_i) / sum(t_i). Summed in whole steps x milliseconds; divided once.
 *
 * @param signal both edges in steps of 10^-decimals
 * @returns mean in the unit of the channel
 * Never refuses; without measured time there is no mean.
 * @example
 * ```ts
 * import { sampledMean } from "./sampled-mean.ts";
 * const timing = { kind: "uneven", edges: Float64Array.of(0, 600_000, 900_000) } as const;
 * const signal = { decimals: 1, timing, low: Int32Array.of(100, 400), high: null, stretches: null, averageOnly: [], outside: "unsampled", largest: 400 } as const;
 * sampledMean(signal); // => { "sampledMs": 900000, "low": 20, "high": 20 }
 * ```
 * Source: 29 CFR 1910.1000(d)(1)(i), sum(C T), here over the sampled time [read].
 */
export function sampledMean(signal: TwoEdgedSignal): SampledMean {
  const { timing, low, high, stretches, decimals } = signal;
  let sampledMs = 0;
  let lowSum = 0;
  let highSum = 0;
  let isOpen = false;
  for (let segment = 0; segment < segmentCount(timing); segment += 1) {
    if (stretches !== null && !isMeasured(stretches[segment] ?? 0)) continue;
    const ms = edgeAt(timing, segment + 1) - edgeAt(timing, segment);
    const highest = high === null ? (low[segment] ?? 0) : (high[segment] ?? 0);
    sampledMs += ms;
    lowSum += ms * (low[segment] ?? 0);
    if (highest === OPEN) isOpen = true;
    else highSum += ms * highest;
  }
  if (sampledMs === 0) return { sampledMs, low: null, high: null };
  const scale = 10 ** decimals;
  return { sampledMs, low: lowSum / sampledMs / scale, high: isOpen ? null : highSum / sampledMs / scale };
}

/**
 * Share of a stretch of time that was really measured, 0 to 1. Over range counts as measured: a bound is a
 * measurement.
 *
 * @param from milliseconds; the stretch is [from, to)
 * @param to milliseconds, later than `from`
 * Never refuses; time outside the signal was not measured.
 * @example
 * ```ts
 * import { coverage } from "./sampled-mean.ts";
 * const timing = { kind: "regular", start: 0, stepMs: 60_000, count: 9 } as const;
 * const signal = { decimals: 0, timing, low: new Int32Array(9).fill(40), high: null, stretches: null, averageOnly: [], outside: "unsampled", largest: 40 } as const;
 * coverage(signal, 0, 900_000); // => 0.6
 * ```
 * Source: handbook on interfaces 10.3, nine minutes measured of fifteen [computed].
 */
export function coverage(signal: TwoEdgedSignal, from: number, to: number): number {
  const { timing, stretches } = signal;
  let ms = 0;
  for (let segment = 0; segment < segmentCount(timing); segment += 1) {
    if (stretches !== null && !isMeasured(stretches[segment] ?? 0)) continue;
    ms += Math.max(0, Math.min(to, edgeAt(timing, segment + 1)) - Math.max(from, edgeAt(timing, segment)));
  }
  return ms / (to - from);
}

export function isMeasured(stretch: number): boolean {
  return stretch === STRETCH.sampled || stretch === STRETCH.bounded;
}
