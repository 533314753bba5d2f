// 29 CFR 1910.1020(d), 1910.146(e)(6) with OSHA's letters; COSHH reg. 10(5), read in the Northern Ireland text (SR 2003/34).
import { expect, test } from "vitest";
import { classesOfPermitResult, type RetentionClass, retentionOf } from "../../../src/core/exposure/retention.ts";
import { answerOf, goldenRow, nameOf } from "../golden-rows.ts";

const keptUntil = (from: string, ...classes: readonly RetentionClass[]): string =>
  answerOf(retentionOf(classes.map((name) => ({ class: name, from })))).keepUntilAtLeast;

test(nameOf("exposure-retention-01"), () => {
  const { inputs, expected } = goldenRow("exposure-retention-01");
  expect(keptUntil(inputs.record_date, "us-exposure-record")).toBe(expected.keep_until_at_least);
});

test(nameOf("exposure-retention-02"), () => {
  const { inputs, expected } = goldenRow("exposure-retention-02");
  expect(keptUntil(inputs.cancelled_on, "us-entry-permit")).toBe(expected.keep_permit_until_at_least);
  const results = inputs.result_shows_actual_exposure.map((showsActualExposure: boolean) =>
    keptUntil(inputs.cancelled_on, ...classesOfPermitResult({ showsActualExposure })),
  );
  expect(results).toEqual(expected.keep_result_until_at_least);
});

test(nameOf("exposure-retention-03"), () => {
  const { inputs, expected } = goldenRow("exposure-retention-03");
  const kept = inputs.identifiable.map((isIdentifiable: boolean) =>
    keptUntil(inputs.last_entry, isIdentifiable ? "gb-monitoring-identifiable" : "gb-monitoring-other"),
  );
  expect(kept).toEqual(expected.keep_until_at_least);
});
