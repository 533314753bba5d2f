/** What a check of a book found, in words: what it shows, and what it does not. */
import type { ChainRemark } from "../work/device-sequences.ts";
import type { FoundFault, Verdict } from "../work/verify-book.ts";
import { counted, countText } from "./digits.ts";

const FAULTS: Readonly<Record<FoundFault["type"], string>> = {
  "entry-unreadable": "its bytes are no entry",
  "entry-changed": "its bytes are not those of its leaf in the tree",
  "number-out-of-order": "its number is not the next one: an entry was taken out, put in, or moved",
  "other-book": "it is of another book",
  "submission-unreadable": "its submission cannot be read",
  "submission-changed": "its submission is not the one that was numbered",
  "body-changed": "its body was changed",
  "private-changed": "its private part was changed",
  "body-missing": "its body is not there, and no entry says that it was disposed of",
  "private-missing": "its private part is not there, and no entry says that it was disposed of",
  "not-found-by-its-rows": "the rows by which it is found do not say what it says",
  "stray-rows": "there are rows that lead to entries which do not say so",
  "rest-unreadable": "from this one on nothing can be read",
  "file-missing": "a file that it names is not there",
  "file-changed": "a file that it names was changed",
  "head-unreadable": "the signed head cannot be read",
  "head-of-other-book": "the signed head is that of another book",
  "head-of-other-size": "the signed head is of another number of entries",
  "tree-changed": "the entries are not those that the head was signed over",
  "signature-wrong": "the signature of the head is not that of the key",
};

const NOT_VERIFIED: Readonly<Record<Extract<Verdict, { readonly type: "not-verified" }>["why"], string>> = {
  "no-entries": "there are no entries to look at",
  stopped: "the check was stopped",
  "no-key": "there is no key to check the head with: give it with --key",
  "key-unreadable": "the key is no line of the form name+fingerprint+key",
};

/** Sentences, the verdict first. */
export function verifyWords(verdict: Verdict): readonly string[] {
  if (verdict.type === "not-verified") return [`Not verified: ${NOT_VERIFIED[verdict.why]}.`];
  if (verdict.type === "not-whole")
    return [
      `Not whole: ${counted(verdict.faults.length, "fault", "faults")} in ${counted(verdict.size, "entry", "entries")}.`,
      ...verdict.faults.map(({ type, number }) => `${number === null ? "The book" : `Entry ${countText(number)}`}: ${FAULTS[type]}.`),
      ...verdict.chains.map(chainSentence),
    ];
  const { size, until, files, disposed, key, chains } = verdict;
  return [
    `Whole: ${counted(size, "entry", "entries")}, unchanged since received, the newest at ${until}; ${counted(files, "file", "files")}.`,
    ...(disposed > 0 ? [`${counted(disposed, "part", "parts")} disposed of, as entries say.`] : []),
    key === "given"
      ? "The head is signed with the key that was given."
      : "The key was read in the book itself: this shows that the book agrees with itself. Give the key that was kept elsewhere with --key to show whose it is.",
    ...chains.map(chainSentence),
    "It shows that nothing was changed since, not that what was written is right.",
  ];
}

function chainSentence(remark: ChainRemark): string {
  const device = `Device ${remark.device}`;
  if (remark.type === "fork")
    return `${device}: entry ${countText(remark.number)} does not follow what the device said before it (its ${countText(remark.sequence)}).`;
  const { from, to } = remark;
  const which = from === to ? `its submission ${countText(from)} is` : `its submissions ${countText(from)} to ${countText(to)} are`;
  return `${device}: ${which} not here: not handed over yet, or lost.`;
}
