/**
 * Made-up, damaged and random files against the reader of tables, for a time or a number of cases. The seed is printed
 * first; the same seed makes the same files. node scripts/fuzz-tables.ts [--seconds 60 | --cases N] [--seed S]
 */
import { randomInt } from "node:crypto";
import { parseArgs } from "node:util";
import { fuzzCase } from "../test/core/table/fuzz-case.ts";

const USAGE = "node scripts/fuzz-tables.ts [--seconds 60 | --cases N] [--seed S], whole numbers";
/** After so many failures more of them teach nothing. */
const MOST_FAILURES = 5;

const { values } = parseArgs({ options: { seconds: { type: "string" }, cases: { type: "string" }, seed: { type: "string" } } });
const seed = wholeNumber(values.seed, randomInt(2 ** 31));
const cases = wholeNumber(values.cases, Number.POSITIVE_INFINITY);
const end = values.cases === undefined ? performance.now() + wholeNumber(values.seconds, 60) * 1000 : Number.POSITIVE_INFINITY;
console.log(`seed ${seed}`);
let done = 0;
let failed = 0;
while (done < cases && performance.now() < end && failed < MOST_FAILURES) {
  const problem = fuzzCase((seed + done) >>> 0);
  if (problem !== null) {
    failed++;
    console.log(`case ${(seed + done) >>> 0}: ${problem}`);
  }
  done++;
}
console.log(`${done} cases, ${failed} failed`);
// A run that tried nothing has shown nothing.
process.exitCode = failed === 0 && done > 0 ? 0 : 1;

function wholeNumber(text: string | undefined, otherwise: number): number {
  if (text === undefined) return otherwise;
  if (/^\d+$/.test(text)) return Number(text);
  console.error(`${text} is no whole number: ${USAGE}`);
  process.exit(2);
}
