/** Gases by the names that people use. */
import { substance } from "../core/gas/index.ts";

export { lowestCounts } from "../core/gas/index.ts";

/**
 * The name of a gas in words; an id that the table does not have is shown as it is.
 *
 * @example
 * ```ts
 * import { gasWords } from "./gas-words.ts";
 * gasWords("carbon_monoxide"); // => "carbon monoxide"
 * ```
 */
export function gasWords(gas: string): string {
  return substance(gas)?.name ?? gas.replaceAll("_", " ");
}

/** The short name for a narrow place: the formula of a small molecule, else the whole name. */
export function gasShort(gas: string): string {
  const formula = substance(gas)?.formula ?? null;
  return formula !== null && formula.length <= 5 ? formula : gasWords(gas);
}
