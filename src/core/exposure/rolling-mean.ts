/** The sliding mean as a chart shows it: at the window's end, thinned to pixel columns without losing an extreme. */
import { OPEN, STRETCH, type TwoEdgedSignal } from "../recording/index.ts";
import { edgeAt, segmentAt } from "./edge-sums.ts";

/** One entry a column; NaN where there is no value (open, or nothing measured, or the window reaches into unknown time). */
export interface RollingMean {
  readonly columns: number;
  readonly from: number;
  readonly to: number;
  /** Least and greatest mean of the lower edge among windows that end in the column, in the unit of the channel. */
  readonly lowMin: Float64Array;
  readonly lowMax: Float64Array;
  /** The same of the upper edge; NaN where it is open. */
  readonly highMin: Float64Array;
  readonly highMax: Float64Array;
  /** Least share of the window that was really measured, 0 to 1. */
  readonly coverage: Float64Array;
  /** 1 where some window of the column reaches outside the signal and nobody said what was there. */
  readonly reachesUnknown: Uint8Array;
}

/**
 * Means over the previous `windowMs`, for windows that end in [from, to], by `columns` equal columns; the column of an
 * instant is floor((t - from) columns / (to - from)), the last one closed. Every kink of the sliding mean and every
 * column edge is looked at, so least and greatest are exact for each column. Cost: one walk over the edges in the span.
 *
 * @example
 * ```ts
 * import { rollingMean } from "./rolling-mean.ts";
 * const signal = { decimals: 0, timing: { kind: "uneven", edges: Float64Array.of(0, 300000, 900000) } as const,
 *   low: Int32Array.of(600, 0), high: null, stretches: null, averageOnly: [], outside: "unexposed", largest: 600 } as const;
 * const chart = rollingMean(signal, { windowMs: 900000, from: 0, to: 900000, columns: 3 });
 * chart.lowMax[2]; // => 200
 * chart.lowMin[0]; // => 0
 * ```
 * Source: the mean belongs to the window's end, weighted by time: ours; R.280 (2021) Annexure 3 par. 95 for the value.
 */
export function rollingMean(
  signal: TwoEdgedSignal,
  view: { readonly windowMs: number; readonly from: number; readonly to: number; readonly columns: number },
): RollingMean {
  const chart = emptyChart(view);
  const state = stateAt(signal, view.from, view.windowMs);
  const scale = 1 / (view.windowMs * 10 ** signal.decimals);
  const { timing } = signal;
  const count = signal.low.length;
  const width = (view.to - view.from) / view.columns;
  let column = 0;
  note(chart, column, state, signal, view.windowMs, scale);
  while (state.at < view.to) {
    const columnEnd = column + 1 < view.columns ? view.from + (column + 1) * width : view.to;
    const nextFar = state.far < count ? edgeAt(timing, state.far + 1) : Number.POSITIVE_INFINITY;
    const nextNear = (state.near < count ? edgeAt(timing, state.near + 1) : Number.POSITIVE_INFINITY) + view.windowMs;
    const next = Math.min(nextFar, nextNear, columnEnd);
    advance(state, signal, next - state.at);
    state.at = next;
    note(chart, column, state, signal, view.windowMs, scale);
    if (next === nextFar) state.far += 1;
    if (next === nextNear) state.near += 1;
    if (next === columnEnd && column + 1 < view.columns) {
      column += 1;
      note(chart, column, state, signal, view.windowMs, scale);
    }
  }
  return chart;
}

interface State {
  at: number;
  near: number;
  far: number;
  low: number;
  high: number;
  openMs: number;
  sampledMs: number;
}

function emptyChart(view: { readonly from: number; readonly to: number; readonly columns: number }): RollingMean {
  const blank = (): Float64Array => new Float64Array(view.columns).fill(Number.NaN);
  return {
    ...view,
    lowMin: blank(),
    lowMax: blank(),
    highMin: blank(),
    highMax: blank(),
    coverage: blank(),
    reachesUnknown: new Uint8Array(view.columns),
  };
}

function stateAt(signal: TwoEdgedSignal, end: number, windowMs: number): State {
  const { timing } = signal;
  const count = signal.low.length;
  const from = end - windowMs;
  const state: State = { at: from, near: -1, far: segmentAt(timing, count, from), low: 0, high: 0, openMs: 0, sampledMs: 0 };
  while (state.at < end) {
    const next = Math.min(end, state.far < count ? edgeAt(timing, state.far + 1) : end);
    addSegment(state, signal, state.far, next - state.at, 1);
    state.at = next;
    if (state.far < count && next === edgeAt(timing, state.far + 1)) state.far += 1;
  }
  state.near = segmentAt(timing, count, from);
  return state;
}

function advance(state: State, signal: TwoEdgedSignal, ms: number): void {
  if (ms === 0) return;
  addSegment(state, signal, state.far, ms, 1);
  addSegment(state, signal, state.near, ms, -1);
}

function addSegment(state: State, signal: TwoEdgedSignal, index: number, ms: number, sign: 1 | -1): void {
  if (index < 0 || index >= signal.low.length) {
    if (signal.outside === "unsampled") state.openMs += sign * ms;
    return;
  }
  const low = signal.low[index] as number; // within the signal
  const high = signal.high === null ? low : (signal.high[index] as number); // as long as low
  const code = signal.stretches === null ? STRETCH.sampled : signal.stretches[index];
  state.low += sign * low * ms;
  if (high === OPEN) state.openMs += sign * ms;
  else state.high += sign * high * ms;
  if (code === STRETCH.sampled || code === STRETCH.bounded) state.sampledMs += sign * ms;
}

function note(chart: RollingMean, column: number, state: State, signal: TwoEdgedSignal, windowMs: number, scale: number): void {
  const coverage = state.sampledMs / windowMs;
  if (!(coverage >= (chart.coverage[column] as number))) chart.coverage[column] = coverage; // NaN: the first one
  const outside = state.at - windowMs < edgeAt(signal.timing, 0) || state.at > edgeAt(signal.timing, signal.low.length);
  if (outside && signal.outside === "unsampled") {
    chart.reachesUnknown[column] = 1;
    return;
  }
  widen(chart.lowMin, chart.lowMax, column, state.low * scale);
  if (state.openMs === 0) widen(chart.highMin, chart.highMax, column, state.high * scale);
}

function widen(least: Float64Array, greatest: Float64Array, column: number, value: number): void {
  if (!((least[column] as number) <= value)) least[column] = value; // NaN: the first one
  if (!((greatest[column] as number) >= value)) greatest[column] = value;
}
