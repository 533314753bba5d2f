/** First walk, second walk, and both in one. */
import { assert, given, type Result, refused } from "../result.ts";
import { type Conclusion, conclude } from "./conclusion.ts";
import { type EncodingSeen, type HighBytes, noHighBytes } from "./encoding.ts";
import { noColumnEvidence, nothingSeen, type SurveyEvidence } from "./evidence.ts";
import { fingerprintOf } from "./fingerprint.ts";
import { HeadFirst, openHead } from "./head-first.ts";
import { unitInLabel } from "./label.ts";
import type { TableMapping } from "./mapping.ts";
import { planOf } from "./plan.ts";
import { previewOf } from "./preview.ts";
import type { Answers, TableRefusal } from "./question.ts";
import type {
  AnswerQuestions,
  Proposal,
  ReadTable,
  RowSink,
  SurveyAndRead,
  SurveyTable,
  TableEnvironment,
  TableSummary,
} from "./reading.ts";
import { type Structure, type StructureGiven, structureOf } from "./structure.ts";
import { dayTold, startQuestion } from "./time-form.ts";
import { Walk } from "./walk.ts";

/** And so much of a longer file is read twice, cell by cell, to see what the columns are. */
const LOOK = 1 << 14;

/**
 * First walk: what is this file, and what does it leave open?
 *
 * @param environment decoding of other encodings, and the words for gases and units. @param given answers known before.
 * @returns a survey that takes the bytes in pieces of any size and keeps nothing of them but evidence; `finish` gives
 * the proposal. Refused: empty files, files that are no table, a quote that never closes, an answer that is none.
 */
export const surveyTable: SurveyTable = (environment, given) => {
  const walks = new Survey(environment, given, null);
  return { push: (bytes) => walks.push(bytes), finish: () => walks.proposal() };
};

/** Both walks in one: see `SurveyAndReading`. */
export const surveyAndRead: SurveyAndRead = (environment, given, sink) => {
  const walks = new Survey(environment, given, sink);
  return { push: (bytes) => walks.push(bytes), finish: () => walks.finish() };
};

/** Applies answers to a proposal. Its rows are not read again: where `surveyAgain` comes back, they must be. */
export const answerQuestions: AnswerQuestions = (proposal, answers) => {
  const { evidence } = proposal;
  const concluded = conclude(evidence, { ...evidence.given, ...answers });
  return concluded.ok ? given(proposalFrom(evidence, concluded.value, proposal.firstWalk)) : concluded;
};

/**
 * Second walk: typed rows under a mapping.
 *
 * @param mapping of this file or of another with the same heading. @param answers to questions that only this walk can
 * put (`conflicting readings`, `repeated hour`). @param sink takes the rows.
 * @returns a reader; `finish` gives counts and faults. Refused: a heading other than that of the mapping, a mapping
 * without time or readings, questions that the rows raise and nobody answered.
 */
export const readTable: ReadTable = (environment, mapping, answers, sink) => {
  const reading = new Reading(environment, mapping, answers, sink);
  return { push: (bytes) => reading.push(bytes), finish: () => reading.finish() };
};

class Survey extends HeadFirst {
  private readonly given: Answers;
  private readonly sink: RowSink | null;
  private evidence: SurveyEvidence | null = null;
  private optimistic: TableMapping | null = null;

  constructor(environment: TableEnvironment, given: Answers, sink: RowSink | null) {
    super(environment);
    this.given = given;
    this.sink = sink;
  }

  proposal(): Result<Proposal, TableRefusal> {
    const finished = this.finish();
    return finished.ok ? given(finished.value.proposal) : finished;
  }

  finish(): Result<{ readonly proposal: Proposal; readonly summary: TableSummary | null }, TableRefusal> {
    const walked = this.end();
    if (!walked.ok) return walked;
    const summary = walked.value.finish();
    if (!summary.ok) return summary;
    assert(this.evidence !== null, "a walk has evidence");
    this.evidence.bytes = this.bytes;
    const concluded = conclude(this.evidence, this.given);
    if (!concluded.ok) return concluded;
    const proposal = proposalFrom(this.evidence, concluded.value, summary.value);
    return given({ proposal, summary: this.isAsHoped(concluded.value, walked.value) ? summary.value : null });
  }

  private isAsHoped({ mapping, questions, surveyAgain }: Conclusion, walk: Walk): boolean {
    if (this.sink === null || surveyAgain || walk.spoilt || questions.some((question) => question.blocking)) return false;
    return refusalOf(mapping) === null && JSON.stringify(mapping) === JSON.stringify(this.optimistic);
  }

  protected override start(head: Uint8Array, isWhole: boolean): TableRefusal | null {
    const opened = openHead(head, this.given["encoding"] ?? null, this.environment);
    if (!opened.ok) return opened.refusal;
    const { encoding, highBytes, transcoder, utf8 } = opened.value;
    if (!isWhole && !utf8.includes(10) && !utf8.includes(13)) return { type: "not-a-table", looksLike: "one long line", offerJson: false };
    const structure = structureOf(utf8, isWhole, this.environment.vocabulary, toldStructure(this.given));
    const mapping = this.hopedMapping(structure, encoding, utf8, isWhole);
    if (!mapping.ok) return mapping.refusal;
    this.optimistic = mapping.value;
    this.evidence = newEvidence(structure, encoding, highBytes, this.given, this.environment);
    this.transcoder = transcoder;
    this.encodingName = encoding.encoding;
    this.walk = new Walk({
      environment: this.environment,
      sourceLength: transcoder.sourceLength,
      markLength: encoding.markLength,
      structure,
      plan: planOf(mapping.value),
      evidence: this.evidence,
      gathers: true,
      isCareful: false,
      sink: this.sink,
    });
    const begun = this.pass(head.subarray(encoding.markLength));
    return begun.ok ? null : begun.refusal;
  }

  /** The mapping that the head alone suggests. The first look finds the time column, the second what changes with the time. */
  private hopedMapping(
    structure: Structure,
    encoding: EncodingSeen,
    utf8: Uint8Array,
    isWhole: boolean,
  ): Result<TableMapping, TableRefusal> {
    const look = isWhole ? utf8 : utf8.subarray(0, LOOK);
    const lines = isWhole ? utf8 : look.subarray(0, Math.max(look.lastIndexOf(10), look.lastIndexOf(13)) + 1);
    let concluded = conclude(newEvidence(structure, encoding, noHighBytes(), this.given, this.environment), this.given);
    for (let look = 0; look < 2 && concluded.ok; look++) {
      const evidence = newEvidence(structure, encoding, noHighBytes(), this.given, this.environment);
      const walk = new Walk({
        environment: this.environment,
        sourceLength: (_, from, to) => to - from,
        markLength: 0,
        structure,
        plan: planOf(concluded.value.mapping),
        evidence,
        gathers: true,
        isCareful: true,
        sink: null,
      });
      walk.push(lines);
      // What is wrong with the head will be found again by the walk over the whole.
      walk.finish();
      // A clock that the rows put in doubt is settled after the whole walk, and by its evidence.
      evidence.missingHour.count = 0;
      evidence.repeatedHour.count = 0;
      concluded = conclude(evidence, this.given);
    }
    return concluded.ok ? given(concluded.value.mapping) : concluded;
  }
}

function proposalFrom(
  evidence: SurveyEvidence,
  { mapping, guesses, questions, surveyAgain }: Conclusion,
  firstWalk: TableSummary,
): Proposal {
  return {
    mapping,
    guesses,
    questions,
    preview: previewOf(evidence, mapping),
    bytes: evidence.bytes,
    lines: evidence.lines,
    firstWalk,
    surveyAgain,
    evidence,
  };
}

function toldStructure(given: Answers): StructureGiven {
  const delimiter = given["delimiter"] ?? null;
  const quotes = given["quotes"];
  return {
    delimiter: delimiter === "tab" ? "\t" : delimiter === "none" ? "" : delimiter,
    quote: null,
    quoteInside: quotes === "strict" ? "doubled" : quotes === "lenient" || quotes === "backslash" ? quotes : null,
    wrapped: given["wrapped lines"] === "no" ? false : null,
    noHeader: false,
  };
}

function newEvidence(
  structure: Structure,
  encoding: EncodingSeen,
  highBytes: HighBytes,
  given: Answers,
  { vocabulary }: TableEnvironment,
): SurveyEvidence {
  const labels = structure.labels.length > 0 ? structure.labels : labelsTold(given, structure);
  const units = labels.map((label) => unitInLabel(label, vocabulary));
  return {
    structure,
    encoding,
    highBytes,
    given,
    labelGases: labels.map((label) => (label === "" ? null : vocabulary.gasInLabel(label))),
    labelUnits: labels.map((_, index) => unitRowUnit(structure, index, vocabulary) ?? units[index]?.unit ?? null),
    labelUnitTexts: units.map(({ text }) => text),
    columns: Array.from({ length: structure.width }, noColumnEvidence),
    first: [],
    worst: [],
    sensors: new Map(),
    rows: 0,
    falls: 0,
    bytes: 0,
    lines: 0,
    lineEnds: { lf: 0, crlf: 0, cr: 0, crcrlf: 0 },
    quoteFaults: structure.quoteFaultsStrict,
    lostCharacters: nothingSeen(),
    conflicts: nothingSeen(),
    dayless: nothingSeen(),
    repeatedHour: nothingSeen(),
    missingHour: { ...nothingSeen(), before: "", after: "" },
  };
}

const unitRowUnit = (
  structure: Structure,
  index: number,
  vocabulary: TableEnvironment["vocabulary"],
): SurveyEvidence["labelUnits"][number] => {
  const text = structure.unitTexts[index] ?? "";
  return text === "" ? null : vocabulary.unitFromText(text);
};

function labelsTold(given: Answers, structure: Structure): string[] {
  const told = given["header"];
  if (told === undefined || told === "none") return [];
  const { delimiter } = structure.dialect;
  return told.split(delimiter !== "" && told.includes(delimiter) ? delimiter : ",").map((label) => label.trim());
}

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
    const open = openInRows(this.evidence, this.mapping, this.answers);
    return open.length === 0 ? summary : refused({ type: "questions-open", questions: open });
  }

  protected override start(head: Uint8Array, isWhole: boolean): TableRefusal | null {
    const { environment, answers } = this;
    const dated = withFirstDay(this.mapping, answers);
    if (!dated.ok) return dated.refusal;
    this.mapping = dated.value;
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

/** Questions that the rows raise once the zone is known. */
function openInRows(evidence: SurveyEvidence, mapping: TableMapping, answers: Answers): Proposal["questions"] {
  const concluded = conclude({ ...evidence, columns: evidence.columns, falls: 0 }, answers);
  if (!concluded.ok) return [];
  const wanted = new Set(["conflicting readings", "fixed clock", ...(mapping.time.repeatedHour === null ? ["repeated hour"] : [])]);
  const { dayless } = evidence;
  const start = dayless.count > 0 ? [startQuestion(dayless)] : [];
  return [...concluded.value.questions.filter((question) => wanted.has(question.id)), ...start];
}
