/** A book kept by SQLite in one folder; several processes may have it open. */
import type { DatabaseSync } from "node:sqlite";
import { setImmediate } from "node:timers/promises";
import { consistencyProof, inclusionProof, readSignedHead } from "../../core/record/index.ts";
import { given, type Result, refused } from "../../core/result.ts";
import type { Files } from "../files.ts";
import { filesNamed } from "../files-named.ts";
import type {
  Answer,
  AppendRefusal,
  Facts,
  HeadSigner,
  KeptDerived,
  KeptEntry,
  KnownHead,
  Ledger,
  Offered,
  SignedTree,
  Terms,
} from "../ledger.ts";
import { keepDerivedRows, originOf, type Writing, writeAll } from "./append.ts";
import { beginWriting, emptyLog, LONGEST_WAIT_MS } from "./begin.ts";
import { chainFaults } from "./chain.ts";
import { type CheckAside, checkAside } from "./check-aside.ts";
import { sameBytes } from "./derived.ts";
import { factsOf, keptEntry, statements } from "./facts.ts";
import { DamagedRows, isBusy, isOfDisk, tablesFault } from "./faults.ts";
import { sha256 } from "./hash.ts";
import { type Checked, checkedOffer } from "./offered-submission.ts";
import { oneAtATime } from "./one-at-a-time.ts";
import { isLarge, openForReading, openTables, type TablesFault } from "./tables.ts";
import { rootAt, subtreeHeads } from "./tree-rows.ts";

export interface LedgerPlace {
  /** File of the tables, made where there is none; its folder is there. */
  readonly path: string;
  /** Id of the book. */
  readonly book: string;
  readonly signer: HeadSigner;
  /** Kept beside the key, outside of the folder. */
  readonly knownHead: KnownHead;
  /** Null where files that bodies name are not looked for. */
  readonly files: Pick<Files, "has"> | null;
  readonly now: () => number;
  /** Told where the known head could not be written: the book goes on, and an older copy may go unnoticed. */
  readonly onTrouble: (fault: unknown) => void;
}

type Held = Extract<AppendRefusal, { readonly type: "held" | "disk-failed" }>;

export interface SqliteLedger extends Ledger {
  /** Why nothing is written now; null where it is. */
  readonly held: () => Held | null;
}

/** Opens the book, checks its file and its last known head; a book that is not there begins empty. */
export async function openLedger(place: LedgerPlace): Promise<Result<SqliteLedger, TablesFault>> {
  const opened = openTables(place.path);
  if ("type" in opened) return refused(opened);
  try {
    const { signer, now, book: name } = place;
    const book = await bookKey(name, opened);
    const memory = { edge: null, subjects: new Map() };
    const writing: Writing = { database: opened, book, name, prepared: statements(opened), signer, now, memory };
    holdAgainstHead(writing);
    const held = await heldBy(await place.knownHead.read(), writing, place.onTrouble);
    return given(new OpenLedger(place, writing, openForReading(place.path), held, isLarge(place.path) ? checkAside(place.path) : null));
  } catch (fault) {
    opened.close();
    return refused(tablesFault(fault));
  }
}

async function bookKey(id: string, database: DatabaseSync): Promise<number> {
  const find = database.prepare("select book from book where id = ?");
  if (find.get(id) === undefined) {
    await beginWriting(database);
    database.prepare("insert or ignore into book (id) values (?)").run(id);
    database.exec("commit");
  }
  return Number(find.get(id)?.["book"]);
}

/** Ids of the books that a file keeps. */
export function booksIn(path: string): readonly string[] {
  const database = openForReading(path);
  const found = database.prepare("select id from book order by book").all();
  database.close();
  return found.map(({ id }) => String(id));
}

/** A head is signed over what the tree's rows say: they must be those of the last one. */
function holdAgainstHead(writing: Writing): void {
  const row = writing.prepared("select size, root from head where book = ?").get(writing.book);
  if (row === undefined) return;
  const root = rootAt(Number(row["size"]), subtreeHeads(writing, writing.prepared));
  if (!sameBytes(root, row["root"] as Uint8Array)) throw new DamagedRows("the rows of its tree are not those of its head"); // a blob column, never null
}

async function heldBy(known: string | null, writing: Writing, onTrouble: LedgerPlace["onTrouble"]): Promise<Held | null> {
  if (known === null) return null;
  const read = readSignedHead(known);
  if (!read.ok || read.value.head.origin !== originOf(writing.name)) {
    onTrouble(new Error("The newest head beside the key cannot be read: an older copy of the book would go unnoticed this time."));
    return null;
  }
  const { size, head } = read.value.head;
  const found = Number(writing.prepared("select size from head where book = ?").get(writing.book)?.["size"] ?? 0);
  if (size > found) return { type: "held", why: "smaller", known: size, found };
  const isSame = sameBytes(rootAt(size, subtreeHeads(writing, writing.prepared)), head);
  return isSame ? null : { type: "held", why: "at-odds", known: size, found };
}

class OpenLedger implements SqliteLedger {
  readonly book: string;
  private readonly place: LedgerPlace;
  private readonly writing: Writing;
  private readonly reader: DatabaseSync;
  private readonly facts: Facts;
  private readonly queue = oneAtATime();
  private readonly aside: CheckAside | null;
  private stopped: Held | null;

  constructor(place: LedgerPlace, writing: Writing, reader: DatabaseSync, held: Held | null, aside: CheckAside | null) {
    this.book = place.book;
    this.place = place;
    this.writing = writing;
    this.reader = reader;
    this.facts = factsOf({ database: reader, book: writing.book });
    this.stopped = held;
    this.aside = aside;
    aside?.found.then((what) => this.stopWhereDamaged(what), place.onTrouble);
    this.size = this.facts.size;
    this.entry = this.facts.entry;
    this.byId = this.facts.byId;
    this.about = this.facts.about;
    this.newestAbout = this.facts.newestAbout;
    this.restingOn = this.facts.restingOn;
    this.derived = this.facts.derived;
  }

  readonly size: Facts["size"];
  readonly entry: Facts["entry"];
  readonly byId: Facts["byId"];
  readonly about: Facts["about"];
  readonly newestAbout: Facts["newestAbout"];
  readonly restingOn: Facts["restingOn"];
  readonly derived: Facts["derived"];

  private stopWhereDamaged(what: string | null): void {
    if (what === null) return;
    this.stopped = { type: "disk-failed", what: `the file of the book is damaged: ${what}` };
    this.place.onTrouble(new Error(this.stopped.what));
  }

  held(): Held | null {
    return this.stopped;
  }

  append(offered: readonly Offered[], terms: Terms = {}): Promise<Result<readonly Answer[], AppendRefusal>> {
    return this.queue(async () => {
      const checked = await this.check(offered);
      if (!checked.ok) return checked;
      if (this.stopped !== null && !mayWhileHeld(checked.value, this.stopped)) return refused(this.stopped);
      return this.commit(checked.value, terms);
    });
  }

  private async check(offered: readonly Offered[]): Promise<Result<readonly Checked[], AppendRefusal>> {
    const all: Checked[] = [];
    for (const [at, one] of offered.entries()) {
      const checked = checkedOffer(one, at, this.book);
      if (!checked.ok) return checked;
      const { files } = this.place;
      if (files !== null)
        for (const file of filesNamed(one.body)) if (!(await files.has(file))) return refused({ type: "file-missing", at, file });
      all.push(checked.value);
    }
    return given(all);
  }

  private async commit(all: readonly Checked[], terms: Terms): Promise<Result<readonly Answer[], AppendRefusal>> {
    const { database } = this.writing;
    try {
      await beginWriting(database);
      const written = await writeAll(all, terms, this.writing);
      if (!written.ok) {
        this.rollBack();
        return written;
      }
      database.exec("commit");
      if (written.value.note !== null) await this.tellHead(written.value.note);
      return given(written.value.answers);
    } catch (fault) {
      this.rollBack();
      if (isBusy(fault)) return refused({ type: "busy", seconds: LONGEST_WAIT_MS / 1000 });
      return refused(this.stopAfter(fault));
    }
  }

  /** What the disk has after a fault of its own is not known; only opening the book again, with its checks, can tell. */
  private stopAfter(fault: unknown): Held {
    if (!isOfDisk(fault)) throw fault;
    this.stopped = { type: "disk-failed", what: fault.message };
    return this.stopped;
  }

  private rollBack(): void {
    const { database, memory } = this.writing;
    memory.edge = null;
    memory.subjects.clear();
    try {
      if (database.isTransaction) database.exec("rollback");
    } catch (fault) {
      this.stopAfter(fault);
    }
  }

  private async tellHead(note: string): Promise<void> {
    try {
      // While the book is held the known head is the larger one, until a person has said why.
      if (this.stopped !== null) return;
      // Another process may have told of a larger one meanwhile: that one must stay.
      if (sizeSaid(await this.place.knownHead.read()) < sizeSaid(note)) await this.place.knownHead.write(note);
    } catch (fault) {
      this.place.onTrouble(fault);
    }
  }

  async walk(from: number, to: number, piece: (kept: KeptEntry) => boolean): Promise<void> {
    for (let at = Math.max(from, 1); at <= to; at += WALK) {
      const rows = this.reader.prepare(WALK_SQL).all(this.writing.book, at, Math.min(at + WALK - 1, to));
      for (const row of rows) if (!piece(keptEntry(row))) return;
      if (rows.length === 0) return;
      // A long walk holds nobody else up for longer than one piece of it.
      await setImmediate();
    }
  }

  async reading<Found>(read: (facts: Facts) => Promise<Found>): Promise<Found> {
    const database = openForReading(this.place.path);
    try {
      database.exec("begin");
      return await read(factsOf({ database, book: this.writing.book }));
    } finally {
      database.close();
    }
  }

  async head(): Promise<SignedTree> {
    const row = this.reader.prepare("select size, root, note from head where book = ?").get(this.writing.book);
    if (row === undefined) return { size: 0, root: sha256(new Uint8Array(0)), note: "" };
    return { size: Number(row["size"]), root: row["root"] as Uint8Array, note: String(row["note"]) }; // a blob column, never null
  }

  async inclusion(number: number, size: number): Promise<readonly Uint8Array[]> {
    return inclusionProof(number - 1, size, this.heads(), sha256);
  }

  async consistency(earlier: number, size: number): Promise<readonly Uint8Array[]> {
    return consistencyProof(earlier, size, this.heads(), sha256);
  }

  private heads() {
    return subtreeHeads({ database: this.reader, book: this.writing.book }, statements(this.reader));
  }

  async chainFaults() {
    return chainFaults({ database: this.reader, book: this.writing.book }, statements(this.reader));
  }

  async conflicts() {
    const rows = this.reader
      .prepare("select number, received, submission from conflict where book = ? order by rowid")
      .all(this.writing.book);
    return rows.map((row) => ({
      ...{ number: Number(row["number"]), received: String(row["received"]) },
      submission: row["submission"] as Uint8Array, // a blob column, never null
    }));
  }

  keepDerived(rows: readonly KeptDerived[]): Promise<void> {
    return this.inOneCommit(() => {
      for (const row of rows) keepDerivedRows([row], row.head, this.writing);
    });
  }

  async dispose(parts: Parameters<Ledger["dispose"]>[0]): Promise<number> {
    let deleted = 0;
    const { prepared, book, database } = this.writing;
    await this.inOneCommit(() => {
      for (const { number, part } of parts) deleted += Number(prepared(DISPOSE[part]).run(book, number).changes);
    });
    // In the file the bytes are noughts now (secure_delete); in its log they still stand until it is emptied.
    await this.alone(() => emptyLog(database));
    return deleted;
  }

  private inOneCommit(act: () => void): Promise<void> {
    const { database } = this.writing;
    return this.alone(async () => {
      await beginWriting(database);
      act();
      database.exec("commit");
    });
  }

  /** A fault goes on to the caller: whoever derives or disposes has nothing to keep back. One of the disk stops the book. */
  private alone(act: () => Promise<void>): Promise<void> {
    return this.queue(async () => {
      if (this.stopped?.type === "disk-failed") throw new Error(`the disk failed before: ${this.stopped.what}`);
      try {
        await act();
      } catch (fault) {
        this.rollBack();
        if (isOfDisk(fault)) this.stopAfter(fault);
        throw fault;
      }
    });
  }

  async goOn(): Promise<void> {
    if (this.stopped?.type !== "held") return;
    await this.place.knownHead.write((await this.head()).note);
    this.stopped = null;
  }

  async close(): Promise<void> {
    await this.aside?.stop();
    await this.queue(async () => undefined);
    this.reader.close();
    this.writing.database.close();
  }
}

/** The size that a head says, unread otherwise; -1 where it says none. */
const sizeSaid = (note: string | null): number => Number(/^[^\n]*\n(\d+)\n/.exec(note ?? "")?.[1] ?? -1);

const WALK = 500;
const WALK_SQL = "select number, entry, submission, body, private from entry where book = ? and number between ? and ? order by number";

const DISPOSE = {
  body: "update entry set body = null where book = ? and number = ? and body is not null",
  private: "update entry set private = null where book = ? and number = ? and private is not null",
} as const;

/** The one thing that may be said while a book is held: why it was put back. */
const mayWhileHeld = (all: readonly Checked[], held: Held): boolean =>
  held.type === "held" && all.length > 0 && all.every(({ submission }) => submission.kind === "book-put-back");
