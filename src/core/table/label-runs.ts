/**
 * Columns that may name who or what a row belongs to. Rows of two wearers or instruments in one file are two
 * recordings: taken as one, each would fill the gaps of the other.
 */
import { nothingSeen, type Sighting, see } from "./evidence.ts";
import { isTradeLabel } from "./label.ts";

/** Texts of a column that are told apart; a column with more is no label of rows, unless its heading says so. */
const MOST_TEXTS = 64;
const MOST_NUMBERS = 16;
const MOST_NAMES = 4_096;
/** So many rows without a text that comes twice count the rows. */
const COUNTER_ROWS = 64;
/** A step so much longer than the others of a text leaves a hole in its rows; a shorter one does not. */
const HOLE = 1.5;

interface TextRun {
  rows: number;
  lastTime: number;
  /** Longest step between neighbours in the file, and shortest step over rows of other texts. */
  longestStep: number;
  shortestReturn: number;
}

interface Group {
  text: string;
  time: number;
  readonly texts: Map<string, TextRun>;
}

/** What the rows have shown of one column: plain data. */
export interface LabelSeen {
  /** True: the heading is that of a person, an instrument or their number. */
  readonly isTrade: boolean;
  readonly isNumber: boolean;
  rows: number;
  blank: number;
  /** It holds too much that differs, or no whole numbers. */
  isGivenUp: boolean;
  readonly names: Set<string>;
  /** Changes of the text at which the time stood still or fell back. */
  readonly falls: Sighting;
  /** Changes back to a text that was there before. */
  readonly returns: Sighting;
  /** First change of the text. */
  readonly changes: Sighting;
  /** Rows of one sensor and one series. */
  readonly groups: Map<string, Group>;
}

export const noLabelSeen = (label: string, isNumber: boolean): LabelSeen => ({
  isTrade: isTradeLabel(label),
  isNumber,
  rows: 0,
  blank: 0,
  isGivenUp: false,
  names: new Set(),
  falls: nothingSeen(),
  returns: nothingSeen(),
  changes: nothingSeen(),
  groups: new Map(),
});

/** Enters one row. `group` is the sensor and the series that it belongs to: texts are compared within them. */
export function seeLabel(seen: LabelSeen, group: string, text: string, time: number, line: number): void {
  seen.rows++;
  if (text === "") seen.blank++;
  seen.names.add(text);
  if (isNoLabel(seen, text)) {
    seen.isGivenUp = true;
    seen.groups.clear();
    return;
  }
  const known = seen.groups.get(group);
  if (known === undefined) {
    seen.groups.set(group, { text, time, texts: new Map([[text, firstRun(time)]]) });
    return;
  }
  const run = known.texts.get(text);
  if (text === known.text && run !== undefined) run.longestStep = Math.max(run.longestStep, time - known.time);
  else seeChange(seen, known, run, text, time, line);
  if (run === undefined) known.texts.set(text, firstRun(time));
  else {
    run.rows++;
    run.lastTime = time;
  }
  known.text = text;
  known.time = time;
}

/** Enters rows of the short way: the text of the last row goes on, with times that rise to `time`. */
export function passLabel(seen: LabelSeen, group: string, rows: number, time: number): void {
  const known = seen.groups.get(group);
  const run = known?.texts.get(known.text);
  if (known === undefined || run === undefined || rows === 0) return;
  seen.rows += rows;
  if (known.text === "") seen.blank += rows;
  run.rows += rows;
  run.longestStep = Math.max(run.longestStep, (time - known.time) / rows);
  run.lastTime = time;
  known.time = time;
}

const firstRun = (time: number): TextRun => ({
  rows: 1,
  lastTime: time,
  longestStep: Number.NEGATIVE_INFINITY,
  shortestReturn: Number.POSITIVE_INFINITY,
});

function seeChange(seen: LabelSeen, group: Group, run: TextRun | undefined, text: string, time: number, line: number): void {
  see(seen.changes, line, text);
  if (time <= group.time) see(seen.falls, line, text);
  if (run === undefined) return;
  see(seen.returns, line, text);
  run.shortestReturn = Math.min(run.shortestReturn, time - run.lastTime);
}

function isNoLabel({ isTrade, isNumber, names, rows }: LabelSeen, text: string): boolean {
  if (isTrade) return names.size > MOST_NAMES || (isNumber && rows >= COUNTER_ROWS && names.size === rows);
  if (isNumber) return names.size > MOST_NUMBERS || (text !== "" && !/^\d{1,15}$/.test(text));
  return names.size > MOST_TEXTS;
}

/** Where the rows show that the texts of a column may be recordings of their own; null where they do not. */
export function severalRuns(seen: LabelSeen): Sighting | null {
  if (seen.isGivenUp || seen.names.size < 2 || seen.changes.count === 0) return null;
  if (seen.isTrade) return seen.isNumber && seen.names.size === seen.rows ? null : seen.changes;
  if (seen.blank > 0) return null;
  if (seen.falls.count > 0) return seen.falls;
  return seen.returns.count > 0 && [...seen.groups.values()].some((group) => !isOneRun(group)) ? seen.returns : null;
}

/**
 * A state of one run fills the holes that it leaves in another: whoever comes back has been away for longer than a
 * step. Of two runs each keeps its own steps, whatever stands between.
 */
function isOneRun({ texts }: Group): boolean {
  const runs = [...texts.values()];
  const hasMain = runs.some(({ rows, longestStep }) => longestStep > 0 && rows * 2 >= runs.reduce((sum, run) => sum + run.rows, 0));
  const isBack = ({ longestStep, shortestReturn }: TextRun): boolean => longestStep <= 0 || shortestReturn >= HOLE * longestStep;
  return (hasMain || runs.every(({ shortestReturn }) => shortestReturn === Number.POSITIVE_INFINITY)) && runs.every(isBack);
}
