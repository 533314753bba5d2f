/** The one book behind this server: looked for at the start, read anew, or begun when somebody asks. */
import { type Result, refused } from "../core/result.ts";
import type { RefusalOfBook } from "../report/index.ts";
import type { BehindTheDoor, BookDoor } from "../server/book-door.ts";
import type { Outbox } from "../store/outbox.ts";
import { type BookToBegin, beginBook } from "../work/room/begin-book.ts";
import { type Clock, type KeptBook, RoomAtWork } from "../work/room/room-at-work.ts";

/** What keeps books on this machine. */
export interface BookFolder {
  /** Null where there is none. */
  readonly find: () => Promise<Result<KeptBook | null, RefusalOfBook>>;
  /** An empty book, with an outbox of this server for its first entries. */
  readonly make: (book: BookToBegin) => Promise<Result<{ readonly kept: KeptBook; readonly outbox: Outbox }, RefusalOfBook>>;
}

export interface BookBehind extends BookDoor {
  /** Looks for the book and reads it; answers when it is open, or there is none. */
  readonly look: () => Promise<BehindTheDoor>;
  readonly close: () => Promise<void>;
}

export function bookBehind(folder: BookFolder, clock: Clock): BookBehind {
  let behind: BehindTheDoor = { type: "none" };
  let beginning: Promise<unknown> | null = null;

  const read = async (kept: KeptBook): Promise<RoomAtWork> => {
    behind = { type: "reading", done: 0, of: await kept.ledger.size() };
    const room = await RoomAtWork.open(kept, clock, (done, of) => {
      behind = { type: "reading", done, of };
    });
    behind = { type: "open", room };
    return room;
  };
  const look = async (): Promise<BehindTheDoor> => {
    const found = await folder.find();
    if (!found.ok) behind = { type: "failed", refusal: found.refusal };
    else if (found.value !== null) await read(found.value);
    return behind;
  };
  const begun = async (book: BookToBegin): Promise<Result<RoomAtWork, RefusalOfBook>> => {
    // Another process may have begun one in the same folder meanwhile.
    const there = behind.type === "none" ? await look() : behind;
    if (there.type === "open") return refused({ type: "book-there-already", name: (await there.room.named()).named?.name ?? "" });
    if (there.type === "failed") return refused(there.refusal);
    const made = await folder.make(book);
    if (!made.ok) return made;
    const { kept, outbox } = made.value;
    const first = await beginBook(book, { ledger: kept.ledger, outbox, key: kept.key, now: clock.now() });
    await outbox.close();
    return first.ok ? { ok: true, value: await read(kept) } : first;
  };
  return {
    behind: () => behind,
    look,
    /** One after the other: the second finds the book of the first. */
    begin: (book) => {
      const turn = (beginning ?? Promise.resolve()).then(() => begun(book));
      beginning = turn.catch(() => undefined);
      return turn;
    },
    close: async () => {
      if (behind.type === "open") await behind.room.kept.ledger.close();
    },
  };
}
