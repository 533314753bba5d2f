/** Answers as people give them become answers as the table takes them: a gas by any of its names, a unit in any spelling. */
import { substanceByName } from "../core/gas/index.ts";
import { unitFromText } from "../core/quantity/index.ts";
import { given, type Result, refused } from "../core/result.ts";
import type { Answers } from "../core/table/question.ts";
import type { FileRefusal } from "./answer.ts";

export function checkedAnswers(answers: Answers): Result<Answers, FileRefusal> {
  const checked: Record<string, string> = {};
  for (const [question, answer] of Object.entries(answers)) {
    const value = question.startsWith("gas/") ? gasId(answer) : question.startsWith("unit/") ? unitName(question, answer) : given(answer);
    if (!value.ok) return value;
    checked[question] = value.value;
  }
  return given(checked);
}

function gasId(text: string): Result<string, FileRefusal> {
  const found = substanceByName(text);
  return found.ok ? given(found.value.id) : found;
}

function unitName(question: string, text: string): Result<string, FileRefusal> {
  const unit = unitFromText(text);
  return unit === null || unit === "ambiguous per cent" ? refused({ type: "bad-answer", question, answer: text }) : given(unit);
}
