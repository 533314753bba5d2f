/** Starts the server: chooses the folder of the pages and the port, and prints the address. */
import { existsSync } from "node:fs";
import { join } from "node:path";
import { type CallRefusal, exitCodeOf, refusalWords } from "../report/index.ts";
import { listenOn, portFrom, stopInGoodOrder } from "../server/listen.ts";
import { buildServer } from "../server/server.ts";
import { programVersion } from "./version.ts";

const pages = join(import.meta.dirname, "../../dist/web");

async function serve(): Promise<void> {
  const port = portFrom(process.env["PORT"]);
  if (!port.ok) return giveUp(port.refusal);
  if (!existsSync(join(pages, "index.html"))) return giveUp({ type: "web-part-not-built" });
  const server = await buildServer({ pages, version: programVersion() });
  const address = await listenOn(server, port.value);
  if (!address.ok) return giveUp(address.refusal);
  stopInGoodOrder(server);
  process.stdout.write(`Lamproom is at ${address.value}\nNothing leaves this machine. Stop with Ctrl-C.\n`);
}

function giveUp(refusal: CallRefusal): void {
  const { message, mend } = refusalWords(refusal);
  process.stderr.write(`${message} ${mend}\n`);
  process.exitCode = exitCodeOf(refusal);
}

await serve();
