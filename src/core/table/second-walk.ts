/** Second walk: rows of a file whose mapping is known. */
import { assert, given, type Result, refused } from "../result.ts";
import { conclude } from "./conclusion.ts";
import { noHighBytes } from "./encoding.ts";
import type { SurveyEvidence } from "./evidence.ts";
import { newEvidence } from "./file-evidence.ts";
import { fingerprintOf } from "./fingerprint.ts";
import { isHalfDay } from "./half-day.ts";
import { HeadFirst, openHead } from "./head-first.ts";
import { severalRuns } from "./label-runs.ts";
import type { TableMapping } from "./mapping.ts";
import { planOf } from "./plan.ts";
import type { Answers, Question, TableRefusal } from "./question.ts";
import type { ReadTable, RowSink, TableEnvironment, TableSummary } from "./reading.ts";
import { runsQuestion } from "./role.ts";
import { structureOf } from "./structure.ts";
import { dayTold, startQuestion } from "./time-form.ts";
import { Walk } from "./walk.ts";

/**
 * Second walk: typed rows under a mapping.
 *
 * @param mapping of this file or of another with the same heading. @param answers to questions that only this walk can
 * put (`conflicting readings`, `repeated hour`). @param sink takes the rows.
 * @returns a reader; `finish` gives counts and faults. Refused: a heading other than that of the mapping, a mapping
 * without time or readings or under which no cell of a channel is a number, questions that the rows raise and nobody answered.
 * @example
 * ```ts
 * import { unitFromText } from "../quantity/index.ts";
 * import { readTable } from "./second-walk.ts";
 * import { surveyTable } from "./survey.ts";
 * const environment = { decodeText: () => null, vocabulary: { unitFromText, gasInLabel: () => null } };
 * const bytes = Uint8Array.from("Time (UTC),O2 (%vol)\n2026-07-04 07:30,20.9\n2026-07-04 07:31,209\n", (letter) => letter.charCodeAt(0));
 * const survey = surveyTable(environment, {});
 * survey.push(bytes);
 * const proposal = survey.finish();
 * const digits: number[][] = [];
 * const sink = {
 *   begin: () => undefined,
 *   series: () => undefined,
 *   rows: ({ channels: [oxygen] }: { readonly channels: readonly { readonly mantissas: Float64Array; readonly decimals: Uint8Array }[] }) =>
 *     void digits.push([oxygen?.mantissas[0] ?? Number.NaN, oxygen?.decimals[0] ?? Number.NaN]),
 * };
 * const reader = proposal.ok && readTable(environment, proposal.value.mapping, {}, sink);
 * const summary = reader && (reader.push(bytes), reader.finish());
 * digits; // => [[209, 1]]
 * summary && summary.ok && summary.value.faults; // => [{ type: "impossible value", line: 3, byteOffset: 43, column: "O2 (%vol)", raw: "209", rejected: true }]
 * ```
 */
export const readTable: ReadTable = (environment, mapping, answers, sink) => {
  const reading = new Reading(environment, mapping, answers, sink);
  return { push: (bytes) => reading.push(bytes), finish: () => reading.finish() };
};

/** Why a mapping cannot be read with; null where it can. */
export function refusalOf(mapping: TableMapping): TableRefusal | null {
  const labels = mapping.columns.map((column) => column.label);
  const has = (role: string): boolean => mapping.columns.some((column) => column.role === role);
  if (!has("time") && !has("date") && !has("clock")) return { type: "no-time-column", labels };
  return has("reading") || (mapping.shape === "long" && mapping.channels.length > 0) ? null : { type: "no-reading-column", labels };
}

class Reading extends HeadFirst {
  private mapping: TableMapping;
  private readonly answers: Answers;
  private readonly sink: RowSink;
  private evidence: SurveyEvidence | null = null;

  constructor(environment: TableEnvironment, mapping: TableMapping, answers: Answers, sink: RowSink) {
    super(environment);
    this.mapping = mapping;
    this.answers = answers;
    this.sink = sink;
  }

  finish(): Result<TableSummary, TableRefusal> {
    const walked = this.end();
    if (!walked.ok) return walked;
    const summary = walked.value.finish();
    if (!summary.ok) return summary;
    assert(this.evidence !== null, "a walk has evidence");
    if (walked.value.misreads !== null) return refused(walked.value.misreads);
    const open = openInRows(this.evidence, this.mapping, this.answers);
    if (!open.ok) return open;
    return open.value.length === 0 ? summary : refused({ type: "questions-open", questions: open.value });
  }

  protected override start(head: Uint8Array, isWhole: boolean): TableRefusal | null {
    const { environment, answers } = this;
    const dated = withFirstDay(this.mapping, answers);
    if (!dated.ok) return dated.refusal;
    const timed = withClock(withRuns(dated.value, answers), answers);
    if (!timed.ok) return timed.refusal;
    this.mapping = timed.value;
    const { mapping } = this;
    const refusal = refusalOf(mapping);
    if (refusal !== null) return refusal;
    const opened = openHead(head, mapping.dialect.encoding, environment);
    if (!opened.ok) return opened.refusal;
    const { encoding, transcoder, utf8 } = opened.value;
    const { dialect } = mapping;
    const found = structureOf(utf8, isWhole, environment.vocabulary, {
      delimiter: dialect.wrapped ? null : dialect.delimiter,
      quote: dialect.quote,
      quoteInside: dialect.quoteInside,
      wrapped: dialect.wrapped ? null : false,
      noHeader: mapping.headerLines.length === 0,
    });
    const structure =
      mapping.headerLines.length === 0
        ? { ...found, labels: [], unitTexts: [], headerLines: [], unitLine: null, width: mapping.columns.length }
        : found;
    if (fingerprintOf(structure) !== mapping.fingerprint)
      return { type: "mapping-does-not-fit", fingerprint: fingerprintOf(structure), expected: mapping.fingerprint };
    this.evidence = newEvidence(structure, encoding, noHighBytes(), this.answers, environment);
    this.transcoder = transcoder;
    this.encodingName = encoding.encoding;
    this.walk = new Walk({
      environment,
      sourceLength: transcoder.sourceLength,
      markLength: encoding.markLength,
      structure,
      plan: planOf(mapping),
      evidence: this.evidence,
      gathers: false,
      isCareful: false,
      sink: this.sink,
    });
    const begun = this.pass(head.subarray(encoding.markLength));
    return begun.ok ? null : begun.refusal;
  }
}

/** Of clock times without dates a saved mapping does not keep the day: it is that of another file. */
function withFirstDay(mapping: TableMapping, answers: Answers): Result<TableMapping, TableRefusal> {
  const { time, columns } = mapping;
  const told = answers["start"];
  const isClockOnly = columns.some(({ role }) => role === "clock") && !columns.some(({ role }) => role === "date" || role === "time");
  if (told === undefined || time.start !== null || !isClockOnly) return given(mapping);
  const start = dayTold(told, time.zone);
  return start === null
    ? refused({ type: "bad-answer", question: "start", answer: told })
    : given({ ...mapping, time: { ...time, start } });
}

/** What a column of texts tells apart may be answered beside a saved mapping. */
function withRuns(mapping: TableMapping, answers: Answers): TableMapping {
  const told = ({ label, role }: TableMapping["columns"][number], index: number): string | undefined =>
    role === "text" || role === "number" ? (answers[`role/${label}`] ?? answers[`role/${index + 1}`]) : undefined;
  const columns = mapping.columns.map((column, index): TableMapping["columns"][number] => {
    const role = told(column, index);
    return role === "series" || role === "ignored" ? { ...column, role } : column;
  });
  return { ...mapping, columns };
}

/** What holds for the clock of one file and is not kept: which of two hours, which half of the day. */
function withClock(mapping: TableMapping, answers: Answers): Result<TableMapping, TableRefusal> {
  const { time } = mapping;
  const hour = answers["repeated hour"];
  const half = answers["twelve-hour clock"];
  if (half !== undefined && !isHalfDay(half)) return refused({ type: "bad-answer", question: "twelve-hour clock", answer: half });
  const repeatedHour = time.repeatedHour ?? (hour === "earlier" || hour === "later" ? hour : null);
  return given({ ...mapping, time: { ...time, repeatedHour, halfDay: time.halfDay ?? half ?? null } });
}

/** A column that nobody was asked about, because the file that the mapping was made for held one recording, or one of its texts was never seen with others. */
function openRuns(evidence: SurveyEvidence, { columns }: TableMapping, answers: Answers): Question[] {
  const isTold = (label: string, index: number): boolean =>
    answers[`role/${label}`] !== undefined || answers[`role/${index + 1}`] !== undefined || answers["role/*"] !== undefined;
  return [...evidence.labels]
    .filter(([index, seen]) => severalRuns(seen) !== null && !isTold(columns[index]?.label ?? "", index))
    .sort(([, one], [, other]) => Number(other.isTrade) - Number(one.isTrade))
    .slice(0, 1)
    .map(([index, seen]) => {
      const asked = runsQuestion(columns[index]?.label ?? String(index + 1), seen);
      return { column: null, choices: [], suggested: null, blocking: true, ...asked };
    });
}

/** Questions that the rows raise once the zone is known. */
function openInRows(evidence: SurveyEvidence, mapping: TableMapping, answers: Answers): Result<readonly Question[], TableRefusal> {
  const concluded = conclude({ ...evidence, falls: 0 }, answers);
  if (!concluded.ok) return concluded;
  const wanted = new Set([
    "conflicting readings",
    "fixed clock",
    ...(mapping.time.repeatedHour === null ? ["repeated hour"] : []),
    ...(mapping.time.halfDay === null ? ["twelve-hour clock"] : []),
  ]);
  const { dayless } = evidence;
  const start = dayless.count > 0 ? [startQuestion(dayless)] : [];
  const runs = openRuns(evidence, mapping, answers);
  if (runs.length > 0) wanted.delete("conflicting readings");
  return given([...runs, ...concluded.value.questions.filter((question) => wanted.has(question.id)), ...start]);
}
