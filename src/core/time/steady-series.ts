/**
 * A log kept in local time through a night on which the clocks change. Order settles most of the repeated hour; what it
 * does not settle is left open (NaN) and told, never guessed.
 */
import { columnInstants } from "./column.ts";
import type { Instant } from "./instant.ts";
import { type LocalPiece, localAt, type ZoneClock } from "./zone-clock.ts";

type Twice = Extract<LocalPiece, { kind: "two" }>;

/** Rows are [fromRow, toRow), counted from 0. */
export type SeriesNote =
  /** The clock fell back (or the step told) within these rows: from `laterFromRow` on they are the second passage. */
  | { readonly type: "repeated-hour-resolved-by-order"; readonly fromRow: number; readonly toRow: number; readonly laterFromRow: number }
  /**
   * Two candidates for the first of these rows (the others move with it). `isSingle`: one reading only. `passesOnce`: a
   * steady row goes through the hour once, as a logger on fixed time would.
   */
  | {
      readonly type: "repeated-hour-not-settled";
      readonly fromRow: number;
      readonly toRow: number;
      readonly earlier: Instant;
      readonly later: Instant;
      readonly isSingle: boolean;
      readonly passesOnce: boolean;
    }
  /** Times that the clocks of the zone never showed: the logger ran on fixed time, or the zone is another. */
  | {
      readonly type: "times-in-the-missing-hour";
      readonly fromRow: number;
      readonly toRow: number;
      readonly offsetBefore: number;
      readonly offsetAfter: number;
    };

export interface SeriesInstants {
  /** Milliseconds; NaN where a note says that the row is not settled, and where the local time was NaN. */
  readonly instants: Float64Array;
  readonly notes: readonly SeriesNote[];
}

/**
 * Instants of the rows of one log, in the order in which they were written.
 *
 * Repeated hour: rows before the one place where the local time falls are the first passage, rows after it the second.
 * Without a fall the step decides: of "all first" and "all second" the one that goes on steadily (no step above 1.5
 * times the usual one) on both sides, if the other does not, and if nine in ten of the nearby steps are steady.
 * Everything else is not settled. (Ours: RFC 3339 and RFC 9557 know no such rule.)
 *
 * @param locals wall-clock milliseconds, a row each. @param clock of which zone.
 * @param answer a person's answer for what order does not settle; null leaves it open.
 * @example
 * ```ts
 * import { steadySeriesInstants } from "./steady-series.ts";
 * import { zoneClock } from "./zone-clock.ts";
 * const quarter = 900_000;
 * const one = 1761440400000; // 2025-10-26T01:00 on the wall
 * const london = zoneClock("Europe/London");
 * const rows = [0, 1, 2, 3, 0, 1, 2, 3, 4].map((quarters) => one + quarters * quarter);
 * const read = london.ok && steadySeriesInstants(Float64Array.from(rows), london.value, null);
 * read && read.notes; // => [{ type: "repeated-hour-resolved-by-order", fromRow: 0, toRow: 8, laterFromRow: 4 }]
 * read && read.instants[8] - read.instants[0]; // => 7200000
 * ```
 */
export function steadySeriesInstants(locals: Float64Array, clock: ZoneClock, answer: "earlier" | "later" | null): SeriesInstants {
  const instants = new Float64Array(locals.length);
  const seams = columnInstants(locals, clock, instants);
  const notes: SeriesNote[] = [];
  if (seams.twice === 0 && seams.missing === 0) return { instants, notes };
  for (let row = 0; row < locals.length; ) {
    const piece = seamOf(locals, instants, row, clock);
    if (piece === null) {
      row++;
      continue;
    }
    const toRow = endOfRun(locals, row, piece);
    const run: Run = { locals, instants, clock, fromRow: row, toRow };
    notes.push(piece.kind === "two" ? settleTwice(run, piece, answer) : missingNote(run, piece));
    row = toRow;
  }
  return { instants, notes };
}

interface Run {
  readonly locals: Float64Array;
  readonly instants: Float64Array;
  readonly clock: ZoneClock;
  readonly fromRow: number;
  readonly toRow: number;
}

type Seam = Exclude<LocalPiece, { kind: "one" }>;

function seamOf(locals: Float64Array, instants: Float64Array, row: number, clock: ZoneClock): Seam | null {
  if (!Number.isNaN(cell(instants, row)) || Number.isNaN(cell(locals, row))) return null;
  const piece = clock.pieceAt(cell(locals, row));
  return piece.kind === "one" ? null : piece;
}

/** Rows whose time could not be read do not end a run; they stay NaN. */
function endOfRun(locals: Float64Array, fromRow: number, piece: Seam): number {
  let end = fromRow + 1;
  for (let row = end; row < locals.length; row++) {
    const local = cell(locals, row);
    if (local >= piece.from && local < piece.to) end = row + 1;
    else if (!Number.isNaN(local)) break;
  }
  return end;
}

function missingNote({ fromRow, toRow }: Run, { offsetBefore, offsetAfter }: Extract<Seam, { kind: "none" }>): SeriesNote {
  return { type: "times-in-the-missing-hour", fromRow, toRow, offsetBefore, offsetAfter };
}

function settleTwice(run: Run, piece: Twice, answer: "earlier" | "later" | null): SeriesNote {
  const { fromRow, toRow } = run;
  const nearby = nearbySteps(run);
  const falls = fallsOf(run, piece, nearby);
  const laterFromRow = laterFrom(run, piece, falls, nearby);
  if (laterFromRow !== null) {
    write(run, piece, laterFromRow);
    return { type: "repeated-hour-resolved-by-order", fromRow, toRow, laterFromRow };
  }
  if (answer !== null) write(run, piece, answer === "earlier" ? toRow : fromRow);
  const first = cell(run.locals, fromRow);
  return {
    ...{ type: "repeated-hour-not-settled", fromRow, toRow, isSingle: toRow - fromRow === 1 },
    earlier: (first - piece.earlierOffset) as Instant, // local less an offset of the zone
    later: (first - piece.laterOffset) as Instant, // likewise
    passesOnce: falls.length === 0 && passesOnce(run, nearby),
  };
}

function write({ locals, instants, fromRow, toRow }: Run, piece: Twice, laterFromRow: number): void {
  for (let row = fromRow; row < toRow; row++) {
    instants[row] = cell(locals, row) - (row < laterFromRow ? piece.earlierOffset : piece.laterOffset);
  }
}

/** First row of the second passage; null where neither order nor step settles it. */
function laterFrom(run: Run, piece: Twice, falls: readonly number[], nearby: NearbySteps): number | null {
  if (falls.length === 1) return falls[0] as number; // the length is 1
  if (falls.length > 1 || !nearby.isSteady) return null;
  const isFirst = goesOn(run, piece.earlierOffset, nearby);
  const isSecond = goesOn(run, piece.laterOffset, nearby);
  if (isFirst === isSecond) return null;
  return isFirst ? run.toRow : run.fromRow;
}

/** An equal time is a fall only where the usual step is so long that the clock change has swallowed it; else it is a doubled row. */
function fallsOf({ locals, fromRow, toRow }: Run, piece: Twice, nearby: NearbySteps): number[] {
  const equalIsFall = nearby.isSteady && nearby.usual * 1.5 > piece.earlierOffset - piece.laterOffset;
  const falls: number[] = [];
  let before = Number.NEGATIVE_INFINITY;
  for (let row = fromRow; row < toRow; row++) {
    const local = cell(locals, row);
    if (Number.isNaN(local)) continue;
    if (local < before || (equalIsFall && local === before)) falls.push(row);
    before = local;
  }
  return falls;
}

/** Whether the run, read with one offset, joins on to its neighbours without a longer step than usual. A missing neighbour asks nothing. */
function goesOn({ locals, instants, fromRow, toRow }: Run, offset: number, { usual }: NearbySteps): boolean {
  const before = previousInstant(instants, fromRow);
  const after = nextInstant(instants, toRow);
  if (before === null && after === null) return false;
  const fits = (step: number): boolean => step > 0 && step <= usual * 1.5;
  const joinsBefore = before === null || fits(cell(locals, fromRow) - offset - before);
  return joinsBefore && (after === null || fits(after - (cell(locals, toRow - 1) - offset)));
}

function passesOnce({ locals, instants, clock, fromRow, toRow }: Run, { usual, isSteady }: NearbySteps): boolean {
  const before = previousInstant(instants, fromRow);
  const after = nextInstant(instants, toRow);
  if (before === null || after === null || !isSteady) return false;
  const first = cell(locals, fromRow) - localAt(before, clock);
  const last = localAt(after, clock) - cell(locals, toRow - 1);
  return first > 0 && first <= usual * 1.5 && last > 0 && last <= usual * 1.5;
}

interface NearbySteps {
  /** Median of the rising steps around the run, milliseconds. */
  readonly usual: number;
  /** At least three of them, and nine in ten within half of the median. */
  readonly isSteady: boolean;
}

/** How far to look on either side: enough for a median, and no walk through a million rows. */
const NEARBY_ROWS = 60;

function nearbySteps({ locals, fromRow, toRow }: Run): NearbySteps {
  const steps: number[] = [];
  const stop = Math.min(locals.length, toRow + NEARBY_ROWS);
  for (let row = Math.max(1, fromRow - NEARBY_ROWS); row < stop; row++) {
    // Of a long run the two ends are enough.
    if (row === fromRow + NEARBY_ROWS && toRow - NEARBY_ROWS > row) row = toRow - NEARBY_ROWS;
    const step = cell(locals, row) - cell(locals, row - 1);
    if (step > 0) steps.push(step);
  }
  steps.sort((a, b) => a - b);
  const usual = steps[steps.length >> 1] ?? Number.NaN;
  const steady = steps.filter((step) => Math.abs(step - usual) <= usual / 2).length;
  return { usual, isSteady: steps.length >= 3 && steady >= 0.9 * steps.length };
}

/** The nearest settled row before, within the rows that count as near; the bound keeps hostile files from costing squares. */
function previousInstant(instants: Float64Array, row: number): number | null {
  for (let at = row - 1; at >= Math.max(0, row - NEARBY_ROWS); at--) if (!Number.isNaN(cell(instants, at))) return cell(instants, at);
  return null;
}

function nextInstant(instants: Float64Array, row: number): number | null {
  for (let at = row; at < Math.min(instants.length, row + NEARBY_ROWS); at++)
    if (!Number.isNaN(cell(instants, at))) return cell(instants, at);
  return null;
}

const cell = (column: Float64Array, row: number): number => column[row] as number; // every row asked for is below the length
