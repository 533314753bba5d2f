// `npm test`: every check there is, one stage after another, each with its line; closes with the sum alone on a line.
import { docExamples } from "./test-stages/doc-examples.ts";
import { closingLine, type Stage, type StageOutcome, total, withNothingFoundAsFailure } from "./test-stages/stage.ts";
import { tidy } from "./test-stages/tidy.ts";
import { lint, rooms, types, web } from "./test-stages/tools.ts";
import { browser, everything } from "./test-stages/vitest.ts";

const stages: readonly Stage[] = [lint, types, rooms, tidy, docExamples, web, everything, browser];

/** Words after `npm test --` choose stages by the start of their names; with none all run. */
function chosenStages(words: readonly string[]): readonly Stage[] {
  return words.length === 0 ? stages : stages.filter((stage) => words.some((word) => stage.name.startsWith(word)));
}

async function outcomeOfStage(stage: Stage): Promise<StageOutcome> {
  try {
    return withNothingFoundAsFailure(await stage.run());
  } catch (fault) {
    return { passed: 0, failed: 1, skipped: 0, log: `the stage broke off: ${fault instanceof Error ? fault.stack : String(fault)}\n` };
  }
}

function lineOf(stage: Stage, outcome: StageOutcome, seconds: number): string {
  const why = outcome.why ? ` (${outcome.why})` : "";
  const parts = [`${outcome.passed} passed`];
  if (outcome.failed > 0) parts.push(`${outcome.failed} FAILED`);
  if (outcome.skipped > 0) parts.push(`${outcome.skipped} skipped${why}`);
  return `${stage.name.padEnd(13)}${seconds.toFixed(1).padStart(6)} s  ${parts.join(", ")}\n`;
}

const outcomes: StageOutcome[] = [];
for (const stage of chosenStages(process.argv.slice(2))) {
  const begun = performance.now();
  const outcome = await outcomeOfStage(stage);
  outcomes.push(outcome);
  process.stdout.write(lineOf(stage, outcome, (performance.now() - begun) / 1000));
  if (outcome.failed > 0) process.stdout.write(`\n${outcome.log.trimEnd()}\n\n`);
}
const sum = total(outcomes.length > 0 ? outcomes : [{ passed: 0, failed: 1, skipped: 0, log: "" }]);
process.stdout.write(`${closingLine(sum)}\n`);
process.exitCode = sum.failed > 0 ? 1 : 0;
