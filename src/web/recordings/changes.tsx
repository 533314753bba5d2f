import type { ReactElement } from "react";
import type { PreviewRow } from "../../core/table/reading.ts";
import { choiceText, countText, topicWords } from "../../report/index.ts";
import type { Opened } from "../desk/protocol.ts";

const guessChanges = (before: Opened, after: Opened): readonly string[] => {
  const key = (topic: string, column: string | null): string => `${topic}/${column ?? ""}`;
  const old = new Map((before.proposal?.guesses ?? []).map((guess) => [key(guess.topic, guess.column), guess.chosen]));
  return (after.proposal?.guesses ?? []).flatMap((guess) => {
    const was = old.get(key(guess.topic, guess.column));
    if (was === guess.chosen) return [];
    const what = guess.column === null ? topicWords(guess.topic) : `${topicWords(guess.topic)} of ${guess.column}`;
    const now = choiceText({ value: guess.chosen, reasons: [] });
    return [was === undefined ? `${what}: ${now}, as you said` : `${what}: ${now}, before ${choiceText({ value: was, reasons: [] })}`];
  });
};

const cellsChanged = (before: Opened, after: Opened): number => {
  const rows = (opened: Opened): readonly PreviewRow[] => [
    ...(opened.proposal?.preview.first ?? []),
    ...(opened.proposal?.preview.worst ?? []),
  ];
  const old = new Map(rows(before).map((row) => [row.line, row]));
  const now = new Map(rows(after).map((row) => [row.line, row]));
  return [...now.values()].reduce(
    (sum, row) => sum + row.parsed.filter((cell, place) => old.has(row.line) && old.get(row.line)?.parsed[place] !== cell).length,
    0,
  );
};

const readings = (opened: Opened): number => opened.channels.reduce((sum, channel) => sum + channel.rows, 0);

/** What the last correction did, in words; the cells themselves show it below. */
export const Changes = ({ before, after }: { readonly before: Opened; readonly after: Opened }): ReactElement => {
  const lines = guessChanges(before, after);
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
