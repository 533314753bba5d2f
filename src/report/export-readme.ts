/** What lies in an exported book and how anybody checks it, in words: read in forty years, perhaps without this program. */
import { counted } from "./digits.ts";

export interface ExportSaid {
  readonly book: string;
  readonly size: number;
  readonly files: number;
}

/** Lines of README.txt. */
export function exportReadme({ book, size, files }: ExportSaid): readonly string[] {
  return [
    `This folder holds a whole book of Lamproom, ${book}: ${counted(size, "entry", "entries")} and ${counted(files, "file", "files")} named by them.`,
    "It holds names of people, where these were not disposed of. Keep it accordingly.",
    "",
    "book.json        which book this is, and the form of this folder (1)",
    "entries.jsonl    one entry a line, in the order of their numbers, as JSON in UTF-8:",
    "                 entry       number, when the book received it, digest of the submission",
    "                 submission  what a device said: kind, when it happened, who, about what, digests of body and private part",
    "                 body        what was said, with the 16 bytes of chance (salt, base64) that its digest begins with",
    "                 private     the same for names and remarks on people; null where there is none, or it was disposed of",
    '                 {"bytes": base64} stands for bytes that are no canonical JSON.',
    "leaves.txt       the hash of each entry, one a line: tells which entry it is, if one was touched",
    "head.txt         the newest signed head: name of the book, number of entries, root of the tree, signature",
    "keys.txt         the public keys that sign heads, as the book itself names them",
    "conflicts.jsonl  what was offered under an id that was taken already",
    "files/           files by the SHA-256 of their bytes, in folders by its first two digits",
    "",
    "To check it with Lamproom: lamproom verify THIS-FOLDER --key LINE, with the line of the public key that was kept elsewhere.",
    "To check it without Lamproom:",
    "1. Take the text of entry, submission and value out of a line as canonical JSON (RFC 8785): names in order, no spaces.",
    "2. SHA-256 of the submission's text is the digest in the entry; SHA-256 of salt and text together is that of body and private part.",
    "3. A leaf is SHA-256 of the byte 00 and the entry's text; a node SHA-256 of the byte 01, the left and the right hash (RFC 6962).",
    "   The root over all leaves is the third line of head.txt, in base64.",
    "4. The last line of head.txt is an Ed25519 signature (RFC 8032) over the first three lines, after 4 bytes that name the key.",
    "",
    "What this shows: nothing was changed since it was received. It does not show that what was written is right.",
  ];
}
