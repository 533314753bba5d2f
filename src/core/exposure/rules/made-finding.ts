/** A finding put together the same way by every rule: outcome, range, grounds, and what kept it undecided. */
import type { Assumption, Finding, FindingPart, Ground, Range, UndecidedBy } from "../../finding.ts";
import type { Limit } from "../../gas/index.ts";
import type { Outcome } from "../../outcome.ts";
import type { Unit } from "../../quantity/index.ts";
import { isOpenOutside, restOfEightHours } from "../period.ts";
import type { OpenSeconds } from "./open-time.ts";
import type { Subject } from "./subject.ts";

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
  /** Absent = the limit stands as published. */
  readonly lowered?: number | null;
  readonly window: Finding["window"];
  readonly parts?: readonly FindingPart[];
  readonly grounds?: readonly Ground[];
  readonly assumptions?: readonly Assumption[];
  /** What W* is of unsampled time; absent = a level at every moment. */
  readonly holds?: "as an average" | "at any moment";
  /** Time that leaves the upper end open; null where none does. */
  readonly open: OpenSeconds | null;
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
    id: `${limit.id}/${subject.channel.name}${judged.lowered == null ? "" : `/${judged.shiftRule}`}`,
    limit,
    unit: judged.unit,
    outcome,
    coverage: judged.coverage,
    wStar: outcome === "exceeds" || isTwofold(subject, judged.open) ? null : judged.wStar,
    shiftRule: judged.shiftRule,
    lowered: judged.lowered ?? null,
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
  const own = judged.causes ?? [];
  if (judged.open !== null) return [...own, ...openCauses(subject, judged.open, judged)];
  return own.length > 0 ? own : [restingOn(subject, judged)];
}

function openCauses(subject: Subject, open: OpenSeconds, { wStar: level, holds = "at any moment" }: Judged): readonly UndecidedBy[] {
  const wStar = isTwofold(subject, open) ? null : level;
  return [
    ...(isOverRange(open) ? [{ type: "over-range", seconds: open.overRange, wStar } as const] : []),
    ...(isUnsampled(subject, open) ? [{ type: "unsampled-time", seconds: open.unsampled, wStar, holds } as const] : []),
  ];
}

const isOverRange = (open: OpenSeconds): boolean => open.overRange > 0 || open.isLastOverRange === true;

const isUnsampled = ({ period }: Subject, open: OpenSeconds): boolean => open.unsampled > 0 || isOpenOutside(period) || !isOverRange(open);

/** One level for both would mislead: over-range time was at least the range top, unsampled time anything. */
const isTwofold = (subject: Subject, open: OpenSeconds | null): boolean => open !== null && isOverRange(open) && isUnsampled(subject, open);

/** Both ends are known and lie on both sides: by a declared worst case or bound, or by the width of the readings themselves. */
function restingOn({ made, period, grounds, earlier }: Subject, { wStar, holds = "at any moment", shiftRule }: Judged): UndecidedBy {
  if (shiftRule === "any-24h-over-8h" && earlier.length > 0 && grounds.some(({ type }) => type === "outside-shift"))
    return { type: "readings-outside-shift" };
  const isLevel = period.unsampled.kind === "level";
  const declaredMs = made.tally.declaredMs + (isLevel ? made.tally.unsampledMs + restOfEightHours(period) : 0);
  // Around a recording of unknown place in the shift the level stands for time of any length.
  if (isLevel && period.shift === null && holds === "at any moment")
    return { type: "unsampled-time", seconds: declaredMs / 1000, wStar, holds };
  if (declaredMs > 0 && wStar !== null) return { type: "unsampled-time", seconds: declaredMs / 1000, wStar, holds };
  if (made.tally.overRangeMs > 0) return { type: "over-range", seconds: made.tally.overRangeMs / 1000, wStar: null };
  return { type: "sensor-or-conflict" };
}
