/**
 * Sliding windows of any length, exact. For a signal that is constant between its edges the sum over a window
 * [s, s + w] is a straight line in s between the instants at which s or s + w meets an edge, so its maximum lies at
 * one of those (exposure chapter of the method page, "window edges at breakpoints suffice"). Blocks whose bound cannot
 * beat what was found are skipped; the rest is swept edge by edge in whole numbers.
 */
import { BLOCK, BLOCK_BITS, blockAt, type EdgeSums, edgesOf, integralInBlock, integralTo, segmentAt } from "./edge-sums.ts";

export interface GreatestWindow {
  /** Integral over the window, steps x milliseconds. */
  readonly sum: number;
  /** Where the window starts, milliseconds; the earliest of equals that lies in the recording. */
  readonly from: number;
}

/** Where windows may lie: wholly inside a span, or anywhere (null), the signal being nought outside its own edges. */
export type Confinement = { readonly from: number; readonly to: number } | null;

/**
 * The window of length `windowMs` with the greatest integral of one edge.
 *
 * max over s of the integral from s to s + w. `windowMs` > 0. With `within`, only windows wholly inside it (its length
 * must be at least `windowMs`); else any window that touches the signal. Divide by windowMs x 10^decimals for the mean.
 *
 * @example
 * ```ts
 * import { edgeSums } from "./edge-sums.ts";
 * import { greatestWindow } from "./greatest-window.ts";
 * // Levels 0, 30, 50, 0, 40, 10 ppm of 4 min each: the best 15 min are minutes 5 to 20, mean 30.
 * const sums = edgeSums(Int32Array.of(0, 30, 50, 0, 40, 10), { kind: "regular", start: 0, stepMs: 240000, count: 6 });
 * greatestWindow(sums, 900000, null).sum / 900000; // => 30
 * greatestWindow(sums, 900000, null).from / 60000; // => 5
 * ```
 * Source: piecewise-linear argument, ours; the sliding reading of "at any time": 29 CFR 1910.1000 Table Z-1-A
 * definitions (1989 rule, reprint docslib.org) [read], Directive 98/24/EC Annex I note 4 [read].
 */
export function greatestWindow(sums: EdgeSums, windowMs: number, within: Confinement): GreatestWindow {
  const from = within === null ? sums.start - windowMs : within.from;
  const to = within === null ? sums.end : within.to - windowMs;
  const { timing } = sums;
  if (timing.kind === "regular" && within === null && windowMs % timing.stepMs === 0) {
    return greatestOnSteps(sums, windowMs / timing.stepMs, timing.start, timing.stepMs);
  }
  return greatestBetween(sums, edgesOf(timing), windowMs, from, to);
}

/**
 * Whether the integral over any window is above a level: as `greatestWindow`, and sooner, since what cannot pass the
 * level is not looked at. `levelSum` in steps x milliseconds.
 *
 * @example
 * ```ts
 * import { edgeSums } from "./edge-sums.ts";
 * import { isWindowAbove } from "./greatest-window.ts";
 * const sums = edgeSums(Int32Array.of(0, 30, 50, 0, 40, 10), { kind: "regular", start: 0, stepMs: 240000, count: 6 });
 * [29.9, 30].map((level) => isWindowAbove(sums, 900000, null, level * 900000)); // => [true, false]
 * ```
 * Never refuses. Source: as `greatestWindow`.
 */
export function isWindowAbove(sums: EdgeSums, windowMs: number, within: Confinement, levelSum: number): boolean {
  if (levelSum >= 0 && sums.greatest * windowMs <= levelSum) return false;
  const from = within === null ? sums.start - windowMs : within.from;
  const to = within === null ? sums.end : within.to - windowMs;
  return greatestBetween(sums, edgesOf(sums.timing), windowMs, from, to, levelSum).sum > levelSum;
}

/** What the search has found so far. */
interface Search {
  best: number;
  at: number;
}

/** `least`: windows that are not above it may be passed over. */
function greatestBetween(
  sums: EdgeSums,
  edges: Float64Array,
  windowMs: number,
  from: number,
  to: number,
  least: number = Number.NEGATIVE_INFINITY,
): GreatestWindow {
  const first = Math.min(Math.max(from, sums.start), to);
  const span = { windowMs, from: first, to: Math.min(to, sums.end) };
  const search: Search = { best: Math.max(least, integralTo(sums, first + windowMs) - integralTo(sums, first)), at: first };
  const likely = first >= sums.start ? likelyBest(sums, edges, span) : Number.NEGATIVE_INFINITY;
  if (likely > search.best) {
    const sought: Search = { best: justBelow(likely), at: Number.NaN };
    searchBlocks(sums, edges, span, sought);
    // The same window is met again on the way, unless its sum came out of broken milliseconds: then nothing is known beforehand.
    if (Number.isNaN(sought.at)) searchBlocks(sums, edges, span, search);
    else Object.assign(search, sought);
  } else if (first >= sums.start) searchBlocks(sums, edges, span, search);
  // Windows that begin before the signal gain on the first inside one only where the signal falls below nought.
  if (from < first && sums.least < 0) sweep(sums, edges, windowMs, from, first, search);
  return { sum: search.best, from: search.at };
}

interface Span {
  readonly windowMs: number;
  readonly from: number;
  readonly to: number;
}

/** The next lower number, or one near it: what reaches `sum` is above it, and what is below `sum` hardly is. */
const justBelow = (sum: number): number => sum - Math.max(Number.MIN_VALUE, Math.abs(sum) * Number.EPSILON);

/** The greatest sum of a window that starts in the block around which most lies: what cannot reach it need not be looked at. */
function likelyBest(sums: EdgeSums, edges: Float64Array, { windowMs, from, to }: Span): number {
  const { times, blocks } = sums;
  let ahead = 0;
  let most = Number.NEGATIVE_INFINITY;
  let likely = -1;
  for (let block = blockAt(sums, from); block < blocks && (times[block] as number) < to; block += 1) {
    const end = times[block + 1] as number; // blocks + 1 times
    while (ahead < blocks && (times[ahead] as number) < end + windowMs) ahead += 1;
    const all = (sums.sums[ahead] as number) - (sums.sums[block] as number); // both <= blocks
    if (all <= most) continue;
    most = all;
    likely = block;
  }
  if (likely < 0) return most;
  const search: Search = { best: Number.NEGATIVE_INFINITY, at: Number.NaN };
  const start = Math.max(from, times[likely] as number); // likely < blocks
  const end = Math.min(to, times[likely + 1] as number); // blocks + 1 times
  if (start < end) sweep(sums, edges, windowMs, start, end, search);
  return search.best;
}

function searchBlocks(sums: EdgeSums, edges: Float64Array, { windowMs, from, to }: Span, search: Search): void {
  const { times, blocks } = sums;
  let ahead = 0;
  let sumAtStart = Number.NaN;
  for (let block = blockAt(sums, from); block < blocks; block += 1) {
    const start = Math.max(from, times[block] as number); // block < blocks
    const end = Math.min(to, times[block + 1] as number); // blocks + 1 times
    if (start >= end) break;
    while (ahead < blocks && (times[ahead] as number) < end + windowMs) ahead += 1;
    if (coarseBound(sums, block, ahead) <= search.best) {
      sumAtStart = Number.NaN;
      continue;
    }
    if (Number.isNaN(sumAtStart)) sumAtStart = windowSum(sums, start, windowMs, block, ahead);
    const sumAtEnd = windowSum(sums, end, windowMs, block, ahead);
    if (slopeBound(sums, block, ahead, { start, end, windowMs, sumAtStart, sumAtEnd }) > search.best) {
      sweepFrom(sums, edges, windowMs, start, end, sumAtStart, search);
    }
    sumAtStart = sumAtEnd;
  }
}

/** No window that starts in `block` can hold more than all from its first edge to the edge of block `ahead`. */
function coarseBound(sums: EdgeSums, block: number, ahead: number): number {
  const all = (sums.sums[ahead] as number) - (sums.sums[block] as number); // both <= blocks
  return sums.least >= 0 ? all : all - sums.least * ((sums.times[ahead] as number) - (sums.times[block] as number));
}

/** Integral over [start, start + w], `start` lying in `block` or at its end, its far end not past block `ahead`. */
function windowSum(sums: EdgeSums, start: number, windowMs: number, block: number, ahead: number): number {
  const far = start + windowMs;
  const { times, sums: known, blocks } = sums;
  const near =
    start === times[block]
      ? (known[block] as number)
      : start === times[block + 1]
        ? (known[block + 1] as number)
        : integralInBlock(sums, block, start);
  if (far >= sums.end) return (known[blocks] as number) - near;
  let holding = Math.min(ahead, blocks - 1);
  while (holding > 0 && (times[holding] as number) > far) holding -= 1;
  return integralInBlock(sums, holding, far) - near;
}

interface Stretch {
  readonly start: number;
  readonly end: number;
  readonly windowMs: number;
  readonly sumAtStart: number;
  readonly sumAtEnd: number;
}

/**
 * Between two starts with known sums the sum can rise at most as fast as (highest value that leaves at the far end -
 * lowest at the near end), and must come down to the known one at most as fast as the reverse: the two lines meet at
 * the bound. A part in 10^12 is added for the rounding of this bound alone; sums themselves stay whole.
 */
function slopeBound(sums: EdgeSums, block: number, ahead: number, stretch: Stretch): number {
  const { start, end, windowMs, sumAtStart, sumAtEnd } = stretch;
  let greatest = end + windowMs > sums.end ? 0 : -0x80000000;
  let least = end + windowMs > sums.end ? 0 : 0x7fffffff;
  for (let i = Math.min(ahead, sums.blocks) - 1; i >= 0 && (sums.times[i + 1] as number) > start + windowMs; i -= 1) {
    greatest = Math.max(greatest, sums.highest[i] as number); // i < blocks
    least = Math.min(least, sums.lowest[i] as number); // i < blocks
  }
  const up = Math.max(0, greatest - (sums.lowest[block] as number)); // block < blocks
  const down = Math.max(0, (sums.highest[block] as number) - least);
  if (up + down === 0) return Math.max(sumAtStart, sumAtEnd);
  const bound = (sumAtStart * down + sumAtEnd * up + up * down * (end - start)) / (up + down);
  return bound + Math.abs(bound) * 1e-12 + 1;
}

function sweep(sums: EdgeSums, edges: Float64Array, windowMs: number, from: number, to: number, search: Search): void {
  const sum = integralTo(sums, from + windowMs) - integralTo(sums, from);
  if (sum > search.best) {
    search.best = sum;
    search.at = from;
  }
  sweepFrom(sums, edges, windowMs, from, to, sum, search);
}

/**
 * Walks the start from edge to edge, whichever of the two ends meets one first; `sum` belongs to `from`. Between two
 * edges of the near end the far one mostly meets one, so that the loop within can be foretold.
 */
function sweepFrom(sums: EdgeSums, edges: Float64Array, windowMs: number, from: number, to: number, sum: number, search: Search): void {
  const { values, count, timing } = sums;
  let near = segmentAt(timing, count, from);
  let far = segmentAt(timing, count, from + windowMs);
  let farValue = far >= 0 && far < count ? (values[far] as number) : 0;
  let nextFar = (far < count ? (edges[far + 1] as number) : Number.POSITIVE_INFINITY) - windowMs;
  let at = from;
  let running = sum;
  let { best, at: bestAt } = search;
  while (at < to) {
    const nearValue = near >= 0 && near < count ? (values[near] as number) : 0;
    const edge = near < count ? (edges[near + 1] as number) : to; // count + 1 edges
    const nearEnd = edge < to ? edge : to;
    while (nextFar <= nearEnd) {
      running += (farValue - nearValue) * (nextFar - at);
      at = nextFar;
      if (running > best) {
        best = running;
        bestAt = at;
      }
      far += 1;
      farValue = far < count ? (values[far] as number) : 0;
      nextFar = (far < count ? (edges[far + 1] as number) : Number.POSITIVE_INFINITY) - windowMs;
    }
    running += (farValue - nearValue) * (nearEnd - at);
    at = nearEnd;
    if (running > best) {
      best = running;
      bestAt = at;
    }
    near += 1;
  }
  search.best = best;
  search.at = bestAt;
}

/** Regular steps and a window of whole steps: both ends meet edges together, so starts are whole steps. */
function greatestOnSteps(sums: EdgeSums, length: number, start: number, stepMs: number): GreatestWindow {
  const { blocks, count, sums: known } = sums;
  const search: Search = { best: integralToSegment(sums, length, stepMs) / stepMs, at: 0 };
  for (let block = 0; block < blocks; block += 1) {
    const best = search.best * stepMs;
    block = nextToSearch(sums, block, length, stepMs, best);
    const first = block * BLOCK;
    const past = Math.min(count, first + BLOCK);
    const ahead = Math.min(blocks, Math.ceil((past + length) / BLOCK));
    if (coarseBound(sums, block, ahead) <= best) continue;
    const sumAtStart = integralToSegment(sums, first + length, stepMs) - (known[block] as number); // block < blocks
    const sumAtEnd = integralToSegment(sums, past + length, stepMs) - (known[block + 1] as number); // blocks + 1 sums
    const stretch = { start: start + first * stepMs, end: start + past * stepMs, windowMs: length * stepMs, sumAtStart, sumAtEnd };
    if (slopeBound(sums, block, ahead, stretch) > best) sweepSteps(sums.values, length, first, past, sumAtStart / stepMs, search);
  }
  if (sums.least < 0) sweepStepsBefore(sums.values, length, search);
  return { sum: search.best * stepMs, from: start + search.at * stepMs };
}

/**
 * The next block in which a window can start that is above `best`, as far as sums and extremes of blocks tell; the tail of
 * the signal is left to a closer look.
 *
 * All starts of a block end as many blocks on, as far into one. Some steps into a block the integral is at most that to its
 * first edge with its highest value, or that to its last edge without its lowest. Where sums rise and fall by at most u
 * and d a step, one between two known ones is at most u d / (u + d) times the length above the higher: a quarter of u + d.
 */
function nextToSearch(sums: EdgeSums, from: number, length: number, stepMs: number, best: number): number {
  const { sums: known, lowest, highest, blocks } = sums;
  const onward = length >> BLOCK_BITS;
  const into = (length % BLOCK) * stepMs;
  const rest = (BLOCK - (length % BLOCK)) * stepMs;
  const quarter = (BLOCK * stepMs) / 4;
  let block = from;
  for (let far = from + onward; far + 2 < blocks; block += 1, far += 1) {
    const all = (known[far + 2] as number) - (known[block] as number); // far + 2 < blocks, here and below
    if (all <= best && sums.least >= 0) continue;
    const middle = known[far + 1] as number;
    const high = highest[far] as number;
    const low = lowest[far] as number;
    const highNext = highest[far + 1] as number;
    const lowNext = lowest[far + 1] as number;
    const startBefore = (known[far] as number) + high * into;
    const startAfter = middle - low * rest;
    const endBefore = middle + highNext * into;
    const endAfter = (known[far + 2] as number) - lowNext * rest;
    const atStart = (startBefore < startAfter ? startBefore : startAfter) - (known[block] as number);
    const atEnd = (endBefore < endAfter ? endBefore : endAfter) - (known[block + 1] as number);
    const rise = (high > highNext ? high : highNext) - (lowest[block] as number);
    const fall = (highest[block] as number) - (low < lowNext ? low : lowNext);
    const slope = (rise > 0 ? rise : 0) + (fall > 0 ? fall : 0);
    if ((atStart > atEnd ? atStart : atEnd) + slope * quarter > best) break;
  }
  return block;
}

/** Integral to the first edge of a segment, from the nearer of the two known sums; all of it from the end on. */
function integralToSegment(sums: EdgeSums, segment: number, stepMs: number): number {
  const { values, count, sums: known, blocks } = sums;
  if (segment >= count) return known[blocks] as number; // blocks + 1 sums
  const block = (segment / BLOCK) | 0;
  const first = block * BLOCK;
  const next = first + BLOCK < count ? first + BLOCK : count;
  let steps = 0;
  if (segment - first <= next - segment) {
    for (let i = first; i < segment; i += 1) steps += values[i] as number; // i < count
    return (known[block] as number) + steps * stepMs; // block < blocks
  }
  for (let i = segment; i < next; i += 1) steps += values[i] as number; // i < count
  return (known[block + 1] as number) - steps * stepMs; // blocks + 1 sums
}

function sweepSteps(values: Int32Array, length: number, first: number, past: number, sum: number, search: Search): void {
  const count = values.length;
  const whole = Math.min(past, count - length);
  let { best, at } = search;
  let running = sum;
  let i = first;
  for (; i < whole; i += 1) {
    running += (values[i + length] as number) - (values[i] as number); // i + length < count
    if (running > best) {
      best = running;
      at = i + 1;
    }
  }
  for (; i < past; i += 1) {
    running -= values[i] as number; // i < past <= count
    if (running > best) {
      best = running;
      at = i + 1;
    }
  }
  search.best = best;
  search.at = at;
}

/** Windows that begin before the signal, latest first: only they can leave values below nought out at the far end. */
function sweepStepsBefore(values: Int32Array, length: number, search: Search): void {
  let running = 0;
  for (let far = 0; far < Math.min(length, values.length); far += 1) {
    if (running > search.best) {
      search.best = running;
      search.at = far - length;
    }
    running += values[far] as number; // far < length of values
  }
}
