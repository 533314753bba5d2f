/** Greatest and least values: of the readings as shown, and of both edges of a signal. */
import { type Channel, OPEN, pastZeros, READING, type ShownSpan, type TwoEdgedSignal } from "../recording/index.ts";
import { assert } from "../result.ts";
import { edgeAt } from "./edge-sums.ts";

/** Readings of a channel within a stretch of time, both ends included; values in steps as shown. */
export interface ReadingExtremes {
  /** Rows in the stretch, and those of them that hold a reading. */
  readonly rows: number;
  readonly readings: number;
  readonly firstRow: number;
  readonly lastRow: number;
  readonly greatest: { readonly steps: number; readonly at: number; readonly atLeast: boolean } | null;
  /** `atMost`: it was under range, and the true value at or below what stands. */
  readonly least: { readonly steps: number; readonly at: number; readonly atMost: boolean } | null;
  /** First instant over range without a known top: above whatever was shown, nobody knows how far. Null where there is none. */
  readonly overRangeAt: number | null;
  /** Readings that are intervals: two that claim one instant, or digits finer than a step. */
  readonly conflicts: number;
  /** Of those, more than one step wide, so that neither end is the better figure. */
  readonly apart: number;
}

/**
 * Greatest and least reading with their instants (the earliest of equals). A reading over range counts as its range
 * top, marked "at least"; one under range ("at most") can be the least and never the greatest; rows without a reading do
 * not count. `shown`: least and greatest valid reading of the whole channel, where they are known. Never refuses.
 *
 * @example
 * ```ts
 * import { readingExtremes } from "./extremes.ts";
 * const channel = { name: "CO", series: null, gas: null, unit: "ppm", kind: "spot", decimals: 0, times: Float64Array.of(0, 10, 20),
 *   values: Int32Array.of(4, 500, 2), uppers: null, codes: Uint8Array.of(0, 1, 0), lines: null, rangeTop: 500 } as const;
 * readingExtremes(channel, 0, 20).greatest; // => { "steps": 500, "at": 10, "atLeast": true }
 * readingExtremes(channel, 0, 20).least; // => { "steps": 2, "at": 20, "atMost": false }
 * ```
 * Source: always show the largest reading and its time beside averages: R.280 (2021) Annexure 3 par. 58 [read].
 */
export function readingExtremes(channel: Channel, from: number, to: number, shown: ShownSpan | null = null): ReadingExtremes {
  const firstRow = firstAtLeast(channel.times, from);
  const past = firstAtLeast(channel.times, to, true);
  const { values, codes, uppers } = channel;
  const known = firstRow === 0 && past === values.length ? shown : null;
  if (codes === null && uppers === null) return plainExtremes(channel, firstRow, past, known);
  if (codes !== null && uppers === null) return codedExtremes(channel, codes, firstRow, past, known);
  let greatest = -1;
  let least = -1;
  let readings = 0;
  let conflicts = 0;
  let apart = 0;
  let overRangeAt: number | null = null;
  for (let i = firstRow; i < past; i += 1) {
    const code = codes === null ? READING.valid : codes[i];
    if (code === READING.none || code === READING.fault) continue;
    readings += 1;
    if (code === READING.overRangeUnbounded) {
      overRangeAt ??= channel.times[i] as number; // i < length
      continue;
    }
    const value = values[i] as number; // i < length
    // "At most" was not reached.
    if (code !== READING.underRange && (greatest < 0 || value > (values[greatest] as number))) greatest = i;
    if (least < 0 || value < (values[least] as number)) least = i;
    if (uppers === null || uppers[i] === value) continue;
    conflicts += 1;
    if ((uppers[i] as number) - value > 1) apart += 1; // as long as values
  }
  const at = (index: number): { steps: number; at: number } => ({ steps: values[index] as number, at: channel.times[index] as number });
  return {
    rows: past - firstRow,
    readings,
    firstRow,
    lastRow: past - 1,
    conflicts,
    apart,
    overRangeAt,
    greatest: greatest < 0 ? null : { ...at(greatest), atLeast: codes !== null && codes[greatest] === READING.overRange },
    least: least < 0 ? null : { ...at(least), atMost: codes !== null && codes[least] === READING.underRange },
  };
}

/** Whether any row stands within a stretch of time, both ends included. */
export const holdsRows = ({ times }: Channel, from: number, to: number): boolean => {
  const next = times[firstAtLeast(times, from)];
  return next !== undefined && next <= to;
};

/** Every row is one valid reading. */
function plainExtremes({ values, times }: Channel, firstRow: number, past: number, known: ShownSpan | null): ReadingExtremes {
  const { least, most } = known ?? spanOf(values, firstRow, past);
  const found = (steps: number): { steps: number; at: number } => ({ steps, at: times[values.indexOf(steps, firstRow)] as number }); // it stands there
  const rows = Math.max(0, past - firstRow);
  return {
    rows,
    readings: rows,
    firstRow,
    lastRow: past - 1,
    conflicts: 0,
    apart: 0,
    overRangeAt: null,
    greatest: rows === 0 ? null : { ...found(most), atLeast: false },
    least: rows === 0 ? null : { ...found(least), atMost: false },
  };
}

function spanOf(values: Int32Array, from: number, past: number): ShownSpan {
  let most = -OPEN;
  let least = OPEN;
  for (let row = from; row < past; row += 1) {
    const value = values[row] as number; // row < past
    if (value > most) most = value;
    if (value < least) least = value;
  }
  return { least, most };
}

/** Rows with codes, each of them one reading at most: as the loop above, without what it asks of two ends. */
function codedExtremes(
  { values, times }: Channel,
  codes: Uint8Array,
  firstRow: number,
  past: number,
  known: ShownSpan | null,
): ReadingExtremes {
  const { greatest, least, others, unbounded } = codedRows(values, codes, firstRow, past);
  const valid = known ?? validSpan(values, codes, firstRow, past);
  const greatestRow = earlier(valid.most, greatest, (steps, other) => steps > other, { values, codes, firstRow });
  const leastRow = earlier(valid.least, least, (steps, other) => steps < other, { values, codes, firstRow });
  const at = (row: number): { steps: number; at: number } => ({ steps: values[row] as number, at: times[row] as number }); // a row of the channel
  return {
    rows: past - firstRow,
    readings: past - firstRow - others,
    firstRow,
    lastRow: past - 1,
    conflicts: 0,
    apart: 0,
    overRangeAt: unbounded < 0 ? null : at(unbounded).at,
    greatest: greatestRow < 0 ? null : { ...at(greatestRow), atLeast: codes[greatestRow] === READING.overRange },
    least: leastRow < 0 ? null : { ...at(leastRow), atMost: codes[leastRow] === READING.underRange },
  };
}

/** A value, and the first row at which it stands; -1 where there is none. */
interface At {
  readonly steps: number;
  readonly row: number;
}

/** Of rows that are no plain reading: the greatest and the least that say something, and how many hold no reading at all. */
function codedRows(
  values: Int32Array,
  codes: Uint8Array,
  from: number,
  past: number,
): { readonly greatest: At; readonly least: At; readonly others: number; readonly unbounded: number } {
  let greatest: At = { steps: -OPEN, row: -1 };
  let least: At = { steps: OPEN, row: -1 };
  let [others, unbounded] = [0, -1];
  for (let row = pastZeros(codes, from, past); row < past; row = pastZeros(codes, row + 1, past)) {
    const code = codes[row];
    const steps = values[row] as number; // row < past
    if (code === READING.none || code === READING.fault) others += 1;
    else if (code === READING.overRangeUnbounded) unbounded = unbounded < 0 ? row : unbounded;
    else {
      if (code === READING.overRange && steps > greatest.steps) greatest = { steps, row };
      if (steps < least.steps) least = { steps, row };
    }
  }
  return { greatest, least, others, unbounded };
}

function validSpan(values: Int32Array, codes: Uint8Array, from: number, past: number): ShownSpan {
  let [most, least] = [-OPEN, OPEN];
  for (let row = from; row < past; row += 1) {
    const end = pastZeros(codes, row, past);
    const part = spanOf(values, row, end);
    most = Math.max(most, part.most);
    least = Math.min(least, part.least);
    row = end;
  }
  return { least, most };
}

/** The row of the valid value, or of the coded one where it passes it, or stands first; -1 where there is neither. */
function earlier(
  valid: number,
  coded: At,
  passes: (steps: number, other: number) => boolean,
  { values, codes, firstRow }: { readonly values: Int32Array; readonly codes: Uint8Array; readonly firstRow: number },
): number {
  if (Math.abs(valid) === OPEN || passes(coded.steps, valid)) return coded.row;
  let row = values.indexOf(valid, firstRow);
  while (row >= 0 && codes[row] !== READING.valid) row = values.indexOf(valid, row + 1);
  assert(row >= 0, "the extreme of valid readings stands at one of them");
  return coded.row >= 0 && coded.steps === valid && coded.row < row ? coded.row : row;
}

/** Index of the first time at or after an instant, or after it. */
function firstAtLeast(times: Float64Array, instant: number, after = false): number {
  let low = 0;
  let high = times.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    const time = times[middle] as number; // middle < length
    if (time < instant || (after && time === instant)) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Greatest value of both edges; `high` null where the upper edge is open anywhere; `at` null where nothing is above nought. */
export interface GreatestValue {
  readonly low: number;
  readonly at: { readonly from: number; readonly to: number } | null;
  readonly high: number | null;
}

/**
 * The greatest value that a signal can have reached, in steps: max of the lower edge, and max of the upper one.
 *
 * Outside the signal the value is nought, or open where that time is unsampled. Never refuses.
 *
 * @example
 * ```ts
 * import { greatestValue } from "./extremes.ts";
 * const signal = { decimals: 0, timing: { kind: "uneven", edges: Float64Array.of(0, 10, 30) } as const, low: Int32Array.of(5, 0),
 *   high: Int32Array.of(5, 80), stretches: Uint8Array.of(0, 4), averageOnly: [], outside: "unexposed", largest: 600 } as const;
 * greatestValue(signal); // => { "low": 5, "at": { "from": 0, "to": 10 }, "high": 80 }
 * ```
 * Source: 29 CFR 1910.1000(a)(1) for "at any time" [read]; two ends: ours.
 */
export function greatestValue(signal: TwoEdgedSignal): GreatestValue {
  const { low, high, timing } = signal;
  let index = 0;
  for (let i = 1; i < low.length; i += 1) if ((low[i] as number) > (low[index] as number)) index = i; // i < length
  return {
    low: low[index] as number, // a signal holds at least one segment
    at: { from: edgeAt(timing, index), to: edgeAt(timing, index + 1) },
    high: signal.outside === "unsampled" ? null : greatestUpper(high ?? low),
  };
}

function greatestUpper(values: Int32Array): number | null {
  let greatest = 0;
  for (let i = 0; i < values.length; i += 1) if ((values[i] as number) > greatest) greatest = values[i] as number; // i < length
  return greatest === OPEN ? null : greatest;
}
