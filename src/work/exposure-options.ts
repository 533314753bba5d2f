/** What an assessment is asked with, whoever asks: the command line, the page, a program. */
import type { Stated, Unsampled } from "../core/exposure/assessment.ts";
import type { RegimeId } from "../core/gas/limit.ts";
import type { Declaration } from "../core/recording/declaration.ts";
import type { LimitBook } from "./limits-on-date.ts";

export interface ExposureOptions {
  /** Null = every regime of the tables and of the own limits. */
  readonly regimes: readonly RegimeId[] | null;
  readonly limits: LimitBook;
  /** Null = the default of the recording. */
  readonly largestGapMs: number | null;
  readonly unsampled: Unsampled;
  /** Null where whoever asked gave no name: the answer then says that nobody did. */
  readonly unsampledBy: Stated | null;
  readonly declarations: readonly Declaration[];
  /** Who chose the settings below, and why; null where whoever asked gave no name. */
  readonly settingsBy: Stated | null;
  /** Declared by the site for each gas, digits in the channel's unit; a gas without an entry has none declared. */
  readonly deadBands: Readonly<Record<string, string>>;
  readonly negativeFloors: Readonly<Record<string, string>>;
  readonly measurableThresholds: Readonly<Record<string, string>>;
  readonly meansStandForCeilings: boolean;
  /** 8-hour limits lowered for long shifts, as findings of their own; a declared choice. */
  readonly longShiftModel: "brief-scala-daily" | null;
}

export const NOTHING_DECLARED = {
  regimes: null,
  largestGapMs: null,
  unsampled: { kind: "open" },
  unsampledBy: null,
  declarations: [],
  settingsBy: null,
  deadBands: {},
  negativeFloors: {},
  measurableThresholds: {},
  meansStandForCeilings: false,
  longShiftModel: null,
} as const satisfies Omit<ExposureOptions, "limits">;
