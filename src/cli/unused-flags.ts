/** Flags and answers that a file had no use for: what somebody said and did not happen must be told. */
import type { Unsampled } from "../core/exposure/assessment.ts";
import { gasWords, nearestNames, unitText } from "../report/index.ts";
import type { ChannelAnswer, FileAnswer } from "../work/answer.ts";
import type { OpenedRecording } from "../work/open-recording.ts";
import type { ExposureCall } from "./exposure-call.ts";

/** One sentence for each flag that contradicts what the file itself says, or that it has no place for. */
export function unusedFlagSentences(
  opened: OpenedRecording,
  answer: FileAnswer,
  { answers, declarations, choices }: ExposureCall,
): readonly string[] {
  if (opened.recording === null || answer.refusal !== null) return [];
  return [
    ...zoneSentences(opened, answers["zone"], answers["start"]),
    ...startSentences(opened, answers["start"]),
    ...channelSentences("--unit", answers["unit/*"], answer.channels, ({ unit }) => unit, unitText),
    ...channelSentences("--gas", answers["gas/*"], answer.channels, ({ gas }) => gas, gasWords),
    ...kindSentences(opened, answers["reading kind/*"]),
    ...unsampledSentences(answer, choices.unsampled),
    ...declarations.flatMap((declaration, index) => untouched(answer, { number: index + 1, by: declaration.by })),
  ];
}

function zoneSentences({ recording, mapping }: OpenedRecording, zone: string | undefined, start: string | undefined): readonly string[] {
  if (zone === undefined || mapping?.time.zone === zone) return [];
  const { clock } = recording ?? {};
  if (mapping?.time.start != null && start !== undefined && !hasOffset(start)) return [];
  if (clock?.kind === "elapsed") return [`--zone ${zone} was not used: the file counts from its own start.`];
  const said = mapping?.time.zone ?? null;
  return [
    said === null
      ? `--zone ${zone} was not used: the times of the file carry their own offset.`
      : `--zone ${zone} was not used: the file says ${said}.`,
  ];
}

const hasOffset = (text: string): boolean => /([Zz]|[+-]\d\d:\d\d)$/.test(text);

function startSentences({ recording, mapping }: OpenedRecording, start: string | undefined): readonly string[] {
  const isUsed = mapping === null ? recording?.clock.kind === "elapsed" : mapping.time.start !== null;
  return start === undefined || isUsed ? [] : [`--start ${start} was not used: the file gives its own dates.`];
}

/** An answer for every channel fills what the file leaves open and overrides nothing; where it was passed over it says so. */
function channelSentences(
  flag: string,
  wanted: string | undefined,
  channels: readonly ChannelAnswer[],
  of: (channel: ChannelAnswer) => string | null,
  words: (value: string) => string,
): readonly string[] {
  if (wanted === undefined) return [];
  const others = channels.filter((channel) => of(channel) !== null && of(channel) !== wanted);
  const said = [...new Set(others.map((channel) => `${channel.name} is ${words(of(channel) ?? "")}`))];
  return said.length === 0 ? [] : [`${flag} ${words(wanted)} was not used where the file says otherwise: ${said.join(", ")}.`];
}

function kindSentences({ recording }: OpenedRecording, kind: string | undefined): readonly string[] {
  const others = recording?.channels.filter((channel) => kind !== undefined && channel.kind !== kind) ?? [];
  const said = [...new Set(others.map((channel) => `${channel.name} is of the kind ${channel.kind}`))];
  return said.length === 0 ? [] : [`--readings was not used where the file says otherwise: ${said.join(", ")}.`];
}

/** Where a declared shift was measured throughout, or declarations speak of all the rest, no time is left to speak of. */
function unsampledSentences({ channels }: FileAnswer, unsampled: Unsampled): readonly string[] {
  if (unsampled.kind === "open" || channels.length === 0) return [];
  const all = channels.flatMap((channel) => [channel, ...channel.findings]);
  if (all.some(({ assumptions }) => assumptions.some(({ type }) => type === "unsampled-taken-as"))) return [];
  const value = unsampled.kind === "level" ? unsampled.text : unsampled.kind;
  return [`--unsampled ${value} was not used: no time without readings is left for it to speak of.`];
}

/** A statement about time that was measured, or about no channel of the file, changes nothing. */
function untouched({ channels }: FileAnswer, { number, by }: { readonly number: number; readonly by: string }): readonly string[] {
  const grounds = channels.flatMap((channel) => [...channel.grounds, ...channel.findings.flatMap((finding) => finding.grounds)]);
  const isUsed = grounds.some((ground) => ground.type === "declaration" && ground.id === String(number));
  // Without any ground nothing can be told of the channel, neither that it was used nor that it was not.
  if (isUsed || grounds.length === 0) return [];
  return [`Declaration ${number} (${by}) changed nothing here: it touches no time and no reading that the data leave open.`];
}

export interface AnswerLedger {
  /** Ids that each file knows, by its name; null where a saved mapping was used and no id can be told. */
  readonly known: ReadonlyMap<string, ReadonlySet<string> | null>;
}

/** Ids under which a file takes answers: its questions, and its guesses, each by itself and for every channel. */
export function knownAnswers({ proposal, questions }: OpenedRecording): ReadonlySet<string> | null {
  if (proposal === null) return null;
  const ids = new Set(["confirm/*"]);
  for (const { id } of [...questions, ...proposal.questions]) ids.add(id).add(`${topicOf(id)}/*`);
  for (const { topic, column } of proposal.guesses) ids.add(column === null ? topic : `${topic}/${column}`).add(`${topic}/*`);
  return ids;
}

const topicOf = (id: string): string => id.split("/")[0] ?? id;

export interface UnknownAnswer {
  readonly question: string;
  readonly near: readonly string[];
  readonly known: readonly string[];
  /** Names of the files that do not have the question; empty = no file has it. */
  readonly missingIn: readonly string[];
}

/** Answers by --answer that some file, or every file, has no question for. */
export function unknownAnswers({ asked }: Pick<ExposureCall, "asked">, { known }: AnswerLedger): readonly UnknownAnswer[] {
  if (known.size === 0 || [...known.values()].some((ids) => ids === null)) return [];
  const every = [...new Set([...known.values()].flatMap((ids) => [...(ids ?? [])]))];
  return asked.flatMap((question) => {
    const missing = [...known].filter(([, ids]) => !(ids?.has(question) ?? true)).map(([file]) => file);
    if (missing.length === 0) return [];
    return [{ question, near: nearestIds(question, every), known: every, missingIn: missing.length === known.size ? [] : missing }];
  });
}

/** The nearest ids; where none is near as a whole, those of the nearest topic. */
function nearestIds(question: string, ids: readonly string[]): readonly string[] {
  const near = nearestNames(question, ids);
  if (near.length > 0) return near;
  const topics = nearestNames(topicOf(question), [...new Set(ids.map(topicOf))]);
  return ids.filter((id) => topics.includes(topicOf(id)) && !id.endsWith("/*"));
}
