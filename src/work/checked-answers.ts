/** Answers as people give them become answers as the table takes them: a gas by any of its names, a unit in any spelling. */
import { substanceByName } from "../core/gas/index.ts";
import { type ReadingKind, unitFromText } from "../core/quantity/index.ts";
import { given, type Result, refused } from "../core/result.ts";
import type { Answers } from "../core/table/question.ts";
import { zoneClock } from "../core/time/index.ts";
import type { FileRefusal } from "./answer.ts";
import { timeText } from "./answer-times.ts";
import { placedTime } from "./shift-times.ts";

export function checkedAnswers(answers: Answers): Result<Answers, FileRefusal> {
  const checked: Record<string, string> = {};
  for (const [question, answer] of Object.entries(answers)) {
    const value = checkedAnswer(question, answer, answers["zone"] ?? null);
    if (!value.ok) return value;
    checked[question] = value.value;
  }
  return given(checked);
}

function checkedAnswer(question: string, answer: string, zone: string | null): Result<string, FileRefusal> {
  if (question.startsWith("gas/")) return gasId(answer);
  if (question.startsWith("unit/")) return unitName(question, answer);
  if (question.startsWith("reading kind/")) return isKind(answer) ? given(answer) : refused({ type: "bad-answer", question, answer });
  if (question === "zone") return zoneName(answer);
  // A text that is no instant in any of the forms may still answer another form of the question: the table judges it.
  if (question === "start") return given(startText(answer, zone));
  return given(answer);
}

const isKind = (text: string): text is ReadingKind => text === "spot" || text === "interval mean" || text === "interval peak";

/** What checked answers say of the kind of readings of a channel, or of every channel; null where they say nothing. */
export function kindTold(channel: string, answers: Answers): ReadingKind | null {
  const told = answers[`reading kind/${channel}`] ?? answers["reading kind/*"];
  return told !== undefined && isKind(told) ? told : null;
}

/** A zone that does not exist is refused even where the file turns out not to need one. */
function zoneName(text: string): Result<string, FileRefusal> {
  const clock = zoneClock(text);
  return clock.ok ? given(text) : clock;
}

function startText(text: string, zone: string | null): string {
  const placed = placedTime(text, { kind: "instants", zone });
  return typeof placed === "number" ? timeText(placed, { kind: "instants" }) : text;
}

function gasId(text: string): Result<string, FileRefusal> {
  const found = substanceByName(text);
  return found.ok ? given(found.value.id) : found;
}

function unitName(question: string, text: string): Result<string, FileRefusal> {
  const unit = unitFromText(text);
  return unit === null || unit === "ambiguous per cent" ? refused({ type: "bad-answer", question, answer: text }) : given(unit);
}
