/** A recording set against the limits in force on its date: the answer that the command line prints and the page shows. */

import type { AssessmentSettings, ChannelAssessment, ShiftAssessment, ShiftSpan } from "../core/exposure/assessment.ts";
import { assessRecording, hasNoDose } from "../core/exposure/index.ts";
import type { Limit, RegimeId } from "../core/gas/limit.ts";
import type { Channel, Recording } from "../core/recording/channel.ts";
import type { LineFault } from "../core/table/question.ts";
import { faultSentence, refusalWords } from "../report/index.ts";
import type { ChannelAnswer, FileAnswer, FileRefusal } from "./answer.ts";
import { timeText } from "./answer-times.ts";
import { limitSettings, readingSettings } from "./declared-settings.ts";
import { episodeAnswer, overRangeTimes } from "./episode-answer.ts";
import type { ExposureOptions } from "./exposure-options.ts";
import { findingAnswer, notComparedAnswer } from "./finding-answer.ts";
import { limitsOnDates, shiftDates, type WithoutLimit } from "./limits-on-date.ts";
import { levelForSeveralUnits, takingIt } from "./one-level.ts";
import type { OpenedRecording } from "./open-recording.ts";
import { type FileClock, longerThanADay } from "./shift-times.ts";

export { type ExposureOptions, NOTHING_DECLARED } from "./exposure-options.ts";

/** The whole answer of one file. Shifts placed anew (as the page does) stand in `shifts`; else those it was opened with. */
export function assessExposure(
  opened: OpenedRecording,
  options: ExposureOptions,
  shifts: readonly ShiftSpan[] = opened.shifts,
): FileAnswer {
  if (opened.recording === null || opened.refusal !== null)
    return fileAnswer(opened, { refusal: opened.refusal ?? { type: "no-readings" } });
  const tooLong = longerThanADay(shifts) ?? longerThanKept(opened, shifts);
  if (tooLong !== null) return fileAnswer(opened, { refusal: tooLong });
  const { recording } = opened;
  const clock = clockOf(recording);
  const dates = shiftDates(recording, shifts);
  const regimes = options.regimes ?? options.limits.regimes;
  const limits = limitsOnDates(options.limits, regimes, dates);
  const assessed = assessRecording(recording, settingsOf(options, { regimes, shifts, limits: limits.all }));
  if (!assessed.ok) return fileAnswer(opened, { refusal: assessed.refusal, clock });
  const channels = assessed.value.flatMap((shift, index) =>
    shift.channels.map((channel) =>
      channelAnswer(channel, {
        shift: index,
        clock,
        inForce: ({ limit }) => limits.holds(limit, index),
        without: channel.gas === null ? [] : limits.without(channel.gas, index),
        dateKnown: dates.every((date) => date !== null),
        options,
        source: recording.channels.find(({ name, series }) => name === channel.name && isSameSeries(series, channel.series)) ?? null,
      }),
    ),
  );
  // One number cannot be meant in the units of several gases: then nothing is answered with it.
  const severalUnits = options.unsampled.kind === "level" ? levelForSeveralUnits(options.unsampled.text, takingIt(channels)) : null;
  if (severalUnits !== null) return fileAnswer(opened, { refusal: severalUnits });
  return fileAnswer(opened, { refusal: null, clock, channels, shifts: spansOf(assessed.value, clock) });
}

function settingsOf(
  options: ExposureOptions,
  {
    regimes,
    shifts,
    limits,
  }: { readonly regimes: readonly RegimeId[]; readonly shifts: readonly ShiftSpan[]; readonly limits: AssessmentSettings["limits"] },
): AssessmentSettings {
  return {
    limits,
    regimes,
    shifts,
    largestGapMs: options.largestGapMs,
    unsampled: options.unsampled,
    unsampledBy: options.unsampledBy,
    declarations: options.declarations,
    deadBand: (gas) => options.deadBands[gas] ?? null,
    negativeFloor: (gas) => options.negativeFloors[gas] ?? null,
    measurableThreshold: (gas) => options.measurableThresholds[gas] ?? null,
    meansStandForCeilings: options.meansStandForCeilings,
    ...(options.longShiftModel === null ? {} : { longShiftModel: options.longShiftModel }),
  };
}

/** Of a file longer than is kept without shifts only its beginning is here: it must not pass for the whole. */
function longerThanKept({ stopped, span }: OpenedRecording, shifts: readonly ShiftSpan[]): FileRefusal | null {
  if (stopped === null || shifts.length > 0) return null;
  if (stopped.why === "too many readings") return { type: "too-many-readings", line: stopped.atLine };
  return { type: "longer-than-a-day", hours: span === null ? 0 : (span.to - span.from) / 3_600_000 };
}

export function clockOf({ clock }: Recording): FileClock {
  return clock.kind === "elapsed" ? clock : { kind: "instants", zone: clock.zone };
}

function spansOf(shifts: readonly ShiftAssessment[], clock: FileClock): FileAnswer["shifts"] {
  return shifts.flatMap(({ shift }) => (shift === null ? [] : [{ from: timeText(shift.from, clock), to: timeText(shift.to, clock) }]));
}

interface Answered {
  readonly refusal: FileRefusal | null;
  readonly clock?: FileClock;
  readonly channels?: readonly ChannelAnswer[];
  readonly shifts?: FileAnswer["shifts"];
}

function fileAnswer(opened: OpenedRecording, { refusal, clock, channels = [], shifts = [] }: Answered): FileAnswer {
  const { file, sha256, bytes, proposal, summary, questions } = opened;
  return {
    file,
    sha256,
    bytes,
    timeBasis: clock === undefined ? null : clock.kind === "elapsed" ? "elapsed" : "instant",
    zone: clock?.kind === "instants" ? clock.zone : null,
    shifts,
    channels,
    lines: summary === null ? null : lineCount(summary.count),
    guesses: proposal?.guesses ?? [],
    questions: questions.length > 0 ? questions : (proposal?.questions ?? []),
    faults: opened.faults.map((fault: LineFault) => ({ ...fault, provisional: opened.recording === null, message: faultSentence(fault) })),
    moreFaults: summary?.moreFaults ?? {},
    notes: opened.notes,
    refusal: refusal === null ? null : { ...refusal, ...refusalWords(refusal) },
  };
}

function lineCount({
  lines,
  header,
  rows,
  continued,
  rejected,
  skippedCount,
}: {
  readonly lines: number;
  readonly header: number;
  readonly rows: number;
  readonly continued: number;
  readonly rejected: number;
  readonly skippedCount: number;
}): NonNullable<FileAnswer["lines"]> {
  return { lines, header, rows, continued, rejected, skipped: skippedCount };
}

interface ChannelContext {
  readonly shift: number;
  readonly clock: FileClock;
  readonly inForce: (one: { readonly limit: Limit }) => boolean;
  readonly without: readonly WithoutLimit[];
  readonly dateKnown: boolean;
  readonly options: ExposureOptions;
  /** The readings themselves. */
  readonly source: Channel | null;
}

function isSameSeries(one: Channel["series"], other: Channel["series"]): boolean {
  return one?.label === other?.label && one?.value === other?.value;
}

/** Averages that no limit is meant for must not stand where another reader would take them for a dose. */
function doseAnswer({ gas, unit, twa8h, stel }: ChannelAssessment, at: (ms: number) => string): Pick<ChannelAnswer, "twa8h" | "stel"> {
  if (hasNoDose(gas, unit)) return { twa8h: null, stel: null };
  return { twa8h, stel: { ...stel, windowStart: at(stel.windowStart), windowEnd: at(stel.windowEnd) } };
}

function channelAnswer(channel: ChannelAssessment, context: ChannelContext): ChannelAnswer {
  const { clock, shift, inForce, options, source, dateKnown } = context;
  const at = (milliseconds: number): string => timeText(milliseconds, clock);
  const found = channel.findings.filter(inForce);
  const ofReadings = readingSettings(channel, options);
  // An episode above a limit that did not hold on that date is none.
  const named = new Map(found.map(({ limit }) => [limit.id, limit]));
  const overRange = source === null || channel.episodes.length === 0 ? [] : overRangeTimes(source);
  return {
    name: channel.name,
    series: channel.series,
    shift,
    gas: channel.gas,
    unit: channel.unit,
    samples: channel.samples,
    start: at(channel.start),
    end: at(channel.end),
    sampledSeconds: channel.sampledSeconds,
    mean: channel.mean,
    ...doseAnswer(channel, at),
    peak: channel.peak === null ? null : { value: channel.peak.value, at: at(channel.peak.at), atLeast: channel.peak.atLeast },
    lowest: channel.lowest === null ? null : { value: channel.lowest.value, at: at(channel.lowest.at), atMost: channel.lowest.atMost },
    grounds: channel.grounds ?? [],
    assumptions: [...(channel.assumptions ?? []), ...ofReadings],
    findings: found.map((finding) =>
      findingAnswer(finding, {
        clock,
        dateKnown,
        settings: [
          ...ofReadings,
          ...limitSettings(finding, { gas: channel.gas, unit: channel.unit, kind: source?.kind ?? "spot" }, options),
        ],
      }),
    ),
    notCompared: [
      ...channel.notCompared.filter(inForce).map(notComparedAnswer),
      ...context.without.map(({ regime, why }) => ({ regime, limit: null, why })),
    ],
    episodes: channel.episodes
      .filter(({ limit }) => named.has(limit))
      .map((episode) => episodeAnswer(episode, { clock, overRange, limit: named.get(episode.limit) })),
  };
}
