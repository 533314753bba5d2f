// The types of the bodies and the files of the newest forms say the same, member by member, both ways.
import { mkdirSync, writeFileSync } from "node:fs";
import { join, relative } from "node:path";
import { expect, test } from "vitest";
import { root, runNode } from "../../../scripts/run-tool.ts";
import { FORMS, type Schema } from "../../../src/core/instrument/index.ts";

/** The type that a schema is the form of, as TypeScript writes it. */
function typeOf(schema: Schema, definitions: Readonly<Record<string, Schema>>): string {
  const inner = (one: unknown): string => typeOf(one as Schema, definitions);
  if (typeof schema["$ref"] === "string") {
    const name = schema["$ref"].replace("#/$defs/", "");
    return name === "digest" ? "Digest" : inner(definitions[name]);
  }
  if (Array.isArray(schema["anyOf"])) return `(${schema["anyOf"].map(inner).join(" | ")})`;
  if (Array.isArray(schema["enum"])) return `(${schema["enum"].map((value) => JSON.stringify(value)).join(" | ")})`;
  if ("const" in schema) return JSON.stringify(schema["const"]);
  if (schema["type"] === "array") return `readonly ${bracketed(inner(schema["items"]))}[]`;
  if (schema["type"] === "object") {
    const members = Object.entries(schema["properties"] as Readonly<Record<string, Schema>>);
    if (members.length === 0) return "Record<string, never>";
    return `{ ${members.map(([name, member]) => `readonly ${JSON.stringify(name)}: ${inner(member)}`).join("; ")} }`;
  }
  return schema["type"] === "integer" ? "number" : String(schema["type"]);
}

const bracketed = (type: string): string => (type.startsWith("readonly") ? `(${type})` : type);

/** Same both ways; `Simple` lays intersections out, so that only what is said is compared. */
const EQUALITY = `
type Simple<T> = T extends (infer One)[] ? Simple<One>[] : T extends readonly (infer One)[] ? readonly Simple<One>[] : T extends object ? { [Name in keyof T]: Simple<T[Name]> } : T;
type Same<A, B> = (<T>() => T extends Simple<A> ? 1 : 2) extends <T>() => T extends Simple<B> ? 1 : 2 ? true : { types: Simple<A>; files: Simple<B> };
`;

async function complaints(lines: readonly string[], name: string): Promise<string> {
  const folder = join(root, ".work", "form-types", name);
  mkdirSync(folder, { recursive: true });
  const up = relative(folder, root);
  const imports = `import type { Bodies, Kind, PrivateParts } from "${up}/src/core/instrument/bodies.ts";\nimport type { Digest } from "${up}/src/core/record/index.ts";\n`;
  writeFileSync(join(folder, "same.ts"), `${imports}${EQUALITY}${lines.join("\n")}\nexport type { Kind, Bodies, PrivateParts, Digest };\n`);
  writeFileSync(join(folder, "tsconfig.json"), JSON.stringify({ extends: `${up}/tsconfig.pure.json`, include: ["same.ts"] }));
  const run = await runNode("node_modules/typescript7/bin/tsc", ["-p", folder, "--pretty", "false"]);
  return run.output
    .split("\n")
    .filter((line) => line.includes("error"))
    .join("\n");
}

const newest = [...FORMS.values()].map((forms) => forms[forms.length - 1]).filter((form) => form !== undefined);
const same = (types: string, schema: Schema, at: number): string =>
  `export const same${at}: Same<${types}, ${typeOf(schema, schema["$defs"] as Readonly<Record<string, Schema>>)}> = true;`;

test("types and newest forms are the same", async () => {
  const kinds = newest.map(({ kind }) => JSON.stringify(kind)).join(" | ");
  const withPrivate = newest.filter(({ schemas }) => schemas.private !== null);
  const lines = [
    `export const kinds: Same<Kind, ${kinds}> = true;`,
    `export const privates: Same<keyof PrivateParts, ${withPrivate.map(({ kind }) => JSON.stringify(kind)).join(" | ")}> = true;`,
    ...newest.map(({ kind, schemas }, at) => same(`Bodies["${kind}"]`, schemas.body, at)),
    ...withPrivate.map(({ kind, schemas }, at) => same(`PrivateParts["${kind}"]`, schemas.private ?? {}, 1000 + at)),
  ];
  expect(await complaints(lines, "agreed")).toBe("");
});

test("a member more, less or of another sort would be seen", async () => {
  const lines = [
    'export const more: Same<Bodies["tag-lent"], { readonly tag: string; readonly colour: string }> = true;',
    'export const other: Same<Bodies["tag-lent"], { readonly tag: string | null }> = true;',
    'export const code: Same<Bodies["self-test-seen"]["result"], "passed" | "failed"> = true;',
  ];
  expect((await complaints(lines, "apart")).split("\n")).toHaveLength(3);
});
