/** Begins to write: waits for its turn without holding up whoever else lives in this process. */
import type { DatabaseSync } from "node:sqlite";
import { setTimeout } from "node:timers/promises";
import { isBusy } from "./faults.ts";

export const LONGEST_WAIT_MS = 30_000;
const MOST_BETWEEN_MS = 20;

/**
 * Takes the one lock for writing. Another process, or another connection of this one, may have it: then it is asked for
 * again, at first at once, later every 20 ms. After 30 s SQLite's own fault goes on to the caller.
 */
export const beginWriting = (database: DatabaseSync): Promise<void> => whenFree(() => database.exec("begin immediate"));

/** Copies the log into the file and cuts it to nothing, once nobody reads from it; after 30 s it is a fault. */
export const emptyLog = (database: DatabaseSync): Promise<void> =>
  whenFree(() => {
    const row = database.prepare("pragma wal_checkpoint(truncate)").get();
    if (row?.["busy"] !== 0) throw Object.assign(new Error("another process reads from the log of the book"), { errcode: 5 });
  });

async function whenFree(act: () => void): Promise<void> {
  for (let waited = 0, pause = 0; ; waited += pause) {
    try {
      act();
      return;
    } catch (fault) {
      if (!isBusy(fault) || waited > LONGEST_WAIT_MS) throw fault;
    }
    pause = Math.min(pause + 1, MOST_BETWEEN_MS);
    await setTimeout(pause);
  }
}
