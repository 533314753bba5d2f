/** The columns that may name the run of a row, watched from row to row on both ways through the file. */
import type { Batch } from "./batch.ts";
import { mayNameRuns } from "./label.ts";
import { type LabelSeen, noLabelSeen, passLabel, seeLabel } from "./label-runs.ts";
import { SAME, SKIP } from "./plain-column.ts";
import type { PlainLines } from "./plain-line.ts";
import type { Plan } from "./plan.ts";
import type { WalkTools } from "./walk-tools.ts";

export class LabelWatch {
  private readonly labels: Map<number, LabelSeen>;
  private readonly sensor: number;
  private readonly batch: Batch;
  private readonly plainLines: PlainLines;

  constructor({ plan, structure, evidence }: WalkTools, batch: Batch, plainLines: PlainLines) {
    this.labels = evidence.labels;
    this.sensor = plan.sensor;
    this.batch = batch;
    this.plainLines = plainLines;
    for (const [index, { label, role }] of plan.mapping.columns.entries()) {
      const isNumber = role === "number";
      if (!isNumber && role !== "text") continue;
      if (!mayNameRuns(label, isNumber) || (isNumber && (structure.unitTexts[index] ?? "") !== "")) continue;
      this.labels.set(index, noLabelSeen(label, isNumber));
      if (plainLines.kinds[index] === SKIP) plainLines.kinds[index] = SAME;
    }
  }

  /** One row of the careful way. */
  see(cells: readonly string[], time: number, series: number, line: number): void {
    if (this.labels.size === 0) return;
    const group = `${this.sensor < 0 ? "" : (cells[this.sensor] ?? "")}/${series}`;
    for (const [index, seen] of this.labels) if (!seen.isGivenUp) this.enter(index, seen, group, cells[index] ?? "", time, line);
  }

  /** Rows of the short way, which end the batch: all hold the text that the short way compares with. */
  passed(series: number, rows: number): void {
    if (this.labels.size === 0) return;
    const { now, count } = this.batch;
    const [first, last] = [count - rows, count - 1];
    for (const [index, seen] of this.labels) {
      if (seen.isGivenUp) continue;
      // The batch holds these rows.
      this.enter(index, seen, `/${series}`, this.plainLines.sameTexts[index] ?? "", now.times[first] as number, now.lines[first] as number);
      passLabel(seen, `/${series}`, rows - 1, now.times[last] as number);
    }
  }

  private enter(index: number, seen: LabelSeen, group: string, text: string, time: number, line: number): void {
    seeLabel(seen, group, text, time, line);
    if (seen.isGivenUp) this.plainLines.kinds[index] = SKIP;
  }
}

/** The text of all columns that together tell recordings apart. */
export const seriesText = ({ seriesColumns }: Plan, cells: readonly string[]): string =>
  seriesColumns.length === 0 ? "" : seriesColumns.map((index) => cells[index] ?? "").join(" / ");
