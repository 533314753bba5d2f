/**
 * The short way for lines that hold nothing unusual: plain numbers, times that look like the last ones, the same
 * status as before. One loop over the bytes (`plain-scan.ts`); at anything else it stops before the line, and the
 * careful way takes it. It never decides anything: whatever could be a question (signs of sentinels, falling times, new
 * texts, letters outside ASCII) makes it stop.
 */
import type { Batch } from "./batch.ts";
import type { NumberForm } from "./number-text.ts";
import { canEverBePlain, GROUP_LIKE, limitOf, SAME, sameBytes } from "./plain-column.ts";
import type { PlainSeen } from "./plain-evidence.ts";
import { DATE_LENGTH, NEW_DATE, NEW_FORM, NEW_HOUR, NEW_PIECE, PlainScan, STOP, ZERO } from "./plain-scan.ts";
import type { Plan } from "./plan.ts";
import { type TimeTemplate, templateOf } from "./time-template.ts";
import { textFromUtf8 } from "./utf8.ts";

export class PlainLines {
  /** False until a row has shown how the times look, and for tables that this way cannot read. */
  isPossible = false;
  readonly sameTexts: string[] = [];
  private readonly plan: Plan;
  private readonly batch: Batch;
  private readonly loop: PlainScan;
  private readonly canEver: boolean;
  private readonly forms: { column: number; form: NumberForm; line: number; text: string }[] = [];
  private readonly dates: { line: number; text: string; first: number; second: number }[] = [];
  private dateTemplate: TimeTemplate | null = null;
  private clockTemplate: TimeTemplate | null = null;
  private rows = 0;
  private learnt = 0;

  constructor(plan: Plan, batch: Batch) {
    this.plan = plan;
    this.batch = batch;
    this.loop = new PlainScan(plan, batch);
    this.canEver = canEverBePlain(plan);
  }

  /** By column; whoever watches the texts of a column that is skipped makes it `SAME`. */
  get kinds(): Uint8Array {
    return this.loop.kinds;
  }

  /** Where the last `read` stopped, with what it read last. */
  get position(): number {
    return this.loop.position;
  }

  get carriageReturns(): number {
    return this.loop.carriageReturns;
  }

  get lastTime(): number {
    return this.loop.lastTime;
  }

  get lastLocal(): number {
    return this.loop.lastLocal;
  }

  /** Takes one row that the careful way has read as the pattern for the next ones. */
  learn(cells: readonly string[]): void {
    if (!this.canEver) return;
    const { plan, loop } = this;
    for (let index = 0; index < loop.kinds.length; index++) {
      const text = cells[index] ?? "";
      if (loop.kinds[index] !== SAME || text === this.sameTexts[index]) continue;
      this.sameTexts[index] = text;
      loop.same[index] = sameBytes(plan, text);
    }
    if (this.isPossible) return;
    // A file whose times are built otherwise is not asked at every row.
    if (this.learnt++ > 256 && this.learnt % 64 > 0) return;
    this.isPossible = plan.countScale > 0 || this.learnTime(cells);
  }

  /** False where the time is not built so that places in it tell what stands there. */
  private learnTime(cells: readonly string[]): boolean {
    const { plan, loop } = this;
    const clock = templateOf(cells[plan.time >= 0 ? plan.time : plan.clock] ?? "");
    const date = plan.date >= 0 ? templateOf(cells[plan.date] ?? "") : clock;
    if (clock === null || date === null || date.dateAt < 0) return false;
    if (plan.date >= 0 && (clock.dateAt >= 0 || date.hourAt >= 0 || clock.hourAt < 0)) return false;
    // Day and month in numbers under an order that has no place for them are for the careful way.
    if (date.yearAt !== date.dateAt && plan.order === "year-month-day") return false;
    this.learnt = 0;
    this.clockTemplate = clock;
    this.dateTemplate = date;
    loop.hasSeconds = clock.secondAt >= 0;
    loop.knownLength = loop.hasSeconds ? clock.secondAt : clock.length;
    loop.minuteAt = clock.hourAt >= 0 ? clock.hourAt + 3 : loop.knownLength;
    loop.fractionLength = clock.fractionAt >= 0 ? clock.fractionLength + 1 : 0;
    loop.suffix = clock.ending();
    loop.forgetMinute();
    if (clock.offset !== null || plan.zone === null) {
      loop.pieceFrom = Number.NEGATIVE_INFINITY;
      loop.pieceTo = Number.POSITIVE_INFINITY;
      loop.pieceOffset = (clock.offset ?? 0) * 60_000;
    }
    return true;
  }

  /**
   * Reads plain lines from `start` up to the line that is not, to `limit` (the end of a line), or to a full batch.
   * Returns the number of rows; `position` is the start of the next line.
   */
  read(bytes: Uint8Array, start: number, limit: number, firstLine: number, after: number, series: number): number {
    const { loop, batch } = this;
    const first = batch.count;
    loop.over(bytes);
    loop.position = start;
    loop.lastTime = after;
    loop.carriageReturns = 0;
    do loop.scan(limit, firstLine - first, series);
    while (loop.event !== STOP && this.settle(bytes, limit, firstLine - first + batch.count));
    const rows = batch.count - first;
    this.rows += rows;
    return rows;
  }

  /** What the loop stopped at and cannot do by itself. False: the line is for the careful way. */
  private settle(bytes: Uint8Array, limit: number, line: number): boolean {
    const { event, eventAt, eventLocal } = this.loop;
    if (event === NEW_HOUR) return this.newHour(bytes, eventAt, limit, line);
    if (event === NEW_DATE) return this.newDate(bytes, eventAt, limit, line);
    if (event === NEW_PIECE) return this.newPiece(eventLocal);
    if (event === NEW_FORM) this.noteForm(line, bytes);
    return true;
  }

  private newHour(bytes: Uint8Array, position: number, limit: number, line: number): boolean {
    const template = this.clockTemplate as TimeTemplate; // learnt before this way was taken
    if (position + template.length >= limit) return false;
    if (!template.fits(bytes, position)) {
      // At noon and at midnight AM and PM change: the next row teaches the other one.
      this.isPossible = template.half === null;
      return false;
    }
    const minute = template.minute(bytes, position);
    if (Number.isNaN(minute)) return false;
    if (template.dateAt >= 0 && !this.newDate(bytes, position, limit, line)) return false;
    this.loop.learnMinute(position, template.dateAt >= 0 ? this.loop.dayLocal + minute : minute);
    return true;
  }

  private newDate(bytes: Uint8Array, position: number, limit: number, line: number): boolean {
    const { loop } = this;
    const template = this.dateTemplate as TimeTemplate; // learnt before this way was taken
    let same = 0;
    while (same < DATE_LENGTH && bytes[position + same] === loop.lastDate[same]) same++;
    if (same === DATE_LENGTH) return true;
    if (position + template.length >= limit || !template.fits(bytes, position)) return false;
    const day = template.day(bytes, position, this.plan.order);
    if (Number.isNaN(day)) return false;
    loop.dayLocal = day;
    loop.lastDate.set(bytes.subarray(position, position + DATE_LENGTH));
    if (template.first > 0) this.noteDate(template, line, textFromUtf8(bytes, position, position + template.length));
    return true;
  }

  /** Dates that hold a greater day or month than all before them: they may settle which is which. */
  private noteDate({ first, second }: TimeTemplate, line: number, text: string): void {
    if (this.dates.some((date) => date.first >= first && date.second >= second)) return;
    this.dates.push({ line, text, first, second });
  }

  /** Only where a local time is one instant and no other. */
  private newPiece(local: number): boolean {
    const piece = this.plan.zone?.pieceAt(local);
    if (piece?.kind !== "one") return false;
    this.loop.pieceFrom = piece.from;
    this.loop.pieceTo = piece.to;
    this.loop.pieceOffset = piece.offset;
    return true;
  }

  /** A number with so many decimals for the first time in its column. */
  private noteForm(line: number, bytes: Uint8Array): void {
    const { loop, plan } = this;
    const { eventColumn: column, eventBits: bits, eventAt: from } = loop;
    loop.masks[column] = (loop.masks[column] as number) | bits; // column is below the width
    const places = bits === GROUP_LIKE ? 3 : 31 - Math.clz32(bits);
    loop.learnLimit(column, places, limitOf(plan, column, places));
    const mark = plan.mapping.columns[column]?.decimalMark === "," ? "comma" : "point";
    const form = bits === 1 ? "whole" : bits === GROUP_LIKE ? (`${mark} three` as const) : mark;
    let end = from;
    while ((bytes[end] as number) - ZERO === loop.mark || ((bytes[end] as number) - ZERO) >>> 0 <= 9) end++; // a line end stops it
    this.forms.push({ column, form, line, text: textFromUtf8(bytes, from, end) });
  }

  /** What the plain lines have shown, for the evidence. */
  get seen(): PlainSeen {
    const { plan, rows, forms, dates, clockTemplate, dateTemplate, loop } = this;
    const { kinds, blanks, lowest, lastTime } = loop;
    return { plan, rows, kinds, blanks, lowest, forms, dates, clockTemplate, dateTemplate, lastTime };
  }
}
