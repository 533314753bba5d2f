import ts from "typescript";
import { allowedFiles, allowedFunctions } from "./ratchets.ts";
import { type Check, isCode, type Repository } from "./repository.ts";

const longestFunction = 60;
const longestFile = 400;

/** Tables of figures are as long as what they hold. */
const tables = /^src\/core\/gas\/tables\//;

export function functionLengths(repository: Repository): Check {
  const long = codeOf(repository).flatMap((path) => longFunctions(path, repository.text(path)));
  return {
    name: `no function passes ${longestFunction} lines`,
    complaints: againstRatchet(long, of(repository, allowedFunctions), longestFunction),
  };
}

export function fileLengths(repository: Repository): Check {
  const long = codeOf(repository)
    .map((path) => ({ name: path, lines: repository.text(path).trimEnd().split("\n").length }))
    .filter((file) => file.lines > longestFile);
  return {
    name: `no file passes ${longestFile} lines unlooked at`,
    complaints: againstRatchet(long, of(repository, allowedFiles), longestFile),
  };
}

interface Sized {
  readonly name: string;
  readonly lines: number;
}

export interface Allowance {
  readonly lines: number;
  readonly why: string;
}

/** Allowances of files that this repository has: a made-up one of a test has none of them. */
const of = (repository: Repository, allowed: Readonly<Record<string, Allowance>>): Readonly<Record<string, Allowance>> =>
  Object.fromEntries(Object.entries(allowed).filter(([name]) => repository.paths.includes(name.split("#")[0] ?? name)));

const codeOf = (repository: Repository) => repository.paths.filter((path) => isCode(path) && !tables.test(path));

/** What stands in the list may shrink but not grow, and leaves the list when it no longer needs it. */
export function againstRatchet(long: readonly Sized[], allowed: Readonly<Record<string, Allowance>>, most: number): readonly string[] {
  const grown = long
    .filter(({ name, lines }) => lines > (allowed[name]?.lines ?? 0))
    .map(({ name, lines }) => `${name}: ${lines} lines, at most ${allowed[name]?.lines ?? most}; cut it where the trade cuts it`);
  const unneeded = Object.keys(allowed)
    .filter((name) => !long.some((one) => one.name === name))
    .map((name) => `${name}: needs no allowance any more; take it out of scripts/tidy/ratchets.ts`);
  return [...grown, ...unneeded];
}

export function longFunctions(path: string, text: string): readonly Sized[] {
  const source = ts.createSourceFile(path, text, ts.ScriptTarget.ES2023, true, path.endsWith("x") ? ts.ScriptKind.TSX : ts.ScriptKind.TS);
  const lineAt = (position: number) => source.getLineAndCharacterOfPosition(position).line;
  const found: Sized[] = [];
  const visit = (node: ts.Node): void => {
    if (ts.isFunctionLike(node) && !isSuite(node)) {
      const lines = lineAt(node.getEnd()) - lineAt(node.getStart(source)) + 1;
      if (lines > longestFunction) found.push({ name: `${path}#${nameOf(node)}`, lines });
    }
    ts.forEachChild(node, visit);
  };
  visit(source);
  return found;
}

/** What is handed to describe() is a chapter of tests, not a function that anybody calls. */
function isSuite(node: ts.Node): boolean {
  const call = node.parent;
  return ts.isCallExpression(call) && /^describe\b/.test(call.expression.getText());
}

function nameOf(node: ts.SignatureDeclaration): string {
  if (node.name) return node.name.getText();
  const holder = node.parent;
  return ts.isVariableDeclaration(holder) || ts.isPropertyAssignment(holder) ? holder.name.getText() : "without a name";
}
