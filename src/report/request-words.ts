/** Why a request was not granted, in a sentence, and what would mend it. */

import { shortened } from "./catalogue.ts";
import { codeWords, kindWords } from "./entry-words.ts";

/** Codes of what stands against a request; `detail` says the rest. */
export type RequestReason =
  /** Detail: the duties that may, joined by commas. */
  | "not-entitled"
  | "nobody-asks"
  /** Detail: kind. */
  | "cannot-be-judged"
  /** Detail: the place and what is wrong there. */
  | "not-in-form"
  /** Detail: id of the submission. */
  | "ground-not-here"
  | "ground-voided"
  | "ground-of-another"
  /** Detail: kinds wanted, joined by commas. */
  | "ground-of-wrong-kind"
  /** Detail: id of the thing. */
  | "thing-not-here"
  /** Detail: a sentence of what is still missing. */
  | "still-against-it"
  | "not-withdrawn"
  | "already-voided"
  /** Detail: kind. */
  | "never-voided"
  | "ends-before-it-begins"
  /** Detail: sentences. */
  | "wall"
  | "nothing-changes"
  | "same-person"
  | "nothing-waits"
  | "overtaken"
  | "already-agreed"
  | "never-disposed"
  | "already-disposed"
  | "last-administrator";

interface Words {
  readonly message: string;
  readonly mend: string;
}

const duties = (detail: string): string =>
  detail
    .split(",")
    .map((duty) => codeWords("duties", duty))
    .join(" or ");

const LOOK = "Look at it as it stands now.";

const REASONS: Readonly<Record<RequestReason, (detail: string) => Words>> = {
  "not-entitled": (detail) => ({
    message: `This is for a ${duties(detail)} to ask.`,
    mend: `Ask a person with that duty, or have it given on Site.`,
  }),
  "nobody-asks": () => ({ message: "A request needs a person who makes it.", mend: "Say who you are, and ask again." }),
  "cannot-be-judged": (detail) => ({
    message: `This program does not know how to judge "${shortened(kindWords(detail))}".`,
    mend: "A later release wrote it: use that release here too.",
  }),
  "not-in-form": (detail) => ({ message: `The request is not in its form: ${shortened(detail)}`, mend: "Mend it and ask again." }),
  "ground-not-here": () => ({
    message: "An entry that it rests on is not in the book.",
    mend: "It may still wait on the device that said it: send that first.",
  }),
  "ground-voided": (detail) => ({ message: `Entry ${detail}, which it rests on, was voided.`, mend: "Rest it on another entry." }),
  "ground-of-another": (detail) => ({
    message: `Entry ${detail}, which it rests on, is about another instrument.`,
    mend: "Rest it on what was seen of this one.",
  }),
  "ground-of-wrong-kind": (detail) => ({
    message: `It has to rest on: ${detail.split(",").map(kindWords).join(", ")}.`,
    mend: "Name that entry, and ask again.",
  }),
  "thing-not-here": () => ({ message: "The book does not know what it is about.", mend: "Register it first." }),
  "still-against-it": (detail) => ({ message: `It cannot be returned yet: ${detail}`, mend: "Do that first, then ask again." }),
  "not-withdrawn": () => ({ message: "Nothing stands against this instrument that a return would end.", mend: LOOK }),
  "already-voided": (detail) => ({ message: `Entry ${detail} is voided already.`, mend: LOOK }),
  "never-voided": (detail) => ({
    message: `An entry of this kind is never voided: ${kindWords(detail)}.`,
    mend: "What it began is ended by an entry of its own.",
  }),
  "ends-before-it-begins": () => ({ message: "It ends before it begins.", mend: "Mend the two times." }),
  wall: (detail) => ({ message: `A law or a maker's text does not let that pass: ${detail}`, mend: "Set it within that, and ask again." }),
  "nothing-changes": () => ({ message: "No setting differs from those that hold.", mend: "Change one, or leave the rules as they are." }),
  "same-person": () => ({
    message: "Who asked for a looser rule cannot also agree to it.",
    mend: "A second person with that duty has to agree.",
  }),
  "nothing-waits": () => ({ message: "That change of the rules does not wait for anybody.", mend: LOOK }),
  overtaken: () => ({
    message: "The rules were changed since these were read.",
    mend: "Look at the newest rules, and ask for the change anew.",
  }),
  "already-agreed": () => ({ message: "That change was agreed to already.", mend: LOOK }),
  "never-disposed": (detail) => ({
    message: `What entries of this kind say is kept for good: ${kindWords(detail)}.`,
    mend: "Dispose of other parts.",
  }),
  "already-disposed": () => ({ message: "That part is not here any more.", mend: LOOK }),
  "last-administrator": () => ({
    message: "Nobody would be left who may give duties.",
    mend: "Make another person administrator first.",
  }),
};

/**
 * Why a request was not granted.
 *
 * @param detail what the reason's code leaves open: an entry's number, duties, a sentence
 * @example
 * ```ts
 * import { reasonWords } from "./request-words.ts";
 * reasonWords("not-entitled", "keeper,administrator").message; // => "This is for a keeper or administrator to ask."
 * ```
 */
export const reasonWords = (reason: RequestReason, detail: string): Words => REASONS[reason](detail);

/** Whether a text is one of these codes: a keeper of the book hands them back as text. */
export const isRequestReason = (reason: string): reason is RequestReason => Object.hasOwn(REASONS, reason);

export const REQUEST_REASONS = Object.keys(REASONS) as readonly RequestReason[]; // the keys of a table of all of them
