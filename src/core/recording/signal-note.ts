/** What a person should know about a signal beside its figures: codes and figures, put into words by `report`. */

import type { Channel } from "./channel.ts";
import { READING } from "./channel.ts";
import type { ClockJump } from "./clock-jump.ts";
import type { DeclaredSteps, DeclaredTime } from "./declared-time.ts";
import { edgeAt, segmentCount } from "./pieces.ts";
import type { BoundRules, RowBounds } from "./row-bounds.ts";
import { firstRowFrom, type Period } from "./row-layout.ts";
import { STRETCH } from "./signal.ts";

export type SignalNote =
  /** Negative readings: nought has drifted, so that positive readings nearby may be too low as well. Steps. */
  | {
      readonly type: "negative readings";
      readonly count: number;
      readonly lowest: number;
      readonly longestRunMs: number;
      readonly floorDeclared: boolean;
    }
  | { readonly type: "below the negative floor"; readonly count: number }
  /** After over-range a sensor may read wrong: the rest is marked until it is proven again. */
  | { readonly type: "doubtful after over-range"; readonly from: number; readonly until: number }
  | ({ readonly type: "clock set back" } & ClockJump)
  | { readonly type: "over-range bound below a reading"; readonly declaration: string }
  /** A declaration of unexposed or unsampled time where the recording has readings: the readings stand. */
  | { readonly type: "declared where readings stand"; readonly declaration: string; readonly ms: number };

export function signalNotes(
  channel: Channel,
  bounds: RowBounds,
  rules: BoundRules,
  jumps: readonly ClockJump[],
  declaredTime: DeclaredTime,
  declared: readonly DeclaredSteps[],
  period: Period | null,
): readonly SignalNote[] {
  const notes: SignalNote[] = [];
  // Where the values themselves serve as both edges there is nothing negative, over range or below a floor.
  if (bounds.low !== channel.values) {
    if (bounds.anyNegative) notes.push(...negativeNotes(channel, rules, period));
    if (bounds.belowFloor > 0) notes.push({ type: "below the negative floor", count: bounds.belowFloor });
    if (bounds.anyOver) notes.push(...doubtNotes(channel, period));
  }
  for (const jump of jumps) notes.push({ type: "clock set back", ...jump });
  for (const declaration of declaredTime.belowReading) notes.push({ type: "over-range bound below a reading", declaration });
  notes.push(...overlapNotes(declaredTime, declared));
  return notes;
}

function negativeNotes({ values, codes, times }: Channel, rules: BoundRules, period: Period | null): SignalNote[] {
  let [count, lowest, longestRunMs] = [0, 0, 0];
  const past = period === null ? times.length : firstRowFrom(times, period.to);
  let row = period === null ? 0 : firstRowFrom(times, period.from);
  for (let runStart = row; row < past; row += 1) {
    // Without a branch, since a drifting sensor goes to and fro: x >> 31 is all ones below nought, and READING.valid is 0.
    const value = values[row] as number; // row < length
    const isValid = codes === null ? -1 : ((codes[row] as number) - 1) >> 31; // as long as values
    const isNegative = (value >> 31) & isValid;
    const from = (runStart & isNegative) | (row & ~isNegative);
    const runMs = (times[row] as number) - (times[from] as number); // as long as values, from <= row
    runStart = (runStart & isNegative) | ((row + 1) & ~isNegative);
    count -= isNegative;
    if ((value & isNegative) < lowest) lowest = value;
    if (runMs > longestRunMs) longestRunMs = runMs;
  }
  return count === 0 ? [] : [{ type: "negative readings", count, lowest, longestRunMs, floorDeclared: rules.negativeFloor !== null }];
}

/** From the first row after over-range to the end of the recording: a proof in between would be an entry, not a row. */
function doubtNotes(channel: Channel, period: Period | null): SignalNote[] {
  const { times, values, codes, rangeTop } = channel;
  const isOver = (row: number): boolean =>
    codes?.[row] === READING.overRange ||
    codes?.[row] === READING.overRangeUnbounded ||
    (rangeTop !== null && (values[row] ?? 0) >= rangeTop && (codes === null || codes[row] === READING.valid));
  const past = period === null ? times.length : firstRowFrom(times, period.to);
  let row = firstOver(channel, period === null ? 0 : firstRowFrom(times, period.from), past);
  if (row === past) return [];
  while (row < times.length && isOver(row)) row += 1;
  const until = Math.min(times.at(-1) ?? 0, period?.to ?? Infinity);
  const from = times[row];
  return from === undefined || from >= until ? [] : [{ type: "doubtful after over-range", from, until }];
}

/** First row of a stretch that is over range, or stands at the range top; the end of the stretch where none does. */
function firstOver({ values, codes, rangeTop }: Channel, first: number, past: number): number {
  const coded = Math.min(firstCode(codes, READING.overRange, first, past), firstCode(codes, READING.overRangeUnbounded, first, past));
  if (rangeTop === null) return coded;
  for (let row = first; row < coded; row += 1)
    if ((values[row] as number) >= rangeTop && (codes === null || codes[row] === READING.valid)) return row; // past <= length
  return coded;
}

function firstCode(codes: Uint8Array | null, code: number, first: number, past: number): number {
  const found = codes === null ? -1 : codes.indexOf(code, first);
  return found < 0 || found > past ? past : found;
}

function overlapNotes({ pieces }: DeclaredTime, declared: readonly DeclaredSteps[]): SignalNote[] {
  const notes: SignalNote[] = [];
  for (const { declaration, from, to } of declared) {
    // Without an end a declaration means whatever is left open; only a stated stretch can contradict readings.
    if (declaration.kind === "over-range bound" || !Number.isFinite(from) || !Number.isFinite(to)) continue;
    let ms = 0;
    for (let segment = 0; segment < segmentCount(pieces.timing); segment += 1) {
      const stretch = pieces.stretches?.[segment] ?? STRETCH.sampled;
      if (stretch !== STRETCH.sampled && stretch !== STRETCH.bounded) continue;
      ms += Math.max(0, Math.min(to, edgeAt(pieces.timing, segment + 1)) - Math.max(from, edgeAt(pieces.timing, segment)));
    }
    if (ms > 0) notes.push({ type: "declared where readings stand", declaration: declaration.id, ms });
  }
  return notes;
}
