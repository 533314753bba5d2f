/** The logged series as a path: every step where there is room for it, else what M4 keeps of each pixel column. */
import { STRETCH, type TwoEdgedSignal } from "../../core/recording/index.ts";
import { columnPath, type Columns, type Geometry, stepPath } from "./drawing.ts";
import { edgeOf, segmentAt } from "./stretches.ts";

const isDrawn = (signal: TwoEdgedSignal, segment: number): boolean =>
  // One code a segment.
  signal.stretches === null || (signal.stretches[segment] as number) <= STRETCH.bounded;

const valueOf = (signal: TwoEdgedSignal, segment: number, unit: number): number =>
  // Within the signal.
  isDrawn(signal, segment) ? (signal.low[segment] as number) / unit : Number.NaN;

export const rawPath = (signal: TwoEdgedSignal, from: number, to: number, columns: number, geometry: Geometry): string => {
  const [first, last] = [segmentAt(signal, from), Math.min(segmentAt(signal, to) + 1, signal.low.length)];
  if (last <= first) return "";
  if (last - first > columns) return columnPath(columnsOf(signal, from, to, columns, first, last), geometry);
  const [edges, values]: [number[], number[]] = [[], []];
  const [unit, scale] = [10 ** signal.decimals, columns / (to - from)];
  for (let segment = first; segment < last; segment++) {
    edges.push(geometry.left + (edgeOf(signal, segment) - from) * scale);
    values.push(valueOf(signal, segment, unit));
  }
  edges.push(geometry.left + (edgeOf(signal, last) - from) * scale);
  return stepPath(edges, values, geometry);
};

/** Column of an instant: floor((t - from) columns / (to - from)), the last one closed on the right. */
const columnsOf = (signal: TwoEdgedSignal, from: number, to: number, columns: number, first: number, last: number): Columns => {
  const none = (): Float64Array => new Float64Array(columns).fill(Number.NaN);
  const out = { first: none(), last: none(), lowest: none(), highest: none(), broken: new Uint8Array(columns) };
  const [unit, scale] = [10 ** signal.decimals, columns / (to - from)];
  for (let segment = first; segment < last; segment++) {
    const at = Math.min(columns - 1, Math.max(0, Math.floor((edgeOf(signal, segment) - from) * scale)));
    const value = valueOf(signal, segment, unit);
    if (Number.isNaN(value)) {
      out.broken[at] = 1;
      continue;
    }
    if (Number.isNaN(out.first[at] as number)) out.first[at] = value; // a column that is there, here and below
    out.last[at] = value;
    if (!((out.lowest[at] as number) <= value)) out.lowest[at] = value;
    if (!((out.highest[at] as number) >= value)) out.highest[at] = value;
  }
  return out;
};
