import type { Result } from "../result.ts";
import type { SurveyEvidence } from "./evidence.ts";
import type { ColumnMapping, TableMapping } from "./mapping.ts";
import type { Answers, Guess, LineFault, Question, TableRefusal } from "./question.ts";
import type { Vocabulary } from "./vocabulary.ts";

/** What core lacks and is handed: decoding of encodings other than UTF-8 and UTF-16. Null = not decodable. */
export interface TableEnvironment {
  readonly decodeText: (label: string, bytes: Uint8Array) => string | null;
  /** Gas and unit words: the rooms quantity and gas know them, this room does not. */
  readonly vocabulary: Vocabulary;
}

/** One cell as the file has it, and as it was understood. */
export interface PreviewRow {
  readonly line: number;
  readonly raw: readonly string[];
  /**
   * Digits, an RFC 3339 instant or seconds, a word for the status, or the text itself where it is no reading; a time
   * without its zone, its day or its clock where an open question leaves these unknown. Empty: nothing of its own (a
   * date shown with its clock, a column left out). Null: not understood, or not before a question is answered.
   */
  readonly parsed: readonly (string | null)[];
}

export interface Preview {
  readonly columns: readonly string[];
  readonly first: readonly PreviewRow[];
  /** The rows that were hardest to understand. */
  readonly worst: readonly PreviewRow[];
}

/** What a whole reading of the file has shown, and the mapping that follows from it. */
export interface Proposal {
  readonly mapping: TableMapping;
  readonly guesses: readonly Guess[];
  readonly questions: readonly Question[];
  readonly preview: Preview;
  readonly bytes: number;
  readonly lines: number;
  /** What the first walk made of the lines, under the mapping that the head of the file suggested: for a look, not for storing. */
  readonly firstWalk: TableSummary;
  /** True: an answer changes how the bytes become cells, so survey again with all answers as `given`. */
  readonly surveyAgain: boolean;
  /** What `answerQuestions` concludes from; plain data, of no use to others. */
  readonly evidence: SurveyEvidence;
}

/** Physical lines of the file by what became of them: header + rows + continued + rejected + skippedCount = lines. */
export interface LineCount {
  readonly lines: number;
  readonly header: number;
  readonly rows: number;
  /** Further physical lines of rows with a line break inside a cell. */
  readonly continued: number;
  readonly rejected: number;
  readonly skipped: Readonly<Record<string, readonly number[]>>;
  readonly skippedCount: number;
}

/**
 * Rows of one channel as they come, in file order. Digits are kept: value = mantissa x 10^-decimals. Arrays are
 * reused between calls: copy what is to be kept.
 */
export interface RowBatch {
  readonly count: number;
  readonly lines: Uint32Array;
  /** Milliseconds: instants, or since the start. */
  readonly times: Float64Array;
  /** Index into `series` of the sink, or null where the file holds one series. */
  readonly series: Uint32Array | null;
  readonly channels: readonly ChannelBatch[];
}

export interface ChannelBatch {
  readonly mantissas: Float64Array;
  readonly decimals: Uint8Array;
  /** READING codes of `core/recording/channel`. */
  readonly codes: Uint8Array;
  /** Long form: 0 where this line is not about this channel. Null = every line is. */
  readonly present: Uint8Array | null;
}

export interface RowSink {
  /** Called once before the first row: the channels in the order of every batch. */
  readonly begin: (channels: readonly ColumnMapping[]) => void;
  readonly series: (index: number, label: string, value: string) => void;
  readonly rows: (batch: RowBatch) => void;
}

export interface TableSummary {
  readonly count: LineCount;
  readonly faults: readonly LineFault[];
  /** Faults beyond the kept thousand, by type. */
  readonly moreFaults: Readonly<Record<string, number>>;
  readonly notes: readonly { readonly line: number; readonly text: string }[];
  readonly cutOff: boolean;
  readonly clock: { readonly kind: "instants"; readonly zone: string | null } | { readonly kind: "elapsed" };
}

/** Bytes come in pieces of any size; nothing of the file is kept beyond what a preview and the questions need. */
export interface TableSurvey {
  readonly push: (bytes: Uint8Array) => Result<true, TableRefusal>;
  readonly finish: () => Result<Proposal, TableRefusal>;
}

export interface TableReader {
  readonly push: (bytes: Uint8Array) => Result<true, TableRefusal>;
  readonly finish: () => Result<TableSummary, TableRefusal>;
}

/** First walk: what is this file? `given` are answers and settings known beforehand (`zone`, `unit/CO`, `gas/*`, `start`, …). */
export type SurveyTable = (environment: TableEnvironment, given: Answers) => TableSurvey;

/** Applies answers to a proposal; questions still open are left in it. */
export type AnswerQuestions = (proposal: Proposal, answers: Answers) => Result<Proposal, TableRefusal>;

/** Second walk: typed rows under a mapping without open questions, in flat memory. */
export type ReadTable = (environment: TableEnvironment, mapping: TableMapping, answers: Answers, sink: RowSink) => TableReader;

/**
 * Both walks in one: rows go to the sink under the mapping that the head of the file suggests, while the evidence is
 * gathered. `summary` is null where the whole file, an open question or a refusal says otherwise: then what the sink
 * holds is worth nothing, and `readTable` walks again after the answers.
 */
export interface SurveyAndReading {
  readonly push: (bytes: Uint8Array) => Result<true, TableRefusal>;
  readonly finish: () => Result<{ readonly proposal: Proposal; readonly summary: TableSummary | null }, TableRefusal>;
}

export type SurveyAndRead = (environment: TableEnvironment, given: Answers, sink: RowSink) => SurveyAndReading;
