/** The better figure: readings as shown, declared worst cases at their word; none where what is in doubt could move it. */
import { nextCode, STRETCH, type TwoEdgedSignal } from "../recording/index.ts";
import { BLOCK, type EdgeSums, edgeSums, type SignalSums } from "./edge-sums.ts";
import { type Confinement, type GreatestWindow, greatestWindow, isWindowAbove } from "./greatest-window.ts";

/** Kept for as long as the sums they belong to: every window length asks for them. */
const knownAtWord = new WeakMap<SignalSums, EdgeSums>();

/**
 * Sums of readings as shown and declared worst cases at their word; nought where nothing was measured or said.
 *
 * @example
 * ```ts
 * import { sumsAtWord } from "./at-word.ts";
 * import { signalSums } from "./edge-sums.ts";
 * const signal = { decimals: 0, timing: { kind: "uneven", edges: Float64Array.of(0, 10, 20, 30) } as const, low: Int32Array.of(5, 0, 0),
 *   high: Int32Array.of(5, 9, 0x7fffffff), stretches: Uint8Array.of(0, 4, 2), averageOnly: [], outside: "unexposed", largest: 600 } as const;
 * [...sumsAtWord(signalSums(signal)).values]; // => [5, 9, 0]
 * ```
 * Never refuses. Source: ours.
 */
export function sumsAtWord(sums: SignalSums): EdgeSums {
  const known = knownAtWord.get(sums);
  if (known !== undefined) return known;
  const made = sums.high !== null && partsOnlyInWorstCases(sums) ? sums.high : sumsOfLevels(sums, levelsAtWord(sums.signal));
  knownAtWord.set(sums, made);
  return made;
}

const sumsOfLevels = ({ low, signal }: SignalSums, levels: Int32Array): EdgeSums =>
  levels === signal.low ? low : edgeSums(levels, signal.timing);

/** Whether the two edges differ nowhere but where a worst case was declared: then the upper one is what was said. */
function partsOnlyInWorstCases({ signal, apart }: SignalSums): boolean {
  const { low, high, stretches } = signal;
  if (high === null || apart === null) return true;
  for (let block = nextCode(apart, 1, -1); block >= 0; block = nextCode(apart, 1, block)) {
    const past = Math.min(low.length, (block + 1) * BLOCK);
    for (let i = block * BLOCK; i < past; i += 1) {
      if (low[i] !== high[i] && stretches?.[i] !== STRETCH.declaredWorstCase) return false;
    }
  }
  return true;
}

/** Readings as shown, declared worst cases at their word. */
function levelsAtWord({ low, high, stretches }: TwoEdgedSignal): Int32Array {
  if (high === null || stretches === null || !stretches.includes(STRETCH.declaredWorstCase)) return low;
  const levels = Int32Array.from(low);
  for (let i = nextCode(stretches, STRETCH.declaredWorstCase, -1); i >= 0; i = nextCode(stretches, STRETCH.declaredWorstCase, i)) {
    levels[i] = high[i] as number; // as long as stretches
  }
  return levels;
}

/**
 * Sums at their word with every level in doubt at its upper end: bounds (over or under range, peaks of intervals), and
 * moments of which two claims differ by more than the rounding of a step. Null where nothing is in doubt.
 *
 * `noughtHides`, in steps: as for `stretchSums`; below nought where readings claim one instant and differ, so that every
 * level below nought is in doubt.
 *
 * @example
 * ```ts
 * import { sumsInDoubt } from "./at-word.ts";
 * import { signalSums } from "./edge-sums.ts";
 * const signal = { decimals: 0, timing: { kind: "uneven", edges: Float64Array.of(0, 10, 20, 30) } as const, low: Int32Array.of(5, 4, 7),
 *   high: Int32Array.of(6, 9, 7), stretches: null, averageOnly: [], outside: "unexposed", largest: 600 } as const;
 * [...(sumsInDoubt(signalSums(signal), 0)?.values ?? [])]; // => [5, 9, 7]
 * ```
 * Never refuses. Source: ours.
 */
export function sumsInDoubt(sums: SignalSums, noughtHides: number): EdgeSums | null {
  const { signal, apart } = sums;
  const { low, high } = signal;
  if (high === null || apart === null) return null;
  let levels: Int32Array | null = null;
  for (let block = nextCode(apart, 1, -1); block >= 0; block = nextCode(apart, 1, block)) {
    const past = Math.min(low.length, (block + 1) * BLOCK);
    for (let i = block * BLOCK; i < past; i += 1) {
      if (!isInDoubt(signal, high, i, noughtHides)) continue;
      levels ??= sumsAtWord(sums).values.slice();
      levels[i] = high[i] as number; // as long as low
    }
  }
  return levels === null ? null : edgeSums(levels, signal.timing);
}

function isInDoubt({ low, stretches }: TwoEdgedSignal, high: Int32Array, index: number, noughtHides: number): boolean {
  const lower = low[index] as number; // a segment of the signal
  const upper = high[index] as number; // as long as low
  const code = stretches === null ? STRETCH.sampled : stretches[index];
  if (lower === upper || (code !== STRETCH.sampled && code !== STRETCH.bounded)) return false;
  const claimed = lower > 0 ? lower : lower === 0 ? Math.max(0, noughtHides) : noughtHides;
  return code === STRETCH.bounded || upper - claimed > 1;
}

/** The greatest windows of both edges, found before. */
export interface WindowEnds {
  readonly low: GreatestWindow;
  readonly upper: GreatestWindow;
  readonly windowMs: number;
  readonly within: Confinement;
}

/**
 * The greatest window of what was shown and said; null where levels in doubt could make another one greater: a doubt far
 * from it takes nothing away. For signals whose upper edge is nowhere open.
 *
 * @example
 * ```ts
 * import { greatestAtWord } from "./at-word.ts";
 * import { signalSums } from "./edge-sums.ts";
 * import { greatestWindow } from "./greatest-window.ts";
 * // 10 ms at 5, 10 ms of which two readings claim 2 and `other`.
 * const atWord = (other: number) => {
 *   const signal = { decimals: 0, timing: { kind: "uneven", edges: Float64Array.of(0, 10, 20) } as const, low: Int32Array.of(5, 2),
 *     high: Int32Array.of(5, other), stretches: null, averageOnly: [], outside: "unexposed", largest: 600 } as const;
 *   const sums = signalSums(signal);
 *   const ends = { low: greatestWindow(sums.low, 10, null), upper: greatestWindow(sums.high ?? sums.low, 10, null), windowMs: 10, within: null };
 *   return greatestAtWord(sums, ends, 0)?.sum ?? null;
 * };
 * [atWord(5), atWord(9)]; // => [50, null]
 * ```
 * Never refuses. Source: a conflict is an interval, smallest to largest: handbook on exposure section 2 rule 3 [ours].
 */
export function greatestAtWord(sums: SignalSums, ends: WindowEnds, noughtHides: number): GreatestWindow | null {
  const { low, windowMs, within } = ends;
  const shown = windowAtWord(sums, ends);
  // Lower ends may be looked for in more windows than the upper ones: what was said is never below them.
  const word = shown.sum < low.sum ? low : shown;
  const inDoubt = sumsInDoubt(sums, noughtHides);
  return inDoubt !== null && isWindowAbove(inDoubt, windowMs, within, word.sum) ? null : word;
}

function windowAtWord(sums: SignalSums, { low, upper, windowMs, within }: WindowEnds): GreatestWindow {
  const atWord = sumsAtWord(sums);
  if (atWord === sums.low) return low;
  return atWord === sums.high ? upper : greatestWindow(atWord, windowMs, within);
}
