/** The head of a book as three lines of text: what is signed, printed on reports, and kept off site. */
import { given, type Result, refused } from "../result.ts";
import { base64, fromBase64 } from "./base64.ts";

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
