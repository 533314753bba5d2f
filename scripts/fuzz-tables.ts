/**
 * Made-up, damaged and random files against the reader of tables, for a time or a number of cases. The seed is printed
 * first; the same seed makes the same files. node scripts/fuzz-tables.ts [--seconds 60 | --cases N] [--seed S]
 */
import { randomInt } from "node:crypto";
import { parseArgs } from "node:util";
import { fuzzCase } from "../test/core/table/fuzz-case.ts";

const { values } = parseArgs({ options: { seconds: { type: "string" }, cases: { type: "string" }, seed: { type: "string" } } });
const seed = values.seed === undefined ? randomInt(2 ** 31) : Number(values.seed);
const cases = values.cases === undefined ? Number.POSITIVE_INFINITY : Number(values.cases);
const end = values.cases === undefined ? performance.now() + Number(values.seconds ?? 60) * 1000 : Number.POSITIVE_INFINITY;
console.log(`seed ${seed}`);
let done = 0;
let failed = 0;
while (done < cases && performance.now() < end && failed < 5) {
  const problem = fuzzCase((seed + done) >>> 0);
  if (problem !== null) {
    failed++;
    console.log(`case ${(seed + done) >>> 0}: ${problem}`);
  }
  done++;
}
console.log(`${done} cases, ${failed} failed`);
process.exitCode = failed === 0 ? 0 : 1;
