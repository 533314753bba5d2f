import ts from "typescript";
import { type Check, isCode, type Repository } from "./repository.ts";

/** Words that say nothing of what a thing is; a file, folder or exported name made of one tells its reader nothing. */
const emptyWords = [
  "util",
  "utils",
  "utility",
  "helper",
  "helpers",
  "common",
  "shared",
  "misc",
  "manager",
  "service",
  "services",
  "data",
  "process",
  "handle",
  "handler",
  "stuff",
];
/** Inside a longer name these still say nothing, while the others may be part of a word of the trade. */
const emptyInside = ["util", "utils", "helper", "helpers", "misc", "manager"];

/** Names that tools, licences or habits of the whole world prescribe. */
const prescribed = /^(README|CONTRIBUTING|CHANGELOG|LICENSE)(\.md)?$|^\.|^OFL\.txt$|^package(-lock)?\.json$/;
/** Files kept as their publisher or our own broken-file set named them, and those that bear the name of a kind of entry. */
const keptAsTheyCame = [
  "test/cases/table/made/",
  "test/cases/goldens/",
  "test/cases/forms/",
  "src/web/fonts/",
  "src/core/instrument/entries/",
];

export function fileNames(repository: Repository): Check {
  const complaints = repository.paths
    .filter((path) => !keptAsTheyCame.some((folder) => path.startsWith(folder)))
    .flatMap((path) => path.split("/").flatMap((part) => complaintOfName(path, part)));
  return { name: "file names are kebab-case words that say something", complaints: [...new Set(complaints)] };
}

function complaintOfName(path: string, part: string): readonly string[] {
  if (prescribed.test(part)) return [];
  const words = part.split(/[-.]/);
  if (!/^\d*[a-z0-9]+(-[a-z0-9]+)*(\.[a-z0-9]+(-[a-z0-9]+)*)*$/.test(part)) return [`${path}: "${part}" is not kebab-case`];
  const empty = words.filter((word) => emptyWords.includes(word));
  return empty.length > 0 ? [`${path}: "${empty[0]}" says nothing; name the thing of the trade or the act`] : [];
}

export function exportedNames(repository: Repository): Check {
  const complaints = repository.paths
    .filter((path) => isCode(path) && path.startsWith("src/"))
    .flatMap((path) => namesExportedBy(path, repository.text(path)).flatMap((name) => complaintOfExport(path, name)));
  return { name: "exported names say something", complaints };
}

function complaintOfExport(path: string, name: string): readonly string[] {
  const words = name.split(/(?=[A-Z])|_/).map((word) => word.toLowerCase());
  const empty = words.length === 1 ? emptyWords : emptyInside;
  return words.some((word) => empty.includes(word)) ? [`${path}: exported name "${name}" says nothing of what it is`] : [];
}

function namesExportedBy(path: string, text: string): readonly string[] {
  const source = ts.createSourceFile(path, text, ts.ScriptTarget.ES2023, true);
  return source.statements.flatMap((statement) => {
    const isExported =
      ts.canHaveModifiers(statement) && ts.getModifiers(statement)?.some((one) => one.kind === ts.SyntaxKind.ExportKeyword);
    if (!isExported) return [];
    if (ts.isVariableStatement(statement)) return statement.declarationList.declarations.map((one) => one.name.getText(source));
    // What is left and may be exported here (function, class, type, interface) carries its name in one field.
    const name = (statement as ts.FunctionDeclaration).name;
    return name ? [name.text] : [];
  });
}
