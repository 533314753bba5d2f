/** Bytes as text where an open format asks for base64. */

const LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";

/**
 * Bytes as base64 with padding. Source: RFC 4648 section 4 [read]. Never refuses.
 *
 * @example
 * ```ts
 * import { base64 } from "./base64.ts";
 * base64(Uint8Array.of(102, 111)); // => "Zm8="
 * ```
 */
export function base64(bytes: Uint8Array): string {
  let text = "";
  for (let at = 0; at < bytes.length; at += 3) {
    const [a = 0, b = 0, c = 0] = bytes.subarray(at, at + 3);
    const bits = (a << 16) | (b << 8) | c;
    text += [18, 12, 6, 0].map((shift) => LETTERS[(bits >> shift) & 63]).join("");
  }
  const missing = (3 - (bytes.length % 3)) % 3;
  return text.slice(0, text.length - missing) + "=".repeat(missing);
}

/**
 * The bytes of a base64 text; null where the text is not exactly what `base64` writes. Source: RFC 4648 section 4 [read].
 *
 * @example
 * ```ts
 * import { fromBase64 } from "./base64.ts";
 * fromBase64("Zm9="); // => null
 * [...(fromBase64("Zm8=") ?? [])]; // => [102, 111]
 * ```
 */
export function fromBase64(text: string): Uint8Array | null {
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
