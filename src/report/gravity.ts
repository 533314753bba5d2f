/** Which of several findings is said first: the outcome, then how grave the limit is, then how far it is passed. */
import { type FindingShape, severityOf } from "./finding-words.ts";
import { comparedValue } from "./limit-words.ts";

/** What the order looks at. */
export interface Weighed extends Pick<FindingShape, "outcome" | "low" | "parts"> {
  readonly limit: Pick<FindingShape["limit"], "kind" | "value" | "lowered" | "averagingMinutes">;
}

/** Immediately dangerous before what no moment may pass, before short averages, before the average of the shift. */
const graveness = ({ kind, averagingMinutes }: Weighed["limit"]): number => {
  if (kind === "immediately-dangerous") return 0;
  if (kind === "ceiling" || kind === "three-level") return 1;
  return (averagingMinutes ?? 0) < 120 ? 2 : 3;
};

const shareOf = (low: number, limit: number | null): number => (limit === null || limit === 0 ? 0 : low / limit);

/** How many times its limit a finding is known to reach; a rule of several tests by the test that is passed most. */
const reach = ({ limit, low, parts }: Weighed): number =>
  parts.length === 0
    ? shareOf(low, comparedValue(limit))
    : Math.max(...parts.map((part) => (part.limit === 0 ? 0 : part.low / part.limit)));

/** An average against one figure fits a sentence; a rule of several tests does not, so it is said after its equals. */
const plainness = ({ limit, parts }: Weighed): number => (limit.value === null || parts.length > 0 ? 1 : 0);

/**
 * For sorting: the gravest first.
 *
 * @example
 * ```ts
 * import { byGravity } from "./gravity.ts";
 * const limit = { kind: "twa", value: 50, averagingMinutes: 480 };
 * const within = { outcome: "within", low: 10, parts: [], limit } as const;
 * const above = { outcome: "exceeds", low: 60, parts: [], limit } as const;
 * const ceiling = { outcome: "exceeds", low: 210, parts: [], limit: { ...limit, kind: "ceiling", value: 200, averagingMinutes: null } } as const;
 * [within, above, ceiling].sort(byGravity).map(({ low }) => low); // => [210, 60, 10]
 * ```
 * Source: ours.
 */
export const byGravity = (one: Weighed, other: Weighed): number =>
  severityOf(one.outcome) - severityOf(other.outcome) ||
  graveness(one.limit) - graveness(other.limit) ||
  plainness(one) - plainness(other) ||
  reach(other) - reach(one);
