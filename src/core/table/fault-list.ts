/** Faults as they come, a thousand kept, the rest counted; and lines by what became of them. */
import type { FaultType, LineFault } from "./question.ts";
import type { LineCount, TableSummary } from "./reading.ts";

const KEPT_FAULTS = 1000;
const KEPT_LINES = 1000;
const KEPT_NOTES = 1000;
const LONGEST_RAW = 200;

export class FaultList {
  private readonly kept: LineFault[] = [];
  private readonly more: Record<string, number> = {};
  private readonly skipped: Record<string, number[]> = {};
  private readonly notes: { line: number; text: string }[] = [];
  private skippedCount = 0;
  header = 0;
  rows = 0;
  continued = 0;
  rejected = 0;

  add(type: FaultType, line: number, byteOffset: number, column: string | null, raw: string, rejected: boolean): void {
    if (this.kept.length < KEPT_FAULTS)
      this.kept.push({ type, line, byteOffset, column, raw: raw.length > LONGEST_RAW ? `${raw.slice(0, LONGEST_RAW)}…` : raw, rejected });
    else this.more[type] = (this.more[type] ?? 0) + 1;
  }

  skip(why: string, line: number, lines = 1): void {
    const list = (this.skipped[why] ??= []);
    for (let index = 0; index < lines && list.length < KEPT_LINES; index++) list.push(line + index);
    this.skippedCount += lines;
  }

  note(line: number, text: string): void {
    if (this.notes.length < KEPT_NOTES)
      this.notes.push({ line, text: text.length > LONGEST_RAW ? `${text.slice(0, LONGEST_RAW)}…` : text });
  }

  summary(lines: number, cutOff: boolean, clock: TableSummary["clock"]): TableSummary {
    const { header, rows, continued, rejected, skipped, skippedCount } = this;
    const count: LineCount = { lines, header, rows, continued, rejected, skipped, skippedCount };
    const inOrder = <Placed extends { readonly line: number }>(placed: readonly Placed[]): Placed[] =>
      [...placed].sort((a, b) => a.line - b.line);
    return { count, faults: inOrder(this.kept), moreFaults: this.more, notes: inOrder(this.notes), cutOff, clock };
  }
}
