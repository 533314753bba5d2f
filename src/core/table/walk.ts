/** One walk over the bytes of a table under a plan: lines to rows, faults, notes and evidence, in flat memory. */
import { given, type Result, refused } from "../result.ts";
import { Batch, BATCH_ROWS } from "./batch.ts";
import { countHighBytes } from "./encoding.ts";
import { type ColumnEvidence, type SurveyEvidence, see, type Sighting } from "./evidence.ts";
import { FaultList } from "./fault-list.ts";
import { gatherCell } from "./gather.ts";
import type { ColumnMapping } from "./mapping.ts";
import { numberForm, plainDigits, readNumber } from "./number-text.ts";
import { PlainLines } from "./plain-line.ts";
import type { Plan } from "./plan.ts";
import type { FaultType, TableRefusal } from "./question.ts";
import type { RowSink, TableEnvironment, TableSummary } from "./reading.ts";
import { CODE } from "./reading-code.ts";
import { LONGEST_RECORD, RecordSplitter } from "./record.ts";
import { SameTime } from "./same-time.ts";
import type { Structure } from "./structure.ts";
import { RowClock } from "./time-cell.ts";
import { timeText } from "./time-text.ts";
import { firstNotUtf8, sequenceLength, textFromUtf8, utf8FromText } from "./utf8.ts";
import { isTotalsWord } from "./words.ts";

/** Bytes are looked at in blocks of this size, whatever the pieces. */
const BLOCK = 1 << 16;
const KEPT_ROWS = 20;
/** Bytes at the end of the buffer that never hold text: the short way looks at several at once. */
const SPARE = 64;

export interface WalkTools {
  readonly environment: TableEnvironment;
  readonly sourceLength: (utf8: Uint8Array, from: number, to: number) => number;
  readonly markLength: number;
  readonly structure: Structure;
  readonly plan: Plan;
  readonly evidence: SurveyEvidence;
  /** False: only rows are wanted, so the columns are not counted. */
  readonly gathers: boolean;
  /** True: no line takes the short way, so that every cell is counted. */
  readonly isCareful: boolean;
  readonly sink: RowSink | null;
}

interface PendingLine {
  readonly line: number;
  readonly offset: number;
  readonly text: string;
  readonly lines: number;
  readonly type: FaultType;
}

export class Walk {
  readonly faults = new FaultList();
  refusal: TableRefusal | null = null;
  cutOff = false;
  private buffer = new Uint8Array(BLOCK * 4);
  private start = 0;
  private end = 0;
  private line = 1;
  private offset: number;
  private readonly tools: WalkTools;
  private readonly plan: Plan;
  private readonly evidence: SurveyEvidence;
  private readonly splitter: RecordSplitter;
  private readonly inner: RecordSplitter;
  private readonly batch: Batch;
  private readonly sameTime: SameTime;
  private readonly clock: RowClock;
  private readonly plainLines: PlainLines;
  private readonly headerSet: ReadonlySet<string>;
  /** Column that stands at each place of a row, after a heading in another order; null = as at the start. */
  private order: readonly number[] | null = null;
  /** The unit or the columns changed in mid-file: rows are rejected until a heading fits again. */
  private isChanged = false;
  private pending: PendingLine[] = [];
  private lastTime = Number.NEGATIVE_INFINITY;
  private greatestTime = Number.NEGATIVE_INFINITY;
  private series = 0;
  private readonly seriesByText = new Map<string, number>();
  private hasBegun = false;
  private readonly bytesPerLetter: number;
  private isSpoilt = false;

  constructor(tools: WalkTools) {
    this.tools = tools;
    this.plan = tools.plan;
    this.evidence = tools.evidence;
    this.offset = tools.markLength;
    const { dialect } = this.plan.mapping;
    this.inner = new RecordSplitter(dialect);
    this.splitter = dialect.wrapped ? new RecordSplitter({ ...dialect, delimiter: "" }) : this.inner;
    this.batch = new Batch(this.plan.channels.length, this.plan.isLong, this.plan.series >= 0, tools.sink);
    this.sameTime = new SameTime(this.plan.isLong);
    this.clock = new RowClock(this.plan, this.evidence);
    this.plainLines = new PlainLines(this.plan, this.batch);
    this.headerSet = new Set(tools.structure.labels);
    this.bytesPerLetter = this.plan.mapping.dialect.encoding.startsWith("utf-16") ? 2 : 1;
  }

  push(bytes: Uint8Array): void {
    for (let from = 0; from < bytes.length && this.refusal === null; ) {
      const to = Math.min(bytes.length, from + BLOCK);
      this.append(bytes.subarray(from, to));
      from = to;
      if (this.end - this.start >= BLOCK) this.drain(false);
    }
  }

  finish(): Result<TableSummary, TableRefusal> {
    if (this.refusal === null) this.drain(true);
    if (this.refusal !== null) return refused(this.refusal);
    this.settlePending(true);
    this.clock.finish();
    this.begin();
    this.batch.hand();
    this.plainLines.fold(this.evidence);
    this.evidence.lines = this.line - 1;
    const { mapping } = this.plan;
    const isElapsed = mapping.time.form.endsWith("-from-start") && mapping.time.start === null;
    return given(this.faults.summary(this.line - 1, this.cutOff, isElapsed ? { kind: "elapsed" } : { kind: "instants", zone: mapping.time.zone }));
  }

  private append(bytes: Uint8Array): void {
    if (this.end + bytes.length + SPARE > this.buffer.length) {
      const kept = this.end - this.start;
      const target = kept + bytes.length + SPARE > this.buffer.length / 2 ? new Uint8Array(Math.max(this.buffer.length, (kept + bytes.length) * 2)) : this.buffer;
      target.set(this.buffer.subarray(this.start, this.end));
      this.buffer = target;
      this.start = 0;
      this.end = kept;
    }
    this.buffer.set(bytes, this.end);
    this.end += bytes.length;
  }

  private drain(isFinal: boolean): void {
    const limit = this.buffer.subarray(this.start, this.end).lastIndexOf(10) + 1 + this.start;
    while (this.start < this.end && this.refusal === null) {
      if (this.start < limit && this.canGoPlain() && this.goPlain(limit) > 0) continue;
      if (!this.record(isFinal)) break;
    }
  }

  private canGoPlain(): boolean {
    if (this.tools.isCareful || (this.tools.gathers && this.evidence.first.length < KEPT_ROWS)) return false;
    return this.plainLines.isPossible && this.order === null && !this.isChanged && this.pending.length === 0 && !this.isSkippingLine && this.lastTime >= this.greatestTime;
  }

  /** Takes as many plain lines as there are up to a full batch; returns their number. */
  private goPlain(limit: number): number {
    const { plainLines, batch, evidence } = this;
    if (batch.count === BATCH_ROWS) batch.hand();
    const before = this.start;
    const rows = plainLines.read(this.buffer, this.start, limit, this.line, this.greatestTime, this.series);
    if (rows === 0) return 0;
    this.start = plainLines.position;
    // Plain lines are ASCII: in every encoding but UTF-16 a byte stands for a byte.
    this.offset += (this.start - before) * this.bytesPerLetter;
    this.line += rows;
    this.faults.rows += rows;
    evidence.rows += rows;
    evidence.lineEnds.lf += rows - plainLines.carriageReturns;
    evidence.lineEnds.crlf += plainLines.carriageReturns;
    this.lastTime = plainLines.lastTime;
    this.greatestTime = plainLines.lastTime;
    this.lastRowTime = plainLines.lastTime;
    this.clock.passed(plainLines.lastLocal);
    return rows;
  }

  /** Takes the next record on the careful way. False: it is not complete yet. */
  private record(isFinal: boolean): boolean {
    if (this.isSkippingLine) return this.skipRest(isFinal);
    const { splitter, buffer } = this;
    const prefix = this.plan.mapping.dialect.commentPrefix;
    const isComment = prefix !== null && buffer[this.start] === prefix.charCodeAt(0);
    const isBefore = this.line < this.tools.structure.firstRowLine && !this.tools.structure.headerLines.includes(this.line);
    const isComplete = isComment || isBefore ? splitter.line(buffer, this.start, this.end, isFinal) : splitter.split(buffer, this.start, this.end, isFinal);
    if (!isComplete || (splitter.fault === "unclosed quote" && splitter.innerLines > 0)) {
      if (this.end - this.start > LONGEST_RECORD) return this.overlong(isFinal);
      if (!isFinal) return false;
    }
    if (splitter.fault === "unclosed quote" && splitter.innerLines > 0) {
      this.refusal = { type: "quote-never-closed", line: this.line };
      return false;
    }
    this.takeRecord(isComment, isBefore);
    return true;
  }

  /** A record over the longest: a quote that was never closed, or a line that is no line. */
  private overlong(isFinal: boolean): boolean {
    const { splitter, buffer } = this;
    const hadQuote = splitter.fault === "unclosed quote";
    const isComplete = splitter.line(buffer, this.start, this.end, isFinal);
    if (isComplete && splitter.end - this.start <= LONGEST_RECORD) {
      this.reject(hadQuote ? "unclosed quote" : "line too long", null, this.raw());
      this.advance();
      return true;
    }
    this.reject("line too long", null, textFromUtf8(buffer, this.start, this.start + 100));
    return this.skipRest(isFinal);
  }

  /** Drops the rest of a line that is too long to keep. False: it goes on beyond what is here. */
  private skipRest(isFinal: boolean): boolean {
    const { splitter, buffer } = this;
    this.isSkippingLine = !splitter.line(buffer, this.start, this.end, isFinal);
    if (!this.isSkippingLine) {
      this.advance();
      return true;
    }
    // A CR at the very end may be half of a line end.
    const kept = buffer[this.end - 1] === 13 ? this.end - 1 : this.end;
    this.offset += this.tools.sourceLength(buffer, this.start, kept);
    this.start = kept;
    return false;
  }

  private isSkippingLine = false;

  private takeRecord(isComment: boolean, isBefore: boolean): void {
    const { splitter, faults } = this;
    if (this.plan.mapping.dialect.encoding === "utf-8") countHighBytes(this.evidence.highBytes, this.buffer, this.start, splitter.end, this.line);
    if (isComment) {
      faults.skip("comment", this.line);
      faults.note(this.line, this.raw());
    } else if (this.tools.structure.headerLines.includes(this.line) || this.tools.structure.unitLine === this.line) faults.header += 1 + splitter.innerLines;
    else if (isBefore) this.beforeTable();
    else this.tableRecord();
    this.advance();
  }

  private advance(): void {
    const { splitter, evidence } = this;
    this.offset += this.tools.sourceLength(this.buffer, this.start, splitter.next);
    this.line += 1 + splitter.innerLines;
    const { lineEnds } = evidence;
    if (splitter.lineEnd === 1) lineEnds.lf++;
    else if (splitter.lineEnd === 2) lineEnds.crlf++;
    else if (splitter.lineEnd === 3) lineEnds.crcrlf++;
    else if (splitter.lineEnd === -1) lineEnds.cr++;
    this.start = splitter.next;
  }

  private raw(): string {
    return textFromUtf8(this.buffer, this.start, Math.min(this.splitter.end, this.start + 1000));
  }

  private beforeTable(): void {
    const { faults } = this;
    const { structure } = this.tools;
    const text = this.raw().trim();
    if (text === "") faults.skip("blank", this.line);
    else if (structure.sepLine === this.line) faults.skip("sep line", this.line);
    else if (this.isRuler(text)) faults.skip("ruler", this.line);
    else {
      faults.skip(structure.strayLines.some(({ line }) => line === this.line) ? "prose" : "preamble", this.line);
      faults.note(this.line, text);
    }
  }

  private isRuler(text: string): boolean {
    const { delimiter } = this.plan.mapping.dialect;
    return (delimiter === "" ? [text] : text.split(delimiter)).every((part) => isRulerText(part.trim()));
  }

  private tableRecord(): void {
    const { splitter } = this;
    if (splitter.end === this.start || this.raw().trim() === "") {
      this.faults.skip("blank", this.line);
      return;
    }
    if (this.endsBadly() || this.hasBadBytes()) return;
    if (splitter.fault === "text after the closing quote") {
      this.evidence.quoteFaults++;
      this.reject("text after the closing quote", null, this.raw());
      return;
    }
    this.cells(this.splitCells());
  }

  /** Control-Z after the last line is an old mark for the end of a file; a quote open at the end is a file cut off. */
  private endsBadly(): boolean {
    const { splitter, buffer } = this;
    if (splitter.lineEnd === 0 && splitter.end === this.start + 1 && buffer[this.start] === 0x1a) {
      this.faults.skip("end mark", this.line);
      return true;
    }
    if (splitter.fault !== "unclosed quote") return false;
    this.cutOff = true;
    this.reject("cut off", null, this.raw());
    return true;
  }

  private hasBadBytes(): boolean {
    const { buffer, splitter, start } = this;
    const nought = buffer.subarray(start, splitter.end).indexOf(0);
    if (nought >= 0) return this.rejectAt("nul byte", start + nought);
    const bad = firstNotUtf8(buffer, start, splitter.end);
    if (bad >= 0) {
      if (this.evidence.highBytes.firstText === "") this.evidence.highBytes.firstText = this.raw();
      return this.rejectAt("encoding error", bad);
    }
    this.seeLostCharacters();
    return false;
  }

  private rejectAt(type: FaultType, position: number): true {
    const { splitter, buffer, plan } = this;
    let cell = 0;
    while (cell + 1 < splitter.count && (splitter.from[cell + 1] as number) <= position) cell++; // cell + 1 is below the count
    const raw = splitter.count > 0 ? splitter.text(buffer, cell) : this.raw();
    const offset = this.offset + this.tools.sourceLength(buffer, this.start, position);
    this.faults.add(type, this.line, offset, plan.mapping.columns[cell]?.label ?? String(cell + 1), badBytes(buffer, position, splitter.end) ?? raw, true);
    this.countRejected();
    return true;
  }

  private seeLostCharacters(): void {
    const { buffer, splitter } = this;
    for (let position = buffer.subarray(0, splitter.end).indexOf(0xef, this.start); position >= 0 && position + 2 < splitter.end; position = buffer.subarray(0, splitter.end).indexOf(0xef, position + 1)) {
      if (buffer[position + 1] === 0xbf && buffer[position + 2] === 0xbd) {
        see(this.evidence.lostCharacters, this.line, this.raw());
        return;
      }
    }
  }

  private splitCells(): string[] {
    const { splitter, inner, buffer } = this;
    if (splitter === inner || splitter.count !== 1 || splitter.quoted[0] === 0) return splitter.texts(buffer);
    const bytes = utf8FromText(splitter.text(buffer, 0));
    inner.split(bytes, 0, bytes.length, true);
    return inner.texts(bytes);
  }

  private cells(cells: string[]): void {
    const { plan, faults, evidence } = this;
    if (cells.every(isRulerText)) return faults.skip("ruler", this.line);
    if (this.isHeading(cells)) return;
    const isEmpty = cells.every((cell) => cell === "");
    if (isEmpty && (plan.time >= 0 || plan.date >= 0 || plan.clock >= 0)) return faults.skip("blank", this.line, 1 + this.splitter.innerLines);
    if (cells.length !== plan.width && !this.fitsWidth(cells)) return this.keepWorst(cells);
    const ordered = this.order === null ? cells : this.inOrder(cells);
    if (this.isChanged) {
      this.reject("unit changed", null, this.raw());
      return;
    }
    if (this.isTotals(ordered)) return;
    const isEarly = evidence.first.length < KEPT_ROWS;
    if (isEarly && this.tools.gathers) evidence.first.push({ line: this.line, cells: ordered });
    if (!this.row(ordered) && !isEarly) this.keepWorst(ordered);
  }

  /** Cells in the order of the first heading. */
  private inOrder(cells: readonly string[]): string[] {
    const ordered: string[] = Array.from({ length: this.plan.width }, () => "");
    for (const [place, column] of (this.order ?? []).entries()) ordered[column] = cells[place] ?? "";
    return ordered;
  }

  private keepWorst(cells: readonly string[]): void {
    if (this.tools.gathers && this.evidence.worst.length < KEPT_ROWS) this.evidence.worst.push({ line: this.line, cells });
  }

  /** A heading again, after a power cycle: skipped where it fits, in whatever order; else the rows below mean something else. */
  private isHeading(cells: readonly string[]): boolean {
    const { labels, unitTexts } = this.tools.structure;
    if (labels.length === 0) return false;
    const filled = cells.filter((cell) => cell !== "");
    const known = filled.filter((cell) => this.headerSet.has(cell)).length;
    if (known * 2 < filled.length || known === 0) return this.isUnitsAgain(cells, unitTexts);
    if (filled.some((cell) => !this.headerSet.has(cell) && (numberForm(cell)?.unitText === "" || timeText(cell) !== null))) return false;
    // One word may be a label by chance, unless it is the label of the time.
    const { time, date, clock } = this.plan;
    if (known < filled.length && known < 2 && !filled.includes(labels[Math.max(time, date, clock)] ?? "")) return false;
    const order = orderOf(cells, labels);
    this.isChanged = order === null;
    if (order === null) {
      this.settlePending(false);
      this.reject("unit changed", null, this.raw());
      return true;
    }
    this.order = order.every((column, place) => column === place) ? null : order;
    this.faults.skip("header again", this.line);
    return true;
  }

  private isUnitsAgain(cells: readonly string[], unitTexts: readonly string[]): boolean {
    if (unitTexts.length === 0 || cells.length !== unitTexts.length || !cells.every((cell, index) => cell === unitTexts[index])) return false;
    this.faults.skip("header again", this.line);
    return true;
  }

  /** False where the number of cells is a fault, which is then noted. Empty cells without a label at the end do no harm. */
  private fitsWidth(cells: string[]): boolean {
    const { plan } = this;
    if (cells.length > plan.width) {
      const extra = cells.slice(plan.width);
      if (extra.every((cell) => cell === "")) {
        cells.length = plan.width;
        return true;
      }
      this.settlePending(false);
      this.reject("extra cell", null, extra.find((cell) => cell !== "") ?? "");
      return false;
    }
    if (cells.length >= plan.least) return true;
    const [only = ""] = cells;
    if (cells.length === 1 && plan.width > 1 && !/^\d/.test(only) && numberForm(only) === null && !this.splitter.quoted[0]) {
      this.pending.push({ line: this.line, offset: this.offset, text: only, lines: 1 + this.splitter.innerLines, type: "neither comment nor table" });
      return false;
    }
    this.settlePending(false);
    if (this.splitter.lineEnd === 0 && this.evidence.rows > 0) this.cutOff = true;
    this.reject("missing cell", null, this.raw());
    return false;
  }

  private isTotals(cells: readonly string[]): boolean {
    const { plan } = this;
    const first = cells[plan.time >= 0 ? plan.time : plan.date] ?? "";
    const leading = cells.find((cell) => cell !== "") ?? "";
    if ((plan.time < 0 && plan.date < 0) || !isTotalsWord(leading) || timeText(first) !== null || numberForm(first) !== null) return false;
    this.pending.push({ line: this.line, offset: this.offset, text: this.raw(), lines: 1 + this.splitter.innerLines, type: "not a time" });
    return true;
  }

  /** Lines that looked like a footer: at the end they are one; before more rows they are faults. */
  private settlePending(isEnd: boolean): void {
    for (const { line, offset, text, lines, type } of this.pending) {
      if (isEnd) {
        this.faults.skip("footer", line, lines);
        this.faults.note(line, text);
        this.faults.add("footer", line, offset, null, text, false);
      } else {
        this.faults.add(type, line, offset, null, text, true);
        this.faults.rejected += lines;
      }
    }
    this.pending = [];
  }

  /** One row of the full width. False where it was rejected. */
  private row(cells: readonly string[]): boolean {
    const { plan, batch } = this;
    this.settlePending(false);
    if (this.tools.gathers) this.gather(cells);
    const hasTime = plan.time >= 0 || plan.date >= 0 || plan.clock >= 0;
    if (!hasTime) return this.looseRow(cells);
    const time = this.clock.read(plan.time < 0 ? "" : (cells[plan.time] ?? ""), plan.date < 0 ? "" : (cells[plan.date] ?? ""), plan.clock < 0 ? "" : (cells[plan.clock] ?? ""), this.line);
    if (typeof time === "string") return this.rejectCell(time, plan.time >= 0 ? plan.time : plan.date >= 0 ? plan.date : plan.clock, cells);
    if (Number.isNaN(time)) return this.rejectCell("impossible time", plan.time >= 0 ? plan.time : plan.date, cells);
    const row = batch.next();
    if (!this.readings(cells, row)) return this.forgetRow(row);
    batch.now.times[row] = time;
    batch.now.lines[row] = this.line;
    this.takeSeries(cells);
    batch.now.series[row] = this.series;
    if (this.tools.gathers) this.countFalls(cells, time);
    return this.place(row, time, cells);
  }

  /** The short way counts on codes of nought where no row stands yet. */
  private forgetRow(row: number): false {
    for (const codes of this.batch.now.codes) codes[row] = CODE.valid;
    return false;
  }

  /** A table without a time: only its numbers are looked at. */
  private looseRow(cells: readonly string[]): boolean {
    for (const index of this.plan.looseNumbers) {
      const cell = cells[index] ?? "";
      const column = this.plan.mapping.columns[index] as ColumnMapping; // an index of the columns
      if (cell === "" || this.plan.words.has(cell)) continue;
      const read = readNumber(cell, column.decimalMark, column.groupMark);
      if (typeof read === "string") return this.rejectCell(read, index, cells);
    }
    this.countRow();
    return true;
  }

  private countRow(): void {
    this.faults.rows++;
    this.faults.continued += this.splitter.innerLines;
    this.evidence.rows++;
  }

  private place(row: number, time: number, cells: readonly string[]): boolean {
    const { batch, plan } = this;
    if (time <= this.greatestTime) {
      // Wall-clock times without a zone may repeat where clocks change, and without readings there is nothing to compare.
      const twin = this.clock.isOpen || plan.channels.length === 0 ? null : this.sameTime.find(batch, row);
      if (twin?.isSame === true) {
        this.faults.skip("exact duplicate", this.line, 1 + this.splitter.innerLines);
        this.faults.add("duplicate row", this.line, this.offset, null, this.raw(), false);
        this.lastTime = time;
        this.forgetRow(row);
        return true;
      }
      if (twin !== null) {
        see(this.evidence.conflicts as Sighting, this.line, this.raw());
        this.faults.add("conflicting readings", this.line, this.offset, null, this.raw(), false);
      } else if (time < this.lastTime) this.faults.add("time runs backwards", this.line, this.offset, plan.mapping.columns[plan.time >= 0 ? plan.time : plan.date]?.label ?? null, this.timeOf(cells), false);
    }
    this.begin();
    batch.count++;
    if (this.order === null) this.plainLines.learn(cells);
    this.lastTime = time;
    if (time > this.greatestTime) this.greatestTime = time;
    this.countRow();
    return true;
  }

  private timeOf(cells: readonly string[]): string {
    const { time, date, clock } = this.plan;
    return [time, date, clock].filter((index) => index >= 0).map((index) => cells[index] ?? "").join(" ").trim();
  }

  private takeSeries(cells: readonly string[]): void {
    const { plan } = this;
    if (plan.series < 0) return;
    const text = cells[plan.series] ?? "";
    const known = this.seriesByText.get(text);
    const series = known ?? this.seriesByText.size;
    if (known === undefined) {
      this.seriesByText.set(text, series);
      this.begin();
      this.tools.sink?.series(series, plan.mapping.columns[plan.series]?.label ?? "", text);
    }
    if (series === this.series && this.hasRows) return;
    this.series = series;
    this.hasRows = true;
    this.lastTime = Number.NEGATIVE_INFINITY;
    this.greatestTime = known === undefined ? Number.NEGATIVE_INFINITY : Number.POSITIVE_INFINITY;
  }

  private hasRows = false;
  private lastRowTime = Number.NEGATIVE_INFINITY;

  private gather(cells: readonly string[]): void {
    const { columns } = this.evidence;
    const { vocabulary } = this.tools.environment;
    for (const [index, column] of columns.entries()) {
      this.changesBefore[index] = column.changes;
      const cell = cells[index] ?? "";
      gatherCell(column, cell, this.line, vocabulary);
      // Texts that may name the channels of a long table.
      if (cell !== "" && column.words.size > 0 && column.words.size <= 32 && column.words.has(cell)) this.seeSensor(cell, "");
    }
  }

  private readonly changesBefore: number[] = [];

  private countFalls(cells: readonly string[], time: number): void {
    const before = this.lastRowTime;
    this.lastRowTime = time;
    if (time > before || before === Number.NEGATIVE_INFINITY || cells.length === 0) return;
    this.evidence.falls++;
    for (const [index, column] of this.evidence.columns.entries()) if (column.changes > (this.changesBefore[index] ?? 0)) column.changesAtFalls++;
  }

  private readings(cells: readonly string[], row: number): boolean {
    const { plan } = this;
    const isBad = plan.statuses.some((index) => plan.badStatus.has(cells[index] ?? ""));
    if (plan.isLong) return this.longReading(cells, row, isBad);
    for (let index = 0; index < plan.width; index++) {
      const channel = plan.channelOf[index] as number; // index is below the width
      if (channel < 0) continue;
      const fault = this.reading(cells[index] ?? "", channel, row, isBad);
      if (fault !== null) return this.rejectCell(fault, index, cells);
    }
    return true;
  }

  private longReading(cells: readonly string[], row: number, isBad: boolean): boolean {
    const { plan, batch } = this;
    const sensor = cells[plan.sensor] ?? "";
    const unitText = plan.unit < 0 ? "" : (cells[plan.unit] ?? "");
    this.seeSensor(sensor, unitText);
    const channel = plan.sensors.get(sensor);
    if (channel === undefined) {
      if (this.tools.gathers) this.isSpoilt = true;
      else this.refusal = { type: "mapping-does-not-fit", fingerprint: sensor, expected: [...plan.sensors.keys()].join(", ") };
      return this.tools.gathers ? this.unknownSensor(row) : false;
    }
    const unit = unitText === "" ? null : this.tools.environment.vocabulary.unitFromText(unitText);
    const planned = plan.channels[channel]?.column.unit ?? null;
    if (unit !== null && unit !== "ambiguous per cent" && planned !== null && unit !== planned) return this.rejectCell("unit changed", plan.unit, cells);
    for (const [index, present] of batch.now.present.entries()) present[row] = index === channel ? 1 : 0;
    const fault = this.reading(cells[plan.value] ?? "", channel, row, isBad);
    return fault === null || this.rejectCell(fault, plan.value, cells);
  }

  private unknownSensor(row: number): boolean {
    for (const present of this.batch.now.present) present[row] = 0;
    return true;
  }

  private seeSensor(sensor: string, unitText: string): void {
    const { sensors } = this.evidence;
    if (!this.tools.gathers) return;
    const known = sensors.get(sensor);
    const { vocabulary } = this.tools.environment;
    if (known === undefined) {
      if (sensors.size < 256) sensors.set(sensor, { gas: vocabulary.gasInLabel(sensor), unit: unitText === "" ? null : vocabulary.unitFromText(unitText), unitText, line: this.line });
    } else if (known.unitText === "" && unitText !== "") sensors.set(sensor, { ...known, unit: vocabulary.unitFromText(unitText), unitText });
  }

  /** Writes one reading; what is wrong with it, or null. */
  private reading(cell: string, channel: number, row: number, isBad: boolean): FaultType | null {
    const { plan, batch } = this;
    const planned = plan.channels[channel] as Plan["channels"][number]; // a channel of the plan
    const put = (mantissa: number, decimals: number, code: number): null => {
      (batch.now.mantissas[channel] as Float64Array)[row] = mantissa; // one array a channel
      (batch.now.decimals[channel] as Uint8Array)[row] = decimals;
      (batch.now.codes[channel] as Uint8Array)[row] = isBad ? CODE.fault : code;
      return null;
    };
    if (cell === "") return put(0, 0, CODE.none);
    const code = plan.words.get(cell) ?? plan.words.get(plainDigits(cell));
    if (code === CODE.overRange) return planned.rangeTop === null ? put(0, 0, CODE.overRangeUnbounded) : put(planned.rangeTop.mantissa, planned.rangeTop.decimals, code);
    // Under range without a bound says nothing of how high it was.
    if (code !== undefined) return put(0, 0, code === CODE.underRange ? CODE.none : code);
    const read = readNumber(cell, planned.column.decimalMark, planned.column.groupMark);
    if (typeof read === "string") return read;
    if (read.unitText !== "") {
      const unit = this.tools.environment.vocabulary.unitFromText(read.unitText);
      if (unit !== planned.column.unit && !(unit === "ambiguous per cent" && planned.column.unit !== null)) return unit === null ? "not a number" : "unit changed";
    }
    if (read.mantissa > planned.possible * 10 ** read.decimals) return "impossible value";
    return put(read.mantissa, read.decimals, read.bound === null ? CODE.valid : read.bound === ">" ? CODE.overRange : CODE.underRange);
  }

  private rejectCell(type: FaultType, index: number, cells: readonly string[]): false {
    this.faults.add(type, this.line, this.offset, this.plan.mapping.columns[index]?.label ?? null, cells[index] ?? "", true);
    this.countRejected();
    return false;
  }

  private reject(type: FaultType, column: string | null, raw: string): void {
    this.faults.add(type, this.line, this.offset, column, raw, true);
    this.countRejected();
  }

  private countRejected(): void {
    this.faults.rejected += 1 + this.splitter.innerLines;
  }

  private begin(): void {
    if (this.hasBegun) return;
    this.hasBegun = true;
    this.tools.sink?.begin(this.plan.channels.map(({ column }) => column));
  }

  /** True where rows could not all be handed over under this plan. */
  get spoilt(): boolean {
    return this.isSpoilt;
  }
}

export const isRulerText = (text: string): boolean => /^(?:-{2,}|={2,}|_{3,}|\+?(?:-+\+)+)$/.test(text);

function badBytes(buffer: Uint8Array, position: number, end: number): string | null {
  if (buffer[position] === 0) return null;
  const hex: string[] = [];
  for (let index = position; index < end && hex.length < 8 && (buffer[index] as number) >= 0x80 && sequenceLength(buffer, index, end) === 0; index++) hex.push((buffer[index] as number).toString(16).padStart(2, "0")); // index is below the end
  return hex.join(" ");
}

function orderOf(cells: readonly string[], labels: readonly string[]): readonly number[] | null {
  const used = new Set<number>();
  const order: number[] = [];
  for (const cell of cells) {
    const column = labels.findIndex((label, index) => label === cell && !used.has(index));
    if (column < 0) return null;
    used.add(column);
    order.push(column);
  }
  return used.size >= labels.filter((label) => label !== "").length ? order : null;
}

export type { ColumnEvidence };
