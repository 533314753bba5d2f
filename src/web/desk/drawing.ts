/**
 * Paths of one panel, made in the worker so that the page only puts them up. A logged series is drawn as what it is,
 * steps: each step where there is room, else the first, last, lowest and highest of each pixel column, which paint the
 * same pixels. Nothing is averaged and nothing is left out.
 */
import type { RollingMean } from "../../core/exposure/index.ts";
import type { Plotting } from "./protocol.ts";

/** First, last, lowest and highest drawn value of each column; NaN where the column has none. */
export interface Columns {
  readonly first: Float64Array;
  readonly last: Float64Array;
  readonly lowest: Float64Array;
  readonly highest: Float64Array;
  /** 1 where the log was broken in the column or just before its first reading. */
  readonly broken: Uint8Array;
}

export interface Geometry extends Plotting {
  /** Pixel of the first column, to the left of the view. */
  readonly left: number;
}

const yOn = ({ height, head, foot, scale: [least, top] }: Geometry): ((value: number) => number) => {
  const room = (height - foot - head) / (top - least);
  const base = height - foot;
  // A tenth of a pixel is finer than any screen draws.
  return (value) => Math.round((base - (Math.min(Math.max(value, least - 1e9), top * 4 + 1) - least) * room) * 10) / 10;
};

/**
 * Dense: a pixel column holds many readings. A column without any carries the value on, unless the log was broken in
 * it or before the next reading: then the line ends with its last column and starts anew.
 */
export const columnPath = (columns: Columns, geometry: Geometry): string => {
  const y = yOn(geometry);
  const { first, last, lowest, highest, broken } = columns;
  const parts: string[] = [];
  let end = Number.NaN;
  for (let column = 0; column < first.length; column++) {
    const value = first[column] as number; // arrays of one length
    if (broken[column] === 1 && !Number.isNaN(end)) {
      parts.push(`H${end}`);
      end = Number.NaN;
    }
    if (Number.isNaN(value)) continue;
    const x = geometry.left + column;
    const [yFirst, yLow, yHigh, yLast] = [y(value), y(lowest[column] as number), y(highest[column] as number), y(last[column] as number)]; // as above
    parts.push(Number.isNaN(end) ? `M${x} ${yFirst}` : `H${x}V${yFirst}`);
    if (yLow !== yFirst || yHigh !== yFirst) parts.push(`V${yLow}V${yHigh}V${yLast}`);
    end = x + 1;
  }
  if (!Number.isNaN(end)) parts.push(`H${end}`);
  return parts.join("");
};

/** Sparse: every step has its pixels. Edges in pixels, values between them; a step without a value breaks the line. */
export const stepPath = (edges: readonly number[], values: readonly number[], geometry: Geometry): string => {
  const y = yOn(geometry);
  const parts: string[] = [];
  let open = false;
  for (let step = 0; step < values.length; step++) {
    const value = values[step] as number; // one more edge than values
    if (Number.isNaN(value)) {
      open = false;
      continue;
    }
    const [from, to] = [Math.round((edges[step] as number) * 10) / 10, Math.round((edges[step + 1] as number) * 10) / 10]; // as above
    parts.push(open ? `V${y(value)}H${to}` : `M${from} ${y(value)}H${to}`);
    open = true;
  }
  return parts.join("");
};

export interface MeanPaths {
  readonly mean: string;
  readonly thin: string;
  readonly hot: string;
  readonly wash: string;
  readonly ribbon: string;
  /** Where there is no upper bound the space above the mean is not known. */
  readonly unbounded: string;
  /** The same as runs of columns, for the words beside it. */
  readonly unboundedRuns: readonly (readonly [number, number])[];
}

/** Dashed below this share of the window really measured (setting; handbook example 0.75, ours). */
export const coverageSetting = 0.75;

const nothing = (mean: RollingMean, column: number): boolean =>
  Number.isNaN(mean.lowMax[column] as number) || mean.coverage[column] === 0 || mean.reachesUnknown[column] === 1;

/** Runs of columns for which `holds`, each as [from, to). */
const runs = (count: number, holds: (column: number) => boolean): readonly (readonly [number, number])[] => {
  const found: (readonly [number, number])[] = [];
  let from = -1;
  for (let column = 0; column <= count; column++) {
    const in_ = column < count && holds(column);
    if (in_ && from < 0) from = column;
    if (!in_ && from >= 0) {
      found.push([from, column]);
      from = -1;
    }
  }
  return found;
};

const linePath = (mean: RollingMean, from: number, to: number, geometry: Geometry): string => {
  const y = yOn(geometry);
  const parts: string[] = [];
  for (let column = from; column < to; column++) {
    const [low, high] = [y(mean.lowMin[column] as number), y(mean.lowMax[column] as number)]; // checked by `nothing`
    const x = geometry.left + column;
    parts.push(`${column === from ? "M" : "L"}${x} ${high}`);
    if (low !== high) parts.push(`V${low}V${high}`);
  }
  // One column alone still shows as a point of its width.
  if (to - from === 1) parts.push("h1");
  return parts.join("");
};

const areaPath = (from: number, to: number, top: (column: number) => number, foot: (column: number) => number, left: number): string => {
  const there: string[] = [];
  const back: string[] = [];
  for (let column = from; column < to; column++) {
    there.push(`${left + column} ${top(column)}`);
    back.push(`${left + column} ${foot(column)}`);
  }
  const last = to - from === 1 ? `L${left + to} ${top(from)}L${left + to} ${foot(from)}` : "";
  return `M${there.join("L")}${last}L${back.reverse().join("L")}Z`;
};

/** The rolling mean at its window's end: full, thin on coverage, above the limit; with its upper edge as a ribbon. */
export const meanPaths = (mean: RollingMean, limit: number | null, geometry: Geometry): MeanPaths => {
  const y = yOn(geometry);
  const count = mean.columns;
  const isThin = (column: number): boolean => (mean.coverage[column] as number) < coverageSetting; // one a column
  const isHot = (column: number): boolean => limit !== null && !nothing(mean, column) && (mean.lowMax[column] as number) > limit; // as above
  const drawn = (thin: boolean): string =>
    runs(count, (column) => !nothing(mean, column) && isThin(column) === thin)
      .map(([from, to]) => linePath(mean, thin ? from : Math.max(0, from), to, geometry))
      .join("");
  const hot = runs(count, isHot);
  const low = (column: number): number => y(mean.lowMax[column] as number); // as above
  const apart = (column: number): boolean =>
    !nothing(mean, column) &&
    !Number.isNaN(mean.highMax[column] as number) &&
    Math.abs(y(mean.highMax[column] as number) - low(column)) > 0.4; // as above
  const unbounded = (column: number): boolean => !nothing(mean, column) && Number.isNaN(mean.highMax[column] as number); // as above
  const unboundedRuns = runs(count, unbounded);
  return {
    mean: drawn(false),
    thin: drawn(true),
    hot: hot.map(([from, to]) => linePath(mean, from, to, geometry)).join(""),
    wash: hot.map(([from, to]) => areaPath(from, to, low, () => y(limit ?? 0), geometry.left)).join(""),
    ribbon: runs(count, apart)
      .map(([from, to]) => areaPath(from, to, (column) => y(mean.highMax[column] as number), low, geometry.left)) // as above
      .join(""),
    unboundedRuns,
    unbounded: unboundedRuns.map(([from, to]) => areaPath(from, to, () => geometry.head, low, geometry.left)).join(""),
  };
};
