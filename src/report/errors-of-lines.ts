/** Faults of a line of a file: what is wrong, and what to do about it. */
import type { FaultType, LineFault } from "../core/table/question.ts";
import { shortened } from "./catalogue.ts";

export interface FaultEntry {
  /** What is wrong, without the line: "the row has fewer cells than the heading". */
  readonly says: string;
  readonly mend: string;
}

export const FAULTS: { readonly [Type in FaultType]: FaultEntry } = {
  "blank row": { says: "the row is blank", mend: "Nothing to mend unless readings are missing here." },
  "missing cell": { says: "the row has fewer cells than the heading", mend: "Export the row again, or add the missing cells." },
  "extra cell": { says: "the row has more cells than the heading", mend: "Look for a decimal comma or a delimiter inside a cell." },
  "not a number": { says: "this is not a number", mend: "Say what the text stands for (over range, no reading, fault), or mend the cell." },
  "wrong grouping": { says: "the digits are grouped in a way that no number is", mend: "Check which mark is the decimal mark." },
  "not a time": {
    says: "this is not a time of the form that the column has",
    mend: "Mend the cell, or answer the question of the time form.",
  },
  "impossible time": {
    says: "no calendar or clock has this time",
    mend: "Check day, month and hour in the file; the row is left out until then.",
  },
  "encoding error": { says: "these bytes are no text in the file's encoding", mend: "Save the file as UTF-8, or name its encoding." },
  "nul byte": { says: "the line holds a byte of value nought", mend: "Copy the file from the instrument again: the line is damaged." },
  "text after the closing quote": {
    says: "text follows a closing quotation mark",
    mend: "Double the quotation marks inside the cell, or take them away.",
  },
  "unclosed quote": { says: "a quotation mark opens here and does not close", mend: "Close or take away the quotation mark." },
  "cut off": { says: "the file ends inside this line", mend: "Copy it from the instrument again; the end of the recording is not known." },
  "duplicate row": { says: "the row stands in the file twice", mend: "Nothing to mend: it counts once." },
  "out of order": {
    says: "the row is older than the one before it",
    mend: "Nothing to mend if it is a late row: rows are put in order of time.",
  },
  "conflicting readings": {
    says: "two readings claim one instant",
    mend: "Both are kept as the lowest and the highest that it can have been.",
  },
  "time runs backwards": {
    says: "the time is earlier than on the line before",
    mend: "Check whether the clock was set, or two recordings stand in one file.",
  },
  "clock jump": {
    says: "the clock was set here",
    mend: "Both sides of the jump are marked; say by how much the clock was wrong if you know.",
  },
  "impossible value": { says: "no air has this value", mend: "Check unit and decimal mark of the column." },
  "unit changed": { says: "the unit changes here", mend: "Split the file here, so that each part has one unit." },
  footer: { says: "the line stands after the table", mend: "Nothing to mend: it is kept as a note." },
  "neither comment nor table": { says: "the line is neither a comment nor a row", mend: "Answer whether it is to be left out." },
  "line too long": { says: "the line is longer than a million bytes", mend: "Check the line ends of the file." },
};

/**
 * A fault of a line in a sentence: line, column, value, what to do.
 *
 * @example
 * ```ts
 * import { faultSentence } from "./errors-of-lines.ts";
 * faultSentence({ type: "impossible time", line: 7, byteOffset: 210, column: "Time", raw: "31/02/2026 10:00", rejected: true }); // => "Line 7, column Time: \"31/02/2026 10:00\": no calendar or clock has this time. The row is left out. Check day, month and hour in the file; the row is left out until then."
 * ```
 */
export function faultSentence(fault: LineFault): string {
  const entry = FAULTS[fault.type];
  const place = `Line ${fault.line}${fault.column === null ? "" : `, column ${shortened(fault.column)}`}`;
  const raw = fault.raw.trim() === "" ? "" : ` "${shortened(fault.raw)}":`;
  return `${place}:${raw} ${entry.says}. ${fault.rejected ? "The row is left out." : keptWords(fault.type)} ${entry.mend}`;
}

/** A bad cell beside good ones: its own channel has a gap there, the others keep their readings. */
const CELL_FAULTS: ReadonlySet<string> = new Set(["not a number", "wrong grouping", "impossible value", "unit changed"]);

const keptWords = (type: string): string =>
  CELL_FAULTS.has(type) ? "This reading is a gap; the others of the row are kept." : "The row is kept.";
