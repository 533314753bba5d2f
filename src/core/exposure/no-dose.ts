/** Gases and units of which no amount adds up in a person. */
import { lowestCounts } from "../gas/index.ts";
import type { Unit } from "../quantity/index.ts";

/**
 * Whether an average over a shift or a window says nothing about what a channel was worn for: of oxygen the lowest moment
 * counts, of a share of the lower explosive limit the highest. An average over time would only hide such moments.
 *
 * @param gas id of the substance; null where it is not known. @param unit of the channel; null where it is not known.
 * @example
 * ```ts
 * import { hasNoDose } from "./no-dose.ts";
 * [hasNoDose("oxygen", "vol%"), hasNoDose("methane", "%LEL"), hasNoDose("methane", "ppm"), hasNoDose(null, null)]; // => [true, true, false, false]
 * ```
 * Never refuses. Source: common practice; limits on oxygen and on %LEL are for any moment (29 CFR 1910.146(b), hazardous
 * atmosphere: 10 percent of the lower flammable limit, oxygen below 19.5 or above 23.5 percent) [memory].
 */
export const hasNoDose = (gas: string | null, unit: Unit | null): boolean => lowestCounts(gas) || unit === "%LEL";
