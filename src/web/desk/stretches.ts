/** Stretches of a signal that are drawn as themselves: gaps, over range, what was declared, clock seams. */
import {
  type Channel,
  type ChannelSignal,
  type Declaration,
  type RecordedSpan,
  recordedSpans,
  STRETCH,
  type StretchRun,
  stretchRuns,
} from "../../core/recording/index.ts";
import { durationText, exactText } from "../../report/index.ts";
import type { Stretch } from "./protocol.ts";

/** Row whose time is at or after an instant. */
export const rowAt = (times: Float64Array, at: number): number => {
  let [low, high] = [0, times.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((times[middle] as number) < at) low = middle + 1;
    else high = middle;
  }
  return low;
};

const reasonWords: Readonly<Record<RecordedSpan["why"], string>> = {
  gap: "no rows",
  "no reading": "the file says no reading",
  fault: "the file says fault or off",
  "over range": "over range",
  "under range": "under range",
};

/** Both lists run in order of time, so one walk finds the reason of each run. */
const reasonFinder = (spans: readonly RecordedSpan[]): ((from: number, to: number) => RecordedSpan | null) => {
  let at = 0;
  return (from, to) => {
    while (at < spans.length && (spans[at]?.to ?? 0) <= from) at++;
    const span = spans[at];
    return span !== undefined && span.from < to ? span : null;
  };
};

const declaredWords = (declarations: readonly Declaration[], channel: Channel, { from, to }: StretchRun): string => {
  const middle = (from + to) / 2;
  const found = declarations.find(
    (one) =>
      (one.channel === "*" || one.channel === channel.name) &&
      one.kind !== "over-range bound" &&
      (one.from ?? -Infinity) <= middle &&
      middle < (one.to ?? Infinity),
  );
  return found === undefined ? "declared" : `declared ${found.kind} by ${found.by}`;
};

const boundedStretch = (run: StretchRun, span: RecordedSpan, unit: number): Stretch => {
  const { from, to } = run;
  const lasted = durationText((to - from) / 1000);
  const bound = run.low > 0 ? `: at least ${exactText(run.low / unit)}` : "";
  return {
    kind: "over range",
    from,
    to,
    says: span.why === "over range" ? `over range ${lasted}${bound}` : `${reasonWords[span.why]} ${lasted}`,
  };
};

/** All of them in order of time. Interval peaks are bounds throughout: only what the rows mark counts as over range. */
export const stretchesOf = (
  channel: Channel,
  { signal, notes, largestGap }: ChannelSignal,
  declarations: readonly Declaration[],
): readonly Stretch[] => {
  // Where every segment is a plain reading there is no reason to look for, and long recordings mostly are.
  if (signal.stretches === null) return notes.flatMap(seamOf);
  const reason = reasonFinder(recordedSpans(channel, largestGap.ms));
  const unit = 10 ** signal.decimals;
  const found = stretchRuns(signal).flatMap((run): readonly Stretch[] => {
    const span = reason(run.from, run.to);
    if (run.stretch === STRETCH.bounded) return span === null || span.why === "gap" ? [] : [boundedStretch(run, span, unit)];
    const lasted = `not measured ${durationText((run.to - run.from) / 1000)}`;
    if (run.stretch === STRETCH.unsampled)
      return [{ kind: "gap", from: run.from, to: run.to, says: `${lasted}: ${span === null ? "no rows" : reasonWords[span.why]}` }];
    return [{ kind: "declared", from: run.from, to: run.to, says: `${lasted}: ${declaredWords(declarations, channel, run)}` }];
  });
  return [...found, ...notes.flatMap(seamOf)];
};

const seamOf = (note: ChannelSignal["notes"][number]): readonly Stretch[] =>
  note.type === "clock set back"
    ? [
        {
          kind: "seam",
          from: note.from,
          to: note.to,
          says: `clock set back ${durationText(note.backMs / 1000)} after line ${note.lineBefore}`,
        },
      ]
    : [];

/** Those in a span; what is narrower than a pixel is joined to its neighbour, so that a panel never draws thousands. */
export const stretchesIn = (all: readonly Stretch[], from: number, to: number, msPerPixel: number): readonly Stretch[] => {
  const seen = all.filter((stretch) => stretch.to > from && stretch.from < to);
  if (seen.length < 300) return seen;
  const joined: Stretch[] = [];
  for (const stretch of seen) {
    const last = joined.at(-1);
    if (last !== undefined && last.kind === stretch.kind && stretch.from - last.to < msPerPixel * 2)
      joined[joined.length - 1] = { ...last, to: stretch.to, says: "" };
    else joined.push(stretch);
  }
  return joined;
};
