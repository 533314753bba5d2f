/** What a signal rests on: how long of each kind, and the sums that averages and break-even values need. */
import { nextCode, OPEN, STRETCH, type TwoEdgedSignal } from "../recording/index.ts";
import { BLOCK, edgeAt, integralBetween, type SignalSums, segmentAt } from "./edge-sums.ts";

export interface StretchSums {
  readonly lengthMs: number;
  /** Milliseconds by STRETCH code. */
  readonly msByCode: readonly number[];
  /** Time that was really measured, over range included. */
  readonly sampledMs: number;
  /** Integrals of both edges over the measured time; `sampledHigh` null where over range left it open. */
  readonly sampledLow: number;
  readonly sampledHigh: number | null;
  /** Integral of the upper edge where it is not open, and how long it is open. */
  readonly knownHigh: number;
  readonly openMs: number;
  /** As `openMs`, without time said to be like the sampled time or bounded as an average only. */
  readonly undeclaredMs: number;
  /**
   * Integral of what was shown or declared at its word: readings, declared worst cases; null where over range was met, or
   * where readings claim one moment and differ by more than the rounding of a step: then neither is the better figure.
   */
  readonly best: number | null;
}

/**
 * Sums over the whole signal, one pass where anything but plain readings occurs; no pass where nothing does.
 *
 * `noughtHides`, in steps, is how much a shown nought can hide (the dead band): an upper level up to there over a nought or a
 * negative reading is no second claim. Never refuses.
 *
 * @example
 * ```ts
 * import { signalSums } from "./edge-sums.ts";
 * import { stretchSums } from "./stretch-sums.ts";
 * const signal = { decimals: 0, timing: { kind: "uneven", edges: Float64Array.of(0, 10, 30) } as const, low: Int32Array.of(5, 0),
 *   high: Int32Array.of(5, 0x7fffffff), stretches: Uint8Array.of(0, 2), averageOnly: [], outside: "unexposed", largest: 600 } as const;
 * const sums = stretchSums(signalSums(signal));
 * [sums.sampledMs, sums.sampledLow, sums.openMs]; // => [10, 50, 20]
 * const best = (upper: number) => stretchSums(signalSums({ ...signal, low: Int32Array.of(5, 5), high: Int32Array.of(5, upper), stretches: null })).best;
 * [best(6), best(9)]; // => [150, null]
 * ```
 * Source: ours.
 */
export function stretchSums(sums: SignalSums, noughtHides = 0): StretchSums {
  const { signal, low } = sums;
  const lengthMs = low.end - low.start;
  if (signal.high === null && signal.stretches === null && low.least >= 0)
    return plainSums(lengthMs, integralBetween(low, low.start, low.end));
  const walked = walkedSums(sums, lengthMs);
  return walked.best !== null && isContested(sums, noughtHides) ? { ...walked, best: null } : walked;
}

/** Whether some measured moment has two claims: two readings of one instant, or two parts after a clock was set back. */
function isContested({ signal, apart }: SignalSums, noughtHides: number): boolean {
  const { low, high, stretches } = signal;
  if (high === null || apart === null) return false;
  for (let block = nextCode(apart, 1, -1); block >= 0; block = nextCode(apart, 1, block)) {
    const past = Math.min(low.length, (block + 1) * BLOCK);
    for (let i = block * BLOCK; i < past; i += 1) {
      const lower = low[i] as number; // i < length
      const isNarrow = (high[i] as number) - (lower > 0 ? lower : noughtHides) <= 1; // as long as low
      if (!isNarrow && (stretches === null || stretches[i] === STRETCH.sampled)) return true;
    }
  }
  return false;
}

function plainSums(lengthMs: number, total: number): StretchSums {
  return {
    lengthMs,
    sampledMs: lengthMs,
    sampledLow: total,
    sampledHigh: total,
    knownHigh: total,
    best: total,
    msByCode: [lengthMs, 0, 0, 0, 0, 0, 0],
    openMs: 0,
    undeclaredMs: 0,
  };
}

function walkedSums({ signal, low, upper, apart }: SignalSums, lengthMs: number): StretchSums {
  const tally = emptyTally();
  const { stretches } = signal;
  const words =
    stretches === null || stretches.byteOffset % 4 !== 0
      ? null
      : new Uint32Array(stretches.buffer, stretches.byteOffset, stretches.length >> 2);
  for (let block = 0; block < low.blocks; block += 1) {
    const first = block * BLOCK;
    const past = Math.min(low.count, first + BLOCK);
    const isOpen = apart !== null && apart[block] === 1 && upper.highest[block] === OPEN;
    if (isOpen || (stretches !== null && !allSampled(words, first, past))) {
      walk(signal, first, past, tally);
      continue;
    }
    const lengthOfBlock = (low.times[block + 1] as number) - (low.times[block] as number); // blocks + 1 times
    tally.msByCode[0] = (tally.msByCode[0] as number) + lengthOfBlock; // seven codes
    const known = (upper.sums[block + 1] as number) - (upper.sums[block] as number); // blocks + 1 sums
    tally.sampledLow += (low.sums[block + 1] as number) - (low.sums[block] as number); // blocks + 1 sums
    tally.sampledHigh += known;
    tally.knownHigh += known;
  }
  return sumsOf(tally, lengthMs);
}

/** Whether four codes a word are all `sampled`; false where the words do not cover the block. */
function allSampled(words: Uint32Array | null, first: number, past: number): boolean {
  if (words === null || past % 4 !== 0) return false;
  let codes = 0;
  for (let word = first >> 2; word < past >> 2; word += 1) codes |= words[word] as number; // word < length
  return codes === 0;
}

interface Tally {
  readonly msByCode: number[];
  sampledLow: number;
  sampledHigh: number;
  sampledOpen: boolean;
  knownHigh: number;
  openMs: number;
  undeclaredMs: number;
  declaredAtWord: number;
}

const emptyTally = (): Tally => ({
  msByCode: [0, 0, 0, 0, 0, 0, 0],
  sampledLow: 0,
  sampledHigh: 0,
  sampledOpen: false,
  knownHigh: 0,
  openMs: 0,
  undeclaredMs: 0,
  declaredAtWord: 0,
});

function walk({ low, high, stretches, timing }: TwoEdgedSignal, first: number, past: number, tally: Tally): void {
  let edge = edgeAt(timing, first);
  for (let i = first; i < past; i += 1) {
    const next = edgeAt(timing, i + 1);
    const ms = next - edge;
    edge = next;
    const lower = low[i] as number; // i < length
    const upper = high === null ? lower : (high[i] as number); // as long as low
    const code = stretches === null ? STRETCH.sampled : (stretches[i] as number); // as long as low
    tally.msByCode[code] = (tally.msByCode[code] as number) + ms; // seven codes
    const open = upper === OPEN;
    if (open) tally.openMs += ms;
    else tally.knownHigh += upper * ms;
    if (code === STRETCH.sampled || code === STRETCH.bounded) {
      tally.sampledLow += lower * ms;
      if (open) tally.sampledOpen = true;
      else tally.sampledHigh += upper * ms;
    } else if (code === STRETCH.declaredWorstCase && !open) tally.declaredAtWord += upper * ms;
    if (open && code !== STRETCH.declaredLikeSampled && code !== STRETCH.declaredAverageOnly) tally.undeclaredMs += ms;
  }
}

function sumsOf(tally: Tally, lengthMs: number): StretchSums {
  const { msByCode, sampledLow, sampledHigh, sampledOpen, knownHigh, openMs, undeclaredMs, declaredAtWord } = tally;
  const boundedMs = msByCode[STRETCH.bounded] ?? 0;
  return {
    lengthMs,
    msByCode,
    sampledLow,
    knownHigh,
    openMs,
    undeclaredMs,
    sampledMs: (msByCode[STRETCH.sampled] ?? 0) + boundedMs,
    sampledHigh: sampledOpen ? null : sampledHigh,
    best: boundedMs > 0 ? null : sampledLow + declaredAtWord,
  };
}

/**
 * Milliseconds within [from, to) that were really measured, over range included; time outside the signal counts as not
 * measured.
 *
 * @example
 * ```ts
 * import { sampledMsBetween } from "./stretch-sums.ts";
 * const signal = { decimals: 0, timing: { kind: "uneven", edges: Float64Array.of(0, 10, 30) } as const, low: Int32Array.of(5, 0),
 *   high: Int32Array.of(5, 0x7fffffff), stretches: Uint8Array.of(0, 2), averageOnly: [], outside: "unexposed", largest: 600 } as const;
 * [sampledMsBetween(signal, 0, 30), sampledMsBetween(signal, -20, 4)]; // => [10, 4]
 * ```
 * Never refuses. Source: ours.
 */
export function sampledMsBetween(signal: TwoEdgedSignal, from: number, to: number): number {
  const count = signal.low.length;
  const start = Math.max(from, edgeAt(signal.timing, 0));
  const end = Math.min(to, edgeAt(signal.timing, count));
  if (end <= start) return 0;
  if (signal.stretches === null) return end - start;
  let sampled = 0;
  for (let i = segmentAt(signal.timing, count, start); i < count; i += 1) {
    const segmentStart = edgeAt(signal.timing, i);
    if (segmentStart >= end) break;
    const code = signal.stretches[i];
    if (code === STRETCH.sampled || code === STRETCH.bounded)
      sampled += Math.min(end, edgeAt(signal.timing, i + 1)) - Math.max(start, segmentStart);
  }
  return sampled;
}
