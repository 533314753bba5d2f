/** Gases that harm by being too little. */
/**
 * Whether the lowest reading of a gas is the one that counts.
 *
 * @example
 * ```ts
 * import { lowestCounts } from "./lowest-counts.ts";
 * [lowestCounts("oxygen"), lowestCounts("carbon_dioxide"), lowestCounts(null)]; // => [true, false, false]
 * ```
 * Never refuses. Source: common practice; an atmosphere with less than 19.5 percent of oxygen is hazardous at any moment, 29 CFR
 * 1910.146(b) [memory].
 */
export const lowestCounts = (gas: string | null): boolean => gas === "oxygen";
