import { accessSync, constants, existsSync } from "node:fs";
import { join } from "node:path";
import { runTool } from "./run-tool.ts";

export type Browser =
  | { readonly found: true; readonly path: string }
  | { readonly found: false; readonly why: string; readonly log: string };

const onLinux = ["chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "microsoft-edge"];
const onMac = ["Google Chrome", "Chromium", "Microsoft Edge"].map((name) => `/Applications/${name}.app/Contents/MacOS/${name}`);
const onWindows = ["PROGRAMFILES", "PROGRAMFILES(X86)", "LOCALAPPDATA"].flatMap((folder) =>
  ["Google\\Chrome\\Application\\chrome.exe", "Chromium\\Application\\chrome.exe", "Microsoft\\Edge\\Application\\msedge.exe"].map((name) =>
    join(process.env[folder] ?? "C:\\", name),
  ),
);

/** The browser that the tests drive: one named by CHROMIUM, one that is there, or on Debian as root one from apt. */
export async function findBrowser(): Promise<Browser> {
  const there = browserThatIsThere();
  if (there !== null) return { found: true, path: there };
  if (!isDebianAsRoot()) return { found: false, why: "no Chrome, Chromium or Edge was found; name one in CHROMIUM", log: "" };
  return installFromDebian();
}

export function browserThatIsThere(): string | null {
  const named = process.env.CHROMIUM;
  if (named) return named;
  const folders = (process.env.PATH ?? "").split(":");
  const candidates =
    process.platform === "win32"
      ? onWindows
      : process.platform === "darwin"
        ? onMac
        : ["/usr/bin", ...folders].flatMap((folder) => onLinux.map((name) => join(folder, name)));
  return candidates.find(canRun) ?? null;
}

function canRun(path: string): boolean {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    // A path that cannot be run is simply not the browser.
    return false;
  }
}

const isDebianAsRoot = () => process.getuid?.() === 0 && existsSync("/etc/debian_version") && existsSync("/usr/bin/apt-get");

async function installFromDebian(): Promise<Browser> {
  process.stderr.write("lamproom: installing Chromium from Debian for the browser tests (once) …\n");
  const options = { env: { DEBIAN_FRONTEND: "noninteractive" }, longestSeconds: 900 };
  const lock = ["-o", "DPkg::Lock::Timeout=600"];
  const updated = await runTool("apt-get", [...lock, "update"], options);
  const installed = await runTool("apt-get", [...lock, "install", "-y", "--no-install-recommends", "chromium"], options);
  const path = browserThatIsThere();
  if (path !== null) return { found: true, path };
  return { found: false, why: "Chromium could not be installed by apt", log: updated.output + installed.output };
}
