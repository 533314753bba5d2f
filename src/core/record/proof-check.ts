/** Checking of proofs: needs nothing but the proof, two heads, and SHA-256. A proof with anything left over fails. */
import { nodeHash, type Sha256 } from "./hash-tree.ts";

export interface Inclusion {
  readonly index: number;
  readonly size: number;
  readonly leaf: Uint8Array;
  readonly proof: readonly Uint8Array[];
  readonly head: Uint8Array;
}

const HASH_BYTES = 32;

/**
 * Whether a leaf stands at an index of the tree with this head. False for sizes and indices that are no whole numbers
 * in range, and for hashes that are not of 32 bytes.
 *
 * @example
 * ```ts
 * import { holdsLeaf } from "./proof-check.ts";
 * const leaf = new Uint8Array(32);
 * holdsLeaf({ index: 0, size: 1, leaf, proof: [], head: leaf }, (bytes) => bytes); // => true
 * holdsLeaf({ index: 0, size: 2, leaf, proof: [], head: leaf }, (bytes) => bytes); // => false
 * ```
 * Source: RFC 9162 section 2.1.3.2 [read].
 */
export function holdsLeaf({ index, size, leaf, proof, head }: Inclusion, sha256: Sha256): boolean {
  if (!isSize(size) || !isSize(index) || index >= size || [leaf, head, ...proof].some((hash) => hash.length !== HASH_BYTES)) return false;
  let place = index;
  let last = size - 1;
  let found = leaf;
  for (const beside of proof) {
    if (last === 0) return false;
    if (place % 2 === 1 || place === last) {
      found = nodeHash(beside, found, sha256);
      // At the right edge of the tree the levels without a neighbour are passed over.
      while (place % 2 === 0 && place !== 0) [place, last] = [half(place), half(last)];
    } else found = nodeHash(found, beside, sha256);
    [place, last] = [half(place), half(last)];
  }
  return last === 0 && sameBytes(found, head);
}

export interface Consistency {
  readonly earlier: number;
  readonly size: number;
  readonly earlierHead: Uint8Array;
  readonly head: Uint8Array;
  readonly proof: readonly Uint8Array[];
}

/**
 * Whether a tree begins with an earlier one: nothing of that was changed, taken out or put in between. Trees of equal size
 * need equal heads and an empty proof; the empty tree begins every tree, and needs an empty proof.
 *
 * @example
 * ```ts
 * import { growsFrom } from "./proof-check.ts";
 * const head = new Uint8Array(32);
 * growsFrom({ earlier: 5, size: 5, earlierHead: head, head, proof: [] }, (bytes) => bytes); // => true
 * growsFrom({ earlier: 5, size: 4, earlierHead: head, head, proof: [] }, (bytes) => bytes); // => false
 * ```
 * Source: RFC 9162 section 2.1.4.2 [read]; equal sizes and the empty tree: ours.
 */
export function growsFrom({ earlier, size, earlierHead, head, proof }: Consistency, sha256: Sha256): boolean {
  if (!isSize(earlier) || !isSize(size) || earlier > size) return false;
  if ([earlierHead, head, ...proof].some((hash) => hash.length !== HASH_BYTES)) return false;
  if (earlier === size) return proof.length === 0 && sameBytes(earlierHead, head);
  if (earlier === 0) return proof.length === 0 && sameBytes(earlierHead, sha256(new Uint8Array(0)));
  // A whole tree is its own first subtree, and is not told again.
  const path = Number.isInteger(Math.log2(earlier)) ? [earlierHead, ...proof] : proof;
  return joinsBoth(path, { earlier, size, earlierHead, head }, sha256);
}

function joinsBoth(path: readonly Uint8Array[], tree: Omit<Consistency, "proof">, sha256: Sha256): boolean {
  const [first, ...rest] = path;
  if (first === undefined) return false;
  let [place, last] = [tree.earlier - 1, tree.size - 1];
  while (place % 2 === 1) [place, last] = [half(place), half(last)];
  let [old, now] = [first, first];
  for (const beside of rest) {
    if (last === 0) return false;
    if (place % 2 === 1 || place === last) {
      old = nodeHash(beside, old, sha256);
      now = nodeHash(beside, now, sha256);
      while (place % 2 === 0 && place !== 0) [place, last] = [half(place), half(last)];
    } else now = nodeHash(now, beside, sha256);
    [place, last] = [half(place), half(last)];
  }
  return last === 0 && sameBytes(old, tree.earlierHead) && sameBytes(now, tree.head);
}

const half = (value: number): number => Math.floor(value / 2);

const isSize = (value: number): boolean => Number.isSafeInteger(value) && value >= 0;

/** Hashes of public things: how long the comparison takes tells nobody anything. */
const sameBytes = (first: Uint8Array, second: Uint8Array): boolean =>
  first.length === second.length && first.every((byte, at) => byte === second[at]);
