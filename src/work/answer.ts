/**
 * What `lamproom exposure --json` prints and the recording page shows: plain data, units and instants spelled out,
 * nothing rounded. Instants are RFC 3339 texts in UTC; where the file only counts from its own start they are ISO
 * 8601 durations from that start ("PT1943.5S") and `timeBasis` says so. The schema is docs/schemas/exposure.json.
 */
import type { NotCompared } from "../core/exposure/assessment.ts";
import type { Assumption, Ground, Range, UndecidedBy } from "../core/finding.ts";
import type { Outcome } from "../core/outcome.ts";
import type { Guess, LineFault, Question } from "../core/table/question.ts";
import type { RefusalOfFile } from "../report/index.ts";

export interface ExposureAnswer {
  readonly form: "lamproom-exposure/1";
  readonly files: readonly FileAnswer[];
}

export interface FileAnswer {
  readonly file: string;
  readonly sha256: string | null;
  readonly bytes: number;
  readonly timeBasis: "instant" | "elapsed" | null;
  readonly zone: string | null;
  readonly shifts: readonly { readonly from: string; readonly to: string }[];
  /** With several shifts every channel stands once a shift, `shift` counting from 0. */
  readonly channels: readonly ChannelAnswer[];
  readonly lines: {
    readonly lines: number;
    readonly header: number;
    readonly rows: number;
    readonly continued: number;
    readonly rejected: number;
    readonly skipped: number;
  } | null;
  readonly guesses: readonly Guess[];
  readonly questions: readonly Question[];
  readonly faults: readonly FaultAnswer[];
  /** Faults beyond those listed, by type. */
  readonly moreFaults: Readonly<Record<string, number>>;
  /** What reading has to say about a line, or about the file as a whole (line null). */
  readonly notes: readonly { readonly line: number | null; readonly text: string }[];
  /** Null when the file was answered. */
  readonly refusal: (FileRefusal & { readonly message: string; readonly mend: string }) | null;
}

export type FileRefusal = RefusalOfFile;

export interface FaultAnswer extends LineFault {
  /** Seen while a question was open: an answer may change what is wrong with the line. */
  readonly provisional: boolean;
  /** The fault in a sentence: line, value, what to do. */
  readonly message: string;
}

export interface ChannelAnswer {
  readonly name: string;
  readonly series: { readonly label: string; readonly value: string } | null;
  readonly shift: number;
  readonly gas: string | null;
  readonly unit: string | null;
  readonly samples: number;
  readonly start: string;
  readonly end: string;
  readonly sampledSeconds: number;
  /** Over the sampled time only. */
  readonly mean: Range;
  /** Over 8 hours; `best` and `high` null where time is unsampled and nothing was declared. Null for what has no dose. */
  readonly twa8h: Range | null;
  /** Null for what has no dose: oxygen, and shares of a lower explosive limit. */
  readonly stel:
    | (Range & {
        readonly windowMinutes: number;
        readonly windowStart: string;
        readonly windowEnd: string;
        readonly coverage: number;
      })
    | null;
  readonly peak: { readonly value: number; readonly at: string; readonly atLeast: boolean } | null;
  readonly lowest: { readonly value: number; readonly at: string; readonly atMost: boolean } | null;
  /** What the figures of the channel rest on, whether or not a limit was set beside them. */
  readonly grounds: readonly Ground[];
  readonly assumptions: readonly Assumption[];
  readonly findings: readonly FindingAnswer[];
  /** What no finding speaks of: limits that do not meet the readings, and regimes that give none for the gas. */
  readonly notCompared: readonly NotComparedAnswer[];
  readonly episodes: readonly EpisodeAnswer[];
}

export interface NotComparedAnswer {
  readonly regime: string;
  /** Null where the regime gives no limit at all. */
  readonly limit: LimitAnswer | null;
  readonly why: NotCompared["why"] | "no limit" | "not covered";
}

export interface LimitAnswer {
  readonly id: string;
  readonly regime: string;
  readonly kind: string;
  readonly value: number | null;
  /** Where this finding is set against a limit lowered for the length of the shift: that limit. Else null. */
  readonly lowered: number | null;
  readonly unit: string;
  readonly operator: string;
  readonly averagingMinutes: number | null;
  /** Of a rule with several tests (Table Z-2): the ceiling, and the peak above it, in `unit`; null for any other limit. */
  readonly levels: { readonly ceiling: number; readonly peak: number } | null;
  readonly source: string;
  readonly edition: string;
  readonly mark: string;
}

export interface FindingAnswer extends Range {
  readonly id: string;
  readonly limit: LimitAnswer;
  /** That of the limit: low, best, high and wStar can be set beside its value. */
  readonly unit: string;
  readonly outcome: Outcome;
  readonly coverage: number;
  readonly wStar: number | null;
  readonly shiftRule: string | null;
  readonly windowStart: string | null;
  readonly windowEnd: string | null;
  readonly parts: readonly {
    readonly name: string;
    readonly limit: number;
    readonly unit: string;
    readonly outcome: string;
    readonly low: number;
    readonly best: number | null;
    readonly high: number | null;
  }[];
  readonly grounds: readonly Ground[];
  readonly assumptions: readonly Assumption[];
  readonly undecidedBy: readonly UndecidedBy[];
  readonly method: { readonly id: string; readonly edition: number };
}

export interface EpisodeAnswer {
  readonly limit: string;
  readonly kind: string;
  readonly start: string;
  readonly end: string;
  readonly seconds: number;
  readonly peak: number;
  /** A reading over range lies in it: the true greatest may be more. */
  readonly atLeast: boolean;
  readonly peakAt: string;
  readonly openEnd: boolean;
}
