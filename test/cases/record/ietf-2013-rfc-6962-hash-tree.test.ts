// The hash tree of RFC 6962 section 2.1 (the same in RFC 9162), by published values of transparency-dev/merkle
// (Apache-2.0) and values computed from the text, and the checkpoint body of C2SP; each row names its own source.
import { createHash } from "node:crypto";
import { expect, test } from "vitest";
import {
  checkpointFrom,
  checkpointText,
  consistencyProof,
  EMPTY_TREE,
  grown,
  growsFrom,
  holdsLeaf,
  inclusionProof,
  leafHash,
  nodeHash,
  type SubtreeHeads,
  treeHead,
} from "../../../src/core/record/index.ts";
import { answerOf, type GoldenRow, goldenRow, nameOf } from "../golden-rows.ts";
import formats from "../goldens/formats.json" with { type: "json" };

const sha256 = (bytes: Uint8Array): Uint8Array => new Uint8Array(createHash("sha256").update(bytes).digest());
const hex = (bytes: Uint8Array): string => Buffer.from(bytes).toString("hex");
const unhex = (text: string): Uint8Array => new Uint8Array(Buffer.from(text, "hex"));
const rows = (topic: string) => formats.filter((row) => row.topic === topic).map(({ id }) => [nameOf(id), goldenRow(id)] as const);

function entriesOf({ inputs }: GoldenRow): readonly Uint8Array[] {
  if (inputs.leaves_hex !== undefined) return inputs.leaves_hex.map(unhex);
  const count = inputs.count ?? inputs.tree_size ?? inputs.size_2;
  const entries: Uint8Array[] = Array.from({ length: count }, (_, i) =>
    inputs.leaf_pattern === undefined ? new TextEncoder().encode(`event-${i}`) : Uint8Array.of(0, 0, i >> 8, i & 255),
  );
  const [first, second] = inputs.exchange_indexes ?? [];
  if (first !== undefined) [entries[first], entries[second]] = [entries[second] as Uint8Array, entries[first] as Uint8Array]; // both stand
  return entries;
}

const treeOf = (leaves: readonly Uint8Array[]) => leaves.reduce((edge, leaf) => grown(edge, leaf, sha256), EMPTY_TREE);
const headOf = (leaves: readonly Uint8Array[]): Uint8Array => treeHead(treeOf(leaves), sha256);
const leavesOf = (row: GoldenRow): Uint8Array[] => entriesOf(row).map((entry) => leafHash(entry, sha256));
const headsOf =
  (leaves: readonly Uint8Array[]): SubtreeHeads =>
  (first, level) =>
    level === 0
      ? (leaves[first] as Uint8Array) // a leaf of the tree
      : nodeHash(headsOf(leaves)(first, level - 1), headsOf(leaves)(first + 2 ** (level - 1), level - 1), sha256);

test.each(rows("merkle-hash"))("%s", (_, row) => {
  const { inputs, expected } = row;
  if (expected.root_hex !== undefined) return expect(hex(headOf([]))).toBe(expected.root_hex);
  const entry = inputs.leaf_ascii === undefined ? unhex(inputs.leaf_hex) : new TextEncoder().encode(inputs.leaf_ascii);
  expect(hex(leafHash(entry, sha256))).toBe(expected.leaf_hash_hex);
});

test.each(rows("merkle-root"))("%s", (_, row) => {
  expect(hex(headOf(leavesOf(row)))).toBe(row.expected.root_hex);
  expect(hex(headOf(leavesOf(row)))).not.toBe(row.expected.root_hex_must_not_equal);
});

test.each(rows("merkle-inclusion"))("%s", (_, row) => {
  const leaves = leavesOf(row);
  const { leaf_index: index, tree_size: size } = row.inputs;
  const proof = inclusionProof(index, size, headsOf(leaves), sha256);
  expect(proof.map(hex)).toEqual(row.expected.proof_hex);
  const leaf = leaves[index] as Uint8Array; // a leaf of the tree
  if (row.expected.leaf_hash_hex !== undefined) expect(hex(leaf)).toBe(row.expected.leaf_hash_hex);
  expect(holdsLeaf({ index, size, leaf, proof, head: headOf(leaves) }, sha256)).toBe(true);
});

test.each(rows("merkle-consistency"))("%s", (_, row) => {
  const leaves = leavesOf(row);
  const { size_1: earlier, size_2: size } = row.inputs;
  const proof = consistencyProof(earlier, size, headsOf(leaves), sha256);
  expect(proof.map(hex)).toEqual(row.expected.proof_hex);
  const [earlierHead, head] = [headOf(leaves.slice(0, earlier)), headOf(leaves)];
  expect([hex(earlierHead), hex(head)]).toEqual([row.expected.root_1_hex, row.expected.root_2_hex]);
  expect(growsFrom({ earlier, size, earlierHead, head, proof }, sha256)).toBe(true);
});

test.each(rows("merkle-reject"))("%s", (_, { inputs }) => {
  const proof = inputs.proof_hex.map(unhex);
  const verified =
    inputs.size_1 === undefined
      ? holdsLeaf(
          { index: inputs.leaf_index, size: inputs.tree_size, leaf: unhex(inputs.leaf_hash_hex), proof, head: unhex(inputs.root_hex) },
          sha256,
        )
      : growsFrom(
          { earlier: inputs.size_1, size: inputs.size_2, earlierHead: unhex(inputs.root_1_hex), head: unhex(inputs.root_2_hex), proof },
          sha256,
        );
  expect(verified).toBe(false);
});

test.each(rows("checkpoint"))("%s", (_, { inputs, expected }) => {
  const { origin, tree_size: size, root_hex: root } = { ...inputs, ...expected };
  const body = inputs.body ?? expected.body;
  expect(answerOf(checkpointText({ origin, size, head: unhex(root) }))).toBe(body);
  expect(answerOf(checkpointFrom(body))).toEqual({ origin, size, head: unhex(root) });
});
