/** `lamproom exposure`: each file on its own, so that one that is refused stops none of the others. */
import { exitCodeOf, refusalWords } from "../report/index.ts";
import type { ExposureAnswer, FileAnswer, FileRefusal } from "../work/answer.ts";
import { assessExposure, NOTHING_DECLARED } from "../work/assess-exposure.ts";
import { type OpenedRecording, openRecording } from "../work/open-recording.ts";
import type { ByteSource, Progress } from "../work/ports.ts";
import { refusedFile } from "../work/refused-file.ts";
import { jsonFromMapping } from "../work/texts-given.ts";
import { EXPOSURE } from "./commands.ts";
import { complain } from "./complain.ts";
import { type ExposureCall, exposureCall } from "./exposure-call.ts";
import { exposurePage } from "./exposure-page.ts";
import type { ReadFlags } from "./flags.ts";
import type { Surroundings } from "./surroundings.ts";

export async function runExposure(flags: ReadFlags, surroundings: Surroundings): Promise<number> {
  const call = await exposureCall(flags, surroundings);
  if (!call.ok) return complain(call.refusal, surroundings, EXPOSURE);
  const answers: FileAnswer[] = [];
  const mappings = new Map<string, string>();
  for (const name of call.value.names) {
    for await (const { answer, opened } of answersFor(name, call.value, surroundings)) {
      answers.push(answer);
      if (opened?.mapping !== null && opened?.recording != null) mappings.set(opened.mapping.fingerprint, jsonFromMapping(opened.mapping));
      if (!call.value.json) surroundings.answer(`${answers.length > 1 ? "\n" : ""}${exposurePage(answer, surroundings)}`);
    }
  }
  if (call.value.json)
    surroundings.answer(`${JSON.stringify({ form: "lamproom-exposure/1", files: answers } satisfies ExposureAnswer, null, 2)}\n`);
  tellOfUnusedFlags(call.value, answers, surroundings);
  const saved = await saveMapping(call.value, mappings, surroundings);
  return Math.max(saved, ...answers.map(({ refusal }) => (refusal === null ? 0 : fileExit(refusal))));
}

/** A file that answers nothing is 1, whoever is to mend it; the disk is 3, a fault of our own 70. */
function fileExit(refusal: FileRefusal): number {
  const code = exitCodeOf(refusal);
  return code === 2 ? 1 : code;
}

interface Answered {
  readonly answer: FileAnswer;
  readonly opened: OpenedRecording | null;
}

async function* answersFor(name: string, call: ExposureCall, surroundings: Surroundings): AsyncGenerator<Answered> {
  const sources = await surroundings.sources(name);
  if (!sources.ok) {
    yield { answer: refusedFile(name, sources.refusal), opened: null };
    return;
  }
  const { sources: readable, leftOut } = sources.value;
  if (readable.length === 0) surroundings.message(`${name}: no file in this folder has a name that a recording may have.\n`);
  if (leftOut.length > 0) surroundings.message(`${name}: not read, going by their names: ${leftOut.join(", ")}.\n`);
  for (const source of readable) yield await answerFor(source, call, surroundings);
}

/** A fault of our own in one file takes none of the others down: it stands in that file's entry. */
async function answerFor(source: ByteSource, call: ExposureCall, surroundings: Surroundings): Promise<Answered> {
  const { answers, mappings, shifts, regimes, limits, largestGapMs, unsampled } = call;
  try {
    const opened = await openRecording({ source, machine: surroundings.machine, progress: QUIET, answers, mappings, shifts });
    return { opened, answer: assessExposure(opened, { ...NOTHING_DECLARED, regimes, limits, largestGapMs, unsampled }) };
  } catch (fault) {
    return {
      opened: null,
      answer: refusedFile(source.name, { type: "program-fault", what: fault instanceof Error ? fault.message : String(fault) }),
    };
  }
}

/** Ctrl-C ends the whole process: there is nothing to ask in between. */
const QUIET: Progress = { at: () => undefined, stop: () => false };

/** A channel that no file has is a slip of the finger, and what was meant by it did not happen: that must be said. */
function tellOfUnusedFlags(call: ExposureCall, answers: readonly FileAnswer[], surroundings: Surroundings): void {
  const names = new Set(
    answers.flatMap(({ channels, questions }) => [...channels.map(({ name }) => name), ...questions.map(({ column }) => column)]),
  );
  names.delete(null);
  if (names.size === 0) return;
  for (const question of Object.keys(call.answers)) {
    const [topic, channel] = [question.slice(0, question.indexOf("/")), question.slice(question.indexOf("/") + 1)];
    if ((topic !== "gas" && topic !== "unit") || channel === "*" || names.has(channel)) continue;
    surroundings.message(
      `No file has a channel "${channel}": --${topic} for it was not used. The channels are ${[...names].map((name) => `"${name}"`).join(", ")}.\n`,
    );
  }
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
