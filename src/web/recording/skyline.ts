/** How high and how low the drawn series reach in each pixel column, so that no label is laid over them. */
import type { PanelFrame } from "../desk/protocol.ts";

export interface Skyline {
  /** Pixel of the first column; the paths begin left of the view. */
  readonly left: number;
  /** Smallest and greatest y in the column; where nothing is drawn the first is greater than the second. */
  readonly top: Float32Array;
  readonly foot: Float32Array;
}

const blank = (left: number, columns: number): Skyline => ({
  left,
  top: new Float32Array(columns).fill(Number.POSITIVE_INFINITY),
  foot: new Float32Array(columns).fill(Number.NEGATIVE_INFINITY),
});

/** A straight piece touches every column that it crosses, at the heights that it has there. */
const touch = ({ left, top, foot }: Skyline, x0: number, y0: number, x1: number, y1: number): void => {
  const first = Math.max(0, Math.floor(Math.min(x0, x1) - left));
  const last = Math.min(top.length - 1, Math.floor(Math.max(x0, x1) - left));
  const slope = x1 === x0 ? 0 : (y1 - y0) / (x1 - x0);
  for (let column = first; column <= last; column++) {
    const [a, b] = [at(column + left), at(column + left + 1)];
    if (Math.min(a, b) < (top[column] as number)) top[column] = Math.min(a, b); // one a column
    if (Math.max(a, b) > (foot[column] as number)) foot[column] = Math.max(a, b); // as above
  }
  function at(x: number): number {
    return x1 === x0 ? (x <= x0 ? y0 : y1) : y0 + slope * (Math.min(Math.max(x, Math.min(x0, x1)), Math.max(x0, x1)) - x0);
  }
};

const steps = /([MLHVhZ])(-?[\d.]+)?(?: (-?[\d.]+))?/g;

/** Paths as `drawing.ts` writes them: M, L, H, V and Z in pixels, and h for a single column. */
const trace = (skyline: Skyline, path: string): void => {
  let [x, y, startX, startY] = [0, 0, 0, 0];
  for (const [, act, first, second] of path.matchAll(steps)) {
    const [a, b] = [Number(first), Number(second)];
    const [nextX, nextY] = act === "H" ? [a, y] : act === "h" ? [x + a, y] : act === "V" ? [x, a] : act === "Z" ? [startX, startY] : [a, b];
    if (act === "M") [startX, startY] = [nextX, nextY];
    else touch(skyline, x, y, nextX, nextY);
    [x, y] = [nextX, nextY];
  }
};

const known = new WeakMap<PanelFrame, Skyline>();

/** Of the readings, the mean, what is above its limit, and its upper edge; worked out once a drawing. */
export const skylineOf = (panel: PanelFrame, width: number): Skyline => {
  const found = known.get(panel);
  if (found !== undefined) return found;
  const skyline = blank(-width, width * 3 + 1);
  for (const path of [panel.raw, panel.mean, panel.thin, panel.hot, panel.wash, panel.ribbon]) trace(skyline, path);
  known.set(panel, skyline);
  return skyline;
};
