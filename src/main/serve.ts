/** Starts the server: chooses the folder of the pages and the port, and prints the address. */
import { existsSync } from "node:fs";
import { join } from "node:path";
import { type CallRefusal, exitCodeOf, refusalWords } from "../report/index.ts";
import { listenOn, portFrom, stopInGoodOrder } from "../server/listen.ts";
import { buildServer } from "../server/server.ts";
import { bookBehind } from "./book-behind.ts";
import { bookFolder, placesIn } from "./book-folder.ts";
import { programVersion } from "./version.ts";

const pages = join(import.meta.dirname, "../../dist/web");

async function serve(): Promise<void> {
  const port = portFrom(process.env["PORT"]);
  if (!port.ok) return giveUp(port.refusal);
  if (!existsSync(join(pages, "index.html"))) return giveUp({ type: "web-part-not-built" });
  const places = placesIn(process.env);
  const book = bookBehind(bookFolder(places, clock, sayTrouble), clock);
  const server = await buildServer({ pages, version: programVersion(), book: { door: book, now: clock.now }, onFault: sayTrouble });
  server.addHook("onClose", () => book.close());
  const address = await listenOn(server, port.value);
  if (!address.ok) return giveUp(address.refusal);
  stopInGoodOrder(server);
  process.stdout.write(`Lamproom is at ${address.value}\nNothing leaves this machine. Stop with Ctrl-C.\n`);
  // A large book takes a while to be read anew; until then its calls say how far that is.
  const behind = await book.look();
  if (behind.type === "failed") sayTrouble(`${refusalWords(behind.refusal).message} ${refusalWords(behind.refusal).mend}`);
}

const clock = { now: Date.now };

/** Goes on without it: recordings and calculators need no book, and its screens say what is wrong. */
function sayTrouble(fault: unknown): void {
  process.stderr.write(`${fault instanceof Error ? fault.message : String(fault)}\n`);
}

function giveUp(refusal: CallRefusal): void {
  const { message, mend } = refusalWords(refusal);
  process.stderr.write(`${message} ${mend}\n`);
  process.exitCode = exitCodeOf(refusal);
}

await serve();
