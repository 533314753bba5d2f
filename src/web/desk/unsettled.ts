/** What readings leave to a person: time without readings, and readings beyond the range; and what a statement meets there. */
import type { ShiftSpan } from "../../core/exposure/assessment.ts";
import {
  type Channel,
  type Declaration,
  PLAIN_SETTINGS,
  READING,
  type Recording,
  type SignalSettings,
  STRETCH,
  signalOf,
  stretchRuns,
} from "../../core/recording/index.ts";
import type { Met, Settings, Unsettled } from "./protocol.ts";
import { rowAt } from "./stretches.ts";

/** The settings of a channel's signal, as the assessment takes them. */
export const signalSettings = (channel: Channel, settings: Settings): SignalSettings => ({
  ...PLAIN_SETTINGS,
  largestGapMs: settings.largestGapMs,
  deadBand: channel.gas === null ? null : (settings.deadBands[channel.gas] ?? null),
  negativeFloor: channel.gas === null ? null : (settings.negativeFloors[channel.gas] ?? null),
});

const unsettledOf = (
  channel: Channel,
  settings: Settings,
  shift: ShiftSpan | null,
  declarations: readonly Declaration[],
): readonly Unsettled[] => {
  const signal = signalOf(channel, signalSettings(channel, settings), declarations, shift);
  // A refusal here is told by the assessment in words; nothing is offered.
  if (!signal.ok) return [];
  return stretchRuns(signal.value.signal).flatMap(({ stretch, from, to, high }): readonly Unsettled[] => {
    if (stretch === STRETCH.unsampled) return [{ kind: "unsampled", from, to }];
    return stretch === STRETCH.bounded && high === null ? [{ kind: "over range", from, to }] : [];
  });
};

const named = (recording: Recording, name: string): readonly Channel[] =>
  recording.channels.filter((channel) => channel.times.length > 0 && (name === "*" || channel.name === name));

/** Stretches that a statement could settle, longest first; those that several channels share stand once. */
export const unsettledIn = (recording: Recording, name: string, settings: Settings, shift: ShiftSpan | null): readonly Unsettled[] => {
  const all = named(recording, name).flatMap((channel) => unsettledOf(channel, settings, shift, settings.declarations));
  const once = new Map(all.map((one) => [`${one.kind} ${one.from} ${one.to}`, one]));
  return [...once.values()].sort((a, b) => b.to - b.from - (a.to - a.from));
};

const overlapMs = (spans: readonly Unsettled[], kind: Unsettled["kind"], from: number, to: number): number =>
  spans.filter((span) => span.kind === kind).reduce((sum, span) => sum + Math.max(0, Math.min(span.to, to) - Math.max(span.from, from)), 0);

/** Shifts of the page; without any the file is one. */
const periods = ({ shifts }: Settings): readonly (ShiftSpan | null)[] => (shifts.length === 0 ? [null] : shifts);

/** The last reading of a log has no length: it belongs to the time before it, not to what follows. */
const rowsIn = ({ times }: Channel, from: number, to: number): readonly [number, number] => {
  const last = times.length - 1;
  const [first, past] = [rowAt(times, from), rowAt(times, to)];
  return [first === last && times[last] === from ? past : first, past === last && times[last] === to ? past + 1 : past];
};

const readingsIn = (channel: Channel, from: number, to: number): Pick<Met, "readings" | "aboveNought" | "greatest"> => {
  let [readings, aboveNought, greatest] = [0, 0, Number.NEGATIVE_INFINITY];
  const [first, past] = rowsIn(channel, from, to);
  for (let row = first; row < past; row++) {
    const code = channel.codes?.[row] ?? READING.valid;
    if (code === READING.none || code === READING.fault) continue;
    const value = channel.values[row] as number; // as many values as times
    readings++;
    if (value > 0 || code === READING.overRangeUnbounded) aboveNought++;
    greatest = Math.max(greatest, value);
  }
  return { readings, aboveNought, greatest: readings === 0 ? null : greatest / 10 ** channel.decimals };
};

const most = (one: number | null, other: number | null): number | null =>
  one === null ? other : other === null ? one : Math.max(one, other);

/** What one statement meets: the time that it can settle were it the only one, and the readings that stand against it. */
export const metBy = (recording: Recording, declaration: Declaration, settings: Settings): Met => {
  const from = declaration.from ?? Number.NEGATIVE_INFINITY;
  const to = declaration.to ?? Number.POSITIVE_INFINITY;
  let met: Met = { unsampledMs: 0, overRangeMs: 0, readings: 0, aboveNought: 0, greatest: null };
  for (const channel of named(recording, declaration.channel)) {
    const spans = periods(settings).flatMap((shift) => unsettledOf(channel, settings, shift, []));
    const found = readingsIn(channel, from, to);
    met = {
      unsampledMs: Math.max(met.unsampledMs, overlapMs(spans, "unsampled", from, to)),
      overRangeMs: Math.max(met.overRangeMs, overlapMs(spans, "over range", from, to)),
      readings: Math.max(met.readings, found.readings),
      aboveNought: Math.max(met.aboveNought, found.aboveNought),
      greatest: most(met.greatest, found.greatest),
    };
  }
  return met;
};
