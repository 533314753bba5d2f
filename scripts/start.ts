// `npm start`, second half: build the screens where they changed, then serve them from this very process.

import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { buildWeb } from "./build-web.ts";
import { root } from "./run-tool.ts";

const built = await buildWeb();
if (!built.ok) {
  process.stderr.write(`${built.output}\nlamproom: the screens could not be built; what the build said stands above.\n`);
  process.exit(1);
}
if (built.built) process.stderr.write("lamproom: the screens were built\n");

const serve = join(root, "src/main/serve.ts");
// Whoever looks at the command line finds the program that serves, as if it had been started by name.
process.argv[1] = serve;
await import(pathToFileURL(serve).href);
