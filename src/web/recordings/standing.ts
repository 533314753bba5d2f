import { byGravity, findingSentence } from "../../report/index.ts";
import type { FindingAnswer } from "../../work/answer.ts";
import type { Held } from "../desk/shelf.ts";

export interface Standing {
  readonly kind: "exceeds" | "undetermined" | "within" | "question" | "refused" | "reading" | "no limit";
  readonly word: string;
  readonly why: string;
}

/** What a list says of one recording: its gravest finding, or why there is none. */
export const standingOf = (one: Held): Standing => {
  if (one.fault !== null) return { kind: "refused", word: "Not computed.", why: one.fault };
  if (one.progress !== null || one.opened === null) return { kind: "reading", word: "Reading", why: "" };
  const refusal = one.opened.refusal;
  const questions = one.opened.questions.filter((question) => question.blocking);
  if (one.opened.channels.length === 0 && questions.length > 0) {
    return { kind: "question", word: questions.length === 1 ? "1 question" : `${questions.length} questions`, why: "before it is read" };
  }
  if (refusal !== null) return { kind: "refused", word: "Not read.", why: refusal.message };
  if (one.answer === null) return { kind: "reading", word: "Computing", why: "" };
  if (one.answer.refusal !== null) return { kind: "refused", word: "Not computed.", why: one.answer.refusal.message };
  const worst = worstFinding(one);
  if (worst === null) return { kind: "no limit", word: "No limit", why: "in the regimes chosen for the gases named" };
  return { kind: worst.outcome, word: "", why: findingSentence(worst) };
};

const worstFinding = (one: Held): FindingAnswer | null => {
  const findings = (one.answer?.channels ?? []).flatMap((channel) => channel.findings);
  return findings.reduce<FindingAnswer | null>((worst, each) => (worst === null || byGravity(each, worst) < 0 ? each : worst), null);
};

const order: readonly Standing["kind"][] = ["exceeds", "question", "refused", "undetermined", "reading", "within", "no limit"];
export const urgencyOf = (one: Held): number => order.indexOf(standingOf(one).kind);
