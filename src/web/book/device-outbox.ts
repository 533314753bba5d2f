/** The outbox of this browser, with what a page has: chance, a clock, SHA-256 that needs no secure page. */
import { uuidv7 } from "uuidv7";
import { openDeviceOutbox as open } from "../../store/device/outbox.ts";
import type { Outbox } from "../../store/outbox.ts";
import { RunningSha256 } from "../desk/sha256.ts";

/** Throws where nothing can be kept, with the reason as its message. */
export async function openDeviceOutbox(book: string): Promise<Outbox> {
  // A browser that was not asked may empty the place under pressure. One that refuses is used all the same: what waits
  // stays in sight.
  await navigator.storage?.persist?.();
  const opened = await open({
    ...{ book, newId: uuidv7, now: Date.now, sha256 },
    newDevice: () => uuid(crypto.getRandomValues(new Uint8Array(16))),
    chance: (bytes) => crypto.getRandomValues(new Uint8Array(bytes)),
  });
  if (opened.ok) return opened.value;
  throw new Error(opened.refusal.type === "not-kept" ? opened.refusal.why : `${opened.refusal.at}: ${opened.refusal.why}`);
}

function sha256(bytes: Uint8Array): Uint8Array {
  const running = new RunningSha256();
  running.add(bytes);
  return Uint8Array.from(running.hex().match(/../g) ?? [], (pair) => Number.parseInt(pair, 16));
}

/** UUIDv4 (RFC 9562 section 5.4): the browser's own maker is there on secure pages alone. */
function uuid(bytes: Uint8Array): string {
  const all = Uint8Array.from(bytes);
  all[6] = ((all[6] ?? 0) & 0x0f) | 0x40;
  all[8] = ((all[8] ?? 0) & 0x3f) | 0x80;
  const text = Array.from(all, (byte) => byte.toString(16).padStart(2, "0")).join("");
  return [text.slice(0, 8), text.slice(8, 12), text.slice(12, 16), text.slice(16, 20), text.slice(20)].join("-");
}
