/** The names that come nearest to one that does not exist, so that a slip of the finger is mended in one glance. */

/**
 * At most three names within a third of the letters, nearest first.
 *
 * @example
 * ```ts
 * import { nearestNames } from "./nearest-name.ts";
 * nearestNames("--regimes", ["--regime", "--zone"]); // => ["--regime"]
 * ```
 */
export function nearestNames(text: string, names: readonly string[]): readonly string[] {
  const wanted = text.toLowerCase();
  return names
    .map((name) => ({
      name,
      changes: changesBetween(wanted, name.toLowerCase()),
      begins: wanted.length > 3 && name.toLowerCase().startsWith(wanted),
    }))
    .filter(({ changes, begins }) => begins || changes <= Math.max(1, Math.floor(wanted.length / 3)))
    .sort((a, b) => a.changes - b.changes)
    .slice(0, 3)
    .map(({ name }) => name);
}

/** Letters to put in, take out, change, or swap with their neighbour (restricted edit distance; Damerau 1964, Levenshtein 1965). */
function changesBetween(from: string, to: string): number {
  const rows: number[][] = [Array.from({ length: to.length + 1 }, (_, index) => index)];
  const at = (i: number, j: number): number => rows[i]?.[j] ?? Number.POSITIVE_INFINITY;
  for (let i = 1; i <= from.length; i += 1) {
    rows[i] = [i];
    for (let j = 1; j <= to.length; j += 1) {
      const changed = at(i - 1, j - 1) + (from[i - 1] === to[j - 1] ? 0 : 1);
      const swapped =
        i > 1 && j > 1 && from[i - 1] === to[j - 2] && from[i - 2] === to[j - 1] ? at(i - 2, j - 2) + 1 : Number.POSITIVE_INFINITY;
      rows[i]?.push(Math.min(changed, swapped, at(i - 1, j) + 1, at(i, j - 1) + 1));
    }
  }
  return at(from.length, to.length);
}
