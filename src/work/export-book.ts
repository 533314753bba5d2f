/** Lets a book leave in the open form: every entry a line, heads, keys and files, and words on how to read and check them. */
import {
  canonicalJson,
  type Digest,
  digestFromHash,
  type LineBytes,
  leafHash,
  OPEN_FORM,
  openedPart,
  openLine,
  type Sha256,
  submissionFrom,
  utf8FromText,
} from "../core/record/index.ts";
import { exportReadme } from "../report/index.ts";
import type { ExportPlace } from "../store/exported.ts";
import type { RawBook } from "../store/raw-book.ts";

/** What leaves, and the place for it; named here for the doors. */
export type { ExportPlace } from "../store/exported.ts";

export interface Exported {
  readonly size: number;
  readonly files: number;
  /** Files that entries name and that were not there, or damaged: the export lacks them, too. */
  readonly missing: readonly Digest[];
}

/** The bytes are those of the book, wrong ones too: whether they are whole is for verify to say. */
export async function exportBook(book: RawBook, place: ExportPlace, sha256: Sha256): Promise<Exported> {
  const seen: Seen = { size: 0, leaves: [], keys: [], named: new Set() };
  await place.text("entries.jsonl", entryLines(book, seen, sha256));
  await place.text("leaves.txt", seen.leaves);
  await place.text("head.txt", book.note === "" ? [] : [book.note.replace(/\n$/, "")]);
  await place.text("keys.txt", seen.keys);
  await place.text("conflicts.jsonl", conflictLines(book));
  const missing: Digest[] = [];
  for (const file of seen.named) {
    const bytes = await book.fileBytes(file);
    if (bytes === null) missing.push(file);
    else await place.file(file, bytes);
  }
  await place.text("book.json", [jsonText({ book: book.book, export: OPEN_FORM })]);
  await place.text("README.txt", exportReadme({ book: book.book, size: seen.size, files: seen.named.size }));
  return { size: seen.size, files: seen.named.size - missing.length, missing };
}

interface Seen {
  size: number;
  readonly leaves: Digest[];
  readonly keys: string[];
  readonly named: Set<Digest>;
}

function* entryLines(book: RawBook, seen: Seen, sha256: Sha256): Iterable<string> {
  for (const raw of book.entries()) {
    seen.size += 1;
    seen.leaves.push(digestFromHash(raw.leaf ?? leafHash(raw.entry, sha256)));
    for (const file of raw.body === null ? [] : book.filesNamed(raw.body)) seen.named.add(file);
    const key = keyBegun(raw);
    if (key !== null) seen.keys.push(key);
    yield openLine(raw);
  }
}

/** Line of the key that an entry begins; null where it begins none. */
function keyBegun({ submission, body }: LineBytes): string | null {
  const read = submissionFrom(submission);
  if (!read.ok || read.value.kind !== "key-begun" || body === null) return null;
  const opened = openedPart(body);
  const key = opened.ok && typeof opened.value === "object" && opened.value !== null && "key" in opened.value ? opened.value.key : null;
  return typeof key === "string" ? key : null;
}

/** In the place of the entry stands where it lies: which number has its id, and when it came. */
function* conflictLines(book: RawBook): Iterable<string> {
  for (const { number, received, submission, body, private: privatePart } of book.conflicts())
    yield openLine({ entry: utf8FromText(jsonText({ number, received })), submission, body, private: privatePart });
}

function jsonText(value: unknown): string {
  const text = canonicalJson(value);
  if (!text.ok) throw new Error(`broken promise: numbers and short texts have a canonical form (${text.refusal.why})`);
  return text.value;
}
