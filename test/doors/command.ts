/** Runs the command line as a person does: a process of its own, its two outputs kept apart. */
import { spawn } from "node:child_process";
import { join } from "node:path";
import type { ExposureAnswer } from "../../src/work/answer.ts";

export const ROOT = join(import.meta.dirname, "../..");
const PROGRAM = join(ROOT, "src/main/lamproom.ts");

export interface Ended {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

export function lamproom(
  words: readonly string[],
  { input = "", folder = ROOT, env = {} }: { input?: string; folder?: string; env?: Record<string, string> } = {},
): Promise<Ended> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [PROGRAM, ...words], { cwd: folder, env: { ...process.env, NO_COLOR: "", ...env } });
    let out = "";
    let err = "";
    child.stdout.setEncoding("utf8").on("data", (text: string) => {
      out += text;
    });
    child.stderr.setEncoding("utf8").on("data", (text: string) => {
      err += text;
    });
    child.on("error", reject);
    child.on("close", (code) => resolve({ code, out, err }));
    child.stdin.end(input);
  });
}

/** The answer of `exposure --json`. */
export async function exposureJson(
  words: readonly string[],
  options?: Parameters<typeof lamproom>[1],
): Promise<Ended & { readonly answer: ExposureAnswer }> {
  const ended = await lamproom(["exposure", ...words, "--json"], options);
  try {
    return { ...ended, answer: JSON.parse(ended.out) };
  } catch {
    throw new Error(`no JSON on standard output (code ${ended.code}): ${ended.err}`);
  }
}
