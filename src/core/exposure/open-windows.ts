/** Windows that touch open time: how much of each is known, and how much is open. */
import { nextLevel, OPEN, type TwoEdgedSignal } from "../recording/index.ts";
import { edgeAt, edgesOf, segmentAt } from "./edge-sums.ts";
import type { Confinement } from "./greatest-window.ts";

/** Integral of the known part (steps x ms) and open milliseconds of windows, in order of time; one entry a window. */
export interface OpenWindows {
  readonly known: readonly number[];
  readonly open: readonly number[];
}

/** Kept for as long as the signal: every limit with a window of this length asks for them. */
const found = new WeakMap<TwoEdgedSignal, Map<string, OpenWindows>>();

const windowKey = (windowMs: number, within: Confinement): string =>
  within === null ? `${windowMs}` : `${windowMs}/${within.from}/${within.to}`;

/**
 * Windows that hold open time and start where either end meets an edge; of consecutive ones with as much open time only
 * the one with the most known beside it, since at no level of open time can another be above it.
 *
 * @example
 * ```ts
 * import { openWindows } from "./open-windows.ts";
 * // 10 min at 30 ppm, then nothing known for 5 min, then 6 ppm; windows of 15 min.
 * const signal = { decimals: 0, timing: { kind: "uneven", edges: Float64Array.of(0, 10, 15, 30) } as const,
 *   low: Int32Array.of(30, 0, 6), high: Int32Array.of(30, 0x7fffffff, 6), stretches: Uint8Array.of(0, 2, 0),
 *   averageOnly: [], outside: "unexposed", largest: 30 } as const;
 * openWindows(signal, 15, null); // => { "known": [300], "open": [5] }
 * ```
 * Never refuses. Source: ours.
 */
export function openWindows(signal: TwoEdgedSignal, windowMs: number, within: Confinement): OpenWindows {
  const windows = found.get(signal) ?? new Map<string, OpenWindows>();
  found.set(signal, windows);
  const key = windowKey(windowMs, within);
  const known = windows.get(key);
  if (known !== undefined) return known;
  const made: Gathered = { known: [], open: [] };
  const edges = edgesOf(signal.timing);
  for (const region of openRegions(signal, windowMs, within)) gather(signal, edges, windowMs, region, made);
  windows.set(key, made);
  return made;
}

interface Gathered {
  readonly known: number[];
  readonly open: number[];
}

interface Region {
  readonly from: number;
  readonly to: number;
}

/** Starts of windows that touch open time, merged. */
function openRegions(signal: TwoEdgedSignal, windowMs: number, within: Confinement): Region[] {
  const { timing, high, low, outside } = signal;
  const start = edgeAt(timing, 0);
  const end = edgeAt(timing, low.length);
  const regions: Region[] = [];
  const add = (from: number, to: number): void => {
    const clipped =
      within === null
        ? { from: from - windowMs, to }
        : { from: Math.max(from - windowMs, within.from), to: Math.min(to, within.to - windowMs) };
    const last = regions.at(-1);
    if (clipped.to < clipped.from) return;
    if (last !== undefined && clipped.from <= last.to) regions[regions.length - 1] = { from: last.from, to: Math.max(last.to, clipped.to) };
    else regions.push(clipped);
  };
  const beyond = outside === "unsampled" && within === null;
  if (beyond) add(start, start);
  if (high !== null)
    for (let i = nextLevel(high, OPEN, -1); i >= 0; i = nextLevel(high, OPEN, i)) add(edgeAt(timing, i), edgeAt(timing, i + 1));
  if (beyond) add(end, end);
  return regions;
}

/** The last window that was gathered: another with as much open time takes its place where more is known beside it. */
interface Held {
  known: number;
  open: number;
}

function keep(into: Gathered, held: Held, known: number, open: number): void {
  if (open <= 0) return;
  if (open === held.open) {
    if (known > held.known) held.known = known;
    return;
  }
  putDown(into, held);
  held.known = known;
  held.open = open;
}

function putDown({ known, open }: Gathered, held: Held): void {
  if (held.open <= 0) return;
  known.push(held.known);
  open.push(held.open);
}

/** Walks the start of the window from edge to edge, as `greatestWindow` does. */
function gather(signal: TwoEdgedSignal, edges: Float64Array, windowMs: number, region: Region, into: Gathered): void {
  const { timing, low } = signal;
  const count = low.length;
  const upper = signal.high ?? low;
  const outside = signal.outside === "unsampled" ? OPEN : 0;
  let near = segmentAt(timing, count, region.from);
  let far = segmentAt(timing, count, region.from + windowMs);
  let { known, open } = sumsBetween(signal, region.from, region.from + windowMs);
  const held: Held = { known: into.known.pop() ?? 0, open: into.open.pop() ?? 0 };
  keep(into, held, known, open);
  let at = region.from;
  let coming = far >= 0 && far < count ? (upper[far] as number) : outside;
  let nextFar = (far < count ? (edges[far + 1] as number) : Number.POSITIVE_INFINITY) - windowMs; // count + 1 edges
  while (at < region.to) {
    const leaving = near >= 0 && near < count ? (upper[near] as number) : outside;
    const edge = near < count ? (edges[near + 1] as number) : Number.POSITIVE_INFINITY; // count + 1 edges
    const nearEnd = edge < region.to ? edge : region.to;
    while (nextFar <= nearEnd) {
      known += ((coming === OPEN ? 0 : coming) - (leaving === OPEN ? 0 : leaving)) * (nextFar - at);
      open += ((coming === OPEN ? 1 : 0) - (leaving === OPEN ? 1 : 0)) * (nextFar - at);
      at = nextFar;
      keep(into, held, known, open);
      far += 1;
      coming = far < count ? (upper[far] as number) : outside;
      nextFar = (far < count ? (edges[far + 1] as number) : Number.POSITIVE_INFINITY) - windowMs;
    }
    known += ((coming === OPEN ? 0 : coming) - (leaving === OPEN ? 0 : leaving)) * (nearEnd - at);
    open += ((coming === OPEN ? 1 : 0) - (leaving === OPEN ? 1 : 0)) * (nearEnd - at);
    at = nearEnd;
    keep(into, held, known, open);
    near += 1;
  }
  putDown(into, held);
}

function sumsBetween(signal: TwoEdgedSignal, from: number, to: number): { readonly known: number; readonly open: number } {
  const { timing, low } = signal;
  const count = low.length;
  let known = 0;
  let open = 0;
  let at = from;
  for (let i = segmentAt(timing, count, from); at < to; i += 1) {
    const next = Math.min(to, i < count ? edgeAt(timing, i + 1) : to);
    const upper = upperAt(signal, i);
    if (upper === OPEN) open += next - at;
    else known += upper * (next - at);
    at = next;
  }
  return { known, open };
}

function upperAt(signal: TwoEdgedSignal, index: number): number {
  if (index < 0 || index >= signal.low.length) return signal.outside === "unsampled" ? OPEN : 0;
  return (signal.high ?? signal.low)[index] as number; // within the signal
}
