/** Whether the envelope of a submission fits its form: manner, who is named in which part, what it rests on. */
import type { Subject, Submission } from "../record/index.ts";
import type { Count, EntryForm } from "./form-table.ts";

/** What is wrong about the members around a body. */
export type EnvelopeFault =
  | { readonly type: "manner"; readonly wanted: "request" | "report" }
  | { readonly type: "role-count"; readonly roles: readonly string[]; readonly wanted: Count; readonly found: number }
  | { readonly type: "role-not-known"; readonly role: string }
  | { readonly type: "grounds-count"; readonly kinds: readonly string[]; readonly wanted: Count; readonly found: number }
  | { readonly type: "private-part"; readonly wanted: "always" | "never" };

/**
 * The first thing about an envelope that its form does not have; null where it fits.
 *
 * @example
 * ```ts
 * import { envelopeFault } from "./form-fit.ts";
 * import { newestForm } from "./form-table.ts";
 * const envelope = { manner: "report" as const, subjects: [], restsOn: [], hasPrivate: false };
 * envelopeFault(envelope, newestForm("charge-seen")); // => { "type": "role-count", "roles": ["instrument"], "wanted": "one", "found": 0 }
 * ```
 * Source: the form's file. Never refuses. Of which kinds its grounds are is asked of `groundsFault`.
 */
export function envelopeFault(envelope: Envelope, form: EntryForm): EnvelopeFault | null {
  if (envelope.manner !== form.manner) return { type: "manner", wanted: form.manner };
  if (form.privatePart === "always" && !envelope.hasPrivate) return { type: "private-part", wanted: "always" };
  if (form.privatePart === "never" && envelope.hasPrivate) return { type: "private-part", wanted: "never" };
  return subjectsFault(envelope.subjects, form) ?? numberOfGrounds(envelope.restsOn.length, form);
}

export interface Envelope extends Pick<Submission, "manner" | "restsOn"> {
  readonly subjects: readonly Subject[];
  readonly hasPrivate: boolean;
}

function subjectsFault(subjects: readonly Subject[], form: EntryForm): EnvelopeFault | null {
  for (const { roles, count } of form.subjects) {
    const found = subjects.filter(({ role }) => roles.includes(role)).length;
    if (!isCount(found, count)) return { type: "role-count", roles, wanted: count, found };
  }
  const unknown = subjects.find(({ role }) => !form.subjects.some(({ roles }) => roles.includes(role)));
  return unknown === undefined ? null : { type: "role-not-known", role: unknown.role };
}

/** From the number alone it can only be told that too few are named. */
function numberOfGrounds(found: number, form: EntryForm): EnvelopeFault | null {
  const demanded = form.restsOn.find(({ count }) => (count === "one" || count === "some") && found === 0);
  return demanded === undefined ? null : { type: "grounds-count", kinds: demanded.kinds, wanted: demanded.count, found };
}

/**
 * The first rule about what it rests on that the kinds of its grounds do not meet; null where they do.
 *
 * @param kinds kind of each entry that it rests on
 * @example
 * ```ts
 * import { groundsFault } from "./form-fit.ts";
 * import { newestForm } from "./form-table.ts";
 * const claimed = newestForm("gas-test-cause-claimed");
 * groundsFault(["gas-tested"], claimed); // => null
 * groundsFault(["calibrated"], claimed); // => { "type": "grounds-count", "kinds": ["gas-tested"], "wanted": "one", "found": 0 }
 * ```
 * Source: the form's file. Never refuses. Grounds of other kinds than those named are no fault.
 */
export function groundsFault(kinds: readonly string[], form: EntryForm): EnvelopeFault | null {
  for (const rule of form.restsOn) {
    const found = rule.kinds.length === 0 ? kinds.length : kinds.filter((kind) => rule.kinds.includes(kind)).length;
    if (!isCount(found, rule.count)) return { type: "grounds-count", kinds: rule.kinds, wanted: rule.count, found };
  }
  return null;
}

function isCount(found: number, wanted: Count): boolean {
  if (wanted === "any") return true;
  if (wanted === "some") return found >= 1;
  return wanted === "one" ? found === 1 : found <= 1;
}
