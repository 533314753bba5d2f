/**
 * Which letters the bytes are, and the same letters as UTF-8, so that one reader serves all. UTF-8 and a marked UTF-16
 * are taken as they say; everything else is a question.
 */
import type { Encoding } from "./mapping.ts";
import { sequenceLength, utf8FromText, writeCodePoint } from "./utf8.ts";

export interface EncodingSeen {
  readonly encoding: Encoding;
  /** Bytes of the mark at the start, to be left out. */
  readonly markLength: number;
  /** "certain": marked, or UTF-8 throughout. Else what the letters look like, and a person is asked. */
  readonly sureness: "certain" | "strong" | "weak";
  readonly reason: string;
}

/** What the head of a file says of its encoding. */
export function encodingOf(head: Uint8Array): EncodingSeen {
  const [first, second, third] = head;
  if (first === 0xef && second === 0xbb && third === 0xbf)
    return { encoding: "utf-8", markLength: 3, sureness: "certain", reason: "byte order mark" };
  if (first === 0xff && second === 0xfe) return { encoding: "utf-16le", markLength: 2, sureness: "certain", reason: "byte order mark" };
  if (first === 0xfe && second === 0xff) return { encoding: "utf-16be", markLength: 2, sureness: "certain", reason: "byte order mark" };
  return unmarkedUtf16(head) ?? { encoding: "utf-8", markLength: 0, sureness: "certain", reason: "no mark" };
}

/** Text in UTF-16 without a mark has a nought in every other byte, always on the same side. */
function unmarkedUtf16(head: Uint8Array): EncodingSeen | null {
  const length = Math.min(head.length, 4096) & ~1;
  let evenNoughts = 0;
  let oddNoughts = 0;
  for (let index = 0; index < length; index += 2) {
    if (head[index] === 0) evenNoughts++;
    if (head[index + 1] === 0) oddNoughts++;
  }
  const half = length / 2;
  if (half < 4) return null;
  if (oddNoughts > half * 0.6 && evenNoughts < half * 0.02)
    return { encoding: "utf-16le", markLength: 0, sureness: "strong", reason: "every second byte is nought" };
  if (evenNoughts > half * 0.6 && oddNoughts < half * 0.02)
    return { encoding: "utf-16be", markLength: 0, sureness: "strong", reason: "every first byte of two is nought" };
  return null;
}

/** How the bytes above 127 of a file look, gathered over the whole file. */
export interface HighBytes {
  /** Well-formed UTF-8 sequences of two bytes and more. */
  wellFormed: number;
  /** Bytes that are not UTF-8. */
  stray: number;
  /** Of them 0xff, which no text of any common 8-bit or double-byte encoding holds: damage, not letters. */
  neverText: number;
  /** Of them bytes 0x80 to 0x9f, rare in Western 8-bit text and common as lead bytes of double-byte text. */
  control: number;
  /** Stray bytes that stand directly after another stray byte. */
  pairs: number;
  strayLines: number;
  firstLine: number;
  firstText: string;
}

export const noHighBytes = (): HighBytes => ({
  wellFormed: 0,
  stray: 0,
  neverText: 0,
  control: 0,
  pairs: 0,
  strayLines: 0,
  firstLine: 0,
  firstText: "",
});

/** Counts the high bytes of one line. */
export function countHighBytes(seen: HighBytes, bytes: Uint8Array, from: number, to: number, line: number): void {
  let strayHere = 0;
  let last = -2;
  for (let position = from; position < to; position++) {
    const byte = bytes[position] as number; // position is below the end
    if (byte < 0x80) continue;
    const length = sequenceLength(bytes, position, to);
    if (length > 1) {
      seen.wellFormed++;
      position += length - 1;
      continue;
    }
    strayHere++;
    if (byte === 0xff) seen.neverText++;
    if (byte < 0xa0) seen.control++;
    if (position === last + 1) seen.pairs++;
    last = position;
  }
  if (strayHere === 0) return;
  seen.stray += strayHere;
  seen.strayLines++;
  if (seen.firstLine === 0) seen.firstLine = line;
}

/**
 * Whether stray bytes are another encoding (to be asked about) or damage (lines to be rejected). Letters of another
 * encoding never hold 0xff, and a file in it has no UTF-8 letters beside them.
 */
export function isOtherEncoding(seen: HighBytes): boolean {
  return seen.stray > 0 && seen.neverText === 0 && seen.stray > 3 * seen.wellFormed;
}

/** Windows-1252 fits where high bytes stand singly between plain letters; double-byte text does not. */
export const looksWestern = (seen: HighBytes): boolean => seen.pairs * 4 <= seen.stray && seen.control * 4 <= seen.stray;

export interface Transcoder {
  /** Null: the encoding cannot be decoded. */
  readonly push: (bytes: Uint8Array) => Uint8Array | null;
  readonly finish: () => Uint8Array | null;
  /** Bytes of the source that a stretch of the UTF-8 text came from. */
  readonly sourceLength: (utf8: Uint8Array, from: number, to: number) => number;
}

type DecodeText = (label: string, bytes: Uint8Array) => string | null;

export function transcoderFor(encoding: Encoding, decodeText: DecodeText): Transcoder {
  if (encoding === "utf-8") return { push: (bytes) => bytes, finish: () => NOTHING, sourceLength: (_, from, to) => to - from };
  if (encoding === "utf-16le" || encoding === "utf-16be") return utf16(encoding === "utf-16le" ? 0 : 1);
  if (encoding === "windows-1252") return { push: fromWindows1252, finish: () => NOTHING, sourceLength: countCharacters };
  return named(encoding, decodeText);
}

const NOTHING = new Uint8Array(0);

function utf16(lowFirst: 0 | 1): Transcoder {
  let kept = NOTHING;
  const push = (bytes: Uint8Array): Uint8Array => {
    const all = kept.length === 0 ? bytes : joined(kept, bytes);
    const out = new Uint8Array(Math.ceil(all.length / 2) * 3 + 3);
    let end = 0;
    let position = 0;
    const unit = (index: number): number =>
      lowFirst === 0
        ? (all[index] as number) | ((all[index + 1] as number) << 8)
        : ((all[index] as number) << 8) | (all[index + 1] as number); // index + 1 is below the length
    while (position + 1 < all.length) {
      const high = unit(position);
      if (high >= 0xd800 && high < 0xdc00) {
        if (position + 3 >= all.length) break;
        const low = unit(position + 2);
        if (low >= 0xdc00 && low < 0xe000) {
          end = writeCodePoint(out, end, 0x1_0000 + ((high - 0xd800) << 10) + (low - 0xdc00));
          position += 4;
          continue;
        }
      }
      end = writeCodePoint(out, end, high);
      position += 2;
    }
    kept = all.slice(position);
    return out.subarray(0, end);
  };
  // A half character at the end is written as a byte that is not UTF-8: its line is rejected.
  const finish = (): Uint8Array => (kept.length === 0 ? NOTHING : Uint8Array.of(0xff));
  return { push, finish, sourceLength: (utf8, from, to) => 2 * countUtf16Units(utf8, from, to) };
}

/** Letters of the bytes 0x80 to 0x9f (WHATWG Encoding Standard, index windows-1252; from memory); the rest are Latin-1. */
const WINDOWS_1252 = [
  0x20ac, 0x81, 0x201a, 0x192, 0x201e, 0x2026, 0x2020, 0x2021, 0x2c6, 0x2030, 0x160, 0x2039, 0x152, 0x8d, 0x17d, 0x8f, 0x90, 0x2018, 0x2019,
  0x201c, 0x201d, 0x2022, 0x2013, 0x2014, 0x2dc, 0x2122, 0x161, 0x203a, 0x153, 0x9d, 0x17e, 0x178,
];

function fromWindows1252(bytes: Uint8Array): Uint8Array {
  const out = new Uint8Array(bytes.length * 3);
  let end = 0;
  for (const byte of bytes) end = writeCodePoint(out, end, byte >= 0x80 && byte < 0xa0 ? (WINDOWS_1252[byte - 0x80] as number) : byte); // the table has 32 entries
  return out.subarray(0, end);
}

/** Other encodings are decoded in blocks that end at a line end: no common encoding has 0x0a inside a letter. */
function named(encoding: Encoding, decodeText: DecodeText): Transcoder {
  let kept = NOTHING;
  const decoded = (bytes: Uint8Array): Uint8Array | null => {
    if (bytes.length === 0) return NOTHING;
    const text = decodeText(encoding, bytes);
    return text === null ? null : utf8FromText(text);
  };
  const push = (bytes: Uint8Array): Uint8Array | null => {
    const all = kept.length === 0 ? bytes : joined(kept, bytes);
    const cut = Math.max(all.lastIndexOf(0x0a), all.lastIndexOf(0x0d)) + 1;
    kept = all.slice(cut);
    return decoded(all.subarray(0, cut));
  };
  const finish = (): Uint8Array | null => {
    const rest = kept;
    kept = NOTHING;
    return decoded(rest);
  };
  return { push, finish, sourceLength: isDoubleByte(encoding) ? countDoubleByte : countCharacters };
}

const isDoubleByte = (encoding: string): boolean =>
  /^(shift[-_]?jis|sjis|windows-31j|euc-(jp|kr)|gbk?|gb2312|gb18030|big5)/i.test(encoding);

/** Letters outside ASCII take two bytes, half-width katakana one (Shift-JIS). */
function countDoubleByte(utf8: Uint8Array, from: number, to: number): number {
  let length = 0;
  for (let position = from; position < to; position++) {
    const byte = utf8[position] as number; // position is below the end
    if ((byte & 0xc0) === 0x80) continue;
    const isHalfWidth = byte === 0xef && ((utf8[position + 1] as number) === 0xbd || (utf8[position + 1] as number) === 0xbe);
    length += byte < 0x80 || isHalfWidth ? 1 : 2;
  }
  return length;
}

function countCharacters(utf8: Uint8Array, from: number, to: number): number {
  let length = 0;
  for (let position = from; position < to; position++) if (((utf8[position] as number) & 0xc0) !== 0x80) length++; // position is below the end
  return length;
}

function countUtf16Units(utf8: Uint8Array, from: number, to: number): number {
  let length = 0;
  for (let position = from; position < to; position++) {
    const byte = utf8[position] as number; // position is below the end
    if ((byte & 0xc0) !== 0x80) length += byte >= 0xf0 ? 2 : 1;
  }
  return length;
}

function joined(first: Uint8Array, second: Uint8Array): Uint8Array<ArrayBuffer> {
  const both = new Uint8Array(first.length + second.length);
  both.set(first);
  both.set(second, first.length);
  return both;
}
