// The published trees through the rows that a book keeps of its own: what is stored proves what is published.
import { DatabaseSync } from "node:sqlite";
import { describe, expect, test } from "vitest";
import { consistencyProof, EMPTY_TREE, inclusionProof, leafHash, type SubtreeHeads } from "../../src/core/record/index.ts";
import { statements } from "../../src/store/sqlite/facts.ts";
import { openTables } from "../../src/store/sqlite/tables.ts";
import { edgeAt, grownRows, rootAt, subtreeHeads } from "../../src/store/sqlite/tree-rows.ts";
import { goldenRow, nameOf } from "../cases/golden-rows.ts";
import { sha256 } from "./made-submissions.ts";

interface Leaves {
  readonly leaves_hex?: readonly string[];
  readonly leaf_pattern_ascii?: string;
  readonly leaf_pattern?: string;
  readonly count?: number;
  readonly tree_size?: number;
  readonly size_2?: number;
  readonly exchange_indexes?: readonly [number, number];
}

function leavesOf(inputs: Leaves): readonly Uint8Array[] {
  if (inputs.leaves_hex !== undefined) return inputs.leaves_hex.map((text) => Buffer.from(text, "hex"));
  const count = inputs.count ?? inputs.tree_size ?? inputs.size_2 ?? 0;
  const order = Array.from({ length: count }, (_, at) => at);
  const [one, other] = inputs.exchange_indexes ?? [0, 0];
  [order[one], order[other]] = [other, one];
  return order.map((at) => {
    if (inputs.leaf_pattern_ascii !== undefined) return Buffer.from(inputs.leaf_pattern_ascii.replace("<i>", String(at)));
    const bytes = Buffer.alloc(4);
    bytes.writeUInt32BE(at);
    return bytes;
  });
}

/** Rows as a book makes them, and how many of them are read afterwards. */
function kept(inputs: Leaves): { readonly size: number; readonly heads: SubtreeHeads; readonly reads: () => number } {
  const database = openTables(":memory:");
  if (!(database instanceof DatabaseSync)) throw new Error(JSON.stringify(database));
  database.exec("insert into book (book, id) values (1, 'made')");
  const [rows, prepared] = [{ database, book: 1 }, statements(database)];
  let edge = EMPTY_TREE;
  for (const leaf of leavesOf(inputs)) edge = grownRows(edge, leafHash(leaf, sha256), rows, prepared);
  expect(edgeAt(edge.size, subtreeHeads(rows, prepared))).toEqual(edge);
  let reads = 0;
  const stored = subtreeHeads(rows, prepared);
  const heads: SubtreeHeads = (first, level) => {
    reads += 1;
    return stored(first, level);
  };
  return { size: edge.size, heads, reads: () => reads };
}

const hex = (bytes: Uint8Array): string => Buffer.from(bytes).toString("hex");
const cases = (topic: string, ...numbers: readonly string[]) =>
  numbers.map((number) => [nameOf(`formats-g-merkle-${topic}-${number}`), goldenRow(`formats-g-merkle-${topic}-${number}`)] as const);

test.each([...cases("hash", "01"), ...cases("root", "01", "02", "03", "04", "05", "06", "07", "08", "09", "10")])(
  "%s",
  (_, { inputs, expected }) => {
    const { size, heads } = kept(inputs);
    expect(hex(rootAt(size, heads))).toBe(expected.root_hex);
  },
);

describe("proofs are read from the rows", () => {
  test.each(cases("inclusion", "01", "02", "03", "04", "05", "06", "07"))("%s", (_, { inputs, expected }) => {
    const { heads, reads } = kept(inputs);
    expect(inclusionProof(inputs.leaf_index, inputs.tree_size, heads, sha256).map(hex)).toEqual(expected.proof_hex);
    // As many rows as a proof has hashes, and the few of the tree's right edge.
    expect(reads()).toBeLessThanOrEqual(2 * Math.ceil(Math.log2(inputs.tree_size)));
  });

  test.each(cases("consistency", "01", "02", "03", "04"))("%s", (_, { inputs, expected }) => {
    const { heads } = kept(inputs);
    expect(consistencyProof(inputs.size_1, inputs.size_2, heads, sha256).map(hex)).toEqual(expected.proof_hex);
    expect([hex(rootAt(inputs.size_1, heads)), hex(rootAt(inputs.size_2, heads))]).toEqual([expected.root_1_hex, expected.root_2_hex]);
  });
});

test("a row that is not there is damage, not an empty tree", () => {
  const { heads } = kept({ leaves_hex: ["", "00"] });
  expect(() => rootAt(4, heads)).toThrow(/damaged/);
});
