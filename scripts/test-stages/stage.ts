/** One part of `npm test`: what it is called in the list, and what it found. */
export interface Stage {
  readonly name: string;
  readonly run: () => Promise<StageOutcome>;
}

export interface StageOutcome {
  readonly passed: number;
  readonly failed: number;
  readonly skipped: number;
  /** Shown whole where something failed. */
  readonly log: string;
  /** Why something was skipped; shown beside the count. */
  readonly why?: string;
}

/** Several named checks of one stage: each is a test, and passes when it has no complaint. */
export function outcomeOfChecks(checks: readonly { readonly name: string; readonly complaints: readonly string[] }[]): StageOutcome {
  const failed = checks.filter((check) => check.complaints.length > 0);
  return {
    passed: checks.length - failed.length,
    failed: failed.length,
    skipped: 0,
    log: failed.map((check) => `✗ ${check.name}\n${check.complaints.map((line) => `    ${line}\n`).join("")}`).join(""),
  };
}

/** Adds outcomes up; a stage that found nothing to do has failed, since nothing was shown. */
export function total(outcomes: readonly StageOutcome[]): { readonly passed: number; readonly failed: number; readonly skipped: number } {
  const sum = { passed: 0, failed: 0, skipped: 0 };
  for (const outcome of outcomes) {
    sum.passed += outcome.passed;
    sum.failed += outcome.failed;
    sum.skipped += outcome.skipped;
  }
  return sum;
}

export function withNothingFoundAsFailure(outcome: StageOutcome): StageOutcome {
  if (outcome.passed + outcome.failed + outcome.skipped > 0) return outcome;
  return { ...outcome, failed: 1, log: `${outcome.log}\nno test was found\n` };
}

/** The line that closes the run: nothing else may stand on it. */
export function closingLine(sum: { readonly passed: number; readonly failed: number; readonly skipped: number }): string {
  const skipped = sum.skipped > 0 ? `, ${sum.skipped} skipped` : "";
  return `${sum.passed} passed, ${sum.failed} failed${skipped}`;
}
