// Negatives: US EPA, AQS, addendum on negative values, 28 Feb 2011. Over range, gaps, conflicts, failed checks: worked
// from the definitions of the exposure chapter; each case of the goldens names its source.
import { describe, expect, test } from "vitest";
import {
  type Channel,
  type Declaration,
  OPEN,
  PLAIN_SETTINGS,
  READING,
  type SignalSettings,
  signalOf,
  type TwoEdgedSignal,
} from "../../../src/core/recording/index.ts";
import { type Golden, goldens, named } from "./golden.ts";

const cases = goldens("exposure");
const MINUTE = 60_000;

interface Minute {
  readonly low: number;
  readonly high?: number;
  readonly code?: number;
}

/** One row a minute, and one more that ends the last. */
function minutes(readings: readonly Minute[]): Channel {
  const rows = [...readings, readings.at(-1) ?? { low: 0 }];
  return {
    name: "CO",
    series: null,
    gas: null,
    unit: "ppm",
    kind: "spot",
    decimals: 2,
    lines: null,
    rangeTop: null,
    times: Float64Array.from(rows, (_, row) => row * MINUTE),
    values: Int32Array.from(rows, ({ low }) => low * 100),
    uppers: Int32Array.from(rows, ({ low, high = low }) => high * 100),
    codes: Uint8Array.from(rows, ({ code = READING.valid }) => code),
  };
}

const many = (count: number, minute: Minute) => Array.from({ length: count }, () => minute);

function signal(
  channel: Channel,
  settings: Partial<SignalSettings> = {},
  declarations: readonly Declaration[] = [],
  periodMin: number | null = null,
): TwoEdgedSignal {
  const made = signalOf(
    channel,
    { ...PLAIN_SETTINGS, ...settings },
    declarations,
    periodMin === null ? null : { from: 0, to: periodMin * MINUTE },
  );
  if (!made.ok) throw new Error(JSON.stringify(made.refusal));
  return made.value.signal;
}

/** (1 / divisor) x integral of both edges; null where the upper one is open. */
function average({ timing, low, high, decimals }: TwoEdgedSignal, divisorMin: number): { low: number; high: number | null } {
  const length = (index: number) =>
    timing.kind === "regular" ? timing.stepMs : (timing.edges[index + 1] ?? 0) - (timing.edges[index] ?? 0);
  const highs = high ?? low;
  const mean = (edge: Int32Array) =>
    edge.reduce((sum, steps, index) => sum + steps * length(index), 0) / (divisorMin * MINUTE) / 10 ** decimals;
  return { low: mean(low), high: highs.includes(OPEN) ? null : mean(highs) };
}

const bound = (kind: "over-range bound" | "worst case", level: number): Declaration => ({
  id: "d1",
  channel: "*",
  from: null,
  to: null,
  by: "R. Ashdown",
  on: "2026-03-04",
  reason: "stated",
  kind,
  levelText: String(level),
  holds: "at any moment",
});

function overRange(golden: Golden): Channel {
  return minutes(
    golden.inputs.segments.flatMap((part: { from_min: number; to_min: number; ppm?: number; range_top_ppm?: number }) =>
      many(
        part.to_min - part.from_min,
        part.ppm === undefined ? { low: part.range_top_ppm ?? 0, code: READING.overRange } : { low: part.ppm },
      ),
    ),
  );
}

const sampled = (golden: Golden): Minute[] =>
  golden.inputs.sampled_pieces_min_ppm.flatMap(([count, low]: [number, number]) => many(count, { low }));

const checks: Readonly<Record<string, (golden: Golden) => void>> = {
  "exposure-data-01": ({ inputs, expected }) => {
    const rows = Array.from({ length: inputs.repeats }, () => inputs.pattern_ppm.map((low: number) => ({ low }))).flat();
    const { low, high } = average(signal(minutes(rows), { negativeFloor: String(-inputs.floor_ppm) }), rows.length);
    expect(low).toBeCloseTo(expected.low_ppm, 4);
    expect(high).toBeCloseTo(expected.high_ppm, 4);
  },
  "exposure-data-03": (golden) => {
    const { low, high } = average(signal(overRange(golden)), 480);
    expect(low).toBeCloseTo(golden.expected.twa_low_ppm, 3);
    expect(high).toBe(golden.expected.twa_high_ppm);
    expect(Math.max(...signal(overRange(golden)).low) / 100).toBe(golden.expected.ceiling_low_ppm);
  },
  "exposure-data-04": ({ inputs, expected }) => {
    const channel = overRange(cases.get(inputs.as) as Golden); // a missing case throws
    const highs = inputs.declared_upper_bound_ppm.map(
      (level: number) => average(signal(channel, {}, [bound("over-range bound", level)]), 480).high,
    );
    highs.forEach((high: number | null, index: number) => void expect(high).toBeCloseTo(expected.twa_high_ppm[index], 3));
  },
  "exposure-data-06": ({ inputs, expected }) => {
    const [low, high] = inputs.readings_ppm;
    const both = average(
      signal(minutes([...many(inputs.overlap_min, { low, high }), ...many(inputs.rest_min, { low: inputs.rest_ppm })])),
      480,
    );
    expect([both.low, both.high]).toEqual([expected.low_ppm, expected.high_ppm]);
  },
  "exposure-data-09": ({ inputs, expected }) => {
    const check = { from: 0, to: null, reading: String(inputs.after_use_response), known: "1" };
    const both = average(signal(minutes(many(inputs.minutes, { low: inputs.reading_ppm })), { failedChecks: [check] }), inputs.minutes);
    expect([both.low, both.high]).toEqual([expected.low_ppm, expected.high_ppm]);
  },
  "exposure-unsampled-01": (golden) => {
    const both = average(signal(minutes(sampled(golden)), {}, [bound("worst case", golden.inputs.worst_case_ppm)], 480), 480);
    expect([both.low, both.high]).toEqual([golden.expected.low_ppm, golden.expected.high_ppm]);
  },
  "exposure-unsampled-02": (golden) => {
    expect(average(signal(minutes(sampled(golden)), {}, [], 480), 480)).toEqual({
      low: golden.expected.low_ppm,
      high: golden.expected.high_ppm,
    });
  },
  "exposure-unsampled-03": (golden) => {
    expect(average(signal(minutes(sampled(golden)), {}, [], 480), 480)).toEqual({ low: golden.expected.low_ppm, high: null });
  },
  "exposure-unsampled-07": (golden) => {
    const made = signal(minutes(sampled(golden)));
    expect(average(made, 480).low).toBeCloseTo(golden.expected.low_ppm, 3);
    expect(made.outside).toBe("unsampled");
  },
};

describe("negatives, gaps, over range, unsampled time", () => {
  test.each(Object.keys(checks).map((id) => [named(cases.get(id) as Golden), id] as const))("%s", (_, id) =>
    checks[id]?.(cases.get(id) as Golden),
  ); // a missing case throws
});
