/**
 * The lowest and the highest that each reading allows, before it is known how long it stands. Follows the table in
 * section 2 of the exposure chapter, row by row.
 */

import type { Channel } from "./channel.ts";
import { READING } from "./channel.ts";
import type { ClockJump } from "./clock-jump.ts";
import { floorQuotient } from "./display-step.ts";
import { OPEN, STRETCH } from "./signal.ts";
import { pastZeros } from "./zero-bytes.ts";

/** Settings in steps of the channel. */
export interface BoundRules {
  /** A displayed nought can hide so much; null = none declared. Rounded up. */
  readonly deadBand: number | null;
  /** Negative readings down to minus this are drift around nought; null = none declared, all of them are. Rounded down. */
  readonly negativeFloor: number | null;
  readonly failedChecks: readonly FailedCheckRatio[];
  readonly clockJumps: readonly ClockJump[];
  readonly largestGapMs: number;
}

/** An after-use check that showed reading / known gas = reading / known, for readings in [from, to). */
export interface FailedCheckRatio {
  readonly from: number;
  readonly to: number;
  /** Whole numbers above 0. */
  readonly reading: number;
  readonly known: number;
}

export interface RowBounds {
  readonly low: Int32Array;
  /** Null where the same as `low` throughout. */
  readonly high: Int32Array | null;
  /** STRETCH codes `sampled`, `bounded`, `unsampled`; null where all are sampled. */
  readonly stretches: Uint8Array | null;
  readonly largest: number;
  /** Last row that holds a reading, -1 without. */
  readonly lastReading: number;
  /** Readings below the declared floor, or below nought without saying how far. */
  readonly belowFloor: number;
  /** Readings that are intervals: two claims about one instant, or digits finer than a step. */
  readonly intervals: number;
  /** Whether any reading lies below nought, and whether any is at or over the range top. */
  readonly anyNegative: boolean;
  readonly anyOver: boolean;
  /** Of the valid readings of the whole channel, as shown; null where they were not looked at one by one, or are intervals. */
  readonly shown: ShownSpan | null;
  /** Whether the columns are working space that the next bounds are laid into: who keeps them takes a copy. */
  readonly isBorrowed: boolean;
}

/** Least and greatest value of readings, steps; `least` above `most` where there is no reading. */
export interface ShownSpan {
  readonly least: number;
  readonly most: number;
}

/** Columns for the bounds of one channel. */
export interface BoundsRoom {
  readonly low: Int32Array;
  readonly high: Int32Array;
  readonly stretches: Uint8Array;
}

export const boundsRoom = (count: number): BoundsRoom => ({
  low: new Int32Array(count),
  high: new Int32Array(count),
  stretches: new Uint8Array(count),
});

/** The channel's own values serve as both edges where nothing widens them. `borrowed`: working space to lay the bounds into; null = their own. */
export function rowBounds(channel: Channel, rules: BoundRules, borrowed: BoundsRoom | null = null): RowBounds {
  const lastReading = lastReadingOf(channel);
  if (
    channel.codes === null &&
    channel.uppers === null &&
    channel.kind !== "interval peak" &&
    rules.failedChecks.length === 0 &&
    rules.clockJumps.length === 0
  ) {
    const { lowest, highest } = extremes(channel.values);
    const aboveDeadBand = lowest > 0 || (lowest === 0 && rules.deadBand === null);
    if (aboveDeadBand && (channel.rangeTop === null || highest < channel.rangeTop)) {
      const plain = { high: null, stretches: null, belowFloor: 0, intervals: 0, anyNegative: false, anyOver: false, isBorrowed: false };
      const shown = { least: lowest, most: highest };
      return { ...plain, low: channel.values, largest: Math.max(highest, 0), lastReading, shown };
    }
  }
  const bounds = widened(channel, rules, lastReading, borrowed);
  for (const jump of rules.clockJumps) joinOverlap(channel, bounds, jump, rules.largestGapMs);
  return bounds;
}

function lastReadingOf({ codes, times }: Channel): number {
  let row = times.length - 1;
  while (codes !== null && row >= 0 && (codes[row] === READING.none || codes[row] === READING.fault)) row -= 1;
  return row;
}

function extremes(values: Int32Array): { lowest: number; highest: number } {
  let lowest = OPEN;
  let highest = -OPEN;
  for (let row = 0; row < values.length; row += 1) {
    const value = values[row] ?? 0;
    if (value < lowest) lowest = value;
    if (value > highest) highest = value;
  }
  return { lowest, highest };
}

interface MutableBounds extends RowBounds {
  readonly shown: { least: number; most: number } | null;
  readonly high: Int32Array;
  readonly stretches: Uint8Array;
  largest: number;
  belowFloor: number;
  intervals: number;
  anyNegative: boolean;
  anyOver: boolean;
}

/** Nothing that an instrument shows is lower. */
const LEAST = -OPEN;

function emptyBounds(count: number, lastReading: number, isPlain: boolean, borrowed: BoundsRoom | null): MutableBounds {
  const { low, high, stretches } = borrowed ?? boundsRoom(count);
  return {
    low: low.subarray(0, count),
    high: high.subarray(0, count),
    stretches: stretches.subarray(0, count).fill(STRETCH.sampled),
    largest: 0,
    lastReading,
    belowFloor: 0,
    intervals: 0,
    anyNegative: false,
    anyOver: false,
    shown: isPlain ? { least: OPEN, most: -OPEN } : null,
    isBorrowed: borrowed !== null,
  };
}

function widened(channel: Channel, rules: BoundRules, lastReading: number, borrowed: BoundsRoom | null): MutableBounds {
  const { values, uppers, codes, times } = channel;
  const count = values.length;
  const isPeak = channel.kind === "interval peak";
  const isPlain = !isPeak && uppers === null && rules.failedChecks.length === 0;
  const bounds = emptyBounds(count, lastReading, isPlain, borrowed);
  for (
    let row = isPlain ? usualRows(channel, rules, bounds, 0) : 0;
    row < count;
    row = isPlain ? usualRows(channel, rules, bounds, row + 1) : row + 1
  ) {
    const value = values[row] ?? 0;
    const code = codes === null ? READING.valid : (codes[row] ?? 0);
    if (code === READING.valid && bounds.shown !== null) widen(bounds.shown, value, value);
    if (code === READING.none || code === READING.fault || isBelowFloor(code, value, rules.negativeFloor)) {
      if (code !== READING.none && code !== READING.fault) bounds.belowFloor += 1;
      if (code === READING.valid) bounds.anyNegative = true;
      setUnsampled(bounds, row);
    } else {
      const upper = uppers === null ? value : (uppers[row] ?? 0);
      if (upper > value) bounds.intervals += 1;
      const checks = rules.failedChecks.length === 0 ? null : checksAt(rules.failedChecks, times[row] ?? 0);
      const highest = highOf(code, value, upper, checks, channel.rangeTop, rules.deadBand);
      setReading(bounds, row, lowOf(code, value, checks, isPeak), highest, isPeak);
    }
  }
  // A spot reading without a later one has no length: rows after it that say "no reading" do not make it longer.
  if (channel.kind === "spot" && lastReading >= 0 && lastReading < count - 1) setUnsampled(bounds, lastReading);
  return bounds;
}

/**
 * Lays usual readings from a row on, valid, within the range and not below the floor, and gives the first row that is
 * none. The upper end of one is itself above nought, the dead band at nought, nought below it: without a branch, since a
 * drifting sensor goes to and fro. x >> 31 is all ones below nought.
 */
function usualRows(
  { values, codes, rangeTop }: Channel,
  { deadBand, negativeFloor }: BoundRules,
  bounds: MutableBounds,
  from: number,
): number {
  const { low, high } = bounds;
  // A valid reading has the code nought.
  const count = codes === null ? values.length : pastZeros(codes, from, values.length);
  const top = rangeTop ?? OPEN;
  const band = deadBand ?? 0;
  const floor = negativeFloor === null ? LEAST : Math.max(LEAST, 0 - negativeFloor);
  let [least, most, noughts] = [OPEN, -OPEN, 0];
  let row = from;
  for (; row < count; row += 1) {
    const value = values[row] as number; // row < length
    if (value >= top || value < floor) break;
    const isNought = ~((value | (0 - value)) >> 31);
    low[row] = value;
    high[row] = (value & ((0 - value) >> 31)) | (band & isNought);
    noughts |= isNought;
    if (value < least) least = value;
    if (value > most) most = value;
  }
  bounds.largest = Math.max(bounds.largest, most, -least, band & noughts);
  if (least < 0) bounds.anyNegative = true;
  if (bounds.shown !== null) widen(bounds.shown, least, most);
  return row;
}

function widen(shown: { least: number; most: number }, least: number, most: number): void {
  if (least < shown.least) shown.least = least;
  if (most > shown.most) shown.most = most;
}

function setUnsampled(bounds: MutableBounds, row: number): void {
  bounds.low[row] = 0;
  bounds.high[row] = OPEN;
  bounds.stretches[row] = STRETCH.unsampled;
}

function setReading(bounds: MutableBounds, row: number, low: number, high: number, isPeak: boolean): void {
  bounds.low[row] = low;
  bounds.high[row] = high;
  bounds.stretches[row] = high === OPEN || isPeak ? STRETCH.bounded : STRETCH.sampled;
  if (low < 0) bounds.anyNegative = true;
  if (high === OPEN) bounds.anyOver = true;
  const size = Math.max(high === OPEN ? 0 : high, low, -low);
  if (size > bounds.largest) bounds.largest = size;
}

/** "At most nought or less" says that the sensor has drifted, and not how far. [ours] */
function isBelowFloor(code: number, value: number, floor: number | null): boolean {
  if (code === READING.underRange) return value <= 0;
  return code === READING.valid && floor !== null && value < -floor;
}

/** Checks that cover a reading; where there are several, the widest interval over all of them is taken. */
function checksAt(checks: readonly FailedCheckRatio[], time: number): readonly FailedCheckRatio[] | null {
  const covering = checks.filter((check) => time >= check.from && time < check.to);
  return covering.length === 0 ? null : covering;
}

function lowOf(code: number, value: number, checks: readonly FailedCheckRatio[] | null, isPeak: boolean): number {
  if (code === READING.underRange || code === READING.overRangeUnbounded) return 0;
  let low = value;
  for (const check of checks ?? []) low = Math.min(low, floorQuotient(value * check.known, check.reading));
  return isPeak ? Math.min(low, 0) : low;
}

function highOf(
  code: number,
  value: number,
  upper: number,
  checks: readonly FailedCheckRatio[] | null,
  rangeTop: number | null,
  deadBand: number | null,
): number {
  if (code === READING.overRange || code === READING.overRangeUnbounded) return OPEN;
  if (rangeTop !== null && upper >= rangeTop) return OPEN;
  let high = upper;
  for (const check of checks ?? []) high = Math.max(high, 0 - floorQuotient(-upper * check.known, check.reading));
  if (value > 0) return high;
  return Math.max(high, upper >= 0 ? (deadBand ?? 0) : 0);
}

/**
 * Where two parts of a recording claim one stretch of time, every reading there takes in all readings that stand
 * beside it: those of the largest gap before.
 */
function joinOverlap(channel: Channel, bounds: RowBounds, jump: ClockJump, largestGapMs: number): void {
  const { times } = channel;
  const { low, high, stretches } = bounds;
  if (high === null || stretches === null) return;
  const lows = low.slice();
  const highs = high.slice();
  for (let row = 0; row < times.length; row += 1) {
    const time = times[row] ?? 0;
    if (time < jump.from || time > jump.to) continue;
    for (let other = row - 1; other >= 0 && (times[other] ?? 0) > time - largestGapMs; other -= 1) {
      if (stretches[other] === STRETCH.unsampled || stretches[row] === STRETCH.unsampled) continue;
      low[row] = Math.min(low[row] ?? 0, lows[other] ?? 0);
      high[row] = Math.max(high[row] ?? 0, highs[other] ?? 0);
    }
    if (high[row] === OPEN && stretches[row] === STRETCH.sampled) stretches[row] = STRETCH.bounded;
  }
}
