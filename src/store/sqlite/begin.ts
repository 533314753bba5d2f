/** Begins to write: waits for its turn without holding up whoever else lives in this process. */
import type { DatabaseSync } from "node:sqlite";
import { setTimeout } from "node:timers/promises";

const BUSY = 5;
const LONGEST_WAIT_MS = 30_000;
const MOST_BETWEEN_MS = 20;

/**
 * Takes the one lock for writing. Another process, or another connection of this one, may have it: then it is asked for
 * again, at first at once, later every 20 ms. After 30 s SQLite's own fault goes on to the caller.
 */
export async function beginWriting(database: DatabaseSync): Promise<void> {
  for (let waited = 0, pause = 0; ; waited += pause) {
    try {
      database.exec("begin immediate");
      return;
    } catch (fault) {
      const isBusy = fault instanceof Error && "errcode" in fault && (Number(fault.errcode) & 255) === BUSY;
      if (!isBusy || waited > LONGEST_WAIT_MS) throw fault;
    }
    pause = Math.min(pause + 1, MOST_BETWEEN_MS);
    await setTimeout(pause);
  }
}
