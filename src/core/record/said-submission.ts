/** What a person says becomes a submission of a device: sealed, linked to the one before it, and final from then on. */
import { given, type Result, refused } from "../result.ts";
import { type Digest, digestOf } from "./digest.ts";
import type { Sha256 } from "./hash-tree.ts";
import { sealedPart } from "./sealed-part.ts";
import { type NotASubmission, type Submission, submissionBytes } from "./submission.ts";

/** What is said; `body` and `private` are values of JSON, null where there is no private part. */
export interface Speech extends Pick<Submission, "kind" | "form" | "manner" | "happened" | "by" | "subjects" | "restsOn"> {
  readonly body: unknown;
  readonly private: unknown;
}

/** Where it stands in the chain of the device that says it. */
export type ChainPlace = Pick<Submission, "id" | "book" | "device" | "sequence" | "previous" | "recorded" | "head">;

export interface SaidBytes {
  readonly submission: Uint8Array;
  readonly body: Uint8Array;
  readonly private: Uint8Array | null;
  /** Of the submission: `previous` of the next one. */
  readonly digest: Digest;
}

/** `at` names the part or the member. */
export interface NotSayable {
  readonly type: "not-sayable";
  readonly at: string;
  readonly why: string;
}

/**
 * The bytes of a submission and its parts.
 *
 * @param salt gives 16 bytes of chance each time it is called; handed in
 * @example
 * ```ts
 * import { saidSubmission } from "./said-submission.ts";
 * const place = { id: "018f3c2a-0000-7000-8000-000000000001", book: "5f0c9a52-3b1e-4d6a-8f57-0c2d4e6a8b10", device: "7d1e2f30-0000-4000-8000-000000000001", sequence: 1, previous: null, recorded: "2026-03-04T07:31:00.000Z", head: null };
 * const happened = { earliest: "2026-03-04T07:30:00.000Z", latest: "2026-03-04T07:31:00.000Z", basis: "typed" as const };
 * const speech = { kind: "upset-seen", form: 1, manner: "report" as const, happened, by: null, subjects: [], restsOn: [], body: { what: "wet" }, private: null };
 * const salt = () => new Uint8Array(16);
 * const said = saidSubmission(speech, place, salt, () => new Uint8Array(32));
 * said.ok && [said.value.body.length, said.value.private, said.value.digest.length]; // => [30, null, 71]
 * saidSubmission({ ...speech, kind: "Wet" }, place, salt, () => new Uint8Array(32)); // => { "ok": false, "refusal": { "type": "not-sayable", "at": "kind", "why": "a code of lower-case words joined by hyphens" } }
 * ```
 * Refuses parts without a canonical text and members that are not in their form. Source: as `submissionBytes`, `sealedPart`.
 */
export function saidSubmission(speech: Speech, place: ChainPlace, salt: () => Uint8Array, sha256: Sha256): Result<SaidBytes, NotSayable> {
  const body = sealedPart(speech.body, salt());
  if (!body.ok) return refused({ type: "not-sayable", at: "body", why: body.refusal.why });
  const privatePart = speech.private === null ? null : sealedPart(speech.private, salt());
  if (privatePart !== null && !privatePart.ok) return refused({ type: "not-sayable", at: "private", why: privatePart.refusal.why });
  const parts = { body: body.value, private: privatePart === null ? null : privatePart.value };
  const { kind, form, manner, happened, by, subjects, restsOn } = speech;
  const { id, book, device, sequence, previous, recorded, head } = place;
  const submission = submissionBytes({
    ...{ submission: 1, id, book, device, sequence, previous, kind, form, manner, happened, recorded, by, subjects, restsOn, head },
    ...{ body: digestOf(parts.body, sha256), private: parts.private === null ? null : digestOf(parts.private, sha256) },
  });
  if (!submission.ok) return refused(notSayable(submission.refusal));
  return given({ submission: submission.value, ...parts, digest: digestOf(submission.value, sha256) });
}

function notSayable(refusal: NotASubmission): NotSayable {
  if (refusal.type === "misformed") return { type: "not-sayable", at: refusal.at, why: refusal.form };
  if (refusal.type === "happened-backwards") return { type: "not-sayable", at: "happened", why: "it ends before it begins" };
  if (refusal.type === "chain-start") return { type: "not-sayable", at: "previous", why: "only the first one follows none" };
  return { type: "not-sayable", at: "submission", why: refusal.type === "not-canonical" ? refusal.why : refusal.type };
}
