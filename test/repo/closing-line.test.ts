import { describe, expect, test } from "vitest";
import { closingLine, outcomeOfChecks, total, withNothingFoundAsFailure } from "../../scripts/test-stages/stage.ts";
import { outcomeOf } from "../../scripts/test-stages/vitest.ts";

test.each([
  [{ passed: 3, failed: 0, skipped: 0 }, "3 passed, 0 failed"],
  [{ passed: 3, failed: 1, skipped: 0 }, "3 passed, 1 failed"],
  [{ passed: 0, failed: 0, skipped: 2 }, "0 passed, 0 failed, 2 skipped"],
])("the run of %o closes with %s", (sum, line) => {
  expect(closingLine(sum)).toBe(line);
});

const nothing = { passed: 0, failed: 0, skipped: 0, log: "" };

test("a stage that found nothing has failed", () => {
  expect(withNothingFoundAsFailure(nothing).failed).toBe(1);
  expect(withNothingFoundAsFailure({ ...nothing, skipped: 1 }).failed).toBe(0);
});

test("checks count one each, and show what they complain of", () => {
  const outcome = outcomeOfChecks([
    { name: "a", complaints: [] },
    { name: "b", complaints: ["x is y"] },
  ]);
  expect(total([outcome, outcome])).toEqual({ passed: 2, failed: 2, skipped: 0 });
  expect(outcome.log).toContain("x is y");
});

describe("what vitest reports", () => {
  const report = { success: true, numPassedTests: 2, numFailedTests: 0, numPendingTests: 0, numTodoTests: 0, testResults: [] };
  const file = { name: "x.test.ts", status: "failed", message: "no such module", assertionResults: [] };
  test.each([
    ["all well", report, 0, 0],
    ["a failed test", { ...report, numFailedTests: 1 }, 1, 1],
    ["a file that does not load", { ...report, testResults: [file] }, 1, 1],
    ["a fault outside every test", report, 1, 1],
  ])("%s", (_, given, code, failed) => {
    expect(outcomeOf(given, { code, output: "said" })).toMatchObject({ passed: 2, failed, log: failed > 0 ? "said" : "" });
  });
});
