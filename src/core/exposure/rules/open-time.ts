/** How much time there is whose upper end is open. */
import { nextCode, OPEN, STRETCH, type TwoEdgedSignal } from "../../recording/index.ts";
import { edgeAt } from "../edge-sums.ts";
import { type Period, restOfEightHours } from "../period.ts";

/** Seconds without an upper end: over range, and not measured (the rest of 8 h included where the shift is not known). */
export interface OpenSeconds {
  readonly overRange: number;
  readonly unsampled: number;
  /** The last of spot readings was over range: it has no length, and leaves the greatest value open all the same. */
  readonly isLastOverRange?: boolean;
}

/**
 * What is open for the greatest value and for short windows, where only a statement for any moment closes it; for an
 * average over the whole period "like the sampled time" and statements as an average close it too.
 */
export function openSeconds(period: Period, serves: "any window" | "whole period"): OpenSeconds {
  const { stretch, signal, unsampled } = period;
  const overRange = (stretch.msByCode[STRETCH.bounded] ?? 0) === 0 ? 0 : openOverRangeMs(signal);
  const saysNothing = unsampled.kind === "open" || (unsampled.kind === "like" && serves === "any window");
  const rest = saysNothing ? restOfEightHours(period) : 0;
  const openMs = serves === "any window" ? stretch.openMs : stretch.undeclaredMs;
  return { overRange: overRange / 1000, unsampled: (openMs - overRange + rest) / 1000 };
}

function openOverRangeMs({ high, stretches, timing }: TwoEdgedSignal): number {
  if (high === null || stretches === null) return 0;
  let ms = 0;
  for (let i = nextCode(stretches, STRETCH.bounded, -1); i >= 0; i = nextCode(stretches, STRETCH.bounded, i)) {
    if (high[i] === OPEN) ms += edgeAt(timing, i + 1) - edgeAt(timing, i);
  }
  return ms;
}
