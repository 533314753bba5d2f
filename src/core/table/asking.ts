/** Guesses noted and questions put while a proposal is drawn up. */
import type { SurveyEvidence } from "./evidence.ts";
import type { Answers, Choice, Guess, Question, Reason, Sureness, TableRefusal, Topic } from "./question.ts";

export const reason = (code: string, line: number | null = null, text: string | null = null): Reason => ({ code, line, text });

export const choice = (value: string, ...reasons: Reason[]): Choice => ({ value, reasons });

export interface Asked {
  readonly id: string;
  readonly topic: Topic;
  readonly column?: string | null;
  readonly samples?: Question["samples"];
  readonly choices?: readonly Choice[];
  readonly suggested?: string | null;
  readonly blocking?: boolean;
}

/** Other words that people use for a choice. */
const SYNONYMS: Readonly<Record<string, string>> = {
  "day first": "day-month-year",
  "month first": "month-day-year",
  "year first": "year-month-day",
  comma: ",",
  point: ".",
  dot: ".",
};

export class Asking {
  readonly evidence: SurveyEvidence;
  readonly answers: Answers;
  readonly guesses: Guess[] = [];
  readonly questions: Question[] = [];
  /** First answer that is none of the choices. */
  refusal: TableRefusal | null = null;

  constructor(evidence: SurveyEvidence, answers: Answers) {
    this.evidence = evidence;
    this.answers = answers;
  }

  /** The answer, if there is one; else the question is put and null comes back. */
  ask(asked: Asked): string | null {
    const { id, choices = [], suggested = null } = asked;
    const answer = this.answerTo(id) ?? (this.answers["confirm/*"] === undefined || this.answers["confirm/*"] === "no" ? null : suggested);
    if (answer === null) {
      this.questions.push({
        id,
        topic: asked.topic,
        column: asked.column ?? null,
        // What comes from no line in particular would point at line 0.
        samples: (asked.samples ?? []).filter(({ line }) => line > 0),
        choices,
        suggested,
        blocking: asked.blocking ?? true,
      });
      return null;
    }
    if (choices.length > 0 && !choices.some(({ value }) => value === answer)) {
      this.refuse({ type: "bad-answer", question: id, answer });
      return null;
    }
    const slash = id.indexOf("/");
    this.note(asked.topic, slash < 0 ? null : id.slice(slash + 1), answer, "certain", [reason("answered")]);
    return answer;
  }

  /** The first row that has something in the column, as a sample. */
  sampleOf(index: number): Question["samples"] {
    const row = this.evidence.first.find(({ cells }) => (cells[index] ?? "") !== "");
    return row === undefined ? [] : [{ line: row.line, text: row.cells[index] ?? "" }];
  }

  /** An answer by its id, or by the wildcard of its topic: `unit/CO`, `unit/*`. */
  answerTo(id: string): string | null {
    const slash = id.indexOf("/");
    const answer = this.answers[id] ?? (slash < 0 ? undefined : this.answers[`${id.slice(0, slash)}/*`]);
    if (answer === undefined) return null;
    return SYNONYMS[answer] ?? answer;
  }

  /** The topic, and the column where there is one, are the id of the answer that takes the guess back. */
  note(topic: Topic, column: string | null, chosen: string, sureness: Sureness, reasons: readonly Reason[]): void {
    this.guesses.push({ topic, column, chosen, sureness, reasons });
  }

  refuse(refusal: TableRefusal): void {
    this.refusal ??= refusal;
  }
}
