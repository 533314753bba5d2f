/** Words and numbers that stand where a reading should: what each means is asked, never taken. */
import { type Asking, choice, reason } from "./asking.ts";
import type { ColumnEvidence } from "./evidence.ts";
import type { WordMapping } from "./mapping.ts";
import type { NamedColumn } from "./role.ts";
import { isNotANumberText, isWidthLimit, likelyMeaning, type WordMeaning } from "./words.ts";

/** An unknown word in so many rows is no slip of one line: it is asked about; in fewer, its lines are rejected. */
const FREQUENT = 3;

const MEANINGS: readonly WordMeaning[] = ["no reading", "over range", "under range", "fault"];

export interface WordsFound {
  readonly words: WordMapping;
  /** Ids of columns in which something says "over range" without saying what the range is. */
  readonly overRangeIn: ReadonlySet<string>;
}

export function wordsOf(asking: Asking, readings: readonly NamedColumn[], statuses: readonly NamedColumn[]): WordsFound {
  const meanings: Record<WordMeaning, string[]> = { "no reading": [], "over range": [], "under range": [], fault: [] };
  const overRangeIn = new Set<string>();
  const take = (text: string, meaning: WordMeaning | null, columns: readonly NamedColumn[]): void => {
    if (meaning === null) return;
    meanings[meaning].push(text);
    if (meaning === "over range") for (const column of columns) overRangeIn.add(column.id);
  };
  for (const [text, columns] of textsOf(readings, (evidence) => evidence.words)) take(text, wordMeaning(asking, text, columns), columns);
  for (const [text, columns] of textsOf(readings, isolatedSentinels)) take(text, sentinelMeaning(asking, text, columns), columns);
  const words = {
    overRange: meanings["over range"],
    underRange: meanings["under range"],
    noReading: meanings["no reading"],
    fault: meanings.fault,
    badStatus: badStatuses(asking, statuses),
  };
  return { words, overRangeIn };
}

function textsOf(
  columns: readonly NamedColumn[],
  pick: (evidence: ColumnEvidence) => ReadonlyMap<string, { line: number }>,
): [string, NamedColumn[]][] {
  const found = new Map<string, NamedColumn[]>();
  for (const column of columns) for (const text of pick(column.evidence).keys()) found.set(text, [...(found.get(text) ?? []), column]);
  return [...found];
}

function wordMeaning(asking: Asking, text: string, columns: readonly NamedColumn[]): WordMeaning | null {
  const [column] = columns as [NamedColumn]; // a text comes from a column
  const sighting = column.evidence.words.get(text);
  const samples = [{ line: sighting?.line ?? 0, text }];
  if (isNotANumberText(text) && asking.answerTo(`word/${text}`) === null) {
    asking.note("word", text, "no reading", "certain", [reason("IEEE 754 text for not a number", samples[0]?.line, text)]);
    return null;
  }
  const likely = likelyMeaning(text);
  const count = columns.reduce((sum, { evidence }) => sum + (evidence.words.get(text)?.count ?? 0), 0);
  if (likely === null && count < FREQUENT && asking.answers[`word/${text}`] === undefined) return null;
  const answer = asking.ask({
    id: `word/${text}`,
    topic: "word",
    column: column.id,
    samples,
    choices: [...MEANINGS, "reject the line"].map((value) => (value === likely ? choice(value, reason("common practice")) : choice(value))),
    suggested: likely,
  });
  const meaning = answer ?? likely;
  return meaning === "reject the line" ? null : (meaning as WordMeaning | null); // `ask` lets no other answer pass
}

/** Sentinels that stand far from all other numbers of their column. */
function isolatedSentinels(column: ColumnEvidence): Map<string, { line: number }> {
  const isolated = new Map<string, { line: number }>();
  for (const [digits, sighting] of column.sentinels) {
    const value = Number(digits);
    if (value > 0 ? column.greatest < value / 2 : column.lowest > value / 2) isolated.set(digits, sighting);
  }
  return isolated;
}

function sentinelMeaning(asking: Asking, digits: string, columns: readonly NamedColumn[]): WordMeaning | null {
  const [column] = columns as [NamedColumn]; // a text comes from a column
  const isWide = isWidthLimit(Number(digits));
  const because = isWide ? reason("largest number of its width") : reason("far from all other numbers of the column");
  const answer = asking.ask({
    id: `sentinel/${digits}`,
    topic: "sentinel",
    column: column.id,
    samples: [{ line: column.evidence.sentinels.get(digits)?.line ?? 0, text: digits }],
    choices: [
      choice("no reading", because),
      ...(isWide ? [choice("over range", because)] : [choice("over range")]),
      choice("under range"),
      choice("fault"),
      choice("reading"),
    ],
    suggested: isWide ? null : "no reading",
  });
  const meaning = answer ?? "no reading";
  return meaning === "reading" ? null : (meaning as WordMeaning); // `ask` lets no other answer pass
}

const GOOD_STATUS =
  /^(?:ok|okay|good|valid|normal|run(?:ning)?|measur(?:e|ing)|on|true|yes|y|0|ready|in range|alarm.*|a[12]|low|high|low alarm|high alarm|none|-)$/i;

/** Texts of a status column under which the readings of the row do not count. */
function badStatuses(asking: Asking, statuses: readonly NamedColumn[]): string[] {
  const bad: string[] = [];
  for (const column of statuses) {
    for (const [text, sighting] of column.evidence.words) {
      if (GOOD_STATUS.test(text) && asking.answers[`word/${text}`] === undefined) continue;
      const isFault = likelyMeaning(text) === "fault";
      const answer = asking.ask({
        id: `word/${text}`,
        topic: "word",
        column: column.id,
        samples: [{ line: sighting.line, text }],
        choices: [choice("fault"), choice("reading counts")],
        suggested: isFault ? "fault" : null,
      });
      if ((answer ?? (isFault ? "fault" : "")) === "fault") bad.push(text);
    }
  }
  return bad;
}
