import type { Allowance } from "./size.ts";

/** Functions over the line that stand for now, `path#name`; the number may fall and never rise. */
export const allowedFunctions: Readonly<Record<string, Allowance>> = {};

/** Files over the line that were looked at twice; the number may fall and never rise. */
export const allowedFiles: Readonly<Record<string, Allowance>> = {};

/** Subjects of commits that were written before their form was checked. */
export const oldSubjects: readonly string[] = ["table: made-up and damaged files are read as papaparse reads them"];
