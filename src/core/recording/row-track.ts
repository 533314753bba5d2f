/**
 * Rows that share their times: all channels of a wide table, or one channel of a long one. A track keeps rows as
 * they come and puts them in order at the end.
 */
import { READING } from "./channel.ts";
import type { Claim, GrowingColumn } from "./growing-column.ts";
import { claimAt, copiedColumn, emptyColumn, grownFloats, grownLines, joinedClaim, roomFor } from "./growing-column.ts";
import { orderOfTimes } from "./time-order.ts";

export interface RowTrack {
  count: number;
  times: Float64Array;
  lines: Uint32Array;
  /** True while every row came strictly later than the one before. */
  rising: boolean;
  outOfOrder: number;
  columns: GrowingColumn[];
}

export function emptyTrack(channels: number): RowTrack {
  const columns = Array.from({ length: channels }, emptyColumn);
  return { count: 0, times: new Float64Array(64), lines: new Uint32Array(64), rising: true, outOfOrder: 0, columns };
}

/** One track a channel, each with times of its own: what a wide track becomes when a line is about some channels only. */
export function splitTrack(track: RowTrack): RowTrack[] {
  return track.columns.map((column) => ({
    ...track,
    times: track.times.slice(),
    lines: track.lines.slice(),
    columns: [copiedColumn(column)],
  }));
}

export function reserveRows(track: RowTrack, more: number): void {
  const wanted = track.count + more;
  if (wanted <= track.times.length) return;
  const capacity = roomFor(track.times.length, wanted);
  track.times = grownFloats(track.times, capacity);
  track.lines = grownLines(track.lines, capacity);
}

/** Appends a time; room was reserved before. */
export function putTime(track: RowTrack, time: number, line: number): void {
  const row = track.count;
  if (row > 0) {
    const before = track.times[row - 1] ?? 0;
    if (time <= before) track.rising = false;
    if (time < before) track.outOfOrder += 1;
  }
  track.times[row] = time;
  track.lines[row] = line;
  track.count = row + 1;
}

/** Rows in rising order, one an instant, with what was dropped or joined on the way. */
export interface OrderedTrack {
  readonly times: Float64Array;
  readonly lines: Uint32Array;
  readonly columns: readonly OrderedColumn[];
  /** Lines of rows that said nothing new. */
  readonly duplicateLines: Uint32Array;
  readonly outOfOrder: number;
}

export interface OrderedColumn {
  readonly values: Int32Array;
  readonly uppers: Int32Array | null;
  readonly codes: Uint8Array | null;
  /** First lines of the instants at which two rows claim different readings. */
  readonly conflictLines: readonly number[];
}

/** Puts rows in order of time, drops those that repeat another, joins those that contradict one. */
export function ordered(track: RowTrack): OrderedTrack {
  const { count, outOfOrder } = track;
  if (track.rising) {
    const columns = track.columns.map((column) => settled(column, count));
    return {
      times: exactly(track.times, count),
      lines: exactly(track.lines, count),
      columns,
      duplicateLines: new Uint32Array(0),
      outOfOrder,
    };
  }
  return joined(track, orderOfTimes(track.times, track.lines, count));
}

function exactly<Column extends Float64Array | Uint32Array | Int32Array | Uint8Array>(column: Column, count: number): Column {
  return (column.length === count ? column : column.slice(0, count)) as Column; // slice keeps the array's own type
}

/** A bound has one number; the other end of it is not known. */
function settled(column: GrowingColumn, count: number): OrderedColumn {
  const values = exactly(column.values, count);
  const codes = column.codes === null ? null : exactly(column.codes, count);
  const uppers = column.uppers === null ? null : exactly(column.uppers, count);
  if (codes !== null && uppers !== null) settleBounds(values, uppers, codes);
  // Room made and lost again leaves an upper edge that is the lower one: one form for one content, whatever the order of rows.
  const oneEdge = uppers?.every((upper, row) => upper === values[row]) ?? true;
  return { values, uppers: oneEdge ? null : uppers, codes, conflictLines: [] };
}

function settleBounds(values: Int32Array, uppers: Int32Array, codes: Uint8Array): void {
  for (let row = 0; row < codes.length; row += 1) {
    if (codes[row] === READING.underRange) values[row] = uppers[row] ?? 0;
    else if (codes[row] !== READING.valid) uppers[row] = values[row] ?? 0;
  }
}

interface JoinedColumn {
  readonly from: GrowingColumn;
  readonly values: Int32Array;
  readonly uppers: Int32Array;
  readonly codes: Uint8Array;
  readonly conflictLines: number[];
}

function joined(track: RowTrack, order: Uint32Array): OrderedTrack {
  const { count } = track;
  const times = new Float64Array(count);
  const lines = new Uint32Array(count);
  const duplicateLines: number[] = [];
  const columns = track.columns.map(
    (from): JoinedColumn => ({
      from,
      values: new Int32Array(count),
      uppers: new Int32Array(count),
      codes: new Uint8Array(count),
      conflictLines: [],
    }),
  );
  let kept = 0;
  for (let start = 0; start < count; ) {
    const end = endOfInstant(track.times, order, start, count);
    const rows = order.subarray(start, end);
    times[kept] = track.times[rows[0] ?? 0] ?? 0;
    lines[kept] = earliestLine(track.lines, rows);
    const distinct = end - start === 1 ? rows : distinctRows(track, rows, duplicateLines);
    for (const column of columns) joinInstant(column, distinct, kept, lines[kept] ?? 0);
    kept += 1;
    start = end;
  }
  const done = columns.map((column) => trimmed(column, kept));
  return {
    times: times.slice(0, kept),
    lines: lines.slice(0, kept),
    columns: done,
    duplicateLines: Uint32Array.from(duplicateLines).sort(),
    outOfOrder: track.outOfOrder,
  };
}

function endOfInstant(times: Float64Array, order: Uint32Array, start: number, count: number): number {
  const time = times[order[start] ?? 0];
  let end = start + 1;
  while (end < count && times[order[end] ?? 0] === time) end += 1;
  return end;
}

function earliestLine(lines: Uint32Array, rows: Uint32Array): number {
  let earliest = 0xffffffff;
  for (const row of rows) earliest = Math.min(earliest, lines[row] ?? 0);
  return earliest;
}

/** Rows of one instant without repeats. Sorted by content first: a file with a stuck clock stays far from quadratic. */
function distinctRows(track: RowTrack, rows: Uint32Array, duplicateLines: number[]): Uint32Array {
  const byContent = rows
    .slice()
    .sort((one, other) => contentOrder(track, one, other) || (track.lines[one] ?? 0) - (track.lines[other] ?? 0));
  const distinct: number[] = [];
  let last = -1;
  for (const row of byContent) {
    if (last >= 0 && contentOrder(track, last, row) === 0) duplicateLines.push(track.lines[row] ?? 0);
    else distinct.push(row);
    last = row;
  }
  return Uint32Array.from(distinct);
}

function contentOrder(track: RowTrack, one: number, other: number): number {
  for (const column of track.columns) {
    const order = claimOrder(claimAt(column, one), claimAt(column, other));
    if (order !== 0) return order;
  }
  return 0;
}

function claimOrder(one: Claim, other: Claim): number {
  return one.code - other.code || one.low - other.low || one.high - other.high;
}

function joinInstant(column: JoinedColumn, rows: Uint32Array, at: number, line: number): void {
  let claim = claimAt(column.from, rows[0] ?? 0);
  let contradicted = false;
  for (let next = 1; next < rows.length; next += 1) {
    const other = claimAt(column.from, rows[next] ?? 0);
    contradicted ||= claim.code !== READING.none && other.code !== READING.none && claimOrder(claim, other) !== 0;
    claim = joinedClaim(claim, other);
  }
  column.values[at] = claim.low;
  column.uppers[at] = claim.high;
  column.codes[at] = claim.code;
  if (contradicted) column.conflictLines.push(line);
}

function trimmed(column: JoinedColumn, kept: number): OrderedColumn {
  const values = column.values.slice(0, kept);
  const uppers = column.uppers.slice(0, kept);
  const codes = column.codes.slice(0, kept);
  const oneEdge = uppers.every((upper, row) => upper === values[row]);
  const allValid = codes.every((code) => code === READING.valid);
  return { values, uppers: oneEdge ? null : uppers, codes: allValid ? null : codes, conflictLines: column.conflictLines };
}
