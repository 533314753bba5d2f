import { type ReactElement, useId, useRef, useState } from "react";
import type { Choice, Question } from "../../core/table/question.ts";
import { choiceText, countText, freeAnswerForm, questionSentence, reasonText } from "../../report/index.ts";
import { answerQuestions, type Held } from "../desk/shelf.ts";
import { AnswerInput } from "./answer-input.tsx";
import { type CellChange, type Chosen, filledIn } from "./trial.ts";

const ChoiceRow = ({
  choice,
  question,
  chosen,
  choose,
}: {
  readonly choice: Choice;
  readonly question: Question;
  readonly chosen: boolean;
  readonly choose: () => void;
}): ReactElement => (
  <label className="choice">
    <input type="radio" name={question.id} checked={chosen} onChange={choose} />
    <span>
      {choiceText({ ...choice, reasons: [] })}
      {choice.value === question.suggested && <b> suggested</b>}
      {choice.reasons.length > 0 && <span className="r why">{choice.reasons.map(reasonText).join("; ")}</span>}
    </span>
  </label>
);

const QuestionPart = ({
  question,
  value,
  wrong,
  answer,
}: {
  readonly question: Question;
  readonly value: string;
  readonly wrong: boolean;
  readonly answer: (value: string) => void;
}): ReactElement => {
  const said = useId();
  return (
    <fieldset className={wrong ? "question wrong" : "question"} id={`question-${question.id}`} tabIndex={-1}>
      <legend>{questionSentence(question)}</legend>
      {wrong && <p className="error">{needsAnswer(question)}</p>}
      {!question.blocking && <p className="small quiet">May stay open: only the comparison that it serves is left out.</p>}
      {question.choices.map((choice) => (
        <ChoiceRow
          key={choice.value}
          choice={choice}
          question={question}
          chosen={value === choice.value}
          choose={() => answer(choice.value)}
        />
      ))}
      {question.choices.length === 0 && (
        <div className="field">
          <span id={said}>Answer: {freeAnswerForm(question.topic)}</span>
          <AnswerInput topic={question.topic} value={value} onChange={answer} labelledBy={said} />
        </div>
      )}
    </fieldset>
  );
};

const needsAnswer = (question: Question): string => `Answer this one: ${questionSentence(question)}`;

/** Suggested answers are set from the start; pressing the key is what takes them. */
export const suggestedFor = (questions: readonly Question[]): Chosen =>
  Object.fromEntries(questions.map((question) => [question.id, question.suggested ?? ""]));

/** What the answers chosen make of the rows shown, before they are sent. */
const TrialLine = ({ changes }: { readonly changes: readonly CellChange[] | null }): ReactElement => {
  const first = changes?.[0];
  return (
    <p className="small met" role="status">
      {first !== undefined &&
        `With these answers ${countText(changes?.length ?? 0)} of the cells shown below read differently. Line ${countText(first.line)}: “${first.raw}” reads ${first.now ?? "not understood"}.`}
    </p>
  );
};

interface QuestionFormParts {
  readonly one: Held;
  readonly questions: readonly Question[];
  readonly values: Chosen;
  /** Cells that read differently under the answers chosen; null where only a new reading can tell. */
  readonly changes: readonly CellChange[] | null;
  readonly choose: (values: Chosen) => void;
}

const FaultLinks = ({ open }: { readonly open: readonly Question[] }): ReactElement => (
  <>
    {open.map((question) => (
      <p key={question.id}>
        <a href={`#question-${question.id}`}>{needsAnswer(question)}</a>
      </p>
    ))}
  </>
);

/** What the file does not settle, first on its page. */
export const QuestionForm = ({ one, questions, values, changes, choose }: QuestionFormParts): ReactElement => {
  const ordered = [...questions].sort((a, b) => Number(b.blocking) - Number(a.blocking));
  const [tried, setTried] = useState(false);
  const summary = useRef<HTMLDivElement>(null);
  const open = ordered.filter((question) => question.blocking && (values[question.id] ?? "").trim() === "");
  const send = (): void => {
    setTried(true);
    if (open.length > 0) {
      requestAnimationFrame(() => summary.current?.focus());
      return;
    }
    void answerQuestions(one.id, filledIn(values));
  };
  return (
    <form
      className="questions"
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        send();
      }}
    >
      <h2>
        <span className="ask">To answer</span> <span className="count">{ordered.length}</span>
      </h2>
      {tried && open.length > 0 && (
        <div className="error" ref={summary} tabIndex={-1} role="alert">
          <FaultLinks open={open} />
        </div>
      )}
      {ordered.map((question) => (
        <QuestionPart
          key={question.id}
          question={question}
          value={values[question.id] ?? ""}
          wrong={tried && open.includes(question)}
          answer={(value) => choose({ ...values, [question.id]: value })}
        />
      ))}
      <TrialLine changes={changes} />
      <p className="acts">
        <button type="submit" className="act main" disabled={one.progress !== null}>
          {one.progress !== null ? "Reading" : "Read with these answers"}
        </button>
      </p>
    </form>
  );
};
