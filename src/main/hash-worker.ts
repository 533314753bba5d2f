/**
 * What the thread does that hashes what `thread-digest.ts` lays into the ring. The thread is started from the text of
 * this function: one that starts from a file of ours first loads what takes the types out of it, and is ready 20 ms
 * later. So the function uses nothing that stands outside it.
 */
import type { createHash } from "node:crypto";
import type { MessagePort } from "node:worker_threads";
import type { Ring } from "./hash-ring.ts";

/** Hashes what is laid into the ring until that has ended, then sends the digest. */
export function hashRing({ slots, control, places, slotBytes }: Ring, newHash: typeof createHash, port: MessagePort | null): void {
  const bytes = new Uint8Array(slots);
  const counts = new Int32Array(control);
  const hash = newHash("sha256");
  const slotCount = bytes.length / slotBytes;
  for (let hashed = 0; ; ) {
    const laid = Atomics.load(counts, places.laid);
    if ((laid & ~places.ended) === hashed) {
      if ((laid & places.ended) !== 0) break;
      Atomics.wait(counts, places.laid, laid);
      continue;
    }
    const slot = hashed % slotCount;
    hash.update(bytes.subarray(slot * slotBytes, slot * slotBytes + (counts[places.lengths + slot] as number))); // one length a slot
    hashed++;
    Atomics.store(counts, places.hashed, hashed);
    Atomics.notify(counts, places.hashed);
  }
  port?.postMessage(hash.digest("hex"));
}
