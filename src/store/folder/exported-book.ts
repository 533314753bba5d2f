/** A book in the open form, read back as bare bytes. */
import { closeSync, existsSync, openSync, readFileSync, readSync } from "node:fs";
import { join } from "node:path";
import {
  type Digest,
  fromCanonicalJson,
  fromOpenLine,
  hashFromDigest,
  isDigest,
  OPEN_FORM,
  textFromUtf8,
} from "../../core/record/index.ts";
import { given, type Result, refused } from "../../core/result.ts";
import { filesNamed } from "../files-named.ts";
import type { RawBook, RawConflict, RawEntry } from "../raw-book.ts";
import { fileBytes, fileDigest } from "./file-bytes.ts";
import { folderFiles } from "./files.ts";

export type NotAnExport = { readonly type: "not-an-export"; readonly why: "book.json" | "newer form" };

/** The book of a folder; null where none was exported into it. */
export function exportedBook(folder: string): Result<RawBook | null, NotAnExport> {
  const path = join(folder, "book.json");
  if (!existsSync(path)) return given(null);
  const read = fromCanonicalJson(readFileSync(path, "utf8").trimEnd());
  if (!read.ok || typeof read.value !== "object" || read.value === null) return refused({ type: "not-an-export", why: "book.json" });
  const { book, export: form } = read.value as Readonly<Record<string, unknown>>; // its members are looked at below
  if (typeof book !== "string" || typeof form !== "number") return refused({ type: "not-an-export", why: "book.json" });
  if (form !== OPEN_FORM) return refused({ type: "not-an-export", why: "newer form" });
  return given(new LinesOfBook(folder, book));
}

class LinesOfBook implements RawBook {
  readonly book: string;
  readonly note: string;
  readonly filesNamed = filesNamed;
  readonly fileDigest: RawBook["fileDigest"];
  readonly fileBytes: RawBook["fileBytes"];
  private readonly folder: string;

  constructor(folder: string, book: string) {
    this.folder = folder;
    this.book = book;
    const head = join(folder, "head.txt");
    this.note = existsSync(head) ? readFileSync(head, "utf8") : "";
    const files = folderFiles(join(folder, "files"));
    this.fileDigest = (file: Digest) => fileDigest(files, file);
    this.fileBytes = (file: Digest) => fileBytes(files, file);
  }

  *entries(): Iterable<RawEntry> {
    const path = join(this.folder, "leaves.txt");
    const leaves = existsSync(path) ? linesOf(path)[Symbol.iterator]() : null;
    let number = 0;
    for (const line of linesOf(join(this.folder, "entries.jsonl"))) {
      number += 1;
      const leaf = leaves === null ? null : leafFrom(leaves.next().value);
      const read = fromOpenLine(line ?? "");
      // A line that cannot be read stands for an entry of no bytes: whoever checks finds it at its number.
      const bytes = read.ok ? read.value : { entry: NOTHING, submission: NOTHING, body: null, private: null };
      yield { number, ...bytes, leaf, isFound: null };
    }
  }

  fault(): null {
    return null;
  }

  hasStrayRows(): boolean {
    return false;
  }

  *conflicts(): Iterable<RawConflict> {
    for (const line of linesOf(join(this.folder, "conflicts.jsonl"))) {
      const conflict = conflictFrom(line ?? "");
      if (conflict !== null) yield conflict;
    }
  }

  close(): void {
    // Each walk closes what it opened.
  }
}

const NOTHING = new Uint8Array(0);

/** One that is not there, or no hash, fits no entry. */
const leafFrom = (line: unknown): Uint8Array => (isDigest(line) ? hashFromDigest(line) : NOTHING);

/** A line of an entry in whose place of the entry stands where it lies: `{"number":…,"received":…}`. */
function conflictFrom(line: string): RawConflict | null {
  const read = fromOpenLine(line);
  if (!read.ok) return null;
  const { entry, submission, body, private: privatePart } = read.value;
  const place = fromCanonicalJson(textFromUtf8(entry) ?? "");
  if (!place.ok || typeof place.value !== "object" || place.value === null) return null;
  const { number, received } = place.value as Readonly<Record<string, unknown>>; // its members are looked at below
  if (typeof number !== "number" || typeof received !== "string") return null;
  return { number, received, submission, body, private: privatePart };
}

const PIECE_BYTES = 1_048_576;

/** Lines without their line feeds; null for one that is no UTF-8. A file that is not there has none. */
function* linesOf(path: string): Iterable<string | null> {
  if (!existsSync(path)) return;
  const file = openSync(path, "r");
  try {
    let rest = Buffer.alloc(0);
    const piece = Buffer.alloc(PIECE_BYTES);
    for (let got = readSync(file, piece); got > 0; got = readSync(file, piece)) {
      rest = Buffer.concat([rest, piece.subarray(0, got)]);
      for (let end = rest.indexOf(10); end >= 0; end = rest.indexOf(10)) {
        yield textFromUtf8(rest.subarray(0, end));
        rest = rest.subarray(end + 1);
      }
    }
    if (rest.length > 0) yield textFromUtf8(rest);
  } finally {
    closeSync(file);
  }
}
