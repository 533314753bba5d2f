import { type ReactElement, useId, useState } from "react";
import type { Guess } from "../../core/table/question.ts";
import { choiceText, gasWords, reasonText, SURENESS, topicWords } from "../../report/index.ts";
import { answerQuestions, type Held } from "../desk/shelf.ts";
import { AnswerInput } from "./answer-input.tsx";

/** The answer that overrides a guess has the name of its topic, and of its column where it is about one. */
const answerId = (guess: Guess): string => (guess.column === null ? guess.topic : `${guess.topic}/${guess.column}`);

const whatOf = ({ topic, column }: Guess): string =>
  column === null ? topicWords(topic) : `${topicWords(topic)} of ${column === "*" ? "every channel" : column}`;

const order = { weak: 0, strong: 1, certain: 2 } as const;

const GuessRow = ({ one, guess }: { readonly one: Held; readonly guess: Guess }): ReactElement => {
  const [changing, setChanging] = useState(false);
  const [value, setValue] = useState(guess.chosen);
  const said = useId();
  const what = whatOf(guess);
  return (
    <tr>
      <td className="wide" id={said}>
        {what}
      </td>
      <td>
        {changing ? (
          <form
            className="inline"
            onSubmit={(event) => {
              event.preventDefault();
              setChanging(false);
              void answerQuestions(one.id, { [answerId(guess)]: value });
            }}
          >
            <AnswerInput topic={guess.topic} value={value} onChange={setValue} labelledBy={said} />
            <button type="submit" className="act">
              Read again
            </button>
            <button type="button" className="word" onClick={() => setChanging(false)}>
              Leave it
            </button>
          </form>
        ) : (
          <b>{guess.topic === "gas" ? gasWords(guess.chosen) : choiceText({ value: guess.chosen, reasons: [] })}</b>
        )}
      </td>
      <td>{SURENESS[guess.sureness]}</td>
      <td className="quiet">{guess.reasons.map(reasonText).join("; ")}</td>
      <td className="num">
        {!changing && (
          <button type="button" className="word" aria-label={`Change ${what}`} onClick={() => setChanging(true)}>
            Change
          </button>
        )}
      </td>
    </tr>
  );
};

/** Everything that was taken without asking, the least sure first, each with its reason and a way to change it. */
export const GuessTable = ({ one, guesses }: { readonly one: Held; readonly guesses: readonly Guess[] }): ReactElement => (
  <section>
    <h2>
      How it was read <span className="count">{guesses.length}</span>
      <span className="aside">least sure first</span>
    </h2>
    <table className="dense stack">
      <thead>
        <tr>
          <th scope="col">What</th>
          <th scope="col">Read as</th>
          <th scope="col">How sure</th>
          <th scope="col">Why</th>
          <th scope="col">
            <span className="hid">Acts</span>
          </th>
        </tr>
      </thead>
      <tbody>
        {guesses
          .filter(
            (guess, place) => guesses.findIndex((other) => answerId(other) === answerId(guess) && other.chosen === guess.chosen) === place,
          )
          .sort((a, b) => order[a.sureness] - order[b.sureness])
          .map((guess) => (
            <GuessRow key={`${answerId(guess)}=${guess.chosen}`} one={one} guess={guess} />
          ))}
      </tbody>
    </table>
  </section>
);
