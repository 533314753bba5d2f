// OSHA Technical Manual, Section II chapter 1, as reproduced in Boss & Day, Air Sampling and Industrial Hygiene Engineering,
// chapter 4; mixtures: 29 CFR 1910.1000(d)(2) and the manual's appendix on mixtures (recalled).
import { describe, expect, test } from "vitest";
import { type MixturePart, mixtureIndex, ratioSum } from "../../../src/core/exposure/mixture.ts";
import { consecutiveSamples, oneSample } from "../../../src/core/exposure/sampling-error.ts";
import { answerOf, goldenRow, nameOf } from "../golden-rows.ts";

describe("one sample", () => {
  test(nameOf("exposure-sae-01"), () => {
    const { inputs, expected } = goldenRow("exposure-sae-01");
    const finding = answerOf(
      oneSample({ low: inputs.x_mg_m3, high: inputs.x_mg_m3 }, { limit: inputs.limit_mg_m3, operator: ">", samplingError: inputs.sae }),
    );
    expect(finding.ratio.low).toBeCloseTo(expected.y, 3);
    expect([finding.lowerLimit, finding.upperLimit]).toEqual([expect.closeTo(expected.lcl, 3), expect.closeTo(expected.ucl, 3)]);
    expect([finding.outcome, finding.outcomeWithoutError, finding.doubt]).toEqual([expected.conclusion, "exceeds", "sampling error"]);
  });

  test(nameOf("exposure-sae-04"), () => {
    const { inputs, expected } = goldenRow("exposure-sae-04");
    const at = { low: inputs.x_ppm, high: inputs.x_ppm };
    const finding = answerOf(oneSample(at, { limit: inputs.limit_ppm, operator: ">", samplingError: inputs.sae }));
    expect([finding.upperLimit, finding.outcome]).toEqual([expect.closeTo(expected.ucl, 12), expected.conclusion]);
    // A limit printed as "less than": exactly 1 no longer meets it.
    expect(answerOf(oneSample(at, { limit: inputs.limit_ppm, operator: ">=", samplingError: inputs.sae })).outcome).toBe("undetermined");
  });

  test(nameOf("exposure-sae-06"), () => {
    const { inputs, expected } = goldenRow("exposure-sae-06");
    const finding = answerOf(
      oneSample({ low: inputs.low_ppm, high: inputs.high_ppm }, { limit: inputs.limit_ppm, operator: ">", samplingError: inputs.sae }),
    );
    expect([finding.lowerLimit, finding.upperLimit]).toEqual([expect.closeTo(expected.lcl, 9), expect.closeTo(expected.ucl, 9)]);
    expect([finding.outcome, finding.outcomeWithoutError]).toEqual([expected.conclusion, "undetermined"]);
  });

  test(nameOf("exposure-sae-08"), () => {
    const { inputs, expected } = goldenRow("exposure-sae-08");
    const terms = { limit: inputs.limit_ppm, operator: ">" as const, samplingError: inputs.sae };
    const finding = answerOf(oneSample({ low: inputs.twa_ppm, high: inputs.twa_ppm }, terms));
    expect([finding.lowerLimit, finding.outcome]).toEqual([expect.closeTo(expected.lcl, 9), expected.conclusion]);
    // The same seconds given one by one rest on one calibration and are still one sample.
    const seconds = Array.from({ length: inputs.count }, () => ({ minutes: 1 / 60, value: inputs.twa_ppm, calibration: "morning" }));
    const bySeconds = answerOf(consecutiveSamples(seconds, terms));
    for (const form of [bySeconds.exact, bySeconds.simple]) {
      expect([form.lowerLimit, form.outcome]).toEqual([expect.closeTo(expected.lcl, 9), expected.conclusion]);
      expect(form.lowerLimit).not.toBeCloseTo(expected.wrong_lcl_if_divided_by_sqrt_n, 3);
    }
  });
});

describe("mixtures", () => {
  const part = (gas: string, [low, high, limit]: readonly [number, number, number], samplingError: number | null = null): MixturePart => ({
    ...{ gas, low, high, limit, samplingError },
    ...{ limitKind: "twa", averagingMinutes: 480 },
  });
  const declared = { additiveBy: "the hygienist", operator: ">" as const };

  test(nameOf("exposure-mixture-01"), () => {
    const { inputs, expected } = goldenRow("exposure-mixture-01");
    const parts = inputs.pairs_c_and_limit_ppm.map(([c, limit]: readonly [number, number], index: number) =>
      part(`gas ${index}`, [c, c, limit]),
    );
    const finding = answerOf(mixtureIndex(parts, declared));
    expect(finding.ratios.map((ratio) => ratio.low)).toEqual(expected.ratios);
    expect([finding.low, finding.high, finding.outcome]).toEqual([expected.index, expected.index, expected.verdict]);
    expect(finding.withErrors).toBeNull();
  });

  test(nameOf("exposure-mixture-03"), () => {
    const { inputs, expected } = goldenRow("exposure-mixture-03");
    const parts = inputs.c_limit_sae.map(([c, limit, sae]: readonly [number, number, number], index: number) =>
      part(`gas ${index}`, [c, c, limit], sae),
    );
    const finding = answerOf(mixtureIndex(parts, declared));
    expect(finding.low).toBe(expected.index);
    expect(finding.withErrors?.errorLow).toBeCloseTo(expected.rs_total, 4);
    expect(finding.withErrors?.upperControl).toBeCloseTo(expected.control_limit, 3);
    expect([finding.withErrors?.outcome, finding.outcome]).toEqual([expected.conclusion, "exceeds"]);
  });

  test(`${nameOf("exposure-mixture-04")} (the moments; the sliding window is tested with the signals)`, () => {
    const { inputs, expected } = goldenRow("exposure-mixture-04");
    const moments = inputs.a_segments_min_ppm.map(([, , level]: readonly number[], index: number) =>
      ratioSum([
        { level: level as number, limit: inputs.a_limit_ppm }, // a segment has a level
        { level: inputs.b_segments_min_ppm[index][2], limit: inputs.b_limit_ppm },
      ]),
    );
    expect(Math.max(...moments)).toBe(expected.max_window_index);
    expect(Math.max(...moments)).not.toBeCloseTo(expected.wrong_sum_of_maxima, 3);
  });

  test(nameOf("exposure-mixture-06"), () => {
    const { inputs, expected } = goldenRow("exposure-mixture-06");
    const parts = inputs.pairs_low_high_limit_ppm.map((pair: readonly [number, number, number], index: number) =>
      part(`gas ${index}`, pair),
    );
    const finding = answerOf(mixtureIndex(parts, declared));
    expect([finding.low, finding.high, finding.outcome]).toEqual([expected.index_low, expected.index_high, expected.verdict]);
  });
});
