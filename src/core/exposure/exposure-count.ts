/** Rules that count exposures or stand beside a limit, and readings taken before entry. */
import type { Run } from "./time-above.ts";

export interface CountedExposures {
  readonly count: number;
  /** End of one to start of the next; null with fewer than two. */
  readonly shortestPauseMs: number | null;
  readonly breach: boolean;
}

/**
 * Exposures at the short-term level counted over a day: at most so many, at least so long apart (benzene on vessels: 4
 * a day, 60 min).
 *
 * @param exposures in order of time, milliseconds
 * @param rule most exposures a day and the shortest pause
 * @example
 * ```ts
 * import { countedExposures } from "./exposure-count.ts";
 * const minutes = (from: number, to: number) => ({ from: from * 60000, to: to * 60000 });
 * countedExposures([minutes(0, 15), minutes(80, 95)], { most: 4, pauseMs: 3600000 }); // => { "count": 2, "shortestPauseMs": 3900000, "breach": false }
 * ```
 * Never refuses. Source: 46 CFR 197.515(b) (CFR 1998) [read]; pause counted from end to start: ours.
 */
export function countedExposures(
  exposures: readonly Run[],
  { most, pauseMs }: { readonly most: number; readonly pauseMs: number },
): CountedExposures {
  const pauses = exposures.slice(1).map((exposure, i) => exposure.from - (exposures[i]?.to ?? exposure.from));
  const shortestPauseMs = pauses.length === 0 ? null : Math.min(...pauses);
  return {
    count: exposures.length,
    shortestPauseMs,
    breach: exposures.length > most || (shortestPauseMs !== null && shortestPauseMs < pauseMs),
  };
}

/**
 * Where no short-term limit is set, three times the 8-hour limit serves as a guideline for short peaks. It is reported
 * apart and never as a limit.
 *
 * @param eightHourLimit above 0
 * @example
 * ```ts
 * import { shortPeakGuideline } from "./exposure-count.ts";
 * shortPeakGuideline(2); // => { "level": 6, "isLegalLimit": false }
 * ```
 * Never refuses. Source: South Africa R.280 (2021), Annexure 3 par. 58 (reprint: acts.co.za) [read].
 */
export const shortPeakGuideline = (eightHourLimit: number): { readonly level: number; readonly isLegalLimit: false } => ({
  level: 3 * eightHourLimit,
  isLegalLimit: false,
});

/**
 * Most that may be measured for alternate entry: half of the level that would make the atmosphere hazardous. The
 * reading is compared as it stands, never averaged over a shift.
 *
 * @param hazardous level in the unit of the readings, above 0
 * @example
 * ```ts
 * import { alternateEntryLevel } from "./exposure-count.ts";
 * alternateEntryLevel(50); // => 25
 * ```
 * Never refuses. Source: OSHA preamble to 29 CFR 1910.146(c)(5), 58 FR 4488 (reprint: experts123.com) [read].
 */
export const alternateEntryLevel = (hazardous: number): number => hazardous / 2;
