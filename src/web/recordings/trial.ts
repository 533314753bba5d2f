/** Answers that are chosen and not sent yet, tried on the rows shown: a person sees what an answer means before it is taken. */
import { useEffect, useState } from "react";
import type { TableMapping } from "../../core/table/mapping.ts";
import type { Question } from "../../core/table/question.ts";
import type { Preview, PreviewRow } from "../../core/table/reading.ts";
import { desk } from "../desk/desk.ts";
import type { Held } from "../desk/shelf.ts";

export type Chosen = Readonly<Record<string, string>>;

/** Answers that were really chosen: a blank one is none. */
export const filledIn = (chosen: Chosen): Chosen => Object.fromEntries(Object.entries(chosen).filter(([, value]) => value.trim() !== ""));

export interface Trial {
  readonly preview: Preview;
  readonly mapping: TableMapping;
}

/** The rows as they would read; null while nothing is chosen, or where only a new reading can tell. */
export const useTrial = ({ id, given }: Held, chosen: Chosen): Trial | null => {
  const [trial, setTrial] = useState<Trial | null>(null);
  useEffect(() => {
    const answers = filledIn(chosen);
    let wanted = true;
    if (Object.keys(answers).length === 0) setTrial(null);
    else
      void desk()
        .ask({ type: "preview", id, answers: { ...given, ...answers } })
        .reply.then((reply) => wanted && setTrial(reply));
    return () => {
      wanted = false;
    };
  }, [id, given, chosen]);
  return trial;
};

const rowsOf = ({ first, worst }: Preview): readonly PreviewRow[] => [...worst, ...first];

export interface CellChange {
  readonly line: number;
  readonly raw: string;
  readonly was: string | null;
  readonly now: string | null;
}

/** Cells that read differently, each line once. */
export const cellChanges = (before: Preview, after: Preview): readonly CellChange[] => {
  const old = new Map(rowsOf(before).map((row) => [row.line, row]));
  const now = new Map(rowsOf(after).map((row) => [row.line, row]));
  return [...now.values()].flatMap((row) =>
    row.parsed.flatMap((cell, place) => {
      const was = old.get(row.line)?.parsed[place];
      return was === undefined || was === cell ? [] : [{ line: row.line, raw: row.raw[place] ?? "", was, now: cell }];
    }),
  );
};

/** Until it is said which number is the day, a date is not understood: what one order would make of it must not be shown as known. */
export const isDateOpen = (questions: readonly Question[], chosen: Chosen): boolean =>
  questions.some(({ id, topic, blocking }) => topic === "day and month" && blocking && (chosen[id] ?? "").trim() === "");
