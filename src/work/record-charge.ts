/** The charge that an instrument showed: per cent, hours or bars, as its display has it. */
import type { Bodies } from "../core/instrument/index.ts";
import { type AtBench, aboutInstrument, byTester, type Said } from "./record-at-bench.ts";

export const recordCharge = (bench: AtBench, charge: Bodies["charge-seen"]): Said =>
  aboutInstrument("charge-seen", bench, charge, { subjects: [byTester(bench)] });
