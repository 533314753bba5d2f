/** First walk, and both walks in one. */
import { assert, given, type Result } from "../result.ts";
import { type Conclusion, conclude } from "./conclusion.ts";
import { type EncodingSeen, noHighBytes } from "./encoding.ts";
import type { SurveyEvidence } from "./evidence.ts";
import { newEvidence } from "./file-evidence.ts";
import { HeadFirst, openHead } from "./head-first.ts";
import type { TableMapping } from "./mapping.ts";
import { planOf } from "./plan.ts";
import { previewOf } from "./preview.ts";
import type { Answers, TableRefusal } from "./question.ts";
import type { AnswerQuestions, Proposal, RowSink, SurveyAndRead, SurveyTable, TableEnvironment, TableSummary } from "./reading.ts";
import { refusalOf } from "./second-walk.ts";
import { type Structure, type StructureGiven, structureOf } from "./structure.ts";
import { Walk } from "./walk.ts";

/** And so much of a longer file is read twice, cell by cell, to see what the columns are. */
const LOOK = 1 << 14;

/**
 * First walk: what is this file, and what does it leave open?
 *
 * @param environment decoding of other encodings, and the words for gases and units. @param given answers known before.
 * @returns a survey that takes the bytes in pieces of any size and keeps nothing of them but evidence; `finish` gives
 * the proposal. Refused: empty files, files that are no table, a quote that never closes, an answer that is none.
 * @example
 * ```ts
 * import { unitFromText } from "../quantity/index.ts";
 * import { answerQuestions, surveyTable } from "./survey.ts";
 * const survey = surveyTable({ decodeText: () => null, vocabulary: { unitFromText, gasInLabel: () => null } }, {});
 * survey.push(Uint8Array.from("Time,CO (ppm)\n2026-07-04 07:30,1.5\n", (letter) => letter.charCodeAt(0)));
 * const proposal = survey.finish();
 * proposal.ok && proposal.value.questions.map(({ id, blocking }) => [id, blocking]); // => [["zone", true], ["gas/CO (ppm)", false]]
 * proposal.ok && proposal.value.preview.first[0]?.parsed; // => ["2026-07-04T07:30:00", "1.5"]
 * const answered = proposal.ok && answerQuestions(proposal.value, { zone: "Europe/Paris" });
 * answered && answered.ok && answered.value.preview.first[0]?.parsed; // => ["2026-07-04T05:30:00Z", "1.5"]
 * ```
 */
export const surveyTable: SurveyTable = (environment, given) => {
  const walks = new Survey(environment, given, null);
  return { push: (bytes) => walks.push(bytes), finish: () => walks.proposal() };
};

/**
 * Both walks in one: rows go to the sink under the mapping that the head of the file suggests, while the evidence is
 * gathered.
 *
 * @param environment as for `surveyTable`. @param given answers known before. @param sink takes the rows as they come.
 * @returns the proposal of `surveyTable` and the summary of `readTable`. The summary is null, and what the sink holds is
 * worth nothing, where a blocking question is open (answer it first) or the whole file, or an answer, says otherwise
 * than its head did: `readTable` then walks again under the mapping of the proposal, after `surveyTable` where
 * `surveyAgain` is set. Refused: what `surveyTable` refuses.
 * @example
 * ```ts
 * import { unitFromText } from "../quantity/index.ts";
 * import { surveyAndRead } from "./survey.ts";
 * const times: number[] = [];
 * const sink = {
 *   begin: () => undefined,
 *   series: () => undefined,
 *   rows: (batch: { readonly count: number; readonly times: Float64Array }) => void times.push(...batch.times.subarray(0, batch.count)),
 * };
 * const both = surveyAndRead({ decodeText: () => null, vocabulary: { unitFromText, gasInLabel: () => null } }, {}, sink);
 * both.push(Uint8Array.from("Time (s),CO (ppm)\n0,1\n10,2\nlast\n", (letter) => letter.charCodeAt(0)));
 * const finished = both.finish();
 * finished.ok && finished.value.summary?.count; // => { lines: 4, header: 1, rows: 2, continued: 0, rejected: 0, skipped: { footer: [4] }, skippedCount: 1 }
 * times; // => [0, 10000]
 * ```
 */
export const surveyAndRead: SurveyAndRead = (environment, given, sink) => {
  const walks = new Survey(environment, given, sink);
  return { push: (bytes) => walks.push(bytes), finish: () => walks.finish() };
};

/**
 * Applies answers to a proposal, and gives the proposal that follows. Its rows are not read again: where `surveyAgain`
 * comes back, they must be.
 *
 * @param proposal of a survey. @param answers by question id; those given before still hold. Refused: an answer that is
 * none, a zone that does not exist. An example stands with `surveyTable`.
 */
export const answerQuestions: AnswerQuestions = (proposal, answers) => {
  const { evidence } = proposal;
  const concluded = conclude(evidence, { ...evidence.given, ...answers });
  return concluded.ok ? given(proposalFrom(evidence, concluded.value, proposal.firstWalk)) : concluded;
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
    preview: previewOf(evidence, mapping, questions),
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
