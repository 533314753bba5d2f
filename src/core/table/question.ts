/** How sure a guess is. "certain": the file itself says so and nothing else fits. */
export type Sureness = "certain" | "strong" | "weak";

/** What a guess or a question is about. Codes only; `report` puts them into words. */
export type Topic =
  | "encoding"
  | "line ends"
  | "delimiter"
  | "quotes"
  | "wrapped lines"
  | "header"
  | "stray lines"
  | "lost character"
  | "duplicate label"
  | "blank label"
  | "decimal mark"
  | "group mark"
  | "role"
  | "gas"
  | "unit"
  | "reading kind"
  | "range top"
  | "day and month"
  | "two-digit year"
  | "zone"
  | "zone letters"
  | "time form"
  | "start"
  | "two time columns"
  | "fixed clock"
  | "repeated hour"
  | "twelve-hour clock"
  | "word"
  | "sentinel"
  | "conflicting readings"
  | "series";

/** Why a choice was taken or is offered: a code with the texts it rests on, shown beside the file's own lines. */
export interface Reason {
  readonly code: string;
  readonly line: number | null;
  readonly text: string | null;
}

export interface Guess {
  readonly topic: Topic;
  /**
   * Label (or 1-based number) of the column it is about, or the word, number or zone letters; `*` = every channel, null =
   * the whole file. `topic` or `topic/column` is the id of the answer that takes it back.
   */
  readonly column: string | null;
  readonly chosen: string;
  readonly sureness: Sureness;
  readonly reasons: readonly Reason[];
}

export interface Choice {
  /** Goes back as the answer. */
  readonly value: string;
  readonly reasons: readonly Reason[];
}

/** Something that the file does not settle and that changes what it means. Nothing is stored before the answer. */
export interface Question {
  /** Stable within one file: `zone`, `day and month`, `unit/3`, `word/OVER`. */
  readonly id: string;
  readonly topic: Topic;
  readonly column: string | null;
  readonly samples: readonly { readonly line: number; readonly text: string }[];
  /** Empty = free text (a zone name, a number, an instant). */
  readonly choices: readonly Choice[];
  /** Offered as the default where the reason is strong; never taken by itself. */
  readonly suggested: string | null;
  /** True: readings cannot be computed without it. False: only the comparison it serves is left out (gas of a channel). */
  readonly blocking: boolean;
}

export type Answers = Readonly<Record<string, string>>;

/** Plain names for what is wrong with a line (after Frictionless, MIT), and ours for readings. */
export type FaultType =
  | "blank row"
  | "missing cell"
  | "extra cell"
  | "not a number"
  | "wrong grouping"
  | "not a time"
  | "impossible time"
  | "encoding error"
  | "nul byte"
  | "text after the closing quote"
  | "unclosed quote"
  | "cut off"
  | "duplicate row"
  | "out of order"
  | "conflicting readings"
  | "time runs backwards"
  | "clock jump"
  | "impossible value"
  | "unit changed"
  | "footer"
  | "neither comment nor table"
  | "line too long";

export interface LineFault {
  readonly type: FaultType;
  readonly line: number;
  readonly byteOffset: number;
  readonly column: string | null;
  readonly raw: string;
  /** The row was left out ("rejected"), or kept and marked. */
  readonly rejected: boolean;
}

export type TableRefusal =
  | { readonly type: "empty-file" }
  | {
      readonly type: "not-a-table";
      readonly looksLike: "PDF" | "JSON" | "web page" | "zip or workbook" | "picture" | "binary" | "one long line";
      readonly offerJson: boolean;
    }
  | { readonly type: "quote-never-closed"; readonly line: number }
  | { readonly type: "no-time-column"; readonly labels: readonly string[] }
  | { readonly type: "no-reading-column"; readonly labels: readonly string[] }
  | { readonly type: "unknown-zone"; readonly zone: string; readonly near: readonly string[] }
  | { readonly type: "bad-answer"; readonly question: string; readonly answer: string }
  | { readonly type: "mapping-does-not-fit"; readonly fingerprint: string; readonly expected: string }
  /** Every cell of a channel is no number under the mapping. */
  | {
      readonly type: "mapping-misreads-numbers";
      readonly column: string;
      readonly line: number;
      readonly text: string;
      readonly decimalMark: "." | ",";
    }
  | { readonly type: "encoding-not-readable"; readonly encoding: string }
  | { readonly type: "questions-open"; readonly questions: readonly Question[] };
