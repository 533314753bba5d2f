/** Looks at the book: a page of entries, the newest first, and one entry with all that proves it. */
import { base64, canonicalJson, openedPart, textFromUtf8 } from "../../core/record/index.ts";
import { type EntriesView, type EntryLine, type EntryView, entryLine } from "../../report/room/index.ts";
import type { Facts, KeptEntry, Ledger } from "../../store/ledger.ts";
import type { BookRoom } from "./book-room.ts";
import { roomEntry } from "./room-entry.ts";

export interface EntriesAsked {
  /** Only numbers below it; null = from the newest. */
  readonly before: number | null;
  readonly limit: number;
  readonly kind: string | null;
  readonly subject: string | null;
  /** A part of what the line says, capitals aside. */
  readonly text: string | null;
}

/** A word that hardly ever comes up is not looked for through a whole book at once: `older` goes on. */
const MOST_LOOKED_AT = 20_000;
const PIECE = 200;

export async function lookAtEntries(room: BookRoom, facts: Facts, asked: EntriesAsked): Promise<EntriesView> {
  const found: EntryLine[] = [];
  const lineOf = lining(room);
  const text = asked.text?.trim().toLowerCase() ?? "";
  let below = Math.min(asked.before ?? Number.POSITIVE_INFINITY, room.size + 1);
  const end = Math.max(1, below - MOST_LOOKED_AT);
  while (found.length < asked.limit && below > end) {
    const piece = await pieceBelow(facts, below, asked);
    below = piece.below;
    for (const kept of piece.entries) {
      const line = lineOf(kept);
      if (text !== "" && !isIn(line, text)) continue;
      found.push(line);
      if (found.length === asked.limit) {
        below = kept.number;
        break;
      }
    }
  }
  return { size: room.size, entries: found, older: below > 1 ? below : null };
}

interface Piece {
  readonly entries: readonly KeptEntry[];
  /** All numbers from here on have been looked at. */
  readonly below: number;
}

async function pieceBelow(facts: Facts, below: number, { kind, subject }: EntriesAsked): Promise<Piece> {
  if (subject !== null) {
    const query = { upTo: below - 1, limit: PIECE, ...(kind === null ? {} : { kinds: [kind] }) };
    const entries = await facts.about(subject, query);
    return { entries, below: entries.length < PIECE ? 1 : (entries.at(-1)?.number ?? 1) };
  }
  const from = Math.max(1, below - PIECE);
  const entries: KeptEntry[] = [];
  for (let number = below - 1; number >= from; number -= 1) {
    const kept = await facts.entry(number);
    if (kept !== null && (kind === null || kept.submission.kind === kind)) entries.push(kept);
  }
  return { entries, below: from };
}

const isIn = ({ says, by, subjects, number }: EntryLine, text: string): boolean =>
  [says, by ?? "", String(number), ...subjects.map(({ name }) => name)].some((part) => part.toLowerCase().includes(text));

/** Lines as they read now: by the names that hold now. */
function lining(room: BookRoom): (kept: KeptEntry) => EntryLine {
  const things = room.things();
  const clockMinutes = room.clockMinutes();
  return (kept) => entryLine(roomEntry(kept), { things, voidedBy: room.voidedBy(kept.submission.id), clockMinutes });
}

/** The lines of some entries, in rising order of number. */
export async function linesOf(room: BookRoom, facts: Facts, numbers: readonly number[]): Promise<readonly EntryLine[]> {
  const lineOf = lining(room);
  const kept = await Promise.all(numbers.map((number) => facts.entry(number)));
  return kept.flatMap((one) => (one === null ? [] : [lineOf(one)]));
}

/** Null where the book has no such number. */
export async function lookAtEntry(room: BookRoom, ledger: Ledger, number: number, key: string): Promise<EntryView | null> {
  const kept = await ledger.entry(number);
  if (kept === null) return null;
  const head = await ledger.head();
  const proof = await ledger.inclusion(number, head.size);
  const restedOnBy = await ledger.restingOn(kept.submission.id);
  const grounds = await Promise.all(kept.submission.restsOn.map((id) => ledger.byId(id)));
  return {
    line: lining(room)(kept),
    submission: textFromUtf8(kept.bytes.submission) ?? "",
    entry: textFromUtf8(kept.bytes.entry) ?? "",
    body: textOfPart(kept.body),
    private: textOfPart(kept.private),
    bytes: {
      entry: base64(kept.bytes.entry),
      submission: base64(kept.bytes.submission),
      body: kept.body === null ? null : base64(kept.body),
      private: kept.private === null ? null : base64(kept.private),
    },
    proof: proof.map(base64),
    ...{ head: head.note, key },
    restsOn: grounds.flatMap((one) => (one === null ? [] : [lining(room)(one)])),
    restedOnBy: await linesOf(room, ledger, restedOnBy),
  };
}

/** Null where it was disposed of, or nobody can read it as text. */
function textOfPart(bytes: Uint8Array | null): string | null {
  const opened = bytes === null ? null : openedPart(bytes);
  const text = opened?.ok ? canonicalJson(opened.value) : null;
  return text?.ok ? text.value : null;
}
