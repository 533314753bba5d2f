import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { briefScalaDaily, briefScalaWeekly, limitForLongShift, oshaLeadLimit } from "../../../src/core/exposure/extended-shift.ts";
import { classesOfPermitResult, RETENTION_RULES, type RetentionClass, retentionOf } from "../../../src/core/exposure/retention.ts";
import { answerOf } from "../../cases/golden-rows.ts";

describe("long shifts", () => {
  test("property: a factor lies above 0 and at most at 1, is 1 up to the usual hours, and falls with longer ones", () => {
    fc.assert(
      fc.property(fc.double({ min: 0.1, max: 23.9, noNaN: true }), fc.double({ min: 0, max: 0.1, noNaN: true }), (hours, more) => {
        const [short, long] = [answerOf(briefScalaDaily(hours)), answerOf(briefScalaDaily(Math.min(23.99, hours + more)))];
        expect(short).toBeGreaterThan(0);
        expect(short).toBeLessThanOrEqual(1);
        expect(long).toBeLessThanOrEqual(short);
        if (hours <= 8) expect(short).toBe(1);
        expect(answerOf(briefScalaWeekly(hours * 7))).toBeLessThanOrEqual(1);
      }),
    );
  });
  test.each([0, -1, 24, Number.NaN])("%d hours a day are refused", (hours) => {
    expect(briefScalaDaily(hours)).toEqual({ ok: false, refusal: { type: "hours-not-in-a-day", hours } });
    const limit = { kind: "twa" as const, published: { value: 1, unit: "ppm" as const }, averagingMinutes: 480 };
    expect(limitForLongShift(limit, { model: "brief-scala-daily", hours }).ok).toBe(false);
  });
  test("weeks and lead have their own bounds", () => {
    expect([briefScalaWeekly(168).ok, briefScalaWeekly(0).ok, oshaLeadLimit(24).ok, oshaLeadLimit(25).ok, oshaLeadLimit(0).ok]).toEqual([
      false,
      false,
      true,
      false,
      false,
    ]);
  });
  test("a 10-hour average is not lowered, and a rule without an average of its own has none to lower", () => {
    const worked = { model: "brief-scala-weekly" as const, hours: 60 };
    const published = { value: 35, unit: "ppm" as const };
    expect(answerOf(limitForLongShift({ kind: "twa", published, averagingMinutes: 600 }, worked))).toEqual({
      value: 35,
      factor: 1,
      model: worked.model,
    });
    expect(answerOf(limitForLongShift({ kind: "three-level", published: null, averagingMinutes: 480 }, worked)).value).toBeNull();
    expect(answerOf(limitForLongShift({ kind: "twa", published, averagingMinutes: 480 }, worked)).value).toBe(35 * 0.5625);
  });
});

describe("keeping", () => {
  test("of several rules the one that ends last decides, and all are shown", () => {
    const kept = answerOf(
      retentionOf([
        { class: "us-exposure-record", from: "2026-05-10" },
        { class: "gb-monitoring-identifiable", from: "2026-01-01" },
        { class: "us-entry-permit", from: "2026-05-10" },
      ]),
    );
    expect([kept.keepUntilAtLeast, kept.decidedBy.class, kept.rules.length]).toEqual(["2066-01-01", "gb-monitoring-identifiable", 3]);
  });
  test("29 February becomes the next later day", () => {
    expect(answerOf(retentionOf([{ class: "us-exposure-record", from: "2024-02-29" }])).keepUntilAtLeast).toBe("2054-03-01");
  });
  test("a result that nobody has judged is kept as long as an exposure record", () => {
    const from = "2026-05-10";
    expect(
      answerOf(retentionOf(classesOfPermitResult({ showsActualExposure: null }).map((name) => ({ class: name, from })))).keepUntilAtLeast,
    ).toBe("2056-05-10");
  });
  test("nothing to keep by, and a date that is none, are refused", () => {
    expect(retentionOf([])).toMatchObject({ refusal: { type: "no-retention-class" } });
    expect(retentionOf([{ class: "us-exposure-record", from: "2026-02-30" }])).toMatchObject({ refusal: { type: "no-such-day" } });
  });
  test("property: one more rule never lets a record go earlier", () => {
    const classes = Object.keys(RETENTION_RULES) as RetentionClass[]; // the keys of this table are its classes
    const claim = fc.record({ class: fc.constantFrom(...classes), from: fc.constantFrom("2024-02-29", "2026-05-10", "1999-12-31") });
    fc.assert(
      fc.property(fc.array(claim, { minLength: 1 }), claim, (claims, more) => {
        expect(answerOf(retentionOf([...claims, more])).keepUntilAtLeast >= answerOf(retentionOf(claims)).keepUntilAtLeast).toBe(true);
      }),
    );
  });
});
