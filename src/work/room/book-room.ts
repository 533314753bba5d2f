/**
 * The room of one book as a server holds it: lists of things, rules, voidings, open rounds, all followed from the book
 * entry by entry. Nothing here cannot be made again from the book; nothing is computed here but what core answers.
 */
import {
  type RuleAgreement,
  type RuleChange,
  type RuleSet,
  type RulesInForce,
  ruleSetAt,
  type Things,
  thingsAt,
} from "../../core/instrument/index.ts";
import type { Facts, KeptEntry } from "../../store/ledger.ts";
import { BenchPace } from "./bench-pace.ts";
import { QuestionsOfEntries } from "./open-questions.ts";
import { OF_THINGS, type RoomEntry, roomEntry, toldBy } from "./room-entry.ts";

/** What else follows the book: told of each entry once, in order. */
export type Follower = (entry: RoomEntry) => void;

/** The site's own, from the entry that opened the book. */
export interface BookNamed {
  readonly name: string;
  readonly zone: string;
  readonly isDemonstration: boolean;
}

/** Where no rule set says otherwise. [ours] */
const USUAL_CLOCK_MINUTES = 5;

export class BookRoom {
  /** Newest number that was counted. */
  size = 0;
  named: BookNamed | null = null;
  private readonly ofThings: RoomEntry[] = [];
  private readonly changes: RuleChange[] = [];
  private readonly agreements: RuleAgreement[] = [];
  private readonly rounds = new Map<string, RoomEntry>();
  private readonly voidings = new Map<string, number>();
  private readonly closings = new Map<string, number>();
  private newest: Things | null = null;
  readonly questions = new QuestionsOfEntries();
  readonly pace = new BenchPace();
  private readonly followers: Follower[] = [];

  /** A follower that joins late is told of nothing that was before. */
  followWith(follower: Follower): void {
    this.followers.push(follower);
  }

  /** Counts the next entry; any other was counted already, or comes in its turn. */
  take(kept: KeptEntry): void {
    if (kept.number !== this.size + 1) return;
    const entry = roomEntry(kept);
    this.size = entry.number;
    this.keep(entry);
    this.questions.take(entry, this.clockMinutes());
    this.pace.take(entry);
    for (const follow of this.followers) follow(entry);
  }

  /** Counts all that another process, or this one, has added. */
  async catchUp(facts: Pick<Facts, "size" | "entry">): Promise<void> {
    const size = await facts.size();
    while (this.size < size) {
      const kept = await facts.entry(this.size + 1);
      // Several callers may follow at once: another may have counted it while this one read.
      if (kept === null) throw new Error(`entry ${this.size + 1} of ${size} cannot be read`);
      this.take(kept);
    }
  }

  /** Minutes that a device's clock may be out, by the rules set last. */
  clockMinutes(): number {
    return this.changes.at(-1)?.rules.clockMinutes.value ?? USUAL_CLOCK_MINUTES;
  }

  private keep(entry: RoomEntry): void {
    const { read, submission, number } = entry;
    if (OF_THINGS.has(submission.kind)) this.keepThing(entry);
    if (read.type !== "known") return;
    if (read.kind === "book-opened") this.named ??= read.body;
    else if (read.kind === "rules-set") this.changes.push(changeBy(entry, read.body.rules));
    else if (read.kind === "rules-agreed") this.agreements.push(...this.agreementBy(entry));
    else if (read.kind === "round-opened") this.rounds.set(submission.id, entry);
    else if (read.kind === "round-closed") for (const id of submission.restsOn) this.closings.set(id, number);
    else if (read.kind === "entry-voided") for (const id of submission.restsOn) this.void(id, number);
  }

  private keepThing(entry: RoomEntry): void {
    this.ofThings.push(entry);
    this.newest = null;
  }

  private void(id: string, number: number): void {
    if (!this.voidings.has(id)) this.voidings.set(id, number);
    this.newest = null;
  }

  /** Number of the entry that voided a submission, as known then; null where none did. */
  voidedBy(submission: string, knownAt = this.size): number | null {
    const number = this.voidings.get(submission);
    return number !== undefined && number <= knownAt ? number : null;
  }

  /** All there is now, whenever it happened. */
  things(): Things {
    this.newest ??= this.thingsAt(Number.POSITIVE_INFINITY, this.size);
    return this.newest;
  }

  thingsAt(at: number, knownAt: number): Things {
    return thingsAt(
      this.ofThings.flatMap((entry) => (this.counts(entry, knownAt) ? (toldBy(entry) ?? []) : [])),
      at,
    );
  }

  private counts({ number, submission }: RoomEntry, knownAt: number): boolean {
    return number <= knownAt && this.voidedBy(submission.id, knownAt) === null;
  }

  rulesAt(at: number, knownAt = this.size): RulesInForce | null {
    const { changes, agreements } = this.courseOfRules(knownAt);
    return ruleSetAt(changes, agreements, at);
  }

  courseOfRules(knownAt = this.size): { readonly changes: readonly RuleChange[]; readonly agreements: readonly RuleAgreement[] } {
    const isKnown = ({ number }: { readonly number: number }): boolean => number <= knownAt;
    return { changes: this.changes.filter(isKnown), agreements: this.agreements.filter(isKnown) };
  }

  /** With the duties that the person has as it is counted: one given later does not reach back. */
  private agreementBy({ submission, number, received, happened }: RoomEntry): readonly RuleAgreement[] {
    const { by, restsOn } = submission;
    const [change] = restsOn;
    const duties = (by === null ? undefined : this.things().people.get(by))?.duties ?? [];
    return change === undefined ? [] : [{ number, change, by, duties, settled: Math.max(received, happened.latest) }];
  }

  openRounds(): readonly RoomEntry[] {
    return [...this.rounds.values()].filter(({ submission: { id } }) => !this.closings.has(id) && this.voidedBy(id) === null);
  }
}

function changeBy({ submission, number, received, happened }: RoomEntry, rules: RuleSet): RuleChange {
  const { id, by } = submission;
  return { number, submission: id, by, earliest: happened.earliest, settled: Math.max(received, happened.latest), rules };
}
