/** Stretches and moments of time in words: a span that crosses midnight names both of its days. */
import type { ChannelAnswer } from "../../work/answer.ts";
import type { Clock } from "../parts/clock.ts";

const dayOf = (clock: Clock, at: number): string => (clock.elapsed ? "" : clock.date(at));

/** "Wed 4 Mar": the year stands once on the page. */
export const shortDay = (clock: Clock, at: number): string => clock.date(at).replace(/ \d{4}$/, "");

/** Whether the two lie on different days of the recording's clock; times from a start have no days. */
export const crossesMidnight = (clock: Clock, from: number, to: number): boolean => dayOf(clock, from) !== dayOf(clock, to);

/** "10:31:00 to 10:41:00", or "Wed 4 Mar 22:00:00 to Thu 5 Mar 06:00:00". */
export const spanWords = (clock: Clock, from: number, to: number, seconds = true): string =>
  crossesMidnight(clock, from, to)
    ? `${shortDay(clock, from)} ${clock.time(from, seconds)} to ${shortDay(clock, to)} ${clock.time(to, seconds)}`
    : `${clock.time(from, seconds)} to ${clock.time(to, seconds)}`;

/** "10:32:20", with its day where the readings of the channel lie on more than one. */
export const momentWords = (clock: Clock, at: number, { start, end }: Pick<ChannelAnswer, "start" | "end">): string =>
  crossesMidnight(clock, clock.ms(start), clock.ms(end)) ? `${shortDay(clock, at)} ${clock.time(at)}` : clock.time(at);
