import { execFileSync } from "node:child_process";
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { root } from "../run-tool.ts";

/** The repository as the checks see it: paths below the root with forward slashes, and their text. */
export interface Repository {
  readonly paths: readonly string[];
  readonly text: (path: string) => string;
  /** First lines of the commits, newest first; empty where the folder is not a clone. */
  readonly subjects: readonly string[];
}

export interface Check {
  readonly name: string;
  readonly complaints: readonly string[];
}

const binary = /\.(woff2|png|ico|jpg|pdf|parquet|zip)$/;

export const isBinary = (path: string): boolean => binary.test(path);

export const isCode = (path: string): boolean => /\.(ts|tsx|mjs|cjs)$/.test(path);

/** What git keeps, and what it would keep when everything here were added. */
export function thisRepository(): Repository {
  const cache = new Map<string, string>();
  const text = (path: string) => {
    const kept = cache.get(path);
    if (kept !== undefined) return kept;
    const read = readFileSync(join(root, path), "utf8");
    cache.set(path, read);
    return read;
  };
  const isClone = existsSync(join(root, ".git"));
  const paths = git(["ls-files", "--cached", "--others", "--exclude-standard"]).filter((path) => existsSync(join(root, path)));
  return { paths, text, subjects: isClone ? git(["log", "--no-merges", "--format=%s"]) : [] };
}

const git = (words: readonly string[]): readonly string[] =>
  execFileSync("git", words, { cwd: root, encoding: "utf8", maxBuffer: 1 << 28 })
    .split("\n")
    .filter((line) => line !== "");
