/**
 * What each kind of entry says, in its newest form: the types of the bodies. The frozen schemas beside them
 * (`entries/<kind>.<form>.json`) are what is kept for good; a test holds types and schemas together. Bodies hold codes and
 * digits as they were shown, never words for the screen and never computed figures.
 */
import type { Digest, WrittenInstant } from "../record/index.ts";

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

/** Gas ids of the tables of limits, such as `carbon-monoxide`; a site's own begin with `own-`. */
export type GasCode = string;
/** `2026-03-04`. */
export type DateText = string;
/** Whole or decimal digits without a unit. */
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
  readonly mark: "read" | "memory" | "common-practice";
}

export interface ChannelDescription {
  readonly gas: GasCode;
  readonly unit: string;
  readonly kind: Shown["kind"];
  /** Gas and source of the LEL figure that 100 %LEL stands for; null for other kinds. */
  readonly lel: { readonly gas: GasCode; readonly basis: string } | null;
  readonly range: { readonly from: Digits; readonly to: Digits };
  readonly step: Digits | null;
  /** Seconds to 90 % of the final reading; null where nobody knows. */
  readonly t90Seconds: Digits | null;
}

export interface Bodies {
  // The book itself
  readonly "book-opened": { readonly name: string; readonly zone: string; readonly isDemonstration: boolean };
  /** `key` is the line of core/record keyText. */
  readonly "key-begun": { readonly algorithm: "ed25519"; readonly key: string };
  readonly "key-ended": { readonly algorithm: "ed25519"; readonly key: string; readonly cause: "replaced" | "lost" | "disclosed" };
  /** The folder was put back to an older copy, or is at odds with a known head; said before writing goes on. */
  readonly "book-put-back": { readonly knownSize: number; readonly foundSize: number; readonly reason: string };
  readonly disposed: {
    readonly parts: readonly { readonly submission: string; readonly part: "body" | "private" }[];
    readonly rule: string;
    readonly reason: string;
  };

  // Things and people
  readonly "model-described": {
    readonly name: string;
    readonly maker: string | null;
    readonly sensors: readonly { readonly sensorKind: SensorKind; readonly channels: readonly ChannelDescription[] }[];
    readonly zeroesItselfAtStart: boolean | null;
    readonly logs: "spot" | "mean" | "peak" | null;
    readonly memoryHours: Digits | null;
    readonly source: Source;
  };
  /** Subjects: instrument, model. */
  readonly "instrument-registered": { readonly serial: string; readonly owner: "site" | "visiting" };
  /** Subjects: instrument. */
  readonly "tag-lent": { readonly tag: string };
  readonly "tag-returned": { readonly tag: string };
  /** Subjects: instrument, sensor. */
  readonly "sensor-fitted": {
    readonly serial: string | null;
    readonly fittedBefore: DateText | null;
    readonly sensorKind: SensorKind;
    readonly channels: readonly ChannelDescription[];
  };
  /** Subjects: instrument (where it is now), instrument-before, sensor. */
  readonly "sensor-moved": { readonly reason: string };
  /** Subjects: instrument, sensor. */
  readonly "sensor-removed": { readonly reason: "worn-out" | "failed" | "replaced" | "other" };
  /** Subjects: cylinder. */
  readonly "cylinder-registered": {
    readonly name: string;
    readonly lot: string | null;
    readonly components: readonly CylinderComponent[];
    readonly balance: "air" | "nitrogen" | "other";
    readonly oxygen: Shown | null;
    readonly analysed: DateText | null;
    readonly waterVolumeLitres: Digits | null;
    /** Below this gauge pressure nothing is proven with it; null where the certificate names none. */
    readonly leastPressure: Shown | null;
    readonly certificate: FileReference | null;
    readonly files: readonly FileReference[];
  };
  /** Subjects: cylinder, regulator. From then on it is on this regulator and on no other. */
  readonly "cylinder-connected": Record<string, never>;
  /** Subjects: line-part. */
  readonly "line-part-registered": {
    readonly part: "pump" | "hose" | "probe" | "filter" | "trap" | "regulator" | "cap" | "tubing";
    readonly name: string;
    readonly flow: Shown | null;
  };
  /** Subjects: station, place. */
  readonly "station-registered": { readonly name: string; readonly sort: "by-hand" | "automatic" };
  /** Subjects: place. */
  readonly "place-registered": { readonly name: string; readonly sort: "bench" | "counter" | "store" | "space" | "room" | "spot" };
  /** Subjects: person. Name, badge and employer are in the private part. */
  readonly "person-registered": { readonly duties: readonly Duty[] };
  /** Subjects: person. */
  readonly "duties-set": { readonly duties: readonly Duty[] };
  /** Subjects: the thing or person, in the role `retired`. */
  readonly "thing-retired": { readonly reason: string };

  // The bench
  /** Subjects: tester, station, cylinder, regulator and other line parts. What holds for every instrument of the sitting. */
  readonly "round-opened": {
    readonly sort: "bench" | "field";
    readonly gauge: Shown | null;
    readonly flow: Shown | null;
    readonly weather: { readonly temperature: Shown | null; readonly humidity: Shown | null; readonly pressure: Shown | null };
    /** Compared with a clock that is trusted: how far this device was ahead. */
    readonly deviceClockAheadMs: { readonly lowest: number; readonly highest: number } | null;
  };
  readonly "round-closed": Record<string, never>;
  /** From here on subjects: instrument, tester, and the sensors; rests on the round. */
  readonly "self-test-seen": { readonly result: "passed" | "failed" | "interrupted"; readonly shown: string | null };
  /** Four things looked at, and no more than these four is claimed. */
  readonly "daily-card-seen": {
    readonly noFaultShown: Looked;
    readonly gasNamesAsExpected: Looked;
    readonly clockWithinMinute: Looked;
    readonly noDueDatePassed: Looked;
  };
  readonly "settings-card-seen": {
    readonly how: "read-from-file" | "compared-by-eye" | "taken-from-last-card";
    readonly channels: readonly ChannelSettings[];
    readonly files: readonly FileReference[];
  };
  readonly "clean-air-read": {
    readonly shownCleanBy: CleanBy;
    readonly readings: readonly (ChannelReference & { readonly reading: Shown })[];
    /** What a true cell shows in this air; null where nobody worked it out. */
    readonly expectedOxygen: Shown | null;
  };
  readonly "zero-adjusted": {
    readonly shownCleanBy: CleanBy;
    readonly channels: readonly (ChannelReference & { readonly asFound: Shown | null; readonly asLeft: Shown | null })[];
    readonly result: "set" | "failed";
  };
  /** Subjects also: cylinder, station, regulator and other line parts. */
  readonly "gas-tested": {
    readonly channels: readonly GasTestChannel[];
    readonly gasSeconds: Digits | null;
    readonly isAutomatic: boolean;
    readonly files: readonly FileReference[];
  };
  /** A test that gave no result, its cause said before any result was seen. */
  readonly "gas-test-void": { readonly cause: VoidCause; readonly channels: readonly ChannelReference[] };
  /** Rests on a failed gas test: somebody says afterwards why it failed. It stays failed. */
  readonly "gas-test-cause-claimed": { readonly cause: VoidCause };
  readonly "function-checked": PeriodicCheck;
  readonly "calibration-checked": PeriodicCheck & {
    readonly channels: readonly (ChannelReference & {
      readonly component: GasCode;
      readonly reading: Shown;
      readonly result: "passed" | "failed" | "cannot-decide";
    })[];
    /** The rule agreed beforehand: name and limit, as the rule set had them. */
    readonly rule: string;
  };
  readonly calibrated: {
    readonly channels: readonly (ChannelReference & {
      readonly component: GasCode;
      readonly asFound: Shown | null;
      readonly asLeft: Shown | null;
      readonly result: "adjusted" | "left-as-found" | "failed";
    })[];
    readonly files: readonly FileReference[];
  };
  readonly "charge-seen": {
    readonly percent: Digits | null;
    readonly hours: Digits | null;
    readonly bars: { readonly lit: number; readonly of: number } | null;
  };

  // In and out of use
  readonly withdrawn: { readonly cause: "damaged" | "doubted" | "lost" | "recalled" | "other" };
  /** A request. Rests on the entries that show it may be used again. */
  readonly returned: { readonly cause: string };
  readonly "sent-away": { readonly to: string; readonly purpose: "service" | "calibration" | "loan" | "other" };
  readonly "back-from-service": {
    readonly done: readonly ("calibrated" | "sensor-changed" | "repaired" | "checked" | "nothing")[];
    readonly files: readonly FileReference[];
  };
  /** Declared, not seen here: what happened before this book knew the instrument, or elsewhere. */
  readonly "brought-forward": {
    readonly of: "calibrated" | "function-checked" | "calibration-checked";
    readonly on: DateText;
    readonly channels: readonly ChannelReference[];
    readonly saidBy: string;
    readonly files: readonly FileReference[];
  };
  /** Something that asks for a new gas test. */
  readonly "upset-seen": {
    readonly what:
      | "dropped"
      | "wet"
      | "over-range"
      | "silicone"
      | "solvent"
      | "corrosive-gas"
      | "extreme-conditions"
      | "clock-changed"
      | "settings-changed"
      | "firmware-changed"
      | "reading-doubted";
  };

  // Corrections and answers
  /** A request. Rests on the entry that is voided. Takes away what it supported, keeps what it opposed. */
  readonly "entry-voided": { readonly cause: string };
  /** A request. Subjects: one cylinder, station, sensor, line-part or person; from that moment what was done with it supports nothing. */
  readonly "thing-voided": { readonly from: WrittenInstant; readonly until: WrittenInstant | null; readonly cause: string };
  /** An answer to a question of the book: a clock that was wrong, a hole in a chain, a kind that was not known. */
  readonly "question-answered": {
    readonly question: "device-clock" | "hole-in-chain" | "chain-forks" | "unknown-kind";
    readonly device: string | null;
    readonly sequences: { readonly from: number; readonly to: number } | null;
    /** For a clock: how far it was ahead. */
    readonly clockAheadMs: { readonly lowest: number; readonly highest: number } | null;
    readonly reason: string;
  };
  /** A request. All settings after the change; the first one of a book rests on nothing. */
  readonly "rules-set": { readonly rules: RuleSet };
  /** A request by a second person: rests on the `rules-set` that loosens. */
  readonly "rules-agreed": Record<string, never>;
  /** A finding that somebody relied on, as it was given out. */
  readonly "relied-on": {
    readonly question: string;
    readonly at: WrittenInstant;
    readonly knownAt: number;
    readonly answer: string;
    readonly methods: readonly { readonly id: string; readonly edition: number }[];
    readonly files: readonly FileReference[];
  };
}

export type Kind = keyof Bodies;

/** Private parts; kinds that are not here have none. */
export interface PrivateParts {
  readonly "person-registered": {
    readonly name: string;
    readonly badge: string | null;
    readonly employer: string | null;
    readonly call: string | null;
  };
  readonly withdrawn: { readonly remark: string };
  readonly "upset-seen": { readonly remark: string };
}

export type Duty = "tester" | "keeper" | "hygienist" | "auditor" | "worker" | "administrator";
export type Looked = "yes" | "no" | "not-looked";
export type CleanBy = "proven-instrument" | "zero-air" | "outdoor-air" | "not-shown";
export type VoidCause = "cap" | "flow" | "empty" | "wrong-cylinder" | "interrupted" | "other";

export interface CylinderComponent {
  readonly gas: GasCode;
  readonly value: Shown;
  /** Expanded uncertainty of the certified value with its coverage factor; null where the certificate gives none. */
  readonly uncertainty: { readonly value: Shown; readonly coverageFactor: Digits } | null;
  /** Preparation tolerance, per cent of the value; null where it is not given. */
  readonly tolerancePercent: Digits | null;
  /** Last day it may be used, in the site's zone; null where no date is known: then it proves nothing. */
  readonly expires: DateText | null;
}

export interface ChannelSettings extends ChannelReference {
  readonly unit: string;
  readonly kind: Shown["kind"];
  readonly lel: { readonly gas: GasCode; readonly basis: string } | null;
  readonly span: Shown | null;
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

export interface GasTestChannel extends ChannelReference {
  /** Gas of the cylinder that it was shown. */
  readonly component: GasCode;
  readonly result: "passed" | "failed" | "not-tested";
  /** Names of set points that sounded. */
  readonly alarmsReached: readonly string[];
  readonly secondsToAlarm: Digits | null;
  readonly reading: Shown | null;
}

export interface PeriodicCheck {
  readonly result: "passed" | "failed";
  /** Who did it where it was not a person of this book. */
  readonly doneBy: string | null;
  readonly files: readonly FileReference[];
}

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

export interface RuleSet {
  readonly zone: string;
  readonly shifts: readonly { readonly name: string; readonly from: string; readonly to: string }[];
  /** The working day begins at this wall-clock time: `06:00`. */
  readonly dayBegins: string;
  readonly longestStintHours: Setting<number>;
  readonly rules: Readonly<Record<Exclude<RuleId, "in-service" | "sensor-in-body">, RuleSetting>>;
  /** Set points that each gas must have, and which of them a gas test must raise. */
  readonly setPoints: readonly {
    readonly gas: GasCode;
    readonly points: readonly SetPoint[];
    readonly raisedByGasTest: readonly string[];
    readonly source: Source;
  }[];
  /** Largest reading in clean air, either side of nought (for oxygen of the expected reading), as shown. */
  readonly zeroBands: readonly { readonly gas: GasCode; readonly band: Shown; readonly source: Source }[];
  /** Gas names that a daily card must show, by model. */
  readonly whoReturns: Setting<readonly Duty[]>;
  /** Longest minutes between a failed test and the repeat that may show its claimed cause. */
  readonly repeatMinutes: Setting<number>;
  readonly leastChargePercent: Setting<number>;
  /** A device clock farther out asks a person. */
  readonly clockMinutes: Setting<number>;
}
