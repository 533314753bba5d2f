/** How long a reading may stand for when the next one is late. */
import { remembered } from "./remembered.ts";

export interface LargestGap {
  readonly ms: number;
  readonly chosenBy: "default" | "person";
  /** The step that it rests on; null where a person chose, or where there is no step. */
  readonly stepMs: number | null;
  readonly why: "all steps equal" | "longest common step" | "median step" | "chosen by a person" | "one row";
}

/** A reading stands for at most so many steps. A line of a chart is broken by the same rule. Common practice. */
export const GAP_FACTOR = 1.5;

/** Steps within a tenth of each other are one step with jitter. [ours] */
const ALIKE = 1.1;
const LEAST_COUNT = 3;
const LEAST_SHARE = 0.1;
const LONGEST_TIMES_MEDIAN = 10;

/**
 * Largest gap that a recording's own rhythm supports: 1.5 x the longest common step. A step s is common when at least
 * max(3, 10 % of all) steps lie in [s / 1.1, s], and s is at most 10 x the median step; without a common step the
 * (lower) median stands in. A logger that saves less often while nothing changes so keeps its slow step, while a few
 * long silences stay gaps.
 *
 * Steps are counted in bins of 1/128 of an octave, each bin standing for its longest step.
 *
 * @param times milliseconds, strictly rising
 * @returns milliseconds; 0 for fewer than two rows
 * @example
 * ```ts
 * import { defaultLargestGap } from "./largest-gap.ts";
 * defaultLargestGap(Float64Array.of(0, 10_000, 20_000)); // => { "ms": 15000, "chosenBy": "default", "stepMs": 10000, "why": "all steps equal" }
 * ```
 * Source: factor 1.5 for breaking a line is common practice; its use for a largest gap, and the rest, are ours.
 */
export function defaultLargestGap(times: Float64Array): LargestGap {
  return remembered(gaps, times, foundLargestGap);
}

const gaps = new WeakMap<Float64Array, { readonly found: LargestGap }>();
const steps = new WeakMap<Float64Array, { readonly found: number | null }>();
const longest = new WeakMap<Float64Array, { readonly found: number }>();

function foundLargestGap(times: Float64Array): LargestGap {
  if (times.length < 2) return { ms: 0, chosenBy: "default", stepMs: null, why: "one row" };
  const step = regularStep(times);
  if (step !== null) return { ms: gapAfter(step), chosenBy: "default", stepMs: step, why: "all steps equal" };
  const bins = stepBins(times);
  const median = medianOf(bins, times.length - 1);
  const common = longestCommonStep(bins, times.length - 1, median);
  const stepMs = common ?? median;
  return { ms: gapAfter(stepMs), chosenBy: "default", stepMs, why: common === null ? "median step" : "longest common step" };
}

/** In whole milliseconds, rounded down, so that what a reading stands for sums exactly. */
const gapAfter = (stepMs: number): number => Math.floor(GAP_FACTOR * stepMs);

/**
 * The step where all are equal; else null.
 *
 * @param times milliseconds, strictly rising
 * @example
 * ```ts
 * import { regularStep } from "./largest-gap.ts";
 * regularStep(Float64Array.of(0, 10, 21)); // => null
 * ```
 */
export function regularStep(times: Float64Array): number | null {
  return remembered(steps, times, foundStep);
}

function foundStep(times: Float64Array): number | null {
  const count = times.length;
  if (count < 2) return null;
  const first = times[0] ?? 0;
  const step = (times[1] ?? 0) - first;
  if ((times[count - 1] ?? 0) - first !== step * (count - 1)) return null;
  let before = first;
  for (let row = 1; row < count; row += 1) {
    const time = times[row] ?? 0;
    if (time - before !== step) return null;
    before = time;
  }
  return step;
}

/** The longest time between two rows; 0 for fewer than two. */
export function longestStep(times: Float64Array): number {
  return remembered(longest, times, foundLongest);
}

function foundLongest(times: Float64Array): number {
  let most = 0;
  let before = times[0] ?? 0;
  for (let row = 1; row < times.length; row += 1) {
    const time = times[row] ?? 0;
    if (time - before > most) most = time - before;
    before = time;
  }
  return most;
}

/** A stretch of rows, both ends included, and the step from which on two rows are apart. */
export interface RowStretch {
  readonly firstRow: number;
  readonly lastRow: number;
  readonly largestGapMs: number;
}

/**
 * Shortest and longest step from row to row, those over the largest gap left out; null where no two rows are so near.
 *
 * @param times milliseconds, strictly rising
 * @example
 * ```ts
 * import { stepRange } from "./largest-gap.ts";
 * stepRange(Float64Array.of(0, 10, 21, 90), { firstRow: 0, lastRow: 3, largestGapMs: 15 }); // => { "leastMs": 10, "mostMs": 11 }
 * ```
 * Never refuses. Source: ours.
 */
export function stepRange(times: Float64Array, stretch: RowStretch): { readonly leastMs: number; readonly mostMs: number } | null {
  const known = ranges.get(times);
  const { firstRow, lastRow, largestGapMs } = stretch;
  const isSame = known?.firstRow === firstRow && known.lastRow === lastRow && known.largestGapMs === largestGapMs;
  if (known !== undefined && isSame) return known.range;
  const range = foundRange(times, stretch);
  ranges.set(times, { ...stretch, range });
  return range;
}

/** Of the last stretch that was asked for: channels of one recording share their rows. */
const ranges = new WeakMap<Float64Array, RowStretch & { readonly range: ReturnType<typeof foundRange> }>();

function foundRange(
  times: Float64Array,
  { firstRow, lastRow, largestGapMs }: RowStretch,
): { readonly leastMs: number; readonly mostMs: number } | null {
  if (lastRow <= firstRow) return null;
  const step = regularStep(times);
  if (step !== null) return { leastMs: step, mostMs: step };
  let least = Infinity;
  let most = 0;
  let before = times[firstRow] as number; // a row of the channel
  for (let row = firstRow + 1; row <= lastRow; row += 1) {
    const time = times[row] as number; // lastRow is one of them
    const ms = time - before;
    before = time;
    if (ms > largestGapMs) continue;
    if (ms < least) least = ms;
    if (ms > most) most = ms;
  }
  return most === 0 ? null : { leastMs: least, mostMs: most };
}

/** Rows after which the next one is later than the largest gap. */
export function lateRows(times: Float64Array, largestGapMs: number): Uint32Array {
  const known = late.get(times);
  if (known?.largestGapMs === largestGapMs) return known.rows;
  const rows = foundLate(times, largestGapMs);
  late.set(times, { largestGapMs, rows });
  return rows;
}

/** Of the last largest gap that was asked for: nobody tries many. */
const late = new WeakMap<Float64Array, { readonly largestGapMs: number; readonly rows: Uint32Array }>();

function foundLate(times: Float64Array, largestGapMs: number): Uint32Array {
  const rows: number[] = [];
  let before = times[0] ?? 0;
  for (let row = 1; row < times.length; row += 1) {
    const time = times[row] as number; // row < length
    if (time - before > largestGapMs) rows.push(row - 1);
    before = time;
  }
  return Uint32Array.from(rows);
}

/** The one step of a log that is regular but for its gaps; null where there are several common steps or none. */
export function onlyCommonStep(times: Float64Array): number | null {
  const step = regularStep(times);
  if (step !== null || times.length < 2) return step;
  const bins = stepBins(times);
  const steps = times.length - 1;
  const longest = longestCommonStep(bins, steps, medianOf(bins, steps));
  if (longest === null) return null;
  const elsewhere = bins.filter((bin) => bin.longest < longest / ALIKE).reduce((count, bin) => count + bin.count, 0);
  return elsewhere < leastCount(steps) ? longest : null;
}

interface StepBin {
  readonly longest: number;
  readonly count: number;
}

/** Bins reach from 2^-10 ms to 2^40 ms (35 years); what lies beyond falls into the outermost ones. */
const FIRST_BIN = (1023 - 10) << 7;
const BINS = 50 << 7;

/** Working space of `stepBins`, empty between calls: making it anew would cost more than counting one shift. */
const binCounts = new Uint32Array(BINS);
const binLongest = new Float64Array(BINS);
const stepBits = new Float64Array(1);
const stepWords = new Uint32Array(stepBits.buffer);

/** The upper bits of a double are its octave and where it stands in it: a cheap logarithmic bin. */
function stepBins(times: Float64Array): StepBin[] {
  stepBits[0] = 1;
  const upperWord = stepWords[1] === 0 ? 0 : 1;
  let lowest = BINS;
  let highest = -1;
  let before = times[0] ?? 0;
  for (let row = 1; row < times.length; row += 1) {
    const time = times[row] ?? 0;
    const step = time - before;
    before = time;
    stepBits[0] = step;
    const bin = Math.min(BINS - 1, Math.max(0, ((stepWords[upperWord] ?? 0) >>> 13) - FIRST_BIN));
    binCounts[bin] = (binCounts[bin] ?? 0) + 1;
    if (step > (binLongest[bin] ?? 0)) binLongest[bin] = step;
    if (bin < lowest) lowest = bin;
    if (bin > highest) highest = bin;
  }
  const bins: StepBin[] = [];
  for (let bin = lowest; bin <= highest; bin += 1) {
    const count = binCounts[bin] ?? 0;
    if (count > 0) bins.push({ longest: binLongest[bin] ?? 0, count });
  }
  binCounts.fill(0, lowest, highest + 1);
  binLongest.fill(0, lowest, highest + 1);
  return bins;
}

function medianOf(bins: readonly StepBin[], steps: number): number {
  let seen = 0;
  for (const bin of bins) {
    seen += bin.count;
    if (seen * 2 >= steps) return bin.longest;
  }
  return 0;
}

function leastCount(steps: number): number {
  return Math.max(LEAST_COUNT, LEAST_SHARE * steps);
}

function longestCommonStep(bins: readonly StepBin[], steps: number, median: number): number | null {
  let longest: number | null = null;
  let shortest = 0;
  let count = 0;
  for (const bin of bins) {
    count += bin.count;
    while ((bins[shortest]?.longest ?? 0) < bin.longest / ALIKE) {
      count -= bins[shortest]?.count ?? 0;
      shortest += 1;
    }
    if (count >= leastCount(steps) && bin.longest <= LONGEST_TIMES_MEDIAN * median) longest = bin.longest;
  }
  return longest;
}
