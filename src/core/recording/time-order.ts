/**
 * Row numbers in rising order of time, rows of one instant in order of their lines. Logs are nearly always made of a
 * few rising runs (an appended part, a clock set back) or one falling run (newest first), so runs are merged.
 *
 * @param times milliseconds, finite
 * @param lines line of each row
 * @param count rows to order
 * @example
 * ```ts
 * import { orderOfTimes } from "./time-order.ts";
 * [...orderOfTimes(Float64Array.of(30, 20, 10), Uint32Array.of(2, 3, 4), 3)]; // => [2, 1, 0]
 * ```
 */
export function orderOfTimes(times: Float64Array, lines: Uint32Array, count: number): Uint32Array {
  let order = new Uint32Array(count);
  for (let row = 0; row < count; row += 1) order[row] = row;
  let starts = runStarts(times, lines, order, count);
  let spare = new Uint32Array(count);
  while (starts.length > 2) {
    const merged: number[] = [0];
    for (let run = 0; run + 1 < starts.length; run += 2) {
      const middle = starts[run + 1] ?? count;
      const end = starts[run + 2] ?? count;
      mergeRuns(times, lines, order, spare, starts[run] ?? 0, middle, end);
      if (end > (merged.at(-1) ?? 0)) merged.push(end);
    }
    [order, spare] = [spare, order];
    starts = merged;
  }
  return order;
}

/** Starts of the rising runs, and the count at the end; falling runs are turned round on the way. */
function runStarts(times: Float64Array, lines: Uint32Array, order: Uint32Array, count: number): number[] {
  const starts = [0];
  let start = 0;
  while (start < count) {
    let end = start + 1;
    if (end < count && isLater(times, lines, start, end)) {
      while (end < count && isLater(times, lines, end - 1, end)) end += 1;
      order.subarray(start, end).reverse();
    } else while (end < count && !isLater(times, lines, end - 1, end)) end += 1;
    starts.push(end);
    start = end;
  }
  return starts;
}

function isLater(times: Float64Array, lines: Uint32Array, one: number, other: number): boolean {
  const first = times[one] ?? 0;
  const second = times[other] ?? 0;
  return first > second || (first === second && (lines[one] ?? 0) > (lines[other] ?? 0));
}

function mergeRuns(
  times: Float64Array,
  lines: Uint32Array,
  from: Uint32Array,
  to: Uint32Array,
  start: number,
  middle: number,
  end: number,
): void {
  let left = start;
  let right = middle;
  for (let at = start; at < end; at += 1) {
    const takeRight = left >= middle || (right < end && isLater(times, lines, from[left] ?? 0, from[right] ?? 0));
    to[at] = takeRight ? (from[right++] ?? 0) : (from[left++] ?? 0);
  }
}
