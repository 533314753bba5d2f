// Logs do not keep to round steps: half of an odd number of milliseconds must not end up in a sum that is whole.
import { expect, test } from "vitest";
import { type AssessmentSettings, assessRecording } from "../../../src/core/exposure/index.ts";
import type { Channel } from "../../../src/core/recording/index.ts";
import { limitOf } from "../../cases/exposure/written-shift.ts";

const limits = [limitOf({ kind: "twa", value: 11 }), limitOf({ kind: "stel", value: 25, minutes: 15 })];

function settingsWith(changed: Partial<AssessmentSettings>): AssessmentSettings {
  const none = (): null => null;
  return {
    limits: () => limits,
    regimes: ["US-OSHA"],
    largestGapMs: null,
    shifts: [],
    unsampled: { kind: "like" },
    declarations: [],
    deadBand: none,
    negativeFloor: none,
    measurableThreshold: none,
    meansStandForCeilings: false,
    ...changed,
  };
}

/** 5 at every odd step, with a hole of half an hour in the middle. */
function logged(stepMs: number): Channel {
  const times = Float64Array.from({ length: 600 }, (_, i) => i * stepMs + (i < 300 ? 0 : 1_800_000));
  const values = new Int32Array(600).fill(5);
  const rows = { times, values, uppers: null, codes: null, lines: null, rangeTop: null };
  const gas = "carbon_monoxide" as Channel["gas"]; // an id of the table
  return { name: "CO", series: null, gas, unit: "ppm", kind: "spot", decimals: 0, ...rows };
}

test.each([
  ["a step of 9.999 s", 9_999, null, 14_998],
  ["a step of 333 ms", 333, null, 499],
  ["a largest gap of 12.3456 s that a person chose", 9_999, 12_345.6, 12_345],
] as const)("%s: the last reading before a hole stands for whole milliseconds", (_, stepMs, largestGapMs, heldMs) => {
  const recording = { file: "", sha256: "", clock: { kind: "elapsed" }, channels: [logged(stepMs)], notes: [], cutOff: false } as const;
  const assessed = assessRecording(recording, settingsWith({ largestGapMs }));
  const channel = assessed.ok ? assessed.value[0]?.channels[0] : undefined;
  expect(channel?.sampledSeconds).toBe((299 * stepMs + heldMs + 299 * stepMs) / 1000);
  expect(channel?.findings.map(({ outcome }) => outcome)).toHaveLength(limits.length);
  expect(channel?.findings.find(({ limit }) => limit.kind === "twa")?.low).toBe(5);
});
