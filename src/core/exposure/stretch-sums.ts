/** What a signal rests on: how long of each kind, and the sums that averages and break-even values need. */
import { OPEN, STRETCH, type TwoEdgedSignal } from "../recording/signal.ts";
import { edgeAt, integralBetween, segmentAt, type SignalSums } from "./edge-sums.ts";

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
  /** Measured time with readings below nought. */
  readonly negativeMs: number;
  /** Integral of what was shown or declared at its word: readings, declared worst cases; null where over range was met. */
  readonly best: number | null;
}

/** Sums over the whole signal, one pass where anything but plain readings occurs; no pass where nothing does. */
export function stretchSums(sums: SignalSums): StretchSums {
  const { signal, low } = sums;
  const lengthMs = low.end - low.start;
  if (signal.high === null && signal.stretches === null && low.least >= 0) return plainSums(lengthMs, integralBetween(low, low.start, low.end));
  return walkedSums(signal, lengthMs);
}

function plainSums(lengthMs: number, total: number): StretchSums {
  return {
    lengthMs, sampledMs: lengthMs, sampledLow: total, sampledHigh: total, knownHigh: total, best: total,
    msByCode: [lengthMs, 0, 0, 0, 0, 0, 0], openMs: 0, undeclaredMs: 0, negativeMs: 0,
  };
}

function walkedSums(signal: TwoEdgedSignal, lengthMs: number): StretchSums {
  const { low, high, stretches, timing } = signal;
  const msByCode = [0, 0, 0, 0, 0, 0, 0];
  let sampledLow = 0;
  let sampledHigh = 0;
  let sampledOpen = false;
  let knownHigh = 0;
  let openMs = 0;
  let undeclaredMs = 0;
  let negativeMs = 0;
  let declaredAtWord = 0;
  let edge = edgeAt(timing, 0);
  for (let i = 0; i < low.length; i += 1) {
    const next = edgeAt(timing, i + 1);
    const ms = next - edge;
    edge = next;
    const lower = low[i] as number; // i < length
    const upper = high === null ? lower : (high[i] as number); // as long as low
    const code = stretches === null ? STRETCH.sampled : (stretches[i] as number); // as long as low
    msByCode[code] = (msByCode[code] as number) + ms; // seven codes
    const open = upper === OPEN;
    if (open) openMs += ms;
    else knownHigh += upper * ms;
    if (code === STRETCH.sampled || code === STRETCH.bounded) {
      sampledLow += lower * ms;
      if (open) sampledOpen = true;
      else sampledHigh += upper * ms;
      if (lower < 0) negativeMs += ms;
    } else if (code === STRETCH.declaredWorstCase && !open) declaredAtWord += upper * ms;
    if (open && code !== STRETCH.declaredLikeSampled && code !== STRETCH.declaredAverageOnly) undeclaredMs += ms;
  }
  const bounded = (msByCode[STRETCH.bounded] ?? 0) > 0;
  return {
    lengthMs, msByCode, sampledLow, knownHigh, openMs, undeclaredMs, negativeMs,
    sampledMs: (msByCode[STRETCH.sampled] ?? 0) + (msByCode[STRETCH.bounded] ?? 0),
    sampledHigh: sampledOpen ? null : sampledHigh,
    best: bounded ? null : sampledLow + declaredAtWord,
  };
}

/** Milliseconds within [from, to) that were really measured; time outside the signal counts as not measured. */
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
    if (code === STRETCH.sampled || code === STRETCH.bounded) sampled += Math.min(end, edgeAt(signal.timing, i + 1)) - Math.max(start, segmentStart);
  }
  return sampled;
}
