/**
 * The book as a thing that remembers: what every keeper of it (SQLite in a folder, a shared database) must do. The bytes
 * are those of core/record; here nothing is computed but numbers, hashes and order.
 */
import type { Digest, Entry, Submission } from "../core/record/index.ts";
import type { Result } from "../core/result.ts";

/** What a device hands over: bytes as `submissionBytes` and `sealedPart` made them. */
export interface Offered {
  readonly submission: Uint8Array;
  readonly body: Uint8Array;
  readonly private: Uint8Array | null;
  /** How far the device's clock was ahead of this machine's, as the exchange could tell; null where nobody measured. */
  readonly clockOffset: Entry["clockOffset"];
}

/** What the book has of one number. */
export interface KeptEntry {
  readonly number: number;
  readonly entry: Entry;
  readonly submission: Submission;
  /** Null where the part was disposed of: its digest stays in the submission. */
  readonly body: Uint8Array | null;
  readonly private: Uint8Array | null;
  /** Bytes that the digests are about, as they are kept. */
  readonly bytes: { readonly entry: Uint8Array; readonly submission: Uint8Array };
}

/** Things about a device's chain that a person must hear of; the entry is kept all the same. */
export type Remark =
  /** Submissions of this device before it are not here (yet). */
  | { readonly type: "hole-before"; readonly from: number; readonly to: number }
  /** Another submission of this device has the same sequence, or its `previous` is not the one that is here. */
  | { readonly type: "chain-forks"; readonly sequence: number; readonly other: number }
  /** The device knew a head that this book never had: this book, or that device, goes back to an older copy. */
  | { readonly type: "unknown-head"; readonly size: number };

export type Answer =
  | { readonly type: "taken"; readonly number: number; readonly remarks: readonly Remark[] }
  /** The same id with the same bytes is here already. */
  | { readonly type: "exists"; readonly number: number }
  /** The same id with other bytes is here: that one is untouched, these bytes are kept aside and shown. */
  | { readonly type: "conflict"; readonly number: number };

/** Why nothing of a call was taken; what was offered stays with whoever offered it. */
export type AppendRefusal =
  /** Bytes that are no submission, or parts that are not those it names: damaged on the way. `at` counts from 0. */
  | { readonly type: "damaged"; readonly at: number; readonly part: "submission" | "body" | "private"; readonly why: string }
  | { readonly type: "other-book"; readonly at: number; readonly book: string }
  /** A file that the body names is not here: it must be durable before the entry that names it. */
  | { readonly type: "file-missing"; readonly at: number; readonly file: Digest }
  /** Since the facts were read somebody wrote about this subject: read anew and ask again. */
  | { readonly type: "stale"; readonly subject: string; readonly newest: number }
  /** A request that was judged and not granted: by `decide`, with its reason as a code and what would mend it. */
  | { readonly type: "not-granted"; readonly reason: string; readonly detail: string }
  /** The book was opened smaller than, or at odds with, a head it is known to have had: a person must say why first. */
  | { readonly type: "held"; readonly why: "smaller" | "at-odds"; readonly known: number; readonly found: number }
  /** Others have been writing all the time: nothing was taken, and may be offered again. */
  | { readonly type: "busy"; readonly seconds: number }
  /** The disk failed while writing. Nothing more is written until the book is opened and checked again. */
  | { readonly type: "disk-failed"; readonly what: string };

export type Decision = { readonly type: "granted" } | { readonly type: "not-granted"; readonly reason: string; readonly detail: string };

/** A row that can be made again from the book. Never believed: read with `edition` and checksum, or not at all. */
export interface DerivedRow {
  readonly name: string;
  readonly key: string;
  /** Rises whenever what is derived changes its meaning or form. */
  readonly edition: number;
  readonly bytes: Uint8Array;
}

export interface KeptDerived extends DerivedRow {
  /** Number of the newest entry that was counted. */
  readonly head: number;
}

export interface AboutQuery {
  /** Newest number that counts; absent = all there is. */
  readonly upTo?: number;
  /** Only these kinds; absent = all. */
  readonly kinds?: readonly string[];
  readonly limit?: number;
}

/** What can be read of the book; one reader sees one state of it from its first call to its last. */
export interface Facts {
  /** Entries so far; the newest number. */
  readonly size: () => Promise<number>;
  readonly entry: (number: number) => Promise<KeptEntry | null>;
  readonly byId: (submission: string) => Promise<KeptEntry | null>;
  /** Entries about a subject (or `by` a person), the newest number first. */
  readonly about: (subject: string, query?: AboutQuery) => Promise<readonly KeptEntry[]>;
  /** Number of the newest entry about a subject; 0 where there is none. */
  readonly newestAbout: (subject: string) => Promise<number>;
  /** Entries that name a submission among what they rest on, rising. */
  readonly restingOn: (submission: string) => Promise<readonly number[]>;
  /** Null where it is not there, damaged, or of another edition. */
  readonly derived: (name: string, key: string, edition: number) => Promise<KeptDerived | null>;
}

export interface Terms {
  /** Subjects whose newest entry must still be this number. */
  readonly expect?: readonly { readonly subject: string; readonly newest: number }[];
  /** Judges requests on facts that nobody can change meanwhile. May await nothing but its facts. */
  readonly decide?: (offered: readonly Submission[], facts: Facts) => Promise<Decision>;
  /** Rows to be kept with the entries, in the same commit. May await nothing but its facts. */
  readonly derive?: (taken: readonly KeptEntry[], facts: Facts) => Promise<readonly DerivedRow[]>;
}

/** What is missing or twice in the chains of the devices. */
export interface ChainFault {
  readonly device: string;
  readonly remark: Remark;
  /** Entry that showed it. */
  readonly number: number;
}

export interface SignedTree {
  readonly size: number;
  readonly root: Uint8Array;
  /** Three lines and the signature (core/record signedHead). */
  readonly note: string;
}

export interface Ledger extends Facts {
  readonly book: string;
  /**
   * Takes submissions in, all in one commit, and answers once they are durable: locks the head, drops repeats, checks
   * `expect` and `decide` on fresh facts, numbers, hashes, grows and signs the tree, writes subject rows, rests-on edges
   * and derived rows. A refusal means that nothing of this call was taken.
   */
  readonly append: (offered: readonly Offered[], terms?: Terms) => Promise<Result<readonly Answer[], AppendRefusal>>;
  /** Entries in rising order of number, both ends included; a false answer stops the walk. */
  readonly walk: (from: number, to: number, piece: (kept: KeptEntry) => boolean) => Promise<void>;
  /** One state of the book for several reads. */
  readonly reading: <Found>(read: (facts: Facts) => Promise<Found>) => Promise<Found>;
  readonly head: () => Promise<SignedTree>;
  /** Proof that a number stands in the tree of a size, as heads from the leaf up (RFC 9162 section 2.1.3). */
  readonly inclusion: (number: number, size: number) => Promise<readonly Uint8Array[]>;
  /** Proof that the tree of a size begins with an earlier one (RFC 9162 section 2.1.4). */
  readonly consistency: (earlier: number, size: number) => Promise<readonly Uint8Array[]>;
  readonly chainFaults: () => Promise<readonly ChainFault[]>;
  /** Bytes offered under an id that was taken already. */
  readonly conflicts: () => Promise<readonly { readonly number: number; readonly received: string; readonly submission: Uint8Array }[]>;
  readonly keepDerived: (rows: readonly KeptDerived[]) => Promise<void>;
  /** Deletes the bytes of parts that an entry of kind `disposed` names; the digests stay. Refuses nothing: says what it deleted. */
  readonly dispose: (parts: readonly { readonly number: number; readonly part: "body" | "private" }[]) => Promise<number>;
  /** A person has recorded why the book is smaller than, or at odds with, what was known: writing goes on. */
  readonly goOn: () => Promise<void>;
  readonly close: () => Promise<void>;
}

/** Signs heads; the private key is outside of the folder that is kept and backed up. */
export interface HeadSigner {
  readonly key: { readonly name: string; readonly publicKey: Uint8Array };
  readonly sign: (message: Uint8Array) => Uint8Array;
}

/** What keeps the newest head that was handed out, beside the key: it tells when a folder was put back to an older copy. */
export interface KnownHead {
  readonly read: () => Promise<string | null>;
  readonly write: (note: string) => Promise<void>;
}
