/** A book in SQLite as bare bytes, opened for reading only. */
import { join } from "node:path";
import { folderFiles } from "../folder/files.ts";
import type { RawBook, RawEntry } from "../raw-book.ts";
import { filesNamed } from "./offered-submission.ts";
import { openForReading } from "./tables.ts";

/** The first book of a folder; null where it has none. */
export function rawBook(folder: string): RawBook | null {
  const database = openForReading(join(folder, "book.sqlite"));
  const found = database.prepare("select book, id from book order by book limit 1").get();
  if (found === undefined) {
    database.close();
    return null;
  }
  const book = Number(found["book"]);
  const files = folderFiles(join(folder, "files"));
  const note = database.prepare("select note from head where book = ?").get(book)?.["note"];
  return {
    ...{ book: String(found["id"]), note: note === undefined ? "" : String(note), filesNamed },
    entries: function* () {
      const rows = database.prepare("select number, entry, submission, body, private from entry where book = ? order by number");
      for (const row of rows.iterate(book)) yield row as unknown as RawEntry; // the columns named above
    },
    fileDigest: async (file) => {
      const got = await files.get(file);
      if (got.ok) return file;
      return got.refusal.type === "file-damaged" ? got.refusal.found : null;
    },
    close: () => database.close(),
  };
}
