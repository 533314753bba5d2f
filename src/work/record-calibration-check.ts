/** A calibration check: a reading a channel, set against the error that the rules allow, as whoever checked it judged it. */
import type { Bodies, CheckedChannel, GasPath, Reading, RuleSet } from "../core/instrument/index.ts";
import type { BenchChannel } from "./bench-channels.ts";
import { type AtBench, aboutInstrument, referenceOf, type Said, withGas } from "./record-at-bench.ts";

export interface CheckedSeen {
  readonly channel: BenchChannel;
  readonly component: string;
  readonly reading: Reading;
  readonly result: CheckedChannel["result"];
}

export type Acceptance = RuleSet["acceptance"][number];

export interface CalibrationCheckSeen {
  readonly channels: readonly (CheckedSeen & { readonly acceptance: Acceptance })[];
  readonly gasPath: GasPath;
}

export function recordCalibrationCheck(bench: AtBench, { channels, gasPath }: CalibrationCheckSeen): Said {
  const body: Bodies["calibration-checked"] = {
    ...{ result: wholeResult(channels), guard: strictestGuard(channels), gasPath, gasSeconds: null, workshop: null, files: [] },
    channels: channels.map(({ channel, component, reading, result, acceptance }) => {
      const { percentOfApplied, absolute, source } = acceptance;
      return { ...referenceOf(channel), component, reading, allowed: { percentOfApplied, absolute, source }, result };
    }),
  };
  return aboutInstrument("calibration-checked", bench, body, { subjects: withGas(bench) });
}

/** Only a plain pass of every channel is a pass; a plain or conditional failure of one is a failure. */
function wholeResult(channels: readonly Pick<CheckedSeen, "result">[]): Bodies["calibration-checked"]["result"] {
  if (channels.some(({ result }) => result === "failed" || result === "conditionally-failed")) return "failed";
  return channels.every(({ result }) => result === "passed") ? "passed" : "undecided";
}

const GUARDS: readonly Acceptance["guard"][] = ["expanded-uncertainty", "one-sided-5-percent", "none"];

/** One guard stands for the whole check: where rows differ, the one that asks most. */
const strictestGuard = (channels: readonly { readonly acceptance: Acceptance }[]): Acceptance["guard"] =>
  GUARDS.find((guard) => channels.some(({ acceptance }) => acceptance.guard === guard)) ?? "none";
