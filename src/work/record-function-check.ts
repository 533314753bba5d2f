/** A function check, done here or by a workshop. */
import type { PeriodicCheck } from "../core/instrument/index.ts";
import { type AtBench, aboutInstrument, byTester, type Said, withGas } from "./record-at-bench.ts";

/** What was done elsewhere was not done with the gas of this sitting. */
export const recordFunctionCheck = (bench: AtBench, check: PeriodicCheck): Said =>
  aboutInstrument("function-checked", bench, check, { subjects: check.workshop === null ? withGas(bench) : [byTester(bench)] });
