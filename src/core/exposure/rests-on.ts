/** What the figures of one channel over one shift rest on: readings, file, doubts, and every statement that was used. */
import type { Assumption, Ground } from "../finding.ts";
import type { Channel, ChannelSignal, Recording, SignalNote } from "../recording/index.ts";
import { READING, stepRange } from "../recording/index.ts";
import type { AssessmentSettings, ShiftSpan } from "./assessment.ts";
import type { ReadingExtremes } from "./extremes.ts";
import { type Period, restOfEightHours } from "./period.ts";

/** The parts of an assessment that its grounds are read from. */
export interface RestsOn {
  readonly recording: Recording;
  readonly channel: Channel;
  readonly settings: AssessmentSettings;
  readonly made: ChannelSignal;
  readonly period: Period;
  readonly extremes: ReadingExtremes;
  readonly outside: ReadingsOutside | null;
}

/** Readings that stand in none of the named shifts: they bound figures that look back on them, are in no other, and must not be so in silence. */
export interface ReadingsOutside {
  readonly count: number;
  /** Steps of the greatest of them. */
  readonly greatest: number;
  readonly atLeast: boolean;
}

/**
 * Readings of a channel outside of all named shifts (both ends of a shift belong to it); null where there is none, or no
 * shift is named.
 *
 * @example
 * ```ts
 * import { readingsOutside } from "./rests-on.ts";
 * const channel = { name: "CO", series: null, gas: null, unit: "ppm", kind: "spot", decimals: 0, times: Float64Array.of(0, 10, 20, 30),
 *   values: Int32Array.of(4, 1, 2, 9), uppers: null, codes: null, lines: null, rangeTop: null } as const;
 * readingsOutside(channel, [{ from: 10, to: 20 }]); // => { "count": 2, "greatest": 9, "atLeast": false }
 * readingsOutside(channel, []); // => null
 * ```
 * Never refuses. Source: ours.
 */
export function readingsOutside({ times, values, codes }: Channel, shifts: readonly ShiftSpan[]): ReadingsOutside | null {
  const first = shifts.reduce((least, { from }) => Math.min(least, from), Infinity);
  const last = shifts.reduce((most, { to }) => Math.max(most, to), -Infinity);
  const isCovered = shifts.length === 1 && (times[0] ?? first) >= first && (times.at(-1) ?? last) <= last;
  if (shifts.length === 0 || isCovered) return null;
  let [count, greatest, atLeast] = [0, 0, false];
  for (let row = 0; row < times.length; row += 1) {
    const time = times[row] as number; // row < length
    const code = codes?.[row] ?? READING.valid;
    if (code === READING.none || code === READING.fault || shifts.some(({ from, to }) => time >= from && time <= to)) continue;
    count += 1;
    atLeast ||= code === READING.overRangeUnbounded || code === READING.overRange;
    greatest = Math.max(greatest, values[row] as number); // as long as times
  }
  return count === 0 ? null : { count, greatest, atLeast };
}

/** Readings, file, and each stretch that is no plain reading. */
export function groundsOf({ recording, channel, settings, made, extremes, outside }: RestsOn): readonly Ground[] {
  const { tally } = made;
  const { overRangeAtLeast: least } = tally;
  const found: Ground[] = [readingsGround(channel, made, extremes), { type: "file", file: recording.file, sha256: recording.sha256 }];
  // At least nought says nothing: the range top is not known.
  const atLeast = least === null || least <= 0 ? null : least / 10 ** channel.decimals;
  if (tally.overRangeMs > 0) found.push({ type: "over-range", seconds: tally.overRangeMs / 1000, atLeast });
  if (tally.unsampledMs > 0) found.push({ type: "unsampled", seconds: tally.unsampledMs / 1000 });
  if (tally.negativeMs > 0) found.push({ type: "negative", seconds: tally.negativeMs / 1000 });
  if (extremes.conflicts > 0) found.push({ type: "conflict", count: extremes.conflicts });
  for (const { id, kind, by, reason } of settings.declarations) {
    const ms = tally.declaredById.get(id) ?? 0;
    if (ms > 0) found.push({ type: "declaration", id, kind, by, reason, seconds: ms / 1000 });
  }
  const scale = 10 ** channel.decimals;
  if (outside !== null)
    found.push({ type: "outside-shift", count: outside.count, greatest: outside.greatest / scale, atLeast: outside.atLeast });
  return [...found, ...made.notes.flatMap((note) => doubtOf(note, channel.decimals))];
}

/** What a person should know of the sensor: no figure moves by it, and no reader may miss it. */
function doubtOf(note: SignalNote, decimals: number): readonly Ground[] {
  switch (note.type) {
    case "negative readings":
      return [
        {
          type: "drift",
          lowest: note.lowest / 10 ** decimals,
          longestRunSeconds: note.longestRunMs / 1000,
          floorDeclared: note.floorDeclared,
        },
      ];
    case "doubtful after over-range":
      return [{ type: "doubtful-after-over-range", seconds: (note.until - note.from) / 1000 }];
    case "over-range bound below a reading":
      return [{ type: "bound-below-a-reading", declaration: note.declaration }];
    case "declared where readings stand":
      return [{ type: "declared-where-readings-stand", declaration: note.declaration, seconds: note.ms / 1000 }];
    case "below the negative floor":
    case "clock set back":
      return [];
  }
}

function readingsGround(channel: Channel, { largestGap }: ChannelSignal, extremes: ReadingExtremes): Ground {
  const { lines } = channel;
  const { rows, readings, firstRow, lastRow } = extremes;
  const steps = stepRange(channel.times, { firstRow, lastRow, largestGapMs: largestGap.ms });
  return {
    type: "readings",
    count: readings,
    of: rows,
    everyMs: steps !== null && steps.leastMs === steps.mostMs ? steps.mostMs : null,
    steps,
    firstLine: rows === 0 ? null : (lines?.[firstRow] ?? null),
    lastLine: rows === 0 ? null : (lines?.[lastRow] ?? null),
  };
}

/** How readings stand for time, and what was said of time without them. */
export function assumptionsOf({ channel, settings, made, period }: RestsOn): readonly Assumption[] {
  const { ms, chosenBy } = made.largestGap;
  return [
    { type: "reading-kind", kind: channel.kind, chosenBy: channel.kindChosenBy ?? "default" },
    { type: channel.kind === "spot" ? "holds-until-next" : "closes-interval", largestGapMs: ms, chosenBy },
    ...(settings.shifts.length === 0 ? [{ type: "file-is-one-shift" } as const] : []),
    ...unsampledAssumption(channel, settings, made, period),
    { type: "without-measurement-error" },
  ];
}

const TAKEN_AS = { zero: "unexposed", like: "like the sampled time", level: "worst case" } as const;

/** A statement that found no time to speak of decides nothing and is not named. */
function unsampledAssumption(
  { unit }: Channel,
  { unsampled, unsampledBy }: AssessmentSettings,
  { tally }: ChannelSignal,
  period: Period,
): readonly Assumption[] {
  if (unsampled.kind === "open") return [];
  const restMs = restOfEightHours(period);
  const seconds = (tally.unsampledMs + restMs) / 1000;
  if (seconds === 0 && period.shift !== null) return [];
  return [
    {
      type: "unsampled-taken-as",
      as: TAKEN_AS[unsampled.kind],
      levelText: unsampled.kind === "level" ? unsampled.text : null,
      unit,
      seconds,
      where: period.shift !== null ? "within the shift" : restMs > 0 ? "up to 8 h" : "around the recording",
      by: unsampledBy?.by ?? null,
      reason: unsampledBy?.reason ?? null,
    },
  ];
}
