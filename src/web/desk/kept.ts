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

const store = "recordings";

const settled = <Value>(request: IDBRequest<Value>): Promise<Value> =>
  new Promise((done, failed) => {
    request.addEventListener("success", () => done(request.result));
    request.addEventListener("error", () => failed(request.error ?? new Error("the browser gave no reason")));
  });

let opening: Promise<IDBDatabase> | null = null;

const opened = (): Promise<IDBDatabase> => {
  opening ??= (() => {
    const request = indexedDB.open("lamproom", 1);
    request.addEventListener("upgradeneeded", () => request.result.createObjectStore(store, { keyPath: "sha256" }));
    return settled(request);
  })();
  return opening;
};

const within = async <Value>(mode: IDBTransactionMode, act: (records: IDBObjectStore) => IDBRequest<Value>): Promise<Value> => {
  const transaction = (await opened()).transaction(store, mode);
  const committed = new Promise<void>((done, failed) => {
    transaction.addEventListener("complete", () => done());
    transaction.addEventListener("abort", () => failed(transaction.error ?? new Error("the browser undid the writing")));
  });
  const value = await settled(act(transaction.objectStore(store)));
  await committed;
  return value;
};

/** All that is kept, in the order in which it was taken in. Rejects where this browser keeps nothing. */
export const keptRecordings = async (): Promise<readonly KeptRecording[]> => {
  // Written by `keepRecording` alone.
  const all = (await within("readonly", (records) => records.getAll())) as readonly KeptRecording[];
  return [...all].sort((a, b) => a.takenAt - b.takenAt);
};

export const keptRecording = async (sha256: string): Promise<KeptRecording | null> =>
  ((await within("readonly", (records) => records.get(sha256))) as KeptRecording | undefined) ?? null; // as above

/** Keeps a recording, without its bytes where they are too many. Gives what was kept; rejects where nothing was. */
export const keepRecording = async (recording: KeptRecording): Promise<KeptRecording> => {
  const others = (await keptRecordings()).filter((one) => one.sha256 !== recording.sha256);
  const room = largestShelf - others.reduce((sum, one) => sum + (one.file?.size ?? 0), 0);
  const fits = recording.size <= Math.min(largestFile, room);
  const wanted = fits ? recording : { ...recording, file: null };
  try {
    await within("readwrite", (records) => records.put(wanted));
    return wanted;
  } catch (fault) {
    if (wanted.file === null) throw fault;
    // The disk has no room for the bytes: what was said weighs little and is worth more.
    const lean = { ...recording, file: null };
    await within("readwrite", (records) => records.put(lean));
    return lean;
  }
};

export const forgetRecording = async (sha256: string): Promise<void> =>
  void (await within("readwrite", (records) => records.delete(sha256)));
