/** Channels as a test writes them down, and signals as it reads them back. */
import { expect } from "vitest";
import {
  type Channel,
  type ChannelSignal,
  type Declaration,
  OPEN,
  type Period,
  PLAIN_SETTINGS,
  READING,
  type SignalSettings,
  STRETCH,
  signalOf,
  type TwoEdgedSignal,
} from "../../../src/core/recording/index.ts";

/** One row: seconds and what stands there: digits, ">500", ">", "<2", "none", "fault", or "30..36". */
export type WrittenRow = readonly [seconds: number, reading: number | string];

export function written(rows: readonly WrittenRow[], more: Partial<Channel> = {}): Channel {
  const decimals = more.decimals ?? 0;
  const steps = (text: string) => Math.round(Number(text) * 10 ** decimals);
  const parts = rows.map(([, reading]) => parsed(String(reading), steps));
  const codes = Uint8Array.from(parts, ({ code }) => code);
  const values = Int32Array.from(parts, ({ low }) => low);
  const uppers = Int32Array.from(parts, ({ high }) => high);
  return {
    name: "CO",
    series: null,
    gas: null,
    unit: "ppm",
    kind: "spot",
    decimals,
    times: Float64Array.from(rows, ([seconds]) => seconds * 1000),
    values,
    uppers: uppers.some((upper, row) => upper !== values[row]) ? uppers : null,
    codes: codes.some((code) => code !== READING.valid) ? codes : null,
    lines: null,
    rangeTop: null,
    ...more,
  };
}

function parsed(text: string, steps: (text: string) => number): { low: number; high: number; code: number } {
  if (text === "none") return { low: 0, high: 0, code: READING.none };
  if (text === "fault") return { low: 0, high: 0, code: READING.fault };
  if (text === ">") return { low: 0, high: 0, code: READING.overRangeUnbounded };
  const [low = "", high = low] = text.replace(/^[<>]/, "").split("..");
  const code = text.startsWith(">") ? READING.overRange : text.startsWith("<") ? READING.underRange : READING.valid;
  return { low: steps(low), high: steps(high), code };
}

/** [from, to, low, high, stretch] with seconds, steps, "open" and the word of the stretch. */
export type WrittenSegment = readonly [from: number, to: number, low: number, high: number | "open", stretch: keyof typeof STRETCH];

export function segmentsOf({ timing, low, high, stretches }: TwoEdgedSignal): WrittenSegment[] {
  const words = Object.fromEntries(Object.entries(STRETCH).map(([word, code]) => [code, word])) as Record<number, keyof typeof STRETCH>; // the inverse of STRETCH
  const edge = (index: number) => (timing.kind === "regular" ? timing.start + index * timing.stepMs : (timing.edges[index] ?? 0)) / 1000;
  return [...low].map((lowest, index) => {
    const highest = high === null ? lowest : (high[index] ?? 0);
    const stretch = words[stretches === null ? STRETCH.sampled : (stretches[index] ?? 0)] ?? "sampled";
    return [edge(index), edge(index + 1), lowest, highest === OPEN ? "open" : highest, stretch];
  });
}

export function signalled(
  channel: Channel,
  settings: Partial<SignalSettings> = {},
  declarations: readonly Declaration[] = [],
  period: Period | null = null,
): ChannelSignal {
  const made = signalOf(channel, { ...PLAIN_SETTINGS, ...settings }, declarations, period);
  expect(made).toMatchObject({ ok: true });
  if (!made.ok) throw new Error(JSON.stringify(made.refusal));
  return made.value;
}

/** Integral of both edges over [from, to) in steps x milliseconds; open counts as infinite. */
export function integral({ timing, low, high }: TwoEdgedSignal, from: number, to: number): { low: number; high: number } {
  const edge = (index: number) => (timing.kind === "regular" ? timing.start + index * timing.stepMs : (timing.edges[index] ?? 0));
  const sum = { low: 0, high: 0 };
  low.forEach((lowest, index) => {
    const ms = Math.min(to, edge(index + 1)) - Math.max(from, edge(index));
    if (ms <= 0) return;
    const highest = high === null ? lowest : (high[index] ?? 0);
    sum.low += ms * lowest;
    sum.high += ms * (highest === OPEN ? Infinity : highest);
  });
  return sum;
}

export function declared(part: { readonly from?: number | null; readonly to?: number | null } & Record<string, unknown>): Declaration {
  return {
    id: "d1",
    channel: "*",
    by: "R. Ashdown",
    on: "2026-03-04",
    reason: "stated",
    from: null,
    to: null,
    ...part,
  } as unknown as Declaration; // the test gives kind and level
}
