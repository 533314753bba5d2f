import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  compareDecimals,
  compareSumWithLimit,
  type Decimal,
  decimalFromNumber,
  decimalFromText,
  scaleByPowerOfTen,
  shiftDecimal,
  stepsAround,
  textFromDecimal,
} from "../../../src/core/quantity/index.ts";

const decimals = fc.record({ mantissa: fc.maxSafeInteger(), decimals: fc.integer({ min: 0, max: 12 }) });

describe("digits", () => {
  test.each([
    ["0.70", 70, 2],
    ["-0.0", 0, 1],
    ["\u22121.5", -15, 1],
    ["+3", 3, 0],
    [".5", 5, 1],
    ["5.", 5, 0],
    ["2.09E-01", 209, 3],
    ["1e3", 1000, 0],
    ["1.5e3", 1500, 0],
    [" 12 ", 12, 0],
    ["1430.", 1430, 0],
    ["9007199254740991", 9007199254740991, 0],
  ])("%s is %d with %d decimals", (text, mantissa, count) => {
    expect(decimalFromText(text)).toEqual({ ok: true, value: { mantissa, decimals: count } });
  });

  test.each(["", ".", "-", "1,5", "1 000", "0x10", "NaN", "Infinity", "1e", "1e1000", "--1", "1.2.3", ">500"])(
    "%j is no decimal",
    (text) => {
      expect(decimalFromText(text)).toMatchObject({ ok: false, refusal: { type: "not-a-decimal", text } });
    },
  );

  test.each(["9007199254740992", "0.1234567890123456789", "1e-31", "1e300"])("%s has too many digits", (text) => {
    expect(decimalFromText(text)).toMatchObject({ ok: false, refusal: { type: "too-many-digits", text } });
  });

  test("text and digits are two forms of one thing", () => {
    fc.assert(
      fc.property(decimals, (one) => {
        expect(decimalFromText(textFromDecimal(one))).toEqual({ ok: true, value: one });
      }),
    );
  });

  test("a number that a decimal gives has that decimal's digits, trailing noughts aside", () => {
    const short = fc.record({ mantissa: fc.integer({ min: -999_999_999, max: 999_999_999 }), decimals: fc.integer({ min: 0, max: 6 }) });
    fc.assert(
      fc.property(short, (one) => {
        const back = decimalFromNumber(Number(textFromDecimal(one)));
        expect(back.ok && compareDecimals(back.value, one)).toBe(0);
      }),
    );
  });

  test("shifting forth and back changes no digit", () => {
    fc.assert(
      fc.property(
        fc.record({ mantissa: fc.integer(), decimals: fc.integer({ min: 0, max: 9 }) }),
        fc.integer({ min: -6, max: 6 }),
        (one, exponent) => {
          const there = shiftDecimal(one, exponent);
          const back = there.ok ? shiftDecimal(there.value, -exponent) : there;
          expect(back.ok && compareDecimals(back.value, one)).toBe(0);
        },
      ),
    );
  });

  test("steps lie below and above a level, less than one step apart, and on it where they can", () => {
    fc.assert(
      fc.property(
        fc.record({ mantissa: fc.integer(), decimals: fc.integer({ min: 0, max: 6 }) }),
        fc.integer({ min: 0, max: 6 }),
        (level, count) => {
          const { below, above } = stepsAround(level, count);
          expect(compareDecimals({ mantissa: below, decimals: count }, level)).toBeLessThanOrEqual(0);
          expect(compareDecimals({ mantissa: above, decimals: count }, level)).toBeGreaterThanOrEqual(0);
          expect(above - below).toBe(compareDecimals({ mantissa: below, decimals: count }, level) === 0 ? 0 : 1);
        },
      ),
    );
  });

  test("numbers of up to 15 digits come back from a shift unchanged", () => {
    const numbers = fc.tuple(fc.integer({ min: -999_999_999_999_999, max: 999_999_999_999_999 }), fc.integer({ min: -12, max: 3 }));
    fc.assert(
      fc.property(numbers, fc.integer({ min: -9, max: 9 }), ([mantissa, own], exponent) => {
        const value = Number(`${mantissa}e${own}`);
        expect(scaleByPowerOfTen(scaleByPowerOfTen(value, exponent), -exponent)).toBe(value);
      }),
    );
  });
});

/** The comparison in whole numbers only, written another way: both sides over the common denominator. */
function compareByFractions(sum: bigint, count: number, durationMs: number, limit: Decimal): number {
  const left = sum * 10n ** BigInt(limit.decimals);
  const right = BigInt(limit.mantissa) * BigInt(durationMs) * 10n ** BigInt(count);
  return Number(left - right > 0n) - Number(left - right < 0n);
}

describe("sums against limits", () => {
  test("eight hours of 0.7 are exactly 0.7, which a floating sum is not", () => {
    let floating = 0;
    for (let second = 0; second < 28_800; second += 1) floating += 0.7;
    expect(floating / 28_800).toBeGreaterThan(0.7);
    const sumStepMs = 7 * 1000 * 28_800;
    for (const limit of ["0.7", "0.70", 0.7, { mantissa: 700, decimals: 3 }]) {
      expect(compareSumWithLimit({ sumStepMs, decimals: 1, durationMs: 28_800_000, limit })).toBe(0);
      expect(compareSumWithLimit({ sumStepMs: sumStepMs + 1, decimals: 1, durationMs: 28_800_000, limit })).toBe(1);
      expect(compareSumWithLimit({ sumStepMs: sumStepMs - 1, decimals: 1, durationMs: 28_800_000, limit })).toBe(-1);
    }
  });

  test("agrees with whole-number fractions, also far beyond 2^53", () => {
    const limits = fc.record({ mantissa: fc.integer({ min: 0, max: 2 ** 31 }), decimals: fc.integer({ min: 0, max: 9 }) });
    fc.assert(
      fc.property(
        fc.maxSafeInteger(),
        fc.integer({ min: 0, max: 8 }),
        fc.integer({ min: 1, max: 86_400_000 }),
        limits,
        (sum, count, durationMs, limit) => {
          const wanted = compareByFractions(BigInt(sum), count, durationMs, limit);
          for (const form of [limit, textFromDecimal(limit)])
            expect(compareSumWithLimit({ sumStepMs: sum, decimals: count, durationMs, limit: form })).toBe(wanted);
          expect(compareSumWithLimit({ sumStepMs: BigInt(sum), decimals: count, durationMs, limit })).toBe(wanted);
        },
      ),
    );
  });

  test("at the limit itself one step x millisecond decides", () => {
    const level = fc.record({ mantissa: fc.integer({ min: 1, max: 1_000_000 }), decimals: fc.integer({ min: 0, max: 4 }) });
    fc.assert(
      fc.property(level, fc.integer({ min: 1, max: 86_400_000 }), (limit, durationMs) => {
        const at = BigInt(limit.mantissa) * BigInt(durationMs);
        const compare = (sumStepMs: bigint) => compareSumWithLimit({ sumStepMs, decimals: limit.decimals, durationMs, limit });
        expect([compare(at - 1n), compare(at), compare(at + 1n)]).toEqual([-1, 0, 1]);
      }),
    );
  });

  test("a computed limit with 17 digits is compared at its own digits", () => {
    const limit = 0.0006273574012778077;
    expect(compareSumWithLimit({ sumStepMs: 1, decimals: 3, durationMs: 1, limit })).toBe(1);
    expect(compareSumWithLimit({ sumStepMs: 6273574012778077, decimals: 19, durationMs: 1, limit })).toBe(0);
    expect(compareSumWithLimit({ sumStepMs: 6273574012778076, decimals: 19, durationMs: 1, limit })).toBe(-1);
  });

  test.each([
    [{ sumStepMs: 0.5, decimals: 0, durationMs: 1, limit: 1 }],
    [{ sumStepMs: 1, decimals: 0, durationMs: 0, limit: 1 }],
    [{ sumStepMs: 1, decimals: 0.5, durationMs: 1, limit: 1 }],
    [{ sumStepMs: 1, decimals: 0, durationMs: 1, limit: "ten" }],
    [{ sumStepMs: 2 ** 60, decimals: 0, durationMs: 1, limit: 1 }],
  ])("%j breaks a promise", (against) => {
    expect(() => compareSumWithLimit(against)).toThrow("broken promise");
  });
});
