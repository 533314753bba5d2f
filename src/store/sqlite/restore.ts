/** Brings a book back from its bytes: the same entries under the same numbers, times and head. */
import { digestOf, EMPTY_TREE, readSignedHead, submissionFrom, type TreeEdge, treeHead } from "../../core/record/index.ts";
import { given, type Result, refused } from "../../core/result.ts";
import type { RawBook, RawEntry } from "../raw-book.ts";
import { ASIDE, HEAD, type Keeping, kept } from "./append.ts";
import { beginWriting } from "./begin.ts";
import { sameBytes } from "./derived.ts";
import { statements } from "./facts.ts";
import { tablesFault } from "./faults.ts";
import { sha256 } from "./hash.ts";
import { openTables, type TablesFault } from "./tables.ts";

export type RestoreFault =
  | TablesFault
  /** There is a book in this file already. */
  | { readonly type: "taken" }
  /** These bytes are no book, or not the one that its head was signed over; `at` is the number of an entry, 0 for all. */
  | { readonly type: "not-whole"; readonly at: number };

/** All of it in one commit, or nothing. The file is made; its folder is there. */
export async function restoreBook(path: string, from: RawBook): Promise<Result<{ readonly size: number }, RestoreFault>> {
  const database = openTables(path);
  if ("type" in database) return refused(database);
  try {
    await beginWriting(database);
    const prepared = statements(database);
    if (prepared("select 1 from entry limit 1").get() !== undefined) return refused({ type: "taken" });
    prepared("insert or ignore into book (id) values (?)").run(from.book);
    const book = Number(prepared("select book from book where id = ?").get(from.book)?.["book"]);
    const brought = bringBack(from, { database, book, prepared, memory: { edge: null, subjects: new Map() } });
    if (brought.ok) database.exec("commit");
    return brought;
  } catch (fault) {
    return refused(tablesFault(fault));
  } finally {
    // What was not committed is gone with the connection.
    database.close();
  }
}

function bringBack(from: RawBook, keeping: Keeping): Result<{ readonly size: number }, RestoreFault> {
  let edge: TreeEdge = EMPTY_TREE;
  for (const raw of from.entries()) {
    const next = entryBack(raw, edge, keeping);
    if (next === null) return refused({ type: "not-whole", at: raw.number });
    edge = next;
  }
  const head = readSignedHead(from.note);
  const root = treeHead(edge, sha256);
  if (!head.ok || head.value.head.size !== edge.size || !sameBytes(head.value.head.head, root))
    return refused({ type: "not-whole", at: 0 });
  keeping.prepared(HEAD).run(keeping.book, edge.size, root, from.note);
  for (const { number, received, submission, body, private: privatePart } of from.conflicts())
    keeping.prepared(ASIDE).run(keeping.book, number, received, submission, body, privatePart);
  return given({ size: edge.size });
}

function entryBack({ entry, submission, body, private: privatePart }: RawEntry, edge: TreeEdge, keeping: Keeping): TreeEdge | null {
  const read = submissionFrom(submission);
  if (!read.ok) return null;
  // A body that was disposed of is kept as none; the type of what a device offers always has one.
  const offered = { submission, body: body as Uint8Array, private: privatePart, clockOffset: null };
  return kept({ offered, submission: read.value, digest: digestOf(submission, sha256) }, entry, edge, keeping).edge;
}
