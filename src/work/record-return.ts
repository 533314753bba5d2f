/** Asks for an instrument to be returned to use. A request: the book judges it, and may refuse it. */
import type { Bodies } from "../core/instrument/index.ts";
import { type AtBench, aboutInstrument, type Said } from "./record-at-bench.ts";

/** @param shownBy submissions that show that it may be used again */
export const recordReturn = (bench: AtBench, returned: Bodies["returned"], shownBy: readonly string[]): Said =>
  aboutInstrument("returned", bench, returned, { restsOn: shownBy });
