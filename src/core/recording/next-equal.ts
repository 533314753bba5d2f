/** Where a level or a code stands next: a search for the first of a run, and no search for the rest of it. */

/**
 * The next index after one at which a level stands; -1 where there is none. From the start: after -1.
 *
 * @example
 * ```ts
 * import { nextLevel } from "./next-equal.ts";
 * const levels = Int32Array.of(4, 9, 9, 2, 9);
 * [-1, 1, 2, 4].map((after) => nextLevel(levels, 9, after)); // => [1, 2, 4, -1]
 * ```
 * Never refuses. Source: ours.
 */
export function nextLevel(levels: Int32Array, level: number, after: number): number {
  return levels[after + 1] === level ? after + 1 : levels.indexOf(level, after + 1);
}

/**
 * The same of codes.
 *
 * @example
 * ```ts
 * import { nextCode } from "./next-equal.ts";
 * [-1, 1].map((after) => nextCode(Uint8Array.of(0, 2, 2), 2, after)); // => [1, 2]
 * ```
 * Never refuses. Source: ours.
 */
export function nextCode(codes: Uint8Array, code: number, after: number): number {
  return codes[after + 1] === code ? after + 1 : codes.indexOf(code, after + 1);
}
