/** Chance that is handed in: the same seed gives the same numbers for ever. Not for keys or secrets. */
import { normal } from "./normal.ts";

export interface Chance {
  /** Evenly spread over 0 (included) to 1 (left out), 53 binary places. */
  readonly fraction: () => number;
  /** A whole number from 0 to below the given one. */
  readonly below: (count: number) => number;
  /** Standard normal. */
  readonly normal: () => number;
}

/**
 * A seeded source of chance: xoshiro128** 1.1 (Blackman & Vigna, ACM Transactions on Mathematical Software 47 (2021) 36; public
 * domain algorithm, from memory), its state filled from the seed by the 32-bit finaliser of MurmurHash3 over a Weyl sequence.
 *
 * @param seed a whole number from 0 to 4 294 967 295.
 * @example
 * ```ts
 * import { seededChance } from "./seeded-random.ts";
 * const one = seededChance(7);
 * const other = seededChance(7);
 * one.fraction() === other.fraction(); // => true
 * ```
 */
export function seededChance(seed: number): Chance {
  const word = xoshiro(stateOf(seed));
  const fraction = (): number => ((word() >>> 5) * 67_108_864 + (word() >>> 6)) / 9_007_199_254_740_992;
  return {
    fraction,
    below: (count) => Math.floor(fraction() * count),
    // Half a step keeps the argument off 0 and 1.
    normal: () => normal.quantile(fraction() + 0.5 / 9_007_199_254_740_992),
  };
}

function xoshiro([first, second, third, fourth]: readonly [number, number, number, number]): () => number {
  let a = first;
  let b = second;
  let c = third;
  let d = fourth;
  return () => {
    const result = Math.imul(rotated(Math.imul(b, 5), 7), 9) >>> 0;
    const shifted = b << 9;
    c ^= a;
    d ^= b;
    b ^= c;
    a ^= d;
    c ^= shifted;
    d = rotated(d, 11);
    return result;
  };
}

const rotated = (word: number, by: number): number => (word << by) | (word >>> (32 - by));

function stateOf(seed: number): readonly [number, number, number, number] {
  const mixed = (index: number): number => {
    let word = (seed + Math.imul(index, 0x9e3779b9)) >>> 0;
    word = Math.imul(word ^ (word >>> 16), 0x85ebca6b);
    word = Math.imul(word ^ (word >>> 13), 0xc2b2ae35);
    return (word ^ (word >>> 16)) >>> 0;
  };
  // All four nought would stay nought; the four words of one seed are mixed from four different numbers, so at most one is.
  return [mixed(1), mixed(2), mixed(3), mixed(4)];
}
