/**
 * Opens a recording: bytes become typed rows and channels, or questions, or a refusal. The bytes are walked once for a
 * plain file and twice where an answer or the whole file changes what its head seemed to say; SHA-256 runs along.
 */
import type { ShiftSpan } from "../core/exposure/assessment.ts";
import {
  COLLECT_DEFAULTS,
  type Collected,
  type CollectSettings,
  collectRows,
  type Recording,
  type RowCollector,
} from "../core/recording/index.ts";

import {
  type Answers,
  type LineFault,
  type Proposal,
  type Question,
  type RowSink,
  readTable,
  surveyAndRead,
  type TableMapping,
  type TableRefusal,
  type TableSummary,
} from "../core/table/index.ts";
import type { FileAnswer, FileRefusal } from "./answer.ts";
import { checkedAnswers } from "./checked-answers.ts";
import { mappingWithAnswers } from "./mapping-with-answers.ts";
import { openSenml } from "./open-senml.ts";
import type { ByteSource, Machine, Progress } from "./ports.ts";
import { type FileClock, placedShifts } from "./shift-times.ts";
import { vocabulary } from "./vocabulary.ts";
import { type Walked, walk } from "./walk.ts";

export interface RecordingRequest {
  readonly source: ByteSource;
  readonly machine: Machine;
  readonly progress: Progress;
  /** By question id: `zone`, `unit/CO`, `gas/*`, `start`, `confirm/*`, … Names of gases and units are taken as people write them. */
  readonly answers: Answers;
  /** Saved mappings; the one made for the heading of this file is used. Empty = the file is understood anew. */
  readonly mappings: readonly TableMapping[];
  /** As typed, FROM/TO. With them only the stretches around the shifts are kept of a long file. */
  readonly shifts: readonly string[];
}

/** A file as far as it could be opened. `recording` is null while a question is open or the file was refused. */
export interface OpenedRecording {
  readonly file: string;
  readonly bytes: number;
  /** Of the whole file; null where it was not read to its end. */
  readonly sha256: string | null;
  /** Null for SenML, and where a saved mapping was used. */
  readonly proposal: Proposal | null;
  readonly mapping: TableMapping | null;
  readonly questions: readonly Question[];
  readonly summary: TableSummary | null;
  readonly recording: Recording | null;
  /** Faults of lines, those that collecting showed included; of the first walk, and provisional, while a question is open. */
  readonly faults: readonly LineFault[];
  /** Lines kept as notes, and what reading has to say about the file as a whole (line null). */
  readonly notes: FileAnswer["notes"];
  /** Earliest and latest time of all rows, kept or not. */
  readonly span: { readonly from: number; readonly to: number } | null;
  /** Rows beyond what is kept: the recording is longer than one shift can be, and no shift was named. */
  readonly stopped: Collected["stopped"];
  readonly shifts: readonly ShiftSpan[];
  readonly refusal: FileRefusal | null;
}

/** Of a file above this size only what one shift can hold is kept until shifts are named, so that memory stays flat. */
const LARGE_BYTES = 64 * 1024 * 1024;
const ONE_SHIFT_MS = 25 * 3_600_000;

export async function openRecording(request: RecordingRequest): Promise<OpenedRecording> {
  const answers = checkedAnswers(request.answers);
  if (!answers.ok) return unopened(request, answers.refusal);
  const checked = { ...request, answers: answers.value };
  return checked.mappings.length > 0 ? openWithMappings(checked) : openAnew(checked);
}

async function openAnew(request: RecordingRequest): Promise<OpenedRecording> {
  const collector = collectRows(collecting(request, []));
  const survey = surveyAndRead(environment(request), request.answers, hopeful(collector.sink));
  const walked = await walk(request, survey.push, "understanding");
  if (!walked.ok) return isJson(walked.refusal) ? openSenml(request, walked.refusal) : unopened(request, walked.refusal);
  const read = survey.finish();
  if (!read.ok) return isJson(read.refusal) ? openSenml(request, read.refusal) : unopened(request, read.refusal, walked.value.sha256);
  const { proposal, summary } = read.value;
  if (proposal.questions.some(({ blocking }) => blocking)) return asking(request, proposal, walked.value);
  if (summary === null) return { ...(await readUnder(request, proposal.mapping, walked.value.sha256)), proposal };
  return { ...(await collectedOrAgain(request, proposal.mapping, summary, collector, walked.value)), proposal };
}

/** The head of a file may show no channel yet: what comes then is worth nothing and is not collected. */
function hopeful(sink: RowSink): RowSink {
  let channels = 0;
  return {
    begin: (columns) => {
      channels = columns.length;
      if (channels > 0) sink.begin(columns);
    },
    series: sink.series,
    rows: (batch) => {
      if (channels > 0) sink.rows(batch);
    },
  };
}

/** The mapping made for this heading; each is tried, and the reader itself tells a heading that it was not made for. */
async function openWithMappings(request: RecordingRequest): Promise<OpenedRecording> {
  let opened: OpenedRecording | null = null;
  for (const mapping of request.mappings) {
    const filled = mappingWithAnswers(mapping, request.answers);
    opened = filled.ok ? await readUnder(request, filled.value, null) : unopened(request, filled.refusal);
    // A mapping that the call contradicts may be the one for another heading: the next may fit.
    if (opened.refusal === null || !OF_ANOTHER_FILE.has(opened.refusal.type)) return opened;
  }
  return opened ?? openAnew(request);
}

const OF_ANOTHER_FILE: ReadonlySet<FileRefusal["type"]> = new Set([
  "mapping-does-not-fit",
  "mapping-says-otherwise",
  "mapping-misreads-numbers",
]);

/** One walk under a mapping. `sha256` is that of an earlier walk: the bytes must not have changed since. */
async function readUnder(
  request: RecordingRequest,
  mapping: TableMapping,
  sha256: string | null,
  shifts: readonly ShiftSpan[] = [],
): Promise<OpenedRecording> {
  const collector = collectRows(collecting(request, shifts));
  const reader = readTable(environment(request), mapping, request.answers, collector.sink);
  const walked = await walk(request, reader.push, "reading");
  if (!walked.ok) return { ...unopened(request, walked.refusal), mapping };
  if (sha256 !== null && walked.value.sha256 !== sha256) return { ...unopened(request, CHANGED), mapping };
  const summary = reader.finish();
  if (!summary.ok)
    return { ...unopened(request, summary.refusal, walked.value.sha256), mapping, questions: openQuestions(summary.refusal) };
  if (shifts.length > 0) return opened(request, { mapping, summary: summary.value, collector, walked: walked.value, shifts });
  return collectedOrAgain(request, mapping, summary.value, collector, walked.value);
}

const CHANGED: FileRefusal = { type: "file-not-readable", reason: "it changed while it was being read" };

/** A long file is walked once more for the stretches around its shifts: their place on its clock is known only now. */
async function collectedOrAgain(
  request: RecordingRequest,
  mapping: TableMapping,
  summary: TableSummary,
  collector: RowCollector,
  walked: Walked,
): Promise<OpenedRecording> {
  const whole = opened(request, { mapping, summary, collector, walked, shifts: [] });
  const shifts = placedShifts(request.shifts, shiftClock(request, fileClock(summary, mapping)), whole.span);
  if (!shifts.ok) return { ...unopened(request, shifts.refusal, walked.sha256), mapping, summary };
  if (whole.stopped === null || shifts.value.length === 0) return { ...whole, shifts: shifts.value };
  return readUnder(request, mapping, walked.sha256, shifts.value);
}

interface Reading {
  readonly mapping: TableMapping;
  readonly summary: TableSummary;
  readonly collector: RowCollector;
  readonly walked: Walked;
  readonly shifts: readonly ShiftSpan[];
}

function opened(request: RecordingRequest, { mapping, summary, collector, walked, shifts }: Reading): OpenedRecording {
  const { name: file, size: bytes } = request.source;
  const { sha256 } = walked;
  const clock = fileClock(summary, mapping);
  const collected = collector.finish({ file, sha256, clock, notes: summary.notes, cutOff: summary.cutOff });
  const { recording, tally, stopped } = collected;
  const faults = [...summary.faults, ...collectedFaults(collected, summary.faults)];
  return {
    file,
    bytes,
    sha256,
    proposal: null,
    mapping,
    questions: [],
    summary,
    recording,
    faults,
    notes: summary.notes,
    span: tally.span,
    stopped,
    shifts,
    refusal: null,
  };
}

/** The zone that local times are shown in: that of the file, or the one offset that its texts carry. */
function fileClock(summary: TableSummary, mapping: TableMapping): FileClock {
  return summary.clock.kind === "elapsed" ? summary.clock : { kind: "instants", zone: summary.clock.zone ?? mapping.time.zone };
}

/** Times of a file that carry their own offset are shown in UTC, and a shift is named on that clock unless the call names another zone. */
function shiftClock({ answers }: RecordingRequest, clock: FileClock): FileClock {
  return clock.kind === "elapsed" ? clock : { kind: "instants", zone: clock.zone ?? answers["zone"] ?? "UTC" };
}

/** What only the rows together show: repeats and contradictions that the reader of lines has not named itself. */
function collectedFaults({ marks }: Collected, known: readonly LineFault[]): LineFault[] {
  const seen = new Set(known.map(({ type, line }) => `${type} ${line}`));
  const faults: LineFault[] = [];
  for (const mark of marks) {
    if (mark.type === "unit changed" || seen.has(`${mark.type} ${mark.line}`)) continue;
    const column = mark.type === "conflicting readings" ? mark.channel : null;
    faults.push({ type: mark.type, line: mark.line, byteOffset: 0, column, raw: "", rejected: false });
  }
  return faults;
}

function asking(request: RecordingRequest, proposal: Proposal, { sha256 }: Walked): OpenedRecording {
  const refusal: TableRefusal = { type: "questions-open", questions: proposal.questions.filter(({ blocking }) => blocking) };
  const { faults, notes } = proposal.firstWalk;
  return { ...unopened(request, refusal, sha256), proposal, mapping: proposal.mapping, questions: proposal.questions, faults, notes };
}

function unopened({ source }: RecordingRequest, refusal: FileRefusal, sha256: string | null = null): OpenedRecording {
  const nothing = { proposal: null, mapping: null, questions: openQuestions(refusal), summary: null, recording: null };
  return {
    file: source.name,
    bytes: source.size,
    sha256,
    ...nothing,
    faults: [],
    notes: [],
    span: null,
    stopped: null,
    shifts: [],
    refusal,
  };
}

function openQuestions(refusal: FileRefusal): readonly Question[] {
  return refusal.type === "questions-open" ? refusal.questions : [];
}

function collecting({ source, shifts: texts }: RecordingRequest, shifts: readonly ShiftSpan[]): Partial<CollectSettings> {
  if (shifts.length > 0) return { keep: shifts };
  return source.size > LARGE_BYTES || texts.length > 0
    ? { longestSpanMs: ONE_SHIFT_MS }
    : { longestSpanMs: COLLECT_DEFAULTS.longestSpanMs };
}

function environment({ machine }: RecordingRequest): Parameters<typeof surveyAndRead>[0] {
  return { decodeText: machine.decodeText, vocabulary };
}

function isJson(refusal: FileRefusal): boolean {
  return refusal.type === "not-a-table" && refusal.offerJson;
}
