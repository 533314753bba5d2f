/** Books in folders of this machine, as the command line makes, checks, exports and brings them back. */
import { readdir } from "node:fs/promises";
import { join, resolve } from "node:path";
import type { BookCallRefusal, BooksOfMachine } from "../cli/surroundings.ts";
import { type Digest, openedPart } from "../core/record/index.ts";
import { given, type Result, refused } from "../core/result.ts";
import { exportFolder } from "../store/folder/export-folder.ts";
import { folderFiles } from "../store/folder/files.ts";
import { machineFolderCalls, makeLastingFolder } from "../store/folder/lasting-folder.ts";
import type { RawBook } from "../store/raw-book.ts";
import { type RestoreFault, restoreBook } from "../store/sqlite/restore.ts";
import { beginBook } from "../work/room/begin-book.ts";
import { bookAt } from "./book-check.ts";
import { bookFolder, whyNotOpened } from "./book-folder.ts";
import { keyFileOf, keyFolder } from "./book-keys.ts";
import { diskRefusal } from "./machine.ts";

const clock = { now: Date.now };

export function booksOfMachine(environment: NodeJS.ProcessEnv): BooksOfMachine {
  return {
    at: bookAt,
    placeFor: async (folder) => {
      const free = await freeFolder(folder);
      return free.ok ? onDisk(() => exportFolder(folder)) : free;
    },
    bringBack: async (from, folder) => {
      const free = await freeFolder(folder);
      if (!free.ok) return free;
      const brought = await onDisk(() => bringBack(from, folder));
      return brought.ok ? brought.value : brought;
    },
    begin: async (book, folder, keys) => {
      const places = { folder: resolve(folder), keys: keys === null ? keyFolder(environment) : resolve(keys) };
      const begun = await onDisk(() => begin(book, places));
      return begun.ok ? begun.value : begun;
    },
  };
}

/** A fault of the disk becomes a refusal; any other goes on. */
async function onDisk<Done>(act: () => Promise<Done>): Promise<Result<Done, BookCallRefusal>> {
  try {
    return given(await act());
  } catch (fault) {
    return diskRefusal(fault);
  }
}

async function freeFolder(folder: string): Promise<Result<true, BookCallRefusal>> {
  const names = await onDisk(() => readdir(folder));
  if (names.ok) return names.value.length === 0 ? given(true) : refused({ type: "folder-taken", folder });
  return names.refusal.type === "file-not-readable" && names.refusal.reason === "there is no such file" ? given(true) : names;
}

/** Files first: they are durable before the entries that name them. */
async function bringBack(from: RawBook, folder: string): Promise<Result<{ readonly size: number }, BookCallRefusal>> {
  await makeLastingFolder(resolve(folder), machineFolderCalls, 0o700);
  const files = folderFiles(join(folder, "files"));
  for (const file of filesOf(from)) {
    const bytes = await from.fileBytes(file);
    const kept = bytes === null ? null : await files.put(once(bytes));
    if (kept?.ok === false)
      return refused({ type: "book-not-opened", why: "what" in kept.refusal ? kept.refusal.what : kept.refusal.type });
  }
  const restored = await restoreBook(join(folder, "book.sqlite"), from);
  return restored.ok ? restored : refused(refusalOf(restored.refusal, folder));
}

function filesOf(book: RawBook): ReadonlySet<Digest> {
  const named = new Set<Digest>();
  for (const { body } of book.entries()) for (const file of body === null ? [] : book.filesNamed(body)) named.add(file);
  return named;
}

async function* once(bytes: Uint8Array): AsyncGenerator<Uint8Array> {
  yield bytes;
}

function refusalOf(fault: RestoreFault, folder: string): BookCallRefusal {
  if (fault.type === "taken") return { type: "folder-taken", folder };
  if (fault.type === "not-whole")
    return { type: "book-not-opened", why: `it is not whole${fault.at === 0 ? "" : ` at entry ${fault.at}`}` };
  return { type: "book-not-opened", why: whyNotOpened(fault) };
}

async function begin(
  book: Parameters<BooksOfMachine["begin"]>[0],
  places: { readonly folder: string; readonly keys: string },
): ReturnType<BooksOfMachine["begin"]> {
  const troubles: unknown[] = [];
  const folder = bookFolder(places, clock, (fault) => troubles.push(fault));
  const found = await folder.find();
  if (!found.ok) return found;
  if (found.value !== null) {
    const name = await nameOf(found.value.ledger);
    await found.value.ledger.close();
    return refused({ type: "book-there-already", name });
  }
  const made = await folder.make(book);
  if (!made.ok) return made;
  const { kept, outbox } = made.value;
  const begun = await beginBook(book, { ledger: kept.ledger, outbox, key: kept.key, now: clock.now() });
  await outbox.close();
  await kept.ledger.close();
  if (troubles[0] !== undefined) throw troubles[0];
  return begun.ok ? given({ book: kept.ledger.book, key: kept.key, keyFile: keyFileOf(places.keys, kept.ledger.book) }) : begun;
}

async function nameOf(ledger: {
  readonly entry: (number: number) => Promise<{ readonly body: Uint8Array | null } | null>;
}): Promise<string> {
  const opened = openedPart((await ledger.entry(1))?.body ?? new Uint8Array(0));
  return opened.ok && typeof opened.value === "object" && opened.value !== null && "name" in opened.value ? String(opened.value.name) : "";
}
