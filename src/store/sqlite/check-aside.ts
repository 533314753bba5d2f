/** Looks through a large file beside the work: reading all of it would hold up the first answer after a start. */
import { Worker } from "node:worker_threads";

export interface CheckAside {
  /** What is damaged; null where nothing is, or where it was stopped. */
  readonly found: Promise<string | null>;
  readonly stop: () => Promise<void>;
}

export function checkAside(path: string): CheckAside {
  const worker = new Worker(new URL("./check-worker.ts", import.meta.url), { workerData: path });
  const found = new Promise<string | null>((resolve, reject) => {
    worker.once("message", resolve);
    worker.once("error", reject);
    worker.once("exit", () => resolve(null));
  });
  return {
    found,
    stop: async () => {
      await worker.terminate();
    },
  };
}
