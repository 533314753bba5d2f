import { readFileSync } from "node:fs";
import { join } from "node:path";
import { cliPage } from "../src/cli/documentation.ts";
import { FAULTS, REFUSALS } from "../src/report/errors.ts";
import { schemaFiles } from "../src/work/schemas.ts";
import { entriesPage } from "./entries-page.ts";
import { rooms } from "./room-table.ts";
import { root } from "./run-tool.ts";

/** A page, or a part of a page between two marks, that is written from the code and must equal it. */
export interface WrittenPage {
  readonly path: string;
  readonly text: string;
}

export function writtenPages(): readonly WrittenPage[] {
  return [
    { path: "docs/errors.md", text: errorsPage() },
    { path: "docs/cli.md", text: cliPage() },
    { path: "docs/entries.md", text: entriesPage() },
    ...[...schemaFiles()].map(([name, text]) => ({ path: `docs/schemas/${name}`, text })),
    partOf("docs/architecture.md", "rooms", roomsTable()),
  ];
}

function roomsTable(): string {
  const rows = rooms.map((room) => {
    const names = room.mayName ? `; names types of ${room.mayName.join(", ")}` : "";
    return `| \`${room.folder}\` | ${room.holds} | ${room.mayImport.join(", ") || "-"}${names} | ${room.packages.join(", ") || "-"} | ${room.node ? "Node" : "Node and browser"} |`;
  });
  return ["| room | holds | runs code of | packages | runs in |", "| --- | --- | --- | --- | --- |", ...rows].join("\n");
}

function errorsPage(): string {
  const refusals = Object.entries(REFUSALS)
    .sort(([one], [other]) => (one < other ? -1 : 1))
    .map(([code, entry]) => refusalRow(code, entry as AnyEntry)); // Each entry takes its own example, which is all that it is given.
  const faults = Object.entries(FAULTS).map(([code, fault]) => `| ${code} | ${cell(fault.says)} | ${cell(fault.mend)} |`);
  return [
    "# What can be said to have gone wrong",
    "",
    "Written from `src/report/errors.ts` by `node scripts/write-docs.ts`; a test holds both equal. Change it there.",
    "",
    "Exit codes of the command line: 0 answered; 1 a file or a calculation was refused, or a question is open (the other",
    "files of the same call are still answered); 2 the call itself was wrong; 3 the disk or the network did not do its part.",
    "",
    "## Refusals",
    "",
    "| code | exit | HTTP | says, for example | what mends it |",
    "| --- | --- | --- | --- | --- |",
    ...refusals,
    "",
    "## Faults of a line",
    "",
    "The good rows of a file are kept; each faulty line is listed with its number, its text and one of these.",
    "",
    "| fault | says | what mends it |",
    "| --- | --- | --- |",
    ...faults,
    "",
  ].join("\n");
}

interface AnyEntry {
  readonly exit: number;
  readonly status: number;
  readonly says: (refusal: unknown) => string;
  readonly mend: (refusal: unknown) => string;
  readonly flag?: (refusal: unknown) => string;
  readonly example: unknown;
}

function refusalRow(code: string, entry: AnyEntry): string {
  const mend = [entry.mend(entry.example), entry.flag?.(entry.example) ?? ""].filter((sentence) => sentence !== "").join(" ");
  return `| \`${code}\` | ${entry.exit} | ${entry.status} | ${cell(entry.says(entry.example))} | ${cell(mend)} |`;
}

/** A sentence inside a table of Markdown: no bar, no line end, nothing that reads as markup. */
const cell = (sentence: string) => sentence.replaceAll("|", "\\|").replaceAll("<", "&lt;").replaceAll("*", "\\*").replaceAll("\n", " ");

function partOf(path: string, mark: string, part: string): WrittenPage {
  const page = readFileSync(join(root, path), "utf8");
  const [begin, end] = [`<!-- ${mark}: written by scripts/write-docs.ts -->`, `<!-- /${mark} -->`];
  const [from, to] = [page.indexOf(begin), page.indexOf(end)];
  if (from < 0 || to < from) throw new Error(`${path} has lost its marks ${begin} … ${end}`);
  return { path, text: `${page.slice(0, from + begin.length)}\n${part}\n${page.slice(to)}` };
}
