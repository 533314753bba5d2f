/** The later part of a signal: what a window that ends afterwards still reaches. */
import type { TwoEdgedSignal } from "../recording/index.ts";
import { edgeAt, edgesOf, segmentAt } from "./edge-sums.ts";

/**
 * The part of a signal from an instant on, at or before its end; the whole where it begins later. Levels and grounds
 * are views of the same memory. Never refuses.
 *
 * @example
 * ```ts
 * import { signalFrom } from "./signal-from.ts";
 * const signal = { decimals: 0, timing: { kind: "regular", start: 0, stepMs: 10, count: 3 } as const, low: Int32Array.of(5, 6, 7),
 *   high: null, stretches: null, averageOnly: [], outside: "unexposed", largest: 7 } as const;
 * const later = signalFrom(signal, 15);
 * [[...later.low], later.timing.kind === "uneven" && [...later.timing.edges]]; // => [[6, 7], [15, 20, 30]]
 * ```
 * Source: ours.
 */
export function signalFrom(signal: TwoEdgedSignal, from: number): TwoEdgedSignal {
  const { timing, low, high, stretches } = signal;
  const count = low.length;
  if (from <= edgeAt(timing, 0)) return signal;
  const first = segmentAt(timing, count, from);
  const edges = edgesOf(timing).slice(first);
  edges[0] = from;
  return {
    ...signal,
    timing: { kind: "uneven", edges },
    low: low.subarray(first),
    high: high?.subarray(first) ?? null,
    stretches: stretches?.subarray(first) ?? null,
  };
}
