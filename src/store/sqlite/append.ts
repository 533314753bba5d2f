/** Writes submissions into the book: one commit, numbered without holes, hashed, signed, and durable before the answer. */
import {
  checkpointText,
  EMPTY_TREE,
  entryBytes,
  entryFrom,
  leafHash,
  type Submission,
  signedHead,
  signedMessage,
  submissionFrom,
  type TreeEdge,
  treeHead,
  writtenInstant,
} from "../../core/record/index.ts";
import { assert, given, type Result, refused } from "../../core/result.ts";
import type { Answer, AppendRefusal, DerivedRow, Facts, HeadSigner, KeptEntry, Offered, Remark, Terms } from "../ledger.ts";
import { remarksOn } from "./chain.ts";
import { derivedChecksum, sameBytes } from "./derived.ts";
import { factsOf, type Rows } from "./facts.ts";
import { sha256 } from "./hash.ts";
import type { Checked } from "./offered-submission.ts";
import { edgeAt, grownRows, subtreeHeads } from "./tree-rows.ts";

export interface Writing extends Rows {
  /** Id of the book. */
  readonly name: string;
  readonly prepared: (sql: string) => ReturnType<Rows["database"]["prepare"]>;
  readonly signer: HeadSigner;
  /** The book's clock, milliseconds since 1970. */
  readonly now: () => number;
  /** What this connection remembers between commits; forgotten whenever one does not come about. */
  readonly memory: Memory;
}

export interface Memory {
  edge: TreeEdge | null;
  readonly subjects: Map<string, number>;
}

export interface Written {
  readonly answers: readonly Answer[];
  /** The signed head after it; null where nothing was written. */
  readonly note: string | null;
}

/** Inside a transaction that is open; the caller commits, or rolls back on a refusal. */
export async function writeAll(all: readonly Checked[], terms: Terms, writing: Writing): Promise<Result<Written, AppendRefusal>> {
  const facts = factsOf(writing, writing.prepared);
  const refusal = await judged(newOnes(all, writing), terms, facts);
  if (refusal !== null) return refused(refusal);
  const growing = new Growing(writing);
  const answers = all.map((one) => growing.take(one));
  if (growing.taken.length === 0) return given({ answers, note: null });
  if (terms.derive !== undefined) keepDerivedRows(await terms.derive(growing.taken.map(keptOf), facts), growing.size, writing);
  return given({ answers, note: growing.sign() });
}

/** Repeats were judged when they were taken: a lost answer, asked for again, must not find itself in its own way. */
async function judged(fresh: readonly Submission[], { expect, decide }: Terms, facts: Facts): Promise<AppendRefusal | null> {
  if (fresh.length === 0) return null;
  for (const { subject, newest } of expect ?? []) {
    const found = await facts.newestAbout(subject);
    if (found !== newest) return { type: "stale", subject, newest: found };
  }
  const decision = await decide?.(fresh, facts);
  return decision?.type === "not-granted" ? decision : null;
}

const newOnes = (all: readonly Checked[], writing: Writing): readonly Submission[] =>
  all.map(({ submission }) => submission).filter((submission, at) => !isHere(submission, writing) && firstWith(all, submission) === at);
const isHere = ({ id }: Submission, { book, prepared }: Writing): boolean => prepared(BY_ID).get(book, id) !== undefined;
const firstWith = (all: readonly Checked[], { id }: Submission): number => all.findIndex(({ submission }) => submission.id === id);

const BY_ID = "select number, submission from entry where book = ? and id = ?";

class Growing {
  private readonly writing: Writing;
  private edge: TreeEdge;
  readonly taken: Taken[] = [];

  constructor(writing: Writing) {
    this.writing = writing;
    const { book, prepared } = writing;
    const size = Number(prepared("select size from head where book = ?").get(book)?.["size"] ?? 0);
    const remembered = writing.memory.edge;
    // Another process may have written since.
    if (remembered?.size === size) this.edge = remembered;
    else this.edge = size === 0 ? EMPTY_TREE : edgeAt(size, subtreeHeads(writing, prepared));
  }

  get size(): number {
    return this.edge.size;
  }

  take(one: Checked): Answer {
    const { book, prepared, now } = this.writing;
    const there = prepared(BY_ID).get(book, one.submission.id);
    if (there === undefined) return this.write(one);
    const number = Number(there["number"]);
    if (sameBytes(there["submission"] as Uint8Array, one.offered.submission)) return { type: "exists", number }; // a blob column
    const { submission, body, private: privatePart } = one.offered;
    const isAside = prepared("select 1 from conflict where book = ? and submission = ?").get(book, submission) !== undefined;
    if (!isAside) prepared(ASIDE).run(book, number, writtenInstant(now()), submission, body, privatePart);
    return { type: "conflict", number };
  }

  private write(one: Checked): Answer {
    const { writing } = this;
    const number = this.edge.size + 1;
    const bytes = entryOf(one, number, writing);
    const { edge, remarks } = kept(one, bytes, this.edge, writing);
    this.edge = edge;
    this.taken.push({ offered: one.offered, number, entry: bytes });
    return { type: "taken", number, remarks };
  }

  sign(): string {
    const { book, name, signer, prepared } = this.writing;
    const root = treeHead(this.edge, sha256);
    const head = { origin: originOf(name), size: this.edge.size, head: root };
    const body = checkpointText(head);
    assert(body.ok, "a book's head has three lines");
    const note = signedHead(head, signer.key, signer.sign(signedMessage(body.value)), sha256);
    assert(note.ok, "a book's head can be signed");
    prepared(HEAD).run(book, head.size, root, note.value);
    this.writing.memory.edge = this.edge;
    return note.value;
  }
}

/** Keeps the entry after a tree of this edge; answers the edge with it, and what a person must hear of. */
export function kept(
  one: Checked,
  entry: Uint8Array,
  edge: TreeEdge,
  keeping: Keeping,
): { readonly edge: TreeEdge; readonly remarks: readonly Remark[] } {
  const { prepared, book } = keeping;
  const number = edge.size + 1;
  const remarks = remarksOn(one, edge.size, subtreeHeads(keeping, prepared), keeping, prepared);
  insertEntry(one, number, entry, keeping);
  for (const remark of remarks)
    if (remark.type === "unknown-head")
      prepared("insert into unknown_head (book, number, size) values (?, ?, ?)").run(book, number, remark.size);
  return { edge: grownRows(edge, leafHash(entry, sha256), keeping, prepared), remarks };
}

/** Name under which a book's heads go out, and its key's name. */
export const originOf = (book: string): string => `lamproom/${book}`;

export const ASIDE = "insert into conflict (book, number, received, submission, body, private) values (?, ?, ?, ?, ?, ?)";
export const HEAD = "insert or replace into head (book, size, root, note) values (?, ?, ?, ?)";

function entryOf({ offered, digest }: Checked, number: number, { name, now }: Writing): Uint8Array {
  const received = writtenInstant(now());
  const bytes = entryBytes({ entry: 1, book: name, number, received, clockOffset: offered.clockOffset, submission: digest });
  assert(bytes.ok, "an entry made here is in its form");
  return bytes.value;
}

interface Taken {
  readonly offered: Offered;
  readonly number: number;
  readonly entry: Uint8Array;
}

function keptOf({ offered: { submission, body, private: privatePart }, number, entry }: Taken): KeptEntry {
  const [readEntry, readSubmission] = [entryFrom(entry), submissionFrom(submission)];
  assert(readEntry.ok && readSubmission.ok, "what was checked and written can be read");
  return { number, entry: readEntry.value, submission: readSubmission.value, body, private: privatePart, bytes: { entry, submission } };
}

/** What keeping an entry needs of a connection. */
export type Keeping = Pick<Writing, "database" | "book" | "prepared" | "memory">;

/** Keeps an entry that has its number, with the rows by which it is found. */
function insertEntry({ offered, submission, digest }: Checked, number: number, entry: Uint8Array, writing: Keeping): void {
  const { book, prepared } = writing;
  const { id, kind, device, sequence, previous, by, subjects, restsOn } = submission;
  prepared(ENTRY).run(
    ...[book, number, id, kind, device, sequence, digest, previous],
    ...[entry, offered.submission, offered.body, offered.private],
  );
  for (const subject of new Set([...subjects.map((one) => one.id), ...(by === null ? [] : [by])]))
    prepared("insert into about (book, subject, number) values (?, ?, ?)").run(book, subjectKey(subject, writing), number);
  for (const ground of restsOn) prepared("insert into rests_on (book, ground, number) values (?, ?, ?)").run(book, ground, number);
}

const ENTRY = `insert into entry (book, number, id, kind, device, sequence, digest, previous, entry, submission, body, private)
  values (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`;

function subjectKey(id: string, { book, prepared, memory }: Keeping): number {
  const remembered = memory.subjects.get(id);
  if (remembered !== undefined) return remembered;
  const row = prepared("select subject from subject where book = ? and id = ?").get(book, id) ?? prepared(NEW_SUBJECT).get(book, book, id);
  const subject = Number(row?.["subject"]);
  if (memory.subjects.size >= MOST_REMEMBERED) memory.subjects.clear();
  memory.subjects.set(id, subject);
  return subject;
}

const MOST_REMEMBERED = 50_000;

const NEW_SUBJECT = `insert into subject (book, subject, id)
  values (?, (select coalesce(max(subject), 0) + 1 from subject where book = ?), ?) returning subject`;

export function keepDerivedRows(rows: readonly DerivedRow[], head: number, { book, prepared }: Pick<Writing, "book" | "prepared">): void {
  for (const row of rows) {
    const checksum = derivedChecksum({ ...row, head });
    prepared(DERIVED).run(book, row.name, row.key, row.edition, head, checksum, row.bytes);
  }
}

const DERIVED = "insert or replace into derived (book, name, key, edition, head, checksum, bytes) values (?, ?, ?, ?, ?, ?, ?)";
