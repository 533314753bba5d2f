/** What an entry says, read by the form that it was written in: known and well formed, or why it is not. */
import { type Json, type NotASealedPart, openedPart, type Submission } from "../record/index.ts";
import type { Bodies, Kind, PrivateParts } from "./bodies.ts";
import { type EnvelopeFault, envelopeFault } from "./form-fit.ts";
import type { Misfit } from "./form-schema.ts";
import { type EntryForm, FORMS, type FormTable } from "./form-table.ts";

interface KnownOf<Name extends Kind> {
  readonly type: "known";
  readonly kind: Name;
  /** In the newest form, whatever it was written in. */
  readonly body: Bodies[Name];
  /** Null where there is none, or it was disposed of. */
  readonly private: Name extends keyof PrivateParts ? PrivateParts[Name] | null : null;
  readonly isPrivateDisposed: boolean;
}

export type KnownEntry = { [Name in Kind]: KnownOf<Name> }[Kind];

/** An entry that this release cannot use is kept and shown, and speaks against what it is about. */
export type ReadEntry =
  | KnownEntry
  /** A later release, or another program, wrote it. */
  | { readonly type: "unknown-kind"; readonly kind: string }
  | { readonly type: "unknown-form"; readonly kind: string; readonly form: number; readonly newest: number }
  /** The bytes of its body were deleted. */
  | { readonly type: "disposed"; readonly kind: string; readonly form: number }
  | MisfitEntry;

/** It is there, and does not say what its form says. Nothing of it is repaired. */
export interface MisfitEntry {
  readonly type: "misfit";
  readonly kind: string;
  readonly form: number;
  readonly why:
    | { readonly part: "envelope"; readonly fault: EnvelopeFault }
    | { readonly part: "body" | "private"; readonly fault: Misfit | NotASealedPart };
}

export type WhatIsRead = Pick<Submission, "kind" | "form" | "manner" | "subjects" | "restsOn" | "private">;

/**
 * What an entry says.
 *
 * @param submission as `submissionFrom` gave it
 * @param parts bytes of body and private part, null where they were disposed of; that they are those that the
 * submission's digests name is the keeper's to check
 * @param table forms to read by; those of this release unless others are handed in
 * @returns the body in the newest form of its kind, or why there is none
 * @example
 * ```ts
 * import { sealedPart } from "../record/index.ts";
 * import { readBody } from "./form-read.ts";
 * const instrument = { role: "instrument", id: "7d1e2f30-4152-4637-8859-6a7b8c9dae0f" };
 * const said = { kind: "tag-lent", form: 1, manner: "report" as const, subjects: [instrument], restsOn: [], private: null };
 * const sealed = sealedPart({ tag: "MB-07" }, new Uint8Array(16));
 * const body = sealed.ok ? sealed.value : null;
 * const read = readBody(said, { body, private: null });
 * read.type === "known" && read.body; // => { "tag": "MB-07" }
 * readBody(said, { body: null, private: null }).type; // => "disposed"
 * readBody({ ...said, form: 9 }, { body, private: null }); // => { "type": "unknown-form", "kind": "tag-lent", "form": 9, "newest": 1 }
 * readBody({ ...said, kind: "tag-sung-to" }, { body, private: null }).type; // => "unknown-kind"
 * ```
 * Source: design of this book, ours. Never refuses and never throws; nothing is repaired.
 */
export function readBody(
  submission: WhatIsRead,
  parts: { readonly body: Uint8Array | null; readonly private: Uint8Array | null },
  table: FormTable = FORMS,
): ReadEntry {
  const { kind, form } = submission;
  const forms = table.get(kind);
  if (forms === undefined) return { type: "unknown-kind", kind };
  const written = forms[form - 1];
  if (written === undefined) return { type: "unknown-form", kind, form, newest: forms.length };
  const misfit = (why: MisfitEntry["why"]): MisfitEntry => ({ type: "misfit", kind, form, why });
  const fault = envelopeFault({ ...submission, hasPrivate: submission.private !== null }, written);
  if (fault !== null) return misfit({ part: "envelope", fault });
  if (parts.body === null) return { type: "disposed", kind, form };
  const read = partsRead(parts.body, parts.private, written);
  if ("fault" in read) return misfit(read);
  const raised = raisedToNewest(read, forms.slice(form - 1));
  if ("fault" in raised) return misfit(raised);
  // The checks of the forms have held both parts against what the types say; a test holds types and forms together.
  return { type: "known", kind, ...raised, isPrivateDisposed: submission.private !== null && parts.private === null } as KnownEntry;
}

interface Parts {
  readonly body: Json;
  readonly private: Json | null;
}

type PartFault = Exclude<MisfitEntry["why"], { readonly part: "envelope" }>;

function partsRead(body: Uint8Array, privateBytes: Uint8Array | null, form: EntryForm): Parts | PartFault {
  const opened = openedPart(body);
  if (!opened.ok) return { part: "body", fault: opened.refusal };
  if (privateBytes === null) return partsFault(opened.value, null, form) ?? { body: opened.value, private: null };
  const openedPrivate = openedPart(privateBytes);
  if (!openedPrivate.ok) return { part: "private", fault: openedPrivate.refusal };
  return partsFault(opened.value, openedPrivate.value, form) ?? { body: opened.value, private: openedPrivate.value };
}

/** The first place at which body or private part do not fit a form; null where they fit. A private part that is not there is no fault. */
function partsFault(body: Json, privatePart: Json | null, form: EntryForm): PartFault | null {
  const inBody = form.body(body);
  if (inBody !== null) return { part: "body", fault: inBody };
  const inPrivate = privatePart === null || form.private === null ? null : form.private(privatePart);
  return inPrivate === null ? null : { part: "private", fault: inPrivate };
}

/** Step by step from the form it was written in; each step is held against the next form. */
function raisedToNewest(read: Parts, forms: readonly EntryForm[]): Parts | PartFault {
  let parts = read;
  for (const [index, { raise }] of forms.entries()) {
    const next = forms[index + 1];
    if (raise === null || next === undefined) break;
    parts = raise(parts);
    const fault = partsFault(parts.body, parts.private, next);
    if (fault !== null) return fault;
  }
  return parts;
}
