/** Stretches of a signal that are drawn as themselves: gaps, over range, what was declared, clock seams. */
import { READING, STRETCH, type Channel, type ChannelSignal, type Declaration, type TwoEdgedSignal } from "../../core/recording/index.ts";
import { durationText, exactText } from "../../report/index.ts";
import type { Stretch } from "./protocol.ts";

export const edgeOf = (signal: TwoEdgedSignal, index: number): number =>
  // One more edge than segments; asked only for those.
  signal.timing.kind === "regular" ? signal.timing.start + index * signal.timing.stepMs : (signal.timing.edges[index] as number);

/** The segment that holds an instant, or the count where none does. */
export const segmentAt = (signal: TwoEdgedSignal, at: number): number => {
  const count = signal.low.length;
  if (signal.timing.kind === "regular") return Math.min(Math.max(Math.floor((at - signal.timing.start) / signal.timing.stepMs), 0), count);
  let [low, high] = [0, count];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (edgeOf(signal, middle + 1) <= at) low = middle + 1;
    else high = middle;
  }
  return low;
};

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

const saidByFile = (channel: Channel, from: number, to: number): string => {
  if (channel.codes === null) return "no rows";
  for (let row = rowAt(channel.times, from); row < channel.times.length && (channel.times[row] as number) < to; row++) {
    if (channel.codes[row] === READING.fault) return "the file says fault or off";
    if (channel.codes[row] === READING.none) return "the file says no reading";
  }
  return "no rows";
};

const declaredWords = (declarations: readonly Declaration[], channel: Channel, from: number, to: number): string => {
  const middle = (from + to) / 2;
  const found = declarations.find(
    (one) => (one.channel === "*" || one.channel === channel.name) && one.kind !== "over-range bound" && (one.from ?? -Infinity) <= middle && middle < (one.to ?? Infinity),
  );
  return found === undefined ? "declared" : `declared ${found.kind} by ${found.by}`;
};

const overRangeWords = (channel: Channel, signal: TwoEdgedSignal, segment: number, seconds: number): string => {
  const least = (signal.low[segment] as number) / 10 ** signal.decimals; // a segment that is there
  return least > 0 ? `over range ${durationText(seconds)}: at least ${exactText(least)}` : `over or under range ${durationText(seconds)} (${channel.name})`;
};

type Sort = "gap" | "over range" | "declared";

const sortOf = (code: number): Sort | null => {
  if (code === STRETCH.sampled) return null;
  if (code === STRETCH.bounded) return "over range";
  return code === STRETCH.unsampled ? "gap" : "declared";
};

/** Peaks of an interval are bounds throughout: they are no over-range stretches. */
const drawsBounds = (channel: Channel): boolean => channel.kind !== "interval peak" && channel.codes !== null;

const spanOf = (sort: Sort, channel: Channel, signal: TwoEdgedSignal, declarations: readonly Declaration[], segment: number, from: number, to: number): Stretch => {
  const seconds = (to - from) / 1000;
  const says =
    sort === "over range"
      ? overRangeWords(channel, signal, segment, seconds)
      : sort === "gap"
        ? `not measured ${durationText(seconds)}: ${saidByFile(channel, from, to)}`
        : `not measured ${durationText(seconds)}: ${declaredWords(declarations, channel, from, to)}`;
  return { kind: sort, from, to, says };
};

/** All of them in order of time, neighbours of one sort joined. */
export const stretchesOf = (channel: Channel, { signal, notes }: ChannelSignal, declarations: readonly Declaration[]): readonly Stretch[] => {
  const seams = notes.flatMap((note) => seamOf(note));
  const codes = signal.stretches;
  if (codes === null) return seams;
  const found: Stretch[] = [];
  for (let segment = 0; segment < codes.length; ) {
    const sort = sortOf(codes[segment] as number); // within the signal
    let end = segment + 1;
    while (end < codes.length && sortOf(codes[end] as number) === sort) end++;
    if (sort !== null && (sort !== "over range" || drawsBounds(channel))) found.push(spanOf(sort, channel, signal, declarations, segment, edgeOf(signal, segment), edgeOf(signal, end)));
    segment = end;
  }
  return [...found, ...seams];
};

const seamOf = (note: ChannelSignal["notes"][number]): readonly Stretch[] =>
  note.type === "clock set back"
    ? [{ kind: "seam", from: note.from, to: note.to, says: `clock set back ${durationText(note.backMs / 1000)} after line ${note.lineBefore}` }]
    : [];

/** Those in a span; what is narrower than a pixel is joined to its neighbour, so that a panel never draws thousands. */
export const stretchesIn = (all: readonly Stretch[], from: number, to: number, msPerPixel: number): readonly Stretch[] => {
  const seen = all.filter((stretch) => stretch.to > from && stretch.from < to);
  if (seen.length < 300) return seen;
  const joined: Stretch[] = [];
  for (const stretch of seen) {
    const last = joined.at(-1);
    if (last !== undefined && last.kind === stretch.kind && stretch.from - last.to < msPerPixel * 2) joined[joined.length - 1] = { ...last, to: stretch.to, says: "" };
    else joined.push(stretch);
  }
  return joined;
};
