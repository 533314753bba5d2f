/** What the command line needs from the machine; handed in by `main`. */
import type { Result } from "../core/result.ts";
import type { CallRefusal, DoorRefusal } from "../report/index.ts";
import type { ByteSource, Machine } from "../work/ports.ts";
import type { BookInFolder, VerifyTools } from "../work/verify-book.ts";

export type DiskRefusal = Extract<DoorRefusal, { readonly type: "file-not-readable" }>;

export interface Sources {
  readonly sources: readonly ByteSource[];
  /** Files of the folder whose names are not those of recordings. */
  readonly leftOut: readonly string[];
  /** Folders within the folder: nothing in them was looked at. */
  readonly folders: number;
}

export interface Surroundings {
  readonly version: string;
  readonly machine: Machine;
  /** A file, the readable files of a folder, or standard input for "-". */
  readonly sources: (name: string) => Promise<Result<Sources, DiskRefusal>>;
  readonly readText: (name: string) => Promise<Result<string, DiskRefusal>>;
  readonly writeText: (name: string, text: string) => Promise<Result<true, DiskRefusal>>;
  /** The book of a folder as bare bytes, for reading only. */
  readonly rawBook: (folder: string) => Result<BookInFolder, DiskRefusal | Extract<CallRefusal, { readonly type: "no-book-in-folder" }>>;
  readonly verifyTools: Pick<VerifyTools, "sha256" | "verify">;
  /** Standard output: the answer and nothing else. */
  readonly answer: (text: string) => void;
  /** Standard error: everything else. */
  readonly message: (text: string) => void;
  /** Whether marks in colour can be read where the answer goes. */
  readonly colour: boolean;
}
