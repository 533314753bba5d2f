/** `lamproom verify FOLDER`: whether a book is whole, and where it is not. */
import { countText, verifyWords } from "../report/index.ts";
import { verifyBook } from "../work/verify-book.ts";
import { VERIFY } from "./commands.ts";
import { complain } from "./complain.ts";
import type { ReadFlags } from "./flags.ts";
import { commandHelp } from "./help.ts";
import type { Surroundings } from "./surroundings.ts";

export async function runVerify(flags: ReadFlags, surroundings: Surroundings): Promise<number> {
  if (flags.values.has("--help")) {
    surroundings.answer(`${commandHelp(VERIFY)}\n`);
    return 0;
  }
  const [folder, ...more] = flags.words;
  if (folder === undefined || more.length > 0)
    return complain({ type: "words-not-fitting", found: flags.words.length, expected: "the folder of one book" }, surroundings, VERIFY);
  const book = surroundings.books.at(folder);
  if (!book.ok) return complain(book.refusal, surroundings, VERIFY);
  const verdict = await verifyBook(book.value, flags.values.get("--key")?.[0] ?? null, {
    ...surroundings.verifyTools,
    progress: (done) => told(done, surroundings),
  });
  book.value.close();
  surroundings.answer(flags.values.has("--json") ? `${JSON.stringify(verdict)}\n` : `${verifyWords(verdict).join("\n")}\n`);
  return verdict.type === "whole" ? 0 : 1;
}

const TOLD_EVERY = 50_000;

/** A large book takes minutes: whoever waits sees how far it is. */
export function told(done: number, { message }: Surroundings): true {
  if (done % TOLD_EVERY === 0) message(`${countText(done)} entries looked at.\n`);
  return true;
}
