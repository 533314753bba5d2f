/** Labels in the order in which people count them: MB-2 before MB-10. */

/**
 * Less than nought where the first label comes first, nought where both are the same. Runs of digits count as numbers,
 * capitals do not matter until all else is equal.
 *
 * @example
 * ```ts
 * import { naturalOrder } from "./natural-order.ts";
 * ["MB-10", "mb-2", "MB-2", "A"].sort(naturalOrder); // => ["A", "MB-2", "mb-2", "MB-10"]
 * ```
 */
export function naturalOrder(first: string, second: string): number {
  const [one, other] = [partsOf(first), partsOf(second)];
  for (let at = 0; at < Math.min(one.length, other.length); at += 1) {
    const order = partOrder(one[at] ?? "", other[at] ?? "");
    if (order !== 0) return order;
  }
  return one.length - other.length || textOrder(first, second);
}

const partsOf = (label: string): readonly string[] => label.toUpperCase().match(/\d+|\D+/g) ?? [];
const textOrder = (first: string, second: string): number => (first < second ? -1 : first > second ? 1 : 0);

function partOrder(first: string, second: string): number {
  if (!/^\d/.test(first) || !/^\d/.test(second)) return textOrder(first, second);
  const [one, other] = [first.replace(/^0+/, ""), second.replace(/^0+/, "")];
  return one.length - other.length || textOrder(one, other);
}
