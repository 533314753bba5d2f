import type { Limit } from "./gas/limit.ts";
import type { CombinedOutcome, Outcome } from "./outcome.ts";
import type { Unit } from "./quantity/unit.ts";

/** Lowest and highest that a quantity can have been, and the best figure where one can be given. Null high = open. */
export interface Range {
  readonly low: number;
  readonly best: number | null;
  readonly high: number | null;
}

/** A computed answer: value, lowest and highest it could be, limit, outcome, grounds, assumptions, editions. */
export interface Finding extends Range {
  readonly id: string;
  readonly limit: Limit;
  /** Unit of low, best, high and W*: the limit's own, or the channel's where the two differ by a power of ten. */
  readonly unit: Unit;
  readonly outcome: Outcome;
  /** Share of the averaging period that was really measured, 0 to 1. */
  readonly coverage: number;
  /** Mean that the unsampled time would have needed to reach the limit; null where there is none or it cannot be said. */
  readonly wStar: number | null;
  /** Which treatment of the shift gave the average: `worst-8h`, `any-24h-over-8h`, `shift-8-to-10h`, `brief-scala-daily`, … */
  readonly shiftRule: string | null;
  /** What it was set against where the limit was lowered for the length of the shift, in `unit`; null where it stands as published. */
  readonly lowered: number | null;
  /** Window of the greatest mean or the instant of the greatest value (low edge), milliseconds; null where none. */
  readonly window: { readonly from: number; readonly to: number } | null;
  /** Tests of a rule with several (Table Z-2); empty for a simple limit. */
  readonly parts: readonly FindingPart[];
  readonly grounds: readonly Ground[];
  readonly assumptions: readonly Assumption[];
  /** Method card and its edition. */
  readonly method: { readonly id: string; readonly edition: number };
  /** What kept it undetermined, and the one act that would decide it; empty when decided. */
  readonly undecidedBy: readonly UndecidedBy[];
}

export interface FindingPart extends Range {
  readonly name: "average" | "peak" | "minutes above the ceiling" | "once only";
  readonly limit: number;
  readonly unit: Unit | "min" | "count";
  readonly outcome: CombinedOutcome;
}

/** What a finding rests on: codes and figures, put into words by `report`. */
export type Ground =
  | {
      readonly type: "readings";
      readonly count: number;
      readonly of: number;
      readonly everyMs: number | null;
      /** Shortest and longest step between readings, gaps left out; absent where it was not looked for. */
      readonly steps?: { readonly leastMs: number; readonly mostMs: number } | null;
      readonly firstLine: number | null;
      readonly lastLine: number | null;
    }
  | { readonly type: "file"; readonly file: string; readonly sha256: string }
  | { readonly type: "over-range"; readonly seconds: number; readonly atLeast: number | null }
  | { readonly type: "unsampled"; readonly seconds: number }
  | {
      readonly type: "declaration";
      readonly id: string;
      readonly kind: string;
      readonly by: string;
      readonly reason: string;
      readonly seconds: number;
    }
  | { readonly type: "negative"; readonly seconds: number }
  | { readonly type: "conflict"; readonly count: number }
  | { readonly type: "divisor"; readonly hours: number; readonly why: string }
  /** Readings of the file in none of the named shifts, the greatest told: at the most what those look back on that end in a shift. */
  | { readonly type: "outside-shift"; readonly count: number; readonly greatest: number; readonly atLeast: boolean }
  /** Nought has drifted: positive readings nearby may be too low as well. */
  | { readonly type: "drift"; readonly lowest: number; readonly longestRunSeconds: number; readonly floorDeclared: boolean }
  /** From over range on the sensor may read wrong, until it is proven again. */
  | { readonly type: "doubtful-after-over-range"; readonly seconds: number }
  | { readonly type: "bound-below-a-reading"; readonly declaration: string }
  | { readonly type: "declared-where-readings-stand"; readonly declaration: string; readonly seconds: number }
  /** The same limit read another way that its text allows where a competent person says so; both results are shown. */
  | {
      readonly type: "ceiling-as-average";
      readonly minutes: number;
      readonly low: number;
      readonly high: number | null;
      readonly unit: Unit;
      readonly outcome: Outcome;
    }
  | { readonly type: "limit-edition"; readonly limit: string; readonly edition: string };

export type Assumption =
  | { readonly type: "holds-until-next"; readonly largestGapMs: number; readonly chosenBy: "default" | "person" }
  | { readonly type: "closes-interval"; readonly largestGapMs: number; readonly chosenBy: "default" | "person" }
  | { readonly type: "level-constant-in-interval" }
  | { readonly type: "reading-kind"; readonly kind: string; readonly chosenBy: "default" | "file" | "person" }
  | { readonly type: "file-is-one-shift" }
  /** What the call said of unsampled time, in the unit of the channel; seconds of this period that it was applied to. */
  | {
      readonly type: "unsampled-taken-as";
      readonly as: "unexposed" | "like the sampled time" | "worst case";
      readonly levelText: string | null;
      readonly unit: Unit | null;
      readonly seconds: number;
      /** The declared shift is known, or the rest of 8 h is meant, or time around a recording of 8 h and more. */
      readonly where: "within the shift" | "up to 8 h" | "around the recording";
      readonly by: string | null;
      readonly reason: string | null;
    }
  /** A choice of the site that changes how readings or limits are taken; digits in the unit of the channel, null where it has none. */
  | {
      readonly type: "declared-setting";
      readonly setting: "measurable threshold" | "dead band" | "negative floor" | "means stand for ceilings" | "long-shift model";
      readonly valueText: string | null;
      readonly unit: Unit | null;
      /** Null where nobody gave a name or a reason. */
      readonly by: string | null;
      readonly reason: string | null;
    }
  /** Ends of a finding are those of what was shown: no error of sampling or of the instrument is in them. */
  | { readonly type: "without-measurement-error" }
  | { readonly type: "limit-of-latest-edition"; readonly why: "no date known" }
  | { readonly type: "unit-converted"; readonly from: string; readonly to: string; readonly molarVolume: number };

export type UndecidedBy =
  | {
      readonly type: "unsampled-time";
      readonly seconds: number;
      readonly wStar: number | null;
      /** A mean decides only an average over the whole period: of what lies in one of its windows it says nothing. */
      readonly holds: "as an average" | "at any moment";
    }
  | { readonly type: "over-range"; readonly seconds: number; readonly wStar: number | null }
  | { readonly type: "sensor-or-conflict" }
  | { readonly type: "interval-average-hides-peaks" }
  | { readonly type: "measurable-threshold-not-declared" }
  /** Readings before the shift stand in no named one, and an average or a window looks back on them. */
  | { readonly type: "readings-outside-shift" }
  /** One step of the display, in the unit of the finding, is more than the limit. */
  | { readonly type: "limit-finer-than-a-step"; readonly step: number }
  | { readonly type: "text-needs-a-person"; readonly note: string };
