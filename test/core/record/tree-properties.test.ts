// What must hold of every book: a proof that fits is believed, one that was touched anywhere is not.
import { createHash } from "node:crypto";
import fc from "fast-check";
import { expect, test } from "vitest";
import {
  canonicalJson,
  checkpointFrom,
  checkpointText,
  consistencyProof,
  DEEPEST,
  EMPTY_TREE,
  fromCanonicalJson,
  grown,
  growsFrom,
  holdsLeaf,
  inclusionProof,
  nodeHash,
  type SubtreeHeads,
  treeHead,
} from "../../../src/core/record/index.ts";

const sha256 = (bytes: Uint8Array): Uint8Array => new Uint8Array(createHash("sha256").update(bytes).digest());
const leaves = Array.from({ length: 70 }, (_, i) => sha256(Uint8Array.of(i)));
const heads: SubtreeHeads = (first, level) =>
  level === 0
    ? (leaves[first] as Uint8Array) // within the tree
    : nodeHash(heads(first, level - 1), heads(first + 2 ** (level - 1), level - 1), sha256);
const head = (size: number): Uint8Array =>
  treeHead(
    leaves.slice(0, size).reduce((edge, leaf) => grown(edge, leaf, sha256), EMPTY_TREE),
    sha256,
  );

/** The head by the definition of the text: split at the largest power of two below the size. */
function defined(all: readonly Uint8Array[]): Uint8Array {
  if (all.length === 0) return sha256(new Uint8Array(0));
  if (all.length === 1) return all[0] as Uint8Array; // one leaf
  let split = 1;
  while (split * 2 < all.length) split *= 2;
  return nodeHash(defined(all.slice(0, split)), defined(all.slice(split)), sha256);
}

const touched = (hash: Uint8Array): Uint8Array => Uint8Array.from(hash, (byte, at) => (at === 7 ? byte ^ 1 : byte));

test("a tree grown leaf by leaf has the head of its definition, at every size", () => {
  for (let size = 0; size <= leaves.length; size += 1) expect(head(size)).toEqual(defined(leaves.slice(0, size)));
});

test("every leaf of every tree is proven, and nothing that was touched is", () => {
  for (let size = 1; size <= 40; size += 1) {
    for (let index = 0; index < size; index += 1) {
      const proof = inclusionProof(index, size, heads, sha256);
      const claim = { index, size, leaf: leaves[index] as Uint8Array, proof, head: head(size) }; // index < size
      expect(holdsLeaf(claim, sha256)).toBe(true);
      expect(holdsLeaf({ ...claim, index: index + 1 }, sha256)).toBe(false);
      expect(holdsLeaf({ ...claim, leaf: touched(claim.leaf) }, sha256)).toBe(false);
      expect(holdsLeaf({ ...claim, proof: [...proof, claim.leaf] }, sha256)).toBe(false);
      for (const [at, one] of proof.entries()) expect(holdsLeaf({ ...claim, proof: proof.with(at, touched(one)) }, sha256)).toBe(false);
    }
  }
});

test("every tree grows from every earlier one, and from no other", () => {
  for (let size = 1; size <= 40; size += 1) {
    for (let earlier = 1; earlier <= size; earlier += 1) {
      const proof = consistencyProof(earlier, size, heads, sha256);
      const claim = { earlier, size, earlierHead: head(earlier), head: head(size), proof };
      expect(growsFrom(claim, sha256)).toBe(true);
      expect(growsFrom({ ...claim, earlierHead: touched(claim.earlierHead) }, sha256)).toBe(false);
      expect(growsFrom({ ...claim, head: touched(claim.head) }, sha256)).toBe(false);
      if (earlier > 1) expect(growsFrom({ ...claim, earlier: earlier - 1 }, sha256)).toBe(false);
      for (const [at, one] of proof.entries()) expect(growsFrom({ ...claim, proof: proof.with(at, touched(one)) }, sha256)).toBe(false);
    }
  }
});

test("property: what is written in canonical form is read back equal, and is the only text that is", () => {
  const value = fc.jsonValue({ maxDepth: 5 }).filter((one) => canonicalJson(one).ok);
  fc.assert(
    fc.property(value, (one) => {
      const text = canonicalJson(one);
      const back = text.ok ? fromCanonicalJson(text.value) : text;
      expect(back.ok && canonicalJson(back.value)).toEqual(text);
      if (text.ok) expect(fromCanonicalJson(` ${text.value}`).ok).toBe(false);
      expect(text.ok && JSON.parse(text.value)).toEqual(JSON.parse(JSON.stringify(one)));
    }),
  );
});

test.each([
  ["a date", { at: new Date(0) }, ["at"], "not a JSON value"],
  ["nothing", { a: undefined }, ["a"], "not a JSON value"],
  ["a hole in a list", Array(2), [0], "not a JSON value"],
  ["a big integer", [1n], [0], "not a JSON value"],
  ["half a pair in a name", { "\udc00": 1 }, ["\udc00"], "half of a surrogate pair"],
])("%s has no canonical form", (_, value, at, why) => {
  expect(canonicalJson(value)).toEqual({ ok: false, refusal: { type: "not-canonical", at, why } });
});

test("nesting has an end, for what is written and for what is read", () => {
  const nested = (depth: number): unknown => (depth === 0 ? 1 : [nested(depth - 1)]);
  expect(canonicalJson(nested(DEEPEST)).ok).toBe(true);
  expect(canonicalJson(nested(DEEPEST + 1))).toMatchObject({ refusal: { why: "nested too deep" } });
  expect(fromCanonicalJson("[".repeat(200_000)).ok).toBe(false);
});

test("property: a checkpoint is read back as it was written, and no other text of it is", () => {
  const origin = fc.string({ minLength: 1 }).filter((text) => !/[\n\r]/.test(text));
  fc.assert(
    fc.property(origin, fc.maxSafeNat(), fc.uint8Array({ minLength: 32, maxLength: 32 }), (name, size, root) => {
      const text = checkpointText({ origin: name, size, head: root });
      expect(text.ok && checkpointFrom(text.value)).toEqual({ ok: true, value: { origin: name, size, head: root } });
      expect(text.ok && checkpointFrom(text.value.replace(/=\n$/, "\n")).ok).toBe(false);
    }),
  );
});
