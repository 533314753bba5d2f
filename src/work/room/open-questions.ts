/** What the book asks a person: clocks that are wrong, holes and forks in the chains of devices, kinds nobody here knows. */
import type { Bodies } from "../../core/instrument/index.ts";
import { instantFromWritten } from "../../core/record/index.ts";
import type { ChainFault } from "../../store/ledger.ts";
import type { RoomEntry } from "./room-entry.ts";

export type OpenQuestion =
  | {
      readonly type: "device-clock";
      readonly device: string;
      readonly number: number;
      readonly aheadMs: { readonly lowest: number; readonly highest: number };
    }
  /** A later submission of the device says that it was written before an earlier one. */
  | { readonly type: "clock-backwards"; readonly device: string; readonly number: number; readonly byMs: number }
  | { readonly type: "chain"; readonly fault: ChainFault }
  | { readonly type: "unknown-kind"; readonly number: number; readonly kind: string; readonly device: string }
  | { readonly type: "conflict"; readonly number: number; readonly received: string };

interface Answered extends Pick<Bodies["question-answered"], "question" | "device" | "sequences"> {
  readonly number: number;
  readonly restsOn: readonly string[];
}

/** A clock is set in steps; less than this is no running backwards. [ours] */
const BACKWARDS_MS = 60_000;

export class QuestionsOfEntries {
  private readonly clocks = new Map<string, Extract<OpenQuestion, { readonly type: "device-clock" }>>();
  private readonly backwards = new Map<string, Extract<OpenQuestion, { readonly type: "clock-backwards" }>>();
  private readonly unknown = new Map<string, Extract<OpenQuestion, { readonly type: "unknown-kind" }>>();
  private readonly newestRecorded = new Map<string, { readonly sequence: number; readonly recorded: number }>();
  private readonly answers: Answered[] = [];

  /** @param clockMinutes a device clock farther out asks a person */
  take(entry: RoomEntry, clockMinutes: number): void {
    const { read, submission, number, clockOffset } = entry;
    const { device } = submission;
    if (clockOffset !== null && isOut(clockOffset, clockMinutes * 60_000))
      this.clocks.set(device, { type: "device-clock", device, number, aheadMs: clockOffset });
    this.takeOrder(entry);
    if (read.type === "unknown-kind" || read.type === "unknown-form")
      this.unknown.set(submission.id, { type: "unknown-kind", number, kind: read.kind, device });
    if (read.type === "known" && read.kind === "question-answered") {
      const { question, device: about, sequences } = read.body;
      this.answers.push({ question, device: about, sequences, number, restsOn: submission.restsOn });
    }
  }

  private takeOrder({ submission, number }: RoomEntry): void {
    const { device, sequence } = submission;
    const recorded = instantFromWritten(submission.recorded) ?? 0;
    const before = this.newestRecorded.get(device);
    if (before !== undefined && sequence < before.sequence) return;
    if (before !== undefined && before.recorded - recorded > BACKWARDS_MS)
      this.backwards.set(device, { type: "clock-backwards", device, number, byMs: before.recorded - recorded });
    this.newestRecorded.set(device, { sequence, recorded });
  }

  /** Those that nobody has answered, the oldest first. */
  open(
    chainFaults: readonly ChainFault[],
    conflicts: readonly { readonly number: number; readonly received: string }[],
  ): readonly OpenQuestion[] {
    const ofDevices = [...this.clocks.values(), ...this.backwards.values()].filter(
      ({ device, number }) => !this.isAnswered("device-clock", device, number),
    );
    const chains = chainFaults.filter((fault) => !this.isChainAnswered(fault)).map((fault) => ({ type: "chain" as const, fault }));
    const unknown = [...this.unknown].filter(
      ([id]) => !this.answers.some(({ question, restsOn }) => question === "unknown-kind" && restsOn.includes(id)),
    );
    const all = [
      ...ofDevices,
      ...chains,
      ...unknown.map(([, one]) => one),
      ...conflicts.map((one) => ({ type: "conflict" as const, ...one })),
    ];
    return all.sort((one, other) => numberOf(one) - numberOf(other));
  }

  /** An answer is about what came before it. */
  private isAnswered(question: Answered["question"], device: string, number: number): boolean {
    return this.answers.some((one) => one.question === question && one.device === device && one.number > number);
  }

  private isChainAnswered({ device, remark, number }: ChainFault): boolean {
    if (remark.type !== "hole-before") return this.isAnswered("chain-forks", device, number);
    const covers = ({ question, device: about, sequences }: Answered): boolean =>
      question === "hole-in-chain" && about === device && sequences !== null && sequences.from <= remark.from && remark.to <= sequences.to;
    return this.answers.some(covers);
  }
}

const numberOf = (question: OpenQuestion): number => (question.type === "chain" ? question.fault.number : question.number);

const isOut = ({ lowest, highest }: { readonly lowest: number; readonly highest: number }, mostMs: number): boolean =>
  lowest > mostMs || highest < -mostMs;
