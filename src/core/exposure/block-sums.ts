/** The loops that sum one edge of a signal block by block; everything that is asked of a signal reads every value here once. */
import { OPEN, type Timing } from "../recording/index.ts";

/** Segments in a block. 32 keeps the bounds of a sliding window tight and the sums small. */
export const BLOCK = 32;
export const BLOCK_BITS = 5;

/** What `edgeSums` keeps of every block. */
export interface Blocks {
  readonly times: Float64Array;
  readonly sums: Float64Array;
  readonly lowest: Int32Array;
  readonly highest: Int32Array;
}

/** Below this the sum of a block, and the difference of two values, fit 32 bits. */
const NARROW = 2 ** 26;

/** Another edge on the same timing: blocks in which it differs are marked with 1. */
export interface Beside {
  readonly values: Int32Array;
  readonly differs: Uint8Array;
}

/**
 * `largest`: the greatest |steps| of the values, as far as it is known. `beside`: marked on the way, so that no value is
 * read twice. Never refuses. Source: ours.
 */
export function sumBlocks(values: Int32Array, timing: Timing, into: Blocks, largest: number, beside: Beside | null = null): void {
  const isNarrow = largest < NARROW;
  if (beside !== null && !isNarrow) markDiffering(values, beside);
  const marked = isNarrow ? beside : null;
  if (timing.kind === "regular") sumRegularBlocks(values, timing, into, isNarrow, marked);
  else sumUnevenBlocks(values, timing.edges, into, isNarrow, marked);
}

/** Marks blocks in which two edges differ. Never refuses. Source: ours. */
export function markDiffering(values: Int32Array, { values: others, differs }: Beside): void {
  const count = values.length;
  for (let block = 0, first = 0; first < count; block += 1, first += BLOCK)
    if (!isSame(values, others, first, first + BLOCK < count ? first + BLOCK : count)) differs[block] = 1;
}

/**
 * The same of an edge beside sums of another one on the same timing: blocks that are not marked as differing are taken over.
 * Open values count as nought in the sums. Never refuses. Source: ours.
 */
export function sumBlocksBeside(values: Int32Array, other: Blocks & { readonly timing: Timing }, into: Blocks, differs: Uint8Array): void {
  const { sums, lowest, highest } = into;
  const { timing } = other;
  const count = values.length;
  let total = 0;
  for (let block = 0, first = 0; first < count; block += 1, first += BLOCK) {
    const past = first + BLOCK < count ? first + BLOCK : count;
    if (differs[block] === 0) {
      total += (other.sums[block + 1] as number) - (other.sums[block] as number); // blocks + 1 sums
      lowest[block] = other.lowest[block] as number; // block < blocks
      highest[block] = other.highest[block] as number; // block < blocks
    } else {
      total +=
        timing.kind === "regular"
          ? timing.stepMs * openBlock(values, first, past, into, block)
          : openUnevenBlock(values, timing.edges, first, past, into, block);
    }
    sums[block + 1] = total;
  }
}

function isSame(values: Int32Array, others: Int32Array, first: number, past: number): boolean {
  let differing = 0;
  for (let i = first; i < past; i += 1) differing |= (values[i] as number) ^ (others[i] as number); // i < past <= length of both
  return differing === 0;
}

/** Whether all values are at or above nought and so small that they can be summed and compared in 32 bits. */
function isNarrowBlock(values: Int32Array, first: number, past: number): boolean {
  let bits = 0;
  for (let i = first; i < past; i += 1) bits |= values[i] as number; // i < count
  return bits >>> 0 < NARROW;
}

function openBlock(values: Int32Array, first: number, past: number, into: Blocks, block: number): number {
  if (isNarrowBlock(values, first, past)) return narrowBlock(values, first, past, into, block);
  spanBlock(values, first, past, into, block);
  let steps = 0;
  for (let i = first; i < past; i += 1) {
    const value = values[i] as number; // i < count
    steps += value === OPEN ? 0 : value;
  }
  return steps;
}

function openUnevenBlock(values: Int32Array, edges: Float64Array, first: number, past: number, into: Blocks, block: number): number {
  if (isNarrowBlock(values, first, past)) return narrowUnevenBlock(values, edges, first, past, into, block);
  spanBlock(values, first, past, into, block);
  let sum = 0;
  let edge = edges[first] as number; // first < count
  for (let i = first; i < past; i += 1) {
    const value = values[i] as number; // i < count
    const next = edges[i + 1] as number; // count + 1 edges
    sum += (value === OPEN ? 0 : value) * (next - edge);
    edge = next;
  }
  return sum;
}

function spanBlock(values: Int32Array, first: number, past: number, { lowest, highest }: Blocks, block: number): void {
  let least = values[first] as number; // first < count
  let greatest = least;
  for (let i = first; i < past; i += 1) {
    const value = values[i] as number; // i < count
    if (value < least) least = value;
    if (value > greatest) greatest = value;
  }
  lowest[block] = least;
  highest[block] = greatest;
}

function sumRegularBlocks(
  values: Int32Array,
  timing: { readonly start: number; readonly stepMs: number },
  into: Blocks,
  isNarrow: boolean,
  beside: Beside | null,
): void {
  const { times, sums } = into;
  const count = values.length;
  let steps = 0;
  times[0] = timing.start;
  for (let block = 0, first = 0; first < count; block += 1, first += BLOCK) {
    const past = first + BLOCK < count ? first + BLOCK : count;
    if (beside !== null) steps += narrowBlockBeside(values, first, past, into, block, beside);
    else steps += isNarrow ? narrowBlock(values, first, past, into, block) : wideBlock(values, first, past, into, block);
    sums[block + 1] = steps * timing.stepMs;
    times[block + 1] = timing.start + past * timing.stepMs;
  }
}

/** Sum of a block; its extremes are noted on the way. */
function wideBlock(values: Int32Array, first: number, past: number, into: Blocks, block: number): number {
  let least = values[first] as number; // first < count
  let greatest = least;
  let sum = 0;
  for (let i = first; i < past; i += 1) {
    const value = values[i] as number; // i < count
    sum += value;
    if (value < least) least = value;
    if (value > greatest) greatest = value;
  }
  into.lowest[block] = least;
  into.highest[block] = greatest;
  return sum;
}

/**
 * The same in 32 bits and without a branch, twice as fast where readings are noisy: x >> 31 is all ones where x is
 * below nought, so a value takes the place of an extreme only where it passes it.
 */
function narrowBlock(values: Int32Array, first: number, past: number, into: Blocks, block: number): number {
  let least = values[first] as number; // first < count
  let greatest = least;
  let sum = 0;
  for (let i = first; i < past; i += 1) {
    const value = values[i] as number; // i < count
    sum = (sum + value) | 0;
    const below = (value - least) | 0;
    least = (least + (below & (below >> 31))) | 0;
    const above = (greatest - value) | 0;
    greatest = (greatest - (above & (above >> 31))) | 0;
  }
  into.lowest[block] = least;
  into.highest[block] = greatest;
  return sum;
}

function narrowBlockBeside(values: Int32Array, first: number, past: number, into: Blocks, block: number, beside: Beside): number {
  const others = beside.values;
  let least = values[first] as number; // first < count
  let greatest = least;
  let sum = 0;
  let differing = 0;
  for (let i = first; i < past; i += 1) {
    const value = values[i] as number; // i < count
    differing |= value ^ (others[i] as number); // as long as values
    sum = (sum + value) | 0;
    const below = (value - least) | 0;
    least = (least + (below & (below >> 31))) | 0;
    const above = (greatest - value) | 0;
    greatest = (greatest - (above & (above >> 31))) | 0;
  }
  into.lowest[block] = least;
  into.highest[block] = greatest;
  beside.differs[block] = differing === 0 ? 0 : 1;
  return sum;
}

function sumUnevenBlocks(values: Int32Array, edges: Float64Array, into: Blocks, isNarrow: boolean, beside: Beside | null): void {
  const { times, sums } = into;
  const count = values.length;
  let total = 0;
  times[0] = edges[0] as number; // count + 1 edges
  for (let block = 0, first = 0; first < count; block += 1, first += BLOCK) {
    const past = first + BLOCK < count ? first + BLOCK : count;
    if (beside !== null) total += narrowUnevenBlockBeside(values, edges, first, past, into, block, beside);
    else
      total += isNarrow
        ? narrowUnevenBlock(values, edges, first, past, into, block)
        : openUnevenBlock(values, edges, first, past, into, block);
    sums[block + 1] = total;
    times[block + 1] = edges[past] as number; // count + 1 edges
  }
}

function narrowUnevenBlock(values: Int32Array, edges: Float64Array, first: number, past: number, into: Blocks, block: number): number {
  let least = values[first] as number; // first < count
  let greatest = least;
  let edge = edges[first] as number; // count + 1 edges
  let sum = 0;
  for (let i = first; i < past; i += 1) {
    const value = values[i] as number; // i < count
    const next = edges[i + 1] as number; // count + 1 edges
    sum += value * (next - edge);
    edge = next;
    const below = (value - least) | 0;
    least = (least + (below & (below >> 31))) | 0;
    const above = (greatest - value) | 0;
    greatest = (greatest - (above & (above >> 31))) | 0;
  }
  into.lowest[block] = least;
  into.highest[block] = greatest;
  return sum;
}

function narrowUnevenBlockBeside(
  values: Int32Array,
  edges: Float64Array,
  first: number,
  past: number,
  into: Blocks,
  block: number,
  beside: Beside,
): number {
  const others = beside.values;
  let least = values[first] as number; // first < count
  let greatest = least;
  let edge = edges[first] as number; // count + 1 edges
  let sum = 0;
  let differing = 0;
  for (let i = first; i < past; i += 1) {
    const value = values[i] as number; // i < count
    const next = edges[i + 1] as number; // count + 1 edges
    differing |= value ^ (others[i] as number); // as long as values
    sum += value * (next - edge);
    edge = next;
    const below = (value - least) | 0;
    least = (least + (below & (below >> 31))) | 0;
    const above = (greatest - value) | 0;
    greatest = (greatest - (above & (above >> 31))) | 0;
  }
  into.lowest[block] = least;
  into.highest[block] = greatest;
  beside.differs[block] = differing === 0 ? 0 : 1;
  return sum;
}
