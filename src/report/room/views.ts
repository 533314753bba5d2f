/**
 * What the screens of the book show, as plain values with words and digits already made: the server makes them, the
 * screens lay them out, and both read their shapes here. Instants are written as the book writes them.
 */
import type { Bodies, Kind, RuleSet } from "../../core/instrument/bodies.ts";

/** `ends`: proven now, and not to the end of what it is needed for. */
export type StandingMark = "proven" | "ends" | "not proven" | "withdrawn";

/** One of the reasons of a standing: what the rule found, and what this site can do next. */
export interface ReasonView {
  /** Code of the rule; the same cause on many instruments has the same `cause`. */
  readonly rule: string;
  readonly cause: string;
  /** Gas it is about; null where it is about the whole instrument. */
  readonly gas: string | null;
  readonly why: string;
  readonly next: string | null;
  /** Who may return it, where it is withdrawn; null otherwise. */
  readonly whoReturns: string | null;
  /** Entries that it rests on. */
  readonly entries: readonly number[];
  /** Where the rule's demand comes from, with its mark. */
  readonly source: string;
}

export interface GasStandingView {
  readonly gas: string;
  /** As people write it: CO, H₂S. */
  readonly name: string;
  readonly mark: StandingMark;
  readonly until: string | null;
}

export interface InstrumentLine {
  readonly id: string;
  readonly tag: string | null;
  readonly serial: string;
  readonly model: string | null;
  readonly mark: StandingMark;
  /** Proven until then; null where it is not proven. */
  readonly until: string | null;
  /** The first thing that stands against it or is missing; of a proven one what ends first. */
  readonly first: ReasonView | null;
  /** Estimated minutes at the bench; null where nobody can say. */
  readonly minutes: number | null;
  readonly gases: readonly GasStandingView[];
}

/** What an answer was worked out from. */
export interface BasisView {
  readonly at: string;
  readonly knownAt: number;
  readonly instruments: number;
  /** Entry of the rule set in force; null where the site has set none. */
  readonly ruleSet: number | null;
  /** What was asked: from, to, gases (null = all that each instrument has). */
  readonly need: { readonly from: string; readonly to: string; readonly shift: string | null; readonly gases: readonly string[] | null };
}

/** One cause is one item, however many instruments it holds back. */
export interface CauseGroup {
  readonly cause: string;
  readonly why: string;
  readonly next: string | null;
  readonly lines: readonly InstrumentLine[];
}

export interface QuestionView {
  readonly question: Bodies["question-answered"]["question"] | "conflict";
  readonly device: string | null;
  readonly sequences: { readonly from: number; readonly to: number } | null;
  readonly number: number;
  /** What was found, and what it holds back. */
  readonly words: string;
}

/** GET /api/1/today */
export interface TodayView {
  readonly basis: BasisView;
  readonly counts: Readonly<Record<StandingMark, number>>;
  readonly withdrawn: readonly InstrumentLine[];
  /** In the order they should come to the bench. */
  readonly notProven: readonly CauseGroup[];
  readonly ends: readonly InstrumentLine[];
  readonly proven: readonly InstrumentLine[];
  readonly questions: readonly QuestionView[];
  /** Count of proven instruments from an instant on, rising in time, for the stair. */
  readonly stair: readonly { readonly at: string; readonly count: number }[];
  /** Components and cylinders that are about to run out or expire, and why it matters. */
  readonly gas: readonly { readonly cylinder: string; readonly words: string }[];
}

export interface EntryLine {
  readonly number: number;
  readonly kind: string;
  /** One sentence: what it says. */
  readonly says: string;
  readonly happened: { readonly earliest: string; readonly latest: string; readonly basis: string };
  readonly received: string;
  readonly by: string | null;
  readonly subjects: readonly { readonly role: string; readonly id: string; readonly name: string }[];
  readonly isVoided: boolean;
  /** Received long after it happened, from paper, from a wrong clock: told beside it. */
  readonly remarks: readonly string[];
}

/** GET /api/1/instruments/:id */
export interface InstrumentView {
  readonly line: InstrumentLine;
  readonly basis: BasisView;
  /** All reasons, the gravest first. */
  readonly reasons: readonly ReasonView[];
  readonly sensors: readonly {
    readonly id: string;
    readonly serial: string | null;
    readonly kind: string;
    readonly channels: readonly {
      readonly gas: string;
      readonly name: string;
      readonly unit: string;
      readonly range: string;
      /** Set points that the rule set asks of it, as they are typed. */
      readonly setPoints: readonly { readonly name: string; readonly digits: string; readonly raisedByGasTest: boolean }[];
    }[];
  }[];
  readonly entries: readonly EntryLine[];
  /** Newest number about it: what a request expects. */
  readonly newest: number;
}

/** GET /api/1/entries */
export interface EntriesView {
  readonly size: number;
  readonly entries: readonly EntryLine[];
  /** Number to ask before for older ones; null at the first. */
  readonly older: number | null;
}

/** GET /api/1/entries/:number: all that a reader needs to check it alone. */
export interface EntryView {
  readonly line: EntryLine;
  readonly submission: string;
  readonly entry: string;
  /** Canonical text of the body, null where it was disposed of. */
  readonly body: string | null;
  readonly private: string | null;
  /** Base64 of the bytes that the digests are about. */
  readonly bytes: { readonly entry: string; readonly submission: string; readonly body: string | null; readonly private: string | null };
  /** Base64, from the leaf up. */
  readonly proof: readonly string[];
  readonly head: string;
  readonly key: string;
  readonly restsOn: readonly EntryLine[];
  readonly restedOnBy: readonly EntryLine[];
}

export interface ThingView {
  readonly id: string;
  readonly number: number;
  readonly isRetired: boolean;
}

/** GET /api/1/room: every list of the site. */
export interface RoomView {
  readonly name: string;
  readonly zone: string;
  readonly isDemonstration: boolean;
  readonly size: number;
  readonly models: readonly (ThingView & Bodies["model-described"])[];
  readonly instruments: readonly (ThingView & {
    readonly serial: string;
    readonly owner: "site" | "visiting";
    readonly model: string | null;
    readonly tag: string | null;
    readonly sensors: readonly string[];
  })[];
  readonly sensors: readonly (ThingView & { readonly instrument: string | null } & Bodies["sensor-fitted"])[];
  readonly cylinders: readonly (ThingView & { readonly regulator: string | null } & Bodies["cylinder-registered"])[];
  readonly lineParts: readonly (ThingView & Bodies["line-part-registered"])[];
  readonly stations: readonly (ThingView & { readonly place: string | null } & Bodies["station-registered"])[];
  readonly places: readonly (ThingView & Bodies["place-registered"])[];
  readonly people: readonly (ThingView & {
    readonly name: string | null;
    readonly badge: string | null;
    readonly duties: readonly string[];
  })[];
  readonly rules: {
    readonly number: number | null;
    /** Null where the site has set none. */
    readonly inForce: RuleSet | null;
    readonly waiting: readonly { readonly number: number; readonly from: string | null }[];
  };
  /** Rounds that were opened and not closed. */
  readonly rounds: readonly {
    readonly submission: string;
    readonly number: number;
    readonly body: Bodies["round-opened"];
    readonly subjects: readonly { readonly role: string; readonly id: string }[];
    readonly opened: string;
  }[];
}

/** POST /api/1/previews/void: what would lose its ground. */
export interface KnockOnView {
  readonly entries: number;
  /** Out this minute on that ground come first (who holds them is known once there is a counter). */
  readonly instruments: readonly { readonly line: InstrumentLine; readonly would: StandingMark; readonly why: string }[];
}

export type KindWord = Readonly<Record<Kind, string>>;
