import type { ColumnEvidence } from "./evidence.ts";

/** True where every change of a column but the first stands where the time falls back, and every fall has its change; two rows a series at least, on average. */
export const isSeriesColumn = (column: ColumnEvidence, falls: number): boolean =>
  falls > 0 && column.filled >= 2 * column.changes && column.changes - 1 === falls && column.changesAtFalls === falls && column.blank === 0;
