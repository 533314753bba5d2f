/**
 * What this browser keeps of each recording between visits, by the SHA-256 of its file: what a person answered,
 * declared and chose, and the file itself where it is not too large. IndexedDB of this origin; nothing leaves the machine.
 */
import type { TableMapping } from "../../core/table/mapping.ts";
import type { Answers } from "../../core/table/question.ts";
import type { Settings } from "./protocol.ts";

export interface KeptRecording {
  readonly sha256: string;
  /** Place of its page in the address. */
  readonly id: string;
  readonly name: string;
  readonly size: number;
  /** When it was taken in, milliseconds; they tell files of one name apart. */
  readonly takenAt: number;
  readonly given: Answers;
  readonly mapping: TableMapping | null;
  readonly settings: Settings;
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

const settled = <Value>(request: IDBRequest<Value>): Promise<Value> =>
  new Promise((done, failed) => {
    request.addEventListener("success", () => done(request.result));
    request.addEventListener("error", () => failed(request.error ?? new Error("the browser gave no reason")));
  });

let opening: Promise<IDBDatabase> | null = null;

const opened = (): Promise<IDBDatabase> => {
  opening ??= (() => {
    const request = indexedDB.open("lamproom", 1);
    request.addEventListener("upgradeneeded", () => {
      for (const store of stores) request.result.createObjectStore(store, { keyPath: "sha256" });
    });
    return settled(request);
  })();
  return opening;
};

const within = async <Value>(
  store: Store,
  mode: IDBTransactionMode,
  act: (records: IDBObjectStore) => IDBRequest<Value>,
): Promise<Value> => {
  const transaction = (await opened()).transaction(store, mode);
  const committed = new Promise<void>((done, failed) => {
    transaction.addEventListener("complete", () => done());
    transaction.addEventListener("abort", () => failed(transaction.error ?? new Error("the browser undid the writing")));
  });
  const value = await settled(act(transaction.objectStore(store)));
  await committed;
  return value;
};

interface KeptFile {
  readonly sha256: string;
  readonly file: File;
}

/** All that is kept, in the order in which it was taken in. Rejects where this browser keeps nothing. */
export const keptRecordings = async (): Promise<readonly KeptRecording[]> => {
  // Both written by `keepRecording` alone; a file is only a handle until it is read.
  const said = (await within("recordings", "readonly", (records) => records.getAll())) as readonly Said[];
  const files = (await within("files", "readonly", (records) => records.getAll())) as readonly KeptFile[];
  const fileOf = new Map(files.map(({ sha256, file }) => [sha256, file]));
  return said.map((one) => ({ ...one, file: fileOf.get(one.sha256) ?? null })).sort((a, b) => a.takenAt - b.takenAt);
};

/** What was said of these bytes; null where nothing was. */
export const keptRecording = async (sha256: string): Promise<Said | null> =>
  ((await within("recordings", "readonly", (records) => records.get(sha256))) as Said | undefined) ?? null; // as above

/**
 * Keeps what was said, and the bytes where they are not too many and not kept yet. Gives whether the bytes are kept;
 * rejects where nothing is.
 */
export const keepRecording = async ({ file, ...said }: KeptRecording): Promise<boolean> => {
  await within("recordings", "readwrite", (records) => records.put(said));
  const { sha256, size } = said;
  const files = (await within("files", "readonly", (records) => records.getAll())) as readonly KeptFile[]; // as above
  if (files.some((one) => one.sha256 === sha256)) return true;
  const room = largestShelf - files.reduce((sum, one) => sum + one.file.size, 0);
  if (file === null || size > Math.min(largestFile, room)) return false;
  return within("files", "readwrite", (records) => records.put({ sha256, file })).then(
    () => true,
    // The disk has no room for the bytes; what was said weighs little and stands.
    () => false,
  );
};

export const forgetRecording = async (sha256: string): Promise<void> => {
  for (const store of stores) await within(store, "readwrite", (records) => records.delete(sha256));
};
