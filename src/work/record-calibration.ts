/** A calibration: the reading as found, before anything was moved, and as left. */
import type { Bodies, GasPath, Reading } from "../core/instrument/index.ts";
import type { BenchChannel } from "./bench-channels.ts";
import { type AtBench, aboutInstrument, referenceOf, type Said, withGas } from "./record-at-bench.ts";

export interface CalibratedChannel {
  readonly channel: BenchChannel;
  readonly component: string;
  readonly asFound: Reading | null;
  readonly asLeft: Reading | null;
  readonly result: Bodies["calibrated"]["channels"][number]["result"];
}

export function recordCalibration(bench: AtBench, channels: readonly CalibratedChannel[], gasPath: GasPath): Said {
  const body: Bodies["calibrated"] = {
    ...{ gasPath, gasSeconds: null, workshop: null, files: [] },
    channels: channels.map(({ channel, component, asFound, asLeft, result }) => ({
      ...referenceOf(channel),
      ...{ component, asFound, asLeft, result },
    })),
  };
  return aboutInstrument("calibrated", bench, body, { subjects: withGas(bench) });
}
