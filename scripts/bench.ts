// `npm run bench [word]`: runs every bench/*.bench.ts (or those whose name holds the word) one after another, each in a
// process of its own so that none warms or burdens the next, and lets them print their tables.
import { spawnSync } from "node:child_process";
import { globSync } from "node:fs";
import { cpus } from "node:os";
import { join } from "node:path";
import { root } from "./run-tool.ts";

const [word = "", ...rest] = process.argv.slice(2);
const benches = globSync("bench/*.bench.ts", { cwd: root })
  .filter((path) => path.includes(word))
  .sort();
if (benches.length === 0) {
  process.stderr.write(`no bench/*.bench.ts has "${word}" in its name\n`);
  process.exit(2);
}
const processors = cpus();
process.stdout.write(`Node ${process.version}, ${processors.length} x ${processors[0]?.model ?? "unknown processor"}\n`);
const failed = benches.filter((path) => {
  process.stdout.write(`\n${path}\n`);
  return spawnSync(process.execPath, [join(root, path), ...rest], { cwd: root, stdio: "inherit" }).status !== 0;
});
if (failed.length > 0) process.stderr.write(`\nfailed: ${failed.join(", ")}\n`);
process.exit(failed.length > 0 ? 1 : 0);
