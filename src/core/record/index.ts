/** The bytes of the book: canonical text, the tree over entries, proofs, and the head as text. */
export { canonicalJson, DEEPEST, doubleText, fromCanonicalJson, type Json, type NotCanonical } from "./canonical-json.ts";
export { type Checkpoint, checkpointFrom, checkpointText, type NotACheckpoint } from "./checkpoint.ts";
export {
  consistencyProof,
  EMPTY_TREE,
  grown,
  inclusionProof,
  leafHash,
  nodeHash,
  type Sha256,
  type SubtreeHeads,
  type TreeEdge,
  treeHead,
} from "./hash-tree.ts";
export { type Consistency, growsFrom, holdsLeaf, type Inclusion } from "./proof-check.ts";
