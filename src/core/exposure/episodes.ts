/** Stretches in which readings, or the means of a sliding window, lie above a level. */
import { STRETCH, type TwoEdgedSignal } from "../recording/index.ts";
import { BLOCK, type EdgeSums, edgeAt, integralBetween, segmentAt } from "./edge-sums.ts";

/** One stretch above a level, times in milliseconds, the peak in whole steps. */
export interface ReadingEpisode {
  readonly from: number;
  readonly to: number;
  readonly peak: number;
  readonly peakAt: number;
  /** Still above when the data ended or a gap began: the true end is later. */
  readonly openEnd: boolean;
}

export interface EpisodeRule {
  /** Begins with a reading above this (whole steps; `stepsAtMost` of a limit). */
  readonly above: number;
  /** Ends with a reading at or below this; at most `above`. A lower one bridges short dips (hysteresis). */
  readonly until: number;
  /** Shorter episodes do not count; milliseconds, 0 = all do. */
  readonly shortestMs: number;
}

/**
 * Episodes of readings of one edge: begin with a value > above, end with a value <= until, last at least shortestMs.
 *
 * @example
 * ```ts
 * import { edgeSums } from "./edge-sums.ts";
 * import { readingEpisodes } from "./episodes.ts";
 * const sums = edgeSums(Int32Array.of(0, 12, 9, 15, 4, 11), { kind: "regular", start: 0, stepMs: 60000, count: 6 });
 * readingEpisodes(sums, null, { above: 10, until: 8, shortestMs: 0 }).map((e) => [e.from, e.to, e.peak]); // => [[60000,240000,15],[300000,360000,11]]
 * readingEpisodes(sums, null, { above: 10, until: 8, shortestMs: 120000 }).length; // => 1
 * ```
 * `signal` says where gaps lie (null: none). Source: ours; hysteresis and shortest duration are common practice in alarm
 * handling.
 */
export function readingEpisodes(sums: EdgeSums, signal: TwoEdgedSignal | null, rule: EpisodeRule): ReadingEpisode[] {
  const { values, timing, count, blocks, highest } = sums;
  const episodes: ReadingEpisode[] = [];
  const { above, until } = rule;
  let begin = -1;
  let peakIndex = -1;
  for (let block = 0; block < blocks; block += 1) {
    if (begin < 0 && (highest[block] as number) <= above) continue; // block < blocks
    const past = Math.min(count, (block + 1) * BLOCK);
    let i = block * BLOCK;
    while (i < past) {
      if (begin < 0) {
        while (i < past && (values[i] as number) <= above) i += 1; // past <= count
        if (i === past) break;
        begin = peakIndex = i;
        i += 1;
      }
      let peak = values[peakIndex] as number; // a segment of the signal
      for (; i < past; i += 1) {
        const value = values[i] as number; // past <= count
        if (value > peak) {
          peak = value;
          peakIndex = i;
        } else if (value <= until) break;
      }
      if (i === past) break;
      keep(episodes, rule, {
        from: edgeAt(timing, begin),
        to: edgeAt(timing, i),
        peak,
        peakAt: edgeAt(timing, peakIndex),
        openEnd: isUnknown(signal, i),
      });
      begin = -1;
      i += 1;
    }
  }
  if (begin >= 0) {
    keep(episodes, rule, {
      from: edgeAt(timing, begin),
      to: sums.end,
      peak: values[peakIndex] as number,
      peakAt: edgeAt(timing, peakIndex),
      openEnd: isUnknown(signal, count),
    });
  }
  return episodes;
}

function keep(episodes: ReadingEpisode[], rule: EpisodeRule, episode: ReadingEpisode): void {
  if (episode.to - episode.from >= rule.shortestMs) episodes.push(episode);
}

/** Nobody knows what the air was in this segment: an episode that meets it may have gone on. */
function isUnknown(signal: TwoEdgedSignal | null, index: number): boolean {
  if (signal === null) return false;
  if (index >= signal.low.length) return signal.outside === "unsampled";
  const code = signal.stretches === null ? STRETCH.sampled : signal.stretches[index];
  return code !== STRETCH.sampled && code !== STRETCH.bounded && code !== STRETCH.declaredUnexposed;
}

/** Whether a window holds time of which nobody knows what the air was: a mean that ends in it may have been higher. */
export function reachesUnknown(signal: TwoEdgedSignal, from: number, to: number): boolean {
  const count = signal.low.length;
  const [start, end] = [edgeAt(signal.timing, 0), edgeAt(signal.timing, count)];
  if ((from < start || to > end) && signal.outside === "unsampled") return true;
  if (signal.stretches === null) return false;
  for (let i = Math.max(0, segmentAt(signal.timing, count, from)); i < count && edgeAt(signal.timing, i) < to; i += 1) {
    if (isUnknown(signal, i)) return true;
  }
  return false;
}

/** A stretch of window-end times; `peakSum` is the greatest integral in it, reached by the window that ends at `peakAt`. */
export interface WindowEpisode {
  readonly from: number;
  readonly to: number;
  readonly peakSum: number;
  readonly peakAt: number;
}

/**
 * Maximal stretches of window-END times for which the integral over the last `windowMs` is above `levelSum` (limit x
 * window, steps x ms), ends by linear interpolation between the kinks of the sliding integral.
 *
 * @example
 * ```ts
 * import { edgeSums } from "./edge-sums.ts";
 * import { windowEpisodes } from "./episodes.ts";
 * // Minutes 8 to 22 at 30 ppm, else 0: the 15-min mean is above 25 for windows that end in minutes 20.5 to 24.5.
 * const edges = Float64Array.of(0, 480000, 1320000, 3600000);
 * const sums = edgeSums(Int32Array.of(0, 30, 0), { kind: "uneven", edges });
 * windowEpisodes(sums, 900000, 25 * 900000).map((e) => [e.from / 60000, e.to / 60000]); // => [[20.5,24.5]]
 * ```
 * Source: ours, from the piecewise-linear form of the sliding integral.
 */
export function windowEpisodes(sums: EdgeSums, windowMs: number, levelSum: number): WindowEpisode[] {
  const { values, count, timing, start, end } = sums;
  const episodes: WindowEpisode[] = [];
  let near = -1;
  let far = 0;
  let at = start; // the window's end
  let running = 0;
  let from = running > levelSum ? at : Number.NaN;
  let peakSum = running;
  let peakAt = at;
  while (at < end + windowMs) {
    if (Number.isNaN(from) && far % BLOCK === 0 && at === edgeAt(timing, far)) {
      const quiet = quietUntil(sums, windowMs, levelSum, far / BLOCK);
      if (quiet > far) {
        far = quiet;
        at = edgeAt(timing, far);
        near = segmentAt(timing, count, at - windowMs);
        running = integralBetween(sums, at - windowMs, at);
      }
    }
    const nextFar = far < count ? edgeAt(timing, far + 1) : Number.POSITIVE_INFINITY;
    const nextNear = (near < count ? edgeAt(timing, near + 1) : Number.POSITIVE_INFINITY) + windowMs;
    const next = Math.min(nextFar, nextNear);
    const slope = (far < count ? (values[far] as number) : 0) - (near >= 0 && near < count ? (values[near] as number) : 0); // within the signal
    const sum = running + slope * (next - at);
    if (Number.isNaN(from) && sum > levelSum) {
      from = running === levelSum ? at : at + (levelSum - running) / slope;
      peakSum = running;
    } else if (!Number.isNaN(from) && sum <= levelSum) {
      episodes.push({ from, to: at + (levelSum - running) / slope, peakSum, peakAt });
      from = Number.NaN;
    }
    if (!Number.isNaN(from) && sum > peakSum) {
      peakSum = sum;
      peakAt = next;
    }
    running = sum;
    at = next;
    if (at === nextFar) far += 1;
    if (at === nextNear) near += 1;
  }
  if (!Number.isNaN(from)) episodes.push({ from, to: at, peakSum, peakAt });
  return episodes;
}

/**
 * The segment up to whose first edge no window that ends from `block` on can pass the level: all that lies between the
 * blocks that hold its two ends is not enough. Most of a shift is passed over in this way.
 */
function quietUntil({ times, sums, blocks, count, least }: EdgeSums, windowMs: number, levelSum: number, block: number): number {
  let quiet = block;
  let behind = 0;
  for (; quiet < blocks; quiet += 1) {
    const begins = (times[quiet] as number) - windowMs; // blocks + 1 times
    while (behind < quiet && (times[behind + 1] as number) <= begins) behind += 1; // behind < blocks
    const all = (sums[quiet + 1] as number) - (sums[behind] as number); // blocks + 1 sums
    const spanMs = (times[quiet + 1] as number) - (times[behind] as number); // blocks + 1 times
    if (all - Math.min(0, least) * spanMs > levelSum) break;
  }
  return Math.min(count, quiet * BLOCK);
}
