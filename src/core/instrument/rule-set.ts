/** A site's settings, each with where it comes from: what is asked of an instrument, and for how long it holds. */
import type { AllowedError, Digits, Duty, GasCode, Guard, SensorKind, SetPoint, Shown, Source } from "./body-parts.ts";

/** How long a support lasts. */
export type Period =
  | { readonly form: "each-use" }
  | { readonly form: "each-shift" }
  | { readonly form: "working-day" }
  | { readonly form: "hours"; readonly hours: number }
  | { readonly form: "days"; readonly days: number }
  | { readonly form: "months"; readonly months: number };

/** One setting of the site with where it comes from. */
export interface Setting<Value> {
  readonly value: Value;
  readonly source: Source;
}

/** A rule of the site: whether it is asked for, and how long what satisfies it lasts. */
export interface RuleSetting {
  readonly isAsked: boolean;
  readonly period: Period;
  readonly source: Source;
}

export type RuleId =
  | "in-service"
  | "sensor-in-body"
  | "daily-card"
  | "settings"
  | "clean-air"
  | "gas-test"
  | "function-check"
  | "calibration-check"
  | "calibration"
  | "charge";

/** Rules with a period; the others hold at every moment. */
export type TimedRule = Exclude<RuleId, "in-service" | "sensor-in-body">;

export type Weekday = "monday" | "tuesday" | "wednesday" | "thursday" | "friday" | "saturday" | "sunday";

/** Set points that a gas must have. A row for a kind of sensor goes before the row for any kind. */
export interface SetPointRow {
  readonly gas: GasCode;
  /** Null = any kind of sensor. */
  readonly sensorKind: SensorKind | null;
  readonly points: readonly SetPoint[];
  /** Names of those that a gas test must raise; the others are checked as settings. */
  readonly raisedByGasTest: readonly string[];
  /** Seconds within which a gas test must raise them; null = no limit is set. */
  readonly withinSeconds: Digits | null;
  readonly source: Source;
}

/** Another gas that may be shown to a channel in place of its own. */
export interface SubstituteRow {
  readonly gas: GasCode;
  readonly sensorKind: SensorKind | null;
  readonly component: GasCode;
  /** What one part of the component reads as on the channel; null where nobody knows: then it shows a response, no value. */
  readonly readsAs: Digits | null;
  readonly source: Source;
}

export interface AcceptanceRow extends AllowedError {
  readonly gas: GasCode;
  readonly guard: Guard;
}

/** Largest reading in clean air, either side of nought (for oxygen of the expected reading), as shown. */
export interface ZeroBand {
  readonly gas: GasCode;
  readonly band: Shown;
  readonly source: Source;
}

/** A period that a law or a maker's text never lets pass, whatever the rule says. */
export interface Wall {
  readonly rule: TimedRule;
  /** Null = every gas. */
  readonly gas: GasCode | null;
  /** Id of the model that the maker's text is about; null = every model. */
  readonly model: string | null;
  readonly longest: Period;
  readonly source: Source;
}

export interface RuleSet {
  readonly zone: string;
  /** Days on which a change may begin and that count as working days. */
  readonly workingDays: readonly Weekday[];
  readonly shifts: readonly { readonly name: string; readonly from: string; readonly to: string }[];
  /** The working day begins at this wall-clock time: `06:00`. */
  readonly dayBegins: string;
  readonly longestStintHours: Setting<number>;
  readonly rules: Readonly<Record<TimedRule, RuleSetting>>;
  readonly setPoints: readonly SetPointRow[];
  readonly substitutes: readonly SubstituteRow[];
  readonly acceptance: readonly AcceptanceRow[];
  readonly zeroBands: readonly ZeroBand[];
  /** Whether a gas test asks for the reading beside the alarms. */
  readonly readingAsked: Setting<boolean>;
  /** How many times t90 gas must be held before a reading counts. */
  readonly leastHoldT90s: Setting<number>;
  /** Whether a pumped set must be tested through the line that it is used with. */
  readonly throughWorkingLine: Setting<boolean>;
  readonly whoReturns: Setting<readonly Duty[]>;
  /** Who, being another person than the one who asks, may agree to a loosening. */
  readonly whoAgrees: Setting<readonly Duty[]>;
  /** Longest minutes between a failed test and the repeat that may show its claimed cause. */
  readonly repeatMinutes: Setting<number>;
  readonly leastChargePercent: Setting<number>;
  /** A device clock farther out asks a person. */
  readonly clockMinutes: Setting<number>;
  /** Codes of laws that bind this site (core/instrument BINDING_TEXTS): their walls hold, and cannot be edited. */
  readonly bindingTexts: readonly string[];
  /** Walls that the site has typed from makers' texts. */
  readonly walls: readonly Wall[];
}
