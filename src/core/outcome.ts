/** The answer to "is this exposure above that limit", with its three honest values. */
export type Outcome = "exceeds" | "within" | "undetermined";

/** An outcome, or why there is none. "Not measured" and "no limit" never turn into "within". */
export type CombinedOutcome = Outcome | "not measured" | "no limit";

/** When a limit is broken: ">" means that exactly the limit still meets it, ">=" that it does not. */
export type LimitOperator = ">" | ">=";

/** Sign of (value - limit). */
export type Comparison = -1 | 0 | 1;

/**
 * The outcome of a quantity that lies between `low` and `high`, set against a limit.
 *
 * *exceeds* when low > L; *within* when high <= L; else *undetermined*, also when high is open (null). With the
 * operator ">=" (a limit printed as "less than L"): *exceeds* when low >= L, *within* when high < L.
 * Values and limit are in one unit, unrounded. An excess that is proven in spite of gaps stands; a pass needs
 * completeness. Never refuses.
 *
 * @example
 * ```ts
 * import { outcomeOf } from "./outcome.ts";
 * outcomeOf({ low: 30, high: 60 }, 50, ">"); // => "undetermined"
 * outcomeOf({ low: 50, high: 50 }, 50, ">"); // => "within"
 * outcomeOf({ low: 50.1, high: null }, 50, ">"); // => "exceeds"
 * outcomeOf({ low: 50, high: 50 }, 50, ">="); // => "exceeds"
 * ```
 * Source: the three-valued reading of an interval is ours; "must not exceed" is 29 CFR 1910.1000(a) [read].
 */
export function outcomeOf(bounds: { readonly low: number; readonly high: number | null }, limit: number, operator: LimitOperator): Outcome {
  return outcomeOfComparisons(sign(bounds.low, limit), bounds.high === null ? null : sign(bounds.high, limit), operator);
}

/**
 * The same outcome where both ends were already compared with the limit exactly (whole numbers, no rounding).
 *
 * @example
 * ```ts
 * import { outcomeOfComparisons } from "./outcome.ts";
 * outcomeOfComparisons(-1, 0, ">"); // => "within"
 * outcomeOfComparisons(-1, null, ">"); // => "undetermined"
 * ```
 * Source: as `outcomeOf`.
 */
export function outcomeOfComparisons(low: Comparison, high: Comparison | null, operator: LimitOperator): Outcome {
  const breaks = operator === ">" ? 1 : 0;
  if (low >= breaks) return "exceeds";
  return high !== null && high < breaks ? "within" : "undetermined";
}

/**
 * One answer for one substance, worker and day out of the answers for several limits: any *exceeds* wins; else any
 * *undetermined*, or a *not measured* beside another answer, gives *undetermined*; else any *within* gives *within*;
 * else *not measured* if any is (or nothing was evaluated); else *no limit*.
 *
 * @example
 * ```ts
 * import { combinedOutcome } from "./outcome.ts";
 * combinedOutcome(["within", "not measured"]); // => "undetermined"
 * combinedOutcome(["within", "no limit"]); // => "within"
 * combinedOutcome([]); // => "not measured"
 * ```
 * Source: ours; it follows the asymmetry of 40 CFR 50 Appendix I (an excess stands in spite of gaps) [read].
 */
export function combinedOutcome(outcomes: readonly CombinedOutcome[]): CombinedOutcome {
  if (outcomes.includes("exceeds")) return "exceeds";
  if (outcomes.includes("undetermined")) return "undetermined";
  const measured = outcomes.includes("within");
  if (outcomes.includes("not measured")) return outcomes.some((outcome) => outcome !== "not measured") ? "undetermined" : "not measured";
  if (measured) return "within";
  return outcomes.length === 0 ? "not measured" : "no limit";
}

const sign = (value: number, limit: number): Comparison => (value > limit ? 1 : value < limit ? -1 : 0);
