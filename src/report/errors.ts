/**
 * The one catalogue of everything that a person can be told went wrong: refusals of a file or a call, and faults of a
 * line. For each: its code, a sentence, what mends it, the exit code of the command line and the HTTP status.
 * docs/errors.md is written from it, and a test holds it equal to the types.
 */
import type { AssessmentRefusal } from "../core/exposure/assessment.ts";
import type { FaultType, LineFault, TableRefusal } from "../core/table/question.ts";
import { nearZoneNames } from "../core/time/index.ts";
import type { CallRefusal, DoorRefusal, SlateRefusal } from "./door-refusal.ts";
import { exactText, NARROW_SPACE } from "./digits.ts";

/** Every refusal that has a sentence. */
export type Refusal = TableRefusal | AssessmentRefusal | DoorRefusal | SlateRefusal | CallRefusal;

/** 0 answered, 1 a file or calculation refused, 2 wrong call, 3 the disk or the network did not do its part. */
export type ExitCode = 1 | 2 | 3;

export interface CatalogueEntry<Shape> {
  readonly exit: ExitCode;
  readonly status: 400 | 404 | 409 | 413 | 415 | 421 | 422 | 499 | 500 | 503;
  readonly says: (refusal: Shape) => string;
  readonly mend: (refusal: Shape) => string;
  /** Shown in docs/errors.md, put through the same two sentences. */
  readonly example: Shape;
}

type Catalogue = { readonly [Type in Refusal["type"]]: CatalogueEntry<Extract<Refusal, { readonly type: Type }>> };

export const REFUSALS: Catalogue = {
  "empty-file": {
    exit: 1,
    status: 422,
    says: () => "The file is empty: it has no bytes.",
    mend: () => "Copy it from the instrument again, and check that the copy has a size.",
    example: { type: "empty-file" },
  },
  "not-a-table": {
    exit: 1,
    status: 415,
    says: ({ looksLike }) => `This is not a table: it looks like ${NOT_A_TABLE[looksLike]}.`,
    mend: ({ looksLike }) => NOT_A_TABLE_MENDS[looksLike],
    example: { type: "not-a-table", looksLike: "PDF", offerJson: false },
  },
  "quote-never-closed": {
    exit: 1,
    status: 422,
    says: ({ line }) => `Line ${line}: a quotation mark opens here and never closes, so the rest of the file cannot be told apart.`,
    mend: ({ line }) => `Close or take away the quotation mark on line ${line}, or export the file again.`,
    example: { type: "quote-never-closed", line: 1 },
  },
  "no-time-column": {
    exit: 1,
    status: 422,
    says: ({ labels }) => `No column holds times. The columns are ${listed(labels)}.`,
    mend: () => "Export the recording with its time column, or with seconds from the start.",
    example: { type: "no-time-column", labels: ["CO", "O2"] },
  },
  "no-reading-column": {
    exit: 1,
    status: 422,
    says: ({ labels }) => `No column holds gas readings. The columns are ${listed(labels)}.`,
    mend: () => "Export the readings beside the times, or say in a mapping which column holds readings.",
    example: { type: "no-reading-column", labels: ["Time", "Remark"] },
  },
  "unknown-zone": {
    exit: 1,
    status: 422,
    says: ({ zone }) => `There is no time zone called "${zone}".`,
    mend: ({ zone }) => zoneMend(nearZoneNames(zone)),
    example: { type: "unknown-zone", zone: "Europe/Lodnon" },
  },
  "bad-answer": {
    exit: 1,
    status: 422,
    says: ({ question, answer }) => `"${answer}" is no answer to the question "${question}" about this file.`,
    mend: ({ question }) => `Call again without that answer: the question "${question}" is then shown with what it takes.`,
    example: { type: "bad-answer", question: "day and month", answer: "sometimes" },
  },
  "mapping-does-not-fit": {
    exit: 1,
    status: 409,
    says: ({ fingerprint, expected }) =>
      `The mapping was made for another heading: this file has the fingerprint ${fingerprint}, the mapping ${expected}.`,
    mend: () => "Read the file without the mapping, answer its questions, and save a mapping for this heading.",
    example: { type: "mapping-does-not-fit", fingerprint: "5b1f…", expected: "90aa…" },
  },
  "encoding-not-readable": {
    exit: 1,
    status: 415,
    says: ({ encoding }) => `The text is not readable as ${encoding}.`,
    mend: () => "Save the file as UTF-8, or answer the question of its encoding with another name.",
    example: { type: "encoding-not-readable", encoding: "shift-jis" },
  },
  "questions-open": {
    exit: 1,
    status: 422,
    says: ({ questions }) =>
      `The file does not settle ${questions.length === 1 ? "one thing" : `${questions.length} things`} that change what it means: ${questions.map(({ id }) => id).join(", ")}.`,
    mend: () => "Answer each question below; a mapping keeps the answers for every file with this heading.",
    example: { type: "questions-open", questions: [{ id: "zone", topic: "zone", column: null, samples: [], choices: [], suggested: null, blocking: true }] },
  },
  "longer-than-a-day": {
    exit: 1,
    status: 422,
    says: ({ hours }) => `The recording is ${exactText(Math.floor(hours * 10) / 10)}${NARROW_SPACE}h long: more than one shift can be.`,
    mend: () => "Name each shift in it: --shift FROM/TO, once a shift.",
    example: { type: "longer-than-a-day", hours: 52.5 },
  },
  "shifts-overlap": {
    exit: 1,
    status: 422,
    says: () => "Two of the shifts overlap, so the time in both would count twice.",
    mend: () => "Give shifts that end before the next begins.",
    example: { type: "shifts-overlap", first: { from: 0, to: 28_800_000 }, second: { from: 27_000_000, to: 54_000_000 } },
  },
  "shift-ends-before-start": {
    exit: 1,
    status: 422,
    says: () => "A shift ends before it begins.",
    mend: () => "Write it as FROM/TO, with the date of the next day where it passes midnight.",
    example: { type: "shift-ends-before-start", shift: { from: 28_800_000, to: 0 } },
  },
  "shift-without-readings": {
    exit: 1,
    status: 422,
    says: () => "A shift holds no reading of this recording.",
    mend: () => "Check the date and the zone of the shift against the first and last time of the file.",
    example: { type: "shift-without-readings", shift: { from: 0, to: 28_800_000 } },
  },
  "no-readings": {
    exit: 1,
    status: 422,
    says: () => "The file holds no gas reading: there is nothing to assess.",
    mend: () => "Check that the instrument was logging, and that the right file was taken.",
    example: { type: "no-readings" },
  },
  "unsampled-level-not-a-number": {
    exit: 2,
    status: 400,
    says: ({ text }) => `"${text}" is neither open, zero, like, nor a number.`,
    mend: () => "Give --unsampled open, zero, like, or the worst level in the channel's unit, such as 120.",
    example: { type: "unsampled-level-not-a-number", text: "plenty" },
  },
  "file-not-readable": {
    exit: 3,
    status: 404,
    says: ({ reason }) => `The file could not be read: ${reason}.`,
    mend: () => "Check the name, the folder and who may read it.",
    example: { type: "file-not-readable", reason: "no such file" },
  },
  "senml-not-readable": {
    exit: 1,
    status: 422,
    says: ({ line, why }) => `${line === null ? "" : `Line ${line}: `}the file looks like SenML and is not: ${why}.`,
    mend: () => "Mend the record named here; SenML is described in RFC 8428, 8798 and 9100.",
    example: { type: "senml-not-readable", line: 3, why: "a record holds both v and vs" },
  },
  "unknown-gas": {
    exit: 2,
    status: 400,
    says: ({ gas }) => `The gas table has no "${gas}".`,
    mend: ({ near }) => (near.length > 0 ? `Did you mean ${near.join(" or ")}?` : "Use an id of the gas table, such as carbon_monoxide or hydrogen_sulphide."),
    example: { type: "unknown-gas", gas: "carbon_monoxid", near: ["carbon_monoxide"] },
  },
  "shift-not-readable": {
    exit: 2,
    status: 400,
    says: ({ text, why }) => `The shift "${text}" cannot be placed on this file's clock: ${SHIFT_REASONS[why].says}.`,
    mend: ({ why }) => SHIFT_REASONS[why].mend,
    example: { type: "shift-not-readable", text: "06:00/14:00", why: "form" },
  },
  "mapping-not-readable": {
    exit: 2,
    status: 400,
    says: ({ why }) => `The mapping cannot be used: ${why}.`,
    mend: () => "Take a mapping that this program saved (docs/schemas/mapping.json), or read the file without one.",
    example: { type: "mapping-not-readable", why: "it is not JSON" },
  },
  "own-limits-not-readable": {
    exit: 2,
    status: 400,
    says: ({ why }) => `The file of own limits cannot be used: ${why}.`,
    mend: () => "Mend it after docs/schemas/own-limits.json; nothing of it was taken.",
    example: { type: "own-limits-not-readable", why: "limits/0/value is missing" },
  },
  stopped: {
    exit: 1,
    status: 499,
    says: () => "Reading was stopped before the end; nothing was kept.",
    mend: () => "Start again to have the whole file.",
    example: { type: "stopped" },
  },
  "no-such-calculator": {
    exit: 2,
    status: 404,
    says: ({ name }) => `The slate has no calculator "${name}".`,
    mend: ({ near }) => (near.length > 0 ? `Did you mean ${near.join(" or ")}?` : "lamproom slate --help names them all."),
    example: { type: "no-such-calculator", name: "twaa", near: ["twa"] },
  },
  "input-not-json": {
    exit: 1,
    status: 400,
    says: ({ why }) => `The input is not JSON: ${why}.`,
    mend: () => "Send one JSON object; lamproom slate NAME --help shows one.",
    example: { type: "input-not-json", why: "unexpected end" },
  },
  "input-missing": {
    exit: 1,
    status: 422,
    says: ({ path }) => `"${path}" is missing.`,
    mend: ({ path }) => `Give "${path}"; lamproom slate NAME --help says what it stands for.`,
    example: { type: "input-missing", path: "pieces/0/level" },
  },
  "input-unknown": {
    exit: 1,
    status: 422,
    says: ({ path }) => `This calculator has no input "${path}".`,
    mend: ({ near }) => (near.length > 0 ? `Did you mean ${near.join(" or ")}?` : "Take it away: what is not read must not look as if it were."),
    example: { type: "input-unknown", path: "limt", near: ["limit"] },
  },
  "input-not-fitting": {
    exit: 1,
    status: 422,
    says: ({ path, found, expected }) => `"${path}" is ${found}; it has to be ${expected}.`,
    mend: ({ path }) => `Mend "${path}" and send it again.`,
    example: { type: "input-not-fitting", path: "windowMinutes", found: "-15", expected: "a number above 0" },
  },
  "cannot-be-computed": {
    exit: 1,
    status: 422,
    says: ({ why }) => `This cannot be computed: ${why}.`,
    mend: ({ path }) => `Look at "${path}".`,
    example: { type: "cannot-be-computed", path: "gas", why: "10 %LEL of one basis is not 10 %LEL of another" },
  },
  "unknown-command": {
    exit: 2,
    status: 404,
    says: ({ name }) => `There is no command "${name}".`,
    mend: ({ near }) => (near.length > 0 ? `Did you mean ${near.join(" or ")}?` : "lamproom --help names them all."),
    example: { type: "unknown-command", name: "expsure", near: ["exposure"] },
  },
  "unknown-flag": {
    exit: 2,
    status: 400,
    says: ({ name }) => `There is no flag ${name}.`,
    mend: ({ near }) => (near.length > 0 ? `Did you mean ${near.join(" or ")}?` : "--help names them all."),
    example: { type: "unknown-flag", name: "--regimes", near: ["--regime"] },
  },
  "flag-without-value": {
    exit: 2,
    status: 400,
    says: ({ name, value }) => `${name} needs ${value} after it.`,
    mend: ({ name, value }) => `Write ${name} ${value}.`,
    example: { type: "flag-without-value", name: "--zone", value: "ZONE" },
  },
  "flag-with-value": {
    exit: 2,
    status: 400,
    says: ({ name }) => `${name} takes no value.`,
    mend: ({ name }) => `Write ${name} alone.`,
    example: { type: "flag-with-value", name: "--json" },
  },
  "flag-value-not-fitting": {
    exit: 2,
    status: 400,
    says: ({ name, value, expected }) => `${name} cannot be "${value}": it takes ${expected}.`,
    mend: ({ name }) => `Mend ${name}; --help shows an example.`,
    example: { type: "flag-value-not-fitting", name: "--max-gap", value: "long", expected: "seconds above 0" },
  },
  "unknown-regime": {
    exit: 2,
    status: 400,
    says: ({ regime }) => `The limits table has no regime "${regime}".`,
    mend: ({ known }) => `It has ${known.join(", ")}; a regime of your own comes in with --own-limits FILE.`,
    example: { type: "unknown-regime", regime: "OSHA", known: ["US-OSHA", "US-NIOSH"] },
  },
  "no-file": {
    exit: 2,
    status: 400,
    says: () => "No file was named.",
    mend: () => "Name files or folders, or - for standard input.",
    example: { type: "no-file" },
  },
  "port-in-use": {
    exit: 3,
    status: 503,
    says: ({ port }) => `Port ${port} is taken by another program.`,
    mend: ({ port }) => `End that program, or choose another port: PORT=${port + 1} npm start.`,
    example: { type: "port-in-use", port: 4680 },
  },
  "port-not-allowed": {
    exit: 3,
    status: 503,
    says: ({ port }) => `This account may not listen on port ${port}.`,
    mend: () => "Choose a port above 1023: PORT=4680 npm start.",
    example: { type: "port-not-allowed", port: 80 },
  },
  "foreign-host": {
    exit: 3,
    status: 421,
    says: ({ host }) => `This server answers only for this machine, not for "${host}".`,
    mend: () => "Open it as http://127.0.0.1 with the port that it printed at its start.",
    example: { type: "foreign-host", host: "elsewhere.example" },
  },
  "web-part-not-built": {
    exit: 3,
    status: 503,
    says: () => "The pages have not been built.",
    mend: () => "Start with npm start, which builds them.",
    example: { type: "web-part-not-built" },
  },
};

/** The refusal in a sentence, and what mends it. */
export function refusalWords(refusal: Refusal): { readonly message: string; readonly mend: string } {
  const entry = entryOf(refusal);
  return { message: entry.says(refusal), mend: entry.mend(refusal) };
}

export function exitCodeOf(refusal: Refusal): ExitCode {
  return entryOf(refusal).exit;
}

export function statusOf(refusal: Refusal): number {
  return entryOf(refusal).status;
}

/** The table is typed a row at a time; that the row of a refusal takes that refusal cannot be said to the compiler. */
function entryOf(refusal: Refusal): CatalogueEntry<Refusal> {
  return REFUSALS[refusal.type] as unknown as CatalogueEntry<Refusal>;
}

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
  "not a time": { says: "this is not a time of the form that the column has", mend: "Mend the cell, or answer the question of the time form." },
  "impossible time": { says: "no calendar or clock has this time", mend: "Check day, month and hour in the file; the row is left out until then." },
  "encoding error": { says: "these bytes are no text in the file's encoding", mend: "Save the file as UTF-8, or name its encoding." },
  "nul byte": { says: "the line holds a byte of value nought", mend: "Copy the file from the instrument again: the line is damaged." },
  "text after the closing quote": { says: "text follows a closing quotation mark", mend: "Double the quotation marks inside the cell, or take them away." },
  "unclosed quote": { says: "a quotation mark opens here and does not close", mend: "Close or take away the quotation mark." },
  "cut off": { says: "the file ends inside this line", mend: "Copy it from the instrument again; the end of the recording is not known." },
  "duplicate row": { says: "the row stands in the file twice", mend: "Nothing to mend: it counts once." },
  "out of order": { says: "the row is older than the one before it", mend: "Nothing to mend if it is a late row: rows are put in order of time." },
  "conflicting readings": { says: "two readings claim one instant", mend: "Both are kept as the lowest and the highest that it can have been." },
  "time runs backwards": { says: "the time is earlier than on the line before", mend: "Check whether the clock was set, or two recordings stand in one file." },
  "clock jump": { says: "the clock was set here", mend: "Both sides of the jump are marked; say by how much the clock was wrong if you know." },
  "impossible value": { says: "no air has this value", mend: "Check unit and decimal mark of the column; the reading is left out." },
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
 * import { faultSentence } from "./errors.ts";
 * faultSentence({ type: "impossible time", line: 7, byteOffset: 210, column: "Time", raw: "31/02/2026 10:00", rejected: true }); // => "Line 7, column Time: \"31/02/2026 10:00\": no calendar or clock has this time. The row is left out. Check day, month and hour in the file; the row is left out until then."
 * ```
 */
export function faultSentence(fault: LineFault): string {
  const entry = FAULTS[fault.type];
  const place = `Line ${fault.line}${fault.column === null ? "" : `, column ${fault.column}`}`;
  const raw = fault.raw.trim() === "" ? "" : ` "${shortened(fault.raw)}":`;
  return `${place}:${raw} ${entry.says}. ${fault.rejected ? "The row is left out." : "The row is kept."} ${entry.mend}`;
}

const NOT_A_TABLE = {
  PDF: "a PDF, whatever its name says",
  JSON: "JSON",
  "web page": "a web page",
  "zip or workbook": "a workbook or another zipped file",
  picture: "a picture",
  binary: "binary data without lines of text",
  "one long line": "one long line",
} as const;

const NOT_A_TABLE_MENDS = {
  PDF: "Ask the instrument's software for a text export (CSV) instead of a printed report.",
  JSON: "Only SenML is read from JSON; otherwise export the recording as text with delimiters.",
  "web page": "The download may have been a log-in page: fetch the file again.",
  "zip or workbook": "Save the sheet as text with delimiters (CSV), or unpack the archive first.",
  picture: "Export the recording itself instead of a picture of it.",
  binary: "Export the recording as text with delimiters (CSV).",
  "one long line": "Check the line ends: the file has no line that ends.",
} as const;

const SHIFT_REASONS = {
  form: { says: "it is not FROM/TO", mend: "Write 2026-03-04T06:00:00Z/2026-03-04T14:00:00Z, or seconds from the start as 0/28800." },
  "no zone": { says: "its times have no offset and the file's zone is not known", mend: "Give the times with an offset, or name the zone with --zone." },
  "counts from its own start": {
    says: "the file only counts from its own start",
    mend: "Give the shift in seconds from the start (0/28800), or tie the file to the clock with --start.",
  },
  "has instants": { says: "the file has instants and the shift counts seconds", mend: "Write the shift with dates and clock times." },
  "clock change": { says: "its local time happens twice or not at all", mend: "Give the time with its offset, such as 2026-10-25T01:30:00+01:00." },
} as const;

function zoneMend(near: readonly string[]): string {
  const names = near.length > 0 ? `Did you mean ${near.slice(0, 3).join(" or ")}? ` : "";
  return `${names}Name it as in the time zone database, for example Europe/London, or give an offset such as +01:00.`;
}

function listed(labels: readonly string[]): string {
  return labels.length === 0 ? "without names" : labels.map((label) => `"${shortened(label)}"`).join(", ");
}

function shortened(text: string): string {
  const oneLine = text.replace(/[\r\n\t]+/g, " ").trim();
  return oneLine.length > 80 ? `${oneLine.slice(0, 79)}…` : oneLine;
}

