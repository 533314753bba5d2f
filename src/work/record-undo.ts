/** Asks for an entry to be voided right after it was said. A request: both stay in the book. */
import { type AtBench, aboutInstrument, type Said } from "./record-at-bench.ts";

/** @param entry submission that is voided */
export const recordUndo = (bench: AtBench, entry: string, reason: string): Said =>
  aboutInstrument("entry-voided", bench, { cause: "done-wrongly", reason }, { restsOn: [entry] });
