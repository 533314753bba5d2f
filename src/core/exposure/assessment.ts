import type { Assumption, Finding, Ground, Range } from "../finding.ts";
import type { Limit, RegimeId } from "../gas/index.ts";
import type { Unit } from "../quantity/unit.ts";
import type { Declaration, Recording, SignalRefusal } from "../recording/index.ts";
import type { Result } from "../result.ts";

/** How unsampled time within a shift is to be taken. "open" is the default: nothing is declared. */
export type Unsampled =
  | { readonly kind: "open" }
  | { readonly kind: "zero" }
  | { readonly kind: "like" }
  | { readonly kind: "level"; readonly text: string };

/** The name and the reason behind a statement that decides an outcome. */
export interface Stated {
  readonly by: string;
  readonly reason: string;
}

export interface ShiftSpan {
  /** Milliseconds on the clock of the recording. */
  readonly from: number;
  readonly to: number;
}

export interface AssessmentSettings {
  /** Limits to set against, by gas id; the caller asks `core/gas` for them (by regime and date). */
  readonly limits: (gas: string) => readonly Limit[];
  readonly regimes: readonly RegimeId[];
  /** Null = default: 1.5 times the longest common step. */
  readonly largestGapMs: number | null;
  /** Empty = the file is one shift. */
  readonly shifts: readonly ShiftSpan[];
  readonly unsampled: Unsampled;
  /** Who said what unsampled time was like, and why; null where nobody gave a name. */
  readonly unsampledBy?: Stated | null;
  readonly declarations: readonly Declaration[];
  /** Site settings per gas; digits in the channel's unit. Null = none declared. */
  readonly deadBand: (gas: string) => string | null;
  readonly negativeFloor: (gas: string) => string | null;
  readonly measurableThreshold: (gas: string) => string | null;
  /** Whether logged interval means stand as they are for an instantaneous ceiling (declared policy). */
  readonly meansStandForCeilings: boolean;
  /** A declared choice of the site, never a default: 8-h limits lowered for shifts longer than 8 h, shown as findings of their own. */
  readonly longShiftModel?: "brief-scala-daily";
}

export interface ShortTerm extends Range {
  readonly windowMinutes: number;
  readonly windowStart: number;
  readonly windowEnd: number;
  readonly coverage: number;
}

export interface Episode {
  readonly limit: string;
  readonly kind: "above";
  readonly from: number;
  readonly to: number;
  readonly peak: number;
  readonly peakAt: number;
  /** Still above when the data ended or a gap began: the true end is later. */
  readonly openEnd: boolean;
}

/** A limit that was not set against the readings, and why: left out in silence it would look like "no limit". */
export interface NotCompared {
  readonly limit: Limit;
  readonly why: "unit not known" | "other kind of unit" | "counts a part of the molecule" | "no conversion known";
}

export interface ChannelAssessment {
  readonly name: string;
  readonly series: { readonly label: string; readonly value: string } | null;
  readonly gas: string | null;
  readonly unit: Unit | null;
  readonly samples: number;
  readonly start: number;
  readonly end: number;
  readonly sampledSeconds: number;
  readonly mean: Range;
  readonly twa8h: Range;
  readonly stel: ShortTerm;
  /** Greatest reading; null where the channel holds no reading in the period. */
  readonly peak: { readonly value: number; readonly at: number; readonly atLeast: boolean } | null;
  /** Oxygen and other gases where little is the danger. */
  readonly lowest: { readonly value: number; readonly at: number; readonly atMost: boolean } | null;
  /** What the figures of the channel rest on, also where it has no findings. */
  readonly grounds?: readonly Ground[];
  readonly assumptions?: readonly Assumption[];
  readonly findings: readonly Finding[];
  readonly notCompared: readonly NotCompared[];
  readonly episodes: readonly Episode[];
}

export type AssessmentRefusal =
  | { readonly type: "longer-than-a-day"; readonly hours: number }
  | { readonly type: "shifts-overlap"; readonly first: ShiftSpan; readonly second: ShiftSpan }
  | { readonly type: "shift-ends-before-start"; readonly shift: ShiftSpan }
  | { readonly type: "shift-without-readings"; readonly shift: ShiftSpan }
  | { readonly type: "unsampled-level-not-a-number"; readonly text: string }
  /** Finer or greater than steps of the channel can hold exactly. */
  | { readonly type: "unsampled-level-too-large"; readonly text: string }
  /** No number, or not above nought: at nought every reading would be measurable. */
  | { readonly type: "setting-not-a-number"; readonly setting: "measurable threshold"; readonly text: string }
  | SignalRefusal;

/** One assessment a shift; a recording without shifts has one. */
export interface ShiftAssessment {
  readonly shift: ShiftSpan | null;
  readonly channels: readonly ChannelAssessment[];
}

export type AssessRecording = (recording: Recording, settings: AssessmentSettings) => Result<readonly ShiftAssessment[], AssessmentRefusal>;
