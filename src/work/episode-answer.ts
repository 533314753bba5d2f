/** One stretch above a limit as the answer prints it. */
import type { Episode } from "../core/exposure/assessment.ts";
import type { Limit } from "../core/gas/limit.ts";
import { type Channel, READING } from "../core/recording/index.ts";
import type { EpisodeAnswer } from "./answer.ts";
import { timeText } from "./answer-times.ts";
import type { FileClock } from "./shift-times.ts";

/** Instants of the readings over range, rising; nothing is kept of a channel that has none. */
export function overRangeTimes({ times, codes }: Pick<Channel, "times" | "codes">): readonly number[] {
  if (codes === null) return [];
  const found: number[] = [];
  for (let row = 0; row < codes.length; row += 1)
    if (codes[row] === READING.overRange || codes[row] === READING.overRangeUnbounded) found.push(times[row] as number); // row < length
  return found;
}

export interface EpisodeContext {
  readonly clock: FileClock;
  readonly overRange: readonly number[];
  /** The limit that the stretch lies above; undefined where it is not known any more. */
  readonly limit: Limit | undefined;
}

export function episodeAnswer(episode: Episode, { clock, overRange, limit }: EpisodeContext): EpisodeAnswer {
  const { kind, from, to, peak, peakAt, openEnd } = episode;
  return {
    limit: episode.limit,
    kind,
    start: timeText(from, clock),
    end: timeText(to, clock),
    seconds: (to - from) / 1000,
    peak,
    atLeast: someWithin(overRange, peakFrom(episode, limit), Math.max(to, peakAt)),
    peakAt: timeText(peakAt, clock),
    openEnd,
  };
}

/** The greatest of means is that of the windows that end in the stretch; they began before it. */
function peakFrom({ from }: Episode, limit: Limit | undefined): number {
  const minutes = limit === undefined || isOfReadings(limit) ? 0 : (limit.averagingMinutes ?? 15);
  return from - minutes * 60_000;
}

const isOfReadings = ({ kind, averagingMinutes }: Limit): boolean =>
  kind !== "stel" && kind !== "excursion" && (kind !== "ceiling" || averagingMinutes === null);

/** Whether one of the rising instants lies within, both ends taken in: a bound too many is still true, one too few is not. */
function someWithin(instants: readonly number[], from: number, to: number): boolean {
  let [low, high] = [0, instants.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((instants[middle] as number) < from)
      low = middle + 1; // middle < length
    else high = middle;
  }
  const first = instants[low];
  return first !== undefined && first <= to;
}
