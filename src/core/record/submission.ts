/**
 * A submission: what a device says, final once it is said. Every device (bench PC, phone, command line, importer) makes
 * them in a chain of its own; the book alone gives them numbers (entry.ts). The members here are frozen: what they mean
 * never changes, and a later form of the envelope gets another number.
 */
import { given, type Result, refused } from "../result.ts";
import { canonicalJson, fromCanonicalJson, type NotCanonical } from "./canonical-json.ts";
import type { Digest } from "./digest.ts";
import * as form from "./members.ts";
import { textFromUtf8, utf8FromText } from "./utf8.ts";
import { instantFromWritten, type WrittenInstant } from "./written-instant.ts";

/** A thing, place, person or station that a submission is about, and in what part. */
export interface Subject {
  /** A code such as `instrument`, `cylinder`, `tester`. */
  readonly role: string;
  readonly id: string;
}

/** When it happened: a claim with a width, both ends included, and what the claim rests on. */
export interface Happened {
  readonly earliest: WrittenInstant;
  readonly latest: WrittenInstant;
  readonly basis: "typed" | "device-clock" | "instrument-clock" | "from-paper" | "from-file";
}

export interface Submission {
  /** Form of this envelope. */
  readonly submission: 1;
  /** UUIDv7; tells repeats, never order. */
  readonly id: string;
  /** The one book it is meant for. */
  readonly book: string;
  readonly device: string;
  /** From 1, without holes, counted by the device. */
  readonly sequence: number;
  /** Digest of the device's submission before this one; null for its first. */
  readonly previous: Digest | null;
  readonly kind: string;
  /** Form of body and private part. */
  readonly form: number;
  /** A request is judged and may be refused; a report happened, and is kept whatever it contradicts. */
  readonly manner: "request" | "report";
  readonly happened: Happened;
  /** When the device wrote it down, by its own clock. */
  readonly recorded: WrittenInstant;
  /** Person who says it; null where no person does. */
  readonly by: string | null;
  /** By role, then id, rising, without repeats; at most 64. */
  readonly subjects: readonly Subject[];
  /** Submissions it rests on, by id, rising, without repeats; at most 256. */
  readonly restsOn: readonly string[];
  /** Head of the book that the device knew; null where it knew none. */
  readonly head: { readonly size: number; readonly root: Digest } | null;
  /** Of the sealed part that holds what was said. */
  readonly body: Digest;
  /** Of the sealed part that may be forgotten first: names, badges, remarks on people. */
  readonly private: Digest | null;
}

export type NotASubmission =
  | NotCanonical
  | form.Misformed
  | { readonly type: "not-utf-8" }
  | { readonly type: "happened-backwards"; readonly earliest: string; readonly latest: string }
  | { readonly type: "chain-start"; readonly sequence: number };

const MOST_SUBJECTS = 64;
const MOST_GROUNDS = 256;

const FORM = form.record({
  submission: form.one,
  id: form.submissionId,
  book: form.uuid,
  device: form.uuid,
  sequence: form.count,
  previous: form.orNull(form.digest),
  kind: form.code,
  form: form.count,
  manner: form.oneOf("request", "report"),
  happened: form.record({
    earliest: form.instant,
    latest: form.instant,
    basis: form.oneOf("typed", "device-clock", "instrument-clock", "from-paper", "from-file"),
  }),
  recorded: form.instant,
  by: form.orNull(form.uuid),
  subjects: form.rising(form.record({ role: form.code, id: form.uuid }), ({ role, id }: Subject) => `${role} ${id}`, MOST_SUBJECTS),
  restsOn: form.rising(form.submissionId, (id: string) => id, MOST_GROUNDS),
  head: form.orNull(form.record({ size: form.size, root: form.digest })),
  body: form.digest,
  private: form.orNull(form.digest),
});

/**
 * The bytes of a submission: what its digest, and through it the book, is about.
 *
 * Refused: a member that is missing, unknown or not in its form; a time that ends before it begins; a first submission
 * (sequence 1) with one before it, or a later one without.
 *
 * @example
 * ```ts
 * import { submissionBytes } from "./submission.ts";
 * const refusal = submissionBytes({ submission: 1, id: "7" } as never);
 * refusal.ok || refusal.refusal; // => { "type": "misformed", "at": "id", "form": "a UUID of version 7 in lower case" }
 * ```
 * Source: RFC 8785 [read] for the text; the members: ours.
 */
export function submissionBytes(submission: Submission): Result<Uint8Array, NotASubmission> {
  const fault = faultOf(submission);
  if (fault !== null) return refused(fault);
  const text = canonicalJson(submission);
  return text.ok ? given(utf8FromText(text.value)) : text;
}

/**
 * Reads a submission back. Refuses bytes that `submissionBytes` would not write.
 *
 * @example
 * ```ts
 * import { submissionFrom } from "./submission.ts";
 * submissionFrom(Uint8Array.of(123, 125)); // => { "ok": false, "refusal": { "type": "misformed", "at": "submission", "form": "there" } }
 * submissionFrom(Uint8Array.of(255)); // => { "ok": false, "refusal": { "type": "not-utf-8" } }
 * ```
 * Source: as `submissionBytes`.
 */
export function submissionFrom(bytes: Uint8Array): Result<Submission, NotASubmission> {
  const text = textFromUtf8(bytes);
  if (text === null) return refused({ type: "not-utf-8" });
  const value = fromCanonicalJson(text);
  if (!value.ok) return value;
  const fault = faultOf(value.value);
  return fault === null ? given(value.value as unknown as Submission) : refused(fault); // the form has been held against it
}

function faultOf(value: unknown): NotASubmission | null {
  const read = form.inForm<Submission>(value, FORM);
  if (!read.ok) return read.refusal;
  const { happened, sequence, previous } = read.value;
  const [from, to] = [instantFromWritten(happened.earliest) ?? 0, instantFromWritten(happened.latest) ?? 0];
  if (from > to) return { type: "happened-backwards", earliest: happened.earliest, latest: happened.latest };
  return (sequence === 1) === (previous === null) ? null : { type: "chain-start", sequence };
}
