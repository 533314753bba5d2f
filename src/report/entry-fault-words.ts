/** Why an entry cannot be used, or cannot be said, in sentences. */
import type { Count, EnvelopeFault, MisfitEntry, NotSayable, Place, ReadEntry, SayFault, Unfit } from "../core/instrument/index.ts";
import { kindWords, roleWords } from "./entry-words.ts";
import { visibleText } from "./visible-text.ts";

/**
 * A place in an entry in words; lists are counted from 1.
 *
 * @example
 * ```ts
 * import { placeWords } from "./entry-fault-words.ts";
 * placeWords(["channels", 2, "alarmsReached", 0, "seconds"]); // => "channels 3, alarms reached 1, seconds"
 * placeWords([]); // => "the whole"
 * ```
 */
export function placeWords(at: Place): string {
  const words: string[] = [];
  for (const step of at) {
    if (typeof step === "number" && words.length > 0) words.push(`${words.pop()} ${step + 1}`);
    else words.push(typeof step === "number" ? String(step + 1) : memberWords(step));
  }
  return words.length === 0 ? "the whole" : words.join(", ");
}

/** Names of members are English words joined in the way of the format. */
const memberWords = (name: string): string =>
  visibleText(
    name
      .replaceAll(/([a-z0-9])([A-Z])/g, "$1 $2")
      .replaceAll("-", " ")
      .toLowerCase(),
  );

const SORTS: Readonly<Record<string, string>> = {
  ...{ object: "a record", array: "a list", string: "text", integer: "a whole number", boolean: "true or false", null: "nothing" },
};

/**
 * What is wrong at a place.
 *
 * @example
 * ```ts
 * import { unfitWords } from "./entry-fault-words.ts";
 * unfitWords({ type: "missing" }); // => "is missing"
 * unfitWords({ type: "too-few", limit: 1 }); // => "holds fewer than 1"
 * ```
 */
export function unfitWords(why: Unfit): string {
  switch (why.type) {
    case "missing":
      return "is missing";
    case "not-known":
      return "is not known in this form";
    case "wrong-sort":
      return `is not ${SORTS[why.wanted] ?? why.wanted}`;
    case "not-one-of":
      return `is none of ${why.wanted.join(", ")}`;
    case "not-in-form":
      return `is not in its form: ${inSentence(why.wanted)}`;
    case "too-short":
      return why.limit === 1 ? "is empty" : `is shorter than ${why.limit} letters`;
    case "too-long":
      return `is longer than ${why.limit} letters`;
    case "too-few":
      return `holds fewer than ${why.limit}`;
    case "too-many":
      return `holds more than ${why.limit}`;
    case "too-small":
      return `is less than ${why.limit}`;
    case "too-great":
      return `is more than ${why.limit}`;
  }
}

const inSentence = (sentence: string): string => sentence.slice(0, 1).toLowerCase() + sentence.slice(1).replace(/\.$/, "");

const COUNTS: Readonly<Record<Count, string>> = {
  one: "exactly one",
  "at-most-one": "at most one",
  some: "at least one",
  any: "any number",
};

/**
 * What is wrong with the members around a body.
 *
 * @example
 * ```ts
 * import { envelopeWords } from "./entry-fault-words.ts";
 * envelopeWords({ type: "role-count", roles: ["instrument"], wanted: "one", found: 0 }); // => "Exactly one instrument must be named; 0 are."
 * ```
 */
export function envelopeWords(fault: EnvelopeFault): string {
  switch (fault.type) {
    case "manner":
      return fault.wanted === "request"
        ? "It is asked for and must be granted; it cannot be reported as done."
        : "It happened and is reported; it cannot be asked for.";
    case "role-count":
      return `${capital(COUNTS[fault.wanted])} ${fault.roles.map(roleWords).join(" or ")} must be named; ${fault.found} ${fault.found === 1 ? "is" : "are"}.`;
    case "role-not-known":
      return `This kind of entry names no ${roleWords(fault.role)}.`;
    case "grounds-count": {
      const kinds = fault.kinds.length === 0 ? "entry" : fault.kinds.map((kind) => `entry "${kindWords(kind)}"`).join(" or ");
      return `It must rest on ${COUNTS[fault.wanted]} ${kinds}; it rests on ${fault.found}.`;
    }
    case "private-part":
      return fault.wanted === "always" ? "Its private part is missing." : "This kind of entry has no private part.";
  }
}

const capital = (text: string): string => text.slice(0, 1).toUpperCase() + text.slice(1);

const AGAINST: Readonly<Record<string, string>> = {
  "ends-before-it-begins": "ends before it begins",
  "more-than-all": "is more than all there is",
  "highest-below-lowest": "is below the lowest",
  "named-twice": "is named twice",
  "no-such-set-point": "names a set point that is not in the list",
  "unknown-zone": "is no time zone that is known",
  "nothing-said": "says nothing",
  "no-error-allowed": "names no error that is allowed, neither in per cent nor absolute",
  "average-without-length": "is missing, though the alarm acts on an average",
};

/**
 * Why something cannot be said as it stands.
 *
 * @example
 * ```ts
 * import { notSayableWords } from "./entry-fault-words.ts";
 * const fault = { part: "body" as const, fault: { at: ["channels", 0, "sensor"], why: { type: "missing" as const } } };
 * notSayableWords({ type: "not-sayable", at: "body.channels[0].sensor", why: "missing", fault }); // => "Channels 1, sensor: is missing."
 * ```
 */
export const notSayableWords = ({ fault }: Pick<NotSayable, "fault"> & Partial<NotSayable>): string => sayFaultWords(fault);

function sayFaultWords(said: SayFault): string {
  if (said.part === "envelope") return envelopeWords(said.fault);
  if (said.part === "happened")
    return said.fault.type === "not-an-instant"
      ? "The time that it happened cannot be read."
      : "The time that it happened ends before it begins.";
  return partWords(said.fault);
}

/** A fault inside a body or private part, of whatever sort. */
function partWords(fault: Exclude<SayFault, { readonly part: "envelope" | "happened" }>["fault"] | NotOpened): string {
  if ("type" in fault && fault.type === "contradiction") return `${capital(placeWords(fault.at))}: ${AGAINST[fault.why] ?? fault.why}.`;
  if ("type" in fault && fault.type === "not-canonical") return `${capital(placeWords(fault.at))}: cannot be kept as text (${fault.why}).`;
  if ("type" in fault) return "Its bytes cannot be read.";
  return `${capital(placeWords(fault.at))}: ${unfitWords(fault.why)}.`;
}

type NotOpened = Extract<Exclude<MisfitEntry["why"], { readonly part: "envelope" }>["fault"], { readonly type: "not-a-sealed-part" }>;

/**
 * Why an entry of the book cannot be used; null where it can.
 *
 * @example
 * ```ts
 * import { unreadWords } from "./entry-fault-words.ts";
 * unreadWords({ type: "unknown-kind", kind: "gas-sung-to" }); // => "This release does not know entries of the kind gas-sung-to. It counts against what it is about until a release that knows it, or a person, says more."
 * ```
 */
export function unreadWords(read: ReadEntry): string | null {
  switch (read.type) {
    case "known":
      return null;
    case "unknown-kind":
      return `This release does not know entries of the kind ${visibleText(read.kind)}. ${COUNTS_AGAINST}`;
    case "unknown-form":
      return `This release knows "${kindWords(read.kind)}" up to form ${read.newest}; this one is of form ${read.form}. ${COUNTS_AGAINST}`;
    case "disposed":
      return "What it said was disposed of; that it was said stays in the book.";
    case "misfit": {
      const why = read.why.part === "envelope" ? envelopeWords(read.why.fault) : partWords(read.why.fault);
      return `It does not fit its form. ${read.why.part === "private" ? "Private part: " : ""}${why}`;
    }
  }
}

const COUNTS_AGAINST = "It counts against what it is about until a release that knows it, or a person, says more.";
