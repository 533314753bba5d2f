/** Hydrogen sulphide in Table Z-2: one excursion, once, and only if no other measurable exposure occurs. */
import type { Outcome } from "../outcome.ts";
import type { EdgeSums, SignalSums } from "./edge-sums.ts";
import { type Run, runsAbove, timeAbove } from "./time-above.ts";

export interface OnceOnlyRule {
  /** Whole steps: v is above the ceiling when v > ceiling, above the peak when v > peak. */
  readonly ceiling: number;
  readonly peak: number;
  readonly longestMs: number;
  /** Least steps that are measurable; null = nobody declared a threshold. */
  readonly measurable: number | null;
}

export interface OnceOnlyAnswer {
  readonly outcome: Outcome;
  /** Fewest and most unbroken stretches of measurable readings; without a threshold at least those above the ceiling. Most null where the edges leave it open, or nobody declared a threshold. */
  readonly fewestRuns: number;
  readonly mostRuns: number | null;
  readonly needsThreshold: boolean;
}

/**
 * Whether the pattern of readings keeps to "once, only if no other measurable exposure occurs".
 *
 * Largest value <= ceiling: within. Any above the peak: exceeds. Otherwise within only if there is exactly one run of
 * values at or above the measurable threshold, and in it one stretch above the ceiling of at most `longestMs`; every
 * other pattern exceeds. With two edges: *exceeds* only where every signal between them has such a pattern, *within*
 * only where every one keeps to it; else undetermined. Without a threshold only the parts that need none are decided.
 * Never refuses.
 *
 * @example
 * ```ts
 * import { signalSums } from "./edge-sums.ts";
 * import { onceOnly } from "./once-only.ts";
 * const minutes = (...levels: number[]) => signalSums({ decimals: 0, timing: { kind: "regular", start: 0, stepMs: 60_000, count: levels.length },
 *   low: Int32Array.from(levels), high: null, stretches: null, averageOnly: [], outside: "unexposed", largest: 60 });
 * const rule = { ceiling: 20, peak: 50, longestMs: 600_000, measurable: 1 };
 * onceOnly(minutes(0, 40, 40, 40, 0), rule).outcome; // => "within"
 * onceOnly(minutes(0, 40, 0, 40, 0), rule).outcome; // => "exceeds"
 * onceOnly(minutes(0, 40, 0), { ...rule, measurable: null }).outcome; // => "undetermined"
 * ```
 * Source: 29 CFR 1910.1000 Table Z-2, hydrogen sulphide [limits read]; the threshold, and what "once" means: ours.
 */
export function onceOnly(sums: SignalSums, rule: OnceOnlyRule): OnceOnlyAnswer {
  const { low, high } = sums;
  const upper = sums.signal.outside === "unsampled" ? null : high;
  const lowRuns = rule.measurable === null ? [] : runsAbove(low, rule.measurable - 1);
  const highRuns = rule.measurable === null || upper === null ? null : runsAbove(upper, rule.measurable - 1);
  const answer = (outcome: Outcome, needsThreshold = false): OnceOnlyAnswer => ({
    outcome,
    fewestRuns:
      rule.measurable === null
        ? groups(runsAbove(low, rule.ceiling), runsAbove(closedUpper(sums), rule.ceiling))
        : groups(lowRuns, highRuns ?? runsAbove(closedUpper(sums), rule.measurable - 1)),
    mostRuns: highRuns !== null && sameRuns(lowRuns, highRuns) ? highRuns.length : null,
    needsThreshold,
  });
  if (upper !== null && upper.greatest <= rule.ceiling) return answer("within");
  if (low.greatest > rule.peak || timeAbove(low, rule.ceiling) > rule.longestMs) return answer("exceeds");
  if (low.greatest > rule.ceiling && isSurelyBroken(sums, low, rule)) return answer("exceeds");
  if (rule.measurable === null) return answer("undetermined", true);
  if (upper === null || highRuns === null || upper.greatest > rule.peak) return answer("undetermined");
  return answer(isSurelyOnce(low, upper, lowRuns, highRuns, rule) ? "within" : "undetermined");
}

/**
 * Two stretches surely above the ceiling, surely apart; or an excursion and another surely measurable run, surely
 * apart from it. Surely apart: between them the upper edge comes down to or below the level.
 */
function isSurelyBroken(sums: SignalSums, low: EdgeSums, rule: OnceOnlyRule): boolean {
  const upper = closedUpper(sums);
  if (groups(runsAbove(low, rule.ceiling), runsAbove(upper, rule.ceiling)) > 1) return true;
  return rule.measurable !== null && groups(runsAbove(low, rule.measurable - 1), runsAbove(upper, rule.measurable - 1)) > 1;
}

/** The upper edge, open stretches being above any level: for "surely apart" open time joins. */
const closedUpper = ({ upper }: SignalSums): EdgeSums => upper;

/** How many runs of the upper edge hold at least one run of the lower one. */
function groups(lowRuns: readonly Run[], highRuns: readonly Run[]): number {
  return highRuns.filter((high) => lowRuns.some((low) => low.from >= high.from && low.to <= high.to)).length;
}

function isSurelyOnce(low: EdgeSums, high: EdgeSums, lowRuns: readonly Run[], highRuns: readonly Run[], rule: OnceOnlyRule): boolean {
  const lowAbove = runsAbove(low, rule.ceiling);
  const highAbove = runsAbove(high, rule.ceiling);
  const [stretch] = highAbove;
  return sameOne(lowRuns, highRuns) && sameOne(lowAbove, highAbove) && stretch !== undefined && stretch.to - stretch.from <= rule.longestMs;
}

/** Both edges have one run, the same one: every signal between them has it too. */
const sameOne = (low: readonly Run[], high: readonly Run[]): boolean => low.length === 1 && sameRuns(low, high);

function sameRuns(low: readonly Run[], high: readonly Run[]): boolean {
  return low.length === high.length && low.every(({ from, to }, i) => from === high[i]?.from && to === high[i]?.to);
}
