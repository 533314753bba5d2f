/**
 * A part of an entry that can be forgotten: its bytes begin with 16 bytes of chance, and what is signed holds only their
 * digest. Once salt and bytes are gone nobody can guess them back by trying values.
 */
import { given, type Result, refused } from "../result.ts";
import { canonicalJson, fromCanonicalJson, type Json, type NotCanonical } from "./canonical-json.ts";
import { textFromUtf8, utf8FromText } from "./utf8.ts";

export const SALT_BYTES = 16;

export type NotASealedPart = NotCanonical | { readonly type: "not-a-sealed-part"; readonly why: "salt" | "not UTF-8" };

/**
 * Bytes of a part: 16 bytes of salt, then the canonical text of the value in UTF-8.
 *
 * @param salt 16 bytes of chance, never used twice; handed in
 * @example
 * ```ts
 * import { sealedPart } from "./sealed-part.ts";
 * const sealed = sealedPart({ a: 1 }, new Uint8Array(16));
 * sealed.ok && [sealed.value.length, sealed.value[16]]; // => [23, 123]
 * ```
 * Refuses what has no canonical text, and a salt of another length. Source: RFC 8785 [read] for the text; the salt: ours.
 */
export function sealedPart(value: unknown, salt: Uint8Array): Result<Uint8Array, NotASealedPart> {
  if (salt.length !== SALT_BYTES) return refused({ type: "not-a-sealed-part", why: "salt" });
  const text = canonicalJson(value);
  if (!text.ok) return text;
  const bytes = utf8FromText(text.value);
  const sealed = new Uint8Array(SALT_BYTES + bytes.length);
  sealed.set(salt);
  sealed.set(bytes, SALT_BYTES);
  return given(sealed);
}

/**
 * The value of a part's bytes.
 *
 * @example
 * ```ts
 * import { openedPart, sealedPart } from "./sealed-part.ts";
 * const sealed = sealedPart({ b: [1, "H₂S"] }, new Uint8Array(16));
 * sealed.ok && openedPart(sealed.value); // => { "ok": true, "value": { "b": [1, "H₂S"] } }
 * openedPart(new Uint8Array(9)); // => { "ok": false, "refusal": { "type": "not-a-sealed-part", "why": "salt" } }
 * ```
 * Refuses bytes that `sealedPart` would not write. Source: as `sealedPart`.
 */
export function openedPart(bytes: Uint8Array): Result<Json, NotASealedPart> {
  if (bytes.length < SALT_BYTES) return refused({ type: "not-a-sealed-part", why: "salt" });
  const text = textFromUtf8(bytes.subarray(SALT_BYTES));
  return text === null ? refused({ type: "not-a-sealed-part", why: "not UTF-8" }) : fromCanonicalJson(text);
}
