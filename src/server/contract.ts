/**
 * What the server and the screens say to each other, under /api/1. Bytes are base64; what is shown is made in report/room.
 * Every error has the one shape of docs/errors.md.
 *
 *     GET  /api/1/book            BookState
 *     POST /api/1/book            NewBook -> BookState          409 where there is one
 *     POST /api/1/submissions     SubmissionsOffered -> SubmissionsAnswered
 *     PUT  /api/1/files           bytes -> FileKept
 *     GET  /api/1/changes?after=N waits up to 20 s for a newer size -> { size }
 *     GET  /api/1/room            RoomView
 *     GET  /api/1/today           ?at &knownAt &from &to &gases=a,b   -> TodayView
 *     GET  /api/1/instruments/:id ?at &knownAt &from &to &gases       -> InstrumentView
 *     GET  /api/1/entries         ?before &limit &kind &subject &text -> EntriesView
 *     GET  /api/1/entries/:number EntryView
 *     GET  /api/1/consistency     ?earlier &size -> { proof, head }
 *     POST /api/1/previews/void   VoidAsked -> KnockOnView
 *     POST /api/1/previews/rules  { rules } -> RulesPreview
 */
import type { RuleSet } from "../core/instrument/bodies.ts";
import type { InstrumentLine, StandingMark } from "../report/room/views.ts";
import type { Answer } from "../store/ledger.ts";

export interface BookState {
  /** Null where this server has no book yet. */
  readonly book: { readonly id: string; readonly name: string; readonly zone: string; readonly isDemonstration: boolean } | null;
  readonly size: number;
  /** Signed head as text, and the line of the key that signed it; empty without a book. */
  readonly head: string;
  readonly key: string;
  /** Why nothing can be written now; null where all is well. */
  readonly held: string | null;
}

export interface NewBook {
  readonly name: string;
  readonly zone: string;
  readonly isDemonstration: boolean;
}

/** An outbox hands over what waits, in order of its sequence; each is taken or refused by itself. */
export interface SubmissionsOffered {
  readonly offered: readonly { readonly submission: string; readonly body: string; readonly private: string | null }[];
  /** The device's clock as the request left, and the round trip of the request before, milliseconds; null = not measured. */
  readonly sent: string;
  readonly roundTripMs: number | null;
  /** Subjects whose newest entry must still be this number, for requests. */
  readonly expect: readonly { readonly subject: string; readonly newest: number }[];
}

export type SubmissionAnswer =
  | Answer
  | { readonly type: "refused"; readonly refusal: string; readonly message: string; readonly mend: string; readonly mayRetry: boolean };

export interface SubmissionsAnswered {
  readonly answers: readonly SubmissionAnswer[];
  readonly size: number;
  /** Digest of the head, told with the next submission. */
  readonly root: `sha256:${string}`;
}

export interface FileKept {
  readonly digest: `sha256:${string}`;
  readonly size: number;
}

export type VoidAsked =
  | { readonly entry: number }
  | { readonly role: string; readonly thing: string; readonly from: string; readonly until: string | null };

export interface RulesPreview {
  /** Which settings tighten (at once) and which loosen (second person, next working day), as sentences. */
  readonly tightens: readonly string[];
  readonly loosens: readonly string[];
  /** Walls that would be passed: refused. */
  readonly walls: readonly string[];
  readonly takesEffect: string | null;
  readonly differs: readonly { readonly line: InstrumentLine; readonly would: StandingMark }[];
  readonly asked: RuleSet;
}
