/** Closes a round: the gauge at the end tells how much gas went. */
import { type Shown, sayable } from "../core/instrument/index.ts";
import type { WrittenInstant } from "../core/record/index.ts";
import { momentOf, type Said } from "./record-at-bench.ts";

export function recordRoundClosed(round: string, tester: string, at: WrittenInstant, gauge: Shown | null): Said {
  const body = { gauge };
  return sayable({ kind: "round-closed", happened: momentOf(at), by: tester, subjects: [], restsOn: [round], body, private: null });
}
