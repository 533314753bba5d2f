/** The command line from its words to its exit code. */
import { nearestNames, visibleText } from "../report/index.ts";
import { runBook, runExport, runImport } from "./book-commands.ts";
import { BOOK, COMMANDS, type Command, EXPORT, EXPOSURE, GLOBAL_FLAGS, IMPORT, SLATE, VERIFY } from "./commands.ts";
import { complain } from "./complain.ts";
import { runExposure } from "./exposure-command.ts";
import { type ReadFlags, readFlags } from "./flags.ts";
import { commandHelp, mainHelp } from "./help.ts";
import { runSlate } from "./slate-command.ts";
import type { Surroundings } from "./surroundings.ts";
import { runVerify } from "./verify-command.ts";

/** What of a message is a text of a file or of the call is shown, never obeyed by the terminal. */
export function runLamproom(words: readonly string[], machine: Surroundings): Promise<number> {
  const message = (text: string): void => machine.message(text.split("\n").map(visibleText).join("\n"));
  return runWords(words, { ...machine, message });
}

async function runWords(words: readonly string[], surroundings: Surroundings): Promise<number> {
  const [first, ...rest] = words;
  if (first === undefined || first === "help" || first.startsWith("-"))
    return runWithoutCommand(
      words.filter((word) => word !== "help"),
      surroundings,
    );
  const command = COMMANDS.find(({ name }) => name === first);
  if (command === undefined)
    return complain(
      {
        type: "unknown-command",
        name: first,
        near: nearestNames(
          first,
          COMMANDS.map(({ name }) => name),
        ),
      },
      surroundings,
    );
  const flags = readFlags(rest, command.flags);
  if (!flags.ok) return complain(flags.refusal, surroundings, command);
  return runCommand(command, flags.value, surroundings);
}

type Run = (flags: ReadFlags, surroundings: Surroundings) => Promise<number> | number;

const RUNS: ReadonlyMap<Command, Run> = new Map<Command, Run>([
  [SLATE, runSlate],
  [VERIFY, runVerify],
  [BOOK, runBook],
  [EXPORT, runExport],
  [IMPORT, runImport],
]);

function runCommand(command: Command, flags: ReadFlags, surroundings: Surroundings): Promise<number> | number {
  const run = RUNS.get(command);
  if (run !== undefined) return run(flags, surroundings);
  if (flags.values.has("--help")) {
    surroundings.answer(`${commandHelp(EXPOSURE)}\n`);
    return 0;
  }
  return runExposure(flags, surroundings);
}

function runWithoutCommand(words: readonly string[], surroundings: Surroundings): number {
  const flags = readFlags(words, GLOBAL_FLAGS);
  if (!flags.ok) return complain(flags.refusal, surroundings);
  const [word] = flags.value.words;
  const command = COMMANDS.find(({ name }) => name === word);
  if (word !== undefined && command === undefined)
    return complain(
      {
        type: "unknown-command",
        name: word,
        near: nearestNames(
          word,
          COMMANDS.map(({ name }) => name),
        ),
      },
      surroundings,
    );
  if (flags.value.values.has("--version")) surroundings.answer(`lamproom ${surroundings.version}\n`);
  else if (command !== undefined) surroundings.answer(`${commandHelp(command)}\n`);
  else if (words.length > 0) surroundings.answer(`${mainHelp()}\n`);
  else {
    surroundings.message(`${mainHelp()}\n`);
    return 2;
  }
  return 0;
}
