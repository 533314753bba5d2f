import { posix } from "node:path";
import type { WrittenPage } from "../written-pages.ts";
import { type Check, isCode, type Repository } from "./repository.ts";

const isPage = (path: string) => path.endsWith(".md");

/** The pages are made by the code that they tell of; where that does not even load, this check alone says so. */
export async function writtenPagesAreEqual(repository: Repository): Promise<readonly Check[]> {
  try {
    const { writtenPages } = await import("../written-pages.ts");
    return writtenPages().map((page) => checkOfPage(page, repository));
  } catch (fault) {
    return [{ name: "the pages can be written", complaints: [String(fault)] }];
  }
}

function checkOfPage(page: WrittenPage, repository: Repository): Check {
  const isEqual = repository.paths.includes(page.path) && repository.text(page.path) === page.text;
  return {
    name: `${page.path} equals the code`,
    complaints: isEqual ? [] : [`${page.path} differs from what the code says; run: node scripts/write-docs.ts`],
  };
}

/** A link to a file or heading of this repository leads somewhere. */
export function links(repository: Repository): Check {
  const known = new Set(repository.paths);
  const folders = new Set(repository.paths.flatMap((path) => foldersOf(path)));
  const complaints = repository.paths.filter(isPage).flatMap((page) =>
    linksIn(repository.text(page)).flatMap((link) => {
      const [path = "", heading] = link.split("#");
      const target = path === "" ? page : posix.normalize(posix.join(posix.dirname(page), decodeURIComponent(path)));
      if (!known.has(target) && !folders.has(target.replace(/\/$/, ""))) return [`${page}: ${link} leads nowhere`];
      if (heading && isPage(target) && !headingsOf(repository.text(target)).has(heading)) return [`${page}: ${link} names no heading`];
      return [];
    }),
  );
  return { name: "links in the pages lead somewhere", complaints };
}

export function linksIn(text: string): readonly string[] {
  const prose = text.replaceAll(/```[\s\S]*?```/g, "").replaceAll(/`[^`\n]*`/g, "");
  return [...prose.matchAll(/\]\(([^)\s]+)\)/g)].map((match) => match[1] ?? "").filter((link) => !/^[a-z]+:/.test(link));
}

const foldersOf = (path: string) => path.split("/").map((_, index, parts) => parts.slice(0, index).join("/"));

const headingsOf = (text: string) =>
  new Set(
    [...text.matchAll(/^#+ (.*)$/gm)].map((match) =>
      (match[1] ?? "")
        .toLowerCase()
        .replaceAll(/[^\p{L}\p{N} _-]/gu, "")
        .replaceAll(" ", "-"),
    ),
  );

/** Flags of the tools that the pages name beside our own. */
const flagsOfOthers = ["--silent", "--ignore-scripts", "--no-save", "--prefix", "--write", "--cpu-prof", "--version", "--help"];

/** A flag that a page tells of must be one that the command line takes. */
export function flags(repository: Repository): Check {
  const code = textOfCode(repository, /^(src\/cli|scripts|bench)\//);
  const complaints = wordsOnPages(repository, /(?<![\w-])--[a-z][a-z-]+/g)
    .filter(({ word }) => !flagsOfOthers.includes(word))
    .filter(({ word }) => !new RegExp(`["'\`]?${word.slice(2)}["'\`]?\\s*:|["'\`]${word}\\b|["'\`]${word.slice(2)}["'\`]`).test(code))
    .map(({ page, word }) => `${page}: no code takes ${word}`);
  return { name: "every flag on a page exists", complaints };
}

/** A setting of the environment that a page tells of must be read somewhere. */
export function settings(repository: Repository): Check {
  const code = textOfCode(repository, /^(src|scripts|bench|test)\//);
  const complaints = wordsOnPages(repository, /(?<=`)[A-Z][A-Z_]{3,}(?=`|=)/g)
    .filter(({ word }) => !new RegExp(`\\benv\\b[^\\n]{0,40}\\b${word}\\b|"${word}"`).test(code))
    .map(({ page, word }) => `${page}: no code reads ${word}`);
  return { name: "every setting on a page exists", complaints };
}

const isProse = (path: string) =>
  isPage(path) && !path.startsWith("docs/methods/") && path !== "CHANGELOG.md" && !path.startsWith("examples/");

function wordsOnPages(repository: Repository, pattern: RegExp): readonly { readonly page: string; readonly word: string }[] {
  return repository.paths
    .filter(isProse)
    .flatMap((page) => [...new Set([...repository.text(page).matchAll(pattern)].map((match) => match[0]))].map((word) => ({ page, word })));
}

const textOfCode = (repository: Repository, where: RegExp) =>
  repository.paths
    .filter((path) => isCode(path) && where.test(path))
    .map((path) => repository.text(path))
    .join("\n");

/** Decisions are numbered without holes, and each says how it is confirmed. */
export function decisions(repository: Repository): Check {
  const pages = repository.paths.filter((path) => /^docs\/decisions\/\d{4}-/.test(path)).sort();
  const complaints = pages.flatMap((path, index) => [
    ...(Number(path.slice("docs/decisions/".length, "docs/decisions/".length + 4)) === index + 1
      ? []
      : [`${path}: the numbers have a hole before it`]),
    ...(/^## How it is confirmed$/m.test(repository.text(path)) ? [] : [`${path}: does not say how it is confirmed`]),
  ]);
  return { name: "decisions are numbered and say how they are confirmed", complaints };
}
