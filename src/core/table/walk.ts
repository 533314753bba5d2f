/** One walk over the bytes of a table under a plan: bytes to records, in flat memory. */
import { given, type Result, refused } from "../result.ts";
import { BATCH_ROWS, Batch } from "./batch.ts";
import { countHighBytes } from "./encoding.ts";
import { type SurveyEvidence, see } from "./evidence.ts";
import { FaultList } from "./fault-list.ts";
import { foldPlain } from "./plain-evidence.ts";
import { PlainLines } from "./plain-line.ts";
import type { Plan } from "./plan.ts";
import type { FaultType, TableRefusal } from "./question.ts";
import type { TableSummary } from "./reading.ts";
import { LONGEST_RECORD, RecordSplitter } from "./record.ts";
import { TableRows } from "./table-rows.ts";
import { UnquotedLines } from "./unquoted-lines.ts";
import { firstNotUtf8, sequenceLength, textFromUtf8, utf8FromText } from "./utf8.ts";
import { isRulerText, KEPT_ROWS, RecordPlace, type WalkTools } from "./walk-tools.ts";

/** Bytes are looked at in blocks of this size, whatever the pieces. */
const BLOCK = 1 << 16;
/** Bytes at the end of the buffer that never hold text: the short way looks at several at once. */
const SPARE = 64;

export class Walk {
  readonly faults = new FaultList();
  refusal: TableRefusal | null = null;
  private buffer = new Uint8Array(BLOCK * 4);
  private start = 0;
  private end = 0;
  private readonly tools: WalkTools;
  private readonly plan: Plan;
  private readonly evidence: SurveyEvidence;
  private readonly splitter: RecordSplitter;
  private readonly inner: RecordSplitter;
  private readonly at: RecordPlace;
  private readonly batch: Batch;
  private readonly plainLines: PlainLines;
  private readonly unquoted: UnquotedLines;
  private readonly rows: TableRows;
  private readonly bytesPerLetter: number;
  private isSkippingLine = false;
  constructor(tools: WalkTools) {
    this.tools = tools;
    this.plan = tools.plan;
    this.evidence = tools.evidence;
    const { dialect } = this.plan.mapping;
    this.inner = new RecordSplitter(dialect);
    this.splitter = dialect.wrapped ? new RecordSplitter({ ...dialect, delimiter: "" }) : this.inner;
    this.at = new RecordPlace(tools.markLength, this.splitter, () => this.raw());
    this.batch = new Batch(this.plan.channels.length, this.plan.isLong, this.plan.series >= 0, tools.sink);
    this.plainLines = new PlainLines(this.plan, this.batch);
    this.unquoted = new UnquotedLines(dialect, SPARE);
    this.rows = new TableRows(tools, this.faults, this.batch, this.plainLines, this.at);
    this.bytesPerLetter = dialect.encoding.startsWith("utf-16") ? 2 : 1;
  }

  /** True where rows could not all be handed over under this plan. */
  get spoilt(): boolean {
    return this.rows.readings.isSpoilt;
  }

  /** Why the mapping cannot be that of this file, once its rows were read; null where it can. */
  get misreads(): TableRefusal | null {
    const { rows, blanks } = this.plainLines.seen;
    const { channelOf } = this.plan;
    return this.rows.readings.misreads((channel) => rows > (blanks[channelOf.indexOf(channel)] ?? rows));
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
    this.rows.finish();
    this.batch.hand();
    foldPlain(this.plainLines.seen, this.evidence);
    this.evidence.lines = this.at.line - 1;
    const { mapping } = this.plan;
    const isElapsed = mapping.time.form.endsWith("-from-start") && mapping.time.start === null;
    return given(
      this.faults.summary(
        this.at.line - 1,
        this.rows.cutOff,
        isElapsed ? { kind: "elapsed" } : { kind: "instants", zone: mapping.time.zone },
      ),
    );
  }

  private append(bytes: Uint8Array): void {
    if (this.end + bytes.length + SPARE > this.buffer.length) {
      const kept = this.end - this.start;
      const target =
        kept + bytes.length + SPARE > this.buffer.length / 2
          ? new Uint8Array(Math.max(this.buffer.length, (kept + bytes.length) * 2))
          : this.buffer;
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
    return this.plainLines.isPossible && !this.isSkippingLine && this.rows.arePlain;
  }

  /** Takes as many plain lines as there are up to a full batch, out of their quotes where they stand in such; returns their number. */
  private goPlain(limit: number): number {
    const { plainLines, batch, unquoted } = this;
    if (batch.count === BATCH_ROWS) batch.hand();
    const { greatestTime, series } = this.rows;
    const bare = plainLines.read(this.buffer, this.start, limit, this.at.line, greatestTime, series);
    if (bare > 0) return this.passed(bare, plainLines.position);
    if (!unquoted.copy(this.buffer, this.start, limit)) return 0;
    const rows = plainLines.read(unquoted.bytes, 0, unquoted.end, this.at.line, greatestTime, series);
    const next = unquoted.taken(rows);
    return rows === 0 ? 0 : this.passed(rows, next);
  }

  /** Counts what the short way took; returns the number of rows. */
  private passed(rows: number, next: number): number {
    const { plainLines, evidence } = this;
    // Plain lines are ASCII: in every encoding but UTF-16 a byte stands for a byte.
    this.at.offset += (next - this.start) * this.bytesPerLetter;
    this.start = next;
    this.at.line += rows;
    this.faults.rows += rows;
    evidence.rows += rows;
    evidence.lineEnds.lf += rows - plainLines.carriageReturns;
    evidence.lineEnds.crlf += plainLines.carriageReturns;
    this.rows.passed(plainLines.lastTime, plainLines.lastLocal, rows);
    return rows;
  }

  /** Takes the next record on the careful way. False: it is not complete yet. */
  private record(isFinal: boolean): boolean {
    if (this.isSkippingLine) return this.skipRest(isFinal);
    const { splitter, buffer } = this;
    const prefix = this.plan.mapping.dialect.commentPrefix;
    const isComment = prefix !== null && buffer[this.start] === prefix.charCodeAt(0);
    const isBefore = this.at.line < this.tools.structure.firstRowLine && !this.tools.structure.headerLines.includes(this.at.line);
    const isComplete =
      isComment || isBefore ? splitter.line(buffer, this.start, this.end, isFinal) : splitter.split(buffer, this.start, this.end, isFinal);
    if (!isComplete || (splitter.fault === "unclosed quote" && splitter.innerLines > 0)) {
      if (this.end - this.start > LONGEST_RECORD) return this.overlong(isFinal);
      if (!isFinal) return false;
    }
    if (splitter.fault === "unclosed quote" && splitter.innerLines > 0) {
      this.refusal = { type: "quote-never-closed", line: this.at.line };
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
      this.rows.reject(hadQuote ? "unclosed quote" : "line too long", null, this.raw());
      this.advance();
      return true;
    }
    this.rows.reject("line too long", null, textFromUtf8(buffer, this.start, this.start + 100));
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
    this.at.offset += this.tools.sourceLength(buffer, this.start, kept);
    this.start = kept;
    return false;
  }

  private takeRecord(isComment: boolean, isBefore: boolean): void {
    const { splitter, faults } = this;
    if (this.plan.mapping.dialect.encoding === "utf-8")
      countHighBytes(this.evidence.highBytes, this.buffer, this.start, splitter.end, this.at.line);
    if (isComment) {
      faults.skip("comment", this.at.line);
      faults.note(this.at.line, this.raw());
    } else if (this.tools.structure.headerLines.includes(this.at.line) || this.tools.structure.unitLine === this.at.line)
      faults.header += 1 + splitter.innerLines;
    else if (isBefore) this.beforeTable();
    else this.tableRecord();
    this.advance();
  }

  private advance(): void {
    const { splitter, evidence } = this;
    this.at.offset += this.tools.sourceLength(this.buffer, this.start, splitter.next);
    this.at.line += 1 + splitter.innerLines;
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
    if (text === "") faults.skip("blank", this.at.line);
    else if (structure.sepLine === this.at.line) faults.skip("sep line", this.at.line);
    else if (this.isRuler(text)) faults.skip("ruler", this.at.line);
    else {
      faults.skip(structure.strayLines.some(({ line }) => line === this.at.line) ? "prose" : "preamble", this.at.line);
      faults.note(this.at.line, text);
    }
  }

  private isRuler(text: string): boolean {
    const { delimiter } = this.plan.mapping.dialect;
    return (delimiter === "" ? [text] : text.split(delimiter)).every((part) => isRulerText(part.trim()));
  }

  private tableRecord(): void {
    const { splitter } = this;
    if (this.isBlank()) {
      this.faults.skip("blank", this.at.line);
      return;
    }
    if (this.endsBadly() || this.hasBadBytes()) return;
    if (splitter.fault === "text after the closing quote") {
      this.evidence.quoteFaults++;
      this.rows.reject("text after the closing quote", null, this.raw());
      return;
    }
    this.rows.take(this.splitCells());
    this.refusal ??= this.rows.readings.refusal;
  }

  private isBlank(): boolean {
    for (let position = this.start; position < this.splitter.end; position++) {
      const byte = this.buffer[position];
      if (byte !== 32 && byte !== 9) return false;
    }
    return true;
  }

  /** Control-Z after the last line is an old mark for the end of a file; a quote open at the end is a file cut off. */
  private endsBadly(): boolean {
    const { splitter, buffer } = this;
    if (splitter.lineEnd === 0 && splitter.end === this.start + 1 && buffer[this.start] === 0x1a) {
      this.faults.skip("end mark", this.at.line);
      return true;
    }
    if (splitter.fault !== "unclosed quote") return false;
    this.rows.cutOff = true;
    this.rows.reject("cut off", null, this.raw());
    return true;
  }

  private hasBadBytes(): boolean {
    const { buffer, splitter, start } = this;
    if (isPlainAscii(buffer, start, splitter.end)) return false;
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
    const offset = this.at.offset + this.tools.sourceLength(buffer, this.start, position);
    this.faults.add(
      type,
      this.at.line,
      offset,
      plan.mapping.columns[cell]?.label ?? String(cell + 1),
      badBytes(buffer, position, splitter.end) ?? raw,
      true,
    );
    this.rows.countRejected();
    return true;
  }

  private seeLostCharacters(): void {
    const { buffer, splitter } = this;
    for (
      let position = buffer.subarray(0, splitter.end).indexOf(0xef, this.start);
      position >= 0 && position + 2 < splitter.end;
      position = buffer.subarray(0, splitter.end).indexOf(0xef, position + 1)
    ) {
      if (buffer[position + 1] === 0xbf && buffer[position + 2] === 0xbd) {
        see(this.evidence.lostCharacters, this.at.line, this.raw());
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
}

/** Nothing but ASCII without noughts: most lines of most files. */
function isPlainAscii(buffer: Uint8Array, from: number, to: number): boolean {
  for (let position = from; position < to; position++) if (((buffer[position] as number) - 1) >>> 0 >= 127) return false; // below the end
  return true;
}

function badBytes(buffer: Uint8Array, position: number, end: number): string | null {
  if (buffer[position] === 0) return null;
  const hex: string[] = [];
  for (
    let index = position;
    index < end && hex.length < 8 && (buffer[index] as number) >= 0x80 && sequenceLength(buffer, index, end) === 0;
    index++
  )
    hex.push((buffer[index] as number).toString(16).padStart(2, "0")); // index is below the end
  return hex.join(" ");
}
