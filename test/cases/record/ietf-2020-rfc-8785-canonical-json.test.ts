// RFC 8785 (JSON Canonicalization Scheme, 2020) and I-JSON (RFC 7493), by the published pairs of
// cyberphone/json-canonicalization (Apache-2.0) and values computed from the text; each row names its own source.
import { createHash } from "node:crypto";
import { expect, test } from "vitest";
import { canonicalJson, doubleText, fromCanonicalJson, leafHash } from "../../../src/core/record/index.ts";
import { answerOf, goldenRow, nameOf } from "../golden-rows.ts";
import formats from "../goldens/formats.json" with { type: "json" };
import numbers from "../goldens/rfc-8785-number-bits.json" with { type: "json" };

const sha256 = (bytes: Uint8Array): Uint8Array => new Uint8Array(createHash("sha256").update(bytes).digest());
const hex = (bytes: Uint8Array): string => Buffer.from(bytes).toString("hex");
const ids = (topic: string): string[] => formats.filter((row) => row.topic === topic).map(({ id }) => id);

test.each(ids("jcs").map((id) => [nameOf(id), goldenRow(id)] as const))("%s", (_, { inputs, expected }) => {
  const text = answerOf(canonicalJson(JSON.parse(inputs.json_text)));
  expect(text).toBe(expected.canonical_text);
  const bytes = new TextEncoder().encode(text);
  expect(hex(sha256(bytes))).toBe(expected.sha256_hex);
  if (expected.utf8_bytes !== undefined) expect(bytes.length).toBe(expected.utf8_bytes);
  if (expected.merkle_leaf_hash_hex !== undefined) expect(hex(leafHash(bytes, sha256))).toBe(expected.merkle_leaf_hash_hex);
  expect(answerOf(fromCanonicalJson(text))).toEqual(JSON.parse(text));
});

const double = (bits: string): number => Buffer.from(bits, "hex").readDoubleBE();

test(nameOf("formats-g-jcs-number-01"), () => {
  const { inputs, expected } = goldenRow("formats-g-jcs-number-01");
  expect(inputs.ieee754_hex.map((bits: string) => doubleText(double(bits)))).toEqual(expected.text);
});

// After the doubles of the list the series goes on with the smallest normal double and those after it, bit by bit.
test(nameOf("formats-g-jcs-number-02"), () => {
  const { inputs, expected } = goldenRow("formats-g-jcs-number-02");
  const after = Array.from({ length: inputs.lines - numbers.bits.length }, (_, step) => (0x0010000000000000n + BigInt(step)).toString(16));
  const lines = [...numbers.bits, ...after.map((bits) => bits.padStart(16, "0"))].map((bits) => {
    return `${BigInt(`0x${bits}`).toString(16)},${doubleText(double(bits))}\n`;
  });
  const bytes = new TextEncoder().encode(lines.join(""));
  expect([lines.length, bytes.length, hex(sha256(bytes))]).toEqual([inputs.lines, expected.size_bytes, expected.sha256_hex]);
});

test(nameOf("formats-g-jcs-reject-01"), () => {
  for (const value of [Number.NaN, Number.POSITIVE_INFINITY, { a: "\ud800" }]) expect(canonicalJson(value).ok).toBe(false);
  expect(fromCanonicalJson('{"a":1,"a":1}').ok).toBe(false);
});

test(nameOf("formats-g-jcs-reject-02"), () => {
  const { inputs } = goldenRow("formats-g-jcs-reject-02");
  expect(canonicalJson(JSON.parse(inputs.json_text))).toMatchObject({ refusal: { at: ["seq"], why: "whole number beyond 2^53" } });
  expect(fromCanonicalJson(inputs.json_text).ok).toBe(false);
  expect(answerOf(canonicalJson({ seq: "9007199254740993" }))).toBe('{"seq":"9007199254740993"}');
});
