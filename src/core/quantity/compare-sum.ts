import { assert } from "../result.ts";
import { type Decimal, decimalFromText } from "./decimal.ts";

/** A dose in whole steps x milliseconds, and the level it is held against over a time. */
export interface SumAgainstLimit {
  /** Sum of steps x milliseconds; a whole number, beyond 2^53 - 1 only as a bigint. */
  readonly sumStepMs: number | bigint;
  /** One step is 10^-decimals of the unit in which the limit is given. */
  readonly decimals: number;
  /** Time that the average is over, in whole milliseconds, above nought. */
  readonly durationMs: number;
  /** The limit in the unit of the steps: its digits, the text of them, or a number (taken at its shortest digits). */
  readonly limit: Decimal | string | number;
}

/**
 * Whether an average is below, at or above a limit, without dividing and without a floating error:
 *
 *     sum x 10^-d / T  against  m x 10^-k      as      sum x 10^k  against  m x 10^d x T
 *
 * with sum in steps x ms, d decimals of a step, T in ms, m and k mantissa and decimals of the limit. Eight hours of
 * readings of 0.7 are exactly 0.7; the same sum in binary floating point is above it.
 *
 * @param against see the fields; asserted: whole numbers, a duration above nought, a limit that is a number
 * @returns -1 below, 0 exactly at, 1 above the limit
 * @example
 * ```ts
 * import { compareSumWithLimit } from "./compare-sum.ts";
 * compareSumWithLimit({ sumStepMs: 7 * 28_800_000, decimals: 1, durationMs: 28_800_000, limit: "0.70" }); // => 0
 * compareSumWithLimit({ sumStepMs: 7 * 28_800_000 + 1, decimals: 1, durationMs: 28_800_000, limit: 0.7 }); // => 1
 * ```
 *
 * Source: the rule "compare sum > L x T rather than sum / T > L" is ours; the form of the average is 29 CFR
 * 1910.1000(d)(1)(i) (read).
 */
export function compareSumWithLimit({ sumStepMs, decimals, durationMs, limit }: SumAgainstLimit): -1 | 0 | 1 {
  const { mantissa, decimals: limitDecimals } = digitsOf(limit);
  assert(Number.isSafeInteger(durationMs) && durationMs > 0, "an average is over a whole number of milliseconds above nought");
  assert(Number.isInteger(decimals) && decimals >= 0, "steps have a whole number of decimals");
  if (typeof sumStepMs === "number" && typeof mantissa === "number") {
    assert(Number.isSafeInteger(sumStepMs), "a sum of steps x milliseconds is a safe whole number or a bigint");
    const left = sumStepMs * (POWERS[limitDecimals] ?? Number.NaN);
    const right = mantissa * (POWERS[decimals] ?? Number.NaN) * durationMs;
    // A product of whole numbers that is at most 2^53 - 1 was never rounded on the way.
    if (Number.isSafeInteger(left) && Number.isSafeInteger(right)) return left < right ? -1 : left > right ? 1 : 0;
  }
  const left = BigInt(sumStepMs) * 10n ** BigInt(limitDecimals);
  const right = BigInt(mantissa) * 10n ** BigInt(decimals) * BigInt(durationMs);
  return left < right ? -1 : left > right ? 1 : 0;
}

const POWERS: readonly number[] = Array.from({ length: 16 }, (_, exponent) => 10 ** exponent);

function digitsOf(limit: Decimal | string | number): { readonly mantissa: number | bigint; readonly decimals: number } {
  if (typeof limit === "object") return limit;
  const read = decimalFromText(String(limit));
  if (read.ok) return read.value;
  // A computed limit can print with 17 digits, which is more than a Decimal holds but still a number.
  const match = /^(-?)(\d+)(?:\.(\d+))?(?:e([+-]\d+))?$/u.exec(String(limit));
  assert(match !== null, `a limit is a number, not ${JSON.stringify(limit)}`);
  const decimals = (match[3] ?? "").length - Number(match[4] ?? 0);
  const mantissa = BigInt(`${match[1]}${match[2]}${match[3] ?? ""}`);
  return decimals < 0 ? { mantissa: mantissa * 10n ** BigInt(-decimals), decimals: 0 } : { mantissa, decimals };
}
