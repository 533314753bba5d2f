/**
 * Takes in what an outbox hands over: reports as they come, many in one commit; each request by itself, judged where it
 * is written. One that is refused holds up none of the others.
 */
import { readBody } from "../../core/instrument/index.ts";
import { instantFromWritten, submissionFrom } from "../../core/record/index.ts";
import { given, type Result, refused } from "../../core/result.ts";
import { isRequestReason, type RefusalOfBook } from "../../report/index.ts";
import type { Answer, AppendRefusal, Decision, Facts, Ledger, Offered } from "../../store/ledger.ts";
import type { BookRoom } from "./book-room.ts";
import { type Asked, type Bench, judgeRequest } from "./judge-request.ts";

export interface Taking {
  readonly ledger: Ledger;
  readonly room: BookRoom;
  /** Milliseconds since 1970. */
  readonly now: () => number;
  readonly againstReturn: Bench["againstReturn"];
  /** Subjects whose newest entry must still be this number, for requests. */
  readonly expect: readonly { readonly subject: string; readonly newest: number }[];
}

/** In one commit at the most; more would make everybody else wait. */
const MOST_TOGETHER = 64;

/** One answer for each that was offered, in their order. */
export async function takeSubmissions(offered: readonly Offered[], taking: Taking): Promise<readonly Result<Answer, RefusalOfBook>[]> {
  const answers: Result<Answer, RefusalOfBook>[] = [];
  while (answers.length < offered.length) {
    const run = nextRun(offered, answers.length);
    const [first] = run;
    const isRequest = first !== undefined && mannerOf(first) === "request";
    answers.push(...(isRequest ? [await takeRequest(first, taking)] : await takeReports(run, taking)));
    // Nothing is written any more: the rest stays where it is, and must not come before what is missing.
    const last = answers.at(-1);
    if (last !== undefined && !last.ok && isTheBooks(last.refusal)) while (answers.length < offered.length) answers.push(last);
  }
  return answers;
}

const isTheBooks = (refusal: RefusalOfBook): boolean => refusal.type === "held" || refusal.type === "disk-failed";

/** One request, or as many reports as follow one another. */
function nextRun(offered: readonly Offered[], from: number): readonly Offered[] {
  const rest = offered.slice(from, from + MOST_TOGETHER);
  const end = rest.findIndex((one) => mannerOf(one) === "request");
  if (end === 0) return rest.slice(0, 1);
  return end < 0 ? rest : rest.slice(0, end);
}

function mannerOf({ submission }: Offered): "request" | "report" | null {
  const read = submissionFrom(submission);
  return read.ok ? read.value.manner : null;
}

async function takeReports(offered: readonly Offered[], { ledger }: Taking): Promise<readonly Result<Answer, RefusalOfBook>[]> {
  const answers = new Map<Offered, Result<Answer, RefusalOfBook>>();
  let left = offered;
  while (left.length > 0) {
    const taken = await ledger.append(left);
    if (taken.ok) {
      for (const [at, one] of left.entries()) answers.set(one, given(taken.value[at] as Answer)); // one for each
      break;
    }
    const { refusal } = taken;
    const bad = "at" in refusal ? left[refusal.at] : undefined;
    for (const one of bad === undefined ? left : [bad]) answers.set(one, refused(refusalOf(refusal)));
    left = bad === undefined ? [] : left.filter((one) => one !== bad);
  }
  return offered.map((one) => answers.get(one) as Result<Answer, RefusalOfBook>); // each was answered above
}

async function takeRequest(offered: Offered, taking: Taking): Promise<Result<Answer, RefusalOfBook>> {
  const asked = askedBy(offered);
  const decide = async (isNew: readonly unknown[], facts: Facts): Promise<Decision> => {
    // A request that is here already was judged then.
    if (asked === null || isNew.length === 0) return { type: "granted" };
    await taking.room.catchUp(facts);
    const { room, now, againstReturn } = taking;
    return judgeRequest(asked, { room, facts, now: now(), againstReturn });
  };
  const taken = await taking.ledger.append([offered], { decide, expect: taking.expect });
  if (!taken.ok) return refused(refusalOf(taken.refusal));
  return given(taken.value[0] as Answer); // one for the one that was offered
}

/** What is asked; null where the bytes are no submission, which the book finds by itself. */
function askedBy({ submission, body, private: privatePart }: Offered): Asked | null {
  const read = submissionFrom(submission);
  if (!read.ok) return null;
  const { earliest, latest, basis } = read.value.happened;
  return {
    submission: read.value,
    happened: { earliest: instantFromWritten(earliest) ?? 0, latest: instantFromWritten(latest) ?? 0, basis }, // read in this form
    read: readBody(read.value, { body, private: privatePart }),
  };
}

function refusalOf(refusal: AppendRefusal): RefusalOfBook {
  if (refusal.type !== "not-granted") return refusal;
  const { reason, detail } = refusal;
  // The judge gave this reason; it went through the keeper as text.
  return { type: "not-granted", reason: isRequestReason(reason) ? reason : "cannot-be-judged", detail };
}
