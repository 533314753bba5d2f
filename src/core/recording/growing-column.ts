/**
 * Columns that grow while rows come, and hold readings in whole steps. The step is chosen as the digits come in: as
 * many decimals as were seen, but never so many that a day of the largest reading would leave the exact numbers.
 */

import type { ReadingCode } from "./channel.ts";
import { READING } from "./channel.ts";
import { floorQuotient, LARGEST_STEPS, MOST_DECIMALS, powerOfTen, stepsAbove, stepsBelow } from "./display-step.ts";

const FIRST_CAPACITY = 64;

/** Room for `wanted` rows: half as much again as before, so that growing costs a constant share of filling. */
export function roomFor(capacity: number, wanted: number): number {
  return Math.max(FIRST_CAPACITY, wanted, Math.ceil(capacity * 1.5));
}

export function grownFloats(old: Float64Array, capacity: number): Float64Array {
  const grown = new Float64Array(capacity);
  grown.set(old);
  return grown;
}

export function grownIntegers(old: Int32Array, capacity: number): Int32Array {
  const grown = new Int32Array(capacity);
  grown.set(old);
  return grown;
}

export function grownLines(old: Uint32Array, capacity: number): Uint32Array {
  const grown = new Uint32Array(capacity);
  grown.set(old);
  return grown;
}

export function grownCodes(old: Uint8Array, capacity: number): Uint8Array {
  const grown = new Uint8Array(capacity);
  grown.set(old);
  return grown;
}

/** One column of readings that is still being filled. */
export interface GrowingColumn {
  count: number;
  decimals: number;
  /** Largest |steps| so far at the present decimals. */
  largest: number;
  values: Int32Array;
  uppers: Int32Array | null;
  codes: Uint8Array | null;
}

export function emptyColumn(): GrowingColumn {
  return { count: 0, decimals: 0, largest: 0, values: new Int32Array(FIRST_CAPACITY), uppers: null, codes: null };
}

/** A copy of its own, so that two owners may go on filling. */
export function copiedColumn(column: GrowingColumn): GrowingColumn {
  return { ...column, values: column.values.slice(), uppers: column.uppers?.slice() ?? null, codes: column.codes?.slice() ?? null };
}

export function reserve(column: GrowingColumn, more: number): void {
  const wanted = column.count + more;
  if (wanted <= column.values.length) return;
  const capacity = roomFor(column.values.length, wanted);
  column.values = grownIntegers(column.values, capacity);
  if (column.uppers !== null) column.uppers = grownIntegers(column.uppers, capacity);
  if (column.codes !== null) column.codes = grownCodes(column.codes, capacity);
}

/** Appends one reading; room was reserved before. */
export function putReading(column: GrowingColumn, mantissa: number, decimals: number, code: number): void {
  if (code === READING.none || code === READING.fault || code === READING.overRangeUnbounded) return putWithoutNumber(column, code);
  if (decimals > column.decimals) raise(column, decimals);
  const spare = column.decimals - decimals;
  const steps = spare === 0 ? mantissa : mantissa * powerOfTen(spare);
  if (spare < 0 || steps > LARGEST_STEPS || steps < -LARGEST_STEPS) return putOutward(column, mantissa, decimals, code);
  write(column, steps, steps, code);
}

/**
 * Makes the step at least so fine, as far as the largest reading allows. A limit or a range top is given its place in
 * the same way as a reading.
 */
export function raise(column: GrowingColumn, decimals: number): void {
  const wanted = Math.min(decimals, MOST_DECIMALS);
  let by = 0;
  while (column.decimals + by < wanted && column.largest * powerOfTen(by + 1) <= LARGEST_STEPS) by += 1;
  if (by > 0) rescaleFiner(column, by);
}

/** Makes the step so coarse that a number fits; false where it does not even fit in whole units. */
export function makeRoomFor(column: GrowingColumn, mantissa: number, decimals: number): boolean {
  let target = column.decimals;
  while (target >= 0 && !fits(mantissa, decimals, target)) target -= 1;
  if (target < 0) return false;
  if (target < column.decimals) rescaleCoarser(column, column.decimals - target);
  return true;
}

function fits(mantissa: number, decimals: number, target: number): boolean {
  return stepsAbove(Math.abs(mantissa), decimals, target) <= LARGEST_STEPS;
}

function putWithoutNumber(column: GrowingColumn, code: number): void {
  write(column, 0, 0, code);
}

function putOutward(column: GrowingColumn, mantissa: number, decimals: number, code: number): void {
  if (!makeRoomFor(column, mantissa, decimals)) return putBeyondAllSteps(column, mantissa, code);
  write(column, stepsBelow(mantissa, decimals, column.decimals), stepsAbove(mantissa, decimals, column.decimals), code);
}

/** A number too large to be summed exactly is still a lower bound. One as far below nought, or "at most" as much, says nothing. */
function putBeyondAllSteps(column: GrowingColumn, mantissa: number, code: number): void {
  if (mantissa < 0 || code === READING.underRange) return putWithoutNumber(column, READING.fault);
  rescaleCoarser(column, column.decimals);
  write(column, LARGEST_STEPS, LARGEST_STEPS, READING.overRange);
}

function write(column: GrowingColumn, low: number, high: number, code: number): void {
  const row = column.count;
  column.values[row] = low;
  if (column.uppers !== null) column.uppers[row] = high;
  else if (high !== low) uppersOf(column)[row] = high;
  if (column.codes !== null) column.codes[row] = code;
  else if (code !== READING.valid) codesOf(column)[row] = code;
  const size = Math.max(high, -low);
  if (size > column.largest) column.largest = size;
  column.count = row + 1;
}

function uppersOf(column: GrowingColumn): Int32Array {
  column.uppers ??= column.values.slice();
  return column.uppers;
}

function codesOf(column: GrowingColumn): Uint8Array {
  column.codes ??= new Uint8Array(column.values.length);
  return column.codes;
}

function rescaleFiner(column: GrowingColumn, by: number): void {
  const factor = powerOfTen(by);
  for (const steps of [column.values, column.uppers]) {
    if (steps !== null) for (let row = 0; row < column.count; row += 1) steps[row] = (steps[row] ?? 0) * factor;
  }
  column.largest *= factor;
  column.decimals += by;
}

/** Floors nest (and so do ceilings), so the outcome does not depend on the order in which readings come. */
function rescaleCoarser(column: GrowingColumn, by: number): void {
  if (by === 0) return;
  const divisor = powerOfTen(by);
  const { values } = column;
  const uppers = uppersOf(column);
  for (let row = 0; row < column.count; row += 1) {
    values[row] = floorQuotient(values[row] ?? 0, divisor);
    uppers[row] = 0 - floorQuotient(-(uppers[row] ?? 0), divisor);
  }
  column.largest = 0 - floorQuotient(-column.largest, divisor);
  column.decimals -= by;
}

/** The wider of two claims about one instant. "No reading" says nothing; a fault outweighs everything. */
export interface Claim {
  readonly low: number;
  readonly high: number;
  readonly code: ReadingCode;
}

/**
 * Joins two claims about one instant into the narrowest one that both allow. The join does not depend on order or
 * grouping, so that neither does a recording.
 *
 * @example
 * ```ts
 * import { joinedClaim } from "./growing-column.ts";
 * joinedClaim({ low: 30, high: 30, code: 0 }, { low: 36, high: 36, code: 0 }); // => { "low": 30, "high": 36, "code": 0 }
 * joinedClaim({ low: 30, high: 30, code: 0 }, { low: 500, high: 500, code: 1 }); // => { "low": 30, "high": 30, "code": 1 }
 * ```
 */
export function joinedClaim(one: Claim, other: Claim): Claim {
  if (one.code === READING.none) return other;
  if (other.code === READING.none) return one;
  const above = isOpenAbove(one) || isOpenAbove(other);
  const below = one.code === READING.underRange || other.code === READING.underRange;
  if (one.code === READING.fault || other.code === READING.fault || (above && below)) return { low: 0, high: 0, code: READING.fault };
  const low = Math.min(one.low, other.low);
  const high = Math.max(one.high, other.high);
  if (above) return claimAbove(low, one, other);
  return below ? { low: high, high, code: READING.underRange } : { low, high, code: READING.valid };
}

/** The claim in one row: a bound has one number, the lower end of "at least" and the upper end of "at most". */
export function claimAt(column: GrowingColumn, row: number): Claim {
  const code = (column.codes?.[row] ?? READING.valid) as ReadingCode; // codes come from the table's reader as READING codes
  const low = column.values[row] ?? 0;
  const high = column.uppers?.[row] ?? low;
  if (code === READING.valid) return { low, high, code };
  const bound = code === READING.underRange ? high : low;
  return { low: bound, high: bound, code };
}

function claimAbove(low: number, one: Claim, other: Claim): Claim {
  const unbounded = one.code === READING.overRangeUnbounded || other.code === READING.overRangeUnbounded;
  return { low, high: low, code: unbounded && low === 0 ? READING.overRangeUnbounded : READING.overRange };
}

function isOpenAbove(claim: Claim): boolean {
  return claim.code === READING.overRange || claim.code === READING.overRangeUnbounded;
}
