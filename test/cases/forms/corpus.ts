// Bodies as they were written when a form was released: read by every later release, for good.
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { root } from "../../../scripts/run-tool.ts";

interface Bad {
  readonly body: unknown;
  /** Place at fault. */
  readonly at: readonly (string | number)[];
  readonly why: string;
}

export interface FormCorpus {
  readonly kind: string;
  readonly form: number;
  readonly good: readonly unknown[];
  readonly bad: readonly Bad[];
  readonly goodPrivate?: readonly unknown[];
  readonly badPrivate?: readonly Bad[];
}

const folder = join(root, "test/cases/forms");

/** Read from the folder, so that a file that nobody lists is looked at too. */
export const CORPUS: readonly FormCorpus[] = readdirSync(folder)
  .filter((name) => /^(?!envelopes\.)[a-z-]+\.\d+\.json$/.test(name))
  .sort()
  .map((name) => JSON.parse(readFileSync(join(folder, name), "utf8")));

/** Envelope members that fit a form, for tests of bodies. */
export const idOf = (number: number): string => `7d1e2f30-4152-4637-8859-${String(number).padStart(12, "0")}`;
export const submissionOf = (number: number): string => `018f3c2a-7b11-7c3d-9e2f-${String(number).padStart(12, "0")}`;
