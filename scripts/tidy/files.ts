import { posix } from "node:path";
import ts from "typescript";
import { rooms } from "../room-table.ts";
import { reachedLater } from "./ratchets.ts";
import { type Check, isCode, type Repository } from "./repository.ts";

/** Where somebody or some tool begins; a room's index is the door for whoever comes next. */
const entries = [
  /^src\/main\/[^/]+\.ts$/,
  /^src\/core\/[^/]+\/index\.ts$/,
  /^src\/(work|report)\/index\.ts$/,
  /^scripts\/[^/]+\.(ts|mjs)$/,
  /^bench\/[^/]+\.bench\.ts$/,
  /^test\/.*\.test\.ts$/,
  /^[^/]+\.(ts|cjs)$/,
];

/** Every file is reached from an entry by imports; what tests alone reach is not part of the product. */
export function deadFiles(repository: Repository): Check {
  const code = repository.paths.filter(isCode);
  const imports = new Map(code.map((path) => [path, importsOf(path, repository)]));
  const pages = repository.paths.filter((path) => path.endsWith(".html")).flatMap((path) => scriptsOf(path, repository.text(path)));
  const ofProduct = reachable([...code.filter((path) => isEntry(path) && !isTest(path)), ...pages], imports);
  const all = reachable([...code.filter(isEntry), ...pages], imports);
  const isReached = (path: string): boolean => (path.startsWith("src/") ? ofProduct : all).has(path) || path.endsWith(".d.ts");
  const complaints = code.flatMap((path) => {
    const waits = Object.hasOwn(reachedLater, path);
    if (isReached(path)) return waits ? [`${path}: it is reached now; take it from reachedLater in scripts/tidy/ratchets.ts`] : [];
    return waits ? [] : [`${path}: nothing imports it`];
  });
  return { name: "every file is reached from an entry", complaints };
}

const isEntry = (path: string) => entries.some((entry) => entry.test(path));
const isTest = (path: string) => path.startsWith("test/");

function reachable(from: readonly string[], imports: ReadonlyMap<string, readonly string[]>): ReadonlySet<string> {
  const seen = new Set<string>();
  const open = [...from];
  for (let path = open.pop(); path !== undefined; path = open.pop()) {
    if (seen.has(path)) continue;
    seen.add(path);
    open.push(...(imports.get(path) ?? []));
  }
  return seen;
}

/** Static and dynamic imports, and files named for a worker by `new URL("./…", import.meta.url)`. */
function importsOf(path: string, repository: Repository): readonly string[] {
  const text = repository.text(path);
  const named = ts.preProcessFile(text, true, true).importedFiles.map((file) => file.fileName);
  const byUrl = [...text.matchAll(/new URL\(\s*["'`]([^"'`]+)["'`],\s*import\.meta\.url/g)].map((match) => match[1] ?? "");
  const required = [...text.matchAll(/\brequire\(["']([^"']+)["']\)/g)].map((match) => match[1] ?? "");
  return [...named, ...byUrl, ...required]
    .filter((name) => name.startsWith("."))
    .map((name) => posix.normalize(posix.join(posix.dirname(path), name.replace(/\?.*$/, ""))));
}

const scriptsOf = (path: string, text: string) =>
  [...text.matchAll(/<script[^>]+src="\/?([^"]+)"/g)].map((match) => posix.join(posix.dirname(path), match[1] ?? ""));

export function everyFileHasARoom(repository: Repository): Check {
  const complaints = repository.paths
    .filter((path) => path.startsWith("src/") && !/^src\/core\/[^/]+\.ts$/.test(path))
    .filter((path) => !rooms.some((room) => path.startsWith(`${room.folder}/`)))
    .map((path) => `${path}: no room of rooms.cjs holds this folder`);
  return { name: "every file of src lies in a room", complaints };
}

/** What a room of core offers at its door carries a card: a comment that says what it gives, with an example that runs. */
export function cards(repository: Repository): Check {
  const complaints = repository.paths
    .filter((path) => /^src\/core\/[^/]+\/index\.ts$/.test(path))
    .flatMap((door) => offersOf(door, repository).flatMap(({ path, names }) => functionsWithoutCard(path, repository.text(path), names)));
  return { name: "every function that a room of core offers carries a card", complaints };
}

interface Offer {
  readonly path: string;
  /** Null where everything is offered. */
  readonly names: ReadonlySet<string> | null;
}

function offersOf(door: string, repository: Repository): readonly Offer[] {
  const source = ts.createSourceFile(door, repository.text(door), ts.ScriptTarget.ES2023, true);
  return source.statements.filter(ts.isExportDeclaration).flatMap((statement) => {
    if (statement.isTypeOnly || !statement.moduleSpecifier || !ts.isStringLiteral(statement.moduleSpecifier)) return [];
    const path = posix.normalize(posix.join(posix.dirname(door), statement.moduleSpecifier.text));
    if (!repository.paths.includes(path)) return [];
    const names = statement.exportClause && ts.isNamedExports(statement.exportClause) ? statement.exportClause.elements : null;
    return [{ path, names: names && new Set(names.map((one) => (one.propertyName ?? one.name).text)) }];
  });
}

function functionsWithoutCard(path: string, text: string, names: Offer["names"]): readonly string[] {
  const source = ts.createSourceFile(path, text, ts.ScriptTarget.ES2023, true);
  return source.statements
    .filter((statement) => ts.isFunctionDeclaration(statement))
    .filter((statement) => statement.modifiers?.some((one) => one.kind === ts.SyntaxKind.ExportKeyword))
    .filter((statement) => names === null || names.has(statement.name?.text ?? ""))
    .flatMap((statement) => {
      const card = ts
        .getJSDocCommentsAndTags(statement)
        .map((one) => one.getText())
        .join("\n");
      const name = `${path}: ${statement.name?.text ?? "a function"}`;
      if (card === "") return [`${name} says nothing of what it gives`];
      return card.includes("@example") ? [] : [`${name} has no example that runs`];
    });
}

/** Every package that is installed is named by some code, or is a tool that a script or a config starts. */
export function packagesInUse(repository: Repository): Check {
  const manifest: { readonly dependencies: Record<string, string>; readonly devDependencies: Record<string, string> } = JSON.parse(
    repository.text("package.json"),
  );
  const everything = repository.paths
    .filter(
      (path) => (isCode(path) || /\.(css|json|grit)$/.test(path)) && !["package.json", "package-lock.json", "rooms.cjs"].includes(path),
    )
    .map((path) => repository.text(path))
    .join("\n");
  const complaints = Object.keys({ ...manifest.dependencies, ...manifest.devDependencies })
    .filter((name) => !name.startsWith("@types/") && !everything.includes(name))
    .map((name) => `package.json: no code names ${name}`);
  return { name: "every package is in use", complaints };
}
