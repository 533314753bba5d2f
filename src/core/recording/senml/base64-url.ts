const ALPHABET = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_";

/**
 * Bytes from base64url without padding; null where the text is none, or leaves bits over that are not nought.
 *
 * @example
 * ```ts
 * import { bytesFromBase64Url } from "./base64-url.ts";
 * [...(bytesFromBase64Url("aGkgCg") ?? [])]; // => [104, 105, 32, 10]
 * bytesFromBase64Url("aGkgCg=="); // => null
 * ```
 * Source: RFC 4648 section 5; RFC 8428 section 4.3 (padding is left out).
 */
export function bytesFromBase64Url(text: string): Uint8Array | null {
  if (text.length % 4 === 1) return null;
  const bytes = new Uint8Array(Math.floor((text.length * 3) / 4));
  let bits = 0;
  let held = 0;
  let at = 0;
  for (const letter of text) {
    const sextet = ALPHABET.indexOf(letter);
    if (sextet < 0) return null;
    bits = ((bits << 6) | sextet) & 0xffff;
    held += 6;
    if (held < 8) continue;
    held -= 8;
    bytes[at] = (bits >> held) & 0xff;
    at += 1;
  }
  return (bits & ((1 << held) - 1)) === 0 ? bytes : null;
}
