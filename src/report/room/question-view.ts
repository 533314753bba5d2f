/** What the book asks a person, in words, and what it holds back until somebody answers. */
import type { OpenQuestion } from "../../work/room/open-questions.ts";
import { counted, countText } from "../digits.ts";
import { durationText } from "../figure.ts";
import { visibleText } from "../visible-text.ts";
import type { QuestionView } from "./views.ts";

export function questionView(question: OpenQuestion): QuestionView {
  switch (question.type) {
    case "device-clock":
      return view(
        "device-clock",
        question.device,
        question.number,
        `The clock of ${deviceName(question.device)} was ${outBy(question.aheadMs)}. ${UNTIL_ANSWERED}`,
      );
    case "clock-backwards":
      return view(
        "device-clock",
        question.device,
        question.number,
        `The clock of ${deviceName(question.device)} went back by ${long(question.byMs)}. ${UNTIL_ANSWERED}`,
      );
    case "unknown-kind":
      return view(
        "unknown-kind",
        question.device,
        question.number,
        `Entry ${countText(question.number)} is of a kind or form that this release does not know: ${visibleText(question.kind)}. It counts against what it is about.`,
      );
    case "conflict":
      return view(
        "conflict",
        null,
        question.number,
        `Entry ${countText(question.number)} was sent again with other bytes. The first ones stand; the others are kept aside.`,
      );
    case "chain":
      return chainView(question.fault);
  }
}

function chainView({ device, remark, number }: Extract<OpenQuestion, { readonly type: "chain" }>["fault"]): QuestionView {
  const name = deviceName(device);
  if (remark.type === "hole-before") {
    const { from, to } = remark;
    const missing = counted(to - from + 1, "submission");
    const words = `${missing} of ${name} never came: ${from === to ? countText(from) : `${countText(from)} to ${countText(to)}`}. What it sent after them supports nothing until they come or somebody says why not.`;
    return { ...view("hole-in-chain", device, number, words), sequences: { from, to } };
  }
  if (remark.type === "chain-forks")
    return view(
      "chain-forks",
      device,
      number,
      `${capital(name)} has two submissions with the number ${countText(remark.sequence)}: its memory was put back or copied. Entry ${countText(remark.other)} is the other.`,
    );
  return view(
    "chain-forks",
    device,
    number,
    `${capital(name)} knew a state of ${counted(remark.size, "entry", "entries")} that this book never had: one of the two goes back to an older copy.`,
  );
}

const UNTIL_ANSWERED = "What it sent speaks against, and supports nothing, until somebody answers.";
const deviceName = (device: string): string => `device ${device.slice(0, 8)}`;
const capital = (text: string): string => text.slice(0, 1).toUpperCase() + text.slice(1);

const view = (question: QuestionView["question"], device: string | null, number: number, words: string): QuestionView => ({
  ...{ question, device, sequences: null, number, words },
});

/** The least that it can have been out. */
function outBy({ lowest, highest }: { readonly lowest: number; readonly highest: number }): string {
  return lowest > 0 ? `${long(lowest)} ahead or more` : `${long(-highest)} behind or more`;
}

const long = (milliseconds: number): string => durationText(Math.floor(milliseconds / 1000));
