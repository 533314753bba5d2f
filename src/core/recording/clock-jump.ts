import type { Channel } from "./channel.ts";
import { remembered } from "./remembered.ts";
import { orderOfTimes } from "./time-order.ts";

/** A clock that was set back while it logged: two parts of one recording claim the same time. */
export interface ClockJump {
  /** Last line before the clock was set, and first line after. */
  readonly lineBefore: number;
  readonly lineAfter: number;
  /** By how much it went back, milliseconds. */
  readonly backMs: number;
  /** The stretch that both parts claim, on the clock of the recording. */
  readonly from: number;
  readonly to: number;
}

/** Fewer rows than this on a side are rows out of order, not a clock that was set. */
const ROWS_A_SIDE = 3;
const LARGEST_SHARE = 0.01;

/**
 * Places where the clock was set back during the recording, read from the order of lines. A clock set forward looks
 * like a gap and is treated as one. A file whose rows are shuffled throughout has no such places.
 *
 * Never refuses; without lines nothing is known.
 * @example
 * ```ts
 * import { clockJumps } from "./clock-jump.ts";
 * const channel = { name: "CO", series: null, gas: null, unit: "ppm", kind: "spot", decimals: 0, times: Float64Array.of(0, 10, 15, 20, 25, 35),
 *   values: new Int32Array(6), uppers: null, codes: null, lines: Uint32Array.of(2, 3, 5, 4, 6, 7), rangeTop: null } as const;
 * clockJumps(channel); // => [{ "lineBefore": 4, "lineAfter": 5, "backMs": 5, "from": 15, "to": 20 }]
 * ```
 * Source: exposure chapter section 2 rule 4 [ours]; thresholds are ours.
 */
export function clockJumps(channel: Channel): readonly ClockJump[] {
  const { lines, times } = channel;
  if (lines === null || remembered(rising, lines, isRising)) return [];
  const order = orderOfTimes(Float64Array.from(lines), lines, lines.length);
  const starts = backwardSteps(times, order);
  if (starts.length > Math.max(1, LARGEST_SHARE * times.length)) return [];
  const jumps: ClockJump[] = [];
  starts.forEach((start, number) => {
    const jump = jumpAt(times, lines, order, starts[number - 1] ?? 0, start, starts[number + 1] ?? order.length);
    if (jump !== null) jumps.push(jump);
  });
  return jumps;
}

const rising = new WeakMap<Uint32Array, { readonly found: boolean }>();

function isRising(lines: Uint32Array): boolean {
  let before = 0;
  for (let row = 0; row < lines.length; row += 1) {
    const line = lines[row] ?? 0;
    if (line < before) return false;
    before = line;
  }
  return true;
}

/** Positions in file order at which time falls back. */
function backwardSteps(times: Float64Array, order: Uint32Array): number[] {
  const starts: number[] = [];
  for (let at = 1; at < order.length; at += 1) {
    if ((times[order[at] ?? 0] ?? 0) < (times[order[at - 1] ?? 0] ?? 0)) starts.push(at);
  }
  return starts;
}

function jumpAt(times: Float64Array, lines: Uint32Array, order: Uint32Array, before: number, start: number, end: number): ClockJump | null {
  if (start - before < ROWS_A_SIDE || end - start < ROWS_A_SIDE) return null;
  const lastRow = order[start - 1] ?? 0;
  const firstRow = order[start] ?? 0;
  const last = times[lastRow] ?? 0;
  const first = times[firstRow] ?? 0;
  const from = Math.max(first, times[order[before] ?? 0] ?? 0);
  const to = Math.min(last, times[order[end - 1] ?? 0] ?? 0);
  if (from >= to) return null;
  return { lineBefore: lines[lastRow] ?? 0, lineAfter: lines[firstRow] ?? 0, backMs: last - first, from, to };
}
