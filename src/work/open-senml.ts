/** A SenML pack as a recording. It is told by its content, whatever the name of the file says. */

import { gasInLabel } from "../core/gas/index.ts";
import {
  type Collected,
  recordingFromSenml,
  resolveSenmlText,
  SENML_READING,
  type SenmlMark,
  type SenmlSource,
} from "../core/recording/index.ts";
import { assert, type Result } from "../core/result.ts";
import type { TableRefusal } from "../core/table/index.ts";
import { readRfc3339 } from "../core/time/index.ts";
import { markSentence } from "../report/index.ts";
import type { FileRefusal } from "./answer.ts";
import { kindTold } from "./checked-answers.ts";
import type { OpenedRecording, RecordingRequest } from "./open-recording.ts";
import { placedShifts } from "./shift-times.ts";
import { walk } from "./walk.ts";

/** A pack is read whole; beyond this it is no pack of one recording. */
const MOST_BYTES = 256 * 1024 * 1024;

/** `notATable` is what the file is where it is JSON but not an array of records. */
export async function openSenml(request: RecordingRequest, notATable: FileRefusal): Promise<OpenedRecording> {
  if (request.source.size > MOST_BYTES) return unopened(request, notATable, null);
  const pieces: Uint8Array[] = [];
  const walked = await walk(
    request,
    (bytes): Result<true, TableRefusal> => {
      pieces.push(bytes.slice());
      return { ok: true, value: true };
    },
    "reading",
  );
  if (!walked.ok) return unopened(request, walked.refusal, null);
  const { sha256 } = walked.value;
  const text = request.machine.decodeText("utf-8", joined(pieces));
  if (text === null) return unopened(request, { type: "encoding-not-readable", encoding: "utf-8" }, sha256);
  const pack = resolveSenmlText(text, SENML_READING);
  // JSON of another kind keeps the plainer refusal: it never claimed to be SenML.
  if (!pack.ok) return unopened(request, pack.refusal.why === "not an array" ? notATable : pack.refusal, sha256);
  const gasOf = (name: string): string | null => answered(request, name) ?? gasInLabel(lastPart(name))?.gas ?? null;
  const kindOf: SenmlSource["kindOf"] = (name) => {
    const kind = kindTold(name, request.answers);
    return kind === null ? null : { kind, kindChosenBy: "person" };
  };
  const read = recordingFromSenml(pack.value, { file: request.source.name, sha256, now: startOf(request), gasOf, kindOf });
  if (!read.ok) return unopened(request, read.refusal, sha256);
  return placed(request, read.value.collected, read.value.marks, sha256);
}

function placed(request: RecordingRequest, collected: Collected, marks: readonly SenmlMark[], sha256: string): OpenedRecording {
  const { clock } = collected.recording;
  const shifts = placedShifts(request.shifts, clock, collected.tally.span);
  if (!shifts.ok) return unopened(request, shifts.refusal, sha256);
  const notes = marks.map((mark) => ({ line: null, text: markSentence(mark) }));
  return {
    ...unopened(request, null, sha256),
    recording: collected.recording,
    notes,
    span: collected.tally.span,
    stopped: collected.stopped,
    shifts: shifts.value,
  };
}

function unopened({ source }: RecordingRequest, refusal: FileRefusal | null, sha256: string | null): OpenedRecording {
  const nothing = { proposal: null, mapping: null, questions: [], summary: null, recording: null };
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

/** The gas that a person named for this channel, or for every channel that does not say. */
function answered({ answers }: RecordingRequest, name: string): string | null {
  return answers[`gas/${name}`] ?? answers["gas/*"] ?? null;
}

function lastPart(name: string): string {
  return (
    name
      .split(/[:/]/)
      .filter((part) => part !== "" && part !== "lel-fraction")
      .at(-1) ?? name
  );
}

/** "Now" of relative times; without it they count from the first record. */
function startOf({ answers }: RecordingRequest): number | null {
  const read = readRfc3339(answers["start"] ?? "");
  return read.ok ? read.value.instant : null;
}

function joined(pieces: readonly Uint8Array[]): Uint8Array {
  const whole = new Uint8Array(pieces.reduce((sum, piece) => sum + piece.length, 0));
  let at = 0;
  for (const piece of pieces) {
    whole.set(piece, at);
    at += piece.length;
  }
  assert(at === whole.length, "the pieces are the whole");
  return whole;
}
