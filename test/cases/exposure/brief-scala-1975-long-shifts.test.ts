// Brief & Scala, AIHA Journal 36 (1975) 467-469 (formulas read in reprints, the weekly one recalled); 29 CFR 1910.1025(c)(2).
import { expect, test } from "vitest";
import { briefScalaDaily, briefScalaWeekly, limitForLongShift, oshaLeadLimit } from "../../../src/core/exposure/extended-shift.ts";
import type { LimitKind } from "../../../src/core/gas/limit.ts";
import { answerOf, goldenRow, nameOf } from "../golden-rows.ts";

test.each(["exposure-shift-01", "exposure-shift-02", "exposure-shift-03"])("%s", (id) => {
  const { inputs, expected } = goldenRow(id);
  const factors = [inputs.hours_per_day].flat().map((hours: number) => answerOf(briefScalaDaily(hours)));
  expect(factors, nameOf(id)).toEqual([expected.factor].flat().map((factor: number) => expect.closeTo(factor, 4)));
});

test(nameOf("exposure-shift-05"), () => {
  const { inputs, expected } = goldenRow("exposure-shift-05");
  expect(inputs.hours_per_week.map((hours: number) => answerOf(briefScalaWeekly(hours)))).toEqual(expected.factor);
});

test(nameOf("exposure-shift-07"), () => {
  const { inputs, expected } = goldenRow("exposure-shift-07");
  expect(answerOf(oshaLeadLimit(inputs.hours_per_day))).toBe(expected.limit_ug_m3);
});

test(nameOf("exposure-shift-14"), () => {
  const { inputs, expected } = goldenRow("exposure-shift-14");
  const lowered = (kind: LimitKind, value: number, averagingMinutes: number | null) =>
    answerOf(
      limitForLongShift(
        { kind, published: { value, unit: "ppm" }, averagingMinutes },
        { model: "brief-scala-daily", hours: inputs.hours_per_day },
      ),
    ).value;
  expect({
    twa_limit_ppm: lowered("twa", inputs.twa_limit_ppm, 480),
    stel_ppm: lowered("stel", inputs.stel_ppm, 15),
    ceiling_ppm: lowered("ceiling", inputs.ceiling_ppm, null),
  }).toEqual(expected);
});
