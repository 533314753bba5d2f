/** Keeps what is said of the files on this page, and hears what other windows of this browser say of the same files. */
import { alter, filesHeld, find, type Held, noSettings, restate } from "./held-files.ts";
import { forgetRecording, type KeptRecording, keepRecording, keptRecording } from "./kept.ts";
import { mergeWords, sameReading, sameWords, type Words, wordsOf } from "./merge-said.ts";

/** What this page and the browser's store held in common last, by SHA-256 of the file. */
const agreed = new Map<string, { readonly revision: number; readonly words: Words }>();

export const agreeOn = (kept: Omit<KeptRecording, "file">): void => {
  agreed.set(kept.sha256, { revision: kept.revision, words: wordsOf(kept) });
};

const nothingSaid: Words = { given: {}, mapping: null, settings: noSettings };

type Told = { readonly kept: string } | { readonly forgotten: string };

const windows = new BroadcastChannel("lamproom");
const tell = (told: Told): void => windows.postMessage(told);

/** `act` computes anew what follows from words that came from another window; `isReadAnew`: the file is read otherwise. */
export const hearOtherWindows = (act: (id: string, isReadAnew: boolean) => void): void => {
  onMerged = act;
  windows.addEventListener("message", ({ data }: MessageEvent<Told>) => {
    if ("kept" in data) keeping = keeping.then(() => hear(data.kept));
    else hearForgotten(data.forgotten);
  });
};

let onMerged: (id: string, isReadAnew: boolean) => void = () => undefined;
let keeping: Promise<void> = Promise.resolve();

/** Whatever was said of a file is kept at once, one writing after the other, so that the last word stands. */
export const keep = (id: string): void => {
  keeping = keeping.then(() => keepNow(id));
};

export const reasonOf = (fault: unknown): string => (fault instanceof Error ? fault.message : String(fault));

const keepNow = async (id: string): Promise<void> => {
  const one = find(id);
  const sha256 = one?.opened?.sha256 ?? null;
  if (one === undefined || sha256 === null || !isWorthKeeping(one)) return;
  const ours = wordsOf(one);
  let differ: readonly string[] = [];
  const { file, takenAt } = one;
  const said = { sha256, id, name: file.name, size: file.size, takenAt };
  try {
    const kept = await keepRecording(said, file, (there) => {
      const known = agreed.get(sha256);
      if (there === null || there.revision === known?.revision) return ours;
      // Taken in by two windows at once: before that nothing was said.
      const merged = mergeWords(known?.words ?? nothingSaid, ours, wordsOf(there));
      differ = merged.differ;
      return merged.words;
    });
    // Put away while it was being written: it must not come back.
    if (find(id) === undefined) await forgetRecording(sha256);
    else {
      agreeOn(kept.said);
      alter(id, { kept: kept.isWhole ? "whole" : "said only" });
      takeOver(id, ours, wordsOf(kept.said), differ);
      tell({ kept: sha256 });
    }
  } catch (fault) {
    restate({ keepsNothing: reasonOf(fault) });
  }
};

/** Of a file that cannot be read nothing can be said, so there is nothing to keep. */
const isWorthKeeping = ({ opened }: Held): boolean => opened !== null && (opened.channels.length > 0 || opened.questions.length > 0);

/** What another window said of a file that is open here stands here too. */
const hear = async (sha256: string): Promise<void> => {
  const one = filesHeld().find((each) => each.opened?.sha256 === sha256);
  const known = agreed.get(sha256);
  if (one === undefined || known === undefined) return;
  // The next writing says so, where this browser keeps nothing any more.
  const there = await keptRecording(sha256).catch(() => null);
  if (there === null || there.revision <= known.revision) return;
  const ours = wordsOf(find(one.id) ?? one);
  const { words, differ } = mergeWords(known.words, ours, wordsOf(there));
  agreeOn(there);
  takeOver(one.id, ours, words, differ);
  // What was said here and not written yet is written now, over what is there.
  if (!sameWords(words, there)) await keepNow(one.id);
};

/** `ours`: as this page had it when it was put together with what was there. */
const takeOver = (id: string, ours: Words, merged: Words, differ: readonly string[]): void => {
  const now = find(id);
  if (now === undefined || sameWords(ours, merged)) {
    if (differ.length > 0) alter(id, { heard: heardWords(differ) });
    return;
  }
  const { words } = mergeWords(ours, wordsOf(now), merged);
  // An undo would take back what the other window said too.
  alter(id, { ...words, undo: null, heard: heardWords(differ) });
  onMerged(id, !sameReading(now, words));
};

const heardWords = (differ: readonly string[]): string =>
  differ.length === 0
    ? "Another window of this browser said something of this recording: it stands here too."
    : `Another window of this browser changed ${differ.join(", ")} too: what was chosen here stands, in both.`;

const hearForgotten = (sha256: string): void => {
  agreed.delete(sha256);
  const one = filesHeld().find((each) => each.opened?.sha256 === sha256);
  if (one !== undefined)
    alter(one.id, {
      kept: "no",
      heard:
        "Another window of this browser put this recording away. It stays here until the page closes; whatever is said of it here keeps it again.",
    });
};

export const forget = async (sha256: string): Promise<void> => {
  agreed.delete(sha256);
  try {
    await forgetRecording(sha256);
    tell({ forgotten: sha256 });
  } catch (fault) {
    restate({ says: `This browser could not forget it: ${reasonOf(fault)}` });
  }
};
