/** Where shifts begin and end: a thin line in every panel, named in one of them. */
import type { ShiftSpan } from "../../core/exposure/assessment.ts";
import type { Clock } from "../parts/clock.ts";
import { crossesMidnight, shortDay } from "./span-words.ts";
import type { View } from "./view.ts";

export interface ShiftBound {
  readonly kind: "shift";
  /** A moment: both are the same. */
  readonly from: number;
  readonly to: number;
  readonly says: string;
}

const minuteMs = 60_000;

/** "14:00", with its day where the recording has several. */
const timeOf = (at: number, clock: Clock, { from, to }: View): string =>
  `${crossesMidnight(clock, from, to) ? `${shortDay(clock, at)} ` : ""}${clock.time(at, at % minuteMs !== 0)}`;

/** In order of time; where one shift follows another at once there is one line for both. */
export const shiftBounds = (shifts: readonly ShiftSpan[], clock: Clock, extent: View): readonly ShiftBound[] => {
  const [begins, ends] = [new Set(shifts.map(({ from }) => from)), new Set(shifts.map(({ to }) => to))];
  return [...new Set([...begins, ...ends])]
    .filter((at) => at >= extent.from && at <= extent.to)
    .sort((a, b) => a - b)
    .map((at): ShiftBound => {
      const when = timeOf(at, clock, extent);
      const says = begins.has(at) ? (ends.has(at) ? `shifts change at ${when}` : `shift begins ${when}`) : `shift ends ${when}`;
      return { kind: "shift", from: at, to: at, says };
    });
};
