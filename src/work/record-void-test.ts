/** A test that gave no result, its cause said before any result was seen. */
import type { ChannelReference, VoidCause } from "../core/instrument/index.ts";
import { type AtBench, aboutInstrument, referenceOf, type Said, withGas } from "./record-at-bench.ts";

export const recordVoidTest = (bench: AtBench, cause: VoidCause, channels: readonly ChannelReference[]): Said =>
  aboutInstrument("gas-test-void", bench, { cause, channels: channels.map(referenceOf) }, { subjects: withGas(bench) });
