/** The greatest reading, or the lowest of oxygen, with its time; a reading over range is a bound and is said as one. */
import { lowestCounts, valueText } from "../../report/index.ts";
import type { ChannelAnswer } from "../../work/answer.ts";
import type { Clock } from "../parts/clock.ts";
import { momentWords } from "./span-words.ts";

/** What stands before the figure, the figure, and what stands after it. */
export interface Extreme {
  readonly before: string;
  readonly value: number;
  readonly after: string;
}

export const extremeOf = (channel: ChannelAnswer, clock: Clock): Extreme | null => {
  const isLowest = lowestCounts(channel.gas);
  const found = isLowest ? channel.lowest : channel.peak;
  if (found === null) return null;
  const bound = !isLowest && channel.peak?.atLeast === true;
  const at = momentWords(clock, clock.ms(found.at), channel);
  return {
    before: isLowest ? (channel.lowest?.atMost === true ? "lowest at most" : "lowest") : bound ? "peak at least" : "peak",
    value: found.value,
    after: bound ? `, over range at ${at}` : ` at ${at}`,
  };
};

/** As a clause of the sentence that stands for the chart. */
export const extremeWords = (channel: ChannelAnswer, clock: Clock): string => {
  const { peak, lowest } = channel;
  const moment = (at: string): string => momentWords(clock, clock.ms(at), channel);
  if (peak === null) return "no reading";
  const greatest = peak.atLeast
    ? `greatest reading at least ${valueText(peak.value, null)}, over range at ${moment(peak.at)}`
    : `greatest reading ${valueText(peak.value, null)} at ${moment(peak.at)}`;
  return lowestCounts(channel.gas) && lowest !== null
    ? `${greatest}, lowest ${lowest.atMost ? "at most " : ""}${valueText(lowest.value, null)} at ${moment(lowest.at)}`
    : greatest;
};
