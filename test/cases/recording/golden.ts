/** Cases of the handbook's goldens: each with its id, statement, source and mark. */
import { readFileSync } from "node:fs";

export interface Golden {
  readonly id: string;
  readonly topic: string;
  readonly statement: string;
  // biome-ignore lint/suspicious/noExplicitAny: the shape differs from case to case; each test reads the keys that its case has
  readonly inputs: any;
  // biome-ignore lint/suspicious/noExplicitAny: as above
  readonly expected: any;
  readonly source: string;
}

export function goldens(file: "formats" | "exposure"): ReadonlyMap<string, Golden> {
  const cases: readonly Golden[] = JSON.parse(readFileSync(new URL(`../goldens/${file}.json`, import.meta.url), "utf8"));
  return new Map(cases.map((golden) => [golden.id, golden]));
}

/** Name of a test: what it says, which case it is, and where the figures come from. */
export function named(golden: Golden): string {
  return `${golden.id}: ${golden.statement} (${golden.source})`;
}
