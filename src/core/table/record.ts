/**
 * One record of a table: where its cells lie in the bytes. Strict by default, as RFC 4180 section 2 writes: a quote
 * opens a cell only at its start, and text after the closing quote spoils this line and no other.
 */
import type { Dialect } from "./mapping.ts";
import { textFromUtf8 } from "./utf8.ts";

export const LF = 10;
export const CR = 13;
const SPACE = 32;
const TAB = 9;
const BACKSLASH = 92;
const NONE = -1;

/** Longest record that is kept in memory. Longer ones are faults. */
export const LONGEST_RECORD = 1 << 20;

export type RecordFault = "text after the closing quote" | "unclosed quote" | null;

/** A splitter that is used again for every record: the fields hold the last one. */
export class RecordSplitter {
  count = 0;
  /** First byte and end of the text of each cell, quotes left out. */
  from = new Int32Array(64);
  to = new Int32Array(64);
  /** 0 bare, 1 quoted, 2 quoted with quotes to be undone inside. */
  quoted = new Uint8Array(64);
  /** End of the record without its line end, start of the next one. */
  end = 0;
  next = 0;
  /** Line ends inside quotes. */
  innerLines = 0;
  /** Length of the line end: 1 LF, 2 CRLF, 3 CR CR LF, -1 CR alone, 0 end of file. */
  lineEnd = 0;
  fault: RecordFault = null;
  private readonly delimiter: number;
  private readonly quote: number;
  private readonly inside: Dialect["quoteInside"];
  private readonly trim: boolean;

  constructor(dialect: Pick<Dialect, "delimiter" | "quote" | "quoteInside" | "trim">) {
    this.delimiter = dialect.delimiter === "" ? NONE : dialect.delimiter.charCodeAt(0);
    this.quote = dialect.quote === "" ? NONE : dialect.quote.charCodeAt(0);
    this.inside = dialect.quoteInside;
    this.trim = dialect.trim;
  }

  /** Splits the record that begins at `start`. False: it does not end before `limit`, and more bytes may come. */
  split(bytes: Uint8Array, start: number, limit: number, isFinal: boolean): boolean {
    this.count = 0;
    this.innerLines = 0;
    this.fault = null;
    let position = start;
    for (;;) {
      const cellStart = this.trim ? this.skipSpaces(bytes, position, limit) : position;
      const isQuoted = this.quote !== NONE && cellStart < limit && bytes[cellStart] === this.quote;
      position = isQuoted ? this.quotedCell(bytes, cellStart + 1, limit) : this.bareCell(bytes, cellStart, limit);
      if (this.fault === "unclosed quote" && !isFinal) return false;
      if (position >= limit || bytes[position] !== this.delimiter) break;
      position++;
    }
    return this.closeLine(bytes, position, limit, isFinal);
  }

  /** Takes a whole physical line as it is, without cells: comments, lines that could not be split. */
  line(bytes: Uint8Array, start: number, limit: number, isFinal: boolean): boolean {
    this.count = 0;
    this.innerLines = 0;
    this.fault = null;
    return this.closeLine(bytes, this.endOfLine(bytes, start, limit), limit, isFinal);
  }

  text(bytes: Uint8Array, cell: number): string {
    const raw = textFromUtf8(bytes, this.from[cell] as number, this.to[cell] as number); // cell is below the count
    const how = this.quoted[cell];
    if (how === 0) return this.trim ? raw.trim() : raw;
    if (how === 1) return raw;
    const quote = String.fromCharCode(this.quote);
    return this.inside === "backslash" ? raw.replace(/\\(.)/gs, "$1") : raw.replaceAll(quote + quote, quote);
  }

  texts(bytes: Uint8Array): string[] {
    const cells: string[] = [];
    for (let cell = 0; cell < this.count; cell++) cells.push(this.text(bytes, cell));
    return cells;
  }

  private bareCell(bytes: Uint8Array, start: number, limit: number): number {
    let position = start;
    while (position < limit) {
      const byte = bytes[position] as number; // position is below the limit
      if (byte === this.delimiter || byte === LF || byte === CR) break;
      position++;
    }
    this.addCell(start, position, 0);
    return position;
  }

  private quotedCell(bytes: Uint8Array, start: number, limit: number): number {
    if (this.inside === "lenient") return this.lenientCell(bytes, start, limit);
    let position = start;
    let how: 1 | 2 = 1;
    for (;;) {
      const close = this.closingQuote(bytes, position, limit);
      if (close < 0) {
        this.addCell(start, limit, how);
        this.fault = "unclosed quote";
        return limit;
      }
      if (bytes[close] === BACKSLASH || (this.inside === "doubled" && close + 1 < limit && bytes[close + 1] === this.quote)) {
        how = 2;
        position = close + 2;
        continue;
      }
      return this.afterQuote(bytes, start, close, how, limit);
    }
  }

  /** Ends at a quote before a delimiter or a line end. A lenient cell holds no line end: one open quote would swallow the file. */
  private lenientCell(bytes: Uint8Array, start: number, limit: number): number {
    let position = start;
    for (; position < limit && bytes[position] !== LF && bytes[position] !== CR; position++) {
      if (bytes[position] === this.quote && this.isCellEnd(bytes, position + 1, limit)) {
        this.addCell(start, position, 1);
        return position + 1;
      }
    }
    this.addCell(start, position, 1);
    this.fault = "text after the closing quote";
    return position;
  }

  /** Position of the next quote, or of a backslash where that escapes. Line ends on the way are counted. */
  private closingQuote(bytes: Uint8Array, start: number, limit: number): number {
    for (let position = start; position < limit; position++) {
      const byte = bytes[position] as number; // position is below the limit
      if (byte === this.quote) return position;
      if (byte === LF || (byte === CR && bytes[position + 1] !== LF && bytes[position + 1] !== CR)) this.innerLines++;
      else if (byte === BACKSLASH && this.inside === "backslash" && position + 1 < limit) return position;
    }
    return -1;
  }

  private afterQuote(bytes: Uint8Array, start: number, close: number, how: 1 | 2, limit: number): number {
    this.addCell(start, close, how);
    const position = this.trim ? this.skipSpaces(bytes, close + 1, limit) : close + 1;
    if (this.isCellEnd(bytes, position, limit)) return position;
    this.fault = "text after the closing quote";
    return this.endOfLine(bytes, position, limit);
  }

  private isCellEnd(bytes: Uint8Array, position: number, limit: number): boolean {
    if (position >= limit) return true;
    const byte = bytes[position];
    return byte === this.delimiter || byte === LF || byte === CR;
  }

  private addCell(from: number, to: number, how: 0 | 1 | 2): void {
    if (this.count === this.from.length) this.grow();
    this.from[this.count] = from;
    this.to[this.count] = to;
    this.quoted[this.count++] = how;
  }

  private grow(): void {
    const wider = <Part extends Int32Array | Uint8Array>(part: Part, made: Part): Part => {
      made.set(part);
      return made;
    };
    const length = this.from.length * 2;
    this.from = wider(this.from, new Int32Array(length));
    this.to = wider(this.to, new Int32Array(length));
    this.quoted = wider(this.quoted, new Uint8Array(length));
  }

  private skipSpaces(bytes: Uint8Array, start: number, limit: number): number {
    let position = start;
    while (position < limit && (bytes[position] === SPACE || (bytes[position] === TAB && this.delimiter !== TAB))) position++;
    return position;
  }

  private endOfLine(bytes: Uint8Array, start: number, limit: number): number {
    let position = start;
    while (position < limit && bytes[position] !== LF && bytes[position] !== CR) position++;
    return position;
  }

  private closeLine(bytes: Uint8Array, position: number, limit: number, isFinal: boolean): boolean {
    this.end = position;
    if (position >= limit) {
      this.lineEnd = 0;
      this.next = limit;
      return isFinal;
    }
    this.lineEnd = this.fault === "unclosed quote" ? 0 : lineEndLength(bytes, position, limit);
    // CR at the end of what is here may be the first of CR LF or CR CR LF.
    if (!isFinal && bytes[position] === CR && position + 2 >= limit && this.lineEnd !== 2) return false;
    this.next = position + Math.abs(this.lineEnd);
    return true;
  }
}

/** CR CR LF is one line end that a program turned twice: its stray CR makes no blank line. */
function lineEndLength(bytes: Uint8Array, position: number, limit: number): number {
  if (bytes[position] === LF) return 1;
  if (position + 1 < limit && bytes[position + 1] === LF) return 2;
  if (position + 2 < limit && bytes[position + 1] === CR && bytes[position + 2] === LF) return 3;
  return -1;
}
