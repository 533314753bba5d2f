/** `lamproom exposure`: each file on its own, so that one that is refused stops none of the others. */

import { callWords, countText, exitCodeOf, inertJson, refusalWords } from "../report/index.ts";
import type { ExposureAnswer, FileAnswer } from "../work/answer.ts";
import { assessExposure, clockOf, NOTHING_DECLARED } from "../work/assess-exposure.ts";
import { placedDeclarations } from "../work/declarations-given.ts";
import { type OpenedRecording, openRecording } from "../work/open-recording.ts";
import type { ByteSource, Progress } from "../work/ports.ts";
import { refusedFile } from "../work/refused-file.ts";
import { jsonFromMapping } from "../work/texts-given.ts";
import { EXPOSURE } from "./commands.ts";
import { complain } from "./complain.ts";
import { type ExposureCall, exposureCall } from "./exposure-call.ts";
import { exposurePage } from "./exposure-page.ts";
import type { ReadFlags } from "./flags.ts";
import type { Sources, Surroundings } from "./surroundings.ts";
import { type AnswerLedger, knownAnswers, unknownAnswers, unusedFlagSentences } from "./unused-flags.ts";

export async function runExposure(flags: ReadFlags, surroundings: Surroundings): Promise<number> {
  const call = await exposureCall(flags, surroundings);
  if (!call.ok) return complain(call.refusal.refusal, surroundings, EXPOSURE, call.refusal.file);
  const answers: FileAnswer[] = [];
  const mappings = new Map<string, string>();
  const known = new Map<string, ReadonlySet<string> | null>();
  let mapped = 0;
  for (const name of call.value.names) {
    for await (const { answer, opened, isMapped } of answersFor(name, call.value, surroundings)) {
      answers.push(answer);
      mapped += isMapped ? 1 : 0;
      if (opened !== null && opened.mapping !== null) known.set(answer.file, knownAnswers(opened));
      if (opened?.mapping !== null && opened?.recording != null) mappings.set(opened.mapping.fingerprint, jsonFromMapping(opened.mapping));
      if (!call.value.json) surroundings.answer(`${answers.length > 1 ? "\n" : ""}${exposurePage(answer, surroundings)}`);
    }
  }
  if (call.value.json) {
    const whole = { form: "lamproom-exposure/1", files: answers } satisfies ExposureAnswer;
    surroundings.answer(`${inertJson(JSON.stringify(whole, null, 2))}\n`);
  }
  const told = [
    tellOfChannels(call.value, answers, surroundings),
    tellOfAnswers(call.value, { known }, surroundings),
    answers.length === 0 ? tell("No file was read.", 1, surroundings) : 0,
    call.value.mappings.length > 0 && mapped === 0 && answers.length > 0 ? tell(NO_FILE_MAPPED, 1, surroundings) : 0,
    await saveMapping(call.value, mappings, surroundings),
  ];
  return Math.max(...told, ...answers.map(fileExit));
}

const NO_FILE_MAPPED = "No file has a heading that a mapping of this call was made for: none was used.";

function tell(sentence: string, exit: number, surroundings: Surroundings): number {
  surroundings.message(`${sentence}\n`);
  return exit;
}

/**
 * A file that answers nothing, or leaves a question open, is 1, whoever is to mend it; the disk is 3, a fault of our own
 * 70. A flag that can be meant for no channel is a wrong call whatever the file.
 */
function fileExit({ refusal, questions }: FileAnswer): number {
  if (refusal === null) return questions.length > 0 ? 1 : 0;
  const code = exitCodeOf(refusal);
  if (refusal.type === "one-level-for-several-units") return code;
  return code === 2 ? 1 : code;
}

interface Answered {
  readonly answer: FileAnswer;
  readonly opened: OpenedRecording | null;
  /** Whether a saved mapping was made for the heading of this file. */
  readonly isMapped: boolean;
}

async function* answersFor(name: string, call: ExposureCall, surroundings: Surroundings): AsyncGenerator<Answered> {
  const sources = await surroundings.sources(name);
  if (!sources.ok) {
    yield { answer: inCallWords(refusedFile(name, sources.refusal)), opened: null, isMapped: false };
    return;
  }
  for (const sentence of passedOver(sources.value)) surroundings.message(`${name}: ${sentence}\n`);
  for (const source of sources.value.sources) yield await answerFor(source, call, surroundings);
}

/** What of a folder was not read. */
function passedOver({ sources, leftOut, folders }: Sources): readonly string[] {
  return [
    ...(sources.length === 0 ? ["no file in this folder has a name that a recording may have."] : []),
    ...(leftOut.length > 0 ? [`not read, going by their names: ${leftOut.join(", ")}.`] : []),
    ...(folders === 1 ? ["1 folder in it was not looked into: name it to have it read."] : []),
    ...(folders > 1 ? [`${countText(folders)} folders in it were not looked into: name them to have them read.`] : []),
  ];
}

/** A fault of our own in one file takes none of the others down: it stands in that file's entry. */
async function answerFor(source: ByteSource, call: ExposureCall, surroundings: Surroundings): Promise<Answered> {
  try {
    const { opened, isMapped, note } = await openedFor(source, call, surroundings);
    const answer = assessed(opened, call);
    const said = [...note, ...unusedFlagSentences(opened, answer, call)].map((text) => ({ line: null, text }));
    return { opened, isMapped, answer: inCallWords({ ...answer, notes: [...answer.notes, ...said] }) };
  } catch (fault) {
    const refusal = { type: "program-fault", what: fault instanceof Error ? fault.message : String(fault) } as const;
    return { opened: null, isMapped: false, answer: refusedFile(source.name, refusal) };
  }
}

interface Opened {
  readonly opened: OpenedRecording;
  readonly isMapped: boolean;
  readonly note: readonly string[];
}

const OTHER_HEADING = "The mapping was made for another heading: this file was read without it.";

/** A mapping is for the files with its heading; any other file is read as if none had been given, and says so. */
async function openedFor(source: ByteSource, call: ExposureCall, { machine }: Surroundings): Promise<Opened> {
  const { answers, mappings, shifts } = call;
  const open = (tried: ExposureCall["mappings"]): Promise<OpenedRecording> =>
    openRecording({ source, machine, progress: QUIET, answers, mappings: tried, shifts });
  const opened = await open(mappings);
  const type = opened.refusal?.type;
  if (mappings.length === 0 || (type !== "mapping-does-not-fit" && type !== "mapping-says-otherwise"))
    return { opened, isMapped: mappings.length > 0 && opened.proposal === null && opened.mapping !== null, note: [] };
  const anew = await open([]);
  // What the call says against the mapping counts only where the mapping is for this heading.
  const isMapped = mappings.some(({ fingerprint }) => fingerprint === anew.mapping?.fingerprint);
  return isMapped ? { opened, isMapped, note: [] } : { opened: anew, isMapped, note: [OTHER_HEADING] };
}

function assessed(opened: OpenedRecording, { regimes, limits, largestGapMs, choices, declarations }: ExposureCall): FileAnswer {
  const options = { ...NOTHING_DECLARED, regimes, limits, largestGapMs, ...choices };
  if (opened.recording === null) return assessExposure(opened, options);
  const placed = placedDeclarations(declarations, clockOf(opened.recording));
  return placed.ok
    ? assessExposure(opened, { ...options, declarations: placed.value })
    : assessExposure({ ...opened, refusal: placed.refusal }, options);
}

/** The mending sentence names the flag here, where there are flags. */
function inCallWords(answer: FileAnswer): FileAnswer {
  return answer.refusal === null ? answer : { ...answer, refusal: { ...answer.refusal, ...callWords(answer.refusal) } };
}

/** Ctrl-C ends the whole process: there is nothing to ask in between. */
const QUIET: Progress = { at: () => undefined, stop: () => false };

/** A channel that no file has is a slip of the finger, and what was meant by it did not happen: the call was wrong. */
function tellOfChannels(call: ExposureCall, answers: readonly FileAnswer[], surroundings: Surroundings): number {
  const names = new Set(
    answers.flatMap(({ channels, questions }) => [...channels.map(({ name }) => name), ...questions.map(({ column }) => column)]),
  );
  names.delete(null);
  if (names.size === 0) return 0;
  let exit = 0;
  const listed = [...names].map((name) => `"${name}"`).join(", ");
  const strangers = new Set(call.declarations.map(({ channel }) => channel).filter((channel) => channel !== "*" && !names.has(channel)));
  for (const channel of strangers)
    exit = tell(`No file has a channel "${channel}": a declaration for it was not used. The channels are ${listed}.`, 2, surroundings);
  for (const question of Object.keys(call.answers)) {
    const [topic, channel] = [question.slice(0, question.indexOf("/")), question.slice(question.indexOf("/") + 1)];
    if ((topic !== "gas" && topic !== "unit") || channel === "*" || names.has(channel) || call.asked.includes(question)) continue;
    exit = tell(`No file has a channel "${channel}": --${topic} for it was not used. The channels are ${listed}.`, 2, surroundings);
  }
  return exit;
}

function tellOfAnswers(call: ExposureCall, ledger: AnswerLedger, surroundings: Surroundings): number {
  let exit = 0;
  for (const { question, near, known, missingIn } of unknownAnswers(call, ledger)) {
    if (missingIn.length === 0) exit = complain({ type: "no-such-question", question, near, known }, surroundings);
    else surroundings.message(`--answer '${question}' was not used for ${missingIn.join(", ")}: no such question there.\n`);
  }
  return exit;
}

async function saveMapping(
  { saveMapping: name }: ExposureCall,
  mappings: ReadonlyMap<string, string>,
  surroundings: Surroundings,
): Promise<number> {
  if (name === null) return 0;
  const [text, ...others] = mappings.values();
  if (text === undefined || others.length > 0) {
    surroundings.message(
      text === undefined
        ? "No mapping was saved: no file was read as a table.\n"
        : `No mapping was saved: the files have ${mappings.size} different headings, and a mapping is for one.\n`,
    );
    return 1;
  }
  const written = await surroundings.writeText(name, text);
  if (written.ok) return 0;
  const { message, mend } = refusalWords(written.refusal);
  surroundings.message(`${name}: ${message} ${mend}\n`);
  return exitCodeOf(written.refusal);
}
