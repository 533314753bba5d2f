/** One finding as the answer prints it: every figure in the unit of the limit that it stands beside. */
import type { NotCompared } from "../core/exposure/assessment.ts";
import type { Assumption, Finding, FindingPart } from "../core/finding.ts";
import type { Limit, PublishedValue } from "../core/gas/limit.ts";
import { powerOfTenBetween, scaleByPowerOfTen, type Unit } from "../core/quantity/index.ts";
import { limitSources } from "../report/index.ts";
import type { FindingAnswer, LimitAnswer, NotComparedAnswer } from "./answer.ts";
import { timeText } from "./answer-times.ts";
import type { FileClock } from "./shift-times.ts";

export interface FindingContext {
  readonly clock: FileClock;
  readonly dateKnown: boolean;
  /** Choices of the site that this finding rests on. */
  readonly settings: readonly Assumption[];
}

export function findingAnswer(finding: Finding, { clock, dateKnown, settings }: FindingContext): FindingAnswer {
  const { limit, window } = finding;
  const shown = comparedFigure(limit, finding.unit);
  const unit = shown?.unit ?? limit.threeLevel?.unit ?? finding.unit;
  const inUnit = scaled(finding.unit, unit);
  return {
    id: finding.id,
    limit: { ...limitAnswer(limit, { value: shown?.value ?? null, unit }), lowered: orNull(finding.lowered, inUnit) },
    unit,
    outcome: finding.outcome,
    low: inUnit(finding.low),
    best: orNull(finding.best, inUnit),
    high: orNull(finding.high, inUnit),
    coverage: finding.coverage,
    wStar: orNull(finding.wStar, inUnit),
    shiftRule: finding.shiftRule,
    windowStart: window === null ? null : timeText(window.from, clock),
    windowEnd: window === null ? null : timeText(window.to, clock),
    parts: finding.parts.map((part) => partAnswer(part, unit)),
    grounds: finding.grounds,
    assumptions: [...finding.assumptions, ...settings, ...latestEdition(finding, dateKnown)],
    undecidedBy: finding.undecidedBy.map((reason) => ("wStar" in reason ? { ...reason, wStar: orNull(reason.wStar, inUnit) } : reason)),
    method: finding.method,
  };
}

function latestEdition({ assumptions }: Finding, dateKnown: boolean): readonly Assumption[] {
  if (dateKnown || assumptions.some(({ type }) => type === "limit-of-latest-edition")) return [];
  return [{ type: "limit-of-latest-edition", why: "no date known" }];
}

/** The limit as published, by the figure that readings in this unit would be compared with. */
export function limitAnswer(limit: Limit, { value, unit }: { readonly value: number | null; readonly unit: Unit }): LimitAnswer {
  return {
    id: limit.id,
    regime: limit.regime,
    kind: limit.kind,
    value,
    lowered: null,
    unit,
    operator: limit.operator,
    averagingMinutes: limit.averagingMinutes,
    levels: levelsIn(limit, unit),
    source: limitSources(limit.sources),
    edition: limit.edition,
    mark: limit.mark,
  };
}

/** Ceiling and peak in the unit that the limit stands in; where they are of another kind of unit they cannot stand in it. */
function levelsIn({ threeLevel }: Limit, unit: Unit): LimitAnswer["levels"] {
  if (threeLevel === null || !inSameKind(threeLevel.unit, unit)) return null;
  const inUnit = scaled(threeLevel.unit, unit);
  return { ceiling: inUnit(threeLevel.ceiling), peak: inUnit(threeLevel.peak) };
}

/** A limit that was not compared stands with the figure it was first published in. */
export function notComparedAnswer({ limit, why }: NotCompared): NotComparedAnswer {
  const figure = limit.published ?? { value: null, unit: limit.threeLevel?.unit ?? "ppm" };
  return { regime: limit.regime, limit: limitAnswer(limit, figure), why };
}

function partAnswer({ name, limit, unit, outcome, low, best, high }: FindingPart, wanted: Unit): FindingAnswer["parts"][number] {
  if (unit === "min" || unit === "count") return { name, limit, unit, outcome, low, best, high };
  const inUnit = scaled(unit, wanted);
  return {
    name,
    limit: inUnit(limit),
    unit: inSameKind(unit, wanted) ? wanted : unit,
    outcome,
    low: inUnit(low),
    best: orNull(best, inUnit),
    high: orNull(high, inUnit),
  };
}

/** Of a limit published in two units, the figure that the readings were compared with: that of their own kind. */
function comparedFigure({ published, alsoPublished }: Limit, unit: Unit): PublishedValue | null {
  if (published === null || inSameKind(published.unit, unit) || alsoPublished === null) return published;
  return inSameKind(alsoPublished.unit, unit) ? alsoPublished : published;
}

const inSameKind = (one: Unit, other: Unit): boolean => powerOfTenBetween(one, other) !== null;

/** Between units of one kind only the point moves, so no digit is rounded. */
function scaled(from: Unit, to: Unit): (value: number) => number {
  const power = powerOfTenBetween(from, to);
  return power === null || power === 0 ? (value) => value : (value) => scaleByPowerOfTen(value, power);
}

const orNull = (value: number | null, change: (value: number) => number): number | null => (value === null ? null : change(value));
