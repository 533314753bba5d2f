/** Greatest and least values: of the readings as shown, and of both edges of a signal. */
import { type Channel, OPEN, pastZeros, READING, type TwoEdgedSignal } from "../recording/index.ts";
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
 * not count. Never refuses.
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
export function readingExtremes(channel: Channel, from: number, to: number): ReadingExtremes {
  const firstRow = firstAtLeast(channel.times, from);
  const past = firstAtLeast(channel.times, to, true);
  const { values, codes, uppers } = channel;
  if (codes === null && uppers === null) return plainExtremes(channel, firstRow, past);
  if (codes !== null && uppers === null) return codedExtremes(channel, codes, firstRow, past);
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
function plainExtremes({ values, times }: Channel, firstRow: number, past: number): ReadingExtremes {
  let greatest = values[firstRow] as number; // undefined only where there are no rows
  let least = greatest;
  for (let i = firstRow; i < past; i += 1) {
    const value = values[i] as number; // i < length
    if (value > greatest) greatest = value;
    if (value < least) least = value;
  }
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
    greatest: rows === 0 ? null : { ...found(greatest), atLeast: false },
    least: rows === 0 ? null : { ...found(least), atMost: false },
  };
}

/** Rows with codes, each of them one reading at most: as the loop above, without what it asks of two ends. */
function codedExtremes({ values, times }: Channel, codes: Uint8Array, firstRow: number, past: number): ReadingExtremes {
  const found: Extremes = { greatest: -OPEN, least: OPEN, greatestRow: -1, leastRow: -1 };
  let [readings, unbounded] = [0, -1];
  for (let i = firstRow; i < past; i += 1) {
    const next = validRows(values, codes, i, past, found);
    readings += next - i;
    i = next;
    const code = i < past ? codes[i] : READING.none;
    if (code === READING.none || code === READING.fault) continue;
    readings += 1;
    if (code === READING.overRangeUnbounded) {
      if (unbounded < 0) unbounded = i;
      continue;
    }
    const value = values[i] as number; // i < past
    if (code === READING.overRange && value > found.greatest) Object.assign(found, { greatest: value, greatestRow: i });
    if (value < found.least) Object.assign(found, { least: value, leastRow: i });
  }
  const { greatest, least, greatestRow, leastRow } = found;
  const at = (row: number): number => times[row] as number; // a row of the channel
  return {
    rows: past - firstRow,
    readings,
    firstRow,
    lastRow: past - 1,
    conflicts: 0,
    apart: 0,
    overRangeAt: unbounded < 0 ? null : at(unbounded),
    greatest: greatestRow < 0 ? null : { steps: greatest, at: at(greatestRow), atLeast: codes[greatestRow] === READING.overRange },
    least: leastRow < 0 ? null : { steps: least, at: at(leastRow), atMost: codes[leastRow] === READING.underRange },
  };
}

interface Extremes {
  greatest: number;
  least: number;
  greatestRow: number;
  leastRow: number;
}

/** Looks through valid rows (their code is nought) from one on, and gives the first that is none. */
function validRows(values: Int32Array, codes: Uint8Array, from: number, past: number, found: Extremes): number {
  let { greatest, least, greatestRow, leastRow } = found;
  const next = pastZeros(codes, from, past);
  for (let row = from; row < next; row += 1) {
    const value = values[row] as number; // row < past
    if (value > greatest) {
      greatest = value;
      greatestRow = row;
    }
    if (value < least) {
      least = value;
      leastRow = row;
    }
  }
  found.greatest = greatest;
  found.least = least;
  found.greatestRow = greatestRow;
  found.leastRow = leastRow;
  return next;
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
