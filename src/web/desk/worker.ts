/** The core at work in a thread of its own. Recordings stay here; the page gets answers, drawings and rows. */
import { gasesNamed, publishedLimits, type RegimeId, substances } from "../../core/gas/index.ts";
import { type Channel, READING } from "../../core/recording/index.ts";
import { answerQuestions, type Proposal } from "../../core/table/index.ts";
import { exactText, type Refusal, refusalWords } from "../../report/index.ts";
import { assessExposure } from "../../work/assess-exposure.ts";
import { checkedAnswers } from "../../work/checked-answers.ts";
import { limitBook } from "../../work/limits-on-date.ts";
import { openRecording } from "../../work/open-recording.ts";
import type { ByteSource, Machine } from "../../work/ports.ts";
import { calculators, workOut } from "../../work/slate/index.ts";
import { clockOf } from "../parts/clock.ts";
import { HeldRecording } from "./held-recording.ts";
import type {
  Ask,
  FromWorker,
  LimitsFound,
  OpenAsk,
  Opened,
  PreviewAsk,
  PreviewReply,
  Replies,
  SlateReply,
  Told,
  ToWorker,
  ValueRow,
  ValuesAsk,
  ValuesPage,
} from "./protocol.ts";
import { RunningSha256 } from "./sha256.ts";
import { rowAt } from "./stretches.ts";
import { metBy, unsettledIn } from "./unsettled.ts";

/** The library of types has the page's `self`; this file only ever runs in a worker. */
const scope = self as unknown as {
  readonly postMessage: (message: FromWorker) => void;
  readonly addEventListener: (type: "message", listener: (event: MessageEvent<ToWorker>) => void) => void;
};

const held = new Map<string, HeldRecording>();
/** What was seen of each file, so that answers can be tried on it before they are sent. */
const proposals = new Map<string, Proposal>();
const cancelled = new Set<number>();
const limits = limitBook(null);

class Stopped extends Error {}

const machine: Machine = {
  decodeText: (label, bytes) => {
    try {
      return new TextDecoder(label).decode(bytes);
    } catch {
      // The browser knows no such encoding: the reader says so in its own words.
      return null;
    }
  },
  sha256: () => {
    const digest = new RunningSha256();
    return { add: (bytes) => digest.add(bytes), hex: async () => digest.hex() };
  },
};

const sourceOf = (file: File): ByteSource => ({
  name: file.name,
  size: file.size,
  walk: async (piece) => {
    const reader = file.stream().getReader();
    for (;;) {
      const { done, value } = await reader.read();
      if (done || !piece(value)) break;
    }
    await reader.cancel();
  },
});

const told = (refusal: Refusal): Told => ({ type: refusal.type, ...refusalWords(refusal) });

const open = async (number: number, ask: OpenAsk): Promise<Opened> => {
  let said = 0;
  const opened = await openRecording({
    source: sourceOf(ask.file),
    machine,
    progress: {
      at: (stage, done, of) => {
        // Ten times a second is as often as a person can read.
        if (performance.now() - said < 100) return;
        said = performance.now();
        scope.postMessage({ number, at: { stage, done, of } });
      },
      stop: () => cancelled.has(number),
    },
    answers: ask.given,
    mappings: ask.mapping === null ? [] : [ask.mapping],
    shifts: ask.shifts,
  });
  if (cancelled.has(number)) throw new Stopped();
  const recording = opened.recording === null ? null : new HeldRecording(opened, opened.recording);
  recording?.layOut(ask.settings, 8);
  if (recording === null) held.delete(ask.id);
  else held.set(ask.id, recording);
  // Under a mapping there is none: that of the reading before still says what the file alone shows.
  if (opened.proposal !== null) proposals.set(ask.id, opened.proposal);
  return {
    sha256: opened.sha256,
    proposal: opened.proposal,
    mapping: opened.mapping,
    summary: opened.summary,
    clock: opened.recording?.clock ?? null,
    channels: recording?.sketches() ?? [],
    faults: opened.faults,
    questions: opened.questions.length > 0 ? opened.questions : (opened.proposal?.questions ?? []),
    keptInPart: opened.stopped !== null,
    refusal: opened.refusal === null ? null : told(opened.refusal),
  };
};

const heldAs = (id: string): HeldRecording => {
  const recording = held.get(id);
  if (recording === undefined) throw new Error(`broken promise: ${id} was opened before it is asked about`);
  return recording;
};

const statusOf = (channel: Channel, row: number): string => {
  switch (channel.codes?.[row] ?? READING.valid) {
    case READING.overRange:
      return "over range: at least this";
    case READING.overRangeUnbounded:
      return "over range, no range top given";
    case READING.underRange:
      return "at most this";
    case READING.none:
      return "no reading";
    case READING.fault:
      return "fault or off";
    default:
      return channel.uppers !== null && channel.uppers[row] !== channel.values[row] ? "lowest of two readings" : "";
  }
};

const values = (ask: ValuesAsk): ValuesPage => {
  const recording = heldAs(ask.id);
  const channel = recording.channel(ask.channel);
  const clock = clockOf(recording.recording.clock);
  const [first, last] = [rowAt(channel.times, ask.from), rowAt(channel.times, ask.to + 1)];
  const rows: ValueRow[] = [];
  for (let row = first; row < Math.min(last, first + ask.most); row++) {
    const at = channel.times[row] as number; // between first and last there are rows
    const code = channel.codes?.[row] ?? READING.valid;
    const blank = code === READING.none || code === READING.fault || code === READING.overRangeUnbounded;
    const value = (channel.values[row] as number) / 10 ** channel.decimals; // as many values as times
    rows.push({
      line: channel.lines?.[row] ?? null,
      at: clock.time(at),
      value: blank ? "" : exactText(value),
      status: statusOf(channel, row),
    });
  }
  return { rows, of: last - first };
};

const found = (text: string): readonly LimitsFound[] => {
  const part = text.trim().toLowerCase();
  const named = new Set<string>(gasesNamed(text));
  const wanted = substances.filter(
    (one) => part === "" || named.has(one.id) || one.id.replaceAll("_", " ").includes(part) || one.id === part,
  );
  return wanted
    .sort((a, b) => Number(named.has(b.id)) - Number(named.has(a.id)))
    .map((one) => ({ gas: one.id, name: one.id.replaceAll("_", " "), limits: publishedLimits.filter((limit) => limit.gas === one.id) }))
    .filter((one) => one.limits.length > 0);
};

/** Answers that are chosen and not sent: the rows shown, as they would read. */
const tried = ({ id, answers }: PreviewAsk): PreviewReply => {
  const proposal = proposals.get(id);
  if (proposal === undefined) return null;
  const checked = checkedAnswers(answers);
  const answered = checked.ok ? answerQuestions(proposal, checked.value) : checked;
  if (!answered.ok || answered.value.surveyAgain) return null;
  return { preview: answered.value.preview, mapping: answered.value.mapping };
};

const slate = (name: string, input: Parameters<typeof workOut>[1]): SlateReply => {
  const worked = workOut(name, input);
  if (worked.ok) return { ok: true, answer: worked.value };
  const { refusal } = worked;
  return { ok: false, told: told(refusal), path: "path" in refusal ? refusal.path : null, refusal };
};

const reply = async (number: number, ask: Ask): Promise<Replies[Ask["type"]]> => {
  switch (ask.type) {
    case "open":
      return open(number, ask);
    case "assess": {
      const { regimes, shifts, ...settings } = ask.settings;
      // The page offers the regimes of the limits table.
      const chosen = regimes.length === 0 ? null : (regimes as readonly RegimeId[]);
      return assessExposure(heldAs(ask.id).opened, { ...settings, regimes: chosen, limits }, shifts);
    }
    case "frame":
      return heldAs(ask.id).frame(ask);
    case "values":
      return values(ask);
    case "unsettled":
      return unsettledIn(heldAs(ask.id).recording, ask.channel, ask.settings, ask.shift);
    case "met": {
      const { recording } = heldAs(ask.id);
      return ask.declarations.map((declaration) => metBy(recording, declaration, ask.settings));
    }
    case "preview":
      return tried(ask);
    case "close":
      proposals.delete(ask.id);
      held.delete(ask.id);
      return null;
    case "limits":
      return found(ask.text);
    case "calculators":
      return calculators.map(({ compute: _, ...described }) => described);
    case "slate":
      return slate(ask.name, ask.input);
  }
};

const answer = async (number: number, ask: Ask): Promise<void> => {
  try {
    const replied = await reply(number, ask);
    scope.postMessage({ number, reply: replied });
    if (ask.type === "frame" && replied !== null && "partial" in replied && replied.partial) held.get(ask.id)?.prepare(ask.panels);
  } catch (fault) {
    if (fault instanceof Stopped) scope.postMessage({ number, cancelled: true });
    else scope.postMessage({ number, fault: fault instanceof Error ? fault.message : String(fault) });
  } finally {
    cancelled.delete(number);
  }
};

scope.addEventListener("message", ({ data }) => {
  if ("ping" in data) scope.postMessage({ pong: true });
  else if ("cancel" in data) cancelled.add(data.number);
  else void answer(data.number, data.ask);
});
