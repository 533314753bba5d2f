/** From when to when a recording is drawn: its readings, and the shifts that touch them, measured or not. */
import type { ShiftSpan } from "../../core/exposure/assessment.ts";

interface Span {
  readonly from: number;
  readonly to: number;
}

/** From the first to the last of spans; the greatest and the least number where there are none. */
const joined = (spans: readonly Span[]): Span => ({
  from: Math.min(...spans.map(({ from }) => from)),
  to: Math.max(...spans.map(({ to }) => to)),
});

/** A shift without a reading is refused in words; an axis that reached out to it would leave the readings no room. */
const touching = (readings: Span, shifts: readonly ShiftSpan[]): readonly ShiftSpan[] =>
  shifts.filter(({ from, to }) => from <= readings.to && to >= readings.from);

/** `own`: the spans of the channels of one recording. */
export const drawnSpan = (own: readonly Span[], shifts: readonly ShiftSpan[]): Span => {
  const readings = joined(own);
  return joined([readings, ...touching(readings, shifts)]);
};

/** Over a signal of its own a channel is drawn in each shift that touches the recording; null = that signal is enough. */
export const widenedTo = (signal: Span, own: readonly Span[], shifts: readonly ShiftSpan[]): Span | null => {
  const wide = joined([signal, ...touching(joined(own), shifts)]);
  return wide.from < signal.from || wide.to > signal.to ? wide : null;
};
