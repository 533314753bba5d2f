/** The tree over the entries, kept as rows: every whole subtree once, so that a proof reads as many rows as it has hashes. */
import { nodeHash, type SubtreeHeads, type TreeEdge, treeHead } from "../../core/record/index.ts";
import type { Rows } from "./facts.ts";
import { DamagedRows } from "./faults.ts";
import { sha256 } from "./hash.ts";

type Prepared = (sql: string) => ReturnType<Rows["database"]["prepare"]>;

/** Reads the head of a whole subtree. A row that is not there is damage. */
export function subtreeHeads({ book }: Rows, prepared: Prepared): SubtreeHeads {
  return (firstLeaf, level) => {
    const row = prepared("select hash from node where book = ? and level = ? and position = ?").get(book, level, firstLeaf / 2 ** level);
    if (row === undefined) throw new DamagedRows(`the tree has no node of level ${level} at entry ${firstLeaf + 1}: its rows are damaged`);
    return row["hash"] as Uint8Array; // a blob column, never null
  };
}

/** What is needed to go on with a tree of a size. */
export function edgeAt(size: number, heads: SubtreeHeads): TreeEdge {
  const peaks: Uint8Array[] = [];
  let from = 0;
  for (let level = Math.floor(Math.log2(Math.max(size, 1))); level >= 0; level -= 1) {
    const width = 2 ** level;
    if (Math.floor(size / width) % 2 === 1) {
      peaks.push(heads(from, level));
      from += width;
    }
  }
  return { size, peaks };
}

/** Head that the book had at a size up to its own. */
export const rootAt = (size: number, heads: SubtreeHeads): Uint8Array => treeHead(edgeAt(size, heads), sha256);

/** Adds a leaf and every subtree that it makes whole. */
export function grownRows(edge: TreeEdge, leaf: Uint8Array, { book }: Rows, prepared: Prepared): TreeEdge {
  const insert = prepared("insert into node (book, level, position, hash) values (?, ?, ?, ?)");
  const peaks = [...edge.peaks];
  let [hash, level, position] = [leaf, 0, edge.size];
  insert.run(book, level, position, hash);
  while (position % 2 === 1) {
    hash = nodeHash(peaks.pop() ?? hash, hash, sha256);
    level += 1;
    position = (position - 1) / 2;
    insert.run(book, level, position, hash);
  }
  return { size: edge.size + 1, peaks: [...peaks, hash] };
}
