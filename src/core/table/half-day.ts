/**
 * Clocks of twelve hours that write neither AM nor PM. Such a log reads 12:55 and then 01:00; taken for a clock of 24
 * hours its afternoon would be put before its morning. No text tells the two apart, so a clock that goes back is asked
 * about where no hour of the file is 0 or above 12 (common practice).
 */
import { MILLISECONDS_PER_DAY, MILLISECONDS_PER_HOUR } from "../time/index.ts";
import { type Asking, choice, reason } from "./asking.ts";
import { nothingSeen, type Sighting } from "./evidence.ts";
import type { TimeText } from "./time-text.ts";

/** Half of the day of the first row, and which way the rows run; or a clock of 24 hours after all. */
export type HalfDay = "as written" | "before noon" | "after noon" | "before noon, newest first" | "after noon, newest first";
export const HALF_DAYS: readonly HalfDay[] = [
  "as written",
  "before noon",
  "after noon",
  "before noon, newest first",
  "after noon, newest first",
];
export const isHalfDay = (text: string): text is HalfDay => (HALF_DAYS as readonly string[]).includes(text);

const HALF = MILLISECONDS_PER_DAY / 2;
/** A clock that is set, or put back for winter, falls by no more than this; so do rows that came a little out of order. */
const SMALL = MILLISECONDS_PER_HOUR;

/** How the wall clock went from row to row, as written. */
export interface ClockSteps {
  /** An hour of 0 or above 12, or AM or PM, was seen: the clock is no such clock. */
  isOther: boolean;
  /** Steps of an hour and less tell which way the rows run: a turn of the clock is longer. */
  smallRises: number;
  smallFalls: number;
  /** Falls and rises of more than an hour: how many, and where first. */
  readonly fall: Sighting;
  readonly rise: Sighting;
  /** On the date of the first row the hours passed 12: it was in the first half of the day. */
  turnsOnFirstDay: boolean;
  /** Every large fall is the step of an hour at most of a twelve-hour clock. */
  fitsClosely: boolean;
  /** Rows of one series were set against each other only. */
  isBySeries: boolean;
}

export const noClockSteps = (): ClockSteps => ({
  isOther: false,
  smallRises: 0,
  smallFalls: 0,
  fall: nothingSeen(),
  rise: nothingSeen(),
  turnsOnFirstDay: false,
  fitsClosely: true,
  isBySeries: false,
});

/** Watches the wall clock, series by series. */
export class ClockWatch {
  private readonly steps: ClockSteps;
  private readonly lastBySeries = new Map<string, number>();
  private firstDay = Number.NaN;

  constructor(steps: ClockSteps, hasSeries: boolean) {
    this.steps = steps;
    steps.isBySeries = hasSeries;
  }

  /** One row: wall-clock milliseconds as written. */
  see(wall: number, { date, clock }: TimeText, series: string, line: number, text: string): void {
    const { steps } = this;
    const hour = Math.floor(inDay(wall) / MILLISECONDS_PER_HOUR);
    if (clock?.isTwelveHour === true || hour === 0 || hour > 12) steps.isOther = true;
    const last = this.lastBySeries.get(series);
    this.lastBySeries.set(series, wall);
    if (last === undefined) {
      if (Number.isNaN(this.firstDay)) this.firstDay = dayOf(wall);
      return;
    }
    this.step(wall - last, line, text);
    // Without dates the first day is not known.
    if (date !== null) this.turn(last, wall);
  }

  /** Rows that were read on the short way rise all. */
  rose(wall: number, rows: number, series: string): void {
    const last = this.lastBySeries.get(series);
    this.steps.smallRises += rows;
    this.lastBySeries.set(series, wall);
    if (last !== undefined) this.turn(last, wall);
  }

  private step(step: number, line: number, text: string): void {
    const { steps } = this;
    if (step > 0 && step <= SMALL) steps.smallRises++;
    else if (step < 0 && step >= -SMALL) steps.smallFalls++;
    if (Math.abs(step) <= SMALL) return;
    const large = step < 0 ? steps.fall : steps.rise;
    if (large.count++ === 0) Object.assign(large, { line, text });
    if (step < 0 && HALF + step > SMALL) steps.fitsClosely = false;
  }

  /** Noon, where twelve comes after eleven: before it stands the first half of the day. */
  private turn(last: number, wall: number): void {
    if (dayOf(wall) !== this.firstDay || dayOf(last) !== this.firstDay) return;
    const step = runsBack(this.steps) ? (last % HALF) - (wall % HALF) : (wall % HALF) - (last % HALF);
    if (step < -SMALL) this.steps.turnsOnFirstDay = true;
  }
}

const dayOf = (wall: number): number => Math.floor(wall / MILLISECONDS_PER_DAY);
const inDay = (wall: number): number => wall - dayOf(wall) * MILLISECONDS_PER_DAY;

/** Whether the newest row stands first. */
const runsBack = ({ smallFalls, smallRises, fall }: ClockSteps): boolean =>
  smallFalls > smallRises || (smallFalls === smallRises && smallFalls > 0 && fall.count === 0);

/** What the clock of the file is, where it is told or must be asked; null where it is no question. */
export function halfDayOf(asking: Asking, isSplit: boolean): HalfDay | null {
  const { clockSteps: steps } = asking.evidence;
  const told = asking.answerTo(ID);
  if (told !== null && !isHalfDay(told)) asking.refuse({ type: "bad-answer", question: ID, answer: told });
  const isBack = runsBack(steps);
  const turn = isBack ? steps.rise : steps.fall;
  // Between two recordings of a file the clock may go where it will.
  const isRaised = !steps.isOther && turn.count > 0 && !(isSplit && !steps.isBySeries);
  if (!isRaised) return answered(asking, told);
  const because = reason("the clock goes back here, and no hour is 0 or above 12", turn.line, turn.text);
  const halves = halvesOf(steps, isBack);
  const answer = asking.ask({
    id: ID,
    topic: "twelve-hour clock",
    samples: [{ line: turn.line, text: turn.text }],
    choices: [
      choice("as written", reason("a clock of 24 hours: the rows are put in its order")),
      ...halves.map((half) => choice(half, because)),
    ],
    suggested: halves.length === 1 && steps.fitsClosely ? (halves[0] ?? null) : null,
  });
  return answer as HalfDay | null; // `ask` lets no other answer pass
}

/** A walk under the answer raises no question; that it was answered is said all the same. */
function answered(asking: Asking, told: string | null): HalfDay | null {
  if (told === null || !isHalfDay(told)) return null;
  asking.note("twelve-hour clock", null, told, "certain", [reason("answered")]);
  return told;
}

/** Halves of the day that the first row can be in. Where twelve comes on its date, only one. */
function halvesOf({ turnsOnFirstDay }: ClockSteps, isBack: boolean): readonly HalfDay[] {
  const forward: readonly HalfDay[] = turnsOnFirstDay && !isBack ? ["before noon"] : ["before noon", "after noon"];
  if (!isBack) return forward;
  const back: readonly HalfDay[] = turnsOnFirstDay
    ? ["after noon, newest first"]
    : ["before noon, newest first", "after noon, newest first"];
  return turnsOnFirstDay ? back : [...forward, ...back];
}

const ID = "twelve-hour clock";

/** Reads a clock of twelve hours row by row, each row after the one before it (or before it, where the newest stands first). */
export class HalfDayClock {
  private readonly isBack: boolean;
  private readonly firstHalf: number;
  private readonly lastBySeries = new Map<string, number>();

  constructor(half: Exclude<HalfDay, "as written">) {
    this.isBack = half.endsWith("newest first");
    this.firstHalf = half.startsWith("after noon") ? HALF : 0;
  }

  /**
   * Wall-clock milliseconds of a row.
   *
   * @param clock milliseconds since midnight as written. @param day milliseconds of the date; null where the row has none.
   * @param dayBefore that of the first row where no row has one.
   */
  wall(clock: number, day: number | null, dayBefore: number, series: string): number {
    const base = clock % HALF;
    const last = this.lastBySeries.get(series);
    const wall =
      clock >= HALF + MILLISECONDS_PER_HOUR
        ? (day ?? dayBefore) + clock
        : last === undefined
          ? (day ?? dayBefore) + base + this.firstHalf
          : day === null
            ? this.undated(base, last)
            : this.dated(day + base, last);
    if (!Number.isNaN(wall)) this.lastBySeries.set(series, wall);
    return wall;
  }

  private dated(morning: number, last: number): number {
    const evening = morning + HALF;
    if (this.isBack) return evening < last + SMALL ? evening : morning;
    return morning > last - SMALL ? morning : evening;
  }

  private undated(base: number, last: number): number {
    const halves = this.isBack ? Math.ceil((last + SMALL - base) / HALF) - 1 : Math.floor((last - SMALL - base) / HALF) + 1;
    return base + halves * HALF;
  }
}
