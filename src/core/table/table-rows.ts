/** What a record of the table is: a row, a heading again, a footer, a fault; and where it stands among the others in time. */
import type { Batch } from "./batch.ts";
import { orderOf } from "./column-order.ts";
import { type ColumnEvidence, type SurveyEvidence, see } from "./evidence.ts";
import type { FaultList } from "./fault-list.ts";
import { FooterLines } from "./footer-lines.ts";
import { gatherCell } from "./gather.ts";
import { LabelWatch, seriesText } from "./label-watch.ts";
import type { ColumnMapping } from "./mapping.ts";
import { numberForm, readNumber } from "./number-text.ts";
import type { PlainLines } from "./plain-line.ts";
import type { Plan } from "./plan.ts";
import type { FaultType } from "./question.ts";
import { ReadingCells } from "./reading-cells.ts";
import { CODE } from "./reading-code.ts";
import { SameTime } from "./same-time.ts";
import { SilentRows } from "./silent-row.ts";
import { RowClock } from "./time-cell.ts";
import { timeText } from "./time-text.ts";
import { isRulerText, KEPT_ROWS, type RecordPlace, type WalkTools } from "./walk-tools.ts";
import { isTotalsWord } from "./words.ts";

export class TableRows {
  readonly readings: ReadingCells;
  /** The file ends inside a row. */
  cutOff = false;
  greatestTime = Number.NEGATIVE_INFINITY;
  series = 0;
  private readonly tools: WalkTools;
  private readonly plan: Plan;
  private readonly evidence: SurveyEvidence;
  private readonly faults: FaultList;
  private readonly batch: Batch;
  private readonly plainLines: PlainLines;
  private readonly at: RecordPlace;
  private readonly sameTime: SameTime;
  private readonly clock: RowClock;
  private readonly labels: LabelWatch;
  private readonly silentRows: SilentRows;
  private readonly headerSet: ReadonlySet<string>;
  /** Column that stands at each place of a row, after a heading in another order; null = as at the start. */
  private order: readonly number[] | null = null;
  /** The unit or the columns changed in mid-file: rows are rejected until a heading fits again. */
  private isChanged = false;
  private readonly footer: FooterLines;
  private lastTime = Number.NEGATIVE_INFINITY;
  private lastRowTime = Number.NEGATIVE_INFINITY;
  private readonly seriesByText = new Map<string, number>();
  private seriesText = "";
  private hasSeries = false;
  private hasBegun = false;
  private readonly changesBefore: number[] = [];

  constructor(tools: WalkTools, faults: FaultList, batch: Batch, plainLines: PlainLines, at: RecordPlace) {
    this.tools = tools;
    this.plan = tools.plan;
    this.evidence = tools.evidence;
    this.faults = faults;
    this.batch = batch;
    this.plainLines = plainLines;
    this.at = at;
    this.readings = new ReadingCells(tools, batch, at);
    this.sameTime = new SameTime(this.plan.isLong);
    this.clock = new RowClock(this.plan, this.evidence);
    this.labels = new LabelWatch(tools, batch, plainLines);
    this.footer = new FooterLines(faults, at);
    this.silentRows = new SilentRows(this.plan, batch, this.sameTime);
    this.headerSet = new Set(tools.structure.labels);
  }

  /** True where the next line may take the short way: columns in their order, nothing pending, times rising. */
  get arePlain(): boolean {
    return this.order === null && !this.isChanged && this.footer.isEmpty && this.lastTime >= this.greatestTime;
  }

  /** Rows that were read on the short way. */
  passed(time: number, local: number, rows: number): void {
    this.lastTime = time;
    this.greatestTime = time;
    this.lastRowTime = time;
    this.clock.passed(local, rows, this.seriesText);
    this.labels.passed(this.series, rows);
  }

  finish(): void {
    this.footer.settle(true);
    this.clock.finish();
    this.begin();
  }

  /** The cells of one record of the table. */
  take(cells: string[]): void {
    const { plan, faults, evidence } = this;
    if (cells.every(isRulerText)) return faults.skip("ruler", this.at.line);
    if (this.isHeading(cells)) return;
    const isEmpty = cells.every((cell) => cell === "");
    if (isEmpty && (plan.time >= 0 || plan.date >= 0 || plan.clock >= 0)) return faults.skip("blank", this.at.line, 1 + this.at.innerLines);
    if (cells.length !== plan.width && !this.fitsWidth(cells)) {
      this.endHold(cells);
      return this.keepWorst(cells);
    }
    const ordered = this.order === null ? cells : this.inOrder(cells);
    if (this.isChanged) {
      this.reject("unit changed", null, this.at.raw());
      return this.endHold(ordered);
    }
    if (this.isTotals(ordered)) return;
    const isEarly = evidence.first.length < KEPT_ROWS;
    if (isEarly && this.tools.gathers) evidence.first.push({ line: this.at.line, cells: ordered });
    if (!this.row(ordered) && !isEarly) this.keepWorst(ordered);
  }

  /** Cells in the order of the first heading. */
  private inOrder(cells: readonly string[]): string[] {
    const ordered: string[] = Array.from({ length: this.plan.width }, () => "");
    for (const [place, column] of (this.order ?? []).entries()) ordered[column] = cells[place] ?? "";
    return ordered;
  }

  private keepWorst(cells: readonly string[]): void {
    if (this.tools.gathers && this.evidence.worst.length < KEPT_ROWS) this.evidence.worst.push({ line: this.at.line, cells });
  }

  /** A heading again, after a power cycle: skipped where it fits, in whatever order; else the rows below mean something else. */
  private isHeading(cells: readonly string[]): boolean {
    const { labels, unitTexts } = this.tools.structure;
    if (labels.length === 0) return false;
    let known = 0;
    for (const cell of cells) if (cell !== "" && this.headerSet.has(cell)) known++;
    if (known === 0) return this.isUnitsAgain(cells, unitTexts);
    const filled = cells.filter((cell) => cell !== "");
    if (known * 2 < filled.length) return this.isUnitsAgain(cells, unitTexts);
    if (filled.some((cell) => !this.headerSet.has(cell) && (numberForm(cell)?.unitText === "" || timeText(cell) !== null))) return false;
    // One word may be a label by chance, unless it is the label of the time.
    const { time, date, clock } = this.plan;
    if (known < filled.length && known < 2 && !filled.includes(labels[Math.max(time, date, clock)] ?? "")) return false;
    const order = orderOf(cells, labels);
    this.isChanged = order === null;
    if (order === null) {
      this.footer.settle(false);
      this.reject("unit changed", null, this.at.raw());
      return true;
    }
    this.order = order.every((column, place) => column === place) ? null : order;
    this.faults.skip("header again", this.at.line);
    return true;
  }

  private isUnitsAgain(cells: readonly string[], unitTexts: readonly string[]): boolean {
    if (unitTexts.length === 0 || cells.length !== unitTexts.length || !cells.every((cell, index) => cell === unitTexts[index]))
      return false;
    this.faults.skip("header again", this.at.line);
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
      this.footer.settle(false);
      this.reject("extra cell", null, extra.find((cell) => cell !== "") ?? "");
      return false;
    }
    if (cells.length >= plan.least) return true;
    const [only = ""] = cells;
    if (cells.length === 1 && plan.width > 1 && !/^\d/.test(only) && numberForm(only) === null && !this.at.isQuoted) {
      this.footer.add("neither comment nor table", only);
      return false;
    }
    this.footer.settle(false);
    if (this.at.endsFile && this.evidence.rows > 0) this.cutOff = true;
    this.reject("missing cell", null, this.at.raw());
    return false;
  }

  private isTotals(cells: readonly string[]): boolean {
    const { plan } = this;
    const first = cells[plan.time >= 0 ? plan.time : plan.date] ?? "";
    const leading = cells.find((cell) => cell !== "") ?? "";
    if ((plan.time < 0 && plan.date < 0) || !isTotalsWord(leading) || timeText(first) !== null || numberForm(first) !== null) return false;
    this.footer.add("not a time", this.at.raw());
    return true;
  }

  /** One row of the full width. False where it was rejected. */
  private row(cells: readonly string[]): boolean {
    const { plan, batch } = this;
    this.footer.settle(false);
    if (this.tools.gathers) this.gather(cells);
    const hasTime = plan.time >= 0 || plan.date >= 0 || plan.clock >= 0;
    if (!hasTime) return this.looseRow(cells);
    const time = this.timeRead(cells);
    if (typeof time === "string") return this.rejectCell(time, plan.time >= 0 ? plan.time : plan.date >= 0 ? plan.date : plan.clock, cells);
    if (Number.isNaN(time)) return this.rejectCell("impossible time", plan.time >= 0 ? plan.time : plan.date, cells);
    if (this.clock.isDayless && !this.mayLackDay(cells))
      return this.rejectCell("not a time", plan.time >= 0 ? plan.time : plan.date, cells);
    const row = batch.next();
    const fault = this.readings.read(cells, row);
    this.stamp(row, time, cells);
    if (fault !== null) {
      this.putSilent(row);
      return this.rejectCell(fault.type, fault.index, cells);
    }
    for (const { type, index } of this.readings.badCells)
      this.faults.add(type, this.at.line, this.at.offset, plan.mapping.columns[index]?.label ?? null, cells[index] ?? "", false);
    if (this.tools.gathers) this.countFalls(cells, time);
    this.labels.see(cells, time, this.series, this.at.line);
    return this.place(row, time, cells);
  }

  private timeRead(cells: readonly string[]): ReturnType<RowClock["read"]> {
    const { time, date, clock } = this.plan;
    return this.clock.read(cellAt(cells, time), cellAt(cells, date), cellAt(cells, clock), this.at.line, seriesText(this.plan, cells));
  }

  private stamp(row: number, time: number, cells: readonly string[]): void {
    const { now } = this.batch;
    now.times[row] = time;
    now.lines[row] = this.at.line;
    this.takeSeries(cells);
    now.series[row] = this.series;
  }

  private putSilent(row: number): void {
    this.begin();
    if (!this.silentRows.put(row, this.greatestTime)) this.forgetRow(row);
  }

  /** A line whose cells cannot be read: its time can where it stands in its place, whole, and goes on from those before it. */
  private endHold(cells: readonly string[]): void {
    const { plan, batch } = this;
    const needed = [plan.time, plan.date, plan.clock, ...plan.seriesColumns].filter((index) => index >= 0);
    if (!this.footer.isEmpty || this.cutOff || this.order !== null || needed.length === 0 || plan.channels.length === 0) return;
    if (cells.length <= Math.max(...needed) + 1 || (plan.countScale > 0 && this.isChanged)) return;
    if (plan.series >= 0 && !this.seriesByText.has(seriesText(plan, cells))) return;
    const time = this.timeRead(cells);
    if (typeof time === "string" || !(time > this.lastTime) || this.clock.isDayless) return;
    const row = batch.next();
    this.stamp(row, time, cells);
    this.silentRows.aboutSensorOf(cells, row);
    this.putSilent(row);
  }

  /** Where a column holds dates, a row before the first of them has no time; where none does, the day is asked for. */
  private mayLackDay(cells: readonly string[]): boolean {
    const { plan } = this;
    if (plan.time >= 0 || plan.date >= 0) return false;
    see(this.evidence.dayless, this.at.line, this.timeOf(cells));
    return true;
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

  /** The short way counts on codes of nought where no row stands yet. */
  private forgetRow(row: number): void {
    for (const codes of this.batch.now.codes) codes[row] = CODE.valid;
  }

  private countRow(): void {
    this.faults.rows++;
    this.faults.continued += this.at.innerLines;
    this.evidence.rows++;
  }

  private place(row: number, time: number, cells: readonly string[]): boolean {
    const { batch, plan } = this;
    if (time <= this.greatestTime) {
      // Wall-clock times without a zone may repeat where clocks change, and without readings there is nothing to compare.
      const twin = this.clock.isOpen || plan.channels.length === 0 ? null : this.sameTime.find(batch, row);
      if (twin?.isSame === true) {
        this.faults.skip("exact duplicate", this.at.line, 1 + this.at.innerLines);
        this.faults.add("duplicate row", this.at.line, this.at.offset, null, this.at.raw(), false);
        this.lastTime = time;
        this.forgetRow(row);
        return true;
      }
      if (twin !== null) {
        see(this.evidence.conflicts, this.at.line, this.at.raw());
        this.faults.add("conflicting readings", this.at.line, this.at.offset, null, this.at.raw(), false);
      } else if (time < this.lastTime)
        this.faults.add(
          "time runs backwards",
          this.at.line,
          this.at.offset,
          plan.mapping.columns[plan.time >= 0 ? plan.time : plan.date]?.label ?? null,
          this.timeOf(cells),
          false,
        );
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
    return [time, date, clock]
      .filter((index) => index >= 0)
      .map((index) => cells[index] ?? "")
      .join(" ")
      .trim();
  }

  private takeSeries(cells: readonly string[]): void {
    const { plan } = this;
    if (plan.series < 0) return;
    const text = seriesText(plan, cells);
    this.seriesText = text;
    const known = this.seriesByText.get(text);
    const series = known ?? this.seriesByText.size;
    if (known === undefined) {
      this.seriesByText.set(text, series);
      this.begin();
      this.tools.sink?.series(series, plan.seriesColumns.map((index) => plan.mapping.columns[index]?.label ?? "").join(" / "), text);
    }
    if (series === this.series && this.hasSeries) return;
    this.series = series;
    this.hasSeries = true;
    this.lastTime = Number.NEGATIVE_INFINITY;
    this.greatestTime = known === undefined ? Number.NEGATIVE_INFINITY : Number.POSITIVE_INFINITY;
  }

  private gather(cells: readonly string[]): void {
    const { columns } = this.evidence;
    const { vocabulary } = this.tools.environment;
    for (let index = 0; index < columns.length; index++) {
      const column = columns[index] as ColumnEvidence; // index is below the length
      this.changesBefore[index] = column.changes;
      const cell = cells[index] ?? "";
      gatherCell(column, cell, this.at.line, vocabulary);
      // Texts that may name the channels of a long table.
      if (cell !== "" && column.words.size > 0 && column.words.size <= 32 && column.words.has(cell)) this.readings.seeSensor(cell, "");
    }
  }

  private countFalls(cells: readonly string[], time: number): void {
    const before = this.lastRowTime;
    this.lastRowTime = time;
    if (time > before || before === Number.NEGATIVE_INFINITY || cells.length === 0) return;
    this.evidence.falls++;
    for (const [index, column] of this.evidence.columns.entries())
      if (column.changes > (this.changesBefore[index] ?? 0)) column.changesAtFalls++;
  }

  private rejectCell(type: FaultType, index: number, cells: readonly string[]): false {
    this.faults.add(type, this.at.line, this.at.offset, this.plan.mapping.columns[index]?.label ?? null, cells[index] ?? "", true);
    this.countRejected();
    return false;
  }

  reject(type: FaultType, column: string | null, raw: string): void {
    this.faults.add(type, this.at.line, this.at.offset, column, raw, true);
    this.countRejected();
  }

  countRejected(): void {
    this.faults.rejected += 1 + this.at.innerLines;
  }

  begin(): void {
    if (this.hasBegun) return;
    this.hasBegun = true;
    this.tools.sink?.begin(this.plan.channels.map(({ column }) => column));
  }
}

/** Empty where the table has no such column (an index below nought would be looked up by name, which is slow). */
const cellAt = (cells: readonly string[], index: number): string => (index < 0 ? "" : (cells[index] ?? ""));
