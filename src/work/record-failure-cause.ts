/** Somebody says afterwards why a gas test failed. It stays failed. */
import type { VoidCause } from "../core/instrument/index.ts";
import { type AtBench, aboutInstrument, byTester, type Said } from "./record-at-bench.ts";

/** @param test submission of the test that failed */
export const recordFailureCause = (bench: AtBench, test: string, cause: VoidCause): Said =>
  aboutInstrument("gas-test-cause-claimed", bench, { cause }, { subjects: [byTester(bench)], restsOn: [test] });
