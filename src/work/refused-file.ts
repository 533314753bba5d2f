/** The answer of a file that could not even be opened. */
import { refusalWords } from "../report/index.ts";
import type { FileAnswer, FileRefusal } from "./answer.ts";

export function refusedFile(file: string, refusal: FileRefusal): FileAnswer {
  const nothing = { sha256: null, bytes: 0, timeBasis: null, zone: null, lines: null } as const;
  const empty = { shifts: [], channels: [], guesses: [], questions: [], faults: [], moreFaults: {}, notes: [] } as const;
  return { file, ...nothing, ...empty, refusal: { ...refusal, ...refusalWords(refusal) } };
}
