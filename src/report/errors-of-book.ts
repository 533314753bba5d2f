/** Refusals of the book: what a keeper of it, its files or the server in front of it does not take. */

import type { FileRefusal } from "../store/files.ts";
import type { AppendRefusal } from "../store/ledger.ts";
import { type Catalogue, shortened } from "./catalogue.ts";
import { countText } from "./digits.ts";
import { type RequestReason, reasonWords } from "./request-words.ts";

/** What is asked of a server by its address and its body, and cannot be answered. */
export type AskedRefusal =
  | { readonly type: "no-book" }
  | { readonly type: "book-there-already"; readonly name: string }
  | { readonly type: "book-not-opened"; readonly why: string }
  | { readonly type: "book-being-read"; readonly done: number; readonly of: number }
  | { readonly type: "no-such-entry"; readonly number: string; readonly size: number }
  | { readonly type: "no-such-instrument"; readonly id: string }
  | { readonly type: "no-such-thing"; readonly role: string; readonly id: string }
  | { readonly type: "asked-not-fitting"; readonly at: string; readonly found: string; readonly expected: string }
  | { readonly type: "zone-not-known"; readonly zone: string; readonly near: readonly string[] }
  | { readonly type: "foreign-page"; readonly origin: string }
  | { readonly type: "content-type-not-taken"; readonly found: string; readonly expected: string }
  | { readonly type: "too-much-at-once"; readonly mostBytes: number };

/** A request is granted or not with a reason of ours. */
type NotGranted = { readonly type: "not-granted"; readonly reason: RequestReason; readonly detail: string };

export type RefusalOfBook =
  | AskedRefusal
  | Exclude<AppendRefusal, { readonly type: "not-granted" | "file-missing" }>
  | NotGranted
  | FileRefusal;

const PART: Readonly<Record<"submission" | "body" | "private", string>> = {
  submission: "envelope",
  body: "body",
  private: "private part",
};

const REFUSALS_OF_ASKING: Catalogue<AskedRefusal> = {
  "no-book": {
    exit: 1,
    status: 404,
    says: () => "This server has no book yet.",
    mend: () => "Begin one: give the name of the site and its time zone.",
    example: { type: "no-book" },
  },
  "book-there-already": {
    exit: 1,
    status: 409,
    says: ({ name }) => `There is a book here already: "${shortened(name)}".`,
    mend: () => "Use it. A second site needs a folder, and a server, of its own.",
    example: { type: "book-there-already", name: "Marl Beck" },
  },
  "book-not-opened": {
    exit: 3,
    status: 503,
    says: ({ why }) => `The book cannot be opened: ${why}.`,
    mend: () => "Mend what is named and start again; lamproom verify FOLDER says what the folder holds.",
    example: { type: "book-not-opened", why: "the disk is full" },
  },
  "book-being-read": {
    exit: 3,
    status: 503,
    says: ({ done, of }) =>
      `The book is being read anew: ${countText(done)} of ${countText(of)} entries so far. Until then nothing is proven.`,
    mend: () => "Wait; the page goes on by itself.",
    example: { type: "book-being-read", done: 120_000, of: 1_000_000 },
  },
  "no-such-entry": {
    exit: 1,
    status: 404,
    says: ({ number, size }) => `The book has no entry ${shortened(number)}: it holds ${countText(size)}.`,
    mend: () => "Give a number from 1 to the newest one.",
    example: { type: "no-such-entry", number: "18393", size: 18392 },
  },
  "no-such-instrument": {
    exit: 1,
    status: 404,
    says: ({ id }) => `The book knows no instrument ${shortened(id)}.`,
    mend: () => "Look it up by its tag or serial on Site.",
    example: { type: "no-such-instrument", id: "7d1e2f30-4152-4637-8859-6a7b8c9dae0f" },
  },
  "no-such-thing": {
    exit: 1,
    status: 404,
    says: ({ role, id }) => `The book knows no ${shortened(role)} ${shortened(id)}.`,
    mend: () => "Look it up by its name on Site.",
    example: { type: "no-such-thing", role: "cylinder", id: "7d1e2f30-4152-4637-8859-6a7b8c9dae0f" },
  },
  "asked-not-fitting": {
    exit: 1,
    status: 422,
    says: ({ at, found, expected }) => `"${shortened(at)}" is ${shortened(found)}; it has to be ${expected}.`,
    mend: ({ at }) => `Mend "${shortened(at)}" and ask again.`,
    example: { type: "asked-not-fitting", at: "from", found: "yesterday", expected: "an instant such as 2026-03-04T07:31:00.000Z" },
  },
  "zone-not-known": {
    exit: 1,
    status: 422,
    says: ({ zone }) => `"${shortened(zone)}" is no time zone.`,
    mend: ({ near }) =>
      near.length > 0 ? `Did you mean ${near.join(" or ")}?` : "Name a place of the zone database, such as Europe/London.",
    example: { type: "zone-not-known", zone: "Europe/Londn", near: ["Europe/London"] },
  },
  "foreign-page": {
    exit: 3,
    status: 403,
    says: ({ origin }) => `A page of ${shortened(origin)} may not write into this book.`,
    mend: () => "Close that page, and write from Lamproom's own pages.",
    example: { type: "foreign-page", origin: "https://elsewhere.example" },
  },
  "content-type-not-taken": {
    exit: 3,
    status: 415,
    says: ({ found, expected }) => `This is taken as ${expected}, not as ${found === "" ? "bytes of no named type" : shortened(found)}.`,
    mend: ({ expected }) => `Send it with content-type: ${expected}.`,
    example: { type: "content-type-not-taken", found: "text/plain", expected: "application/json" },
  },
  "too-much-at-once": {
    exit: 1,
    status: 413,
    says: ({ mostBytes }) => `More than ${countText(mostBytes)} bytes were sent at once.`,
    mend: () => "Send it in several calls; nothing of this one was taken.",
    example: { type: "too-much-at-once", mostBytes: 8_388_608 },
  },
};

export const REFUSALS_OF_BOOK: Catalogue<RefusalOfBook> = {
  ...REFUSALS_OF_ASKING,
  damaged: {
    exit: 1,
    status: 422,
    says: ({ part, why }) => `What was sent is no ${PART[part]} of an entry: ${shortened(why)}.`,
    mend: () => "It stays on the device that said it. Send it again; if it is refused again, report it with the device's name.",
    example: { type: "damaged", at: 0, part: "body", why: "its digest is another" },
  },
  "other-book": {
    exit: 1,
    status: 409,
    says: ({ book }) => `This was said for another book, ${shortened(book)}.`,
    mend: () => "Open it on the server that keeps that book: no entry passes from one book to another.",
    example: { type: "other-book", at: 0, book: "5f0c9a52-3b1e-4d6a-8f57-0c2d4e6a8b10" },
  },
  stale: {
    exit: 1,
    status: 409,
    says: ({ newest }) => `Meanwhile somebody else wrote about this, in entry ${countText(newest)}.`,
    mend: () => "Look at it as it stands now, and ask again.",
    example: { type: "stale", subject: "7d1e2f30-4152-4637-8859-6a7b8c9dae0f", newest: 18392 },
  },
  "not-granted": {
    exit: 1,
    status: 409,
    says: ({ reason, detail }) => reasonWords(reason, detail).message,
    mend: ({ reason, detail }) => reasonWords(reason, detail).mend,
    example: { type: "not-granted", reason: "not-entitled", detail: "keeper" },
  },
  held: {
    exit: 3,
    status: 503,
    says: ({ why, known, found }) =>
      why === "smaller"
        ? `Nothing is written: the book holds ${countText(found)} entries and is known to have held ${countText(known)}.`
        : `Nothing is written: the book's first ${countText(Math.min(known, found))} entries are not those that it is known to have had.`,
    mend: () => "It goes back to an older copy. Bring the newest copy back, or record why the old one is to be used.",
    example: { type: "held", why: "smaller", known: 18392, found: 18001 },
  },
  busy: {
    exit: 3,
    status: 503,
    says: ({ seconds }) => `Others have been writing into the book for ${countText(seconds)} s; nothing was taken.`,
    mend: () => "It is still where it was said, and is offered again by itself.",
    example: { type: "busy", seconds: 30 },
  },
  "disk-failed": {
    exit: 3,
    status: 503,
    says: ({ what }) => `The disk failed, and nothing more is written: ${shortened(what)}.`,
    mend: () => "What was not acknowledged is still on the devices that said it. Look after the disk, then start again.",
    example: { type: "disk-failed", what: "the disk is full" },
  },
  "file-missing": {
    exit: 1,
    status: 409,
    says: ({ file }) => `The file ${file.slice(0, 19)}… is not here.`,
    mend: () => "Send the file first, then what names it.",
    example: { type: "file-missing", file: `sha256:${"0a".repeat(32)}` },
  },
  "file-damaged": {
    exit: 3,
    status: 500,
    says: ({ file }) => `The bytes kept as ${file.slice(0, 19)}… are other bytes now.`,
    mend: () => "Bring the file back from a copy; lamproom verify FOLDER names every one that differs.",
    example: { type: "file-damaged", file: `sha256:${"0a".repeat(32)}`, found: `sha256:${"0b".repeat(32)}` },
  },
};
