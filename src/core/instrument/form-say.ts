/** From what a person says to what an outbox takes: the newest form, its manner, and nothing that would not fit. */

import { canonicalJson, type Happened, instantFromWritten, type NotCanonical, type Subject } from "../record/index.ts";
import { given, type Result, refused } from "../result.ts";
import type { Bodies, Kind, PrivateParts } from "./bodies.ts";
import { type Contradiction, contradiction } from "./form-contradiction.ts";
import { type EnvelopeFault, envelopeFault } from "./form-fit.ts";
import type { Misfit } from "./form-schema.ts";
import { type EntryForm, newestForm } from "./form-table.ts";

/** What a screen or importer says of one kind. Subjects and grounds in any order. */
export interface Saying<Name extends Kind> {
  readonly kind: Name;
  readonly happened: Happened;
  readonly by: string | null;
  readonly subjects: readonly Subject[];
  readonly restsOn: readonly string[];
  readonly body: Bodies[Name];
  readonly private: Name extends keyof PrivateParts ? PrivateParts[Name] | null : null;
}

/** What an outbox takes: as a saying, with the form and the manner of its kind. */
export interface Sayable {
  readonly kind: Kind;
  readonly form: number;
  readonly manner: "request" | "report";
  readonly happened: Happened;
  readonly by: string | null;
  /** Rising, without repeats; the sensors whose channels the body names are among them. */
  readonly subjects: readonly Subject[];
  readonly restsOn: readonly string[];
  readonly body: unknown;
  readonly private: unknown | null;
}

export interface NotSayable {
  readonly type: "not-sayable";
  /** Place such as `body.channels[2].reading.digits`, `subjects` or `happened`. */
  readonly at: string;
  /** Code of what is wrong there. */
  readonly why: string;
  /** The same for a machine, and for the sentence that a person reads. */
  readonly fault: SayFault;
}

export type SayFault =
  | { readonly part: "happened"; readonly fault: { readonly type: "not-an-instant" | "ends-before-it-begins" } }
  | { readonly part: "envelope"; readonly fault: EnvelopeFault }
  | { readonly part: "body" | "private"; readonly fault: Misfit | NotCanonical }
  | { readonly part: "body"; readonly fault: Contradiction };

/**
 * What an outbox takes for something that a person says.
 *
 * Refused: a time that is none or ends before it begins; a role that the kind does not know, or lacks; no grounds where
 * the kind demands some; a body or private part that does not fit the newest form, or contradicts itself.
 *
 * @param saying subjects and grounds in any order; the sensors that the body names need not be repeated among them
 * @example
 * ```ts
 * import { sayable } from "./form-say.ts";
 * const now = "2026-03-04T07:31:00.000Z";
 * const saying = {
 *   kind: "tag-lent" as const,
 *   happened: { earliest: now, latest: now, basis: "typed" as const },
 *   by: null,
 *   subjects: [{ role: "instrument", id: "7d1e2f30-4152-4637-8859-6a7b8c9dae0f" }],
 *   restsOn: [],
 *   private: null,
 * };
 * const said = sayable({ ...saying, body: { tag: "MB-07" } });
 * said.ok && [said.value.form, said.value.manner]; // => [1, "report"]
 * const bad = sayable({ ...saying, body: { tag: "" } });
 * bad.ok || [bad.refusal.at, bad.refusal.why]; // => ["body.tag", "too-short"]
 * ```
 * Source: the forms' files; design of this book, ours.
 */
export function sayable<Name extends Kind>(saying: Saying<Name>): Result<Sayable, NotSayable> {
  const form = newestForm(saying.kind);
  const { kind, happened, by, body } = saying;
  const privatePart: unknown = saying.private;
  const said = {
    ...{ kind, form: form.form, manner: form.manner, happened, by },
    subjects: risingSubjects([...saying.subjects, ...sensorsNamed(body, form)]),
    restsOn: [...new Set(saying.restsOn)].sort(),
    ...{ body, private: privatePart },
  };
  const fault = happenedFault(happened) ?? faultOf(said, form);
  return fault === null ? given(said) : refused({ type: "not-sayable", ...placed(fault), fault });
}

function happenedFault({ earliest, latest }: Happened): SayFault | null {
  const [from, to] = [instantFromWritten(earliest), instantFromWritten(latest)];
  if (from === null || to === null) return { part: "happened", fault: { type: "not-an-instant" } };
  return from <= to ? null : { part: "happened", fault: { type: "ends-before-it-begins" } };
}

function faultOf(said: Sayable, form: EntryForm): SayFault | null {
  const envelope = envelopeFault({ ...said, hasPrivate: said.private !== null }, form);
  if (envelope !== null) return { part: "envelope", fault: envelope };
  const inBody = partFault(said.body, form.body);
  if (inBody !== null) return { part: "body", fault: inBody };
  const inPrivate = said.private === null || form.private === null ? null : partFault(said.private, form.private);
  if (inPrivate !== null) return { part: "private", fault: inPrivate };
  const against = contradiction(said.kind, said.body);
  return against === null ? null : { part: "body", fault: against };
}

/** What has no canonical text (half a letter, a number that is none) cannot be kept, whatever its form. */
function partFault(value: unknown, check: EntryForm["body"]): Misfit | NotCanonical | null {
  const misfit = check(value);
  if (misfit !== null) return misfit;
  const text = canonicalJson(value);
  return text.ok ? null : text.refusal;
}

const risingSubjects = (subjects: readonly Subject[]): readonly Subject[] => {
  const byText = new Map(subjects.map(({ role, id }) => [`${role} ${id}`, { role, id }]));
  return [...byText.keys()].sort().map((text) => byText.get(text) as Subject); // the keys are those of the map
};

/** Sensors of the channels in a body: who asks about a sensor must find what was said of it. */
function sensorsNamed(body: unknown, form: EntryForm): readonly Subject[] {
  if (!form.subjects.some(({ roles, count }) => count === "any" && roles.includes("sensor"))) return [];
  const { channels = [], readings = [] } = body as { readonly channels?: unknown; readonly readings?: unknown };
  const named = [channels, readings].flatMap((list) => (Array.isArray(list) ? (list as readonly { readonly sensor?: unknown }[]) : []));
  return named.flatMap(({ sensor }) => (typeof sensor === "string" ? [{ role: "sensor", id: sensor }] : []));
}

function placed({ part, fault }: SayFault): { readonly at: string; readonly why: string } {
  if (part === "envelope")
    return {
      at: fault.type.startsWith("role")
        ? "subjects"
        : fault.type === "grounds-count"
          ? "restsOn"
          : fault.type === "manner"
            ? "manner"
            : "private",
      why: fault.type,
    };
  if (!("at" in fault)) return { at: part, why: fault.type };
  return { at: placeText(part, fault.at), why: typeof fault.why === "string" ? fault.why : fault.why.type };
}

/**
 * A place as text.
 *
 * @example
 * ```ts
 * import { placeText } from "./form-say.ts";
 * placeText("body", ["channels", 2, "reading", "digits"]); // => "body.channels[2].reading.digits"
 * ```
 * Source: ours. Never refuses.
 */
export const placeText = (root: string, at: readonly (string | number)[]): string =>
  at.reduce<string>((text, step) => (typeof step === "number" ? `${text}[${step}]` : `${text}.${step}`), root);
