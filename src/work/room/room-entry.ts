/** An entry as the room holds it: what its envelope claims, in milliseconds, and what it says. */
import { type Kind, type ReadEntry, readBody, type Told } from "../../core/instrument/index.ts";
import { type Happened, instantFromWritten, type Submission } from "../../core/record/index.ts";
import type { KeptEntry } from "../../store/ledger.ts";

export interface RoomEntry {
  readonly number: number;
  /** Milliseconds since 1970, by the book's clock. */
  readonly received: number;
  readonly clockOffset: { readonly lowest: number; readonly highest: number } | null;
  readonly submission: Submission;
  readonly happened: { readonly earliest: number; readonly latest: number; readonly basis: Happened["basis"] };
  readonly read: ReadEntry;
}

export function roomEntry({ number, entry, submission, body, private: privatePart }: KeptEntry): RoomEntry {
  const { earliest, latest, basis } = submission.happened;
  return {
    ...{ number, submission, clockOffset: entry.clockOffset },
    received: instantFromWritten(entry.received) ?? 0, // entries are kept in this form alone
    happened: { earliest: instantFromWritten(earliest) ?? 0, latest: instantFromWritten(latest) ?? 0, basis },
    read: readBody(submission, { body, private: privatePart }),
  };
}

/** The same for the lists of things; null where nobody can tell what it says. */
export function toldBy({ number, submission, happened, read }: RoomEntry): Told | null {
  if (read.type !== "known") return null;
  const { kind, body, private: privatePart } = read;
  const { id, by, subjects } = submission;
  const { earliest, latest } = happened;
  // Kind, body and private part belong together in `read`; the compiler cannot follow them through one literal.
  return { number, submission: id, kind, by, subjects, happened: { earliest, latest }, body, private: privatePart } as Told;
}

/** Kinds that say what there is and what became of it; the lists of things are made of these alone. */
export const OF_THINGS: ReadonlySet<string> = new Set<Kind>([
  ...(["book-opened", "model-described", "instrument-registered", "tag-lent", "tag-returned"] as const),
  ...(["sensor-fitted", "sensor-moved", "sensor-removed", "cylinder-registered", "cylinder-connected"] as const),
  ...(["line-part-registered", "station-registered", "place-registered", "person-registered", "duties-set", "thing-retired"] as const),
]);
