import { createHash } from "node:crypto";
import { existsSync, globSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { root, runNode } from "./run-tool.ts";

const stamp = join(root, "dist", "web-built");
const rest = ["package-lock.json", "vite.config.ts", "tsconfig.base.json", "tsconfig.web.json"];

/**
 * Builds the screens into dist/web where what they are made of has changed since. Contents are compared: on a fresh
 * clone the times of files say nothing.
 */
export async function buildWeb(): Promise<{ readonly ok: boolean; readonly built: boolean; readonly output: string }> {
  const hash = contentHash();
  if (existsSync(stamp) && readFileSync(stamp, "utf8") === hash && existsSync(join(root, "dist/web/index.html"))) {
    return { ok: true, built: false, output: "" };
  }
  const run = await runNode("node_modules/vite/bin/vite.js", ["build", "--logLevel", "warn"]);
  if (run.code !== 0) return { ok: false, built: false, output: run.output };
  mkdirSync(join(root, "dist"), { recursive: true });
  writeFileSync(stamp, hash);
  return { ok: true, built: true, output: run.output };
}

function contentHash(): string {
  const sources = globSync(["src/{web,work,report,core}/**/*", "examples/**/*"], { cwd: root, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name));
  const hash = createHash("sha256");
  for (const path of [...sources, ...rest.map((name) => join(root, name)).filter((path) => existsSync(path))].sort()) {
    hash.update(path.slice(root.length)).update("\0").update(readFileSync(path)).update("\0");
  }
  return hash.digest("hex");
}
