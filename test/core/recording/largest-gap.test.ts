import { describe, expect, test } from "vitest";
import { defaultLargestGap } from "../../../src/core/recording/index.ts";

/** Steps in seconds, each with how often it comes. */
const cases: readonly { what: string; steps: readonly (readonly [step: number, times: number])[]; ms: number; why: string }[] = [
  { what: "one row", steps: [], ms: 0, why: "one row" },
  { what: "two rows", steps: [[500, 1]], ms: 750_000, why: "all steps equal" },
  { what: "a regular log", steps: [[10, 2880]], ms: 15_000, why: "all steps equal" },
  {
    what: "a regular log with one long hole",
    steps: [
      [10, 1000],
      [1320, 1],
      [10, 1000],
    ],
    ms: 15_000,
    why: "longest common step",
  },
  {
    what: "a log that saves less often while nothing changes",
    steps: [
      [60, 50],
      [10, 200],
      [60, 50],
    ],
    ms: 90_000,
    why: "longest common step",
  },
  {
    what: "silences fewer than a tenth of all steps stay gaps",
    steps: [
      [60, 385],
      [600, 10],
    ],
    ms: 90_000,
    why: "longest common step",
  },
  {
    what: "a tenth of all steps within ten medians is a rhythm",
    steps: [
      [10, 60],
      [90, 7],
    ],
    ms: 135_000,
    why: "longest common step",
  },
  {
    what: "two pauses",
    steps: [
      [10, 60],
      [90, 2],
    ],
    ms: 15_000,
    why: "longest common step",
  },
  {
    what: "long silences beyond ten medians are gaps, however many",
    steps: [
      [10, 60],
      [101, 30],
    ],
    ms: 15_000,
    why: "longest common step",
  },
  {
    what: "a step rarer than one in fifty is not common",
    steps: [
      [10, 1000],
      [50, 19],
    ],
    ms: 15_000,
    why: "longest common step",
  },
  {
    what: "jitter within a tenth is one step",
    steps: [
      [29.5, 20],
      [30, 1],
      [30.5, 20],
      [32, 1],
    ],
    ms: 48_000,
    why: "longest common step",
  },
  { what: "one and a half steps are no whole milliseconds: rounded down", steps: [[0.333, 30]], ms: 499, why: "all steps equal" },
  {
    what: "the same with a hole",
    steps: [
      [9.999, 30],
      [600, 1],
    ],
    ms: 14_998,
    why: "longest common step",
  },
  {
    what: "few rows: the lower median",
    steps: [
      [100, 1],
      [400, 1],
    ],
    ms: 150_000,
    why: "median step",
  },
];

describe("defaultLargestGap", () => {
  test.each(cases)("$what", ({ steps, ms, why }) => {
    const times = [0];
    for (const [step, count] of steps) for (let again = 0; again < count; again += 1) times.push((times.at(-1) ?? 0) + step * 1000);
    expect(defaultLargestGap(Float64Array.from(steps.length === 0 ? [5] : times))).toMatchObject({ ms, why, chosenBy: "default" });
  });
});
