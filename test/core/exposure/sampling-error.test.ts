import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { consecutiveSamples, oneSample } from "../../../src/core/exposure/sampling-error.ts";
import { answerOf } from "../../cases/golden-rows.ts";

const level = fc.integer({ min: 0, max: 100_000 }).map((steps) => steps / 100);
const bounds = fc.tuple(level, level).map(([a, b]) => ({ low: Math.min(a, b), high: Math.max(a, b) }));
const error = fc.integer({ min: 0, max: 60 }).map((hundredths) => hundredths / 100);
const limit = fc.integer({ min: 1, max: 50_000 }).map((steps) => steps / 100);

describe("properties", () => {
  test("more error or a wider interval never turns undetermined into a firm answer, and never turns one firm answer into the other", () => {
    fc.assert(
      fc.property(bounds, limit, error, error, level, ({ low, high }, L, small, more, wider) => {
        const narrow = answerOf(oneSample({ low, high }, { limit: L, operator: ">", samplingError: small }));
        const wide = answerOf(
          oneSample({ low: low - wider, high: high + wider }, { limit: L, operator: ">", samplingError: small + more }),
        );
        expect([narrow.outcome, "undetermined"]).toContain(wide.outcome);
        expect([narrow.outcomeWithoutError, "undetermined"]).toContain(narrow.outcome);
        expect(narrow.doubt === null).toBe(narrow.outcome !== "undetermined");
      }),
    );
  });
  test("the outcome is that of whole numbers", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 20_000 }),
        fc.integer({ min: 1, max: 10_000 }),
        fc.integer({ min: 0, max: 99 }),
        (x, L, sae) => {
          const finding = answerOf(oneSample({ low: x / 100, high: x / 100 }, { limit: L / 100, operator: ">", samplingError: sae / 100 }));
          // X/L - SAE > 1 and X/L + SAE <= 1, multiplied by 100 L.
          const outcome = 100 * x - sae * L > 100 * L ? "exceeds" : 100 * x + sae * L <= 100 * L ? "within" : "undetermined";
          expect(finding.outcome).toBe(outcome);
        },
      ),
    );
  });
  test("an open high end is never within; scaling level and limit together changes nothing", () => {
    fc.assert(
      fc.property(bounds, limit, error, ({ low, high }, L, samplingError) => {
        expect(answerOf(oneSample({ low, high: null }, { limit: L, operator: ">", samplingError })).outcome).not.toBe("within");
        const plain = answerOf(oneSample({ low, high }, { limit: L, operator: ">", samplingError }));
        const scaled = answerOf(oneSample({ low: low * 8, high: high * 8 }, { limit: L * 8, operator: ">", samplingError }));
        expect(scaled.outcome).toBe(plain.outcome);
      }),
    );
  });
  test("samples of one calibration count as one, however they are cut", () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.integer({ min: 1, max: 300 }), level), { minLength: 1, maxLength: 6 }),
        error,
        (parts, samplingError) => {
          const terms = { limit: 50, operator: ">" as const, samplingError };
          const samples = parts.map(([minutes, value], index) => ({ minutes, value, calibration: String(index % 2) }));
          const halves = samples.flatMap((sample) => [sample, sample].map((half) => ({ ...half, minutes: half.minutes / 2 })));
          const whole = answerOf(consecutiveSamples(samples, terms));
          const cut = answerOf(consecutiveSamples(halves, terms));
          expect(cut.independent).toBe(whole.independent);
          expect(cut.exact.lowerLimit).toBeCloseTo(whole.exact.lowerLimit, 9);
        },
      ),
    );
  });
});

describe("which doubt it is", () => {
  test.each([
    ["error alone", 54, 54, 0.1, "sampling error"],
    ["unsampled time alone", 10, 200, 0.1, "unsampled time"],
    ["no error stated", 46, 58, 0, "unsampled time"],
    ["either end near the limit by itself", 48, 52, 0.1, "both"],
    ["an open end beside a low one near the limit", 49, null, 0.1, "both"],
  ])("%s", (_name, low, high, samplingError, doubt) => {
    expect(answerOf(oneSample({ low, high }, { limit: 50, operator: ">", samplingError })).doubt).toBe(doubt);
  });
});

test.each([
  [{ low: 1, high: 1 }, { limit: 0, samplingError: 0.1 }, "limit-not-above-nought"],
  [{ low: 1, high: 1 }, { limit: 1, samplingError: -0.1 }, "sampling-error-negative"],
  [{ low: 2, high: 1 }, { limit: 1, samplingError: 0.1 }, "low-above-high"],
  [{ low: Number.NaN, high: 1 }, { limit: 1, samplingError: 0.1 }, "not-a-number"],
])("%o with %o is refused: %s", (at, terms, type) => {
  const finding = oneSample(at, { operator: ">", ...terms });
  expect(finding.ok ? "given" : finding.refusal.type).toBe(type);
});

test("consecutive samples without length, or none, are refused", () => {
  const terms = { limit: 1, operator: ">" as const, samplingError: 0.1 };
  expect(consecutiveSamples([], terms)).toMatchObject({ refusal: { type: "no-samples" } });
  expect(consecutiveSamples([{ minutes: 0, value: 1, calibration: "a" }], terms)).toMatchObject({
    refusal: { type: "sample-without-length", index: 0 },
  });
});
