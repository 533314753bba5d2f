/**
 * The short way for lines that hold nothing unusual: plain numbers, times that look like the last ones, the same
 * status as before. One loop over the bytes; at anything else it stops before the line, and the careful way takes it.
 * It never decides anything: whatever could be a question (signs of sentinels, falling times, new texts, letters
 * outside ASCII) makes it stop.
 */
import { AFTER_LAST_WRITABLE } from "../time/index.ts";
import { BATCH_ROWS, type Batch } from "./batch.ts";
import type { NumberForm } from "./number-text.ts";
import {
  canEverBePlain,
  DATE,
  GROUP_LIKE,
  kindOf,
  limitOf,
  markOf,
  NUMBER,
  PLAIN_ABOVE,
  POWERS,
  SAME,
  SKIP,
  sameBytes,
  TIME,
} from "./plain-column.ts";
import type { PlainSeen } from "./plain-evidence.ts";
import type { Plan } from "./plan.ts";
import { CODE } from "./reading-code.ts";
import { type TimeTemplate, templateOf } from "./time-template.ts";
import { textFromUtf8 } from "./utf8.ts";

const LF = 10;
const CR = 13;
const MINUS = 45;
const ZERO = 48;

/** Digits that fit a small integer, and a mark. */
const MOST_DIGITS = 10;
const DATE_LENGTH = 10;
const POINT = 46;
const NO_SERIES = new Uint32Array(0);
/** Digits and a mark of a count: a double holds fifteen exactly. */
const MOST_COUNT_DIGITS = 15;
const STOP = 0;
const NEW_HOUR = 1;
const NEW_DATE = 2;
const NEW_PIECE = 3;
const NEW_FORM = 4;
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
  /** By column; whoever watches the texts of a column that is skipped makes it `SAME`. */
  readonly kinds: Uint8Array;
  /** The decimal mark of all columns, less the digit nought. */
  private readonly mark: number;
  /** By column and number of decimals: the greatest mantissa that is plain. */
  private readonly limits: Int32Array;
  private readonly pendingBlanks: Int32Array;
  /** Of the time cell: bytes before the seconds, digits after them with their point, letters at the end. */
  private knownLength = 0;
  private hasSeconds = false;
  /** Place of the minutes in the cell; behind all that is known where it has none. */
  private minuteAt = 0;
  private fractionLength = 0;
  private suffix: Uint8Array = NO_BYTES;
  private readonly delimiter: number;
  private readonly canEver: boolean;
  private readonly same: Uint8Array[];
  readonly sameTexts: string[] = [];
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
  private readonly minuteWords = new Int32Array(8);
  private view: DataView = new DataView(new ArrayBuffer(0));
  private dayLocal = Number.NaN;
  private minuteLocal = Number.NaN;
  private pieceFrom = Number.POSITIVE_INFINITY;
  private pieceTo = Number.NEGATIVE_INFINITY;
  private pieceOffset = 0;
  private rows = 0;
  /** Why the loop stopped, and where. */
  private event = STOP;
  private eventAt = 0;
  private eventLocal = 0;
  private eventColumn = 0;
  private eventBits = 0;

  constructor(plan: Plan, batch: Batch) {
    this.plan = plan;
    this.batch = batch;
    const { columns, dialect } = plan.mapping;
    this.kinds = Uint8Array.from(columns, (_, index) => kindOf(plan, index));
    this.mark = markOf(plan).charCodeAt(0) - ZERO;
    this.limits = new Int32Array(columns.length * 16).fill(-1);
    this.pendingBlanks = new Int32Array(columns.length);
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
    for (let index = 0; index < this.kinds.length; index++) {
      const text = cells[index] ?? "";
      if (this.kinds[index] !== SAME || text === this.sameTexts[index]) continue;
      this.sameTexts[index] = text;
      this.same[index] = sameBytes(plan, text);
    }
    if (this.isPossible || plan.countScale > 0) {
      this.isPossible = true;
      return;
    }
    const clock = templateOf(cells[plan.time >= 0 ? plan.time : plan.clock] ?? "");
    const date = plan.date >= 0 ? templateOf(cells[plan.date] ?? "") : clock;
    if (
      clock === null ||
      date === null ||
      date.dateAt < 0 ||
      (plan.date >= 0 && (clock.dateAt >= 0 || date.hourAt >= 0 || clock.hourAt < 0))
    )
      return;
    // Day and month in numbers under an order that has no place for them are for the careful way.
    if (date.yearAt !== date.dateAt && plan.order === "year-month-day") return;
    this.clockTemplate = clock;
    this.dateTemplate = date;
    this.hasSeconds = clock.secondAt >= 0;
    this.knownLength = this.hasSeconds ? clock.secondAt : clock.length;
    this.minuteAt = clock.hourAt >= 0 ? clock.hourAt + 3 : this.knownLength;
    this.fractionLength = clock.fractionAt >= 0 ? clock.fractionLength + 1 : 0;
    this.suffix = clock.ending();
    if (clock.offset !== null)
      [this.pieceFrom, this.pieceTo, this.pieceOffset] = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY, clock.offset * 60_000];
    else if (plan.zone === null) [this.pieceFrom, this.pieceTo] = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
    this.isPossible = true;
  }

  /**
   * Reads plain lines from `start` up to the line that is not, to `limit` (the end of a line), or to a full batch.
   * Returns the number of rows; `position` is the start of the next line.
   */
  read(bytes: Uint8Array, start: number, limit: number, firstLine: number, after: number, series: number): number {
    const first = this.batch.count;
    if (this.view.buffer !== bytes.buffer) this.view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
    this.position = start;
    this.lastTime = after;
    this.carriageReturns = 0;
    do this.scan(bytes, limit, firstLine - first, series);
    while (this.event !== STOP && this.settle(bytes, limit, firstLine - first + this.batch.count));
    const rows = this.batch.count - first;
    this.rows += rows;
    return rows;
  }

  /** What the loop stopped at and cannot do by itself. False: the line is for the careful way. */
  private settle(bytes: Uint8Array, limit: number, line: number): boolean {
    if (this.event === NEW_HOUR) return this.newHour(bytes, this.eventAt, limit, line);
    if (this.event === NEW_DATE) return this.newDate(bytes, this.eventAt, limit, line);
    if (this.event === NEW_PIECE) return this.newPiece(this.eventLocal);
    this.noteForm(line, bytes);
    return true;
  }

  /**
   * The loop over the bytes. It calls nothing, so that what it holds in locals stays in registers, and stops at the
   * start of the line that needs more.
   */
  private scan(bytes: Uint8Array, limit: number, lineOfRow: number, series: number): void {
    const { batch, kinds, same, delimiter, mark, limits, masks, blanks, pendingBlanks, lowest } = this;
    const { countScale, countStart } = this.plan;
    const { times, lines, allMantissas, allDecimals, allCodes } = batch.now;
    const seriesRows = batch.hasSeries ? batch.now.series : NO_SERIES;
    const { knownLength, lastMinute, minuteAt, minuteWords, hasSeconds, fractionLength, suffix } = this;
    const { view, lastDate, dayLocal, pieceFrom, pieceTo, pieceOffset } = this;
    const knownWords = knownLength >> 2;
    const suffixLength = suffix.length;
    const width = kinds.length;
    const last = width - 1;
    const isTimed = countScale === 0;
    const hasSeries = batch.hasSeries;
    let { position: lineStart, lastTime, lastLocal, minuteLocal, carriageReturns: returns } = this;
    let row = batch.count;
    let event = STOP;
    let blankCells = 0;
    rows: while (row < BATCH_ROWS && lineStart < limit) {
      let position = lineStart;
      let local = 0;
      blankCells = 0;
      // Channels stand in the order of their columns.
      let slot = row;
      for (let column = 0; column < width; column++) {
        const kind = kinds[column];
        let byte = bytes[position] as number; // the line ends before the limit, and every loop stops at its end
        if (kind === NUMBER) {
          const isNegative = byte === MINUS;
          if (isNegative) byte = bytes[++position] as number;
          let mantissa = byte - ZERO;
          if (mantissa >>> 0 > 9) {
            // An empty cell says that there was no reading.
            if (isNegative || (byte !== delimiter && byte !== LF && byte !== CR)) break rows;
            pendingBlanks[blankCells++] = column;
            allMantissas[slot] = 0;
            allDecimals[slot] = 0;
            allCodes[slot] = CODE.none;
            slot += BATCH_ROWS;
          } else {
            const from = position;
            let digit = (bytes[++position] as number) - ZERO;
            // A number too long for a small integer turns over here, and is left to the careful way below.
            while (digit >>> 0 <= 9) {
              mantissa = (mantissa * 10 + digit) | 0;
              digit = (bytes[++position] as number) - ZERO;
            }
            const whole = position - from;
            let places = 0;
            if (digit === mark) {
              const first = ++position;
              digit = (bytes[position] as number) - ZERO;
              while (digit >>> 0 <= 9) {
                mantissa = (mantissa * 10 + digit) | 0;
                digit = (bytes[++position] as number) - ZERO;
              }
              places = position - first;
            }
            if (position - from > MOST_DIGITS || (whole > 1 && bytes[from] === ZERO)) break rows;
            // A number of decimals that this column has not shown yet has a limit below nought.
            if (mantissa > (limits[column * 16 + places] as number) || isNegative || places === 3) {
              const bits = places === 3 && whole <= 3 && bytes[from] !== ZERO ? GROUP_LIKE : 1 << places;
              if (((masks[column] as number) & bits) === 0) {
                this.eventColumn = column;
                this.eventBits = bits;
                this.eventAt = from;
                event = NEW_FORM;
                break rows;
              }
              const power = POWERS[places] as number; // no more places than digits
              if (isNegative) {
                if (mantissa > PLAIN_ABOVE * power) break rows;
                if (-mantissa / power < (lowest[column] as number)) lowest[column] = -mantissa / power;
                mantissa = 0 - mantissa;
              } else if (mantissa > (limits[column * 16 + places] as number)) break rows;
            }
            allMantissas[slot] = mantissa;
            allDecimals[slot] = places;
            slot += BATCH_ROWS;
          }
        } else if (kind === TIME) {
          let index = 0;
          // Four bytes at a time; `newHour` looked at the end of the buffer.
          while (index < knownWords && view.getInt32(position + 4 * index, true) === minuteWords[index]) index++;
          if (index === knownWords) {
            index *= 4;
            while (index < knownLength && bytes[position + index] === lastMinute[index]) index++;
          }
          if (index < knownLength) {
            // The commonest of changes: nothing but the two digits of the minute.
            for (index = 0; index < knownLength; index++)
              if (bytes[position + index] !== lastMinute[index] && index !== minuteAt && index !== minuteAt + 1) break;
            const tens = (bytes[position + minuteAt] as number) - ZERO;
            const ones = (bytes[position + minuteAt + 1] as number) - ZERO;
            if (index < knownLength || tens >>> 0 > 5 || ones >>> 0 > 9) {
              this.eventAt = position;
              event = NEW_HOUR;
              break rows;
            }
            minuteLocal +=
              ((tens - (lastMinute[minuteAt] as number)) * 10 + ones - (lastMinute[minuteAt + 1] as number) + 11 * ZERO) * 60_000;
            lastMinute[minuteAt] = tens + ZERO;
            lastMinute[minuteAt + 1] = ones + ZERO;
            for (index = minuteAt >> 2; index < knownWords; index++) minuteWords[index] = view.getInt32(position + 4 * index, true);
          }
          position += knownLength;
          local += minuteLocal;
          if (hasSeconds) {
            const tens = (bytes[position] as number) - ZERO;
            const ones = (bytes[position + 1] as number) - ZERO;
            if (tens >>> 0 > 5 || ones >>> 0 > 9) break rows;
            let milliseconds = tens * 10_000 + ones * 1000;
            position += 2;
            if (fractionLength > 0) {
              if (bytes[position] !== POINT) break rows;
              let unit = 100;
              for (index = 1; index < fractionLength; index++) {
                const digit = (bytes[position + index] as number) - ZERO;
                if (digit >>> 0 > 9) break rows;
                milliseconds += digit * unit;
                unit = (unit / 10) | 0;
              }
              position += fractionLength;
            }
            local += milliseconds;
            for (index = 0; index < suffixLength; index++) if (bytes[position++] !== suffix[index]) break rows;
          }
        } else if (kind === DATE) {
          let index = DATE_LENGTH - 1;
          while (index >= 0 && bytes[position + index] === lastDate[index]) index--;
          if (index >= 0) {
            this.eventAt = position;
            event = NEW_DATE;
            break rows;
          }
          local += dayLocal;
          position += DATE_LENGTH;
        } else if (kind === SAME) {
          const text = same[column] as Uint8Array; // one a column
          for (let index = 0; index < text.length; index++) if (bytes[position++] !== text[index]) break rows;
        } else if (kind === SKIP) {
          while (byte !== delimiter && byte !== LF && byte !== CR) {
            if (byte < 32 || byte > 126 || byte === 34 || byte === 39) break rows;
            byte = bytes[++position] as number;
          }
        } else {
          const from = position;
          let mantissa = 0;
          let digit = byte - ZERO;
          while (digit >>> 0 <= 9) {
            mantissa = mantissa * 10 + digit;
            digit = (bytes[++position] as number) - ZERO;
          }
          let places = 0;
          if (position === from) break rows;
          if (digit === mark) {
            const first = ++position;
            digit = (bytes[position] as number) - ZERO;
            while (digit >>> 0 <= 9) {
              mantissa = mantissa * 10 + digit;
              digit = (bytes[++position] as number) - ZERO;
            }
            places = position - first;
          }
          if (position - from > MOST_COUNT_DIGITS) break rows;
          // The same as `countMilliseconds`: nearest whole millisecond.
          local = Math.round((mantissa * countScale) / (POWERS[places] as number)) + countStart; // no more places than digits
          if (local >= AFTER_LAST_WRITABLE) break rows;
        }
        if (column < last && bytes[position++] !== delimiter) break rows;
      }
      let hasReturn = 0;
      if (bytes[position] === CR) {
        position++;
        hasReturn = 1;
      }
      if (bytes[position] !== LF) break;
      if (isTimed && !(local >= pieceFrom && local < pieceTo)) {
        this.eventLocal = local;
        event = NEW_PIECE;
        break;
      }
      const time = isTimed ? local - pieceOffset : local;
      if (!(time > lastTime)) break;
      times[row] = time;
      lines[row] = lineOfRow + row;
      if (hasSeries) seriesRows[row] = series;
      lastTime = time;
      lastLocal = local;
      returns += hasReturn;
      for (; blankCells > 0; blankCells--) {
        const column = pendingBlanks[blankCells - 1] as number; // counted above
        blanks[column] = (blanks[column] as number) + 1; // column is below the width
      }
      row++;
      lineStart = position + 1;
    }
    // The line that was given up may have left words for no reading behind it.
    if (blankCells > 0) for (let slot = row; slot < allCodes.length; slot += BATCH_ROWS) allCodes[slot] = CODE.valid;
    batch.count = row;
    this.position = lineStart;
    this.lastTime = lastTime;
    this.lastLocal = lastLocal;
    this.minuteLocal = minuteLocal;
    this.carriageReturns = returns;
    this.event = event;
  }

  private newHour(bytes: Uint8Array, position: number, limit: number, line: number): boolean {
    const template = this.clockTemplate as TimeTemplate; // learnt before this way was taken
    if (position + template.length >= limit || !template.fits(bytes, position)) return false;
    const minute = template.minute(bytes, position);
    if (Number.isNaN(minute)) return false;
    if (template.dateAt >= 0 && !this.newDate(bytes, position, limit, line)) return false;
    this.minuteLocal = template.dateAt >= 0 ? this.dayLocal + minute : minute;
    for (let index = 0; index < this.knownLength; index++) this.lastMinute[index] = bytes[position + index] as number; // before the limit
    for (let word = 0; word < this.knownLength >> 2; word++) this.minuteWords[word] = this.view.getInt32(position + 4 * word, true);
    return true;
  }

  private newDate(bytes: Uint8Array, position: number, limit: number, line: number): boolean {
    const template = this.dateTemplate as TimeTemplate; // learnt before this way was taken
    let same = 0;
    while (same < DATE_LENGTH && bytes[position + same] === this.lastDate[same]) same++;
    if (same === DATE_LENGTH) return true;
    if (position + template.length >= limit || !template.fits(bytes, position)) return false;
    const day = template.day(bytes, position, this.plan.order);
    if (Number.isNaN(day)) return false;
    this.dayLocal = day;
    this.lastDate.set(bytes.subarray(position, position + DATE_LENGTH));
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

  /** A number with so many decimals for the first time in its column. */
  private noteForm(line: number, bytes: Uint8Array): void {
    const { eventColumn: column, eventBits: bits, eventAt: from } = this;
    this.masks[column] = (this.masks[column] as number) | bits; // column is below the width
    const places = bits === GROUP_LIKE ? 3 : 31 - Math.clz32(bits);
    this.limits[column * 16 + places] = limitOf(this.plan, column, places);
    const mark = this.plan.mapping.columns[column]?.decimalMark === "," ? "comma" : "point";
    const form = bits === 1 ? "whole" : bits === GROUP_LIKE ? (`${mark} three` as const) : mark;
    let end = from;
    while ((bytes[end] as number) - ZERO === this.mark || ((bytes[end] as number) - ZERO) >>> 0 <= 9) end++; // a line end stops it
    this.forms.push({ column, form, line, text: textFromUtf8(bytes, from, end) });
  }

  /** What the plain lines have shown, for the evidence. */
  get seen(): PlainSeen {
    const { plan, rows, kinds, blanks, lowest, forms, dates, clockTemplate, dateTemplate, lastTime } = this;
    return { plan, rows, kinds, blanks, lowest, forms, dates, clockTemplate, dateTemplate, lastTime };
  }
}
