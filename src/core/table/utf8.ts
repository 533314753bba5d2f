/** UTF-8 by hand: this room has no TextDecoder, and must know where a fault lies (RFC 3629, section 4). */

const CHUNK = 8192;
const SHORT = 24;

/** Text of a stretch of UTF-8 bytes; bytes that are not UTF-8 become U+FFFD, one each. */
export function textFromUtf8(bytes: Uint8Array, from: number, to: number): string {
  let text = "";
  let position = from;
  while (position < to) {
    const plainEnd = endOfAscii(bytes, position, to);
    text += asciiText(bytes, position, plainEnd);
    position = plainEnd;
    while (position < to && at(bytes, position) >= 0x80) {
      const length = sequenceLength(bytes, position, to);
      text += length === 0 ? "\ufffd" : String.fromCodePoint(codePoint(bytes, position, length));
      position += length === 0 ? 1 : length;
    }
  }
  return text;
}

/** Cells are short: letter by letter they cost less than a call with a list of letters. */
function asciiText(bytes: Uint8Array, from: number, to: number): string {
  let text = "";
  if (to - from <= SHORT) {
    for (let index = from; index < to; index++) text += String.fromCharCode(at(bytes, index));
    return text;
  }
  for (let start = from; start < to; start += CHUNK) {
    // `apply` takes any list of numbers, a typed array too; its type does not say so.
    text += String.fromCharCode.apply(null, bytes.subarray(start, Math.min(start + CHUNK, to)) as unknown as number[]);
  }
  return text;
}

/** Position of the first byte that is not UTF-8, or -1. */
export function firstNotUtf8(bytes: Uint8Array, from: number, to: number): number {
  let position = endOfAscii(bytes, from, to);
  while (position < to) {
    const length = sequenceLength(bytes, position, to);
    if (length === 0) return position;
    position = endOfAscii(bytes, position + length, to);
  }
  return -1;
}

/** Length in bytes of the well-formed sequence that begins here; 0 where none does. */
export function sequenceLength(bytes: Uint8Array, position: number, to: number): number {
  const lead = at(bytes, position);
  if (lead < 0x80) return 1;
  const length = lead >= 0xc2 && lead <= 0xdf ? 2 : lead >= 0xe0 && lead <= 0xef ? 3 : lead >= 0xf0 && lead <= 0xf4 ? 4 : 0;
  if (length === 0 || position + length > to) return 0;
  const second = at(bytes, position + 1);
  // Overlong forms, surrogates and code points above U+10FFFF show in the second byte.
  const low = lead === 0xe0 ? 0xa0 : lead === 0xf0 ? 0x90 : 0x80;
  const high = lead === 0xed ? 0x9f : lead === 0xf4 ? 0x8f : 0xbf;
  if (second < low || second > high) return 0;
  for (let index = 2; index < length; index++) if ((at(bytes, position + index) & 0xc0) !== 0x80) return 0;
  return length;
}

function codePoint(bytes: Uint8Array, position: number, length: number): number {
  const lead = at(bytes, position);
  let point = length === 1 ? lead : length === 2 ? lead & 0x1f : length === 3 ? lead & 0x0f : lead & 0x07;
  for (let index = 1; index < length; index++) point = (point << 6) | (at(bytes, position + index) & 0x3f);
  return point;
}

/** UTF-8 bytes of a text. A lone surrogate is written as the three bytes that no reader takes for UTF-8, so that its line is rejected. */
export function utf8FromText(text: string): Uint8Array {
  const bytes = new Uint8Array(text.length * 3);
  let end = 0;
  for (let index = 0; index < text.length; index++) {
    const point = text.codePointAt(index) as number; // index is below the length
    if (point > 0xffff) index++;
    end = writeCodePoint(bytes, end, point);
  }
  return bytes.subarray(0, end);
}

/** Writes one code point and returns the position after it. */
export function writeCodePoint(bytes: Uint8Array, position: number, point: number): number {
  let end = position;
  if (point < 0x80) bytes[end++] = point;
  else if (point < 0x800) {
    bytes[end++] = 0xc0 | (point >> 6);
    bytes[end++] = 0x80 | (point & 0x3f);
  } else {
    if (point < 0x1_0000) bytes[end++] = 0xe0 | (point >> 12);
    else {
      bytes[end++] = 0xf0 | (point >> 18);
      bytes[end++] = 0x80 | ((point >> 12) & 0x3f);
    }
    bytes[end++] = 0x80 | ((point >> 6) & 0x3f);
    bytes[end++] = 0x80 | (point & 0x3f);
  }
  return end;
}

function endOfAscii(bytes: Uint8Array, from: number, to: number): number {
  let position = from;
  while (position < to && at(bytes, position) < 0x80) position++;
  return position;
}

const at = (bytes: Uint8Array, index: number): number => bytes[index] as number; // every index is checked against the end
