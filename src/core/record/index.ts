/** The bytes of the book: canonical text, submissions and entries, sealed parts, the tree over entries, proofs, signed heads. */
export { base64, fromBase64 } from "./base64.ts";
export { canonicalJson, DEEPEST, doubleText, fromCanonicalJson, type Json, type NotCanonical } from "./canonical-json.ts";
export { type Checkpoint, checkpointFrom, checkpointText, type NotACheckpoint } from "./checkpoint.ts";
export { type Digest, digestFromHash, digestOf, hashFromDigest, isDigest } from "./digest.ts";
export { type Entry, entryBytes, entryFrom, type NotAnEntry } from "./entry.ts";
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
export type { Misformed } from "./members.ts";
export { fromOpenLine, type LineBytes, type NotALine, OPEN_FORM, openLine } from "./open-line.ts";
export { type Consistency, growsFrom, holdsLeaf, type Inclusion } from "./proof-check.ts";
export { type ChainPlace, type NotSayable, type SaidBytes, type Speech, saidSubmission } from "./said-submission.ts";
export { type NotASealedPart, openedPart, SALT_BYTES, sealedPart } from "./sealed-part.ts";
export {
  type HeadKey,
  isSignedBy,
  keyFingerprint,
  keyFrom,
  keyText,
  type NotAKey,
  type NotASignedHead,
  type ReadHead,
  readSignedHead,
  type Signature,
  signedHead,
  signedMessage,
  type VerifyEd25519,
} from "./signed-head.ts";
export { type Happened, type NotASubmission, type Subject, type Submission, submissionBytes, submissionFrom } from "./submission.ts";
export { textFromUtf8, utf8FromText } from "./utf8.ts";
export { instantFromWritten, type WrittenInstant, writtenInstant } from "./written-instant.ts";
