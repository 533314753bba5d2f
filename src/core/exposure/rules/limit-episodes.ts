/** Stretches in which a limit was surely exceeded: means of windows by their ends, readings by their own times. */
import type { Limit } from "../../gas/index.ts";
import { READING } from "../../recording/index.ts";
import type { Episode } from "../assessment.ts";
import { type EdgeSums, edgeAt, edgeSums } from "../edge-sums.ts";
import { type ReadingEpisode, reachesUnknown, readingEpisodes, windowEpisodes } from "../episodes.ts";
import { levelSum, stepsAtLeast, stepsAtMost } from "../exact-limit.ts";
import { type LimitTerms, limitTerms } from "../limit-terms.ts";
import { seenByWindow, windowBounds } from "../window-bounds.ts";
import { MINUTE_MS } from "./sliding-rule.ts";
import { lastReached, type Subject } from "./subject.ts";

/** Episodes of the lower edge for every limit but averages of a day, in order of time. */
export function limitEpisodes(subject: Subject, limits: readonly Limit[]): readonly Episode[] {
  return limits.flatMap((limit) => episodesOf(subject, limit)).sort((first, second) => first.from - second.from);
}

function episodesOf(subject: Subject, limit: Limit): readonly Episode[] {
  const published = limit.threeLevel === null ? limit.published : { value: limit.threeLevel.ceiling, unit: limit.threeLevel.unit };
  if (published === null || limit.kind === "twa") return [];
  const also = limit.threeLevel === null && limit.alsoPublished !== null ? [limit.alsoPublished] : [];
  const terms = limitTerms([published, ...also], subject.channel.unit, limit.statedAs === undefined ? subject.molar(limit.regime) : null);
  if (terms === null) return [];
  const minutes =
    limit.kind === "stel" || limit.kind === "excursion"
      ? (limit.averagingMinutes ?? 15)
      : limit.kind === "ceiling"
        ? limit.averagingMinutes
        : null;
  return minutes === null ? readingsAbove(subject, limit, terms) : meansAbove(subject, limit, terms, minutes * MINUTE_MS);
}

function readingsAbove(subject: Subject, limit: Limit, terms: LimitTerms): readonly Episode[] {
  const { channel, period } = subject;
  const above = limit.operator === ">" ? stepsAtMost(terms.level, channel.decimals) : stepsAtLeast(terms.level, channel.decimals) - 1;
  const edge = reachedEdge(subject);
  const found = edge.greatest <= above ? [] : readingEpisodes(edge, period.signal, { above, until: above, shortestMs: 0 });
  return withLastReading(subject, found, above).map(({ from, to, peak, peakAt, openEnd }) => ({
    limit: limit.id,
    kind: "above",
    from,
    to,
    peak: peak / 10 ** channel.decimals,
    peakAt,
    openEnd,
  }));
}

/** What was surely reached: the lower edge, or, where the log holds the peak of each interval, that peak at some instant of it. */
function reachedEdge({ channel, period }: Subject): EdgeSums {
  const { signal, sums } = period;
  if (channel.kind !== "interval peak") return sums.low;
  const { times, values, codes } = channel;
  let row = 0;
  const reached = signal.low.map((low, i) => {
    const closes = edgeAt(signal.timing, i + 1);
    while (row < times.length && (times[row] as number) < closes) row += 1; // row < length
    return times[row] === closes && isReached(codes?.[row]) ? Math.max(low, values[row] as number) : low;
  });
  return edgeSums(reached, signal.timing);
}

const isReached = (code: number | undefined): boolean => code === undefined || code === READING.valid || code === READING.overRange;

/** The last of spot readings has no length, yet above a limit it is an event, or the end of one. */
function withLastReading(subject: Subject, found: readonly ReadingEpisode[], above: number): readonly ReadingEpisode[] {
  const { at, steps } = lastReached(subject);
  if (at === null || steps <= above) return found;
  const before = found.at(-1);
  if (before === undefined || before.to !== at) return [...found, { from: at, to: at, peak: steps, peakAt: at, openEnd: true }];
  return [
    ...found.slice(0, -1),
    steps > before.peak ? { ...before, peak: steps, peakAt: at, openEnd: true } : { ...before, openEnd: true },
  ];
}

function meansAbove({ channel, period }: Subject, limit: Limit, terms: LimitTerms, windowMs: number): readonly Episode[] {
  const level = levelSum(terms.level, channel.decimals, windowMs);
  if (Number(windowBounds(period, windowMs).low.sum) <= level) return [];
  const { sums, within } = seenByWindow(period, windowMs, "named shifts");
  return windowEpisodes(sums.low, windowMs, level)
    .filter(({ to }) => within === null || to > within.from + windowMs)
    .map(({ from, to, peakSum, peakAt }) => ({
      limit: limit.id,
      kind: "above",
      from,
      to,
      peak: peakSum / windowMs / 10 ** channel.decimals,
      peakAt,
      openEnd: reachesUnknown(sums.signal, to - windowMs, to),
    }));
}
