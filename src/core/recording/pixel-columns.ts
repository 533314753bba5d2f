/**
 * What a chart draws of a long recording: per pixel column the first, last, lowest and highest reading. Nothing is
 * averaged, and no peak is lost.
 */
import { BLOCK_ROWS, type BlockSummaries, type ColumnRows, noColumn, scannedRows } from "./block-summary.ts";
import type { Channel } from "./channel.ts";
import { edgeAt, segmentCount } from "./pieces.ts";
import { OPEN, type TwoEdgedSignal } from "./signal.ts";

/** Row numbers a column, -1 where a column holds no reading; `seen` as in `SEEN`. */
export interface PixelColumns {
  readonly from: number;
  readonly to: number;
  readonly width: number;
  readonly first: Int32Array;
  readonly last: Int32Array;
  readonly lowest: Int32Array;
  readonly highest: Int32Array;
  readonly seen: Uint8Array;
}

/**
 * First, last, lowest and highest reading of each pixel column (M4). Column of a reading at t:
 * floor((t - from) w / (to - from)), the last column closed on the right; of equal readings the earliest counts.
 * Rows without a reading, gaps and readings out of range are kept apart as marks of the column.
 *
 * @param channel rows in rising order of time
 * @param from left edge, milliseconds
 * @param to right edge, milliseconds, later than `from`
 * @param width columns, whole, above 0
 * @param largestGapMs steps above this are marked as gaps
 * @param summaries of the same channel and gap: whole blocks are then not walked
 * Never refuses; an empty stretch of time has no columns with readings.
 * @example
 * ```ts
 * import { m4Columns } from "./pixel-columns.ts";
 * const channel = { name: "CO", series: null, gas: null, unit: "ppm", kind: "spot", decimals: 0, times: Float64Array.of(0, 1, 2, 3, 4, 5),
 *   values: Int32Array.of(4, 9, 2, 3, 3, 3), uppers: null, codes: null, lines: null, rangeTop: null } as const;
 * const columns = m4Columns(channel, 0, 6, 2, 10, null);
 * [...columns.highest]; // => [1, 3]
 * ```
 * Source: Jugel, Jerzak, Hackenbroich, Markl, M4, PVLDB 7(10) 2014 (abstract read); column rule ours.
 */
export function m4Columns(
  channel: Channel,
  from: number,
  to: number,
  width: number,
  largestGapMs: number,
  summaries: BlockSummaries | null,
): PixelColumns {
  const columns = emptyColumns(from, to, width);
  let start = firstRowOfColumn(channel.times, columns, 0);
  for (let column = 0; column < width; column += 1) {
    const end = firstRowOfColumn(channel.times, columns, column + 1);
    if (end > start) put(columns, column, rowsOfColumn(channel, largestGapMs, start, end, summaries));
    start = end;
  }
  return columns;
}

function emptyColumns(from: number, to: number, width: number): PixelColumns {
  const rows = () => new Int32Array(width).fill(-1);
  return { from, to, width, first: rows(), last: rows(), lowest: rows(), highest: rows(), seen: new Uint8Array(width) };
}

/** The rule that puts a reading into a column is monotone in time, so a column's first row is found by halving. */
function firstRowOfColumn(times: Float64Array, { from, to, width }: PixelColumns, column: number): number {
  let low = 0;
  let high = times.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    const time = times[middle] ?? 0;
    const isBefore = column === width ? time <= to : time < from || Math.floor(((time - from) * width) / (to - from)) < column;
    if (isBefore) low = middle + 1;
    else high = middle;
  }
  return low;
}

function rowsOfColumn(channel: Channel, largestGapMs: number, start: number, end: number, summaries: BlockSummaries | null): ColumnRows {
  const firstBlock = Math.ceil(start / BLOCK_ROWS);
  const lastBlock = end === channel.times.length ? Math.ceil(end / BLOCK_ROWS) : Math.floor(end / BLOCK_ROWS);
  if (summaries === null || lastBlock <= firstBlock) return scannedRows(channel, largestGapMs, start, end, noColumn());
  const column = scannedRows(channel, largestGapMs, start, firstBlock * BLOCK_ROWS, noColumn());
  for (let block = firstBlock; block < lastBlock; block += 1) addBlock(column, channel.values, summaries, block);
  return scannedRows(channel, largestGapMs, Math.min(end, lastBlock * BLOCK_ROWS), end, column);
}

function addBlock(column: ColumnRows, values: Int32Array, summaries: BlockSummaries, block: number): void {
  column.seen |= summaries.seen[block] ?? 0;
  const first = summaries.first[block] ?? -1;
  if (first < 0) return;
  if (column.first < 0) column.first = first;
  column.last = summaries.last[block] ?? -1;
  const lowest = summaries.lowest[block] ?? -1;
  const highest = summaries.highest[block] ?? -1;
  if (column.lowest < 0 || (values[lowest] ?? 0) < (values[column.lowest] ?? 0)) column.lowest = lowest;
  if (column.highest < 0 || (values[highest] ?? 0) > (values[column.highest] ?? 0)) column.highest = highest;
}

function put(columns: PixelColumns, column: number, rows: ColumnRows): void {
  columns.first[column] = rows.first;
  columns.last[column] = rows.last;
  columns.lowest[column] = rows.lowest;
  columns.highest[column] = rows.highest;
  columns.seen[column] = rows.seen;
}

/**
 * The rows that the columns keep, rising, each once: the points of the line.
 *
 * @example
 * ```ts
 * import { keptRows } from "./pixel-columns.ts";
 * const one = Int32Array.of(0);
 * keptRows({ from: 0, to: 3, width: 1, first: one, last: Int32Array.of(2), lowest: one, highest: Int32Array.of(1), seen: Uint8Array.of(0) }); // => [0, 1, 2]
 * ```
 */
export function keptRows(columns: PixelColumns): number[] {
  const kept: number[] = [];
  for (let column = 0; column < columns.width; column += 1) {
    const rows = [columns.first, columns.lowest, columns.highest, columns.last]
      .map((part) => part[column] ?? -1)
      .sort((one, other) => one - other);
    for (const row of rows) if (row >= 0 && row !== kept.at(-1)) kept.push(row);
  }
  return kept;
}

/** Both edges of a signal by pixel column: what touches a column counts in it, also if it began earlier. */
export interface SignalColumns {
  readonly from: number;
  readonly to: number;
  readonly width: number;
  /** Lowest of the lower edge and highest of the upper edge in steps (OPEN where there is no bound). */
  readonly low: Int32Array;
  readonly high: Int32Array;
  /** Bit 2^code of every STRETCH code that touches the column; 0 outside the signal. */
  readonly stretches: Uint8Array;
}

/**
 * The widest band of a stepped signal in each pixel column, and what it rests on there.
 *
 * @param from left edge, milliseconds
 * @param to right edge, milliseconds, later than `from`
 * @param width columns, whole, above 0
 * Never refuses; columns outside the signal have `stretches` 0.
 * @example
 * ```ts
 * import { signalColumns } from "./pixel-columns.ts";
 * const timing = { kind: "uneven", edges: Float64Array.of(0, 10, 15, 30) } as const;
 * const signal = { decimals: 0, timing, low: Int32Array.of(3, 8, 1), high: null, stretches: null, averageOnly: [], outside: "unsampled", largest: 8 } as const;
 * [...signalColumns(signal, 0, 40, 4).high]; // => [3, 8, 1, 0]
 * ```
 */
export function signalColumns(signal: TwoEdgedSignal, from: number, to: number, width: number): SignalColumns {
  const { timing, low, high, stretches } = signal;
  const columns: SignalColumns = {
    from,
    to,
    width,
    low: new Int32Array(width),
    high: new Int32Array(width),
    stretches: new Uint8Array(width),
  };
  const count = segmentCount(timing);
  const perMs = width / (to - from);
  for (let segment = firstSegmentAfter(signal, from); segment < count && edgeAt(timing, segment) < to; segment += 1) {
    const start = Math.max(0, Math.floor((edgeAt(timing, segment) - from) * perMs));
    const end = Math.min(width, Math.ceil((edgeAt(timing, segment + 1) - from) * perMs));
    const lowest = low[segment] ?? 0;
    const highest = high === null ? lowest : (high[segment] ?? OPEN);
    const bit = 1 << (stretches === null ? 0 : (stretches[segment] ?? 0));
    for (let column = start; column < end; column += 1) widen(columns, column, lowest, highest, bit);
  }
  return columns;
}

function widen(columns: SignalColumns, column: number, low: number, high: number, bit: number): void {
  const isNew = columns.stretches[column] === 0;
  if (isNew || low < (columns.low[column] ?? 0)) columns.low[column] = low;
  if (isNew || high > (columns.high[column] ?? 0)) columns.high[column] = high;
  columns.stretches[column] = (columns.stretches[column] ?? 0) | bit;
}

/** First segment that ends after a time. */
function firstSegmentAfter({ timing }: TwoEdgedSignal, time: number): number {
  let low = 0;
  let high = segmentCount(timing);
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (edgeAt(timing, middle + 1) <= time) low = middle + 1;
    else high = middle;
  }
  return low;
}
