import { cpSync, mkdirSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { beforeAll, describe, expect, test } from "vitest";
import { rooms } from "../../scripts/room-table.ts";
import { root, runTool } from "../../scripts/run-tool.ts";

const folder = join(root, ".work", "rooms");

/** A small repository with one breach of each kind, judged by the real table. */
const files: Readonly<Record<string, string>> = {
  "src/core/result.ts": "export const given = 1;\n",
  "src/core/time/index.ts": 'export { hour } from "./hour.ts";\n',
  "src/core/time/hour.ts": 'import { given } from "../result.ts";\nexport const hour = given;\nexport type Hour = number;\n',
  "src/core/quantity/upwards.ts": 'import { hour } from "../time/index.ts";\nexport const one = hour;\n',
  "src/core/gas/disk.ts": 'import { readFileSync } from "node:fs";\nexport const read = readFileSync;\n',
  "src/core/gas/parser.ts": 'import papa from "papaparse";\nexport const parse = papa;\n',
  "src/core/table/past-the-door.ts": 'import { hour } from "../time/hour.ts";\nexport const two = hour;\n',
  "src/core/table/fine.ts":
    'import type { Hour } from "../time/hour.ts";\nimport { hour } from "../time/index.ts";\nexport const three: Hour = hour;\n',
  "src/core/recording/first.ts": 'import { second } from "./second.ts";\nexport const first: number = second;\n',
  "src/core/recording/second.ts": 'import { first } from "./first.ts";\nexport const second: number = first;\n',
  "src/core/recording/nowhere.ts": 'import { gone } from "./gone.ts";\nexport const four = gone;\n',
  "src/core/exposure/names-work.ts": 'import type { Ask } from "../../work/ask.ts";\nexport type Five = Ask;\n',
  "src/work/ask.ts": "export type Ask = number;\nexport const ask = 1;\n",
  "src/report/runs-work.ts": 'import { ask } from "../work/ask.ts";\nexport const six = ask;\n',
  "src/web/serves.ts": 'import { listen } from "../server/listen.ts";\nexport const seven = listen;\n',
  "src/server/listen.ts": 'import { probe } from "../../test/probe.ts";\nexport const listen = probe;\n',
  "test/probe.ts": "export const probe = 1;\n",
};

const breaches: readonly (readonly [rule: string, from: string])[] = [
  ["quantity-imports-only-its-arrows", "src/core/quantity/upwards.ts"],
  ["gas-runs-without-node", "src/core/gas/disk.ts"],
  ["gas-uses-only-its-packages", "src/core/gas/parser.ts"],
  ["table-imports-only-its-arrows", "src/core/table/past-the-door.ts"],
  ["no-circle", "src/core/recording/first.ts"],
  ["no-missing-file", "src/core/recording/nowhere.ts"],
  ["exposure-names-only-known-types", "src/core/exposure/names-work.ts"],
  ["report-imports-only-its-arrows", "src/report/runs-work.ts"],
  ["web-imports-only-its-arrows", "src/web/serves.ts"],
  ["product-does-not-need-tests", "src/server/listen.ts"],
];

let found = "";

beforeAll(async () => {
  rmSync(folder, { recursive: true, force: true });
  for (const [path, text] of Object.entries(files)) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), text);
  }
  for (const name of ["rooms.cjs", ".dependency-cruiser.cjs", "tsconfig.base.json"]) cpSync(join(root, name), join(folder, name));
  symlinkSync(join(root, "node_modules"), join(folder, "node_modules"), "junction");
  const cruiser = join(root, "node_modules/dependency-cruiser/bin/dependency-cruiser.mjs");
  const run = await runTool(process.execPath, [cruiser, "src", "--config", ".dependency-cruiser.cjs", "--output-type", "err"], {
    cwd: folder,
  });
  found = run.output;
});

describe("the walls of rooms.cjs", () => {
  test.each(breaches)("%s is said of %s", (rule, from) => {
    expect(found).toContain(`error ${rule}: ${from}`);
  });

  test("and of nothing else", () => {
    const said = [...found.matchAll(/error ([\w-]+): (\S+)/g)].map((match) => `${match[1]} ${match[2]}`).sort();
    expect(said).toEqual(breaches.map((breach) => breach.join(" ")).sort());
  });

  test("every room has one row, and arrows point only to rooms below it", () => {
    const names = rooms.map((room) => room.name);
    expect(new Set(names).size).toBe(names.length);
    for (const [index, room] of rooms.entries()) {
      for (const name of room.mayImport) expect(names.indexOf(name), `${room.name} -> ${name}`).toBeGreaterThan(index);
    }
  });
});
