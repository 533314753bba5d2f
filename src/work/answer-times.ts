/** Times of an answer: RFC 3339 in UTC, or the duration from the start where the file has no clock. Nothing is rounded. */
import { durationText, type Instant, rfc3339FromInstant } from "../core/time/index.ts";
import type { FileClock } from "./shift-times.ts";

/** Milliseconds on the clock of the file as text. A window may begin between two milliseconds: it is named by the one before. */
export function timeText(milliseconds: number, clock: Pick<FileClock, "kind">): string {
  const whole = Math.floor(milliseconds);
  // The brand is right because the clock of the file counts instants.
  return clock.kind === "elapsed" ? durationText(whole) : rfc3339FromInstant(whole as Instant);
}
