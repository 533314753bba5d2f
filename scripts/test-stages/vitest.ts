import { existsSync, globSync, mkdirSync, readFileSync, rmSync } from "node:fs";
import { join } from "node:path";
import { findBrowser } from "../find-browser.ts";
import { root, runNode, type ToolRun } from "../run-tool.ts";
import type { Stage, StageOutcome } from "./stage.ts";

const program = "node_modules/vitest/vitest.mjs";

/** What this stage reads of the report that vitest writes. */
interface Report {
  readonly success: boolean;
  readonly numPassedTests: number;
  readonly numFailedTests: number;
  readonly numPendingTests: number;
  readonly numTodoTests: number;
  readonly testResults: readonly {
    readonly name: string;
    readonly status: string;
    readonly message: string;
    readonly assertionResults: readonly unknown[];
  }[];
}

export const everything: Stage = {
  name: "vitest",
  run: () => runVitest("vitest", ["--config", "vitest.config.ts"], {}),
};

export const browser: Stage = {
  name: "browser",
  run: async () => {
    const found = await findBrowser();
    if (found.found) return runVitest("browser", ["--config", "vitest.browser.config.ts"], { CHROMIUM: found.path });
    // A machine that tests for others must not pass by leaving tests out.
    const count = await countBrowserTests();
    if (process.env.CI) return { passed: 0, failed: Math.max(1, count), skipped: 0, log: `${found.why}\n${found.log}` };
    return { passed: 0, failed: count === 0 ? 1 : 0, skipped: count, why: found.why, log: found.log };
  },
};

async function runVitest(name: string, words: readonly string[], env: Readonly<Record<string, string>>): Promise<StageOutcome> {
  const report = join(root, ".work", `${name}.json`);
  mkdirSync(join(root, ".work"), { recursive: true });
  rmSync(report, { force: true });
  const run = await runNode(program, ["run", ...words, "--reporter=default", "--reporter=json", `--outputFile.json=${report}`], {
    env,
    longestSeconds: 900,
  });
  if (!existsSync(report))
    return { passed: 0, failed: 1, skipped: 0, log: `${run.output}\nvitest ended with ${run.code} and wrote no report\n` };
  // The report is vitest's own; its fields are checked by the numbers adding up below.
  return outcomeOf(JSON.parse(readFileSync(report, "utf8")) as Report, run);
}

/** A file that does not load has no tests to fail, and must not pass for that. */
export function outcomeOf(report: Report, run: ToolRun): StageOutcome {
  const unloaded = report.testResults.filter((file) => file.status === "failed" && file.assertionResults.length === 0).length;
  const counted = report.numFailedTests + unloaded;
  const failed = counted === 0 && run.code !== 0 ? 1 : counted;
  return {
    passed: report.numPassedTests,
    failed,
    skipped: report.numPendingTests + report.numTodoTests,
    log: failed > 0 ? run.output : "",
    ...(report.numPendingTests > 0 ? { why: "each skipped test names its reason" } : {}),
  };
}

async function countBrowserTests(): Promise<number> {
  if (globSync("test/browser/**/*.test.ts", { cwd: root }).length === 0) return 0;
  const run = await runNode(program, ["list", "--config", "vitest.browser.config.ts"]);
  return run.code === 0 ? run.output.split("\n").filter((line) => line.includes(" > ")).length : 0;
}
