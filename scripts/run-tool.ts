import { spawn } from "node:child_process";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { stripVTControlCharacters } from "node:util";

export const root = dirname(dirname(fileURLToPath(import.meta.url)));

export interface ToolRun {
  readonly code: number;
  /** Both streams, in the order in which they came. */
  readonly output: string;
}

export interface ToolOptions {
  readonly cwd?: string;
  readonly env?: Readonly<Record<string, string>>;
  /** A tool that hangs is ended, and counts as failed with 124. */
  readonly longestSeconds?: number;
}

/** Runs a program to its end and keeps what it said. A program that cannot be started fails with 127. */
export function runTool(program: string, words: readonly string[], options: ToolOptions = {}): Promise<ToolRun> {
  return new Promise((resolve) => {
    const child = spawn(program, words, {
      cwd: options.cwd ?? root,
      env: { ...process.env, NO_COLOR: "1", FORCE_COLOR: undefined, ...options.env },
      stdio: ["ignore", "pipe", "pipe"],
    });
    const pieces: string[] = [];
    for (const stream of [child.stdout, child.stderr]) stream.setEncoding("utf8").on("data", (piece: string) => pieces.push(piece));
    const stopChild = () => child.kill("SIGTERM");
    process.once("SIGTERM", stopChild).once("SIGINT", stopChild);
    let late = false;
    const limit = setTimeout(
      () => {
        late = true;
        child.kill("SIGKILL");
      },
      (options.longestSeconds ?? 600) * 1000,
    );
    const end = (code: number, added: string) => {
      clearTimeout(limit);
      process.off("SIGTERM", stopChild).off("SIGINT", stopChild);
      resolve({ code, output: stripVTControlCharacters(pieces.join("")) + added });
    };
    child.on("error", (fault) => end(127, `${program}: ${fault.message}\n`));
    child.on("close", (code) =>
      late ? end(124, `\n${program} ran longer than ${options.longestSeconds ?? 600} s and was ended\n`) : end(code ?? 1, ""),
    );
  });
}

/** Runs a script of an installed package with the Node that runs this. */
export function runNode(script: string, words: readonly string[], options: ToolOptions = {}): Promise<ToolRun> {
  return runTool(process.execPath, [join(root, script), ...words], options);
}
