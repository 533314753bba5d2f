import { refused } from "../core/result.ts";
import { callWords, exitCodeOf, type Refusal } from "../report/index.ts";
import type { Command } from "./commands.ts";
import type { Surroundings } from "./surroundings.ts";

/** What is wrong with a call, and in which file that it names beside the recordings, if in one. */
export interface WrongCall {
  readonly type: "wrong call";
  readonly refusal: Refusal;
  readonly file: string | null;
}

export function wrongCall(refusal: Refusal, file: string | null = null): { readonly ok: false; readonly refusal: WrongCall } {
  return refused({ type: "wrong call", refusal, file });
}

/** A call that cannot be carried out: in which file, the sentence, what mends it, where help is. No recording was read. */
export function complain(refusal: Refusal, surroundings: Surroundings, command: Command | null = null, file: string | null = null): number {
  const { message, mend } = callWords(refusal);
  const isOfDisk = exitCodeOf(refusal) === 3;
  const where = file === null || message.startsWith(file) ? "" : `${file}: `;
  surroundings.message(`${where}${message} ${mend}\n`);
  if (command !== null && !isOfDisk) surroundings.message(`Help: lamproom ${command.name} --help\n`);
  return isOfDisk ? 3 : 2;
}
