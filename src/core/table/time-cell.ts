/** The time of a row: text or count, local or with its own offset, in the hour that happens twice too. */
import {
  daysFromCivil,
  localFromDayNumber1900,
  localFromDayNumber1904,
  MILLISECONDS_PER_DAY,
  readDate,
  textFromOffset,
  type ZoneClock,
} from "../time/index.ts";
import type { SurveyEvidence } from "./evidence.ts";
import { ClockWatch, HalfDayClock } from "./half-day.ts";
import { readNumber } from "./number-text.ts";
import type { Plan } from "./plan.ts";
import { daysOf, type TimeText, timeText } from "./time-text.ts";

export type TimeFault = "not a time" | "impossible time";

export type ClockEvidence = Pick<SurveyEvidence, "repeatedHour" | "missingHour" | "clockSteps">;

/** Keeps what one row needs of the rows before it: the date written once, the side of a clock change. */
export class RowClock {
  /** Local wall-clock milliseconds of the last row that was local; NaN before. */
  private lastLocal = Number.NaN;
  private lastDays = Number.NaN;
  private lastClock = Number.NaN;
  /** Whether the last time read has no zone yet, so that it is no instant. */
  isOpen = false;
  /** Whether no date has been seen for it: its day is not known, and counts as the first of 1970 only to be put in order. */
  isDayless = false;
  /** Whether it lies in the hour that happens twice. */
  isTwice = false;
  private hasDay = false;
  /** In a repeated stretch: its end on the wall clock, whether the clock has fallen back in it, its first row. */
  private seamTo = Number.NaN;
  private seamFell = false;
  private seamLine = 0;
  private seamText = "";
  private readonly plan: Plan;
  private readonly evidence: ClockEvidence;
  private readonly watch: ClockWatch;
  private readonly halves: HalfDayClock | null;

  constructor(plan: Plan, evidence: ClockEvidence) {
    this.plan = plan;
    this.evidence = evidence;
    this.watch = new ClockWatch(evidence.clockSteps, plan.series >= 0);
    this.halves = plan.halfDay === null ? null : new HalfDayClock(plan.halfDay);
    const day = plan.firstDay === null ? null : readDate(plan.firstDay);
    if (day?.ok !== true) return;
    this.lastDays = daysFromCivil(day.value.year, day.value.month, day.value.day);
    this.hasDay = true;
  }

  /** The last time read as the wall clock showed it. */
  get wall(): number {
    return this.lastLocal;
  }

  /** Rows that were read on a shorter way: the next row on this one comes after them. */
  passed(local: number, rows: number, series: string): void {
    this.watch.rose(local, rows, series);
    this.keep(local);
  }

  private keep(local: number): void {
    this.lastLocal = local;
    this.lastDays = Math.floor(local / MILLISECONDS_PER_DAY);
    this.lastClock = local - this.lastDays * MILLISECONDS_PER_DAY;
  }

  /** Milliseconds of the time of a row, or what is wrong with it. */
  read(timeCell: string, dateCell: string, clockCell: string, line: number, series = ""): number | TimeFault {
    const { plan } = this;
    this.isTwice = false;
    if (plan.countScale > 0) return this.count(timeCell, line);
    const whole = timeText(timeCell !== "" ? timeCell : dateCell === "" ? clockCell : `${dateCell} ${clockCell}`);
    if (whole === null) return "not a time";
    const local = this.local(whole, series);
    if (Number.isNaN(local)) return "impossible time";
    const text = timeCell || `${dateCell} ${clockCell}`.trim();
    if (whole.offset === null && whole.clock !== null && this.halves === null) this.watch.see(local, whole, series, line, text);
    this.isOpen = false;
    if (whole.offset !== null) return this.kept(local, local - whole.offset * 60_000);
    const zone = whole.letters === null ? plan.zone : (plan.letters.get(whole.letters) ?? null);
    this.isOpen = zone === null;
    return zone === null ? this.kept(local, local) : this.instant(local, zone, line, text);
  }

  /** A clock time without a date goes on from the date before it, over midnight too. */
  private local(text: TimeText, series: string): number {
    const clock = text.clock === null ? 0 : text.clock.milliseconds;
    if (this.halves !== null && text.offset === null && text.clock?.isTwelveHour === false)
      return this.halfDayLocal(this.halves, text, series);
    let days = this.lastDays;
    if (text.date !== null) {
      days = daysOf(text.date, this.plan.order, this.plan.yearsFrom);
      this.hasDay ||= !Number.isNaN(days);
    } else if (clock < this.lastClock - MILLISECONDS_PER_DAY / 2) days++;
    this.isDayless = !this.hasDay;
    if (Number.isNaN(days) && text.date === null) days = 0;
    return days * MILLISECONDS_PER_DAY + clock;
  }

  private halfDayLocal(halves: HalfDayClock, { date, clock }: TimeText, series: string): number {
    const days = date === null ? null : daysOf(date, this.plan.order, this.plan.yearsFrom);
    if (days !== null) this.hasDay ||= !Number.isNaN(days);
    this.isDayless = !this.hasDay;
    const before = Number.isNaN(this.lastDays) ? 0 : this.lastDays;
    const day = days === null ? null : days * MILLISECONDS_PER_DAY;
    return halves.wall(clock?.milliseconds ?? 0, day, before * MILLISECONDS_PER_DAY, series);
  }

  private kept(local: number, instant: number): number {
    if (Number.isNaN(local) || Number.isNaN(instant)) return Number.NaN;
    this.keep(local);
    return instant;
  }

  private instant(local: number, zone: ZoneClock, line: number, text: string): number | TimeFault {
    if (!(local > -62_000_000_000_000 && local < 253_000_000_000_000)) return "impossible time";
    const piece = zone.pieceAt(local);
    this.isTwice = piece.kind === "two";
    if (piece.kind === "two") return this.twice(local, piece, line, text);
    this.leaveSeam(local);
    if (piece.kind === "one") return this.kept(local, local - piece.offset);
    const { missingHour } = this.evidence;
    if (missingHour.count++ === 0)
      Object.assign(missingHour, {
        line,
        text,
        before: textFromOffset(piece.offsetBefore / 60_000),
        after: textFromOffset(piece.offsetAfter / 60_000),
      });
    return this.kept(local, local - piece.offsetBefore);
  }

  /** A steady log goes through the repeated hour once, falls back, and goes through it again: its order tells which is which. */
  private twice(
    local: number,
    piece: { readonly from: number; readonly to: number; readonly earlierOffset: number; readonly laterOffset: number },
    line: number,
    text: string,
  ): number {
    if (this.seamTo !== piece.to) {
      this.leaveSeam(local);
      this.seamTo = piece.to;
      this.seamFell = false;
      this.seamLine = line;
      this.seamText = text;
    } else if (local <= this.lastLocal) this.seamFell = true;
    const isLater = this.seamFell || this.plan.mapping.time.repeatedHour === "later";
    return this.kept(local, local - (isLater ? piece.laterOffset : piece.earlierOffset));
  }

  /** Left without a fall: which of the two hours it was, the file does not say. */
  private leaveSeam(local: number): void {
    if (Number.isNaN(this.seamTo)) return;
    if (!this.seamFell && !(local < this.lastLocal)) this.noteOpenSeam();
    this.seamTo = Number.NaN;
  }

  finish(): void {
    if (!Number.isNaN(this.seamTo) && !this.seamFell) this.noteOpenSeam();
    this.seamTo = Number.NaN;
  }

  private noteOpenSeam(): void {
    const { repeatedHour } = this.evidence;
    if (this.plan.mapping.time.repeatedHour !== null) return;
    if (repeatedHour.count++ === 0) Object.assign(repeatedHour, { line: this.seamLine, text: this.seamText });
  }

  private count(text: string, line: number): number | TimeFault {
    const { plan } = this;
    const column = plan.mapping.columns[plan.time];
    const read = readNumber(text, column?.decimalMark ?? ".", column?.groupMark ?? null);
    if (typeof read === "string" || read.bound !== null) return "not a time";
    if (plan.form === "day-number-1900" || plan.form === "day-number-1904") {
      const days = read.mantissa / 10 ** read.decimals;
      const local = plan.form === "day-number-1900" ? localFromDayNumber1900(days) : localFromDayNumber1904(days);
      if (Number.isNaN(local)) return "impossible time";
      this.isOpen = plan.zone === null;
      return plan.zone === null ? this.kept(local, local) : this.instant(local, plan.zone, line, text);
    }
    const milliseconds = countMilliseconds(read.mantissa, read.decimals, plan.countScale);
    if (Math.abs(milliseconds) > 8.64e15 || (plan.form.startsWith("unix") && !(milliseconds >= 0 && milliseconds < 253_402_300_800_000)))
      return "impossible time";
    return this.kept(milliseconds + plan.countStart, milliseconds + plan.countStart);
  }
}

/** Whole milliseconds nearest to a count: what a clock of milliseconds holds of it. */
export const countMilliseconds = (mantissa: number, decimals: number, scale: number): number =>
  Math.round((mantissa * scale) / 10 ** decimals);
