/** A book in SQLite as bare bytes, opened for reading only, in one state from the first read to the last. */

import { join } from "node:path";
import type { DatabaseSync } from "node:sqlite";
import { digestOf, type Submission } from "../../core/record/index.ts";
import { given, type Result, refused } from "../../core/result.ts";
import { filesNamed } from "../files-named.ts";
import { fileBytes, fileDigest } from "../folder/file-bytes.ts";
import { folderFiles } from "../folder/files.ts";
import type { RawBook, RawConflict, RawEntry } from "../raw-book.ts";
import { jsonOf, statements } from "./facts.ts";
import { isOfDisk, tablesFault } from "./faults.ts";
import { sha256 } from "./hash.ts";
import { openForReading, type TablesFault } from "./tables.ts";

/** The first book of a folder; null where it has none. */
export function rawBook(folder: string): Result<RawBook | null, TablesFault> {
  let database: DatabaseSync | null = null;
  try {
    database = openForReading(join(folder, "book.sqlite"));
    database.exec("begin");
    const found = database.prepare("select book, id from book order by book limit 1").get();
    if (found !== undefined) return given(new RowsOfBook(database, folder, Number(found["book"]), String(found["id"])));
    database.close();
    return given(null);
  } catch (fault) {
    database?.close();
    return refused(tablesFault(fault));
  }
}

type Row = Readonly<Record<string, unknown>>;

class RowsOfBook implements RawBook {
  readonly book: string;
  readonly note: string;
  readonly filesNamed = filesNamed;
  readonly fileDigest: RawBook["fileDigest"];
  readonly fileBytes: RawBook["fileBytes"];
  private readonly database: DatabaseSync;
  private readonly key: number;
  private readonly prepared: ReturnType<typeof statements>;
  private unreadable: string | null = null;
  /** Rows that entries demand, of those that lead to them. */
  private demanded = 0;

  constructor(database: DatabaseSync, folder: string, key: number, book: string) {
    this.database = database;
    this.key = key;
    this.book = book;
    this.prepared = statements(database);
    this.note = String(this.prepared("select note from head where book = ?").get(key)?.["note"] ?? "");
    const files = folderFiles(join(folder, "files"));
    this.fileDigest = (file) => fileDigest(files, file);
    this.fileBytes = (file) => fileBytes(files, file);
  }

  *entries(): Iterable<RawEntry> {
    this.demanded = 0;
    try {
      for (const row of this.database.prepare(ENTRIES).iterate(this.key)) yield this.entryOf(row);
    } catch (fault) {
      if (!isOfDisk(fault)) throw fault;
      this.unreadable = fault.message;
    }
  }

  private entryOf(row: Row): RawEntry {
    const bytes = row as unknown as Pick<RawEntry, "number" | "entry" | "submission" | "body" | "private" | "leaf">; // columns of ENTRIES
    const submission = jsonOf<Submission>(bytes.submission);
    return { ...bytes, isFound: isSubmission(submission) ? this.isFound(row, submission, bytes) : null };
  }

  private isFound(row: Row, submission: Submission, { number, submission: bytes }: Pick<RawEntry, "number" | "submission">): boolean {
    const { id, kind, device, sequence, previous, by, subjects, restsOn } = submission;
    const said = { id, kind, device, sequence, previous, digest: digestOf(bytes, sha256) };
    const isSaid = Object.entries(said).every(([name, value]) => row[name] === value);
    const things = new Set([...subjects.map((one) => one.id), ...(by === null ? [] : [by])]);
    this.demanded += things.size + restsOn.length;
    const isAbout = [...things].every((thing) => this.prepared(ABOUT).get(this.key, thing, number) !== undefined);
    return isSaid && isAbout && restsOn.every((ground) => this.prepared(RESTS_ON).get(this.key, ground, number) !== undefined);
  }

  fault(): string | null {
    return this.unreadable;
  }

  hasStrayRows(): boolean {
    const count = (table: string): number =>
      Number(this.prepared(`select count(*) as n from ${table} where book = ?`).get(this.key)?.["n"]);
    try {
      return count("about") + count("rests_on") !== this.demanded;
    } catch (fault) {
      // Rows that cannot be read lead to nothing that an entry says.
      if (isOfDisk(fault)) return true;
      throw fault;
    }
  }

  *conflicts(): Iterable<RawConflict> {
    try {
      for (const row of this.database.prepare(CONFLICTS).iterate(this.key)) yield row as unknown as RawConflict; // columns of CONFLICTS
    } catch (fault) {
      if (!isOfDisk(fault)) throw fault;
      this.unreadable = fault.message;
    }
  }

  close(): void {
    this.database.close();
  }
}

/** Enough of the form to look for its rows; whether it is one is for whoever checks the bytes. */
const isSubmission = (value: Submission | null): value is Submission => Array.isArray(value?.subjects) && Array.isArray(value.restsOn);

const ENTRIES = `select number, entry, submission, body, private, hash as leaf, id, kind, device, sequence, previous, digest
  from entry left join node on node.book = entry.book and level = 0 and position = number - 1 where entry.book = ? order by number`;
const ABOUT = "select 1 from about join subject using (book, subject) where about.book = ? and id = ? and number = ?";
const RESTS_ON = "select 1 from rests_on where book = ? and ground = ? and number = ?";
const CONFLICTS = "select number, received, submission, body, private from conflict where book = ? order by rowid";
