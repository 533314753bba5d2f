/** Cells into evidence. */
import { type ColumnEvidence, see, seeIn, type TimeEvidence } from "./evidence.ts";
import { type NumberSeen, numberForm, plainDigits } from "./number-text.ts";
import { plainTime } from "./plain-time.ts";
import { type TimeText, timeText } from "./time-text.ts";
import type { Vocabulary } from "./vocabulary.ts";
import { isSentinelNumber, likelyMeaning } from "./words.ts";

const MOST_WORDS = 64;
const MOST_TEXTS = 64;
const MOST_SAMPLES = 64;

/** Enters one cell, spaces trimmed, into what is known of its column. */
export function gatherCell(column: ColumnEvidence, cell: string, line: number, vocabulary: Vocabulary): void {
  if (cell === "") {
    column.blank++;
    return;
  }
  column.filled++;
  if (cell !== column.lastText) {
    column.changes++;
    column.lastText = cell;
    if (column.texts.size < MOST_TEXTS) column.texts.add(cell);
  }
  // What a text is follows from the text alone: a word that was seen is a word again.
  const word = column.words.get(cell);
  if (word !== undefined) {
    word.count++;
    return;
  }
  const plain = plainTime(cell);
  if (plain !== null) {
    gatherTime(column.times, plain, cell, line);
    return;
  }
  const number = numberForm(cell);
  if (number !== null && number.form !== "wrong grouping" && isNumberWithUnit(number, vocabulary)) {
    gatherNumber(column, cell, number, line, vocabulary);
    return;
  }
  const time = timeText(cell);
  if (time !== null) gatherTime(column.times, time, cell, line);
  else if (number !== null && number.unitText === "" && likelyMeaning(cell) === null) gatherNumber(column, cell, number, line, vocabulary);
  else if (!seeIn(column.words, cell, line, MOST_WORDS)) column.moreWords++;
}

/** A short word after a number may be a unit of something else (`12 V`); a longer text makes it no number. */
const isNumberWithUnit = ({ unitText }: NumberSeen, vocabulary: Vocabulary): boolean =>
  unitText === "" || vocabulary.unitFromText(unitText) !== null || /^[^\s\d]{1,5}$/u.test(unitText);

function gatherNumber(column: ColumnEvidence, cell: string, number: NumberSeen, line: number, vocabulary: Vocabulary): void {
  column.numbers++;
  seeForm(column, number, line, cell);
  if (number.leadingNought) column.leadingNoughts++;
  if (number.bound !== null) {
    see(column.bounds, line, cell);
    return;
  }
  if (number.unitText !== "") {
    const known = column.units.get(number.unitText);
    if (known !== undefined) known.count++;
    else if (column.units.size < 16)
      column.units.set(number.unitText, { count: 1, line, text: number.unitText, unit: vocabulary.unitFromText(number.unitText) });
    return;
  }
  if (number.form === "whole" || number.form === "point" || number.form === "point three") gatherValue(column, cell, line);
}

function seeForm(column: ColumnEvidence, number: NumberSeen, line: number, text: string): void {
  const known = column.forms.get(number.form);
  if (known !== undefined) known.count++;
  else column.forms.set(number.form, { count: 1, line, text });
}

function gatherValue(column: ColumnEvidence, cell: string, line: number): void {
  const value = Number(plainDigits(cell));
  if (isSentinelNumber(value)) {
    seeIn(column.sentinels, plainDigits(cell), line, 16);
    return;
  }
  if (value > column.greatest) column.greatest = value;
  if (value < column.lowest) column.lowest = value;
}

function gatherTime(times: TimeEvidence, time: TimeText, text: string, line: number): void {
  if (time.date !== null && time.clock !== null) times.complete++;
  else if (time.date !== null) times.dates++;
  else times.clocks++;
  if (time.clock?.isTwelveHour === true) times.twelveHour++;
  if (time.offset !== null) times.withOffset++;
  else if (time.letters !== null) seeIn(times.letters, time.letters, line, 16);
  else see(times.local, line, text);
  if (time.date === null) return;
  if (times.samples.length < MOST_SAMPLES) times.samples.push({ line, text });
  if (time.date.order === "year first") times.yearFirst++;
  if (time.date.twoDigitYear) see(times.twoDigitYears, line, text);
  if (time.date.order !== "numbers") return;
  times.numbers++;
  greatest(times.first, time.date.first, line, text);
  greatest(times.second, time.date.second, line, text);
  greatest(times.third, time.date.third, line, text);
}

/** Here `count` of a sighting holds the greatest number seen. */
function greatest(sighting: { count: number; line: number; text: string }, value: number, line: number, text: string): void {
  if (value <= sighting.count) return;
  sighting.count = value;
  sighting.line = line;
  sighting.text = text;
}
