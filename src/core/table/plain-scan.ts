/**
 * The loop over the bytes of plain lines. It decides nothing: at whatever it does not know it stops before the line and
 * says why, and `plain-line.ts` either teaches it or leaves the line to the careful way.
 */
import { AFTER_LAST_WRITABLE } from "../time/index.ts";
import { BATCH_ROWS, type Batch } from "./batch.ts";
import { COUNT, DATE, GROUP_LIKE, kindOf, markOf, NUMBER, PLAIN_ABOVE, POWERS, SAME, TIME } from "./plain-column.ts";
import type { Plan } from "./plan.ts";
import { CODE } from "./reading-code.ts";

/** Why the loop stopped. */
export const STOP = 0;
export const NEW_HOUR = 1;
export const NEW_DATE = 2;
export const NEW_PIECE = 3;
export const NEW_FORM = 4;

export const ZERO = 48;
export const DATE_LENGTH = 10;
export const NO_BYTES = new Uint8Array(0);

// Constants of this file alone: the engine looks what a module brings in or gives away up anew at each use.
const IS_NUMBER = NUMBER;
const IS_TIME = TIME;
const IS_COUNT = COUNT;
const IS_DATE = DATE;
const IS_SAME = SAME;
const ROWS = BATCH_ROWS;
const LF = 10;
const CR = 13;
const MINUS = 45;
const POINT = 46;
const NOUGHT = 48;
/** Taken from four bytes at once, it leaves of each digit its number, and ten or more of any other byte. */
const FOUR_NOUGHTS = 0x30303030;
/** Digits that fit a small integer, and a mark. */
const MOST_DIGITS = 10;
/** Digits and a mark of a count: a double holds fifteen exactly. */
const MOST_COUNT_DIGITS = 15;

/** Short numbers of a column that need no look at its limits: one digit or two; one more after the mark. */
const SHORT_WHOLE = 1;
const SHORT_TENTH = 2;

export class PlainScan {
  /** Where the next line starts, and the time of the one before it. */
  position = 0;
  lastTime = Number.NEGATIVE_INFINITY;
  lastLocal = Number.NaN;
  carriageReturns = 0;
  /** Why the loop stopped, and where. */
  event = STOP;
  eventAt = 0;
  eventLocal = 0;
  eventColumn = 0;
  eventBits = 0;
  readonly kinds: Uint8Array;
  /** The decimal mark of all columns, less the digit nought. */
  readonly mark: number;
  /** Per column: decimals seen as bits, lowest number, blank cells. */
  readonly masks: Int32Array;
  readonly lowest: Float64Array;
  readonly blanks: Float64Array;
  readonly same: Uint8Array[];
  /** Of the time cell: bytes before the seconds, digits after them with their point, letters at the end. */
  knownLength = 0;
  hasSeconds = false;
  /** Place of the minutes in the cell; behind all that is known where it has none. */
  minuteAt = 0;
  fractionLength = 0;
  suffix: Uint8Array = NO_BYTES;
  /** Bytes of the last date, with what they came to. */
  readonly lastDate = new Uint8Array(16);
  dayLocal = Number.NaN;
  /** Local times from and to which one offset holds; counts have none. */
  pieceFrom = Number.POSITIVE_INFINITY;
  pieceTo = Number.NEGATIVE_INFINITY;
  pieceOffset = 0;
  private readonly batch: Batch;
  private readonly plan: Plan;
  /** By column and number of decimals: the greatest mantissa that is plain. */
  private readonly limits: Int32Array;
  private readonly shorts: Uint8Array;
  private readonly pendingBlanks: Int32Array;
  private readonly delimiter: number;
  private bytes: Uint8Array = NO_BYTES;
  private view: DataView = new DataView(new ArrayBuffer(0));
  /** Bytes of the last hour and minute, and the first, the middle and the last eight of them as numbers to compare. */
  private readonly lastMinute = new Uint8Array(32);
  private head = Number.NaN;
  private middle = Number.NaN;
  private tail = Number.NaN;
  private minuteLocal = Number.NaN;
  private minute = 0;

  constructor(plan: Plan, batch: Batch) {
    this.plan = plan;
    this.batch = batch;
    const { columns, dialect } = plan.mapping;
    this.kinds = Uint8Array.from(columns, (_, index) => kindOf(plan, index));
    this.mark = markOf(plan).charCodeAt(0) - ZERO;
    this.limits = new Int32Array(columns.length * 16).fill(-1);
    this.shorts = new Uint8Array(columns.length);
    this.pendingBlanks = new Int32Array(columns.length);
    this.delimiter = dialect.delimiter === "" ? -1 : dialect.delimiter.charCodeAt(0);
    this.same = columns.map(() => NO_BYTES);
    this.masks = new Int32Array(columns.length);
    this.lowest = new Float64Array(columns.length).fill(Number.POSITIVE_INFINITY);
    this.blanks = new Float64Array(columns.length);
  }

  /** The bytes that `scan` goes over. At least 64 more of any value follow the last line: several are looked at once. */
  over(bytes: Uint8Array): void {
    if (this.bytes === bytes) return;
    this.bytes = bytes;
    this.view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  }

  /** What an hour and minute at `position` came to. */
  learnMinute(position: number, local: number): void {
    const { bytes, view, knownLength, minuteAt } = this;
    this.minuteLocal = local;
    this.minute = ((bytes[position + minuteAt] as number) - NOUGHT) * 10 + (bytes[position + minuteAt + 1] as number) - NOUGHT;
    for (let index = 0; index < knownLength; index++) this.lastMinute[index] = bytes[position + index] as number; // before the limit
    if (knownLength < 8) return;
    this.head = view.getFloat64(position, true);
    this.middle = view.getFloat64(position + middleOf(knownLength), true);
    this.tail = view.getFloat64(position + knownLength - 8, true);
  }

  /** The same bytes may mean another time from here on. */
  forgetMinute(): void {
    this.lastMinute.fill(0);
    this.head = Number.NaN;
  }

  /** The greatest mantissa that is plain with so many decimals. */
  learnLimit(column: number, places: number, limit: number): void {
    const { limits, shorts } = this;
    limits[column * 16 + places] = limit;
    if (places === 0 && limit >= 99) shorts[column] = (shorts[column] as number) | SHORT_WHOLE; // one a column
    if (places === 1 && limit >= 999) shorts[column] = (shorts[column] as number) | SHORT_TENTH; // one a column
  }

  /**
   * Reads lines up to one that is not plain, to `limit` (the end of a line), or to a full batch. It calls nothing, so
   * that what it holds in locals stays in registers.
   */
  scan(limit: number, lineOfRow: number, series: number): void {
    const { batch, kinds, same, delimiter, mark, limits, masks, blanks, pendingBlanks, lowest } = this;
    const { countScale, countStart } = this.plan;
    const { times, lines, series: allSeries, allMantissas, allDecimals, allCodes } = batch.now;
    const { knownLength, lastMinute, minuteAt, shorts, hasSeconds, fractionLength, suffix } = this;
    const { bytes, view, lastDate, dayLocal, pieceFrom, pieceTo, pieceOffset } = this;
    const markLeft = (mark + NOUGHT) ^ NOUGHT;
    const isWide = knownLength >= 8 && knownLength <= 24;
    const tailAt = knownLength - 8;
    const middleAt = middleOf(knownLength);
    const suffixLength = suffix.length;
    const onlyLetter = suffixLength === 1 && fractionLength === 0 ? (suffix[0] as number) ^ NOUGHT : 0;
    const last = kinds.length - 1;
    let { position: lineStart, lastTime, carriageReturns: returns, head, middle, tail, minute, minuteLocal } = this;
    this.event = STOP;
    let row = batch.count;
    let blankCells = 0;
    rows: while (row < ROWS && lineStart < limit) {
      let position = lineStart;
      let local = 0;
      // Channels stand in the order of their columns.
      let slot = row;
      for (let column = 0; column <= last; column++) {
        const short = shorts[column] as number; // one a column
        if (short > 0) {
          // One digit or two and perhaps one more after the mark, out of four bytes at once.
          const word = view.getInt32(position, true) ^ FOUR_NOUGHTS;
          let mantissa = word & 255;
          if (mantissa <= 9) {
            let rest = word >>> 8;
            let end = position + 1;
            if ((rest & 255) <= 9 && mantissa > 0) {
              mantissa = mantissa * 10 + (rest & 255);
              rest >>>= 8;
              end++;
            }
            let form = SHORT_WHOLE;
            if ((rest & 255) === markLeft) {
              const tenth = (rest >>> 8) & 255;
              form = tenth <= 9 ? SHORT_TENTH : 0;
              mantissa = mantissa * 10 + tenth;
              end += 2;
            }
            const after = bytes[end];
            if ((short & form) !== 0 && (column < last ? after === delimiter : after === LF || after === CR)) {
              allMantissas[slot] = mantissa;
              allDecimals[slot] = form >> 1;
              slot += ROWS;
              position = column < last ? end + 1 : end;
              continue;
            }
          }
        }
        const kind = kinds[column];
        if (kind === IS_NUMBER || kind === IS_COUNT) {
          const byte = bytes[position] as number; // the line ends before the limit, and every loop stops at its end
          const isNegative = byte === MINUS && kind === IS_NUMBER;
          if (isNegative) position++;
          const from = position;
          let mantissa = 0;
          let digit = (bytes[position] as number) - NOUGHT;
          for (; digit >>> 0 <= 9; digit = (bytes[++position] as number) - NOUGHT) mantissa = mantissa * 10 + digit;
          const whole = position - from;
          let places = 0;
          if (digit === mark && whole > 0) {
            digit = (bytes[++position] as number) - NOUGHT;
            for (; digit >>> 0 <= 9; digit = (bytes[++position] as number) - NOUGHT) mantissa = mantissa * 10 + digit;
            places = position - from - whole - 1;
          }
          if (kind === IS_COUNT) {
            if (whole === 0 || position - from > MOST_COUNT_DIGITS) break rows;
            // The same as `countMilliseconds`: nearest whole millisecond.
            local = Math.round((mantissa * countScale) / (POWERS[places] as number)) + countStart; // no more places than digits
            if (local >= AFTER_LAST_WRITABLE) break rows;
          } else {
            if (whole === 0) {
              // An empty cell says that there was no reading.
              if (isNegative || (byte !== delimiter && byte !== LF && byte !== CR)) break rows;
              pendingBlanks[blankCells++] = column;
              allCodes[slot] = CODE.none;
            } else if (position - from > MOST_DIGITS || (whole > 1 && bytes[from] === NOUGHT)) break rows;
            else if (mantissa > (limits[column * 16 + places] as number) || isNegative || places === 3) {
              // A number of decimals that this column has not shown yet has a limit below nought.
              const bits = places === 3 && whole <= 3 && bytes[from] !== NOUGHT ? GROUP_LIKE : 1 << places;
              if (((masks[column] as number) & bits) === 0) {
                this.eventColumn = column;
                this.eventBits = bits;
                this.eventAt = from;
                this.event = NEW_FORM;
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
            slot += ROWS;
          }
        } else if (kind === IS_TIME) {
          // Eight bytes at a time, which overlap; `newHour` looked at the end of the buffer.
          const isHeadSame = isWide && view.getFloat64(position, true) === head && view.getFloat64(position + middleAt, true) === middle;
          if (!isHeadSame || view.getFloat64(position + tailAt, true) !== tail) {
            // The commonest of changes: nothing but the two digits of the minute.
            let index = isHeadSame ? tailAt : 0;
            for (; index < knownLength; index++)
              if (bytes[position + index] !== lastMinute[index] && index !== minuteAt && index !== minuteAt + 1) break;
            const tens = (bytes[position + minuteAt] as number) - NOUGHT;
            const ones = (bytes[position + minuteAt + 1] as number) - NOUGHT;
            if (index < knownLength || tens >>> 0 > 5 || ones >>> 0 > 9) {
              this.eventAt = position;
              this.event = NEW_HOUR;
              break rows;
            }
            minuteLocal += (tens * 10 + ones - minute) * 60_000;
            minute = tens * 10 + ones;
            if (isWide) tail = view.getFloat64(position + tailAt, true);
            if (isWide && !isHeadSame) {
              head = view.getFloat64(position, true);
              middle = view.getFloat64(position + middleAt, true);
            }
          }
          position += knownLength;
          local += minuteLocal;
          if (hasSeconds) {
            const word = view.getInt32(position, true) ^ FOUR_NOUGHTS;
            const tens = word & 255;
            const ones = (word >>> 8) & 255;
            if (tens > 5 || ones > 9) break rows;
            let milliseconds = tens * 10_000 + ones * 1000;
            position += 2;
            if (fractionLength > 0 && bytes[position] !== POINT) break rows;
            for (let index = 1, unit = 100; index < fractionLength; index++, unit = (unit / 10) | 0) {
              const digit = (bytes[position + index] as number) - NOUGHT;
              if (digit >>> 0 > 9) break rows;
              milliseconds += digit * unit;
            }
            position += fractionLength;
            local += milliseconds;
            if (onlyLetter > 0) {
              if (((word >>> 16) & 255) !== onlyLetter) break rows;
              position++;
            } else for (let index = 0; index < suffixLength; index++) if (bytes[position++] !== suffix[index]) break rows;
          }
        } else if (kind === IS_DATE) {
          let index = DATE_LENGTH - 1;
          while (index >= 0 && bytes[position + index] === lastDate[index]) index--;
          if (index >= 0) {
            this.eventAt = position;
            this.event = NEW_DATE;
            break rows;
          }
          local += dayLocal;
          position += DATE_LENGTH;
        } else if (kind === IS_SAME) {
          const text = same[column] as Uint8Array; // one a column
          for (let index = 0; index < text.length; index++) if (bytes[position++] !== text[index]) break rows;
        } else {
          let byte = bytes[position] as number;
          while (byte !== delimiter && byte !== LF && byte !== CR) {
            if (byte < 32 || byte > 126 || byte === 34 || byte === 39) break rows;
            byte = bytes[++position] as number;
          }
        }
        if (column < last && bytes[position++] !== delimiter) break rows;
      }
      const hasReturn = bytes[position] === CR;
      if (hasReturn) position++;
      if (bytes[position] !== LF) break;
      if (countScale === 0 && !(local >= pieceFrom && local < pieceTo)) {
        this.eventLocal = local;
        this.event = NEW_PIECE;
        break;
      }
      const time = local - pieceOffset;
      if (!(time > lastTime)) break;
      times[row] = time;
      lines[row] = lineOfRow + row;
      allSeries[row] = series;
      lastTime = time;
      if (hasReturn) returns++;
      for (; blankCells > 0; blankCells--) {
        const column = pendingBlanks[blankCells - 1] as number; // counted above
        blanks[column] = (blanks[column] as number) + 1; // column is below the width
      }
      row++;
      lineStart = position + 1;
    }
    // The line that was given up may have left words for no reading behind it.
    if (blankCells > 0) for (let slot = row; slot < allCodes.length; slot += ROWS) allCodes[slot] = CODE.valid;
    this.position = lineStart;
    this.lastTime = lastTime;
    if (row > batch.count) this.lastLocal = lastTime + pieceOffset;
    this.minuteLocal = minuteLocal;
    this.minute = minute;
    this.head = head;
    this.middle = middle;
    this.tail = tail;
    this.carriageReturns = returns;
    batch.count = row;
  }
}

/** Where the second of three times eight bytes starts that cover a text of eight to 24: just before the last eight. */
const middleOf = (length: number): number => (length > 16 ? length - 16 : 0);
