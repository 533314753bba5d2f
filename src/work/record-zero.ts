/** Zero adjusted, as found and as left where somebody read them. */
import type { Bodies, CleanBy, Reading } from "../core/instrument/index.ts";
import type { BenchChannel } from "./bench-channels.ts";
import { type AtBench, aboutInstrument, referenceOf, type Said } from "./record-at-bench.ts";
import { airSubjects } from "./record-clean-air.ts";

export interface ZeroSeen {
  readonly shownCleanBy: CleanBy;
  readonly witness: string | null;
  readonly channels: readonly { readonly channel: BenchChannel; readonly asFound: Reading | null; readonly asLeft: Reading | null }[];
  readonly result: Bodies["zero-adjusted"]["result"];
}

export function recordZero(bench: AtBench, { shownCleanBy, witness, channels, result }: ZeroSeen): Said {
  const seen = channels.map(({ channel, asFound, asLeft }) => ({ ...referenceOf(channel), asFound, asLeft }));
  const subjects = airSubjects(bench, shownCleanBy, witness);
  return aboutInstrument("zero-adjusted", bench, { shownCleanBy, channels: seen, result }, { subjects });
}
