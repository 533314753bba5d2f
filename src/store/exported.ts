/** Where a book goes that leaves in the open form. What is in which file: docs/methods/record.md. */
import type { Digest } from "../core/record/index.ts";

export type ExportedText = "README.txt" | "book.json" | "entries.jsonl" | "leaves.txt" | "head.txt" | "keys.txt" | "conflicts.jsonl";

/** Nothing stands under the name that was asked for before `finish`. A fault of the disk is thrown. */
export interface ExportPlace {
  /** Writes a text of lines, each ended by one line feed. */
  readonly text: (name: ExportedText, lines: Iterable<string>) => Promise<void>;
  /** Writes the bytes of a file under its digest. */
  readonly file: (file: Digest, bytes: Uint8Array) => Promise<void>;
  readonly finish: () => Promise<void>;
  /** Takes away what was written so far. */
  readonly giveUp: () => Promise<void>;
}
