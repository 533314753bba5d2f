/** The head of a book as three lines of text: what is signed, printed on reports, and kept off site. */
import { given, type Result, refused } from "../result.ts";

export interface Checkpoint {
  /** Name of the log; no line breaks, not empty. */
  readonly origin: string;
  readonly size: number;
  /** Root hash, 32 bytes. */
  readonly head: Uint8Array;
}

export type NotACheckpoint = {
  readonly type: "not-a-checkpoint";
  readonly why: "origin" | "size" | "head" | "lines";
};

const HASH_BYTES = 32;

/**
 * The body of a checkpoint: origin, size in decimal, base64 of the head, each line ended by one line feed. Signature
 * lines follow after a blank line and are not part of it.
 *
 * Refused: an origin that is empty or breaks lines, a size that is no whole number from 0 to 2^53 - 1, a head that is not
 * of 32 bytes.
 *
 * @example
 * ```ts
 * import { checkpointText } from "./checkpoint.ts";
 * checkpointText({ origin: "marl-beck", size: 8, head: new Uint8Array(32) }); // => { "ok": true, "value": "marl-beck\n8\nAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA=\n" }
 * ```
 * Source: C2SP tlog-checkpoint [read].
 */
export function checkpointText({ origin, size, head }: Checkpoint): Result<string, NotACheckpoint> {
  if (origin === "" || /[\n\r]/.test(origin)) return refused({ type: "not-a-checkpoint", why: "origin" });
  if (!Number.isSafeInteger(size) || size < 0) return refused({ type: "not-a-checkpoint", why: "size" });
  if (head.length !== HASH_BYTES) return refused({ type: "not-a-checkpoint", why: "head" });
  return given(`${origin}\n${size}\n${base64(head)}\n`);
}

/**
 * Reads the body back. Refused: more or fewer lines than three, leading noughts, base64 that is not the form written here.
 *
 * @example
 * ```ts
 * import { checkpointFrom } from "./checkpoint.ts";
 * checkpointFrom("marl-beck\n08\nAAAA\n"); // => { "ok": false, "refusal": { "type": "not-a-checkpoint", "why": "size" } }
 * ```
 * Source: C2SP tlog-checkpoint [read].
 */
export function checkpointFrom(text: string): Result<Checkpoint, NotACheckpoint> {
  const lines = text.split("\n");
  const [origin = "", sizeText = "", headText = "", end] = lines;
  if (lines.length !== 4 || end !== "") return refused({ type: "not-a-checkpoint", why: "lines" });
  const size = Number(sizeText);
  if (!/^(0|[1-9]\d{0,15})$/.test(sizeText) || !Number.isSafeInteger(size)) return refused({ type: "not-a-checkpoint", why: "size" });
  const head = fromBase64(headText);
  if (head === null || head.length !== HASH_BYTES) return refused({ type: "not-a-checkpoint", why: "head" });
  const found = { origin, size, head };
  const written = checkpointText(found);
  return written.ok ? given(found) : written;
}

const LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";

function base64(bytes: Uint8Array): string {
  let text = "";
  for (let at = 0; at < bytes.length; at += 3) {
    const [a = 0, b = 0, c = 0] = bytes.subarray(at, at + 3);
    const bits = (a << 16) | (b << 8) | c;
    text += [18, 12, 6, 0].map((shift) => LETTERS[(bits >> shift) & 63]).join("");
  }
  const missing = (3 - (bytes.length % 3)) % 3;
  return text.slice(0, text.length - missing) + "=".repeat(missing);
}

/** Null where the text is not exactly what `base64` writes. */
function fromBase64(text: string): Uint8Array | null {
  if (text.length % 4 !== 0) return null;
  const bare = text.replace(/={1,2}$/, "");
  const bytes = new Uint8Array(Math.floor((bare.length * 3) / 4));
  let bits = 0;
  for (let at = 0; at < bare.length; at += 1) {
    const value = LETTERS.indexOf(bare.charAt(at));
    if (value < 0) return null;
    bits = ((bits << 6) | value) & 0xffffff;
    if (at % 4 !== 0) bytes[Math.floor((at * 3) / 4)] = (bits >> (6 - 2 * (at % 4))) & 255;
  }
  return base64(bytes) === text ? bytes : null;
}
