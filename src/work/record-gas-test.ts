/** The daily challenge with gas: a result a channel, the alarms that sounded, a figure only where it was read. */
import type { Bodies, Digits, GasPath, Reading, Shown } from "../core/instrument/index.ts";
import type { BenchChannel } from "./bench-channels.ts";
import { type AtBench, aboutInstrument, referenceOf, type Said, withGas } from "./record-at-bench.ts";

export interface ChannelSeen {
  readonly channel: BenchChannel;
  /** Gas of the cylinder that it was shown; null where the cylinder has none for it: then it was not tested. */
  readonly component: string | null;
  readonly result: "passed" | "failed" | "not-tested";
  /** Names of set points that sounded. */
  readonly alarms: readonly string[];
  readonly reading: Reading | null;
}

export interface GasTestSeen {
  readonly channels: readonly ChannelSeen[];
  readonly gasPath: GasPath;
  readonly gasSeconds: Digits | null;
  readonly gauge: Shown | null;
}

export function recordGasTest(bench: AtBench, { channels, gasPath, gasSeconds, gauge }: GasTestSeen): Said {
  const body: Bodies["gas-tested"] = {
    ...{ gasPath, gasSeconds, gauge, flow: null, isAutomatic: false, files: [] },
    channels: channels.map(({ channel, component, result, alarms, reading }) => ({
      ...referenceOf(channel),
      // What was shown no gas names its own: the form has no word for none, and the result says that it was not tested.
      component: component ?? channel.gas,
      result: component === null ? "not-tested" : result,
      alarmsReached: component === null ? [] : alarms.map((name) => ({ name, seconds: null })),
      reading: component === null ? null : reading,
    })),
  };
  return aboutInstrument("gas-tested", bench, body, { subjects: withGas(bench) });
}

/** Every channel that the cylinder has gas for passed, and each alarm that a gas test must raise sounded. */
export const allPassed = (channels: readonly Pick<ChannelSeen, "channel" | "component">[]): readonly ChannelSeen[] =>
  channels.map(({ channel, component }) => ({ channel, component, result: "passed", alarms: channel.raised, reading: null }));
