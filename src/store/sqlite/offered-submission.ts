/** What was offered, held against its own digests before anything is written. */
import { type Digest, digestOf, type Submission, submissionFrom } from "../../core/record/index.ts";
import { given, type Result, refused } from "../../core/result.ts";
import type { AppendRefusal, Offered } from "../ledger.ts";
import { sha256 } from "./hash.ts";

export interface Checked {
  readonly offered: Offered;
  readonly submission: Submission;
  readonly digest: Digest;
}

/** Refuses bytes that are no submission, parts that are not those it names, and another book's. */
export function checkedOffer(offered: Offered, at: number, book: string): Result<Checked, AppendRefusal> {
  const read = submissionFrom(offered.submission);
  if (!read.ok) return refused({ type: "damaged", at, part: "submission", why: whyOf(read.refusal) });
  const submission = read.value;
  if (submission.book !== book) return refused({ type: "other-book", at, book: submission.book });
  if (digestOf(offered.body, sha256) !== submission.body)
    return refused({ type: "damaged", at, part: "body", why: "other bytes than it names" });
  const own = offered.private === null ? null : digestOf(offered.private, sha256);
  if (own !== submission.private) return refused({ type: "damaged", at, part: "private", why: "other bytes than it names" });
  return given({ offered, submission, digest: digestOf(offered.submission, sha256) });
}

const whyOf = (refusal: { readonly type: string; readonly at?: unknown; readonly form?: string }): string =>
  [refusal.type, refusal.at === undefined ? "" : String(refusal.at), refusal.form ?? ""].filter((part) => part !== "").join(" ");
