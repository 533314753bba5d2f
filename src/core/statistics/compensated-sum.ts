/**
 * A sum that keeps what ordinary adding loses: Kahan's compensated sum in the form of A. Neumaier, Zeitschrift für
 * Angewandte Mathematik und Mechanik 54 (1974) 39-51 (from memory). The error does not grow with the number of terms.
 *
 * @param count how many terms. @param term the term of an index from 0 to count - 1.
 * @example
 * ```ts
 * import { compensatedSum } from "./compensated-sum.ts";
 * const terms = [1, 1e100, 1, -1e100];
 * compensatedSum(terms.length, (index) => terms[index] ?? 0); // => 2
 * ```
 */
export function compensatedSum(count: number, term: (index: number) => number): number {
  let sum = 0;
  let lost = 0;
  for (let index = 0; index < count; index++) {
    const next = term(index);
    const total = sum + next;
    lost += Math.abs(sum) >= Math.abs(next) ? sum - total + next : next - total + sum;
    sum = total;
  }
  return sum + lost;
}
