/** `lamproom book new`, `export` and `import`: a book begins, leaves in the open form, and comes back. */
import { bookBegunWords, broughtBackWords, exportedWords, verifyWords } from "../report/index.ts";
import { exportBook } from "../work/export-book.ts";
import { type BookInFolder, type Verdict, verifyBook } from "../work/verify-book.ts";
import { BOOK, EXPORT, IMPORT } from "./commands.ts";
import { complain } from "./complain.ts";
import { one, type ReadFlags } from "./flags.ts";
import { commandHelp } from "./help.ts";
import type { Surroundings } from "./surroundings.ts";
import { told } from "./verify-command.ts";

export async function runBook(flags: ReadFlags, surroundings: Surroundings): Promise<number> {
  if (flags.values.has("--help")) return help(BOOK, surroundings);
  const [verb, folder, ...more] = flags.words;
  if (verb !== "new" || folder === undefined || more.length > 0)
    return complain({ type: "words-not-fitting", found: flags.words.length, expected: "the word new and one folder" }, surroundings, BOOK);
  const [name, zone] = [one(flags, "--name"), one(flags, "--zone")];
  if (name === null) return complain({ type: "flag-without-value", name: "--name", value: "NAME" }, surroundings, BOOK);
  if (zone === null) return complain({ type: "flag-without-value", name: "--zone", value: "ZONE" }, surroundings, BOOK);
  const book = { name, zone, isDemonstration: flags.values.has("--demonstration") };
  const begun = await surroundings.books.begin(book, folder, one(flags, "--keys"));
  if (!begun.ok) return complain(begun.refusal, surroundings, BOOK);
  surroundings.answer(
    flags.values.has("--json") ? `${JSON.stringify(begun.value)}\n` : `${bookBegunWords({ ...begun.value, name, folder }).join("\n")}\n`,
  );
  return 0;
}

export async function runExport(flags: ReadFlags, surroundings: Surroundings): Promise<number> {
  if (flags.values.has("--help")) return help(EXPORT, surroundings);
  const [folder, out, ...more] = flags.words;
  if (folder === undefined || out === undefined || more.length > 0)
    return complain(
      { type: "words-not-fitting", found: flags.words.length, expected: "the folder of a book and one for the export" },
      surroundings,
      EXPORT,
    );
  const book = surroundings.books.at(folder);
  if (!book.ok) return complain(book.refusal, surroundings, EXPORT);
  const place = await surroundings.books.placeFor(out);
  if (!place.ok) return complain(place.refusal, surroundings, EXPORT);
  try {
    const exported = await exportBook(book.value, place.value, surroundings.verifyTools.sha256);
    await place.value.finish();
    const verdict = await verifiedAt(out, flags, surroundings);
    surroundings.answer(
      flags.values.has("--json")
        ? `${JSON.stringify({ ...exported, verdict })}\n`
        : `${[...exportedWords({ ...exported, out }), ...verifyWords(verdict)].join("\n")}\n`,
    );
    return verdict.type === "whole" ? 0 : 1;
  } catch (fault) {
    await place.value.giveUp();
    throw fault;
  } finally {
    book.value.close();
  }
}

export async function runImport(flags: ReadFlags, surroundings: Surroundings): Promise<number> {
  if (flags.values.has("--help")) return help(IMPORT, surroundings);
  const [from, folder, ...more] = flags.words;
  if (from === undefined || folder === undefined || more.length > 0)
    return complain(
      { type: "words-not-fitting", found: flags.words.length, expected: "the folder of an export and one for the book" },
      surroundings,
      IMPORT,
    );
  const book = surroundings.books.at(from);
  if (!book.ok) return complain(book.refusal, surroundings, IMPORT);
  const before = await verified(book.value, flags, surroundings);
  // What is not whole is not brought back: it would be a book that signs over what was touched.
  if (before.type !== "whole") {
    book.value.close();
    surroundings.message(`${verifyWords(before).join("\n")}\nNothing was brought back.\n`);
    return 1;
  }
  const brought = await surroundings.books.bringBack(book.value, folder);
  book.value.close();
  if (!brought.ok) return complain(brought.refusal, surroundings, IMPORT);
  const verdict = await verifiedAt(folder, flags, surroundings);
  surroundings.answer(
    flags.values.has("--json")
      ? `${JSON.stringify({ ...brought.value, verdict })}\n`
      : `${[...broughtBackWords({ ...brought.value, folder }), ...verifyWords(verdict)].join("\n")}\n`,
  );
  return verdict.type === "whole" ? 0 : 1;
}

async function verifiedAt(folder: string, flags: ReadFlags, surroundings: Surroundings): Promise<Verdict> {
  const book = surroundings.books.at(folder);
  if (!book.ok) throw new Error(`broken promise: what was just written can be read (${book.refusal.type})`);
  const verdict = await verified(book.value, flags, surroundings);
  book.value.close();
  return verdict;
}

function verified(book: BookInFolder, flags: ReadFlags, surroundings: Surroundings): Promise<Verdict> {
  return verifyBook(book, one(flags, "--key"), { ...surroundings.verifyTools, progress: (done) => told(done, surroundings) });
}

function help(command: typeof BOOK, surroundings: Surroundings): number {
  surroundings.answer(`${commandHelp(command)}\n`);
  return 0;
}
