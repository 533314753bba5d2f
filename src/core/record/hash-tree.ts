/** The tree over the entries of a book: its head changes as soon as any entry does, or their order. */

/** SHA-256 of some bytes, handed in: 32 bytes. */
export type Sha256 = (bytes: Uint8Array) => Uint8Array;

const LEAF = 0x00;
const NODE = 0x01;

/**
 * Hash of a leaf: SHA-256(0x00 || entry). The prefix keeps a leaf from passing for a node. Source: RFC 6962 section 2.1
 * [read], the same in RFC 9162. Never refuses.
 */
export const leafHash = (entry: Uint8Array, sha256: Sha256): Uint8Array => sha256(joinedBytes(LEAF, entry));

/** Hash of a node: SHA-256(0x01 || left || right). Source: as `leafHash`. Never refuses. */
export const nodeHash = (left: Uint8Array, right: Uint8Array, sha256: Sha256): Uint8Array => sha256(joinedBytes(NODE, left, right));

function joinedBytes(first: number, ...parts: readonly Uint8Array[]): Uint8Array {
  const all = new Uint8Array(1 + parts.reduce((sum, part) => sum + part.length, 0));
  all[0] = first;
  let at = 1;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return all;
}

/**
 * What must be kept of a tree to go on with it: the heads of its whole subtrees, the largest first, one for each set bit
 * of the size.
 */
export interface TreeEdge {
  readonly size: number;
  readonly peaks: readonly Uint8Array[];
}

export const EMPTY_TREE: TreeEdge = { size: 0, peaks: [] };

/**
 * The tree with one more leaf, from its edge alone: at most log2(size) hashes.
 *
 * @param edge of the tree so far; size below 2^53
 * @param leaf hash of the new leaf
 * @example
 * ```ts
 * import { EMPTY_TREE, grown, leafHash, treeHead } from "./hash-tree.ts";
 * // Stands in for SHA-256: the sum of all bytes.
 * const sum = (bytes: Uint8Array) => Uint8Array.of(bytes.reduce((total, byte) => total + byte, 0));
 * const leaves = [Uint8Array.of(3), Uint8Array.of(4), Uint8Array.of(5)].map((entry) => leafHash(entry, sum));
 * const tree = leaves.reduce((edge, leaf) => grown(edge, leaf, sum), EMPTY_TREE);
 * [tree.size, tree.peaks.length, ...treeHead(tree, sum)]; // => [3, 2, 14]
 * ```
 * Source: RFC 6962 section 2.1 [read] for the head; growing by the edge follows from it. Never refuses.
 */
export function grown(edge: TreeEdge, leaf: Uint8Array, sha256: Sha256): TreeEdge {
  const peaks = [...edge.peaks];
  let head = leaf;
  // Each one at the low end of the size is a whole subtree as large as the one just made.
  for (let rest = edge.size; rest % 2 === 1; rest = (rest - 1) / 2) head = nodeHash(peaks.pop() ?? head, head, sha256);
  peaks.push(head);
  return { size: edge.size + 1, peaks };
}

/**
 * Head of a tree (its root hash), 32 bytes; of the empty tree SHA-256 of nothing.
 *
 * @example
 * ```ts
 * import { treeHead } from "./hash-tree.ts";
 * // Stands in for SHA-256: the sum of all bytes.
 * const sum = (bytes: Uint8Array) => Uint8Array.of(bytes.reduce((total, byte) => total + byte, 0));
 * [...treeHead({ size: 3, peaks: [Uint8Array.of(8), Uint8Array.of(5)] }, sum)]; // => [14]
 * ```
 * Source: RFC 6962 section 2.1 [read]. Never refuses.
 */
export function treeHead({ peaks }: TreeEdge, sha256: Sha256): Uint8Array {
  const last = peaks.at(-1);
  if (last === undefined) return sha256(new Uint8Array(0));
  return peaks.slice(0, -1).reduceRight((head, peak) => nodeHash(peak, head, sha256), last);
}

/** Reads the head of the whole subtree that starts at a leaf and holds 2^level of them. */
export type SubtreeHeads = (firstLeaf: number, level: number) => Uint8Array;

/** Head of any stretch of leaves that a proof names: whole subtrees are read, the rest is put together. */
function headOf(from: number, to: number, heads: SubtreeHeads, sha256: Sha256): Uint8Array {
  const size = to - from;
  const split = splitOf(size);
  if (size === 1 || split * 2 === size) return heads(from, Math.log2(size));
  return nodeHash(headOf(from, from + split, heads, sha256), headOf(from + split, to, heads, sha256), sha256);
}

/** The largest power of two below a size of two and more; 1 for one. */
function splitOf(size: number): number {
  let split = 1;
  while (split * 2 < size) split *= 2;
  return split;
}

/**
 * Proof that a leaf stands at an index of a tree: the heads beside its path, from the leaf up.
 *
 * @param index 0 to size - 1
 * @param size leaves of the tree
 * @param heads heads of whole subtrees, by first leaf and level
 * @example
 * ```ts
 * import { inclusionProof } from "./hash-tree.ts";
 * // Stands in for SHA-256: the sum of all bytes.
 * const sum = (bytes: Uint8Array) => Uint8Array.of(bytes.reduce((total, byte) => total + byte, 0));
 * const heads = (firstLeaf: number, level: number) => Uint8Array.of(10 * firstLeaf + level);
 * inclusionProof(1, 3, heads, sum).map(([byte]) => byte); // => [0, 20]
 * ```
 * Source: RFC 9162 section 2.1.3.1 [read]. Never refuses: an index outside of the tree has no proof (empty).
 */
export function inclusionProof(index: number, size: number, heads: SubtreeHeads, sha256: Sha256): readonly Uint8Array[] {
  if (!(index >= 0 && index < size)) return [];
  const path: Uint8Array[] = [];
  let [from, to] = [0, size];
  while (to - from > 1) {
    const middle = from + splitOf(to - from);
    const isLeft = index < middle;
    path.push(isLeft ? headOf(middle, to, heads, sha256) : headOf(from, middle, heads, sha256));
    if (isLeft) to = middle;
    else from = middle;
  }
  return path.reverse();
}

/**
 * Proof that a tree of `size` leaves begins with the one of `earlier` leaves.
 *
 * @example
 * ```ts
 * import { consistencyProof } from "./hash-tree.ts";
 * // Stands in for SHA-256: the sum of all bytes.
 * const sum = (bytes: Uint8Array) => Uint8Array.of(bytes.reduce((total, byte) => total + byte, 0));
 * const heads = (firstLeaf: number, level: number) => Uint8Array.of(10 * firstLeaf + level);
 * consistencyProof(2, 3, heads, sum).map(([byte]) => byte); // => [20]
 * consistencyProof(3, 3, heads, sum); // => []
 * ```
 * Source: RFC 9162 section 2.1.4.1 [read]. Never refuses: sizes that are equal, or that do not follow, have an empty proof.
 */
export function consistencyProof(earlier: number, size: number, heads: SubtreeHeads, sha256: Sha256): readonly Uint8Array[] {
  if (!(earlier > 0 && earlier < size)) return [];
  const path: Uint8Array[] = [];
  let [from, to] = [0, size];
  let isWhole = true;
  while (earlier !== to) {
    const middle = from + splitOf(to - from);
    const isLeft = earlier <= middle;
    path.push(isLeft ? headOf(middle, to, heads, sha256) : headOf(from, middle, heads, sha256));
    if (isLeft) to = middle;
    else {
      from = middle;
      isWhole = false;
    }
  }
  // The earlier tree itself is known to whoever asks; only a part of it must be told.
  if (!isWhole) path.push(headOf(from, to, heads, sha256));
  return path.reverse();
}
