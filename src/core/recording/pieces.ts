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

export class PieceBuilder {
  #edges: Float64Array;
  #low: Int32Array;
  #high: Int32Array;
  #stretches: Uint8Array;
  #count = 0;
  #twoEdged = false;
  #allSampled = true;

  /** @param capacity pieces at most, open ones included */
  constructor(start: number, capacity: number) {
    this.#edges = new Float64Array(capacity + 1);
    this.#low = new Int32Array(capacity);
    this.#high = new Int32Array(capacity);
    this.#stretches = new Uint8Array(capacity);
    this.#edges[0] = start;
  }

  /** End of the last piece so far. */
  get end(): number {
    return this.#edges[this.#count] ?? 0;
  }

  /** Lays a piece from where the last one ended, or from later: the time between is open. Pieces without length are none. */
  lay(from: number, to: number, low: number, high: number, stretch: number): void {
    const start = Math.max(from, this.end);
    if (to <= start) return;
    this.open(start);
    if (stretch === STRETCH.unsampled) this.open(to);
    else this.#put(to, low, high, stretch);
  }

  /** Time up to `to` is unsampled, and nothing is declared. */
  open(to: number): void {
    if (to <= this.end) return;
    const last = this.#count - 1;
    if (last >= 0 && this.#stretches[last] === STRETCH.unsampled) this.#edges[this.#count] = to;
    else this.#put(to, 0, OPEN, STRETCH.unsampled);
  }

  pieces(): Pieces {
    const count = this.#count;
    return {
      timing: { kind: "uneven", edges: this.#edges.slice(0, count + 1) },
      low: this.#low.slice(0, count),
      high: this.#twoEdged ? this.#high.slice(0, count) : null,
      stretches: this.#allSampled ? null : this.#stretches.slice(0, count),
    };
  }

  #put(to: number, low: number, high: number, stretch: number): void {
    const at = this.#count;
    this.#low[at] = low;
    this.#high[at] = high;
    this.#stretches[at] = stretch;
    if (high !== low) this.#twoEdged = true;
    if (stretch !== STRETCH.sampled) this.#allSampled = false;
    this.#edges[at + 1] = to;
    this.#count = at + 1;
  }
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
  const builder = new PieceBuilder(edgeAt(timing, 0), count + inner.length + 1);
  let next = 0;
  for (let segment = 0; segment < count; segment += 1) {
    let from = edgeAt(timing, segment);
    const end = edgeAt(timing, segment + 1);
    while (from < end) {
      while (next < inner.length && (inner[next] ?? 0) <= from) next += 1;
      const to = Math.min(end, inner[next] ?? end);
      const part = decide(segment, from, to);
      const lowest = low[segment] ?? 0;
      if (part === null) builder.lay(from, to, lowest, high?.[segment] ?? lowest, stretches?.[segment] ?? STRETCH.sampled);
      else builder.lay(from, to, part.low, part.high, part.stretch);
      from = to;
    }
  }
  return builder.pieces();
}
