import type { ReactElement } from "react";
import type { ColumnMapping } from "../../core/table/mapping.ts";
import { choiceText, countText, gasWords, topicWords } from "../../report/index.ts";
import type { Opened } from "../desk/protocol.ts";
import { cellChanges } from "./trial.ts";

type Named = "unit" | "gas" | "reading kind" | "decimal mark" | "range top";

const settled: readonly (readonly [Named, (column: ColumnMapping) => string | null])[] = [
  ["unit", (column) => column.unit],
  ["gas", (column) => (column.gas === null ? null : gasWords(column.gas))],
  ["reading kind", (column) => column.kind],
  ["decimal mark", (column) => column.decimalMark],
  ["range top", (column) => column.rangeTop],
];

/** What the mapping says of each column, before and now: what a person answered stands there also where no guess does. */
const columnChanges = (before: Opened, after: Opened): readonly string[] =>
  (after.mapping?.columns ?? []).flatMap((column, place) => {
    const old = before.mapping?.columns[place];
    if (old === undefined || old.label !== column.label) return [];
    return settled.flatMap(([topic, of]) => {
      const [was, now] = [of(old), of(column)];
      if (was === now) return [];
      return [`${topicWords(topic)} of ${column.label}: ${now ?? "not said"}, before ${was ?? "not said"}`];
    });
  });

const guessChanges = (before: Opened, after: Opened): readonly string[] => {
  const key = (topic: string, column: string | null): string => `${topic}/${column ?? ""}`;
  const old = new Map((before.proposal?.guesses ?? []).map((guess) => [key(guess.topic, guess.column), guess.chosen]));
  return (after.proposal?.guesses ?? []).flatMap((guess) => {
    if (guess.column !== null && settled.some(([topic]) => topic === guess.topic)) return [];
    const was = old.get(key(guess.topic, guess.column));
    if (was === guess.chosen) return [];
    const what = guess.column === null ? topicWords(guess.topic) : `${topicWords(guess.topic)} of ${guess.column}`;
    const now = choiceText({ value: guess.chosen, reasons: [] });
    return [was === undefined ? `${what}: ${now}, as you said` : `${what}: ${now}, before ${choiceText({ value: was, reasons: [] })}`];
  });
};

const cellsChanged = (before: Opened, after: Opened): number =>
  before.proposal === null || after.proposal === null ? 0 : cellChanges(before.proposal.preview, after.proposal.preview).length;

const readings = (opened: Opened): number => opened.channels.reduce((sum, channel) => sum + channel.rows, 0);

/** What the last correction did, in words; the cells themselves show it below. */
export const Changes = ({ before, after }: { readonly before: Opened; readonly after: Opened }): ReactElement => {
  const lines = [...new Set([...columnChanges(before, after), ...guessChanges(before, after)])];
  const cells = cellsChanged(before, after);
  const from = readings(before);
  const to = readings(after);
  const nothing = lines.length === 0 && cells === 0 && from === to;
  return (
    <section aria-live="polite">
      <h2>What your answer changed</h2>
      {nothing && <p>Nothing: the file reads the same.</p>}
      {lines.map((line) => (
        <p key={line}>{line}</p>
      ))}
      {cells > 0 && <p>{countText(cells)} of the cells shown below read differently; each says what it was.</p>}
      {from !== to && (
        <p>
          {countText(to)} readings stand now, {from === 0 ? "none" : countText(from)} before.
        </p>
      )}
    </section>
  );
};
