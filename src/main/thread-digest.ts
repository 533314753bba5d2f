/** SHA-256 of a large file beside the reading of it, in sixteen mebibytes of memory whatever the size of the file. */
import { once } from "node:events";
import { Worker } from "node:worker_threads";
import { assert } from "../core/result.ts";
import type { RunningDigest } from "../work/ports.ts";
import { newRing, PLACES, SLOT_BYTES, SLOTS } from "./hash-ring.ts";
import { hashRing } from "./hash-worker.ts";

/** A thread that hashes nothing for so long has died. */
const LONGEST_WAIT_MS = 30_000;

const { laid: LAID, hashed: HASHED, lengths: LENGTHS, ended: ENDED } = PLACES;

const THREAD = `const { workerData, parentPort } = require("node:worker_threads");
(${hashRing})(workerData, require("node:crypto").createHash, parentPort);`;

export function threadDigest(): RunningDigest {
  const ring = newRing();
  const bytes = new Uint8Array(ring.slots);
  const counts = new Int32Array(ring.control);
  const worker = new Worker(THREAD, { eval: true, workerData: ring });
  // Listened for from the start: a thread that fails does so before anybody asks for the digest.
  const answer = once(worker, "message");
  answer.catch(() => undefined);
  let laid = 0;
  const lay = (piece: Uint8Array): void => {
    for (let hashed = Atomics.load(counts, HASHED); laid - hashed >= SLOTS; hashed = Atomics.load(counts, HASHED))
      assert(Atomics.wait(counts, HASHED, hashed, LONGEST_WAIT_MS) !== "timed-out", "the thread that hashes is alive");
    const slot = laid % SLOTS;
    bytes.set(piece, slot * SLOT_BYTES);
    counts[LENGTHS + slot] = piece.length;
    laid++;
    Atomics.store(counts, LAID, laid);
    Atomics.notify(counts, LAID);
  };
  return {
    add: (piece) => {
      for (let from = 0; from < piece.length; from += SLOT_BYTES) lay(piece.subarray(from, from + SLOT_BYTES));
    },
    hex: async () => {
      Atomics.store(counts, LAID, laid | ENDED);
      Atomics.notify(counts, LAID);
      const [hex] = await answer;
      return String(hex);
    },
  };
}
