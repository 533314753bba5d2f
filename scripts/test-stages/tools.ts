import { existsSync } from "node:fs";
import { join } from "node:path";
import { buildWeb } from "../build-web.ts";
import { root, runNode, type ToolRun } from "../run-tool.ts";
import { outcomeOfChecks, type Stage, type StageOutcome } from "./stage.ts";

const asOutcome = (runs: readonly ToolRun[]): StageOutcome => ({
  passed: runs.filter((run) => run.code === 0).length,
  failed: runs.filter((run) => run.code !== 0).length,
  skipped: 0,
  log: runs.map((run) => (run.code === 0 ? "" : run.output)).join("\n"),
});

export const lint: Stage = {
  name: "lint",
  run: async () => asOutcome([await runNode("node_modules/@biomejs/biome/bin/biome", ["ci", "--max-diagnostics=200"])]),
};

const programs = ["tsconfig.pure.json", "tsconfig.node.json", "tsconfig.web.json", "tsconfig.web-tests.json"];

export const types: Stage = {
  name: "types",
  run: async () => {
    const runs: ToolRun[] = [];
    for (const program of programs) runs.push(await runNode("node_modules/typescript7/bin/tsc", ["-p", program]));
    return asOutcome(runs);
  },
};

export const rooms: Stage = {
  name: "rooms",
  run: async () =>
    asOutcome([
      await runNode("node_modules/dependency-cruiser/bin/dependency-cruiser.mjs", [
        "src",
        "--config",
        ".dependency-cruiser.cjs",
        "--output-type",
        "err-long",
      ]),
    ]),
};

export const web: Stage = {
  name: "web build",
  run: async () => {
    if (!existsSync(join(root, "src/web/index.html"))) return outcomeOfChecks([{ name: "src/web/index.html", complaints: ["is missing"] }]);
    const built = await buildWeb();
    return outcomeOfChecks([{ name: "vite build", complaints: built.ok ? [] : built.output.split("\n") }]);
  },
};
