/**
 * What each kind of entry says, in its newest form: the types of the bodies. The frozen schemas beside them
 * (`entries/<kind>.<form>.json`) are what is kept for good; a test holds types and schemas together. Bodies hold codes and
 * digits as they were shown, never words for the screen and never computed figures.
 */
import type { WrittenInstant } from "../record/index.ts";
import type {
  ChannelDescription,
  ChannelReference,
  ChannelSettings,
  CheckedChannel,
  CleanBy,
  CylinderComponent,
  DateText,
  Digits,
  Duty,
  FileReference,
  GasCode,
  GasPath,
  GasTestChannel,
  Guard,
  Looked,
  PeriodicCheck,
  Reading,
  SensorKind,
  Shown,
  Source,
  VoidCause,
} from "./body-parts.ts";
import type { RuleSet } from "./rule-set.ts";

export type * from "./body-parts.ts";
export type * from "./rule-set.ts";

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
    /** How air comes to the sensors: by itself, or drawn by a pump. */
    readonly pump: "none" | "built-in" | "attached" | null;
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
    /** Where nobody here fitted it: a day on which it sat in the body already. */
    readonly fittedBefore: DateText | null;
    readonly made: DateText | null;
    /** Day printed on it after which it is not to be used. */
    readonly useBefore: DateText | null;
    readonly sensorKind: SensorKind;
    readonly channels: readonly ChannelDescription[];
  };
  /** Subjects: instrument (where it is now), instrument-before, sensor. */
  readonly "sensor-moved": { readonly reason: string };
  /** Subjects: instrument, sensor. */
  readonly "sensor-removed": { readonly reason: "worn-out" | "failed" | "replaced" | "other" };
  /** Subjects: cylinder. */
  readonly "cylinder-registered": {
    /** Number on the cylinder. A refill is a new cylinder. */
    readonly name: string;
    readonly supplier: string | null;
    readonly certificateNumber: string | null;
    readonly lot: string | null;
    readonly components: readonly CylinderComponent[];
    readonly balance: "air" | "nitrogen" | "other";
    readonly oxygen: Shown | null;
    readonly analysed: DateText | null;
    readonly waterVolumeLitres: Digits | null;
    /** Gauge pressure when it was certified. */
    readonly filledPressure: Shown | null;
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
    /** Of a hose or tubing, for the time that gas needs to come through. */
    readonly lengthMetres: Digits | null;
    readonly boreMillimetres: Digits | null;
    readonly material: string | null;
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
  /** Rests on the round. */
  readonly "round-closed": { readonly gauge: Shown | null };
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
    readonly firmware: string | null;
    readonly files: readonly FileReference[];
  };
  readonly "clean-air-read": {
    readonly shownCleanBy: CleanBy;
    readonly readings: readonly (ChannelReference & { readonly reading: Reading })[];
    /** What a true cell shows in this air; null where nobody worked it out. */
    readonly expectedOxygen: Shown | null;
  };
  readonly "zero-adjusted": {
    readonly shownCleanBy: CleanBy;
    readonly channels: readonly (ChannelReference & { readonly asFound: Reading | null; readonly asLeft: Reading | null })[];
    readonly result: "set" | "failed";
  };
  /** Subjects also: cylinder, station, regulator and other line parts. */
  readonly "gas-tested": {
    readonly channels: readonly GasTestChannel[];
    readonly gasPath: GasPath;
    /** Seconds for which gas was held on the sensors. */
    readonly gasSeconds: Digits | null;
    /** At this test; null where the round's figures hold. */
    readonly gauge: Shown | null;
    readonly flow: Shown | null;
    readonly isAutomatic: boolean;
    readonly files: readonly FileReference[];
  };
  /** A test that gave no result, its cause said before any result was seen. */
  readonly "gas-test-void": { readonly cause: VoidCause; readonly channels: readonly ChannelReference[] };
  /** Rests on a failed gas test: somebody says afterwards why it failed. It stays failed. */
  readonly "gas-test-cause-claimed": { readonly cause: VoidCause };
  readonly "function-checked": PeriodicCheck;
  readonly "calibration-checked": {
    /** `undecided` where a channel is neither passed nor failed. */
    readonly result: "passed" | "failed" | "undecided";
    /** The rule agreed beforehand, as the rule set had it: the guard here, the error allowed beside each channel. */
    readonly guard: Guard;
    readonly channels: readonly CheckedChannel[];
    readonly gasPath: GasPath;
    readonly gasSeconds: Digits | null;
    readonly workshop: string | null;
    readonly files: readonly FileReference[];
  };
  readonly calibrated: {
    readonly channels: readonly (ChannelReference & {
      readonly component: GasCode;
      readonly asFound: Reading | null;
      readonly asLeft: Reading | null;
      readonly result: "adjusted" | "left-as-found" | "failed";
    })[];
    readonly gasPath: GasPath;
    readonly gasSeconds: Digits | null;
    readonly workshop: string | null;
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
  readonly returned: {
    readonly cause:
      | "calibrated-and-tested"
      | "repaired"
      | "found-again"
      | "doubt-cleared"
      | "recall-answered"
      | "withdrawn-by-mistake"
      | "other";
    readonly reason: string | null;
  };
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
    /** What the one who brings it forward has in hand. */
    readonly evidence: "certificate" | "list" | "label" | "word-of-mouth";
    readonly workshop: string | null;
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
      | "catalyst-poison"
      | "corrosive-gas"
      | "extreme-conditions"
      | "clock-changed"
      | "settings-changed"
      | "firmware-changed"
      | "filter-changed"
      | "repaired"
      | "reading-doubted";
  };

  // Corrections and answers
  /** A request. Rests on the entry that is voided. Takes away what it supported, keeps what it opposed. */
  readonly "entry-voided": {
    readonly cause:
      | "wrong-thing"
      | "wrong-person"
      | "wrong-time"
      | "wrong-figure"
      | "entered-twice"
      | "done-wrongly"
      | "evidence-bad"
      | "other";
    readonly reason: string;
  };
  /** A request. Subjects: one cylinder, station, sensor, line-part or person; from that moment what was done with it supports nothing. */
  readonly "thing-voided": {
    readonly from: WrittenInstant;
    /** First instant at which it counts again; null where none is known. */
    readonly until: WrittenInstant | null;
    readonly cause: "expired" | "decayed" | "wrong-gas" | "leaking" | "wrong-flow" | "faulty" | "not-entitled" | "other";
    readonly reason: string;
  };
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
    /** Code of the question; `asked` holds what it was asked about, as canonical JSON text. */
    readonly question: string;
    readonly asked: string;
    readonly at: WrittenInstant;
    readonly knownAt: number;
    /** As it was printed. */
    readonly answer: string;
    /** Code of the outcome or standing. */
    readonly outcome: string | null;
    readonly low: Shown | null;
    readonly high: Shown | null;
    /** Submission that set the rules which held; null where none did. */
    readonly rules: string | null;
    readonly limits: readonly { readonly id: string; readonly edition: string }[];
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
