/** A book that is open: what may be asked of it and offered to it, over one room that follows it. */
import { base64, digestFromHash } from "../../core/record/index.ts";
import { given, type Result, refused } from "../../core/result.ts";
import type { RefusalOfBook } from "../../report/index.ts";
import { type EntriesView, type EntryView, type RoomView, roomView } from "../../report/room/index.ts";
import type { Files } from "../../store/files.ts";
import type { Answer, AppendRefusal, Ledger, Offered } from "../../store/ledger.ts";
import { type BookNamed, BookRoom } from "./book-room.ts";
import { type EntriesAsked, lookAtEntries, lookAtEntry } from "./look-at-entries.ts";
import { takeSubmissions } from "./take-submissions.ts";

/** A book with what keeps it; made by whoever chooses the store. */
export interface KeptBook {
  readonly ledger: Ledger;
  readonly files: Files;
  /** Line of the key that signs its heads. */
  readonly key: string;
  /** Why nothing can be written now; null where all is well. */
  readonly held: () => Extract<AppendRefusal, { readonly type: "held" | "disk-failed" }> | null;
}

export interface Clock {
  /** Milliseconds since 1970. */
  readonly now: () => number;
}

/** Stages of following a book from its start. */
export type FollowProgress = (done: number, of: number) => void;

const TOLD_EVERY = 1000;

export class RoomAtWork {
  readonly kept: KeptBook;
  private readonly room: BookRoom;
  private readonly clock: Clock;

  private constructor(kept: KeptBook, room: BookRoom, clock: Clock) {
    this.kept = kept;
    this.room = room;
    this.clock = clock;
  }

  /** Reads the whole book once. */
  static async open(kept: KeptBook, clock: Clock, progress: FollowProgress): Promise<RoomAtWork> {
    const room = new BookRoom();
    const size = await kept.ledger.size();
    await kept.ledger.walk(1, size, (entry) => {
      room.take(entry);
      if (entry.number % TOLD_EVERY === 0) progress(entry.number, size);
      return true;
    });
    const atWork = new RoomAtWork(kept, room, clock);
    await atWork.fresh();
    return atWork;
  }

  /** The room with all that is in the book by now, whoever wrote it. */
  private async fresh(): Promise<BookRoom> {
    await this.room.catchUp(this.kept.ledger);
    return this.room;
  }

  async named(): Promise<{ readonly named: BookNamed | null; readonly size: number; readonly head: string }> {
    const room = await this.fresh();
    return { named: room.named, size: room.size, head: (await this.kept.ledger.head()).note };
  }

  async size(): Promise<number> {
    return this.kept.ledger.size();
  }

  async take(
    offered: readonly Offered[],
    expect: readonly { readonly subject: string; readonly newest: number }[],
  ): Promise<{ readonly answers: readonly Result<Answer, RefusalOfBook>[]; readonly size: number; readonly root: `sha256:${string}` }> {
    const { ledger } = this.kept;
    const answers = await takeSubmissions(offered, {
      ...{ ledger, room: this.room, expect },
      now: this.clock.now,
      againstReturn: () => null,
    });
    await this.fresh();
    const { size, root } = await ledger.head();
    return { answers, size, root: digestFromHash(root) };
  }

  async lists(): Promise<RoomView> {
    return roomView(await this.fresh(), this.clock.now());
  }

  async entries(asked: EntriesAsked): Promise<EntriesView> {
    return lookAtEntries(await this.fresh(), this.kept.ledger, asked);
  }

  /** Proof that one state of the book began with another; `size` null = as it is now. */
  async consistency(
    earlier: number,
    size: number | null,
  ): Promise<Result<{ readonly proof: readonly string[]; readonly head: string }, RefusalOfBook>> {
    const { ledger } = this.kept;
    const head = await ledger.head();
    const to = size ?? head.size;
    const wrong = to > head.size ? to : earlier > to ? earlier : null;
    if (wrong !== null) return refused({ type: "no-such-entry", number: String(wrong), size: Math.min(to, head.size) });
    const proof = await ledger.consistency(earlier, to);
    return given({ proof: proof.map(base64), head: head.note });
  }

  async entry(number: number): Promise<EntryView | null> {
    return lookAtEntry(await this.fresh(), this.kept.ledger, number, this.kept.key);
  }
}
