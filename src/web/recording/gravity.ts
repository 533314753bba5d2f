/** Which of several findings is said first: the outcome, then how grave the limit is, then how far it is passed. */
import { comparedValue, severityOf } from "../../report/index.ts";
import type { FindingAnswer } from "../../work/answer.ts";

/** Immediately dangerous before what no moment may pass, before short averages, before the average of the shift. */
const graveness = ({ kind, averagingMinutes }: FindingAnswer["limit"]): number => {
  if (kind === "immediately-dangerous") return 0;
  if (kind === "ceiling" || kind === "three-level") return 1;
  return (averagingMinutes ?? 0) < 120 ? 2 : 3;
};

const shareOf = (low: number, limit: number | null): number => (limit === null || limit === 0 ? 0 : low / limit);

/** How many times its limit a finding is known to reach; a rule of several tests by the test that is passed most. */
const reach = ({ limit, low, parts }: FindingAnswer): number =>
  parts.length === 0
    ? shareOf(low, comparedValue(limit))
    : Math.max(...parts.map((part) => (part.limit === 0 ? 0 : part.low / part.limit)));

/** An average against one figure fits a sentence; a rule of several tests does not, so it is said after its equals. */
const plainness = ({ limit, parts }: FindingAnswer): number => (limit.value === null || parts.length > 0 ? 1 : 0);

/** For sorting: the gravest first. */
export const byGravity = (one: FindingAnswer, other: FindingAnswer): number =>
  severityOf(one.outcome) - severityOf(other.outcome) ||
  graveness(one.limit) - graveness(other.limit) ||
  plainness(one) - plainness(other) ||
  reach(other) - reach(one);
