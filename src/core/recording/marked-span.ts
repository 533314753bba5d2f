/** Spans of time that a chart and a table mark: why there is no plain reading, and since when. */
import { type Channel, READING } from "./channel.ts";
import { edgeAt, segmentCount } from "./pieces.ts";
import { OPEN, STRETCH, type StretchCode, type TwoEdgedSignal } from "./signal.ts";

/** What the rows themselves show. `atLeast`: the lowest bound of an over-range span in steps, null without one. */
export interface RecordedSpan {
  readonly from: number;
  readonly to: number;
  readonly why: "gap" | "no reading" | "fault" | "over range" | "under range";
  readonly atLeast: number | null;
}

/**
 * Spans in which rows are missing, say that there was no reading, or lie out of range; in order of time. A gap begins
 * where the reading before it may stand no longer (spot), or at the row before it (means and peaks: they stand
 * backward from the row that closes the gap).
 *
 * @param channel rows in rising order of time
 * @param largestGapMs how long a reading may stand, milliseconds above 0
 * Never refuses.
 * @example
 * ```ts
 * import { recordedSpans } from "./marked-span.ts";
 * const channel = { name: "CO", series: null, gas: null, unit: "ppm", kind: "spot", decimals: 0, times: Float64Array.of(0, 10, 90, 100),
 *   values: Int32Array.of(4, 500, 2, 3), uppers: null, codes: Uint8Array.of(0, 1, 0, 0), lines: null, rangeTop: 500 } as const;
 * recordedSpans(channel, 15); // => [{ "from": 10, "to": 25, "why": "over range", "atLeast": 500 }, { "from": 25, "to": 90, "why": "gap", "atLeast": null }]
 * ```
 * Source: a line is broken where the step exceeds 1.5 intervals, common practice.
 */
export function recordedSpans(channel: Channel, largestGapMs: number): readonly RecordedSpan[] {
  const { times, codes, values, kind, rangeTop } = channel;
  const spans: RecordedSpan[] = [];
  const isSpot = kind === "spot";
  for (let row = 0; row < times.length; row += 1) {
    const time = times[row] ?? 0;
    const other = times[isSpot ? row + 1 : row - 1];
    if (other === undefined && codes === null && rangeTop === null) continue;
    const code = codes === null ? READING.valid : (codes[row] ?? 0);
    const why = reasonOf(code, values[row] ?? 0, rangeTop);
    const [from, to] = isSpot ? [time, other ?? time] : [other ?? time, time];
    const rowSaysNothing = why === "no reading" || why === "fault";
    const stands = rowSaysNothing ? to - from : Math.min(to - from, largestGapMs);
    const gap: RecordedSpan | null =
      to - from > stands ? { from: isSpot ? from + stands : from, to: isSpot ? to : to - stands, why: "gap", atLeast: null } : null;
    if (gap !== null && !isSpot) add(spans, gap);
    if (why !== null) {
      const atLeast = code === READING.overRangeUnbounded || why !== "over range" ? null : (values[row] ?? 0);
      add(spans, isSpot ? { from, to: from + stands, why, atLeast } : { from: to - stands, to, why, atLeast });
    }
    if (gap !== null && isSpot) add(spans, gap);
  }
  return spans;
}

function reasonOf(code: number, value: number, rangeTop: number | null): RecordedSpan["why"] | null {
  if (code === READING.none) return "no reading";
  if (code === READING.fault) return "fault";
  if (code === READING.underRange) return "under range";
  if (code === READING.overRange || code === READING.overRangeUnbounded) return "over range";
  return rangeTop !== null && value >= rangeTop ? "over range" : null;
}

function add(spans: RecordedSpan[], span: RecordedSpan): void {
  const last = spans.at(-1);
  if (last === undefined || last.why !== span.why || last.to !== span.from) return void spans.push(span);
  const atLeast = last.atLeast === null || span.atLeast === null ? null : Math.min(last.atLeast, span.atLeast);
  spans[spans.length - 1] = { ...last, to: span.to, atLeast };
}

/** What a run of segments rests on; the widest band in it, steps, null high = no bound. */
export interface StretchRun {
  readonly from: number;
  readonly to: number;
  readonly stretch: StretchCode;
  readonly low: number;
  readonly high: number | null;
}

/**
 * Runs of segments of one kind other than plainly sampled, in order of time: unsampled, bounded and declared spans.
 *
 * Never refuses.
 * @example
 * ```ts
 * import { stretchRuns } from "./marked-span.ts";
 * const timing = { kind: "uneven", edges: Float64Array.of(0, 10, 20) } as const;
 * const signal = { decimals: 0, timing, low: Int32Array.of(3, 0), high: Int32Array.of(3, 60), stretches: Uint8Array.of(0, 4), averageOnly: [], outside: "unexposed", largest: 60 } as const;
 * stretchRuns(signal); // => [{ "from": 10, "to": 20, "stretch": 4, "low": 0, "high": 60 }]
 * ```
 */
export function stretchRuns(signal: TwoEdgedSignal): readonly StretchRun[] {
  const { timing, stretches, low, high } = signal;
  const runs: StretchRun[] = [];
  if (stretches === null) return runs;
  for (let segment = 0; segment < segmentCount(timing); segment += 1) {
    const stretch = stretches[segment] as StretchCode; // written by this room only
    if (stretch === STRETCH.sampled) continue;
    const from = edgeAt(timing, segment);
    const to = edgeAt(timing, segment + 1);
    const lowest = low[segment] ?? 0;
    const highest = high === null ? lowest : (high[segment] ?? OPEN);
    const last = runs.at(-1);
    if (last?.to !== from || last.stretch !== stretch)
      runs.push({ from, to, stretch, low: lowest, high: highest === OPEN ? null : highest });
    else
      runs[runs.length - 1] = {
        from: last.from,
        to,
        stretch,
        low: Math.min(last.low, lowest),
        high: last.high === null || highest === OPEN ? null : Math.max(last.high, highest),
      };
  }
  return runs;
}
