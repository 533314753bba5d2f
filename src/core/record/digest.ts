/** A digest as the book writes it: the algorithm's name and the bytes in hexadecimal, so that it can be read alone. */
import type { Sha256 } from "./hash-tree.ts";

/** `sha256:` and 64 hexadecimal digits in lower case. */
export type Digest = `sha256:${string}`;

const FORM = /^sha256:[0-9a-f]{64}$/;

/** Whether a value is a digest in the one form that is written. Source: ours. Never refuses. */
export const isDigest = (value: unknown): value is Digest => typeof value === "string" && FORM.test(value);

/**
 * The digest of some bytes.
 *
 * @example
 * ```ts
 * import { digestFromHash } from "./digest.ts";
 * digestFromHash(new Uint8Array(32)).slice(0, 12); // => "sha256:00000"
 * ```
 * Source: FIPS 180-4 for SHA-256, handed in; the text form: ours. Never refuses.
 */
export const digestOf = (bytes: Uint8Array, sha256: Sha256): Digest => digestFromHash(sha256(bytes));

/**
 * A SHA-256 hash of 32 bytes as a digest text.
 *
 * @example
 * ```ts
 * import { digestFromHash } from "./digest.ts";
 * digestFromHash(Uint8Array.of(0, 171)); // => "sha256:00ab"
 * ```
 * Source: ours. Never refuses.
 */
export function digestFromHash(hash: Uint8Array): Digest {
  let text = "";
  for (const byte of hash) text += HEX[byte];
  return `sha256:${text}`;
}

/**
 * The 32 bytes that a digest text names.
 *
 * @example
 * ```ts
 * import { digestFromHash, hashFromDigest } from "./digest.ts";
 * hashFromDigest(digestFromHash(new Uint8Array(32).fill(7)))[31]; // => 7
 * ```
 * Source: ours. Never refuses: the type has been checked by `isDigest`.
 */
export function hashFromDigest(digest: Digest): Uint8Array {
  return Uint8Array.from({ length: 32 }, (_, at) => Number.parseInt(digest.slice(7 + 2 * at, 9 + 2 * at), 16));
}

const HEX = Array.from({ length: 256 }, (_, byte) => byte.toString(16).padStart(2, "0"));
