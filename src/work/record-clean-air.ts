/** What an instrument showed in clean air, and what had shown that air to be clean. */
import type { CleanBy, Reading, Shown } from "../core/instrument/index.ts";
import { decimalFromText } from "../core/quantity/index.ts";
import { type BenchChannel, shownOn } from "./bench-channels.ts";
import { type AtBench, aboutInstrument, byTester, referenceOf, type Said } from "./record-at-bench.ts";

export interface CleanAirSeen {
  readonly shownCleanBy: CleanBy;
  /** The proven instrument that showed it; null for the other ways. */
  readonly witness: string | null;
  readonly readings: readonly { readonly channel: BenchChannel; readonly reading: Reading }[];
  readonly expectedOxygen: Shown | null;
}

export function recordCleanAir(bench: AtBench, { shownCleanBy, witness, readings, expectedOxygen }: CleanAirSeen): Said {
  const body = {
    ...{ shownCleanBy, expectedOxygen },
    readings: readings.map(({ channel, reading }) => ({ ...referenceOf(channel), reading })),
  };
  return aboutInstrument("clean-air-read", bench, body, { subjects: airSubjects(bench, shownCleanBy, witness) });
}

export function airSubjects(bench: AtBench, shownCleanBy: CleanBy, witness: string | null): ReturnType<typeof byTester>[] {
  const { sitting } = bench;
  return [
    byTester(bench),
    ...(shownCleanBy === "proven-instrument" && witness !== null ? [{ role: "witness", id: witness }] : []),
    ...(sitting === null ? [] : [{ role: "station", id: sitting.station }]),
  ];
}

/** What a display shows where there is nothing: nought in its own step, and for oxygen what the tester expects of this air. */
export function noughtOn(channel: BenchChannel, oxygenDigits: string): Shown {
  if (channel.gas === "oxygen") return shownOn(channel, oxygenDigits);
  const step = channel.step === null ? null : decimalFromText(channel.step);
  const decimals = step?.ok === true ? step.value.decimals : 0;
  return shownOn(channel, decimals > 0 ? `0.${"0".repeat(decimals)}` : "0");
}
