/** The answer to "is this exposure above that limit", with its three honest values. */
export type Outcome = "exceeds" | "within" | "undetermined";

/** An outcome, or why there is none. "Not measured" and "no limit" never turn into "within". */
export type CombinedOutcome = Outcome | "not measured" | "no limit";

/** When a limit is broken: ">" means that exactly the limit still meets it, ">=" that it does not. */
export type LimitOperator = ">" | ">=";
