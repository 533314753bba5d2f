/**
 * The one catalogue of everything that a person can be told went wrong: refusals of a file, a figure, a time or a call,
 * and faults of a line. For each: its code, a sentence, what mends it, the exit code of the command line and the HTTP
 * status. docs/errors.md is written from it; that it has an entry for every type, the compiler sees to.
 */
import type { Catalogue, CatalogueEntry, ExitCode } from "./catalogue.ts";
import type { CallRefusal, SlateRefusal } from "./door-refusal.ts";
import { REFUSALS_OF_BOOK, type RefusalOfBook } from "./errors-of-book.ts";
import { REFUSALS_OF_CALLS } from "./errors-of-calls.ts";
import { REFUSALS_OF_FIGURES, type RefusalOfFigure } from "./errors-of-figures.ts";
import { REFUSALS_OF_FILES, type RefusalOfFile } from "./errors-of-files.ts";
import { REFUSALS_OF_SETS, type RefusalOfSet } from "./errors-of-sets.ts";
import { REFUSALS_OF_TIMES, type RefusalOfTime } from "./errors-of-times.ts";

/** Every refusal that has a sentence. */
export type Refusal = RefusalOfFile | RefusalOfFigure | RefusalOfSet | RefusalOfTime | SlateRefusal | CallRefusal | RefusalOfBook;

export const REFUSALS: Catalogue<Refusal> = {
  ...REFUSALS_OF_FILES,
  ...REFUSALS_OF_CALLS,
  ...REFUSALS_OF_FIGURES,
  ...REFUSALS_OF_SETS,
  ...REFUSALS_OF_TIMES,
  ...REFUSALS_OF_BOOK,
};

/** The refusal in a sentence, and what mends it. */
export function refusalWords(refusal: Refusal): { readonly message: string; readonly mend: string } {
  const entry = entryOf(refusal);
  return { message: entry.says(refusal), mend: entry.mend(refusal) };
}

/** The same for the command line, which also names the flag that mends it. */
export function callWords(refusal: Refusal): { readonly message: string; readonly mend: string } {
  const { message, mend } = refusalWords(refusal);
  const flag = entryOf(refusal).flag?.(refusal) ?? "";
  return { message, mend: flag === "" ? mend : `${mend} ${flag}` };
}

export function exitCodeOf(refusal: Refusal): ExitCode {
  return entryOf(refusal).exit;
}

export function statusOf(refusal: Refusal): number {
  return entryOf(refusal).status;
}

/** The table is typed a row at a time; that the row of a refusal takes that refusal cannot be said to the compiler. */
function entryOf(refusal: Refusal): CatalogueEntry<Refusal> {
  return REFUSALS[refusal.type] as unknown as CatalogueEntry<Refusal>;
}

export { FAULTS, type FaultEntry, faultSentence } from "./errors-of-lines.ts";
