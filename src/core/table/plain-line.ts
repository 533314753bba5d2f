/**
 * The short way for lines that hold nothing unusual: plain numbers, times that look like the last ones, the same
 * status as before. One loop over the bytes; at anything else it stops before the line, and the careful way takes it.
 * It never decides anything: whatever could be a question (signs of sentinels, falling times, new texts, letters
 * outside ASCII) makes it stop.
 */
import { type Batch, BATCH_ROWS } from "./batch.ts";
import type { ColumnEvidence, SurveyEvidence } from "./evidence.ts";
import type { NumberForm } from "./number-text.ts";
import type { Plan } from "./plan.ts";
import { CODE } from "./reading-code.ts";
import { countMilliseconds } from "./time-cell.ts";
import { templateOf, type TimeTemplate } from "./time-template.ts";
import { textFromUtf8 } from "./utf8.ts";

const LF = 10;
const CR = 13;
const MINUS = 45;
const ZERO = 48;

/** What stands in a column, as far as this way is concerned. */
const NUMBER = 0;
const TIME = 1;
const COUNT = 2;
const SAME = 3;
const SKIP = 4;
const DATE = 5;

/** Numbers at or above this, and below its negative twin, may be sentinels: the careful way looks at them. */
const PLAIN_BELOW = 4_999;
const PLAIN_ABOVE = 98;
const POWERS = Float64Array.from({ length: 16 }, (_, power) => 10 ** power);
/** Digits that fit a small integer. */
const MOST_DIGITS = 9;
const GROUP_LIKE = 1 << 30;
const NO_BYTES = new Uint8Array(0);

export class PlainLines {
  /** False until a row has shown how the times look, and for tables that this way cannot read. */
  isPossible = false;
  /** Where the last `read` stopped. */
  position = 0;
  carriageReturns = 0;
  lastTime = Number.NEGATIVE_INFINITY;
  lastLocal = Number.NaN;
  private readonly plan: Plan;
  private readonly batch: Batch;
  private readonly kinds: Uint8Array;
  private readonly marks: Uint8Array;
  private readonly below: Float64Array;
  private readonly delimiter: number;
  private readonly canEver: boolean;
  private readonly same: Uint8Array[];
  /** Per column: decimals seen as bits, lowest number, blank cells. */
  private readonly masks: Int32Array;
  private readonly lowest: Float64Array;
  private readonly blanks: Float64Array;
  private readonly forms: { column: number; form: NumberForm; line: number; text: string }[] = [];
  private readonly dates: { line: number; text: string; first: number; second: number }[] = [];
  private dateTemplate: TimeTemplate | null = null;
  private clockTemplate: TimeTemplate | null = null;
  /** Bytes of the last date and of the last hour and minute, with what they came to. */
  private readonly lastDate = new Uint8Array(16);
  private readonly lastMinute = new Uint8Array(32);
  private dayLocal = Number.NaN;
  private minuteLocal = Number.NaN;
  private pieceFrom = Number.POSITIVE_INFINITY;
  private pieceTo = Number.NEGATIVE_INFINITY;
  private pieceOffset = 0;
  private rows = 0;

  constructor(plan: Plan, batch: Batch) {
    this.plan = plan;
    this.batch = batch;
    const { columns, dialect } = plan.mapping;
    this.kinds = Uint8Array.from(columns, (_, index) => kindOf(plan, index));
    this.marks = Uint8Array.from(columns, (column) => column.decimalMark.charCodeAt(0));
    this.below = Float64Array.from(columns, (_, index) => Math.min(PLAIN_BELOW, plan.channels[plan.channelOf[index] as number]?.possible ?? PLAIN_BELOW)); // one channel number a column
    this.delimiter = dialect.delimiter === "" ? -1 : dialect.delimiter.charCodeAt(0);
    this.same = columns.map(() => NO_BYTES);
    this.masks = new Int32Array(columns.length);
    this.lowest = new Float64Array(columns.length).fill(Number.POSITIVE_INFINITY);
    this.blanks = new Float64Array(columns.length);
    this.canEver = canEverBePlain(plan);
  }

  /** Takes one row that the careful way has read as the pattern for the next ones. */
  learn(cells: readonly string[]): void {
    if (!this.canEver) return;
    const { plan } = this;
    for (const [index, kind] of this.kinds.entries()) {
      if (kind !== SAME) continue;
      const text = cells[index] ?? "";
      this.same[index] = plan.badStatus.has(text) || !/^[ -~]+$/.test(text) || text !== text.trim() ? NO_BYTES : Uint8Array.from(text, (letter) => letter.charCodeAt(0));
    }
    if (this.isPossible || plan.countScale > 0) {
      this.isPossible = true;
      return;
    }
    const clock = templateOf(cells[plan.time >= 0 ? plan.time : plan.clock] ?? "");
    const date = plan.date >= 0 ? templateOf(cells[plan.date] ?? "") : clock;
    if (clock === null || date === null || date.dateAt < 0 || (plan.date >= 0 && (clock.dateAt >= 0 || date.hourAt >= 0 || clock.hourAt < 0))) return;
    // Day and month in numbers under an order that has no place for them are for the careful way.
    if (date.yearAt !== date.dateAt && plan.order === "year-month-day") return;
    this.clockTemplate = clock;
    this.dateTemplate = date;
    if (clock.offset !== null) [this.pieceFrom, this.pieceTo, this.pieceOffset] = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY, clock.offset * 60_000];
    else if (plan.zone === null) [this.pieceFrom, this.pieceTo] = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
    this.isPossible = true;
  }

  /**
   * Reads plain lines from `start` up to the line that is not, to `limit` (the end of a line), or to a full batch.
   * Returns the number of rows; `position` is the start of the next line.
   */
  read(bytes: Uint8Array, start: number, limit: number, firstLine: number, after: number, series: number): number {
    const { batch, kinds, same, delimiter } = this;
    const { channelOf } = this.plan;
    const { times, lines, mantissas, decimals, codes } = batch.now;
    const width = kinds.length;
    const isTimed = this.plan.countScale === 0;
    /** Blank cells of the row in work: counted once it is whole. */
    const pendingBlanks: number[] = [];
    let row = batch.count;
    let lineStart = start;
    let lastTime = after;
    this.carriageReturns = 0;
    rows: while (row < BATCH_ROWS && lineStart < limit) {
      let position = lineStart;
      let local = 0;
      if (pendingBlanks.length > 0) pendingBlanks.length = 0;
      for (let column = 0; column < width; column++) {
        const kind = kinds[column] as number; // column is below the width
        if (kind === NUMBER) {
          const channel = channelOf[column] as number;
          let byte = bytes[position] as number;
          const isNegative = byte === MINUS;
          if (isNegative) byte = bytes[++position] as number;
          let digit = byte - ZERO;
          if (digit < 0 || digit > 9) {
            // An empty cell says that there was no reading.
            if (isNegative || (byte !== delimiter && byte !== LF && byte !== CR)) break rows;
            (mantissas[channel] as Float64Array)[row] = 0;
            (decimals[channel] as Uint8Array)[row] = 0;
            (codes[channel] as Uint8Array)[row] = CODE.none;
            pendingBlanks.push(column);
          } else {
            const from = position;
            let mantissa = digit;
            for (;;) {
              byte = bytes[++position] as number;
              digit = byte - ZERO;
              if (digit < 0 || digit > 9) break;
              mantissa = mantissa * 10 + digit;
              if (position - from > MOST_DIGITS) break rows;
            }
            const whole = position - from;
            if (whole > 1 && bytes[from] === ZERO) break rows;
            let places = 0;
            if (byte === this.marks[column]) {
              const mark = position;
              for (;;) {
                byte = bytes[++position] as number;
                digit = byte - ZERO;
                if (digit < 0 || digit > 9) break;
                mantissa = mantissa * 10 + digit;
                if (position - from > MOST_DIGITS) break rows;
              }
              places = position - mark - 1;
            }
            const power = POWERS[places] as number;
            if (isNegative) {
              if (mantissa > PLAIN_ABOVE * power) break rows;
              if (-mantissa / power < (this.lowest[column] as number)) this.lowest[column] = -mantissa / power;
              mantissa = 0 - mantissa;
            } else if (mantissa > (this.below[column] as number) * power) break rows;
            const bits = places === 3 && whole <= 3 && bytes[from] !== ZERO ? GROUP_LIKE : 1 << places;
            if (((this.masks[column] as number) & bits) === 0) this.noteForm(column, places, bits, firstLine + row - batch.count, textFromUtf8(bytes, from, position));
            (mantissas[channel] as Float64Array)[row] = mantissa;
            (decimals[channel] as Uint8Array)[row] = places;
            (codes[channel] as Uint8Array)[row] = CODE.valid;
          }
        } else if (kind === TIME) {
          const template = this.clockTemplate as TimeTemplate; // learnt before this way was taken
          const seconds = template.secondAt;
          const known = seconds < 0 ? template.length : seconds;
          let same = 0;
          while (same < known && bytes[position + same] === this.lastMinute[same]) same++;
          if (same < known && !this.newMinute(bytes, position, limit, firstLine + row - batch.count)) break rows;
          local += this.minuteLocal;
          if (template.dateAt >= 0) local += this.dayLocal;
          if (seconds >= 0) {
            const tens = (bytes[position + seconds] as number) - ZERO;
            const ones = (bytes[position + seconds + 1] as number) - ZERO;
            if (tens < 0 || tens > 5 || ones < 0 || ones > 9) break rows;
            local += tens * 10_000 + ones * 1000;
            if (!template.endFits(bytes, position)) break rows;
            if (template.fractionAt >= 0) local += this.fraction(bytes, position);
          }
          position += template.length;
        } else if (kind === DATE) {
          const template = this.dateTemplate as TimeTemplate; // learnt before this way was taken
          let same = 0;
          while (same < template.length && bytes[position + same] === this.lastDate[same]) same++;
          if (same < template.length && !this.newDate(bytes, position, limit, firstLine + row - batch.count)) break rows;
          local += this.dayLocal;
          position += template.length;
        } else if (kind === SAME) {
          const text = same[column] as Uint8Array;
          if (text.length === 0) break rows;
          for (let index = 0; index < text.length; index++) if (bytes[position + index] !== text[index]) break rows;
          position += text.length;
        } else if (kind === SKIP) {
          for (;;) {
            const byte = bytes[position] as number;
            if (byte === delimiter || byte === LF || byte === CR) break;
            if (byte < 32 || byte > 126 || byte === 34 || byte === 39) break rows;
            position++;
          }
        } else {
          const end = this.count(bytes, position);
          if (end < 0) break rows;
          local = this.countTime;
          position = end;
        }
        if (column < width - 1 && bytes[position++] !== delimiter) break rows;
      }
      let next = bytes[position] as number;
      let hasReturn = 0;
      if (next === CR) {
        next = bytes[++position] as number;
        hasReturn = 1;
      }
      if (next !== LF) break;
      if (isTimed && !(local >= this.pieceFrom && local < this.pieceTo) && !this.newPiece(local)) break;
      const time = isTimed ? local - this.pieceOffset : local;
      if (!(time > lastTime)) break;
      times[row] = time;
      lines[row] = firstLine + row - batch.count;
      if (batch.hasSeries) batch.now.series[row] = series;
      lastTime = time;
      this.lastLocal = local;
      this.carriageReturns += hasReturn;
      for (let index = 0; index < pendingBlanks.length; index++) this.countBlank(pendingBlanks[index] as number); // index is below the length
      row++;
      lineStart = position + 1;
    }
    const rows = row - batch.count;
    batch.count = row;
    this.position = lineStart;
    this.lastTime = lastTime;
    this.rows += rows;
    return rows;
  }

  private countTime = 0;

  private countBlank(column: number): void {
    this.blanks[column] = (this.blanks[column] as number) + 1; // column is below the width
  }

  /** A count of seconds or the like; the position after it, or -1. */
  private count(bytes: Uint8Array, start: number): number {
    let position = start;
    let mantissa = 0;
    let places = 0;
    let byte = bytes[position] as number;
    const mark = this.marks[this.plan.time];
    while (byte >= ZERO && byte <= 57) {
      mantissa = mantissa * 10 + byte - ZERO;
      byte = bytes[++position] as number;
    }
    if (position === start) return -1;
    if (byte === mark) {
      byte = bytes[++position] as number;
      while (byte >= ZERO && byte <= 57) {
        mantissa = mantissa * 10 + byte - ZERO;
        places++;
        byte = bytes[++position] as number;
      }
    }
    if (position - start > 15 || places > 12) return -1;
    this.countTime = countMilliseconds(mantissa, places, this.plan.countScale) + this.plan.countStart;
    return this.countTime < 253_402_300_800_000 ? position : -1;
  }

  private fraction(bytes: Uint8Array, position: number): number {
    const template = this.clockTemplate as TimeTemplate; // learnt before this way was taken
    let milliseconds = 0;
    for (let index = 0; index < template.fractionLength; index++) milliseconds = milliseconds * 10 + (bytes[position + template.fractionAt + index] as number) - ZERO; // digits, as `fits` has seen
    return milliseconds * (POWERS[3 - template.fractionLength] as number); // at most three digits
  }

  private newMinute(bytes: Uint8Array, position: number, limit: number, line: number): boolean {
    const template = this.clockTemplate as TimeTemplate; // learnt before this way was taken
    if (position + template.length >= limit || !template.fits(bytes, position)) return false;
    const minute = template.minute(bytes, position);
    if (Number.isNaN(minute)) return false;
    if (template.dateAt >= 0 && !this.newDate(bytes, position, limit, line)) return false;
    this.minuteLocal = minute;
    const known = template.secondAt < 0 ? template.length : template.secondAt;
    this.lastMinute.set(bytes.subarray(position, position + known));
    return true;
  }

  private newDate(bytes: Uint8Array, position: number, limit: number, line: number): boolean {
    const template = this.dateTemplate as TimeTemplate; // learnt before this way was taken
    if (position + template.length >= limit) return false;
    let same = 0;
    while (same < 10 && bytes[position + same] === this.lastDate[same]) same++;
    if (same === 10) return true;
    if (!template.fits(bytes, position)) return false;
    const day = template.day(bytes, position, this.plan.order);
    if (Number.isNaN(day)) return false;
    this.dayLocal = day;
    this.lastDate.set(bytes.subarray(position, position + 10));
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
    this.pieceFrom = piece.from;
    this.pieceTo = piece.to;
    this.pieceOffset = piece.offset;
    return true;
  }

  private noteForm(column: number, places: number, bits: number, line: number, text: string): void {
    this.masks[column] = (this.masks[column] as number) | bits; // column is below the width
    const mark = this.plan.mapping.columns[column]?.decimalMark === "," ? "comma" : "point";
    const form = places === 0 ? "whole" : bits === GROUP_LIKE ? (`${mark} three` as const) : mark;
    this.forms.push({ column, form, line, text });
  }

  /** Enters what the plain lines have shown into the evidence, once, at the end. */
  fold(evidence: SurveyEvidence): void {
    if (this.rows === 0) return;
    for (const [index, column] of evidence.columns.entries()) this.foldColumn(column, index);
    for (const { column, form, line, text } of this.forms) {
      const known = evidence.columns[column]?.forms.get(form);
      if (known === undefined) evidence.columns[column]?.forms.set(form, { count: 1, line, text });
    }
    const times = evidence.columns[this.plan.date >= 0 ? this.plan.date : this.plan.time]?.times;
    for (const { line, text, first, second } of times === undefined ? [] : this.dates) {
      if (first > times!.first.count) Object.assign(times!.first, { count: first, line, text });
      if (second > times!.second.count) Object.assign(times!.second, { count: second, line, text });
    }
  }

  private foldColumn(column: ColumnEvidence, index: number): void {
    const blank = this.blanks[index] as number; // index is below the width
    const filled = this.rows - blank;
    column.blank += blank;
    column.filled += filled;
    const kind = this.kinds[index];
    if (kind === SAME) return;
    column.changes += filled;
    if (kind === NUMBER || kind === COUNT) column.numbers += filled;
    if (kind === NUMBER) {
      if ((this.lowest[index] as number) < column.lowest) column.lowest = this.lowest[index] as number; // index is below the width
      column.greatest = Math.max(column.greatest, 0);
    } else if (kind === COUNT) column.greatest = Math.max(column.greatest, (this.lastTime - this.plan.countStart) / this.plan.countScale);
    else if (kind === SKIP) this.foldSkipped(column, filled);
    else this.foldTimes(column, filled, kind === DATE);
  }

  /** Columns that are no readings were not looked at: they count as what they were. */
  private foldSkipped(column: ColumnEvidence, filled: number): void {
    const { complete, dates, clocks } = column.times;
    if (column.numbers * 2 > column.filled - filled) column.numbers += filled;
    else if ((complete + dates + clocks) * 2 > column.filled - filled) column.times.complete += complete > 0 ? filled : 0;
    else column.moreWords += filled;
  }

  private foldTimes({ times }: ColumnEvidence, filled: number, isDate: boolean): void {
    const template = this.clockTemplate as TimeTemplate; // rows were read with it
    if (isDate) times.dates += filled;
    else if (template.dateAt < 0) times.clocks += filled;
    else times.complete += filled;
    if (template.offset !== null && !isDate) times.withOffset += filled;
    else times.local.count += filled;
    const date = this.dateTemplate as TimeTemplate; // rows were read with it
    if (!isDate && template.dateAt < 0) return;
    if (date.yearAt === date.dateAt) times.yearFirst += filled;
    else times.numbers += filled;
  }
}

function kindOf(plan: Plan, index: number): number {
  if (index === plan.time) return plan.countScale > 0 ? COUNT : TIME;
  if (index === plan.clock) return TIME;
  if (index === plan.date) return plan.clock >= 0 ? DATE : TIME;
  if ((plan.channelOf[index] as number) >= 0) return NUMBER; // one channel number a column
  return index === plan.series || plan.statuses.includes(index) ? SAME : SKIP;
}

/** One reading a line, day numbers, wrapped lines, and numbers that were said to be words take the careful way throughout. */
function canEverBePlain(plan: Plan): boolean {
  const { dialect, columns, time } = plan.mapping;
  if (plan.isLong || dialect.wrapped || dialect.delimiter === "" || plan.channels.length === 0 || plan.looseNumbers.length > 0) return false;
  if (time.form.startsWith("day-number") || (plan.time < 0 && plan.clock < 0) || (plan.date < 0 && plan.clock >= 0)) return false;
  if (columns.some((column) => column.decimalMark === dialect.delimiter)) return false;
  return ![...plan.words.keys()].some((word) => /^-?\d/.test(word) && Number(word) >= -PLAIN_ABOVE && Number(word) <= PLAIN_BELOW);
}
