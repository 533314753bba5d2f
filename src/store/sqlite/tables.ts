/** The tables of a book in SQLite, and how its file is opened so that what was answered for is on the disk. */
import { existsSync, statSync } from "node:fs";
import { DatabaseSync } from "node:sqlite";
import { tablesFault } from "./faults.ts";

/** Raised when the tables change; a newer file is refused in words, never guessed at. */
const TABLES_EDITION = 1;

/** `book` is the first column of every key: one file may keep several books, and no row of one can stand for another's. */
const TABLES = `
create table book (book integer primary key, id text not null unique);
create table entry (
  book integer not null references book, number integer not null, id text not null, kind text not null,
  device text not null, sequence integer not null, digest text not null, previous text,
  entry blob not null, submission blob not null, body blob, private blob,
  primary key (book, number), unique (book, id));
create index entry_device on entry (book, device, sequence);
create table subject (book integer not null references book, subject integer not null, id text not null,
  primary key (book, subject), unique (book, id));
create table about (book integer not null, subject integer not null, number integer not null,
  primary key (book, subject, number), foreign key (book, number) references entry) without rowid;
create table rests_on (book integer not null, ground text not null, number integer not null,
  primary key (book, ground, number), foreign key (book, number) references entry) without rowid;
create table node (book integer not null, level integer not null, position integer not null, hash blob not null,
  primary key (book, level, position)) without rowid;
create table head (book integer primary key references book, size integer not null, root blob not null, note text not null);
create table unknown_head (book integer not null, number integer not null, size integer not null,
  primary key (book, number), foreign key (book, number) references entry);
create table conflict (book integer not null, number integer not null, received text not null,
  submission blob not null, body blob not null, private blob, foreign key (book, number) references entry);
create table derived (book integer not null, name text not null, key text not null, edition integer not null,
  head integer not null, checksum blob not null, bytes blob not null, primary key (book, name, key)) without rowid;
`;

export type TablesFault =
  | { readonly type: "newer-tables"; readonly found: number }
  | { readonly type: "damaged"; readonly what: string }
  | { readonly type: "disk-failed"; readonly what: string };

/** For the moments in which another process makes the tables or mends its log. */
const BUSY_MS = 10_000;

/**
 * Opens the file for writing, and makes the tables where there are none. Every commit is synced (`synchronous=FULL`):
 * an answer is given after it, never before. What is deleted is overwritten (`secure_delete`).
 */
export function openTables(path: string): DatabaseSync | TablesFault {
  let database: DatabaseSync | null = null;
  try {
    database = new DatabaseSync(path, { timeout: BUSY_MS });
    const fault = prepareTables(database, path);
    if (fault === null) return database;
    database.close();
    return fault;
  } catch (fault) {
    database?.close();
    return tablesFault(fault);
  }
}

function prepareTables(database: DatabaseSync, path: string): TablesFault | null {
  database.exec("pragma journal_mode=wal; pragma synchronous=full; pragma foreign_keys=on; pragma trusted_schema=off;");
  database.exec("pragma secure_delete=on;");
  const found = editionOf(database);
  if (found > TABLES_EDITION) return { type: "newer-tables", found };
  if (found === 0) makeTables(database);
  const fault = isLarge(path) ? null : faultOf(database);
  if (fault !== null) return { type: "damaged", what: fault };
  // A sync that failed may have left pages of the log in memory only, marked as written. Copied into the file they are
  // written, and synced, anew. Where another process has the log in use, it is copied by whoever closes last.
  database.exec("pragma wal_checkpoint(truncate)");
  // From here on nobody is waited for with the whole process: see beginWriting.
  database.exec("pragma busy_timeout=0;");
  return null;
}

/** Opens the file for reading only. */
export function openForReading(path: string): DatabaseSync {
  return new DatabaseSync(path, { readOnly: true, timeout: BUSY_MS });
}

/** From here on looking through the whole file takes longer than a person waits for a first answer (half a second, measured). */
const LARGE_BYTES = 256 * 1024 * 1024;

/** Such a file is looked through beside the work (check-aside). */
export const isLarge = (path: string): boolean => existsSync(path) && statSync(path).size > LARGE_BYTES;

const editionOf = (database: DatabaseSync): number => Number(database.prepare("pragma user_version").get()?.["user_version"]);

function makeTables(database: DatabaseSync): void {
  database.exec("begin immediate");
  // Another process may have made them while this one waited.
  if (editionOf(database) === 0) database.exec(`${TABLES} pragma user_version=${TABLES_EDITION};`);
  database.exec("commit");
}

/** What is damaged in the pages of the file; null where nothing is. It reads all of them. */
export function faultOf(database: DatabaseSync): string | null {
  const found = database.prepare("pragma quick_check(1)").get()?.["quick_check"];
  return found === "ok" ? null : String(found);
}
