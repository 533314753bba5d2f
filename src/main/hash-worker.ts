/** SHA-256 on a thread of its own: hashes what `thread-digest.ts` lays into the ring, sends the digest, and ends. */
import { createHash } from "node:crypto";
import { parentPort, workerData } from "node:worker_threads";
import { ENDED, HASHED, LAID, LENGTHS, type Ring, SLOT_BYTES, SLOTS } from "./hash-ring.ts";

const { slots, control } = workerData as Ring; // `thread-digest.ts` gives nothing else
const bytes = new Uint8Array(slots);
const counts = new Int32Array(control);
const hash = createHash("sha256");

for (let hashed = 0; ; ) {
  const laid = Atomics.load(counts, LAID);
  if ((laid & ~ENDED) === hashed) {
    if ((laid & ENDED) !== 0) break;
    Atomics.wait(counts, LAID, laid);
    continue;
  }
  const slot = hashed % SLOTS;
  hash.update(bytes.subarray(slot * SLOT_BYTES, slot * SLOT_BYTES + (counts[LENGTHS + slot] as number))); // one length a slot
  hashed++;
  Atomics.store(counts, HASHED, hashed);
  Atomics.notify(counts, HASHED);
}
parentPort?.postMessage(hash.digest("hex"));
