/** What SQLite's faults mean for a book, by primary result code. Source: sqlite.org/rescode.html [read]. */
import type { TablesFault } from "./tables.ts";

/** Rows of a book that are not as they were written: found by us, where SQLite sees nothing wrong. */
export class DamagedRows extends Error {}

const codeOf = (fault: unknown): number | null =>
  fault instanceof Error && "errcode" in fault && typeof fault.errcode === "number" ? fault.errcode & 255 : null;

const BUSY = 5;
/** Malformed, and no database at all. */
const DAMAGED: ReadonlySet<number> = new Set([11, 26]);
/** No memory, read-only, input or output failed, full, cannot be opened. */
const DISK: ReadonlySet<number> = new Set([7, 8, 10, 13, 14]);

export const isBusy = (fault: unknown): boolean => codeOf(fault) === BUSY;

/** The disk does not keep, or give back, what it was given. */
export function isOfDisk(fault: unknown): fault is Error {
  if (fault instanceof DamagedRows) return true;
  const code = codeOf(fault);
  return code !== null && (DISK.has(code) || DAMAGED.has(code));
}

/** Why a book could not be opened; a fault that is not the disk's goes on. */
export function tablesFault(fault: unknown): TablesFault {
  if (isBusy(fault)) return { type: "disk-failed", what: "another process holds the file" };
  if (!isOfDisk(fault)) throw fault;
  return { type: fault instanceof DamagedRows || DAMAGED.has(codeOf(fault) ?? 0) ? "damaged" : "disk-failed", what: fault.message };
}
