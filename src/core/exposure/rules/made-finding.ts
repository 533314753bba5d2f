/** A finding put together the same way by every rule: outcome, range, grounds, and what kept it undecided. */
import type { Assumption, Finding, FindingPart, Ground, Range, UndecidedBy } from "../../finding.ts";
import type { Limit } from "../../gas/index.ts";
import type { Outcome } from "../../outcome.ts";
import type { Unit } from "../../quantity/index.ts";
import { type Subject, unsampledSeconds } from "./subject.ts";

export type MethodId = "average" | "sliding-mean" | "greatest-value" | "three-level";

/** Editions rise when a result moves by more than its printed resolution. */
const EDITIONS: Readonly<Record<MethodId, number>> = { average: 1, "sliding-mean": 1, "greatest-value": 1, "three-level": 1 };

export interface Judged {
  readonly limit: Limit;
  readonly method: MethodId;
  readonly unit: Unit;
  readonly range: Range;
  readonly outcome: Outcome;
  readonly coverage: number;
  readonly wStar: number | null;
  readonly shiftRule: string | null;
  readonly window: Finding["window"];
  readonly parts?: readonly FindingPart[];
  readonly grounds?: readonly Ground[];
  readonly assumptions?: readonly Assumption[];
  /** What this rule alone knows to have kept it undecided. */
  readonly causes?: readonly UndecidedBy[];
}

/** The finding of one limit. A "within" that the limit's own text leaves to a person is undetermined. */
export function madeFinding(subject: Subject, judged: Judged): Finding {
  const { limit, range, method } = judged;
  const leftToPerson = judged.outcome === "within" ? limit.textNeedsPerson : undefined;
  const outcome = leftToPerson === undefined ? judged.outcome : "undetermined";
  return {
    ...range,
    id: `${limit.id}/${subject.channel.name}${judged.shiftRule === "brief-scala-daily" ? "/brief-scala-daily" : ""}`,
    limit,
    unit: judged.unit,
    outcome,
    coverage: judged.coverage,
    wStar: outcome === "exceeds" ? null : judged.wStar,
    shiftRule: judged.shiftRule,
    window: judged.window,
    parts: judged.parts ?? [],
    grounds: [...subject.grounds, ...(judged.grounds ?? []), { type: "limit-edition", limit: limit.id, edition: limit.edition }],
    assumptions: [...subject.assumptions, ...(judged.assumptions ?? [])],
    method: { id: method, edition: EDITIONS[method] },
    undecidedBy: outcome === "undetermined" ? causesOf(subject, judged, leftToPerson) : [],
  };
}

function causesOf(subject: Subject, judged: Judged, leftToPerson: string | undefined): readonly UndecidedBy[] {
  if (leftToPerson !== undefined) return [{ type: "text-needs-a-person", note: leftToPerson }];
  const causes: UndecidedBy[] = [...(judged.causes ?? [])];
  const overRange = subject.made.tally.overRangeMs / 1000;
  const unsampled = unsampledSeconds(subject);
  const lengthUnknown = subject.period.shift === null && subject.period.unsampled.kind === "open";
  const isOpen = judged.range.high === null && causes.length === 0;
  const isUnsampled = isOpen && (unsampled > 0 || lengthUnknown);
  // One level for both would mislead: over-range time was at least the range top, unsampled time anything.
  const wStar = isUnsampled && overRange > 0 ? null : judged.wStar;
  if (isOpen && overRange > 0) causes.push({ type: "over-range", seconds: overRange, wStar });
  if (isUnsampled) causes.push({ type: "unsampled-time", seconds: unsampled, wStar });
  return causes.length > 0 ? causes : restingOnDeclaration(subject, judged.wStar);
}

/** Both ends are known and lie on both sides: a declared worst case, or the width of the readings themselves. */
function restingOnDeclaration({ made, period }: Subject, wStar: number | null): readonly UndecidedBy[] {
  const declared = (made.tally.declaredMs + (period.unsampled.kind === "level" ? made.tally.unsampledMs : 0)) / 1000;
  return declared > 0 && wStar !== null ? [{ type: "unsampled-time", seconds: declared, wStar }] : [{ type: "sensor-or-conflict" }];
}
