/**
 * The outbox of a browser, in its own database (IndexedDB): what is said here is on this device's disk before anybody is
 * told that it is saved. Windows of one browser share it.
 */
import { type DBSchema, deleteDB, type IDBPDatabase, type IDBPTransaction, openDB } from "idb";
import { type Digest, SALT_BYTES, type Sha256, saidSubmission, writtenInstant } from "../../core/record/index.ts";
import { given, type Result, refused } from "../../core/result.ts";
import type { Answer } from "../ledger.ts";
import type { Outbox, OutboxRefusal, Said, Waiting } from "../outbox.ts";

export interface DevicePlace {
  readonly book: string;
  /** Taken where this browser is no device of the book yet. */
  readonly newDevice: () => string;
  /** UUIDv7. */
  readonly newId: () => string;
  /** So many bytes of chance. */
  readonly chance: (bytes: number) => Uint8Array;
  readonly sha256: Sha256;
  /** Milliseconds since 1970. */
  readonly now: () => number;
}

type State = "waiting" | "conflict" | "not-granted";

interface Tables extends DBSchema {
  /** One row, `own`: this device in the chain of its submissions. */
  chain: {
    key: string;
    value: {
      readonly device: string;
      readonly sequence: number;
      readonly digest: Digest | null;
      readonly head: { readonly size: number; readonly root: Digest } | null;
    };
  };
  /** By sequence. */
  said: {
    key: number;
    value: {
      readonly id: string;
      readonly submission: Uint8Array;
      readonly body: Uint8Array;
      readonly private: Uint8Array | null;
      readonly state: State;
      readonly refused: string | null;
    };
    indexes: { id: string; state: State };
  };
}

/** Raised when the tables change. A newer one is not opened by an older page. */
const EDITION = 1;

const nameOf = (book: string): string => `lamproom-outbox-${book}`;

/** Opens, or makes, the outbox of this browser for a book. */
export async function openDeviceOutbox(place: DevicePlace): Promise<Result<Outbox, OutboxRefusal>> {
  try {
    const kept = { closed: false };
    const database = await openDB<Tables>(nameOf(place.book), EDITION, {
      upgrade: (fresh) => {
        fresh.createObjectStore("chain");
        const said = fresh.createObjectStore("said");
        said.createIndex("id", "id", { unique: true });
        said.createIndex("state", "state");
      },
      // A newer page in another window wants to change the tables: this one must not stand in its way.
      blocking: (_current, _blocked, event) => {
        kept.closed = true;
        (event.target as IDBDatabase).close(); // what a version change is told to
      },
      terminated: () => {
        kept.closed = true;
      },
    });
    const device = await ownDevice(database, place.newDevice);
    return given(new DeviceOutbox(place, database, device, kept));
  } catch (fault) {
    return refused({ type: "not-kept", why: whyNotKept(fault) });
  }
}

/** Takes all of it away: for a book that is no longer used here, once nothing waits. */
export const forgetDeviceOutbox = (book: string): Promise<void> => deleteDB(nameOf(book));

async function ownDevice(database: IDBPDatabase<Tables>, newDevice: () => string): Promise<string> {
  const change = database.transaction("chain", "readwrite", STRICT);
  const own = (await change.store.get("own")) ?? { device: newDevice(), sequence: 0, digest: null, head: null };
  await change.store.put(own, "own");
  await change.done;
  return own.device;
}

/** The transaction is complete once the disk has it, not once the system has. */
const STRICT: IDBTransactionOptions = { durability: "strict" };

type Change = IDBPTransaction<Tables, ("chain" | "said")[], "readwrite">;

class DeviceOutbox implements Outbox {
  readonly device: string;
  readonly book: string;
  private readonly place: DevicePlace;
  private readonly database: IDBPDatabase<Tables>;
  private readonly kept: { readonly closed: boolean };

  constructor(place: DevicePlace, database: IDBPDatabase<Tables>, device: string, kept: { readonly closed: boolean }) {
    this.place = place;
    this.database = database;
    this.book = place.book;
    this.device = device;
    this.kept = kept;
  }

  async say(said: Said): Promise<Result<Waiting, OutboxRefusal>> {
    if (this.kept.closed) return refused({ type: "not-kept", why: CLOSED });
    try {
      const change = this.database.transaction(["chain", "said"], "readwrite", STRICT);
      // Its end is waited for below; where a request failed before, that fault is the one to tell.
      change.done.catch(() => undefined);
      const made = await this.make(said, change);
      if (!made.ok) change.abort();
      else await change.done;
      return made;
    } catch (fault) {
      return refused({ type: "not-kept", why: whyNotKept(fault) });
    }
  }

  /** Sequence, digest before, and submission in one transaction: two windows that speak at once get one after the other. */
  private async make(said: Said, change: Change): Promise<Result<Waiting, OutboxRefusal>> {
    const { book, place } = this;
    const own = await change.objectStore("chain").get("own");
    // The database was emptied under this page: what it said before is gone, and a chain must not go on as if it were not.
    if (own === undefined) return refused({ type: "not-kept", why: EMPTIED });
    const { device, digest: previous, head } = own;
    const [id, sequence, recorded] = [place.newId(), own.sequence + 1, writtenInstant(place.now())];
    const where = { id, book, device, sequence, previous, recorded, head };
    const made = saidSubmission(said, where, () => place.chance(SALT_BYTES), place.sha256);
    if (!made.ok) return made;
    const { submission, body, private: privatePart, digest } = made.value;
    const row = { id, submission, body, private: privatePart, state: "waiting", refused: null } as const;
    await change.objectStore("said").add(row, sequence);
    await change.objectStore("chain").put({ ...own, sequence, digest }, "own");
    return given(waitingFrom(row));
  }

  async waiting(limit: number): Promise<readonly Waiting[]> {
    return this.list("waiting", limit);
  }

  async refusedOnes(): Promise<readonly Waiting[]> {
    return [...(await this.list("conflict")), ...(await this.list("not-granted"))];
  }

  /** Rows of an index under one key come by their own key, the sequence. */
  private async list(state: State, limit?: number): Promise<readonly Waiting[]> {
    return (await this.database.getAllFromIndex("said", "state", state, limit)).map(waitingFrom);
  }

  count(): Promise<number> {
    return this.database.countFromIndex("said", "state", "waiting");
  }

  async answered(id: string, answer: Answer): Promise<void> {
    await this.change(id, answer.type === "conflict" ? { state: "conflict", refused: "conflict" } : null);
  }

  async notGranted(id: string, reason: string): Promise<void> {
    await this.change(id, { state: "not-granted", refused: reason });
  }

  /** Null = it leaves. What is not there any more was answered in another window. */
  private async change(id: string, to: { readonly state: State; readonly refused: string } | null): Promise<void> {
    const change = this.database.transaction("said", "readwrite", STRICT);
    const sequence = await change.store.index("id").getKey(id);
    const row = sequence === undefined ? undefined : await change.store.get(sequence);
    if (sequence !== undefined && row !== undefined)
      await (to === null ? change.store.delete(sequence) : change.store.put({ ...row, ...to }, sequence));
    await change.done;
  }

  async knowHead(head: { readonly size: number; readonly root: Digest }): Promise<void> {
    const change = this.database.transaction("chain", "readwrite", STRICT);
    const own = await change.store.get("own");
    if (own !== undefined) await change.store.put({ ...own, head }, "own");
    await change.done;
  }

  async close(): Promise<void> {
    this.database.close();
  }
}

const waitingFrom = ({ id, submission, body, private: privatePart, refused: why }: Tables["said"]["value"]): Waiting => ({
  ...{ id, offered: { submission, body, private: privatePart, clockOffset: null }, refused: why },
});

const CLOSED = "this browser closed the place where it is kept; reload the page";
const EMPTIED = "this browser emptied the place where it is kept; reload the page";

const WHY: Readonly<Record<string, string>> = {
  QuotaExceededError: "the disk, or the share of it that this browser gives, is full",
  InvalidStateError: CLOSED,
  NotFoundError: EMPTIED,
  VersionError: "a newer release of this page made the place where it is kept; reload the page",
  SecurityError: "this browser keeps nothing for this page",
  ReferenceError: "this browser keeps nothing for this page",
};

function whyNotKept(fault: unknown): string {
  if (!(fault instanceof Error)) throw fault;
  // Another name than these: what the browser itself says is better than nothing.
  return WHY[fault.name] ?? fault.message;
}
