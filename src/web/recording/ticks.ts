import type { Clock } from "../parts/clock.ts";
import type { View } from "./view.ts";

const minute = 60_000;
const hour = 60 * minute;
const day = 24 * hour;
const steps = [
  1000,
  2000,
  5000,
  10_000,
  15_000,
  30_000,
  minute,
  2 * minute,
  5 * minute,
  10 * minute,
  15 * minute,
  30 * minute,
  hour,
  2 * hour,
  3 * hour,
  6 * hour,
  12 * hour,
  day,
  2 * day,
  7 * day,
  14 * day,
  28 * day,
];

export interface TimeTick {
  readonly at: number;
  readonly label: string;
}

/** Midnight within the view: the day that begins there is named, and so is the one before by contrast. */
const startsDay = (at: number, view: View, clock: Clock): boolean =>
  !clock.elapsed && at > view.from && (((at + clock.offset(at)) % day) + day) % day === 0;

/** Round times on the clock of the recording, at most so many; a day's start carries its date. */
export const ticksOf = (view: View, clock: Clock, most: number): readonly TimeTick[] => {
  const span = view.to - view.from;
  const step = steps.find((one) => span / one <= most) ?? Math.ceil(span / most / day) * day;
  // Whole hours of the zone need not be whole hours of UTC.
  const offset = clock.offset(view.from);
  const first = Math.ceil((view.from + offset) / step) * step - offset;
  const ticks: TimeTick[] = [];
  for (let at = first; at <= view.to; at += step)
    ticks.push({
      at,
      label: step >= day || startsDay(at, view, clock) ? clock.date(at).replace(/ \d{4}$/, "") : clock.time(at, step < minute),
    });
  return ticks;
};
