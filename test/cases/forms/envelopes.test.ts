// The envelopes as released: bytes made by another program, which must be read, and written, for good.
import { createHash } from "node:crypto";
import { expect, test } from "vitest";
import {
  digestOf,
  entryBytes,
  entryFrom,
  leafHash,
  openedPart,
  sealedPart,
  submissionBytes,
  submissionFrom,
  utf8FromText,
} from "../../../src/core/record/index.ts";
import { answerOf } from "../golden-rows.ts";
import released from "./envelopes.1.json" with { type: "json" };

const sha256 = (bytes: Uint8Array): Uint8Array => new Uint8Array(createHash("sha256").update(bytes).digest());
const bytesOf = (hex: string): Uint8Array => new Uint8Array(Buffer.from(hex, "hex"));

test.each(["body", "private"] as const)("form 1: the sealed %s", (part) => {
  const { saltHex, text, digest } = released[part];
  const sealed = answerOf(sealedPart(JSON.parse(text), bytesOf(saltHex)));
  expect(digestOf(sealed, sha256)).toBe(digest);
  expect(answerOf(openedPart(sealed))).toEqual(JSON.parse(text));
});

test("form 1: the submission", () => {
  const bytes = utf8FromText(released.submission.text);
  expect(digestOf(bytes, sha256)).toBe(released.submission.digest);
  const submission = answerOf(submissionFrom(bytes));
  expect(answerOf(submissionBytes(submission))).toEqual(bytes);
  expect([submission.body, submission.private]).toEqual([released.body.digest, released.private.digest]);
});

test("form 1: the entry and its leaf", () => {
  const bytes = utf8FromText(released.entry.text);
  expect(digestOf(bytes, sha256)).toBe(released.entry.digest);
  const entry = answerOf(entryFrom(bytes));
  expect(answerOf(entryBytes(entry))).toEqual(bytes);
  expect(entry.submission).toBe(released.submission.digest);
  expect(Buffer.from(leafHash(bytes, sha256)).toString("hex")).toBe(released.entry.leafHashHex);
});
