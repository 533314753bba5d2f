/** The one book behind this server: none yet, being read, open, or not to be opened. */
import type { Result } from "../core/result.ts";
import type { RefusalOfBook } from "../report/index.ts";
import type { BookToBegin } from "../work/room/begin-book.ts";
import type { RoomAtWork } from "../work/room/room-at-work.ts";

export type BehindTheDoor =
  | { readonly type: "none" }
  | { readonly type: "reading"; readonly done: number; readonly of: number }
  | { readonly type: "open"; readonly room: RoomAtWork }
  | { readonly type: "failed"; readonly refusal: RefusalOfBook };

export interface BookDoor {
  readonly behind: () => BehindTheDoor;
  readonly begin: (book: BookToBegin) => Promise<Result<RoomAtWork, RefusalOfBook>>;
}
