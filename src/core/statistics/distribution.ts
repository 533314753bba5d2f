/** What every distribution here can be asked, and the one way in which their quantiles are found. */
import { assert } from "../result.ts";

export interface Distribution {
  /** Probability density at x. */
  readonly density: (x: number) => number;
  /** Probability at or below x. */
  readonly below: (x: number) => number;
  /** Probability above x, with full relative accuracy where it is small: not 1 - below. */
  readonly above: (x: number) => number;
  /** The x with the given probability (0 to 1) below it. */
  readonly quantile: (probability: number) => number;
}

export interface Tails {
  readonly density: (x: number) => number;
  readonly below: (x: number) => number;
  readonly above: (x: number) => number;
  /** Where the search begins: any point with some probability on either side. */
  readonly start: number;
  readonly support: "positive" | "unit" | "real";
}

/**
 * Turns tails into a distribution whose quantile is found by bracketing, then Newton steps kept inside the bracket
 * (textbook method: Press et al., Numerical Recipes, 3rd edition, 2007, section 9.4, rtsafe; own code).
 */
export function distributionOf(tails: Tails): Distribution {
  const { density, below, above } = tails;
  return { density, below, above, quantile: (probability) => quantileOf(tails, probability) };
}

/** As many halvings as a double has binary places and exponents, with room. */
const MOST_STEPS = 2_300;

function quantileOf(tails: Tails, probability: number): number {
  assert(probability >= 0 && probability <= 1, "a probability lies between 0 and 1");
  if (probability === 0) return tails.support === "real" ? Number.NEGATIVE_INFINITY : 0;
  if (probability === 1) return tails.support === "unit" ? 1 : Number.POSITIVE_INFINITY;
  // The smaller tail is compared, so that a quantile far out keeps its digits. Positive: x lies too high.
  const excess = probability <= 0.5 ? (x: number) => tails.below(x) - probability : (x: number) => 1 - probability - tails.above(x);
  return narrow(tails, excess, bracketOf(tails, excess));
}

interface Bracket {
  readonly low: number;
  readonly high: number;
}

function bracketOf(tails: Tails, excess: (x: number) => number): Bracket {
  let here = tails.start;
  let width = Math.max(1, Math.abs(here));
  const isTooHigh = excess(here) > 0;
  for (let step = 0; step < MOST_STEPS; step++) {
    const next = outward(tails.support, here, isTooHigh, width);
    if (excess(next) > 0 !== isTooHigh) return isTooHigh ? { low: next, high: here } : { low: here, high: next };
    if (next === here) return { low: here, high: here };
    here = next;
    width *= 2;
  }
  throw new Error("broken promise: a distribution function reaches every probability");
}

/** On the positive axis in halves and doubles, on the unit interval towards its ends, on the line in growing strides. */
function outward(support: Tails["support"], here: number, down: boolean, width: number): number {
  if (support === "real") return down ? here - width : here + width;
  if (down) return here / 2;
  return support === "positive" ? here * 2 : (1 + here) / 2;
}

function narrow(tails: Tails, excess: (x: number) => number, { low, high }: Bracket): number {
  let x = middle(tails.support, low, high);
  for (let step = 0; step < MOST_STEPS; step++) {
    const over = excess(x);
    if (over === 0) return x;
    if (over > 0) high = x;
    else low = x;
    const newton = x - over / tails.density(x);
    const next = newton > low && newton < high ? newton : middle(tails.support, low, high);
    if (Math.abs(next - x) <= 2 * Number.EPSILON * Math.abs(next) || next === low || next === high) return next;
    x = next;
  }
  return x;
}

/** Halfway; by size on the positive axis, where a quantile can be 1e-200. */
function middle(support: Tails["support"], low: number, high: number): number {
  if (support === "real" || low <= 0 || high / low < 4) return low + (high - low) / 2;
  return Math.sqrt(low) * Math.sqrt(high);
}
