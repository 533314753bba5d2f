import { expect, test } from "vitest";
import { naturalOrder } from "../../../src/report/room/natural-order.ts";
import { type Around, todayView } from "../../../src/report/room/today-view.ts";
import type { InstrumentLine, ReasonView, StandingMark } from "../../../src/report/room/views.ts";

const around: Around = {
  basis: {
    ...{ at: "2026-03-04T07:00:00.000Z", knownAt: 9, instruments: 8, ruleSet: 3 },
    need: { from: "2026-03-04T06:00:00.000Z", to: "2026-03-04T14:00:00.000Z", shift: "early", gases: null },
  },
  ...{ questions: [], gas: [] },
};

const because = (cause: string): ReasonView => ({
  ...{ rule: "gas-test", cause, gas: null, why: `Why ${cause}.`, next: `Mend ${cause}.` },
  ...{ whoReturns: null, entries: [], source: "" },
});

const line = (tag: string, mark: StandingMark, minutes: number | null, more: Partial<InstrumentLine> = {}): InstrumentLine => ({
  ...{ id: tag, tag, serial: tag, model: null, mark, until: null, first: null, minutes, gases: [] },
  ...more,
});

const UNTIL_NINE = { until: "2026-03-04T09:00:00.000Z" };
const UNTIL_FIVE = { until: "2026-03-04T17:00:00.000Z" };

test("one cause is one item, the quick ones come first, labels count as people count", () => {
  const lines = [
    line("MB-10", "not proven", 2, { first: because("test") }),
    line("MB-3", "not proven", null, { first: because("calibration") }),
    line("MB-9", "not proven", 2, { first: because("test") }),
    line("MB-1", "not proven", 1, { first: because("air") }),
    line("MB-2", "withdrawn", null),
  ];
  const { notProven, withdrawn, counts } = todayView(lines, around);
  expect(notProven.map(({ cause, next, lines }) => [cause, next, lines.map(({ id }) => id)])).toEqual([
    ["air", "Mend air.", ["MB-1"]],
    ["test", "Mend test.", ["MB-9", "MB-10"]],
    ["calibration", "Mend calibration.", ["MB-3"]],
  ]);
  expect(withdrawn.map(({ id }) => id)).toEqual(["MB-2"]);
  expect(counts).toEqual({ withdrawn: 1, "not proven": 4, ends: 0, proven: 0 });
});

test("the stair falls by one for each that ends, and counts nobody twice", () => {
  const lines = [
    line("A", "ends", 1, UNTIL_NINE),
    line("B", "proven", 1, UNTIL_FIVE),
    line("C", "proven", 1, UNTIL_FIVE),
    line("D", "not proven", 1, { first: because("test") }),
    line("E", "withdrawn", null),
  ];
  expect(todayView(lines, around).stair).toEqual([
    { at: around.basis.at, count: 3 },
    { at: UNTIL_NINE.until, count: 2 },
    { at: UNTIL_FIVE.until, count: 0 },
  ]);
});

test("what ends first comes to the bench first", () => {
  const lines = [line("A", "ends", 1, { until: "2026-03-04T10:00:00.000Z" }), line("B", "ends", 9, UNTIL_NINE)];
  expect(todayView(lines, around).ends.map(({ id }) => id)).toEqual(["B", "A"]);
});

test("the order of labels is an order", () => {
  const labels = ["MB-10", "mb-2", "MB-2", "MB-002", "A", "7", "07", "MB-", "MB-2b", "10", "", "Z9x10", "Z9x9"];
  for (const one of labels)
    for (const other of labels) {
      expect(Math.sign(naturalOrder(one, other)) + Math.sign(naturalOrder(other, one))).toBe(0);
      expect(naturalOrder(one, other) === 0).toBe(one === other);
      for (const third of labels)
        if (naturalOrder(one, other) < 0 && naturalOrder(other, third) < 0) expect(naturalOrder(one, third)).toBeLessThan(0);
    }
});
