import { spawn, spawnSync } from "node:child_process";
import { cpSync, mkdirSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, test } from "vitest";
import { root } from "../../scripts/run-tool.ts";

const bootstrap = join(root, "scripts/bootstrap.mjs");
const elsewhere = mkdtempSync(join(tmpdir(), "lamproom-"));

afterAll(() => rmSync(elsewhere, { recursive: true, force: true }));

test("an unknown word is answered with the known ones", () => {
  const run = spawnSync(process.execPath, [bootstrap, "begin"], { encoding: "utf8" });
  expect(run).toMatchObject({ status: 3, stdout: "" });
  expect(run.stderr).toBe("lamproom: say what to run: start, test, bench, lamproom, run.\n");
});

test("what it starts runs on Node 24 or later, first on the path, and its exit code comes back", () => {
  const script = 'console.log(process.version, require("child_process").execSync("node --version").toString().trim()); process.exit(7)';
  const run = spawnSync(process.execPath, [bootstrap, "run", "-e", script], { encoding: "utf8" });
  const [own, onPath] = run.stdout.trim().split(" ");
  expect(run.status).toBe(7);
  expect(Number.parseInt(own?.slice(1) ?? "", 10)).toBeGreaterThanOrEqual(24);
  expect(onPath).toBe(own);
});

// Windows ends a process without asking it.
test.skipIf(process.platform === "win32")("it stops what it started when it is stopped", async () => {
  const script =
    'process.on("SIGTERM", () => { console.log("stopped in order"); process.exit(0); }); console.log("up"); setInterval(() => {}, 1000)';
  const child = spawn(process.execPath, [bootstrap, "run", "-e", script], { stdio: ["ignore", "pipe", "inherit"] });
  let said = "";
  child.stdout.on("data", (piece: Buffer) => {
    said += String(piece);
    if (said === "up\n") child.kill("SIGTERM");
  });
  const code = await new Promise((resolve) => child.on("close", resolve));
  expect({ code, said }).toEqual({ code: 0, said: "up\nstopped in order\n" });
});

test.skipIf(process.platform === "win32")("it stops what it started when the npm that started it is gone", async () => {
  const script =
    'process.on("SIGTERM", () => { console.log("stopped in order"); process.exit(0); }); console.log("up"); setInterval(() => {}, 1000)';
  // As npm does it: a shell between, which dies without a word to its child.
  const line = `"${process.execPath}" "${bootstrap}" run -e '${script}'; exit 0`;
  const shell = spawn("/bin/sh", ["-c", line], {
    stdio: ["ignore", "pipe", "inherit"],
    env: { ...process.env, npm_lifecycle_event: "start" },
  });
  let said = "";
  shell.stdout.on("data", (piece: Buffer) => {
    said += String(piece);
    if (said === "up\n") shell.kill("SIGKILL");
  });
  // Standard output closes only when everybody who holds it has ended.
  await new Promise((resolve) => shell.once("close", resolve));
  expect(said).toBe("up\nstopped in order\n");
});

test("without the registry it says so in a sentence, and what to do", () => {
  mkdirSync(join(elsewhere, "scripts"));
  for (const name of ["package.json", "package-lock.json", "scripts/bootstrap.mjs"]) cpSync(join(root, name), join(elsewhere, name));
  // Nothing listens on this port; the cache is empty too.
  const env = {
    ...process.env,
    npm_config_registry: "http://127.0.0.1:9/",
    npm_config_fetch_retries: "0",
    npm_config_cache: join(elsewhere, "cache"),
  };
  const run = spawnSync(process.execPath, [join(elsewhere, "scripts/bootstrap.mjs"), "start"], { encoding: "utf8", env });
  expect(run).toMatchObject({ status: 3, stdout: "" });
  expect(run.stderr).toContain("the package registry of npm was not reached");
  expect(run.stderr).not.toMatch(/^\s+at /m);
});
