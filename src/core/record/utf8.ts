/** UTF-8 of the book's texts, by hand: this room has no encoder, and reads back nothing but what it would write. */

/**
 * UTF-8 bytes of a text without halves of surrogate pairs (canonical text has none). Source: RFC 3629 section 3 [read].
 *
 * @example
 * ```ts
 * import { utf8FromText } from "./utf8.ts";
 * [...utf8FromText("H₂")]; // => [72, 226, 130, 130]
 * ```
 */
export function utf8FromText(text: string): Uint8Array {
  const bytes = new Uint8Array(text.length);
  for (let index = 0; index < text.length; index += 1) {
    const unit = text.charCodeAt(index);
    if (unit >= 0x80) return widerFrom(text, bytes, index);
    bytes[index] = unit;
  }
  return bytes;
}

/** The same from the first character on that takes more than a byte. */
function widerFrom(text: string, before: Uint8Array, from: number): Uint8Array {
  const bytes = new Uint8Array(from + (text.length - from) * 3);
  bytes.set(before.subarray(0, from));
  let at = from;
  for (let index = from; index < text.length; index += 1) {
    const point = text.codePointAt(index) ?? 0;
    if (point > 0xffff) index += 1;
    if (point < 0x80) bytes[at++] = point;
    else at = written(bytes, at, point);
  }
  return bytes.slice(0, at);
}

function written(bytes: Uint8Array, at: number, point: number): number {
  const more = point < 0x800 ? 1 : point < 0x10000 ? 2 : 3;
  const mark = [0, 0xc0, 0xe0, 0xf0][more] ?? 0;
  bytes[at] = mark | (point >> (6 * more));
  for (let left = more; left > 0; left -= 1) bytes[at + more - left + 1] = 0x80 | ((point >> (6 * (left - 1))) & 0x3f);
  return at + more + 1;
}

/**
 * The text of UTF-8 bytes; null where they are not exactly what `utf8FromText` writes: cut off, overlong, surrogates.
 *
 * @example
 * ```ts
 * import { textFromUtf8 } from "./utf8.ts";
 * textFromUtf8(Uint8Array.of(72, 226, 130, 130)); // => "H₂"
 * textFromUtf8(Uint8Array.of(192, 128)); // => null
 * ```
 * Source: RFC 3629 section 3 [read].
 */
export function textFromUtf8(bytes: Uint8Array): string | null {
  const parts: string[] = [];
  for (let at = 0; at < bytes.length; ) {
    const end = endOfAscii(bytes, at);
    if (end > at) parts.push(asciiText(bytes, at, end));
    at = end;
    if (at >= bytes.length) break;
    const point = pointAt(bytes, at);
    if (point === null) return null;
    parts.push(String.fromCodePoint(point));
    at += lengthOf(point);
  }
  return parts.join("");
}

const lengthOf = (point: number): number => (point < 0x80 ? 1 : point < 0x800 ? 2 : point < 0x10000 ? 3 : 4);

function endOfAscii(bytes: Uint8Array, from: number): number {
  let at = from;
  while (at < bytes.length && (bytes[at] ?? 0) < 0x80) at += 1;
  return at;
}

const CHUNK = 4096;

function asciiText(bytes: Uint8Array, from: number, to: number): string {
  let text = "";
  for (let at = from; at < to; at += CHUNK) text += codesText(bytes.subarray(at, Math.min(at + CHUNK, to)));
  return text;
}

/** Bytes are numbers in a row: `apply` takes them as they are, where spreading them would walk them one by one. */
const codesText = (bytes: Uint8Array): string => String.fromCharCode.apply(null, bytes as unknown as number[]);

function pointAt(bytes: Uint8Array, at: number): number | null {
  const first = bytes[at] ?? 0;
  const more = first >= 0xf0 ? 3 : first >= 0xe0 ? 2 : first >= 0xc0 ? 1 : 0;
  if (more === 0 || first > 0xf7) return null;
  let point = first & (0x3f >> more);
  for (let next = 1; next <= more; next += 1) {
    const byte = bytes[at + next] ?? 0;
    if ((byte & 0xc0) !== 0x80) return null;
    point = (point << 6) | (byte & 0x3f);
  }
  const isSurrogate = point >= 0xd800 && point <= 0xdfff;
  return lengthOf(point) === more + 1 && point <= 0x10ffff && !isSurrogate ? point : null;
}
