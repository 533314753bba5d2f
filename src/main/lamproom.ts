/** Starts the command line: chooses the machine's parts and gives the exit code. */
import { runLamproom } from "../cli/run.ts";
import { verifyTools } from "./book-check.ts";
import { booksOfMachine } from "./books-of-machine.ts";
import { clearLaidAside, nodeMachine, readWholeText, sourcesOf, writeWholeText } from "./machine.ts";
import { programVersion } from "./version.ts";

/** A reader that has seen enough (`| head`) closes the pipe: nothing is wrong then, and nothing more is to be said. */
process.stdout.on("error", (fault: NodeJS.ErrnoException) => {
  if (fault.code !== "EPIPE") throw fault;
  process.exit(0);
});

/** Ctrl-C stops at once; what was laid aside is in the folder for temporary files and goes first. */
process.on("SIGINT", () => {
  void clearLaidAside().finally(() => process.exit(130));
});

const FAULT_OF_OUR_OWN = 70;

try {
  process.exitCode = await runLamproom(process.argv.slice(2), {
    version: programVersion(),
    machine: nodeMachine,
    sources: sourcesOf,
    readText: (name) => (name === "-" ? textOfStandardInput() : readWholeText(name)),
    writeText: writeWholeText,
    books: booksOfMachine(process.env),
    verifyTools,
    answer: (text) => void process.stdout.write(text),
    message: (text) => void process.stderr.write(text),
    colour: process.stdout.isTTY === true && (process.env["NO_COLOR"] ?? "") === "" && process.env["TERM"] !== "dumb",
  });
} catch (fault) {
  // A broken promise between lines of code: said in one sentence, since a stack of calls helps nobody at the bench.
  process.stderr.write(
    `Lamproom met a fault of its own: ${fault instanceof Error ? fault.message : String(fault)}. Please report it with the call you made.\n`,
  );
  process.exitCode = FAULT_OF_OUR_OWN;
} finally {
  await clearLaidAside();
}

async function textOfStandardInput(): Promise<Awaited<ReturnType<typeof readWholeText>>> {
  const pieces: Uint8Array[] = [];
  for await (const bytes of process.stdin) pieces.push(bytes);
  return { ok: true, value: Buffer.concat(pieces).toString("utf8") };
}
