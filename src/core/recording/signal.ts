/** High end without a bound: nobody declared one. */
export const OPEN = 0x7fffffff;

/** What a stretch of the signal rests on, one code a segment. */
export const STRETCH = {
  sampled: 0,
  /** Measured, but only as a bound (over range). Counts as sampled time for coverage. */
  bounded: 1,
  /** Not measured: gap, fault, off, before the first or after the last row. */
  unsampled: 2,
  /** A person said that nobody was exposed. */
  declaredUnexposed: 3,
  /** A person said how bad it can have been. */
  declaredWorstCase: 4,
  /** A person said that it was like the sampled time; `low` and `high` hold 0 and OPEN, averages over the whole period only. */
  declaredLikeSampled: 5,
  /** A worst case that holds only as an average: `low` 0, `high` OPEN here; see `averageOnly`. */
  declaredAverageOnly: 6,
} as const;
export type StretchCode = (typeof STRETCH)[keyof typeof STRETCH];

/** Regular segments cost no memory for their edges and take a faster path. */
export type Timing =
  | { readonly kind: "regular"; readonly start: number; readonly stepMs: number; readonly count: number }
  /** count + 1 edges in milliseconds, strictly rising. */
  | { readonly kind: "uneven"; readonly edges: Float64Array };

/**
 * A piecewise constant signal with two edges: low(t) <= c(t) <= high(t). Whole steps of 10^-decimals, so sums of
 * steps x milliseconds are exact below 2^53 (asserted when it is made).
 */
export interface TwoEdgedSignal {
  readonly decimals: number;
  readonly timing: Timing;
  readonly low: Int32Array;
  /** Null where the two edges are the same everywhere. OPEN where there is no bound. */
  readonly high: Int32Array | null;
  /** Null where every segment is `sampled`. */
  readonly stretches: Uint8Array | null;
  /** Worst cases that hold as averages only: bound in steps for a whole stretch of time. */
  readonly averageOnly: readonly { readonly from: number; readonly to: number; readonly high: number }[];
  /** What the signal is outside its own edges. */
  readonly outside: "unexposed" | "unsampled";
  /** Largest |steps| that is not OPEN; with the length it proves exactness. */
  readonly largest: number;
}
