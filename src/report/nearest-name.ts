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

/** Letters to put in, take out or change (Levenshtein 1965). */
function changesBetween(from: string, to: string): number {
  let row = Array.from({ length: to.length + 1 }, (_, index) => index);
  for (let i = 1; i <= from.length; i += 1) {
    const next = [i];
    for (let j = 1; j <= to.length; j += 1) {
      const changed = (row[j - 1] ?? 0) + (from[i - 1] === to[j - 1] ? 0 : 1);
      next.push(Math.min(changed, (row[j] ?? 0) + 1, (next[j - 1] ?? 0) + 1));
    }
    row = next;
  }
  return row[to.length] ?? 0;
}
