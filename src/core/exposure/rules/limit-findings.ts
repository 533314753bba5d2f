/** Every limit of a gas set against one channel: which rule serves which kind. */
import type { Finding } from "../../finding.ts";
import type { Limit, PublishedValue } from "../../gas/index.ts";
import { kindOfUnit } from "../../quantity/index.ts";
import type { NotCompared } from "../assessment.ts";
import { type LimitTerms, limitTerms } from "../limit-terms.ts";
import { averageFindings } from "./average-rule.ts";
import { greatestFinding } from "./greatest-rule.ts";
import { slidingFinding } from "./sliding-rule.ts";
import type { Subject } from "./subject.ts";
import { threeLevelFinding } from "./three-level-rule.ts";

/** Findings of all limits that meet the channel's unit, worst first, then by what would decide them soonest. */
export function limitFindings(subject: Subject, limits: readonly Limit[]): readonly Finding[] {
  return limits.flatMap((limit) => findingsOf(subject, limit)).sort(bySeverity);
}

function findingsOf(subject: Subject, limit: Limit): readonly Finding[] {
  if (limit.threeLevel !== null) {
    const finding = threeLevelFinding(subject, limit, limit.threeLevel);
    return finding === null ? [] : [finding];
  }
  const published: PublishedValue[] = [limit.published, limit.alsoPublished].filter((value) => value !== null);
  const terms = limitTerms(published, subject.channel.unit, limit.statedAs === undefined ? subject.molar(limit.regime) : null);
  if (terms === null) return [];
  return findingsOfKind(subject, limit, terms).map((finding) => notFinerThanShown(subject, finding, terms));
}

function findingsOfKind(subject: Subject, limit: Limit, terms: LimitTerms): readonly Finding[] {
  switch (limit.kind) {
    case "twa":
      return averageFindings(subject, limit, terms);
    case "stel":
    case "excursion":
      return [slidingFinding(subject, limit, terms, limit.averagingMinutes ?? 15)];
    case "ceiling":
      return [
        limit.averagingMinutes === null
          ? greatestFinding(subject, limit, terms)
          : slidingFinding(subject, limit, terms, limit.averagingMinutes),
      ];
    case "any-shorter-period":
    case "immediately-dangerous":
      return [greatestFinding(subject, limit, terms)];
    case "three-level":
      return [];
  }
}

/**
 * A displayed nought can hide most of a step, so an instrument whose step is greater than the limit cannot show that it was
 * kept. A declared dead band says how much a nought can hide, and stands in the upper end already.
 */
function notFinerThanShown({ settings, shownDecimals, gas }: Subject, finding: Finding, terms: LimitTerms): Finding {
  const step = 10 ** -shownDecimals;
  if (finding.outcome !== "within" || settings.deadBand(gas) !== null || terms.level.value >= step) return finding;
  return { ...finding, outcome: "undetermined", wStar: null, undecidedBy: [{ type: "limit-finer-than-a-step", step: step * terms.scale }] };
}

/** The limits that no finding speaks of, each with what keeps it from the readings. `subject` null: the unit is not known. */
export function limitsNotCompared(subject: Subject | null, limits: readonly Limit[]): readonly NotCompared[] {
  return limits.flatMap((limit) => {
    const why = subject === null ? ("unit not known" as const) : keptApart(subject, limit);
    return why === null ? [] : [{ limit, why }];
  });
}

function keptApart({ channel, molar }: Subject, limit: Limit): NotCompared["why"] | null {
  const units =
    limit.threeLevel === null ? [limit.published, limit.alsoPublished].flatMap((value) => value?.unit ?? []) : [limit.threeLevel.unit];
  if (units.length === 0 || units.some((unit) => kindOfUnit(unit) === kindOfUnit(channel.unit))) return null;
  if ([channel.unit, ...units].some((unit) => kindOfUnit(unit) === "fraction of LEL")) return "other kind of unit";
  if (limit.statedAs !== undefined) return "counts a part of the molecule";
  return molar(limit.regime) === null ? "no conversion known" : null;
}

const SEVERITY = { exceeds: 0, undetermined: 1, within: 2 } as const;

function bySeverity(first: Finding, second: Finding): number {
  return SEVERITY[first.outcome] - SEVERITY[second.outcome] || (first.wStar ?? Infinity) - (second.wStar ?? Infinity) || 0;
}
