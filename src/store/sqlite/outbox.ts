/** The outbox of a bench PC or a command line, in a file of its own. */
import { DatabaseSync } from "node:sqlite";
import { type Digest, SALT_BYTES, saidSubmission, writtenInstant } from "../../core/record/index.ts";
import { given, type Result, refused } from "../../core/result.ts";
import type { Answer } from "../ledger.ts";
import type { Outbox, OutboxRefusal, Said, Waiting } from "../outbox.ts";
import { beginWriting } from "./begin.ts";
import { isBusy, isOfDisk } from "./faults.ts";
import { sha256 } from "./hash.ts";
import { oneAtATime } from "./one-at-a-time.ts";

export interface OutboxPlace {
  readonly path: string;
  readonly book: string;
  /** Taken where the file has no device yet. */
  readonly newDevice: () => string;
  /** UUIDv7. */
  readonly newId: () => string;
  /** So many bytes of chance. */
  readonly chance: (bytes: number) => Uint8Array;
  readonly now: () => number;
}

const TABLES = `
create table if not exists device (book text primary key, device text not null, sequence integer not null, digest text, known_head text);
create table if not exists waiting (book text not null, sequence integer not null, id text not null,
  submission blob not null, body blob not null, private blob, refused text, state text not null check (state in ('waiting', 'conflict', 'not-granted')),
  primary key (book, sequence), unique (book, id));
`;

export function openOutbox(place: OutboxPlace): Outbox {
  const database = new DatabaseSync(place.path, { timeout: 1000 });
  database.exec("pragma journal_mode=wal; pragma synchronous=full; pragma secure_delete=on;");
  database.exec(TABLES);
  database.prepare("insert or ignore into device (book, device, sequence) values (?, ?, 0)").run(place.book, place.newDevice());
  return new KeptOutbox(place, database);
}

class KeptOutbox implements Outbox {
  readonly device: string;
  readonly book: string;
  private readonly place: OutboxPlace;
  private readonly database: DatabaseSync;
  private readonly queue = oneAtATime();
  private stopped: string | null = null;

  constructor(place: OutboxPlace, database: DatabaseSync) {
    this.place = place;
    this.database = database;
    this.book = place.book;
    this.device = String(database.prepare("select device from device where book = ?").get(place.book)?.["device"]);
  }

  say(said: Said): Promise<Result<Waiting, OutboxRefusal>> {
    return this.queue(async () => {
      // After a fault of the disk only opening anew, with its checks, tells what is there.
      if (this.stopped !== null) return refused({ type: "not-kept", why: this.stopped });
      try {
        await beginWriting(this.database);
        const made = this.make(said);
        this.database.exec(made.ok ? "commit" : "rollback");
        return made;
      } catch (fault) {
        if (this.database.isTransaction) this.database.exec("rollback");
        if (isBusy(fault)) return refused({ type: "not-kept", why: "another process has been writing all the time" });
        if (!isOfDisk(fault)) throw fault;
        this.stopped = `the disk failed: ${fault.message}`;
        return refused({ type: "not-kept", why: this.stopped });
      }
    });
  }

  private make(said: Said): Result<Waiting, OutboxRefusal> {
    const { book, device, place } = this;
    const own = this.database.prepare("select sequence, digest, known_head from device where book = ?").get(book);
    const sequence = Number(own?.["sequence"]) + 1;
    const previous = (own?.["digest"] ?? null) as Digest | null; // written below
    const head = own?.["known_head"] ? JSON.parse(String(own["known_head"])) : null;
    const id = place.newId();
    const where = { id, book, device, sequence, previous, recorded: writtenInstant(place.now()), head };
    const made = saidSubmission(said, where, () => place.chance(SALT_BYTES), sha256);
    if (!made.ok) return made;
    const { submission, body, private: privatePart, digest } = made.value;
    this.database.prepare(KEEP).run(book, sequence, id, submission, body, privatePart);
    this.database.prepare("update device set sequence = ?, digest = ? where book = ?").run(sequence, digest, book);
    return given({ id, offered: { submission, body, private: privatePart, clockOffset: null }, refused: null });
  }

  async waiting(limit: number): Promise<readonly Waiting[]> {
    return this.list("waiting", limit);
  }

  async refusedOnes(): Promise<readonly Waiting[]> {
    return [...this.list("conflict", -1), ...this.list("not-granted", -1)];
  }

  private list(state: string, limit: number): readonly Waiting[] {
    const rows = this.database.prepare(LIST).all(this.book, state, limit);
    return rows.map(waitingFrom);
  }

  async count(): Promise<number> {
    return Number(this.database.prepare("select count(*) as n from waiting where book = ? and state = 'waiting'").get(this.book)?.["n"]);
  }

  async answered(id: string, answer: Answer): Promise<void> {
    if (answer.type === "conflict") this.mark(id, "conflict", "conflict");
    else this.database.prepare("delete from waiting where book = ? and id = ?").run(this.book, id);
  }

  async notGranted(id: string, reason: string): Promise<void> {
    this.mark(id, "not-granted", reason);
  }

  private mark(id: string, state: string, reason: string): void {
    this.database.prepare("update waiting set state = ?, refused = ? where book = ? and id = ?").run(state, reason, this.book, id);
  }

  async knowHead(head: { readonly size: number; readonly root: Digest }): Promise<void> {
    this.database.prepare("update device set known_head = ? where book = ?").run(JSON.stringify(head), this.book);
  }

  async close(): Promise<void> {
    this.database.close();
  }
}

const KEEP = "insert into waiting (book, sequence, id, submission, body, private, state) values (?, ?, ?, ?, ?, ?, 'waiting')";
const LIST = "select id, submission, body, private, refused from waiting where book = ? and state = ? order by sequence limit ?";

function waitingFrom(row: Readonly<Record<string, unknown>>): Waiting {
  // Blob columns; only the private part may be null.
  const [submission, body, privatePart] = [row["submission"], row["body"], row["private"]] as [Uint8Array, Uint8Array, Uint8Array | null];
  return {
    id: String(row["id"]),
    offered: { submission, body, private: privatePart, clockOffset: null },
    refused: row["refused"] === null ? null : String(row["refused"]),
  };
}
