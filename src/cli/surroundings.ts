/** What the command line needs from the machine; handed in by `main`. */
import type { Result } from "../core/result.ts";
import type { CallRefusal, DoorRefusal, RefusalOfBook } from "../report/index.ts";
import type { ExportPlace } from "../work/export-book.ts";
import type { ByteSource, Machine } from "../work/ports.ts";
import type { BookToBegin } from "../work/room/begin-book.ts";
import type { BookInFolder, VerifyTools } from "../work/verify-book.ts";

export type DiskRefusal = Extract<DoorRefusal, { readonly type: "file-not-readable" }>;

export interface Sources {
  readonly sources: readonly ByteSource[];
  /** Files of the folder whose names are not those of recordings. */
  readonly leftOut: readonly string[];
  /** Folders within the folder: nothing in them was looked at. */
  readonly folders: number;
}

export type BookCallRefusal = DiskRefusal | RefusalOfBook | Extract<CallRefusal, { readonly type: "no-book-in-folder" | "folder-taken" }>;

export interface BegunBook {
  readonly book: string;
  /** Line of the public key, and where the private one lies. */
  readonly key: string;
  readonly keyFile: string;
}

/** What is done to books in folders; each opens what it needs and closes it. */
export interface BooksOfMachine {
  /** The book that a folder keeps, or that was exported into it, as bare bytes for reading only. */
  readonly at: (folder: string) => Result<BookInFolder, BookCallRefusal>;
  readonly placeFor: (folder: string) => Promise<Result<ExportPlace, BookCallRefusal>>;
  /** Brings back a book that was exported: the same entries under the same numbers and head. */
  readonly bringBack: (from: BookInFolder, folder: string) => Promise<Result<{ readonly size: number }, BookCallRefusal>>;
  /** `keys`: folder for the private key; null = the usual place. */
  readonly begin: (book: BookToBegin, folder: string, keys: string | null) => Promise<Result<BegunBook, BookCallRefusal>>;
}

export interface Surroundings {
  readonly version: string;
  readonly machine: Machine;
  /** A file, the readable files of a folder, or standard input for "-". */
  readonly sources: (name: string) => Promise<Result<Sources, DiskRefusal>>;
  readonly readText: (name: string) => Promise<Result<string, DiskRefusal>>;
  readonly writeText: (name: string, text: string) => Promise<Result<true, DiskRefusal>>;
  readonly books: BooksOfMachine;
  readonly verifyTools: Pick<VerifyTools, "sha256" | "verify">;
  /** Standard output: the answer and nothing else. */
  readonly answer: (text: string) => void;
  /** Standard error: everything else. */
  readonly message: (text: string) => void;
  /** Whether marks in colour can be read where the answer goes. */
  readonly colour: boolean;
}
