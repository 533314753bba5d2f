/** An instrument leaves the site, or comes back. */
import type { Bodies } from "../core/instrument/index.ts";
import { type AtBench, aboutInstrument, type Said } from "./record-at-bench.ts";

const elsewhere = (bench: AtBench): AtBench => ({ ...bench, sitting: null });

export const recordSentAway = (bench: AtBench, sent: Bodies["sent-away"]): Said => aboutInstrument("sent-away", elsewhere(bench), sent);

/** @param left submission with which it was sent away; null where the book has none */
export const recordBack = (bench: AtBench, done: Bodies["back-from-service"]["done"], left: string | null): Said =>
  aboutInstrument("back-from-service", elsewhere(bench), { done, files: [] }, { restsOn: left === null ? [] : [left] });
