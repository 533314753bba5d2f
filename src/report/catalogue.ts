/** The shape of an entry of the catalogue of errors. */
import { visibleText } from "./visible-text.ts";

/** 1 a file or calculation refused, 2 wrong call, 3 the disk or the network did not do its part, 70 a fault of the program. */
export type ExitCode = 1 | 2 | 3 | 70;

export interface CatalogueEntry<Shape> {
  readonly exit: ExitCode;
  /** HTTP status, where a server answers with it. */
  readonly status: 400 | 403 | 404 | 409 | 413 | 415 | 421 | 422 | 499 | 500 | 503;
  readonly says: (refusal: Shape) => string;
  readonly mend: (refusal: Shape) => string;
  /** Which flag mends it, where one does: said by the command line alone. */
  readonly flag?: (refusal: Shape) => string;
  /** Shown in docs/errors.md, put through the same two sentences. */
  readonly example: Shape;
}

/** An entry for every type of refusal, and for no other: a missing or a spare one does not compile. */
export type Catalogue<Refusal extends { readonly type: string }> = {
  readonly [Type in Refusal["type"]]: CatalogueEntry<Extract<Refusal, { readonly type: Type }>>;
};

/** An entry for an input that a person can mend: one exit code and one status for all of them. */
export function unfit<Shape>(example: Shape, says: (refusal: Shape) => string, mend: (refusal: Shape) => string): CatalogueEntry<Shape> {
  return { exit: 1, status: 422, says, mend, example };
}

/** A text of a file or a call on one line, not too long to be read in a sentence. */
export function shortened(text: string): string {
  const oneLine = visibleText(text.replace(/[\r\n\t]+/g, " ").trim());
  return oneLine.length > 80 ? `${oneLine.slice(0, 79)}…` : oneLine;
}
