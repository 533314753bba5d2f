// Short-term limits and ceilings: OSHA Table Z-1-A definitions (1989), Directive 98/24/EC Annex I note 4, South Africa
// R.280 (2021) Annexure 3, NIOSH Pocket Guide, 46 CFR 197.515. Each case names its own source and mark in its title.
import { expect, test } from "vitest";
import {
  boundedWindowMean,
  countedExposures,
  edgeSums,
  greatestWindow,
  mixtureSignal,
  periodOf,
  pulsePeakShare,
  rollingMean,
  shortPeakGuideline,
  windowBounds,
  windowEpisodes,
} from "../../../src/core/exposure/index.ts";
import { outcomeOf } from "../../../src/core/outcome.ts";
import { PLAIN_SETTINGS, signalOf, type TwoEdgedSignal } from "../../../src/core/recording/index.ts";
import { answerOf, goldenRow, nameOf } from "../golden-rows.ts";
import { assessedShift, channelOf, MINUTE, type WrittenPiece } from "./written-shift.ts";

const lastEnd = (pieces: readonly WrittenPiece[]): number => Math.max(...pieces.map(([, to]) => to));

/** A signal that is nought outside its own edges. */
function signalFrom(pieces: readonly WrittenPiece[], unitMs = MINUTE): TwoEdgedSignal {
  const period = { from: (pieces[0]?.[0] ?? 0) * unitMs, to: lastEnd(pieces) * unitMs };
  return answerOf(signalOf(channelOf(pieces, unitMs), { ...PLAIN_SETTINGS, largestGapMs: 1e12 }, [], period)).signal;
}

/** Means of blocks by the clock: what a sliding window must not be replaced by. */
function clockBlocks(signal: TwoEdgedSignal, minutes: number, count: number): number[] {
  const sums = edgeSums(signal.low, signal.timing);
  return Array.from(
    { length: count },
    (_, i) =>
      greatestWindow(sums, minutes * MINUTE, { from: i * minutes * MINUTE, to: (i + 1) * minutes * MINUTE }).sum / (minutes * MINUTE),
  );
}

test.each(["exposure-stel-01", "exposure-stel-02", "exposure-stel-07", "exposure-stel-09"])("%s", (id) => {
  const { inputs, expected } = goldenRow(id);
  const shifts = [{ from: 0, to: lastEnd(inputs.segments_min_ppm) * MINUTE }];
  const { channel } = assessedShift(channelOf(inputs.segments_min_ppm, MINUTE), [], { shifts });
  expect(channel.stel, nameOf(id)).toMatchObject({
    low: expected.max_window_ppm,
    high: expected.max_window_ppm,
    windowMinutes: inputs.window_min,
  });
  if (expected.window_min !== undefined)
    expect([channel.stel.windowStart, channel.stel.windowEnd].map((at) => at / MINUTE)).toEqual(expected.window_min);
  for (const [key, wrong] of Object.entries(expected))
    if (key.startsWith("wrong_")) expect(channel.stel.low).not.toBeCloseTo(Number(wrong), 3);
});

test(nameOf("exposure-stel-03"), () => {
  const { inputs, expected } = goldenRow("exposure-stel-03");
  const shifts = [{ from: 0, to: 60 * MINUTE }];
  const { found } = assessedShift(
    channelOf(inputs.segments_min_ppm, MINUTE),
    [{ kind: "stel", value: inputs.limit_ppm, minutes: inputs.window_min }],
    { shifts },
  );
  expect(found("stel")).toMatchObject({ low: expected.sliding_max_ppm, high: expected.sliding_max_ppm, outcome: expected.verdict });
  expect(clockBlocks(signalFrom(inputs.segments_min_ppm), 15, 4)).toEqual(expected.clock_blocks_ppm);
});

test(nameOf("exposure-stel-05"), () => {
  const { inputs, expected } = goldenRow("exposure-stel-05");
  const signal = signalFrom(inputs.segments_min_ppm);
  const low = windowBounds(periodOf(signal, { from: 0, to: 20 * MINUTE }, { kind: "open" }), 15 * MINUTE).low;
  const bound = (expected.mean_20min_ppm * 20) / (15 * Math.ceil(20 / 15));
  expect(Number(low.sum) / low.durationMs).toBeCloseTo(expected.max_window_ppm, 5);
  expect(bound).toBeCloseTo(expected.lower_bound_ppm, 5);
});

test(nameOf("exposure-stel-06"), () => {
  const { inputs, expected } = goldenRow("exposure-stel-06");
  const { channel, found } = assessedShift(
    channelOf(inputs.segments_min_ppm, MINUTE),
    [{ kind: "stel", value: inputs.limit_ppm, minutes: 15 }],
    { shifts: [{ from: 0, to: 30 * MINUTE }] },
  );
  expect(channel.mean.best).toBeCloseTo(expected.mean_30min_ppm, 3);
  expect(found("stel").low).toBeCloseTo(expected.max_window_ppm, 3);
  expect(found("stel").outcome).toBe(expected.verdict);
});

test(nameOf("exposure-stel-10"), () => {
  const { inputs, expected } = goldenRow("exposure-stel-10");
  const pieces: WrittenPiece[] = [[0, 5, 600]];
  const { found } = assessedShift(channelOf(pieces, MINUTE), [{ kind: "stel", value: inputs.limit_ppm, minutes: 15 }]);
  expect(found("stel")).toMatchObject({ low: expected.low_ppm, high: expected.high_ppm, outcome: expected.verdict });
});

test(nameOf("exposure-stel-11"), () => {
  const { inputs, expected } = goldenRow("exposure-stel-11");
  const pieces: WrittenPiece[] = [
    [0, 10, 30],
    [10, 15, "gap"],
    [15, 30, 6],
  ];
  const { found } = assessedShift(channelOf(pieces, MINUTE), [{ kind: "stel", value: inputs.limit_ppm, minutes: 15 }], {
    shifts: [{ from: 0, to: 30 * MINUTE }],
    unsampled: { kind: "level", text: String(inputs.worst_case_ppm) },
  });
  expect(found("stel")).toMatchObject({ low: expected.low_max_ppm, high: expected.high_max_ppm, outcome: expected.verdict });
});

test(nameOf("exposure-stel-13"), () => {
  const { inputs, expected } = goldenRow("exposure-stel-13");
  const limits = [
    { kind: "any-shorter-period", value: inputs.limit_ppm, minutes: inputs.max_window_min },
    { kind: "stel", value: inputs.limit_ppm, minutes: 15 },
  ] as const;
  const { found } = assessedShift(channelOf(inputs.segments_min_ppm, MINUTE), limits, { shifts: [{ from: 0, to: 30 * MINUTE }] });
  expect(found("any-shorter-period")).toMatchObject({ low: expected.max_over_all_shorter_windows_ppm, outcome: expected.verdict });
  expect(found("stel").low).toBeCloseTo(expected.max_15min_window_ppm, 9);
});

test(nameOf("exposure-stel-15"), () => {
  const { inputs, expected } = goldenRow("exposure-stel-15");
  const runs = inputs.episodes_min.map(([from, to]: [number, number]) => ({ from: from * MINUTE, to: to * MINUTE }));
  const counted = countedExposures(runs, { most: inputs.max_count_per_day, pauseMs: inputs.min_pause_min * MINUTE });
  expect(counted).toEqual({ count: expected.count, shortestPauseMs: expected.smallest_pause_min * MINUTE, breach: expected.breach });
  expect(countedExposures([...runs, { from: 300 * MINUTE, to: 315 * MINUTE }], { most: 4, pauseMs: 60 * MINUTE }).breach).toBe(true);
});

test(nameOf("exposure-stel-17"), () => {
  const { inputs, expected } = goldenRow("exposure-stel-17");
  expect(shortPeakGuideline(inputs.twa_limit_ppm)).toEqual({ level: expected.guideline_ppm, isLegalLimit: expected.is_legal_limit });
});

test(nameOf("exposure-stel-18"), () => {
  const { inputs, expected } = goldenRow("exposure-stel-18");
  const [from, to] = inputs.nonzero_minutes;
  const means = Array.from({ length: 40 }, (_, i) => (i >= from && i < to ? inputs.level_ppm : 0));
  const pieces = means.map((level, i): WrittenPiece => [i, i + 1, level]);
  const { found } = assessedShift(channelOf(pieces, MINUTE), [{ kind: "stel", value: inputs.limit_ppm, minutes: 15 }], {
    shifts: [{ from: 0, to: 40 * MINUTE }],
  });
  const bounded = boundedWindowMean(means, { interval: 1, window: 15 });
  expect(found("stel")).toMatchObject({ low: expected.constant_within_interval_ppm, outcome: expected.verdict_default });
  expect(bounded).toBeCloseTo(expected.upper_bound_ppm, 9);
  expect(outcomeOf({ low: found("stel").low, high: bounded }, inputs.limit_ppm, ">")).toBe(expected.verdict_bounded_mode);
});

test(nameOf("exposure-stel-20"), () => {
  const { inputs, expected } = goldenRow("exposure-stel-20");
  const { low, timing } = signalFrom(inputs.segments_min_ppm);
  const episodes = windowEpisodes(edgeSums(low, timing), inputs.window_min * MINUTE, inputs.limit_ppm * inputs.window_min * MINUTE);
  expect(episodes.map(({ from, to }) => [from / MINUTE, to / MINUTE])).toEqual(expected.episodes_window_end_min);
});

test(nameOf("exposure-ceiling-01"), () => {
  const { inputs, expected } = goldenRow("exposure-ceiling-01");
  const shifts = [{ from: 0, to: 30 * MINUTE }];
  const averaged = assessedShift(
    channelOf(inputs.segments_min_ppm, MINUTE),
    [{ kind: "ceiling", value: inputs.limit_ppm, minutes: inputs.averaging_min }],
    { shifts },
  );
  expect(averaged.found("ceiling")).toMatchObject({ low: expected.max_window_ppm, outcome: expected.verdict });
  const instant = assessedShift(channelOf(inputs.segments_min_ppm, MINUTE), [{ kind: "ceiling", value: inputs.limit_ppm }], { shifts });
  expect(instant.found("ceiling").outcome).toBe(expected.wrong_if_instantaneous);
});

test(nameOf("exposure-ceiling-02"), () => {
  const { inputs, expected } = goldenRow("exposure-ceiling-02");
  const { found } = assessedShift(channelOf(inputs.segments_s_ppm, 1000), [{ kind: "ceiling", value: inputs.limit_ppm }], {
    shifts: [{ from: 0, to: 120_000 }],
  });
  expect(found("ceiling")).toMatchObject({
    low: expected.max_ppm,
    high: expected.max_ppm,
    outcome: expected.verdict,
    window: { from: 60_000, to: 60_000 },
  });
});

test(nameOf("exposure-ceiling-03"), () => {
  const { inputs, expected } = goldenRow("exposure-ceiling-03");
  const means = channelOf(
    [
      [0, 1, 20],
      [1, 2, inputs.largest_average_ppm],
      [2, 3, 20],
    ],
    MINUTE,
    { kind: "interval mean" },
  );
  const limits = [{ kind: "ceiling", value: inputs.limit_ppm }] as const;
  const found = assessedShift(means, limits, { shifts: [{ from: 0, to: 2 * MINUTE }] }).found("ceiling");
  expect(found).toMatchObject({ low: expected.low_max_ppm, high: expected.high_max_ppm, outcome: expected.verdict });
  expect(found.undecidedBy).toContainEqual({ type: "interval-average-hides-peaks" });
});

test(nameOf("exposure-ceiling-05"), () => {
  const { inputs, expected } = goldenRow("exposure-ceiling-05");
  const shifts = [{ from: 0, to: 30 * MINUTE }];
  const channel = channelOf(inputs.segments_min_ppm, MINUTE);
  expect(assessedShift(channel, [{ kind: "ceiling", value: inputs.limit_ppm }], { shifts }).found("ceiling").outcome).toBe(
    expected.instantaneous_verdict,
  );
  const fallback = assessedShift(channel, [{ kind: "ceiling", value: inputs.limit_ppm, minutes: inputs.declared_fallback_min }], {
    shifts,
  }).found("ceiling");
  expect(fallback.low).toBeCloseTo(expected.fallback_15min_ppm, 9);
  expect(fallback.outcome).toBe(expected.fallback_verdict);
});

test(nameOf("exposure-ceiling-07"), () => {
  const { inputs, expected } = goldenRow("exposure-ceiling-07");
  const channel = channelOf(inputs.segments_min_ppm, MINUTE);
  const shifts = [{ from: 0, to: 20 * MINUTE }];
  const osha = assessedShift(channel, [{ kind: "ceiling", value: inputs.osha_limit_ppm, minutes: inputs.osha_averaging_min }], {
    shifts,
  }).found("ceiling");
  const niosh = assessedShift(
    channel,
    [{ kind: "ceiling", value: inputs.niosh_limit_ppm, minutes: inputs.niosh_averaging_min, regime: "US-NIOSH" }],
    { shifts },
  ).found("ceiling");
  expect(osha).toMatchObject({ low: expected.osha_max_ppm, outcome: expected.osha_verdict });
  expect(niosh).toMatchObject({ low: expected.niosh_max_window_ppm, outcome: expected.niosh_verdict });
});

test(nameOf("exposure-ceiling-09"), () => {
  const { inputs, expected } = goldenRow("exposure-ceiling-09");
  expect(pulsePeakShare({ pulse: inputs.pulse_s, t90: inputs.t90_s })).toBeCloseTo(expected.peak_fraction, 3);
});

test(nameOf("exposure-mixture-04"), () => {
  const { inputs, expected } = goldenRow("exposure-mixture-04");
  const index = mixtureSignal([
    { signal: signalFrom(inputs.a_segments_min_ppm), limit: inputs.a_limit_ppm },
    { signal: signalFrom(inputs.b_segments_min_ppm), limit: inputs.b_limit_ppm },
  ]);
  const { low, high } = windowBounds(periodOf(index, { from: 0, to: 30 * MINUTE }, { kind: "open" }), inputs.window_min * MINUTE);
  const mean = (sum: number | bigint): number => Number(sum) / (inputs.window_min * MINUTE * 1e6);
  expect([mean(low.sum), mean(high?.sum ?? 0)]).toEqual([expected.max_window_index, expected.max_window_index]);
  expect(outcomeOf({ low: mean(low.sum), high: mean(high?.sum ?? 0) }, 1, ">")).toBe(expected.verdict);
  expect(mean(low.sum)).not.toBeCloseTo(expected.wrong_sum_of_maxima, 3);
});

test.each(["formats-g-rolling-15min-01", "formats-g-rolling-15min-02", "formats-g-rolling-15min-09", "formats-g-rolling-15min-10"])(
  "%s",
  (id) => {
    const { inputs, expected } = goldenRow(id);
    const signal = signalFrom(inputs.segments_min_ppm);
    const found = windowBounds(periodOf(signal, { from: 0, to: lastEnd(inputs.segments_min_ppm) * MINUTE }, { kind: "open" }), 15 * MINUTE);
    expect(Number(found.low.sum) / (15 * MINUTE), nameOf(id)).toBeCloseTo(expected.rolling_max_ppm ?? expected.mean_15min_ppm, 3);
    const start = expected.window_start_min ?? expected.first_window_start_min;
    if (start !== undefined) expect(found.from / MINUTE).toBe(start);
    if (expected.clock_quarter_means_ppm !== undefined) {
      expect(clockBlocks(signal, 15, 4)).toEqual(expected.clock_quarter_means_ppm.map((mean: number) => expect.closeTo(mean, 3)));
    }
  },
);

test(nameOf("formats-g-rolling-15min-03"), () => {
  const { inputs, expected } = goldenRow("formats-g-rolling-15min-03");
  let at = 0;
  const pieces: WrittenPiece[] = inputs.readings.flatMap(({ interval_s, count, ppm }: { interval_s: number; count: number; ppm: number }) =>
    Array.from({ length: count }, (): WrittenPiece => {
      const from = at;
      at += interval_s;
      return [from, at, ppm];
    }),
  );
  const { channel } = assessedShift(channelOf(pieces, 1000), [], { shifts: [{ from: 0, to: at * 1000 }] });
  expect([at, channel.stel.low, channel.mean.best]).toEqual([900, expected.mean_15min_ppm, expected.mean_15min_ppm]);
  expect(channel.stel.low).not.toBe(expected.wrong_sample_mean_ppm);
});

test(nameOf("formats-g-rolling-15min-04"), () => {
  const { inputs, expected } = goldenRow("formats-g-rolling-15min-04");
  const pieces: WrittenPiece[] = [[0, inputs.measured_min, inputs.ppm]];
  const { channel } = assessedShift(channelOf(pieces, MINUTE), [], { shifts: [{ from: 0, to: inputs.window_min * MINUTE }] });
  expect(channel.stel).toMatchObject({ coverage: expected.coverage, low: expected.mean_if_unmeasured_is_zero_ppm, high: null });
  expect(channel.mean.best).toBe(expected.mean_of_measured_ppm);
});

test(nameOf("formats-g-rolling-15min-05"), () => {
  const { inputs, expected } = goldenRow("formats-g-rolling-15min-05");
  const { channel } = assessedShift(
    channelOf(
      [
        [0, inputs.minutes, inputs.ppm],
        [inputs.minutes, 60, inputs.rest_ppm],
      ],
      MINUTE,
    ),
    [],
    { shifts: [{ from: 0, to: 60 * MINUTE }] },
  );
  expect(channel.stel.best).toBe(expected.mean_15min_ppm);
});

test(nameOf("formats-g-rolling-15min-06"), () => {
  const { inputs, expected } = goldenRow("formats-g-rolling-15min-06");
  const recorded = answerOf(signalOf(channelOf([[0, 60, inputs.ppm]], MINUTE), { ...PLAIN_SETTINGS, largestGapMs: 1e12 }, [], null)).signal;
  const [early, full] = inputs.evaluate_at_min.map((at: number) =>
    rollingMean(recorded, { windowMs: 15 * MINUTE, from: at * MINUTE, to: at * MINUTE + 1, columns: 1 }),
  );
  expect(early?.highMax[0], "open while unmeasured time lies in the window").toBeNaN();
  expect(early?.coverage[0]).toBeLessThan(1);
  expect([full?.lowMax[0], full?.highMax[0]]).toEqual([expected.value_at_15_min_ppm, expected.value_at_15_min_ppm]);
});

test(nameOf("formats-g-rolling-15min-07"), () => {
  const { expected } = goldenRow("formats-g-rolling-15min-07");
  const { channel } = assessedShift(
    channelOf(
      [
        [0, 1, "over 500"],
        [1, 15, 0],
      ],
      MINUTE,
    ),
    [],
    { shifts: [{ from: 0, to: 15 * MINUTE }] },
  );
  expect(channel.stel.low).toBeCloseTo(expected.mean_15min_ppm_at_least, 3);
  expect([channel.stel.high, channel.peak?.atLeast]).toEqual([null, true]);
});

test(nameOf("formats-g-rolling-15min-08"), () => {
  const { inputs, expected } = goldenRow("formats-g-rolling-15min-08");
  expect(inputs.means_ppm.map((mean: number) => outcomeOf({ low: mean, high: mean }, inputs.limit_ppm, ">") === "exceeds")).toEqual(
    expected.above_limit,
  );
});
