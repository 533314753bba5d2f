/** Something happened to an instrument that asks for a new gas test. */
import type { Bodies } from "../core/instrument/index.ts";
import { type AtBench, aboutInstrument, byTester, type Said } from "./record-at-bench.ts";

export const recordUpset = (bench: AtBench, what: Bodies["upset-seen"]["what"]): Said =>
  aboutInstrument("upset-seen", { ...bench, sitting: null }, { what }, { subjects: [byTester(bench)] });
