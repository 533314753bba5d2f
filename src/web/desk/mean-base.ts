/**
 * The rolling mean of a long recording is worked out once over many fine columns; a picture then joins those that
 * fall into each of its pixels. Joined extremes are the extremes: nothing is averaged. A view that is finer than the
 * fine columns is worked out from its readings.
 */
import { edgeAt, type RollingMean, rollingMean } from "../../core/exposure/index.ts";
import type { TwoEdgedSignal } from "../../core/recording/index.ts";

const fineColumns = 1 << 16;
/** Below this many segments working out a view anew costs less than a frame. */
export const longSignal = 200_000;

export const meanBase = (signal: TwoEdgedSignal, windowMs: number): RollingMean =>
  rollingMean(signal, { windowMs, from: edgeAt(signal.timing, 0), to: edgeAt(signal.timing, signal.low.length), columns: fineColumns });

const blank = (from: number, to: number, columns: number): RollingMean => {
  const none = (): Float64Array => new Float64Array(columns).fill(Number.NaN);
  return {
    columns,
    from,
    to,
    lowMin: none(),
    lowMax: none(),
    highMin: none(),
    highMax: none(),
    coverage: none(),
    reachesUnknown: new Uint8Array(columns),
  };
};

const least = (into: Float64Array, at: number, value: number): void => {
  if (!((into[at] as number) <= value) && !Number.isNaN(value)) into[at] = value; // NaN: the first one
};

const greatest = (into: Float64Array, at: number, value: number): void => {
  if (!((into[at] as number) >= value) && !Number.isNaN(value)) into[at] = value; // as above
};

/** An open upper end anywhere in the pixel leaves the pixel open. */
const joined = (base: RollingMean, from: number, to: number, columns: number): RollingMean => {
  const out = blank(from, to, columns);
  const open = new Uint8Array(columns);
  const width = (base.to - base.from) / base.columns;
  const first = Math.max(0, Math.floor((from - base.from) / width));
  const last = Math.min(base.columns, Math.ceil((to - base.from) / width));
  for (let fine = first; fine < last; fine++) {
    const at = Math.floor(((base.from + (fine + 0.5) * width - from) * columns) / (to - from));
    if (at < 0 || at >= columns) continue;
    least(out.lowMin, at, base.lowMin[fine] as number); // one a column
    greatest(out.lowMax, at, base.lowMax[fine] as number);
    least(out.highMin, at, base.highMin[fine] as number);
    greatest(out.highMax, at, base.highMax[fine] as number);
    least(out.coverage, at, base.coverage[fine] as number);
    if (base.reachesUnknown[fine] === 1) out.reachesUnknown[at] = 1;
    if (Number.isNaN(base.highMax[fine] as number) && !Number.isNaN(base.lowMax[fine] as number)) open[at] = 1;
  }
  for (let at = 0; at < columns; at++) if (open[at] === 1) out.highMax[at] = Number.NaN;
  return out;
};

/** The part of [from, to) that the signal has, by columns of the same width; the rest stays blank. */
const fromReadings = (signal: TwoEdgedSignal, windowMs: number, from: number, to: number, columns: number): RollingMean => {
  const out = blank(from, to, columns);
  const width = (to - from) / columns;
  const first = Math.max(0, Math.floor((edgeAt(signal.timing, 0) - from) / width));
  const last = Math.min(columns, Math.ceil((edgeAt(signal.timing, signal.low.length) - from) / width));
  if (last <= first) return out;
  const part = rollingMean(signal, { windowMs, from: from + first * width, to: from + last * width, columns: last - first });
  out.lowMin.set(part.lowMin, first);
  out.lowMax.set(part.lowMax, first);
  out.highMin.set(part.highMin, first);
  out.highMax.set(part.highMax, first);
  out.coverage.set(part.coverage, first);
  out.reachesUnknown.set(part.reachesUnknown, first);
  return out;
};

export const meanIn = (
  signal: TwoEdgedSignal,
  base: RollingMean | null,
  windowMs: number,
  from: number,
  to: number,
  columns: number,
): RollingMean => {
  const coarse = base !== null && (to - from) / columns >= ((base.to - base.from) / base.columns) * 2;
  return coarse && base !== null ? joined(base, from, to, columns) : fromReadings(signal, windowMs, from, to, columns);
};
