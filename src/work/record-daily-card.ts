/** Four things looked at, and no more than these four is claimed. */
import type { Bodies } from "../core/instrument/index.ts";
import { type AtBench, aboutInstrument, byTester, type Said } from "./record-at-bench.ts";

export type DailyCard = Bodies["daily-card-seen"];

export const ALL_AS_IT_SHOULD_BE: DailyCard = {
  noFaultShown: "yes",
  gasNamesAsExpected: "yes",
  clockWithinMinute: "yes",
  noDueDatePassed: "yes",
};

export const recordDailyCard = (bench: AtBench, card: DailyCard): Said =>
  aboutInstrument("daily-card-seen", bench, card, { subjects: [byTester(bench)] });
