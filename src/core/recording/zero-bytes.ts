/** Codes of which nearly all are nought (valid readings, sampled stretches): looked through four at a time. */

/**
 * The first index from `from` on, below `past`, whose code is not nought; `past` where all are.
 *
 * @param codes one byte a row or segment
 * @param past at most the length of the codes
 * @example
 * ```ts
 * import { pastZeros } from "./zero-bytes.ts";
 * const codes = Uint8Array.of(0, 0, 0, 0, 0, 0, 3, 0, 0);
 * [pastZeros(codes, 1, 9), pastZeros(codes, 6, 9), pastZeros(codes, 7, 9)]; // => [6, 6, 9]
 * ```
 * Never refuses. Source: ours.
 */
export function pastZeros(codes: Uint8Array, from: number, past: number): number {
  let at = from;
  const aligned = Math.min(past, (from + 3) & ~3);
  while (at < aligned && codes[at] === 0) at += 1;
  if (at === aligned && codes.byteOffset % 4 === 0) {
    const words = new Uint32Array(codes.buffer, codes.byteOffset, codes.length >> 2);
    const end = past >> 2;
    let word = aligned >> 2;
    while (word < end && words[word] === 0) word += 1;
    at = Math.max(at, Math.min(past, word << 2));
  }
  while (at < past && codes[at] === 0) at += 1;
  return at;
}
