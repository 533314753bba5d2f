import type { SurveyEvidence } from "./evidence.ts";
import type { Plan } from "./plan.ts";
import type { RowSink, TableEnvironment } from "./reading.ts";
import type { RecordSplitter } from "./record.ts";
import type { Structure } from "./structure.ts";

export interface WalkTools {
  readonly environment: TableEnvironment;
  readonly sourceLength: (utf8: Uint8Array, from: number, to: number) => number;
  readonly markLength: number;
  readonly structure: Structure;
  readonly plan: Plan;
  readonly evidence: SurveyEvidence;
  /** False: only rows are wanted, so the columns are not counted. */
  readonly gathers: boolean;
  /** True: no line takes the short way, so that every cell is counted. */
  readonly isCareful: boolean;
  readonly sink: RowSink | null;
}

/** Rows kept for the preview, plain ones and hard ones each. */
export const KEPT_ROWS = 20;

/** Where the record in work stands in the file. */
export class RecordPlace {
  line = 1;
  /** Byte of the source, counted from 0. */
  offset: number;
  private readonly splitter: RecordSplitter;
  /** Its text, as far as a message needs it. */
  readonly raw: () => string;

  constructor(offset: number, splitter: RecordSplitter, raw: () => string) {
    this.offset = offset;
    this.splitter = splitter;
    this.raw = raw;
  }

  get innerLines(): number {
    return this.splitter.innerLines;
  }

  get endsFile(): boolean {
    return this.splitter.lineEnd === 0;
  }

  get isQuoted(): boolean {
    return this.splitter.quoted[0] !== 0;
  }
}

/** A ruler begins with one of its marks, and few cells do. */
export const isRulerText = (text: string): boolean =>
  "-=_+".includes(text.charAt(0)) && text !== "" && /^(?:-{2,}|={2,}|_{3,}|\+?(?:-+\+)+)$/.test(text);
