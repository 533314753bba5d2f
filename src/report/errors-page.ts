/** docs/errors.md, written from the catalogue. */
import { REFUSALS, type Refusal, refusalWords } from "./errors.ts";
import { FAULTS } from "./errors-of-lines.ts";

export function errorsPage(): string {
  const refusals = Object.values(REFUSALS).map((entry) => refusalSection(entry.example, entry.exit, entry.status));
  const faults = Object.entries(FAULTS).map(([type, { says, mend }]) => `| \`${type}\` | ${says} | ${mend} |`);
  return [
    "# Errors",
    "",
    "Everything that Lamproom can say went wrong. This page is written from the catalogue (`src/report/errors.ts`); do not edit it by hand.",
    "",
    "## Refusals",
    "",
    "A file, a call or a calculation that cannot be answered. The code stands as `type` in JSON; the sentence is an example.",
    "",
    ...refusals.toSorted(),
    "",
    "## Faults of a line",
    "",
    "The file was read, and these lines need a look. `rejected` in JSON says whether the row was left out.",
    "",
    "| code | what is wrong | what to do |",
    "| --- | --- | --- |",
    ...faults.toSorted(),
    "",
  ].join("\n");
}

function refusalSection(example: Refusal, exit: number, status: number): string {
  const { message, mend } = refusalWords(example);
  return `- \`${example.type}\` (exit code ${exit}, HTTP ${status}): ${message} ${mend}`;
}
