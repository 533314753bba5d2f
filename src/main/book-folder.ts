/** The folder of a book on this machine: its tables, its files, and its key elsewhere. */
import { randomBytes, randomUUID } from "node:crypto";
import { existsSync } from "node:fs";
import { homedir } from "node:os";
import { join } from "node:path";
import { uuidv7 } from "uuidv7";
import { given, type Result, refused } from "../core/result.ts";
import type { RefusalOfBook } from "../report/index.ts";
import type { NotAnExport } from "../store/folder/exported-book.ts";
import { folderFiles } from "../store/folder/files.ts";
import { machineFolderCalls, makeLastingFolder } from "../store/folder/lasting-folder.ts";
import { booksIn, openLedger } from "../store/sqlite/ledger.ts";
import { openOutbox } from "../store/sqlite/outbox.ts";
import type { TablesFault } from "../store/sqlite/tables.ts";
import type { Clock, KeptBook } from "../work/room/room-at-work.ts";
import type { BookFolder } from "./book-behind.ts";
import { type BookKey, keyFolder, keyOfBook, newKeyOfBook } from "./book-keys.ts";

/** Where the book of this server is: LAMPROOM_BOOK, or the place for what this machine's user keeps. */
export function bookFolderPath(environment: NodeJS.ProcessEnv): string {
  return environment["LAMPROOM_BOOK"] ?? join(environment["XDG_DATA_HOME"] ?? join(homedir(), ".local", "share"), "lamproom", "book");
}

export interface FolderPlaces {
  readonly folder: string;
  readonly keys: string;
}

export const placesIn = (environment: NodeJS.ProcessEnv): FolderPlaces => ({
  ...{ folder: bookFolderPath(environment), keys: keyFolder(environment) },
});

/** What a book begins with: its name, its key, its rules. */
const FIRST_ENTRIES = 3;

const notOpened = (why: string): Result<never, RefusalOfBook> => refused({ type: "book-not-opened", why });

/** In words that follow "cannot be opened:". */
export function whyNotOpened(fault: TablesFault | NotAnExport): string {
  if (fault.type === "not-an-export") return fault.why === "newer form" ? "a newer release exported it" : "its book.json cannot be read";
  if (fault.type === "newer-tables") return "a newer release wrote it";
  return `${fault.type === "damaged" ? "its file is damaged" : "the disk failed"}: ${fault.what}`;
}

/** Finds and makes the book of a folder. `onTrouble` is told where the newest head could not be written beside the key. */
export function bookFolder({ folder, keys }: FolderPlaces, clock: Clock, onTrouble: (fault: unknown) => void): BookFolder {
  const path = join(folder, "book.sqlite");
  const opened = async (book: string, key: BookKey): Promise<Result<KeptBook, RefusalOfBook>> => {
    const files = folderFiles(join(folder, "files"));
    const ledger = await openLedger({ path, book, signer: key.signer, knownHead: key.knownHead, files, now: clock.now, onTrouble });
    if (!ledger.ok) return notOpened(whyNotOpened(ledger.refusal));
    return given({ ledger: ledger.value, files, key: key.line, held: () => ledger.value.held() });
  };
  return {
    find: async () => {
      const [book] = existsSync(path) ? booksIn(path) : [];
      if (book === undefined) return given(null);
      const key = await keyOfBook(keys, book);
      if (key === null) return notOpened(`the key that signs it, ${book}.pem, is not in ${keys}`);
      const kept = await opened(book, key);
      if (!kept.ok || (await kept.value.ledger.size()) >= FIRST_ENTRIES) return kept;
      // A beginning that was broken off is gone on with when somebody begins.
      await kept.value.ledger.close();
      return given(null);
    },
    make: async () => {
      await makeLastingFolder(folder, machineFolderCalls, 0o700);
      const [begun] = existsSync(path) ? booksIn(path) : [];
      const book = begun ?? randomUUID();
      const kept = await opened(book, (await keyOfBook(keys, book)) ?? (await newKeyOfBook(keys, book)));
      if (!kept.ok) return kept;
      const outbox = openOutbox({
        ...{ path: join(folder, "outbox.sqlite"), book, newDevice: randomUUID, newId: uuidv7, now: clock.now },
        chance: (bytes) => new Uint8Array(randomBytes(bytes)),
      });
      for (const { id, offered } of await outbox.waiting(FIRST_ENTRIES)) {
        const answers = await kept.value.ledger.append([offered]);
        if (!answers.ok) return notOpened(answers.refusal.type);
        for (const answer of answers.value) await outbox.answered(id, answer);
      }
      return given({ kept: kept.value, outbox });
    },
  };
}
