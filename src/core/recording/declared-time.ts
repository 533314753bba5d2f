/**
 * Declarations laid over what the data leave open. A declaration speaks only where nothing was measured (or, for an
 * over-range bound, where only a lower bound was); a reading always stands. Where two declarations cover one stretch
 * the one that allows more stands, since nobody can tell which person is right.
 */
import type { Declaration } from "./declaration.ts";
import type { Pieces, Relaid } from "./pieces.ts";
import { edgeAt, relaid, segmentCount } from "./pieces.ts";
import type { StretchCode, TwoEdgedSignal } from "./signal.ts";
import { OPEN, STRETCH } from "./signal.ts";

/** A declaration on the channel's own steps. */
export interface DeclaredSteps {
  readonly declaration: Declaration;
  readonly from: number;
  readonly to: number;
  /** Bound in steps; null where the kind has none. */
  readonly level: number | null;
}

export interface DeclaredTime {
  readonly pieces: Pieces;
  readonly averageOnly: TwoEdgedSignal["averageOnly"];
  /** Milliseconds that each declaration decided, by its id. */
  readonly msById: ReadonlyMap<string, number>;
  /** Ids of bounds that lie below a reading they should bound: they were not used. */
  readonly belowReading: readonly string[];
}

interface Laying {
  readonly pieces: Pieces;
  readonly declared: readonly DeclaredSteps[];
  readonly averageOnly: { from: number; to: number; high: number }[];
  readonly msById: Map<string, number>;
  readonly belowReading: Set<string>;
}

export function withDeclarations(pieces: Pieces, declared: readonly DeclaredSteps[]): DeclaredTime {
  const laying: Laying = { pieces, declared, averageOnly: [], msById: new Map(), belowReading: new Set() };
  if (declared.length === 0 || pieces.stretches === null) return { pieces, averageOnly: [], msById: laying.msById, belowReading: [] };
  const boundaries = declared.flatMap(({ from, to }) => [from, to]).filter(Number.isFinite);
  const relaidPieces = relaid(pieces, boundaries, (segment, from, to) => declaredPart(laying, segment, from, to));
  return { pieces: relaidPieces, averageOnly: laying.averageOnly, msById: laying.msById, belowReading: [...laying.belowReading] };
}

function declaredPart(laying: Laying, segment: number, from: number, to: number): Relaid | null {
  const { stretches, low, high } = laying.pieces;
  const covering = laying.declared.filter((one) => one.from <= from && one.to >= to);
  if (stretches?.[segment] === STRETCH.unsampled) return unsampledPart(laying, covering, from, to);
  if (stretches?.[segment] === STRETCH.bounded && high?.[segment] === OPEN)
    return overRangePart(laying, covering, low[segment] ?? 0, from, to);
  return null;
}

function unsampledPart(laying: Laying, covering: readonly DeclaredSteps[], from: number, to: number): Relaid | null {
  let widest: DeclaredSteps | null = null;
  for (const one of covering) {
    if (one.declaration.kind !== "over-range bound" && (widest === null || allowance(one) > allowance(widest))) widest = one;
  }
  if (widest === null) return null;
  count(laying, widest, to - from);
  const stretch = stretchOf(widest);
  if (stretch === STRETCH.declaredAverageOnly) keepAverage(laying, widest, from, to);
  return { low: 0, high: momentHigh(widest), stretch };
}

function overRangePart(laying: Laying, covering: readonly DeclaredSteps[], low: number, from: number, to: number): Relaid | null {
  let widest: DeclaredSteps | null = null;
  for (const one of covering) {
    if (one.declaration.kind !== "over-range bound") continue;
    if ((one.level ?? 0) < low) laying.belowReading.add(one.declaration.id);
    else if (widest === null || allowance(one) > allowance(widest)) widest = one;
  }
  if (widest === null) return null;
  count(laying, widest, to - from);
  if (momentHigh(widest) === OPEN) keepAverage(laying, widest, from, to);
  return { low, high: momentHigh(widest), stretch: STRETCH.bounded };
}

/** Order of how much is allowed: nought, a bound for every moment, a bound for averages, "like the sampled time". */
function allowance(one: DeclaredSteps): number {
  if (one.declaration.kind === "like the sampled time") return Infinity;
  const averageOnly = "holds" in one.declaration && one.declaration.holds === "as an average";
  return (one.level ?? 0) + (averageOnly ? 2 * OPEN : 0);
}

function momentHigh(one: DeclaredSteps): number {
  if (one.declaration.kind === "unexposed") return 0;
  if (one.declaration.kind === "like the sampled time" || one.declaration.holds === "as an average") return OPEN;
  return one.level ?? OPEN;
}

function stretchOf({ declaration }: DeclaredSteps): StretchCode {
  if (declaration.kind === "unexposed") return STRETCH.declaredUnexposed;
  if (declaration.kind === "like the sampled time") return STRETCH.declaredLikeSampled;
  return declaration.holds === "as an average" ? STRETCH.declaredAverageOnly : STRETCH.declaredWorstCase;
}

function count(laying: Laying, { declaration }: DeclaredSteps, ms: number): void {
  laying.msById.set(declaration.id, (laying.msById.get(declaration.id) ?? 0) + ms);
}

/**
 * A bound for averages holds for each unbroken stretch as a whole. Where the declared time reaches beyond the laid
 * time the stretch does too: then no average over the laid time contains it, and the bound serves none.
 */
function keepAverage(laying: Laying, one: DeclaredSteps, from: number, to: number): void {
  const { timing } = laying.pieces;
  const start = from === edgeAt(timing, 0) && Number.isFinite(one.from) ? Math.min(from, one.from) : from;
  const end = to === edgeAt(timing, segmentCount(timing)) && Number.isFinite(one.to) ? Math.max(to, one.to) : to;
  const last = laying.averageOnly.at(-1);
  if (last !== undefined && last.to === start && last.high === one.level) last.to = end;
  else laying.averageOnly.push({ from: start, to: end, high: one.level ?? OPEN });
}
