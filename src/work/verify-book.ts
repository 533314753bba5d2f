/** Checks a whole book against itself and a public key: which entry is wrong, if one is. It needs nothing else. */
import {
  type Digest,
  digestOf,
  EMPTY_TREE,
  entryFrom,
  grown,
  isSignedBy,
  keyFrom,
  leafHash,
  openedPart,
  readSignedHead,
  type Sha256,
  type Submission,
  submissionFrom,
  type TreeEdge,
  treeHead,
  type VerifyEd25519,
} from "../core/record/index.ts";
import type { RawBook, RawEntry } from "../store/raw-book.ts";
import { type ChainRemark, DeviceSequences } from "./device-sequences.ts";

/** What is checked; named here for the doors. */
export type BookInFolder = RawBook;

export interface VerifyTools {
  readonly sha256: Sha256;
  readonly verify: VerifyEd25519;
  /** Told of each entry; false stops. */
  readonly progress: (done: number) => boolean;
}

export type BookFault =
  | "entry-unreadable"
  | "entry-changed"
  | "number-out-of-order"
  | "other-book"
  | "submission-unreadable"
  | "submission-changed"
  | "body-changed"
  | "private-changed"
  | "body-missing"
  | "private-missing"
  | "not-found-by-its-rows"
  | "stray-rows"
  | "rest-unreadable"
  | "file-missing"
  | "file-changed"
  | "head-unreadable"
  | "head-of-other-book"
  | "head-of-other-size"
  | "tree-changed"
  | "signature-wrong";

export interface FoundFault {
  readonly type: BookFault;
  /** Null where it is about the whole book. */
  readonly number: number | null;
}

export type Verdict =
  | {
      readonly type: "whole";
      readonly size: number;
      /** When the newest entry was received. */
      readonly until: string;
      readonly files: number;
      readonly disposed: number;
      /** `given`: the key came from outside. `own`: it was read in the book itself, and shows only that the book agrees with itself. */
      readonly key: "given" | "own";
      /** What the devices have said and the book does not hold, or holds twice: nothing that the book did wrong. */
      readonly chains: readonly ChainRemark[];
    }
  | { readonly type: "not-whole"; readonly size: number; readonly faults: readonly FoundFault[]; readonly chains: readonly ChainRemark[] }
  /** Nothing was decided: not the same as whole. */
  | { readonly type: "not-verified"; readonly why: "no-entries" | "stopped" | "no-key" | "key-unreadable" };

/** More are not listed: the first ones say where it went wrong. */
const MOST_FAULTS = 100;

/**
 * Looks at every entry: its bytes, its number, the digests of submission, body and private part, the rows by which it is
 * found, the files it names, the chains of the devices, the tree over all, the signed head. A part that is not there must
 * have been named by an entry of kind `disposed`.
 *
 * @param key line of the public key, kept elsewhere; null = as the book itself names it
 */
export async function verifyBook(book: RawBook, key: string | null, tools: VerifyTools): Promise<Verdict> {
  const check = new Check(book, tools);
  for (const raw of book.entries()) {
    check.take(raw);
    if (!tools.progress(check.size)) return { type: "not-verified", why: "stopped" };
  }
  if (check.size === 0 && book.fault() === null) return { type: "not-verified", why: "no-entries" };
  await check.files();
  check.rows();
  check.missingParts();
  return check.verdict(key);
}

class Check {
  size = 0;
  private readonly book: RawBook;
  private readonly tools: VerifyTools;
  private tree: TreeEdge = EMPTY_TREE;
  private until = "";
  private ownKey: string | null = null;
  private readonly faults: FoundFault[] = [];
  private readonly named = new Map<Digest, number>();
  private readonly missing: { readonly number: number; readonly id: string; readonly part: "body" | "private" }[] = [];
  private readonly disposed = new Set<string>();
  private readonly chains = new DeviceSequences();

  constructor(book: RawBook, tools: VerifyTools) {
    this.book = book;
    this.tools = tools;
  }

  private find(type: BookFault, number: number | null): void {
    if (this.faults.length < MOST_FAULTS) this.faults.push({ type, number });
  }

  take(raw: RawEntry): void {
    const { sha256 } = this.tools;
    this.size += 1;
    const number = this.size;
    const leaf = leafHash(raw.entry, sha256);
    this.tree = grown(this.tree, leaf, sha256);
    // The leaf that was kept beside it tells which entry it is that the tree does not fit.
    if (raw.leaf !== null && !isSame(raw.leaf, leaf)) this.find("entry-changed", number);
    const entry = entryFrom(raw.entry);
    if (!entry.ok) return this.find("entry-unreadable", number);
    if (entry.value.number !== number || raw.number !== number) this.find("number-out-of-order", number);
    if (entry.value.book !== this.book.book) this.find("other-book", number);
    if (digestOf(raw.submission, sha256) !== entry.value.submission) this.find("submission-changed", number);
    this.until = entry.value.received;
    const submission = submissionFrom(raw.submission);
    if (!submission.ok) return this.find("submission-unreadable", number);
    if (raw.isFound === false) this.find("not-found-by-its-rows", number);
    this.chains.take(submission.value, entry.value.submission, number);
    this.takeParts(raw, submission.value, number);
  }

  private takeParts(raw: RawEntry, submission: Submission, number: number): void {
    for (const part of ["body", "private"] as const) {
      const bytes = raw[part];
      if (bytes !== null && digestOf(bytes, this.tools.sha256) !== submission[part]) this.find(`${part}-changed`, number);
      if (bytes === null && submission[part] !== null) this.missing.push({ number, id: submission.id, part });
    }
    if (raw.body === null) return;
    for (const file of this.book.filesNamed(raw.body)) this.named.set(file, number);
    if (submission.kind !== "disposed" && submission.kind !== "key-begun") return;
    const body = openedPart(raw.body);
    if (!body.ok || typeof body.value !== "object" || body.value === null) return;
    if (submission.kind === "disposed" && "parts" in body.value) this.dispose(body.value.parts);
    if (submission.kind === "key-begun" && "key" in body.value && typeof body.value.key === "string") this.ownKey = body.value.key;
  }

  private dispose(parts: unknown): void {
    if (!Array.isArray(parts)) return;
    for (const one of parts) this.disposed.add(`${String(one?.submission)} ${String(one?.part)}`);
  }

  rows(): void {
    if (this.book.fault() !== null) this.find("rest-unreadable", this.size + 1);
    else if (this.faults.length === 0 && this.book.hasStrayRows()) this.find("stray-rows", null);
  }

  missingParts(): void {
    for (const { number, id, part } of this.missing) if (!this.disposed.has(`${id} ${part}`)) this.find(`${part}-missing`, number);
  }

  async files(): Promise<void> {
    for (const [file, number] of this.named) {
      const found = await this.book.fileDigest(file);
      if (found === null) this.find("file-missing", number);
      else if (found !== file) this.find("file-changed", number);
    }
  }

  verdict(key: string | null): Verdict {
    const line = key ?? this.ownKey;
    if (line === null) return { type: "not-verified", why: "no-key" };
    const own = keyFrom(line, this.tools.sha256);
    if (!own.ok) return { type: "not-verified", why: "key-unreadable" };
    const head = readSignedHead(this.book.note);
    if (!head.ok) this.find("head-unreadable", null);
    else {
      if (head.value.head.size !== this.size) this.find("head-of-other-size", null);
      const root = treeHead(this.tree, this.tools.sha256);
      if (head.value.head.origin !== `lamproom/${this.book.book}`) this.find("head-of-other-book", null);
      if (!isSame(head.value.head.head, root)) this.find("tree-changed", null);
      if (!isSignedBy(head.value, own.value, this.tools.verify, this.tools.sha256)) this.find("signature-wrong", null);
    }
    const { size, until, named, disposed, faults } = this;
    const chains = this.chains.remarks();
    if (faults.length > 0) return { type: "not-whole", size, faults, chains };
    return { type: "whole", size, until, files: named.size, disposed: disposed.size, key: key === null ? "own" : "given", chains };
  }
}

const isSame = (one: Uint8Array, other: Uint8Array): boolean => one.length === other.length && one.every((byte, at) => byte === other[at]);
