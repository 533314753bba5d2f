/** Segments of a signal while it is being laid out. Time between two pieces is unsampled and open. */

import type { StretchCode, Timing } from "./signal.ts";
import { OPEN, STRETCH } from "./signal.ts";

/** Times, edges and grounds of consecutive segments. */
export interface Pieces {
  readonly timing: Timing;
  readonly low: Int32Array;
  readonly high: Int32Array | null;
  readonly stretches: Uint8Array | null;
}

/** Where segment `index` begins; `count` gives the end of the last one. */
export function edgeAt(timing: Timing, index: number): number {
  return timing.kind === "regular" ? timing.start + index * timing.stepMs : (timing.edges[index] ?? 0);
}

export function segmentCount(timing: Timing): number {
  return timing.kind === "regular" ? timing.count : timing.edges.length - 1;
}

/** Plain fields: the loops that lay millions of pieces write them themselves. */
export interface PieceBuilder {
  /** Start of the first piece, then the end of each. */
  readonly edges: Float64Array;
  readonly low: Int32Array;
  readonly high: Int32Array;
  readonly stretches: Uint8Array;
  count: number;
}

/**
 * Memory for the pieces of signals, lent by one who needs none of them any more when he lends it again: making and clearing
 * it anew would cost as much as laying a shift. `used`: bytes from its beginning on, a multiple of 8.
 */
export interface LentMemory {
  readonly buffer: ArrayBuffer;
  used: number;
}

/** @param capacity pieces at most, open ones included */
export function pieceBuilder(start: number, capacity: number, lent: LentMemory | null = null): PieceBuilder {
  // One piece of memory for all columns: 8 bytes an edge, then 4 + 4 + 1 a segment.
  const bytes = 8 * (capacity + 1) + 9 * capacity;
  const isEnough = lent !== null && lent.used + bytes <= lent.buffer.byteLength;
  const memory = isEnough ? lent.buffer : new ArrayBuffer(bytes);
  const first = isEnough ? lent.used : 0;
  if (isEnough) lent.used = Math.min(lent.buffer.byteLength, (lent.used + bytes + 7) & ~7);
  const edges = new Float64Array(memory, first, capacity + 1);
  edges[0] = start;
  const low = new Int32Array(memory, first + edges.byteLength, capacity);
  const high = new Int32Array(memory, low.byteOffset + low.byteLength, capacity);
  const stretches = new Uint8Array(memory, high.byteOffset + high.byteLength, capacity);
  // Rows that all hold a reading are laid without their codes; new memory is clear.
  if (isEnough) stretches.fill(STRETCH.sampled);
  return { edges, low, high, stretches, count: 0 };
}

/** Lays a piece from where the last one ended, or from later: the time between is open. Pieces without length are none. */
export function layPiece(builder: PieceBuilder, from: number, to: number, low: number, high: number, stretch: number): void {
  const end = builder.edges[builder.count] ?? 0;
  if (to <= end || to <= from) return;
  if (from > end) layOpen(builder, from);
  if (stretch === STRETCH.unsampled) layOpen(builder, to);
  else put(builder, to, low, high, stretch);
}

/** Time up to `to` is unsampled, and nothing is declared. */
export function layOpen(builder: PieceBuilder, to: number): void {
  const { edges, stretches, count } = builder;
  if (to <= (edges[count] ?? 0)) return;
  if (count > 0 && stretches[count - 1] === STRETCH.unsampled) edges[count] = to;
  else put(builder, to, 0, OPEN, STRETCH.unsampled);
}

function put(builder: PieceBuilder, to: number, low: number, high: number, stretch: number): void {
  const at = builder.count;
  builder.low[at] = low;
  builder.high[at] = high;
  builder.stretches[at] = stretch;
  builder.edges[at + 1] = to;
  builder.count = at + 1;
}

export function builtPieces({ edges, low, high, stretches, count }: PieceBuilder): Pieces {
  let oneEdged = 0;
  while (oneEdged < count && high[oneEdged] === low[oneEdged]) oneEdged += 1;
  let sampled = 0;
  while (sampled < count && stretches[sampled] === STRETCH.sampled) sampled += 1;
  return {
    timing: { kind: "uneven", edges: edges.subarray(0, count + 1) },
    low: low.subarray(0, count),
    high: oneEdged < count ? high.subarray(0, count) : null,
    stretches: sampled < count ? stretches.subarray(0, count) : null,
  };
}

/** What a part of a segment becomes. */
export interface Relaid {
  readonly low: number;
  readonly high: number;
  readonly stretch: StretchCode;
}

/**
 * Cuts segments at boundaries and says anew what some parts are. Parts for which `decide` gives null stay as they
 * were; so integrals change only where it speaks.
 */
export function relaid(
  pieces: Pieces,
  boundaries: readonly number[],
  decide: (segment: number, from: number, to: number) => Relaid | null,
): Pieces {
  const { timing, low, high, stretches } = pieces;
  const count = segmentCount(timing);
  const inner = [...new Set(boundaries)].sort((one, other) => one - other);
  const builder = pieceBuilder(edgeAt(timing, 0), count + inner.length + 1);
  let next = 0;
  for (let segment = 0; segment < count; segment += 1) {
    let from = edgeAt(timing, segment);
    const end = edgeAt(timing, segment + 1);
    while (from < end) {
      while (next < inner.length && (inner[next] ?? 0) <= from) next += 1;
      const to = Math.min(end, inner[next] ?? end);
      const part = decide(segment, from, to);
      const lowest = low[segment] ?? 0;
      if (part === null) layPiece(builder, from, to, lowest, high?.[segment] ?? lowest, stretches?.[segment] ?? STRETCH.sampled);
      else layPiece(builder, from, to, part.low, part.high, part.stretch);
      from = to;
    }
  }
  return builtPieces(builder);
}
