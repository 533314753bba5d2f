// Collects the fenced ts blocks of @example in src and of docs/methods, makes one program a file of them, lets the
// compiler check those programs and runs them: `expression; // => literal` must give what stands behind the arrow.
import { globSync, mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { dirname, join, relative, resolve } from "node:path";
import ts from "typescript";
import { root, runNode } from "./run-tool.ts";

export interface ExampleCheck {
  readonly name: string;
  readonly complaints: readonly string[];
}

interface Block {
  readonly file: string;
  readonly line: number;
  readonly text: string;
}

export async function checkExamples(
  files: readonly string[] = filesWithExamples(),
  made: string = join(root, ".work", "examples"),
): Promise<readonly ExampleCheck[]> {
  rmSync(made, { recursive: true, force: true });
  mkdirSync(made, { recursive: true });
  const blocks = files.flatMap((file) => blocksOf(file, readFileSync(join(root, file), "utf8")));
  const silent = blocks.filter((block) => !block.text.includes("// =>"));
  const speaking = blocks.filter((block) => block.text.includes("// =>"));
  const programs = writePrograms(speaking, made);
  const compiled = await compile(programs, made);
  const ran = await runPrograms(programs, made);
  return [
    ...silent.map((block) => ({ name: nameOf(block), complaints: ["shows no result: give one line `expression; // => literal`"] })),
    ...speaking.map((block) => ({ name: nameOf(block), complaints: ran.results.get(nameOf(block)) ?? ["did not run to its end"] })),
    ...compiled,
    ...(programs.size > 0 ? [{ name: "the examples run", complaints: ran.faults }] : []),
  ];
}

const filesWithExamples = () => globSync(["src/{core,report,work}/**/*.ts", "docs/methods/**/*.md"], { cwd: root }).sort();

const nameOf = (block: Block) => `${block.file}:${block.line}`;

/** In code a block counts only under @example of a documentation comment; in a page every ts block does. */
export function blocksOf(file: string, text: string): readonly Block[] {
  return file.endsWith(".md")
    ? fencedBlocks(file, text, 1)
    : exampleComments(text).flatMap((comment) => fencedBlocks(file, comment.text, comment.line));
}

function exampleComments(text: string): readonly { readonly text: string; readonly line: number }[] {
  return [...text.matchAll(/\/\*\*[\s\S]*?\*\//g)]
    .filter((match) => match[0].includes("@example"))
    .map((match) => ({
      text: match[0].replace(/^[ \t]*\* ?/gm, ""),
      line: text.slice(0, match.index).split("\n").length,
    }));
}

function fencedBlocks(file: string, text: string, firstLine: number): readonly Block[] {
  return [...text.matchAll(/^[ \t]*```ts\n([\s\S]*?)^[ \t]*```/gm)].map((match) => ({
    file,
    line: firstLine + text.slice(0, match.index).split("\n").length,
    text: match[1] ?? "",
  }));
}

function writePrograms(blocks: readonly Block[], made: string): ReadonlyMap<string, string> {
  const programs = new Map<string, string>();
  for (const file of new Set(blocks.map((block) => block.file))) {
    const path = join(made, `${file.replaceAll(/[/.]/g, "-")}.ts`);
    const bodies = blocks.filter((block) => block.file === file).map((block) => programOf(block, path));
    writeFileSync(path, `import { example, type Same } from "../../scripts/example-result.ts";\n\n${bodies.join("\n")}`);
    programs.set(file, path);
  }
  return programs;
}

/** Each block becomes a function of its own, so that the names of two blocks never meet. */
function programOf(block: Block, path: string): string {
  const source = ts.createSourceFile("block.ts", block.text, ts.ScriptTarget.ES2023, true);
  const lines = source.statements.map((statement) => statementOf(statement, source, block, path));
  return `await example(${JSON.stringify(nameOf(block))}, async (same: Same) => {\n${lines.join("\n")}\n});\n`;
}

function statementOf(statement: ts.Statement, source: ts.SourceFile, block: Block, path: string): string {
  if (ts.isImportDeclaration(statement)) return importOf(statement, block, path);
  const text = statement.getText(source);
  const wanted = wantedAfter(statement, source);
  if (wanted === null) return text;
  const line = block.line + source.getLineAndCharacterOfPosition(statement.getStart()).line;
  if (ts.isExpressionStatement(statement)) return `same(${line}, ${statement.expression.getText(source)}, ${wanted});`;
  const named = ts.isVariableStatement(statement) ? statement.declarationList.declarations[0]?.name.getText(source) : undefined;
  if (named === undefined) throw new Error(`${nameOf(block)}: an arrow stands behind something that has no value: ${text}`);
  return `${text}\nsame(${line}, ${named}, ${wanted});`;
}

function importOf(statement: ts.ImportDeclaration, block: Block, path: string): string {
  const from = (statement.moduleSpecifier as ts.StringLiteral).text; // The grammar allows nothing but a string there.
  const found = from.startsWith(".") ? relative(dirname(path), resolve(root, dirname(block.file), from)).replaceAll("\\", "/") : from;
  const names = statement.importClause?.namedBindings;
  if (statement.importClause?.isTypeOnly || names === undefined || !ts.isNamedImports(names)) {
    throw new Error(`${nameOf(block)}: an example imports by name: import { … } from "./file.ts"`);
  }
  const list = names.elements
    .filter((one) => !one.isTypeOnly)
    .map((one) => (one.propertyName ? `${one.propertyName.text}: ${one.name.text}` : one.name.text));
  return `const { ${list.join(", ")} } = await import(${JSON.stringify(found)});`;
}

/** What stands behind `// =>` on the statement's last line. */
function wantedAfter(statement: ts.Statement, source: ts.SourceFile): string | null {
  const rest = source.text.slice(statement.getEnd());
  const arrow = /^[ \t]*\/\/ => (.*)$/m.exec(rest.slice(0, rest.indexOf("\n") === -1 ? rest.length : rest.indexOf("\n")));
  return arrow?.[1]?.trim() ?? null;
}

async function compile(programs: ReadonlyMap<string, string>, made: string): Promise<readonly ExampleCheck[]> {
  if (programs.size === 0) return [];
  const settings = {
    extends: "../../tsconfig.base.json",
    compilerOptions: { lib: ["ES2023"], types: ["node"], noUnusedLocals: false },
    include: ["*.ts"],
  };
  writeFileSync(join(made, "tsconfig.json"), JSON.stringify(settings));
  const run = await runNode("node_modules/typescript7/bin/tsc", ["-p", join(made, "tsconfig.json")]);
  return [{ name: "the examples compile", complaints: run.code === 0 ? [] : run.output.trim().split("\n") }];
}

interface ExampleRun {
  readonly results: ReadonlyMap<string, readonly string[]>;
  readonly faults: readonly string[];
}

async function runPrograms(programs: ReadonlyMap<string, string>, made: string): Promise<ExampleRun> {
  const results = new Map<string, readonly string[]>();
  const entry = join(made, "run.mjs");
  writeFileSync(entry, `${[...programs.values()].map((path) => importLine(path, made)).join("\n")}\n`);
  const run = await runNode(relative(root, entry), []);
  for (const line of run.output.split("\n")) {
    const found = /^example (\{.*\})$/.exec(line);
    if (found === null) continue;
    const { name, complaints }: ExampleCheck = JSON.parse(found[1] ?? "");
    results.set(name, complaints);
  }
  return { results, faults: run.code === 0 ? [] : run.output.split("\n").filter((line) => !line.startsWith("example ")) };
}

/** A program that does not even load must not keep the others from running. */
const importLine = (path: string, made: string) =>
  `await import(${JSON.stringify(`./${relative(made, path)}`)}).catch((fault) => { console.error(fault); process.exitCode = 1; });`;
