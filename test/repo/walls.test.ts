import { mkdirSync, writeFileSync } from "node:fs";
import { join, relative } from "node:path";
import { describe, expect, test } from "vitest";
import { root, runNode } from "../../scripts/run-tool.ts";

const rooms = ["core", "report", "work"];

/** The settings are those of the repository, and the whole room is compiled with the probe: one package that brings the types of Node with it would let the probe pass. */
async function compileInside(room: string, name: string, probe: string): Promise<string> {
  const folder = join(root, ".work", "walls", `${room}-${name}`);
  mkdirSync(folder, { recursive: true });
  writeFileSync(join(folder, "probe.ts"), probe);
  const up = relative(folder, root);
  writeFileSync(
    join(folder, "tsconfig.json"),
    JSON.stringify({ extends: `${up}/tsconfig.pure.json`, include: [`${up}/src/${room}`, "probe.ts"] }),
  );
  const run = await runNode("node_modules/typescript7/bin/tsc", ["-p", folder, "--pretty", "false"]);
  return run.output
    .split("\n")
    .filter((line) => line.includes("probe.ts"))
    .join("\n");
}

describe.each(rooms)("src/%s knows nothing of the machine", (room) => {
  test.each([
    ["process.exit", "process.exit();", "process"],
    ["fetch", 'await fetch("http://127.0.0.1/");', "fetch"],
    ["console", 'console.log("");', "console"],
    ["setTimeout", "setTimeout(() => {}, 1);", "setTimeout"],
    ["Buffer", "Buffer.alloc(1);", "Buffer"],
    ["document", "document.title;", "document"],
  ])("%s does not compile there", async (name, line, word) => {
    expect(await compileInside(room, name.replace(".", "-"), `${line}\nexport {};\n`)).toMatch(new RegExp(`Cannot find name '${word}'`));
  });

  test("a plain line does", async () => {
    expect(await compileInside(room, "plain", "export const sum: number = Math.max(1, 2);\n")).toBe("");
  });
});
