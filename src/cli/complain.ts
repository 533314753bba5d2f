import { exitCodeOf, type Refusal, refusalWords } from "../report/index.ts";
import type { Command } from "./commands.ts";
import type { Surroundings } from "./surroundings.ts";

/** A call that cannot be carried out: the sentence, what mends it, where help is. Nothing was read. */
export function complain(refusal: Refusal, surroundings: Surroundings, command: Command | null = null): number {
  const { message, mend } = refusalWords(refusal);
  const isOfDisk = exitCodeOf(refusal) === 3;
  surroundings.message(`${message} ${mend}\n`);
  if (command !== null && !isOfDisk) surroundings.message(`Help: lamproom ${command.name} --help\n`);
  return isOfDisk ? 3 : 2;
}
