/** Pieces that several kinds of entries say: figures as shown, channels, files, components, set points. */
import type { Digest } from "../record/index.ts";

/** A figure as a display, certificate or label showed it. */
export interface Shown {
  /** Decimal digits with a point, with or without a minus: `35`, `0.0`, `-1`, `20.9`. */
  readonly digits: string;
  /** UCUM code: `[ppm]`, `10*-9`, `%`, `mg/m3`, `ug/m3`, `s`, `bar`, `Cel`, `h`, `L`, … */
  readonly unit: string;
  readonly kind: "volume-fraction" | "fraction-of-lel" | "mass-concentration" | "other";
  /** Smallest step of the display, in digits; null where it is not known. */
  readonly step: string | null;
}

/** What a display shows in place of digits. It is kept as such: a sign is no figure, and never becomes nought. */
export interface ShownSign {
  readonly sign: "over-range" | "under-range" | "fault" | "not-ready" | "other";
}

/** What a display showed: digits, or a sign in place of them. */
export type Reading = Shown | ShownSign;

/** Gas ids of the tables of limits, such as `carbon_monoxide`; a site's own begin with `own-`. */
export type GasCode = string;
/** `2026-03-04`. */
export type DateText = string;
/** Whole or decimal digits without a unit and without a sign. */
export type Digits = string;

/** One gas that one sensor measures. */
export interface ChannelReference {
  readonly sensor: string;
  readonly gas: GasCode;
}

/** A file that the entry names: durable before it. */
export interface FileReference {
  readonly digest: Digest;
  readonly name: string;
  readonly size: number;
}

export type SensorKind =
  | "electrochemical"
  | "catalytic"
  | "infrared"
  | "photoionisation"
  | "oxygen-partial-pressure"
  | "oxygen-mole-fraction"
  | "thermal-conductivity"
  | "semiconductor"
  | "unknown";

/** Where a figure is from: a text that can be shown, and how well it is known. */
export interface Source {
  readonly title: string;
  readonly place: string;
  /** `own`: decided by the site itself. */
  readonly mark: "read" | "memory" | "common-practice" | "own";
}

/** What 100 %LEL stands for: the gas, and the text whose lower explosive limit is meant. */
export interface LelMeaning {
  readonly gas: GasCode;
  readonly basis: string;
}

export interface ChannelDescription {
  readonly gas: GasCode;
  readonly unit: string;
  readonly kind: Shown["kind"];
  /** Null for other kinds than a fraction of the LEL, and where nobody knows. */
  readonly lel: LelMeaning | null;
  readonly range: { readonly from: string; readonly to: string };
  readonly step: Digits | null;
  /** Seconds to 90 % of the final reading; null where nobody knows. */
  readonly t90Seconds: Digits | null;
  /** Whether the display stops at nought, so that a negative zero is not seen; null where nobody knows. */
  readonly hidesNegative: boolean | null;
}

export interface CylinderComponent {
  readonly gas: GasCode;
  /** The certified value. */
  readonly value: Shown;
  /** Where the value is a fraction of an LEL: of which gas and by which text; else null. */
  readonly lel: LelMeaning | null;
  /** Expanded uncertainty of the certified value with its coverage factor; null where the certificate gives none. */
  readonly uncertainty: { readonly value: Shown; readonly coverageFactor: Digits } | null;
  /** Preparation tolerance, per cent of the value ordered; null where it is not given. */
  readonly tolerancePercent: Digits | null;
  /** Last day it may be used, in the site's zone; null where no date is known: then it proves nothing. */
  readonly expires: DateText | null;
}

export interface ChannelSettings extends ChannelReference {
  readonly unit: string;
  readonly kind: Shown["kind"];
  readonly lel: LelMeaning | null;
  /** Value of test gas that the instrument is set to expect; null where it was not seen. */
  readonly span: Shown | null;
  /** The gas and factor that readings are shown as; null where there is none. */
  readonly response: { readonly gas: GasCode; readonly factor: Digits } | null;
  readonly setPoints: readonly SetPoint[];
}

export interface SetPoint {
  /** The site's name for it: `low`, `high`, `twa`, `stel`, … */
  readonly name: string;
  readonly value: Shown;
  readonly direction: "rising" | "falling";
  readonly acts: "momentary" | "averaged";
  readonly averageMinutes: Digits | null;
  readonly isLatching: boolean | null;
}

/** A set point that sounded. */
export interface AlarmReached {
  /** Name of the set point. */
  readonly name: string;
  /** Seconds from gas on to the alarm; null where nobody counted. */
  readonly seconds: Digits | null;
}

export interface GasTestChannel extends ChannelReference {
  /** Gas of the cylinder that it was shown. */
  readonly component: GasCode;
  readonly result: "passed" | "failed" | "not-tested";
  readonly alarmsReached: readonly AlarmReached[];
  readonly reading: Reading | null;
}

/** How gas came to the sensors; with a pumped set, whether through the line that it is used with. */
export type GasPath = "cap" | "docked" | "pump" | "pump-and-working-line" | "other";

/** Largest error that was allowed, and by which text: per cent of the applied value, absolute, or the larger of both. */
export interface AllowedError {
  readonly percentOfApplied: Digits | null;
  readonly absolute: Shown | null;
  readonly source: Source;
}

/** How far the acceptance limit lies inside the tolerance limit: not at all, by U with k = 2, or by 1.645 u. */
export type Guard = "none" | "expanded-uncertainty" | "one-sided-5-percent";

export interface CheckedChannel extends ChannelReference {
  readonly component: GasCode;
  readonly reading: Reading;
  readonly allowed: AllowedError;
  /** The four words of a guarded rule; `cannot-decide` where the gas is too uncertain for the error allowed. */
  readonly result: "passed" | "conditionally-passed" | "conditionally-failed" | "failed" | "cannot-decide";
}

export interface PeriodicCheck {
  readonly result: "passed" | "failed";
  /** Firm or workshop that did it where it was not done here; null where it was. */
  readonly workshop: string | null;
  readonly files: readonly FileReference[];
}

export type Duty = "tester" | "keeper" | "hygienist" | "auditor" | "worker" | "administrator";
export type Looked = "yes" | "no" | "not-looked";
export type CleanBy = "proven-instrument" | "zero-air" | "outdoor-air" | "not-shown";
export type VoidCause = "cap" | "flow" | "empty" | "wrong-cylinder" | "interrupted" | "other";
