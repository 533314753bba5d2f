/** Stretches in which a limit was surely exceeded: means of windows by their ends, readings by their own times. */
import type { Limit } from "../../gas/index.ts";
import type { Episode } from "../assessment.ts";
import { readingEpisodes, windowEpisodes } from "../episodes.ts";
import { levelSum, stepsAtLeast, stepsAtMost } from "../exact-limit.ts";
import { type LimitTerms, limitTerms } from "../limit-terms.ts";
import { windowBounds } from "../period.ts";
import { MINUTE_MS } from "./sliding-rule.ts";
import type { Subject } from "./subject.ts";

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

function readingsAbove({ channel, period }: Subject, limit: Limit, terms: LimitTerms): readonly Episode[] {
  const above = limit.operator === ">" ? stepsAtMost(terms.level, channel.decimals) : stepsAtLeast(terms.level, channel.decimals) - 1;
  if (period.sums.low.greatest <= above) return [];
  return readingEpisodes(period.sums.low, period.signal, { above, until: above, shortestMs: 0 }).map(
    ({ from, to, peak, peakAt, openEnd }) => ({
      limit: limit.id,
      kind: "above",
      from,
      to,
      peak: peak / 10 ** channel.decimals,
      peakAt,
      openEnd,
    }),
  );
}

function meansAbove({ channel, period }: Subject, limit: Limit, terms: LimitTerms, windowMs: number): readonly Episode[] {
  const level = levelSum(terms.level, channel.decimals, windowMs);
  if (Number(windowBounds(period, windowMs).low.sum) <= level) return [];
  return windowEpisodes(period.sums.low, windowMs, level).map(({ from, to, peakSum, peakAt }) => ({
    limit: limit.id,
    kind: "above",
    from,
    to,
    peak: peakSum / windowMs / 10 ** channel.decimals,
    peakAt,
    openEnd: false,
  }));
}
