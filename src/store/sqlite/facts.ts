/** Reading of a book: everything that can be asked of its rows. */
import type { DatabaseSync, StatementSync } from "node:sqlite";
import { digestOf, type Entry, type Submission } from "../../core/record/index.ts";
import type { AboutQuery, Facts, KeptDerived, KeptEntry } from "../ledger.ts";
import { derivedChecksum, sameBytes } from "./derived.ts";
import { DamagedRows } from "./faults.ts";
import { sha256 } from "./hash.ts";

/** Rows of one connection; `book` is the key of the book in its tables. */
export interface Rows {
  readonly database: DatabaseSync;
  readonly book: number;
}

const COLUMNS = "number, entry, submission, body, private";

type Row = Readonly<Record<string, unknown>>;

/** Statements are made once a connection: making one costs more than running it. */
export function statements(database: DatabaseSync): (sql: string) => StatementSync {
  const made = new Map<string, StatementSync>();
  return (sql) => {
    const there = made.get(sql);
    if (there !== undefined) return there;
    const fresh = database.prepare(sql);
    made.set(sql, fresh);
    return fresh;
  };
}

export function factsOf({ database, book }: Rows, prepared = statements(database)): Facts {
  const one = (sql: string, ...values: (string | number)[]): Row | undefined => prepared(sql).get(book, ...values);
  const many = (sql: string, ...values: (string | number)[]): readonly Row[] => prepared(sql).all(book, ...values);
  const kept = (row: Row | undefined): KeptEntry | null => (row === undefined ? null : keptEntry(row));
  return {
    size: async () => Number(one("select size from head where book = ?")?.["size"] ?? 0),
    entry: async (number) => kept(one(`select ${COLUMNS} from entry where book = ? and number = ?`, number)),
    byId: async (id) => kept(one(`select ${COLUMNS} from entry where book = ? and id = ?`, id)),
    about: async (subject, query = {}) => many(aboutSql(query), subject, ...aboutValues(query)).map(keptEntry),
    newestAbout: async (subject) => Number(one(NEWEST, subject)?.["newest"] ?? 0),
    restingOn: async (ground) =>
      many("select number from rests_on where book = ? and ground = ? order by number", ground).map(({ number }) => Number(number)),
    derived: async (name, key, edition) => derivedRow(one(DERIVED, name, key), name, key, edition),
  };
}

const NEWEST = `select max(number) as newest from about join subject using (book, subject) where about.book = ? and id = ?`;
const DERIVED = "select edition, head, checksum, bytes from derived where book = ? and name = ? and key = ?";

function aboutSql({ upTo, kinds, limit }: AboutQuery): string {
  const ofKinds = kinds === undefined ? "" : `and kind in (${kinds.map(() => "?").join(",")})`;
  return `select ${COLUMNS.split(", ")
    .map((column) => `entry.${column}`)
    .join(", ")}
    from subject join about using (book, subject) join entry using (book, number)
    where subject.book = ? and subject.id = ? ${upTo === undefined ? "" : "and about.number <= ?"} ${ofKinds}
    order by about.number desc ${limit === undefined ? "" : "limit ?"}`;
}

const aboutValues = ({ upTo, kinds, limit }: AboutQuery): readonly (string | number)[] => [
  ...(upTo === undefined ? [] : [upTo]),
  ...(kinds ?? []),
  ...(limit === undefined ? [] : [limit]),
];

/**
 * A row as it was written. Its bytes were held against their forms when they were taken in; here each is held against its
 * digest, which is sooner done and finds more: a bit that turned on the disk must not turn a failed test into a passed one.
 */
export function keptEntry(row: Row): KeptEntry {
  const [number, bytes, submissionBytes] = [Number(row["number"]), bytesIn(row, "entry"), bytesIn(row, "submission")];
  const [body, privatePart] = [partIn(row, "body"), partIn(row, "private")];
  const [entry, submission] = [jsonOf<Entry>(bytes), jsonOf<Submission>(submissionBytes)];
  const isWhole =
    entry?.number === number &&
    submission !== null &&
    digestOf(submissionBytes, sha256) === entry.submission &&
    (body === null || digestOf(body, sha256) === submission.body) &&
    (privatePart === null || digestOf(privatePart, sha256) === submission.private);
  if (!isWhole) throw new DamagedRows(`entry ${number} cannot be read: its bytes are damaged`);
  return { number, entry, submission, body, private: privatePart, bytes: { entry: bytes, submission: submissionBytes } };
}

/** What was written in its form is read in it; null where it is no JSON any more. */
export function jsonOf<Form>(bytes: Uint8Array): Form | null {
  try {
    return JSON.parse(Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength).toString("utf8")) as Form; // held against it when it was taken in
  } catch (fault) {
    if (fault instanceof SyntaxError) return null;
    throw fault;
  }
}

const bytesIn = (row: Row, column: string): Uint8Array => row[column] as Uint8Array; // a blob column, never null
const partIn = (row: Row, column: string): Uint8Array | null => (row[column] ?? null) as Uint8Array | null; // a blob column

function derivedRow(row: Row | undefined, name: string, key: string, edition: number): KeptDerived | null {
  if (row === undefined || row["edition"] !== edition) return null;
  const found = { name, key, edition, head: Number(row["head"]), bytes: bytesIn(row, "bytes") };
  return sameBytes(derivedChecksum(found), bytesIn(row, "checksum")) ? found : null;
}
