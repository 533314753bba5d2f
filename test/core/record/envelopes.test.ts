import fc from "fast-check";
import { expect, test } from "vitest";
import {
  type Entry,
  entryBytes,
  openedPart,
  type Submission,
  sealedPart,
  submissionBytes,
  submissionFrom,
  textFromUtf8,
  utf8FromText,
} from "../../../src/core/record/index.ts";
import released from "../../cases/forms/envelopes.1.json" with { type: "json" };
import { answerOf } from "../../cases/golden-rows.ts";

const submission = JSON.parse(released.submission.text) as Submission; // a whole one, held by its own test
const entry = JSON.parse(released.entry.text) as Entry; // as above

test("UTF-8 is that of the platform, and nothing else is read back", () => {
  fc.assert(
    fc.property(fc.string({ unit: "binary" }), (text) => {
      const bytes = utf8FromText(text);
      expect(bytes).toEqual(new TextEncoder().encode(text));
      expect(textFromUtf8(bytes)).toBe(text);
    }),
  );
  fc.assert(
    fc.property(fc.uint8Array({ maxLength: 12 }), (bytes) => {
      const strict = strictText(bytes);
      expect(textFromUtf8(bytes)).toBe(strict);
    }),
    { numRuns: 2000 },
  );
});

function strictText(bytes: Uint8Array): string | null {
  try {
    return new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    return null; // the platform's way to say that it is not UTF-8
  }
}

test("any one byte of a submission that is touched is noticed: refused, or another submission", () => {
  const bytes = answerOf(submissionBytes(submission));
  for (let at = 0; at < bytes.length; at += 1) {
    const touched = bytes.slice();
    touched[at] = (touched[at] ?? 0) ^ 1;
    const read = submissionFrom(touched);
    if (read.ok) expect(read.value).not.toEqual(submission);
  }
});

const without = (name: keyof Submission): unknown => Object.fromEntries(Object.entries(submission).filter(([key]) => key !== name));

test.each(Object.keys(submission) as (keyof Submission)[])("a submission without %s is refused by name", (name) => {
  expect(submissionBytes(without(name) as Submission)).toMatchObject({ refusal: { type: "misformed", at: name, form: "there" } });
});

test.each<[string, Partial<Record<keyof Submission, unknown>>, object]>([
  ["an unknown member", { note: "x" } as object, { at: "note" }],
  ["an id of version 4", { id: "018f3c2a-7b11-4c3d-9e2f-1a2b3c4d5e6f" }, { at: "id" }],
  ["capitals in an id", { book: "5F0C9A52-3b1e-4d6a-8f57-0c2d4e6a8b10" }, { at: "book" }],
  ["sequence nought", { sequence: 0 }, { at: "sequence" }],
  ["a broken sequence", { sequence: 1.5 }, { at: "sequence" }],
  ["a later one without the one before", { previous: null }, { type: "chain-start" }],
  ["a first one with one before it", { sequence: 1 }, { type: "chain-start" }],
  ["a kind in words", { kind: "Gas tested" }, { at: "kind" }],
  ["an instant without milliseconds", { recorded: "2026-03-04T07:31:02Z" }, { at: "recorded" }],
  ["a day that does not exist", { recorded: "2026-02-30T07:31:02.000Z" }, { at: "recorded" }],
  ["a time that ends first", { happened: { ...submission.happened, latest: "2026-03-04T07:29:59.999Z" } }, { type: "happened-backwards" }],
  ["subjects out of order", { subjects: [...submission.subjects].reverse() }, { at: "subjects[1]" }],
  ["a subject twice", { subjects: [submission.subjects[0], submission.subjects[0]] }, { at: "subjects[1]" }],
  ["grounds twice", { restsOn: [submission.restsOn[0], submission.restsOn[0]] }, { at: "restsOn[1]" }],
  ["too many grounds", { restsOn: Array.from({ length: 257 }, () => submission.id) }, { at: "restsOn" }],
  ["a digest without its algorithm", { body: submission.body.slice(7) }, { at: "body" }],
  ["a digest in capitals", { body: submission.body.toUpperCase() }, { at: "body" }],
  ["a head of negative size", { head: { size: -1, root: submission.body } }, { at: "head.size" }],
  ["another envelope", { submission: 2 }, { at: "submission" }],
])("%s is refused", (_, change, refusal) => {
  expect(submissionBytes({ ...submission, ...change } as Submission)).toMatchObject({ ok: false, refusal });
});

test.each<[string, Partial<Record<keyof Entry, unknown>>, object]>([
  ["number nought", { number: 0 }, { at: "number" }],
  ["an offset turned round", { clockOffset: { lowest: 1, highest: 0 } }, { type: "offset-backwards" }],
  ["a part of a millisecond", { clockOffset: { lowest: 0.5, highest: 1 } }, { at: "clockOffset.lowest" }],
])("an entry with %s is refused", (_, change, refusal) => {
  expect(entryBytes({ ...entry, ...change } as Entry)).toMatchObject({ ok: false, refusal });
});

test("a sealed part comes back as it went in, whatever it holds", () => {
  fc.assert(
    fc.property(fc.jsonValue({ maxDepth: 5 }), fc.uint8Array({ minLength: 16, maxLength: 16 }), (value, salt) => {
      const sealed = sealedPart(value, salt);
      if (!sealed.ok) return; // halves of surrogate pairs and vast whole numbers have no canonical text
      expect(answerOf(openedPart(sealed.value))).toEqual(JSON.parse(JSON.stringify(value)));
      expect(sealed.value.slice(0, 16)).toEqual(salt);
    }),
  );
});
