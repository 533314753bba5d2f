/** Puts disk-shim.c between a process and its disk; needs Linux and a C compiler. */
import { spawn, spawnSync } from "node:child_process";
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

const here = (name: string): string => fileURLToPath(new URL(name, import.meta.url));

/** Why it cannot be put between on this machine; null where it can. */
export const whyNotBetween: string | null =
  process.platform !== "linux"
    ? "the layer between process and disk is made for Linux"
    : spawnSync("cc", ["--version"]).status === 0
      ? null
      : "there is no C compiler (cc) to make the layer between process and disk";

export interface Between {
  readonly folder: string;
  readonly trace: string;
  /** Runs disk-writer.ts; answers what it wrote, one value a line. */
  readonly run: (words: readonly string[], isTraced?: boolean) => Promise<readonly unknown[]>;
  readonly end: () => Promise<void>;
}

export async function between(): Promise<Between> {
  const folder = await mkdtemp(join(tmpdir(), "lamproom-disk-"));
  const [shim, trace] = [join(folder, "shim.so"), join(folder, "trace")];
  const made = spawnSync("cc", ["-shared", "-fPIC", "-O1", "-Wall", "-Wextra", "-Werror", "-o", shim, here("disk-shim.c"), "-ldl"]);
  if (made.status !== 0) throw new Error(String(made.stderr));
  const run = async (words: readonly string[], isTraced = false): Promise<readonly unknown[]> => {
    const env = {
      ...process.env,
      LD_PRELOAD: shim,
      DISK_SHIM_MATCH: "book.sqlite",
      DISK_SHIM_CONTROL: join(folder, `control-${words[2] ?? ""}`),
    };
    const child = spawn(
      process.execPath,
      ["--disable-warning=ExperimentalWarning", fileURLToPath(new URL("./disk-writer.ts", import.meta.url)), ...words],
      {
        env: isTraced ? { ...env, DISK_SHIM_TRACE: trace } : env,
      },
    );
    let [said, complained] = ["", ""];
    child.stdout.on("data", (piece) => (said += String(piece)));
    child.stderr.on("data", (piece) => (complained += String(piece)));
    const code = await new Promise((resolve) => child.on("close", resolve));
    if (code !== 0 || complained !== "") throw new Error(`disk-writer ended with ${String(code)}: ${complained}`);
    return said
      .trim()
      .split("\n")
      .map((line) => JSON.parse(line) as unknown);
  };
  return { folder, trace, run, end: () => rm(folder, { recursive: true, force: true }) };
}
