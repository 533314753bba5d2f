/** Guesses and questions about a file in plain sentences. Codes come from `core/table`; a code without words of its own is shown as it is. */
import type { Choice, Guess, Question, Reason, Sureness, Topic } from "../core/table/question.ts";
import { visibleText } from "./visible-text.ts";

const TOPICS: Readonly<Record<Topic, string>> = {
  encoding: "encoding of the text",
  "line ends": "line ends",
  delimiter: "delimiter",
  quotes: "quotation marks",
  "wrapped lines": "lines wrapped in quotation marks",
  header: "heading",
  "stray lines": "stray lines",
  "lost character": "lost characters",
  "duplicate label": "columns with the same name",
  "blank label": "column without a name",
  "decimal mark": "decimal mark",
  "group mark": "mark between thousands",
  role: "what the column holds",
  gas: "gas",
  unit: "unit",
  "reading kind": "kind of reading",
  "range top": "top of the range",
  "day and month": "order of day and month",
  "two-digit year": "century of two-digit years",
  zone: "time zone",
  "zone letters": "zone letters",
  "time form": "form of the times",
  start: "start of the recording",
  "two time columns": "time column",
  "fixed clock": "clock without summer time",
  "repeated hour": "hour that happens twice",
  "twelve-hour clock": "clock of twelve hours",
  word: "text among the readings",
  sentinel: "number that may stand for no reading",
  "conflicting readings": "two readings for one instant",
  series: "several recordings in one file",
};

const ASKS: Readonly<Record<Topic, string>> = {
  encoding: "In which encoding was the text written?",
  "line ends": "How do the lines end?",
  delimiter: "Which mark separates the cells?",
  quotes: "How do quotation marks stand inside cells?",
  "wrapped lines": "Every line is one quoted cell that holds the real line. Unwrap it?",
  header: "The file has no heading that can be relied on. What are the columns?",
  "stray lines": "Some lines are neither comment nor table. Leave them out?",
  "lost character": "Characters were lost before this file was written. Take the lines as they are?",
  "duplicate label": "Two columns have the same name. Which is which?",
  "blank label": "A column has no name. What does it hold?",
  "decimal mark": "Which is the decimal mark?",
  "group mark": "Is this mark a separator of thousands or the decimal mark?",
  role: "What does the column hold?",
  gas: "Which gas does the channel measure?",
  unit: "In which unit are the readings?",
  "reading kind": "Are the readings spot readings, or means or peaks of their interval?",
  "range top": "What is the highest value that the channel can show?",
  "day and month": "Which comes first, the day or the month?",
  "two-digit year": "To which century do the years belong?",
  zone: "In which time zone are the times?",
  "zone letters": "Which offset do the zone letters stand for?",
  "time form": "How are the times written?",
  start: "When did the recording start?",
  "two time columns": "Two columns hold complete times. Which one counts?",
  "fixed clock": "Some times fall in the hour that the clock change skips. Did the instrument keep one fixed offset?",
  "repeated hour": "One reading lies in the hour that happens twice. Which of the two is it?",
  "twelve-hour clock":
    "The clock goes back, and no hour of the file is 0 or above 12. Was it a clock of twelve hours without AM and PM, and was the first row before noon or after?",
  word: "What does this text stand for?",
  sentinel: "Is this number a reading, or does it stand for no reading?",
  "conflicting readings": "Two readings claim one instant. Keep both as lowest and highest?",
  series: "The file seems to hold several recordings, told apart by a column. Is that so?",
};

export function topicWords(topic: Topic): string {
  return TOPICS[topic];
}

/** "unit of CO: ppm (certain: …)" */
export function guessSentence(guess: Guess): string {
  const whose = guess.column === "*" ? "every channel" : guess.column;
  const about = whose === null ? TOPICS[guess.topic] : `${TOPICS[guess.topic]} of ${visibleText(whose)}`;
  const reasons = guess.reasons.map(reasonText).join("; ");
  const because = reasons === "" ? "" : `: ${reasons}`;
  return `${about}: ${visible(guess.chosen)} (${SURENESS[guess.sureness]}${because})`;
}

export const SURENESS: Readonly<Record<Sureness, string>> = {
  certain: "certain",
  strong: "likely",
  weak: "a guess",
};

/** The question in one sentence, with the column and the lines that raise it. */
export function questionSentence(question: Question): string {
  const where = question.column === null ? "" : `Column ${visibleText(question.column)}: `;
  const seen = question.samples.slice(0, 3).map(({ line, text }) => `line ${line} "${shortened(text)}"`);
  const samples = seen.length === 0 ? "" : ` Seen: ${seen.join(", ")}.`;
  return `${where}${ASKS[question.topic]}${samples}`;
}

/** What the question takes for an answer: its choices with their reasons, or the form of a free answer. */
export function choiceText(choice: Choice): string {
  const reasons = choice.reasons.map(reasonText).join("; ");
  return reasons === "" ? visible(choice.value) : `${visible(choice.value)} (${reasons})`;
}

const FREE: Partial<Readonly<Record<Topic, string>>> = {
  zone: "a zone such as Europe/London, or an offset such as +01:00",
  start: "an instant such as 2026-03-04T06:00:00Z",
  gas: "an id of the gas table, such as carbon_monoxide",
  unit: "a unit such as ppm, vol% or %LEL",
  "range top": "a number in the unit of the channel",
  encoding: "the name of an encoding, such as windows-1252",
  "two-digit year": "the first year of the hundred, such as 2000",
};

export function freeAnswerForm(topic: Topic): string {
  return FREE[topic] ?? "free text";
}

/** Codes of the gas table; those of `core/table` are words already. */
const REASONS: Readonly<Record<string, string>> = {
  formula: "a formula in the label",
  name: "a name in the label",
  unit: "a unit in the label",
  "flammable-word": "a word for flammable gas, without saying which",
  "small-letters": "a formula in small letters",
  "everyday-word": "also an everyday word",
  "calibration-gas-perhaps": "perhaps only the gas that the sensor was set up with",
  "no-reading-perhaps": "perhaps not a reading",
  "other-words": "other words in the label",
  "number-perhaps": "perhaps a number of the channel",
  "several-gases": "names of several gases",
  "sum-of-gases": "a sum of gases",
  "no-gas-word": "no name of a gas",
};

/** A reason with the text and the line it rests on. */
export function reasonText(reason: Reason): string {
  const words = REASONS[reason.code] ?? reason.code.replaceAll(/[-_]/g, " ");
  const text = reason.text === null || reason.text === "" ? "" : ` "${shortened(reason.text)}"`;
  return `${words}${text}${reason.line === null ? "" : `, line ${reason.line}`}`;
}

const UNSEEN: Readonly<Record<string, string>> = {
  "\t": "tab",
  ",": "comma",
  ";": "semicolon",
  "|": "bar",
  " ": "space",
  ".": "point",
  "'": "apostrophe",
};

function visible(text: string): string {
  return UNSEEN[text] ?? visibleText(text);
}

function shortened(text: string): string {
  const oneLine = visibleText(text.replace(/\s+/g, " ").trim());
  return oneLine.length > 60 ? `${oneLine.slice(0, 59)}…` : oneLine;
}
