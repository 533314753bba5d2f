/**
 * What this browser keeps of each recording between visits, by the SHA-256 of its file: what a person answered,
 * declared and chose, and the file itself where it is not too large. IndexedDB of this origin; nothing leaves the machine.
 */
import type { Words } from "./merge-said.ts";

export interface KeptRecording extends Words {
  readonly sha256: string;
  /** Place of its page in the address. */
  readonly id: string;
  readonly name: string;
  readonly size: number;
  /** When it was taken in, milliseconds; they tell files of one name apart. */
  readonly takenAt: number;
  /** Counts the writings: a window that knows another one than stands here was overtaken. */
  readonly revision: number;
  /** Null where the file is too large to be kept: dropped again it finds what was said of it. */
  readonly file: File | null;
}

/** One file, and all of them together: a shift of readings is far below the first. Ours. */
const largestFile = 64 * 1024 * 1024;
const largestShelf = 512 * 1024 * 1024;

/** What was said is written with every word, the bytes once. */
const stores = ["recordings", "files"] as const;
type Store = (typeof stores)[number];

type Said = Omit<KeptRecording, "file">;

/** A browser that does not answer is one that keeps nothing: pages go on without. A disk may take its time to write. Ours. */
const patienceMs: Readonly<Record<"readonly" | "readwrite", number>> = { readonly: 10_000, readwrite: 60_000 };

const settled = <Value>(request: IDBRequest<Value>): Promise<Value> =>
  new Promise((done, failed) => {
    request.addEventListener("success", () => done(request.result));
    request.addEventListener("error", () => failed(request.error ?? new Error("the browser gave no reason")));
  });

const answeredWithin = async <Value>(waitMs: number, answer: Promise<Value>): Promise<Value> => {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const late = new Promise<never>((_, failed) => {
    timer = setTimeout(() => failed(new Error(`its store did not answer within ${waitMs / 1000} s`)), waitMs);
  });
  try {
    return await Promise.race([answer, late]);
  } finally {
    clearTimeout(timer);
  }
};

let opening: Promise<IDBDatabase> | null = null;

/** Opened anew after it failed or was closed: by a person who clears what the browser keeps, or by a newer page. */
const letGo = (): void => {
  opening = null;
};

const opened = (): Promise<IDBDatabase> => {
  opening ??= openNow();
  return opening;
};

const openNow = async (): Promise<IDBDatabase> => {
  const request = indexedDB.open("lamproom", 1);
  request.addEventListener("upgradeneeded", () => {
    for (const store of stores) request.result.createObjectStore(store, { keyPath: "sha256" });
  });
  try {
    const database = await answeredWithin(patienceMs.readonly, settled(request));
    database.addEventListener("close", letGo);
    database.addEventListener("versionchange", () => {
      database.close();
      letGo();
    });
    return database;
  } catch (fault) {
    letGo();
    throw fault;
  }
};

/** One act on all that is kept: it happens whole or not at all, and no other window writes in between. */
const within = async <Value>(
  mode: "readonly" | "readwrite",
  act: (inStore: (store: Store) => IDBObjectStore) => Promise<Value>,
): Promise<Value> => {
  const transaction = (await opened()).transaction(stores, mode);
  const committed = new Promise<void>((done, failed) => {
    transaction.addEventListener("complete", () => done());
    transaction.addEventListener("abort", () => failed(transaction.error ?? new Error("the browser undid the writing")));
  });
  const both = Promise.all([act((store) => transaction.objectStore(store)), committed]);
  const [value] = await answeredWithin(patienceMs[mode], both);
  return value;
};

interface KeptFile {
  readonly sha256: string;
  readonly file: File;
}

/** Both stores are written by `keepRecording` alone. */
const allSaid = async (inStore: (store: Store) => IDBObjectStore): Promise<readonly Said[]> => settled(inStore("recordings").getAll());
const allFiles = async (inStore: (store: Store) => IDBObjectStore): Promise<readonly KeptFile[]> => settled(inStore("files").getAll());

/** All that is kept, in the order in which it was taken in. Rejects where this browser keeps nothing. */
export const keptRecordings = async (): Promise<readonly KeptRecording[]> => {
  // A file is only a handle until it is read.
  const [said, files] = await within("readonly", (inStore) => Promise.all([allSaid(inStore), allFiles(inStore)]));
  const fileOf = new Map(files.map(({ sha256, file }) => [sha256, file]));
  return said.map((one) => ({ ...numbered(one), file: fileOf.get(one.sha256) ?? null })).sort((a, b) => a.takenAt - b.takenAt);
};

/** What was said of these bytes; null where nothing was. */
export const keptRecording = (sha256: string): Promise<Said | null> =>
  within("readonly", (inStore) => saidOf(inStore("recordings"), sha256));

const saidOf = async (records: IDBObjectStore, sha256: string): Promise<Said | null> => {
  const said = (await settled(records.get(sha256))) as Said | undefined; // as above
  return said === undefined ? null : numbered(said);
};

/** Those of before revisions were counted have none. */
const numbered = (said: Omit<Said, "revision"> & Partial<Pick<Said, "revision">>): Said => ({ revision: 0, ...said });

export interface Kept {
  readonly said: Said;
  /** The bytes are kept too. */
  readonly isWhole: boolean;
}

type About = Omit<Said, "revision" | keyof Words>;
type Say = (there: Said | null) => Words;

/**
 * Keeps what `say` makes of what stands there (null where nothing does), and the bytes where they are not too many and
 * not kept yet. Rejects where nothing is kept.
 */
export const keepRecording = async (about: About, file: File, say: Say): Promise<Kept> => {
  try {
    return await keepNow(about, file.size > largestFile ? null : file, say);
  } catch {
    // Most often the disk has no room for the bytes; what was said weighs little. Where that fails too, it is told.
    return keepNow(about, null, say);
  }
};

const keepNow = (about: About, file: File | null, say: Say): Promise<Kept> =>
  within("readwrite", async (inStore) => {
    const { sha256 } = about;
    const [there, files] = await Promise.all([saidOf(inStore("recordings"), sha256), allFiles(inStore)]);
    const said: Said = { ...about, ...say(there), revision: (there?.revision ?? 0) + 1 };
    await settled(inStore("recordings").put(said));
    if (files.some((one) => one.sha256 === sha256)) return { said, isWhole: true };
    const room = largestShelf - files.reduce((sum, one) => sum + one.file.size, 0);
    if (file === null || file.size > room) return { said, isWhole: false };
    await settled(inStore("files").put({ sha256, file }));
    return { said, isWhole: true };
  });

export const forgetRecording = (sha256: string): Promise<void> =>
  within("readwrite", async (inStore) => {
    await Promise.all(stores.map((store) => settled(inStore(store).delete(sha256))));
  });
