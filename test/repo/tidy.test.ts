import { describe, expect, test } from "vitest";
import { cards, deadFiles, everyFileHasARoom, packagesInUse } from "../../scripts/tidy/files.ts";
import { exportedNames, fileNames } from "../../scripts/tidy/names.ts";
import { decisions, flags, links, settings, writtenPagesAreEqual } from "../../scripts/tidy/pages.ts";
import type { Check, Repository } from "../../scripts/tidy/repository.ts";
import { againstRatchet, functionLengths } from "../../scripts/tidy/size.ts";
import { bannedText, commitSubjects, exactVersions, lockFile } from "../../scripts/tidy/text.ts";

function repositoryOf(files: Readonly<Record<string, string>>, subjects: readonly string[] = []): Repository {
  return { paths: Object.keys(files), text: (path) => files[path] ?? "", subjects };
}

const complaintsOf = (checks: Check | readonly Check[]) => [checks].flat().flatMap((check) => check.complaints);

/** Written in pieces, so that the check does not complain of its own test. */
const remark = ["TO", "DO"].join("");
const ownFolder = ["/ho", "me/somebody/lamproom"].join("");
const registry = ["https://regis", "try.example.org/x"].join("");
const longBody = (lines: number) => `export function long(): number {\n${"  // One line.\n".repeat(lines - 3)}  return 1;\n}\n`;
const manifest = (version: string) => JSON.stringify({ dependencies: { fastify: version }, devDependencies: {} });

type Case = readonly [
  name: string,
  check: (repository: Repository) => Check | readonly Check[] | Promise<readonly Check[]>,
  files: Readonly<Record<string, string>>,
  says: string | null,
];

const cases: readonly Case[] = [
  ["a file of empty words", fileNames, { "src/work/date-utils.ts": "" }, '"utils" says nothing'],
  ["a folder of empty words", fileNames, { "src/shared/limit.ts": "" }, '"shared" says nothing'],
  ["a name that is not kebab-case", fileNames, { "src/web/FindBox.tsx": "" }, "not kebab-case"],
  [
    "names as they ought to be",
    fileNames,
    { "src/core/gas/le-chatelier.ts": "", "README.md": "", "docs/decisions/0001-node-24.md": "", ".ci/run": "" },
    null,
  ],
  ["an exported name that says nothing", exportedNames, { "src/work/a.ts": "export const data = 1;\n" }, '"data" says nothing'],
  [
    "an exported function named for helping",
    exportedNames,
    { "src/work/a.ts": "export function zoneHelper(): void {}\n" },
    '"zoneHelper" says nothing',
  ],
  ["a name of the trade", exportedNames, { "src/work/a.ts": "export const drawTime = 1;\nconst data = 1;\n" }, null],
  ["a function of 61 lines", functionLengths, { "src/work/a.ts": longBody(61) }, "src/work/a.ts#long: 61 lines"],
  ["a function of 60 lines", functionLengths, { "src/work/a.ts": longBody(60) }, null],
  ["work left as a remark", bannedText, { "src/work/a.ts": `// ${remark}: later\n` }, "src/work/a.ts:1"],
  ["a path of one machine", bannedText, { "docs/a.md": `Stands in ${ownFolder}.\n` }, "docs/a.md:1"],
  ["a path below the root", bannedText, { "docs/a.md": "Stands in src/work/answer.ts, see ../work/ports.ts.\n" }, null],
  ["a registry by its host", bannedText, { ".npmrc": `x=${registry}\n` }, ".npmrc:1"],
  ["a promise of safety", bannedText, { "src/report/a.ts": 'export const words = "It is safe to enter";\n' }, "src/report/a.ts:1"],
  ["a denial of safety", bannedText, { "src/report/a.ts": 'export const words = "Nothing here says that it is safe";\n' }, null],
  ["a silenced compiler without a reason", bannedText, { "src/work/a.ts": "// @ts-expect-error\n" }, "src/work/a.ts:1"],
  ["a lock file with addresses", lockFile, { "package-lock.json": '{ "resolved": "https://example.org/x.tgz" }' }, "download addresses"],
  ["a lock file without", lockFile, { "package-lock.json": '{ "version": "1.0.0" }' }, null],
  ["a range of versions", exactVersions, { "package.json": manifest("^5.0.0") }, "not one exact version"],
  ["an exact version", exactVersions, { "package.json": manifest("5.0.0") }, null],
  ["a package that nobody names", packagesInUse, { "package.json": manifest("5.0.0") }, "no code names fastify"],
  ["a file that nothing imports", deadFiles, { "src/main/serve.ts": 'import "./a.ts";\n', "src/main/a.ts": "" }, null],
  [
    "a file that only a test imports",
    deadFiles,
    { "src/work/a.ts": "", "test/work/a.test.ts": 'import "../../src/work/a.ts";\n' },
    "src/work/a.ts: nothing imports it",
  ],
  [
    "a worker named by its address",
    deadFiles,
    { "src/main/serve.ts": 'new Worker(new URL("../work/a.ts", import.meta.url));\n', "src/work/a.ts": "" },
    null,
  ],
  ["a folder that is no room", everyFileHasARoom, { "src/cellar/a.ts": "" }, "no room of rooms.cjs"],
  ["a folder that is one", everyFileHasARoom, { "src/core/gas/a.ts": "", "src/core/result.ts": "" }, null],
  [
    "a public function without a card",
    cards,
    {
      "src/core/gas/index.ts": 'export { limit } from "./limit.ts";\n',
      "src/core/gas/limit.ts": "export function limit(): void {}\nexport function inner(): void {}\n",
    },
    "src/core/gas/limit.ts: limit says nothing",
  ],
  [
    "a card without an example",
    cards,
    {
      "src/core/gas/index.ts": 'export * from "./limit.ts";\n',
      "src/core/gas/limit.ts": "/** Gives it. */\nexport function limit(): void {}\n",
    },
    "limit has no example",
  ],
  ["a link that leads nowhere", links, { "docs/a.md": "[there](b.md)\n" }, "b.md leads nowhere"],
  ["a link to a heading that is not there", links, { "docs/a.md": "[there](b.md#two)\n", "docs/b.md": "# One\n" }, "names no heading"],
  [
    "links that lead somewhere",
    links,
    { "README.md": "[a](docs/b.md#one-more) [c](docs) [d](https://example.org)\n", "docs/b.md": "# One more\n" },
    null,
  ],
  ["a flag that no code takes", flags, { "README.md": "Use `--unheard-of`.\n" }, "no code takes --unheard-of"],
  [
    "a flag that is taken",
    flags,
    { "README.md": "Use `--zone`.\n", "src/cli/flags.ts": 'const flags = { zone: { type: "string" } };\n' },
    null,
  ],
  ["a setting that no code reads", settings, { "README.md": "Set `PORTAL`.\n" }, "no code reads PORTAL"],
  ["a setting that is read", settings, { "README.md": "Set `PORT`.\n", "src/main/serve.ts": "const port = process.env.PORT;\n" }, null],
  ["a hole in the decisions", decisions, { "docs/decisions/0002-a.md": "## How it is confirmed\n" }, "hole"],
  ["a decision that nobody can confirm", decisions, { "docs/decisions/0001-a.md": "# A\n" }, "how it is confirmed"],
  ["pages that are not there", writtenPagesAreEqual, {}, "docs/errors.md differs"],
];

test.each(cases)("%s", async (_, check, files, says) => {
  const complaints = complaintsOf(await check(repositoryOf(files))).join("\n");
  if (says === null) expect(complaints).toBe("");
  else expect(complaints).toContain(says);
});

test.each([
  ["table: a decimal comma is asked, never guessed", null],
  ["Table: a decimal comma", "not of the form"],
  ["fixed the table", "not of the form"],
  ["table: ends with a stop.", "not of the form"],
  [`table: ${"long ".repeat(12)}words`, "at most 60"],
])("the subject %o", (subject, says) => {
  const complaints = complaintsOf(commitSubjects(repositoryOf({}, [subject]))).join("\n");
  if (says === null) expect(complaints).toBe("");
  else expect(complaints).toContain(says);
});

describe("a ratchet", () => {
  const allowed = { "a.ts": { lines: 500, why: "one table" } };
  test.each([
    ["lets what is allowed stand", [{ name: "a.ts", lines: 500 }], ""],
    ["does not let it grow", [{ name: "a.ts", lines: 501 }], "at most 500"],
    [
      "takes nothing new in",
      [
        { name: "a.ts", lines: 500 },
        { name: "b.ts", lines: 401 },
      ],
      "b.ts: 401 lines, at most 400",
    ],
    ["gives up what is not needed", [], "needs no allowance any more"],
  ])("%s", (_, long, says) => {
    expect(againstRatchet(long, allowed, 400).join("\n")).toContain(says);
    if (says === "") expect(againstRatchet(long, allowed, 400)).toEqual([]);
  });
});
