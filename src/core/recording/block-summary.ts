/** Rows summed up in blocks, so that ten million of them can be drawn and skimmed without being walked. */
import { type Channel, READING } from "./channel.ts";

export const BLOCK_ROWS = 256;

/** What happened in a block or in a pixel column; bits. */
export const SEEN = {
  overRange: 1,
  underRange: 2,
  /** A row that says there was no reading, or a fault. */
  noReading: 4,
  /** A row that came later after the one before than the largest gap. */
  gap: 8,
  /** A reading that is an interval (two claims about one instant). */
  interval: 16,
} as const;

/** One entry a block of 256 rows; row numbers are -1 in a block without readings. */
export interface BlockSummaries {
  readonly rows: number;
  /** Readings as stored x milliseconds for which they stand, rows without a number left out. */
  readonly sums: Float64Array;
  /** Time of the block's rows for which no reading stands, or only a lower bound; milliseconds. */
  readonly openMs: Float64Array;
  readonly first: Int32Array;
  readonly last: Int32Array;
  /** Row of the lowest and of the highest reading, the earliest of equals. */
  readonly lowest: Int32Array;
  readonly highest: Int32Array;
  readonly seen: Uint8Array;
}

/**
 * Summaries of the rows of a channel in blocks of 256.
 *
 * @param channel rows in rising order of time
 * @param largestGapMs how long a reading may stand, milliseconds above 0
 * Never refuses. A block's sum is exact: |steps| x ms of a day stay below 2^53.
 * @example
 * ```ts
 * import { blockSummaries } from "./block-summary.ts";
 * const channel = { name: "CO", series: null, gas: null, unit: "ppm", kind: "spot", decimals: 0, times: Float64Array.of(0, 1000, 2000, 60_000),
 *   values: Int32Array.of(4, 7, 2, 3), uppers: null, codes: null, lines: null, rangeTop: null } as const;
 * const blocks = blockSummaries(channel, 1500);
 * [blocks.sums[0], blocks.openMs[0], blocks.highest[0], blocks.seen[0]]; // => [14000, 56500, 1, 8]
 * ```
 * Source: own.
 */
export function blockSummaries(channel: Channel, largestGapMs: number): BlockSummaries {
  const rows = channel.times.length;
  const count = Math.ceil(rows / BLOCK_ROWS);
  const blocks: BlockSummaries = {
    rows,
    sums: new Float64Array(count),
    openMs: new Float64Array(count),
    first: new Int32Array(count),
    last: new Int32Array(count),
    lowest: new Int32Array(count),
    highest: new Int32Array(count),
    seen: new Uint8Array(count),
  };
  for (let block = 0; block < count; block += 1) {
    const from = block * BLOCK_ROWS;
    const to = Math.min(rows, from + BLOCK_ROWS);
    const column = scannedRows(channel, largestGapMs, from, to, noColumn());
    blocks.first[block] = column.first;
    blocks.last[block] = column.last;
    blocks.lowest[block] = column.lowest;
    blocks.highest[block] = column.highest;
    blocks.seen[block] = column.seen;
    sumUp(channel, largestGapMs, from, to, blocks, block);
  }
  return blocks;
}

/** First, last, lowest and highest reading of some rows; row numbers, -1 where there is none. */
export interface ColumnRows {
  first: number;
  last: number;
  lowest: number;
  highest: number;
  seen: number;
}

export function noColumn(): ColumnRows {
  return { first: -1, last: -1, lowest: -1, highest: -1, seen: 0 };
}

/** Adds rows [from, to) to a column. Rows without a number leave a mark only. */
export function scannedRows(channel: Channel, largestGapMs: number, from: number, to: number, column: ColumnRows): ColumnRows {
  const { times, values, codes, uppers } = channel;
  let { first, last, lowest, highest, seen } = column;
  let least = lowest < 0 ? Infinity : (values[lowest] ?? 0);
  let most = highest < 0 ? -Infinity : (values[highest] ?? 0);
  let before = from === 0 ? (times[0] ?? 0) : (times[from - 1] ?? 0);
  for (let row = from; row < to; row += 1) {
    const time = times[row] ?? 0;
    if (time - before > largestGapMs) seen |= SEEN.gap;
    before = time;
    const code = codes === null ? READING.valid : (codes[row] ?? 0);
    if (code !== READING.valid) seen |= seenOf(code);
    if (code >= READING.none) continue;
    const value = values[row] ?? 0;
    if (uppers !== null && uppers[row] !== value) seen |= SEEN.interval;
    if (first < 0) first = row;
    last = row;
    if (value < least) {
      least = value;
      lowest = row;
    }
    if (value > most) {
      most = value;
      highest = row;
    }
  }
  return { first, last, lowest, highest, seen };
}

function seenOf(code: number): number {
  if (code === READING.overRange || code === READING.overRangeUnbounded) return SEEN.overRange;
  return code === READING.underRange ? SEEN.underRange : SEEN.noReading;
}

/** A block speaks for the time from its first row to the first row of the next (spot), or back to the row before it. */
function sumUp(channel: Channel, largestGapMs: number, from: number, to: number, blocks: BlockSummaries, block: number): void {
  const { times, values, codes, kind } = channel;
  const ahead = kind === "spot" ? 1 : -1;
  let sum = 0;
  let open = 0;
  for (let row = from; row < to; row += 1) {
    const step = Math.abs((times[row + ahead] ?? times[row] ?? 0) - (times[row] ?? 0));
    const code = codes === null ? READING.valid : (codes[row] ?? 0);
    const stands = code >= READING.none ? 0 : Math.min(step, largestGapMs);
    sum += stands * (values[row] ?? 0);
    open += step - (code === READING.overRange ? 0 : stands);
  }
  blocks.sums[block] = sum;
  blocks.openMs[block] = open;
}
