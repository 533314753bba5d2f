/**
 * Lines whose cells stand in quotes that hide nothing, copied without the quotes: the short way then reads them like any
 * other. A quote inside a cell, a mark or a line end between quotes, text beside the quotes: such a line ends the copy.
 */
import type { Dialect } from "./mapping.ts";

const ROOM = 1 << 16;
const LF = 10;
const CR = 13;
const BACKSLASH = 92;
const MOST_LINES = 4096;
/** So many lines are copied at first, and again after the short way stopped early: what is copied in vain stays small. */
const FIRST_LINES = 8;

export class UnquotedLines {
  /** The copy, with bytes to spare behind it, and its end. */
  readonly bytes: Uint8Array;
  end = 0;
  lines = 0;
  private readonly ends = new Int32Array(MOST_LINES);
  private readonly quote: number;
  private readonly delimiter: number;
  private mostLines = FIRST_LINES;

  constructor(dialect: Dialect, spare: number) {
    this.bytes = new Uint8Array(ROOM + spare);
    this.quote = dialect.quote === "" ? -1 : dialect.quote.charCodeAt(0);
    this.delimiter = dialect.delimiter === "" ? -1 : dialect.delimiter.charCodeAt(0);
  }

  /** Copies lines from `start` on, none of which ends after `limit`. False: the first is not such a line, or holds no quote. */
  copy(bytes: Uint8Array, start: number, limit: number): boolean {
    this.end = 0;
    this.lines = 0;
    if (this.quote < 0) return false;
    for (let next = start; next < limit && this.lines < this.mostLines; ) {
      const end = this.copyLine(bytes, next, Math.min(limit, next + ROOM - this.end));
      if (end < 0) break;
      this.ends[this.lines++] = end;
      if (this.lines === 1 && this.end === end - start) return false;
      next = end;
    }
    return this.lines > 0;
  }

  /** Where the line after so many of them starts in the bytes that were copied; -1 where none was taken. */
  taken(lines: number): number {
    this.mostLines = lines < this.lines ? FIRST_LINES : Math.min(MOST_LINES, this.mostLines * 2);
    return lines === 0 ? -1 : (this.ends[lines - 1] as number); // no more lines than were copied
  }

  /** Start of the line after the one that was copied; -1 where it is not such a line, or does not end before `limit`. */
  private copyLine(bytes: Uint8Array, start: number, limit: number): number {
    const { quote, delimiter, bytes: copy } = this;
    let to = this.end;
    let position = start;
    while (position < limit) {
      let byte = bytes[position] as number; // below the limit, as every position here
      const isQuoted = byte === quote;
      if (isQuoted) position++;
      for (; position < limit; position++) {
        byte = bytes[position] as number;
        if (byte === quote || byte === delimiter || byte === LF || byte === CR || byte === BACKSLASH) break;
        copy[to++] = byte;
      }
      if (isQuoted) {
        if (byte !== quote || position + 1 >= limit) return -1;
        byte = bytes[++position] as number;
      }
      if (byte === CR && position + 1 < limit && bytes[position + 1] === LF) {
        copy[to++] = byte;
        byte = bytes[++position] as number;
      }
      if (position >= limit || (byte !== delimiter && byte !== LF)) return -1;
      copy[to++] = byte;
      position++;
      if (byte !== LF) continue;
      this.end = to;
      return position;
    }
    return -1;
  }
}
