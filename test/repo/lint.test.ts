import { cpSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { root, runTool } from "../../scripts/run-tool.ts";

const refused: Readonly<Record<string, readonly [line: string, says: string]>> = {
  "the-clock": ["export const now = new Date();\n", "an instant is an argument"],
  "the-clock-by-number": ["export const now = () => Date.now();\n", "an instant is an argument"],
  chance: ["export const chance = Math.random();\n", "a generator is an argument"],
  "the-clock-of-the-zone-package": [
    'import { Temporal } from "temporal-polyfill";\n\nexport const now = Temporal.Now.instant();\n',
    "an instant is an argument",
  ],
};
const pure = ["src/core/time", "src/report", "src/work"];

/** A copy of the rules with one file for each breach, outside the repository so that nothing else is judged. */
const folder = mkdtempSync(join(tmpdir(), "lamproom-lint-"));
const said = new Map<string, string>();

beforeAll(async () => {
  for (const name of ["biome.json", "scripts/no-chance.grit"]) {
    mkdirSync(dirname(join(folder, name)), { recursive: true });
    cpSync(join(root, name), join(folder, name));
  }
  for (const room of [...pure, "src/main"]) {
    mkdirSync(join(folder, room), { recursive: true });
    for (const [name, [line]] of Object.entries(refused)) writeFileSync(join(folder, room, `${name}.ts`), line);
    writeFileSync(join(folder, room, "plain.ts"), "export const larger = Math.max(1, 2);\n");
  }
  const biome = join(root, "node_modules/@biomejs/biome/bin/biome");
  const run = await runTool(process.execPath, [biome, "lint", "--vcs-enabled=false", "--max-diagnostics=100", "src"], { cwd: folder });
  for (const part of run.output.split(/^(?=src\/\S+\.ts:\d)/m)) {
    const path = /^(src\/\S+\.ts)/.exec(part)?.[1];
    if (path !== undefined) said.set(path, (said.get(path) ?? "") + part);
  }
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe.each(pure)("in %s lint refuses", (room) => {
  test.each(Object.entries(refused))("%s", (name, [, says]) => {
    expect(said.get(`${room}/${name}.ts`)).toContain(says);
  });

  test("nothing in a plain line", () => {
    expect(said.get(`${room}/plain.ts`)).toBeUndefined();
  });
});

test.each(["the-clock", "chance"])("main may ask for %s", (name) => {
  expect(said.get(`src/main/${name}.ts`)).toBeUndefined();
});
