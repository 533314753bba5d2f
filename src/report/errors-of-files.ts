/** Refusals of a file: what it is not, what it leaves open, what cannot be assessed. */
import type { AssessmentRefusal } from "../core/exposure/assessment.ts";
import type { OwnLimitsRefusal, UnknownGas } from "../core/gas/index.ts";
import type { SenmlRefusal, SignalRefusal } from "../core/recording/index.ts";
import type { MappingRefusal, TableRefusal } from "../core/table/index.ts";
import { nearZoneNames, type ZoneRefusal } from "../core/time/index.ts";
import { type Catalogue, shortened } from "./catalogue.ts";
import { countText, exactText, NARROW_SPACE } from "./digits.ts";
import type { DoorRefusal } from "./door-refusal.ts";
import { ONE_LEVEL_FOR_SEVERAL_UNITS, SHIFT_FLAG, SHIFT_LONGER_THAN_A_DAY } from "./errors-of-forms.ts";
import { durationText } from "./figure.ts";

export type RefusalOfFile =
  | TableRefusal
  | MappingRefusal
  | ZoneRefusal
  | AssessmentRefusal
  | SignalRefusal
  | SenmlRefusal
  | UnknownGas
  | OwnLimitsRefusal
  | DoorRefusal;

export const REFUSALS_OF_FILES: Catalogue<RefusalOfFile> = {
  "empty-file": {
    exit: 1,
    status: 422,
    says: () => "The file is empty: nothing stands in it.",
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
    says: ({ labels }) => `No column holds times, or there is no row below the heading. The columns are ${listed(labels)}.`,
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
    example: { type: "unknown-zone", zone: "Europe/Lodnon", near: ["Europe/London"] },
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
  "mapping-misreads-numbers": {
    exit: 1,
    status: 409,
    says: ({ column, line, text, decimalMark }) =>
      `Under the mapping no cell of the column ${column} is a number: line ${line} holds "${text}", and the mapping has the ${decimalMark === "," ? "comma" : "point"} as decimal mark.`,
    mend: () =>
      "Read the file without the mapping, answer its questions, the decimal mark among them, and save a mapping for files like it.",
    example: { type: "mapping-misreads-numbers", column: "CO (ppm)", line: 2, text: "1.250", decimalMark: "," },
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
      `The file does not settle ${questions.length === 1 ? "one thing that changes" : `${questions.length} things that change`} what it means: ${questions.map(({ id }) => id).join(", ")}.`,
    mend: () => "Answer each question below; a mapping keeps the answers for every file with this heading.",
    example: {
      type: "questions-open",
      questions: [{ id: "zone", topic: "zone", column: null, samples: [], choices: [], suggested: null, blocking: true }],
    },
  },
  "longer-than-a-day": {
    exit: 1,
    status: 422,
    says: ({ hours }) => `The recording is ${durationText(hours * 3600)} long, and one shift is 24${NARROW_SPACE}h at most.`,
    mend: () => "Name each shift in it by its beginning and end.",
    flag: () => SHIFT_FLAG,
    example: { type: "longer-than-a-day", hours: 52.5 },
  },
  "shift-longer-than-a-day": SHIFT_LONGER_THAN_A_DAY,
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
    mend: () => "Give the worst level in the channel's unit, such as 120.",
    flag: () => "With --unsampled: open, zero, like, or the level.",
    example: { type: "unsampled-level-not-a-number", text: "plenty" },
  },
  "unsampled-level-too-large": {
    exit: 2,
    status: 400,
    says: ({ text }) => `${text} is more than the steps of a channel can hold exactly over a day.`,
    mend: () => "Give a level that the air can have had, in the channel's unit.",
    example: { type: "unsampled-level-too-large", text: "900000" },
  },
  "period-ends-before-start": {
    exit: 1,
    status: 422,
    says: () => "The period to be assessed ends before it begins.",
    mend: () => "Give a period that ends after its start.",
    example: { type: "period-ends-before-start", from: 28_800_000, to: 0 },
  },
  "largest-gap-not-above-nought": {
    exit: 2,
    status: 400,
    says: ({ ms }) => `The longest step that a reading stands for cannot be ${exactText(ms / 1000)}${NARROW_SPACE}s.`,
    mend: () => "Give the longest step in seconds, above 0.",
    flag: () => "The flag is --max-gap SECONDS.",
    example: { type: "largest-gap-not-above-nought", ms: 0 },
  },
  "setting-not-a-number": {
    exit: 2,
    status: 400,
    says: ({ setting, text }) => `The ${setting} "${shortened(text)}" is no number that it can have.`,
    mend: ({ setting }) => `Give the ${setting} as a number above nought in the channel's unit.`,
    example: { type: "setting-not-a-number", setting: "dead band", text: "small" },
  },
  "declared-level-not-a-number": {
    exit: 1,
    status: 422,
    says: ({ text }) => `The declared level "${text}" is no number.`,
    mend: () => "Give the level as a number in the channel's unit.",
    example: { type: "declared-level-not-a-number", declaration: "1", text: "low" },
  },
  "too-long-for-exact-sums": {
    exit: 1,
    status: 422,
    says: ({ hours }) => `The recording has too many digits over ${exactText(Math.floor(hours))}${NARROW_SPACE}h for its sums to be exact.`,
    mend: () => "Name shifts: each is summed on its own.",
    example: { type: "too-long-for-exact-sums", hours: 9000 },
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
    says: ({ record, why, text, at }) =>
      at !== undefined
        ? `The file begins as JSON does, and stops being JSON at line ${countText(at.line)}, character ${countText(at.character)}.`
        : `${record === null ? "The" : `Record ${record}: the`} file is JSON that is not readable as SenML: ${why}${text === null ? "" : ` ("${shortened(text)}")`}.`,
    mend: ({ at }) =>
      at !== undefined
        ? "Mend the text at that place, or take the file from its source again: it may be cut off."
        : "Mend the record named here; SenML is described in RFC 8428, 8798 and 9100.",
    example: { type: "senml-not-readable", record: 3, why: "several values", text: "co" },
  },
  "unknown-gas": {
    exit: 2,
    status: 400,
    says: ({ gas, near, several }) =>
      several ? `"${gas}" is a name of several gases: ${near.join(", ")}.` : `The gas table has no "${gas}".`,
    mend: ({ near, several }) =>
      several
        ? "Name one of them by its id."
        : near.length > 0
          ? `Did you mean ${near.join(" or ")}?`
          : "Use an id of the gas table, such as carbon_monoxide or hydrogen_sulphide.",
    example: { type: "unknown-gas", gas: "carbon_monoxid", near: ["carbon_monoxide"], several: false },
  },
  "shift-not-readable": {
    exit: 2,
    status: 400,
    says: ({ text, why }) => `The shift "${text}" cannot be placed on this file's clock: ${SHIFT_REASONS[why].says}.`,
    mend: ({ why }) => SHIFT_REASONS[why].mend,
    flag: ({ why }) => SHIFT_FLAGS[why] ?? "",
    example: { type: "shift-not-readable", text: "06:00-14:00", why: "form" },
  },
  "mapping-says-otherwise": {
    exit: 2,
    status: 409,
    says: ({ question, answer, mapped }) => `The mapping says "${mapped}" for "${question}", and the call says "${answer}".`,
    mend: () => "Leave one of the two out.",
    example: { type: "mapping-says-otherwise", question: "zone", answer: "Europe/Paris", mapped: "Europe/London" },
  },
  "mapping-not-json": {
    exit: 2,
    status: 400,
    says: ({ why }) => `The mapping is not JSON: ${shortened(why)}.`,
    mend: () => "Take a mapping that this program saved, or read the file without one.",
    example: { type: "mapping-not-json", why: "Unexpected end of JSON input" },
  },
  "unknown-mapping-form": {
    exit: 2,
    status: 400,
    says: ({ form }) =>
      form === "nothing"
        ? "This is JSON, but no mapping: it does not say which form it has."
        : `The mapping has the form ${shortened(form)}, which this version does not know.`,
    mend: () => "Use the version that saved it, or read the file without a mapping and save a new one.",
    example: { type: "unknown-mapping-form", form: '"lamproom-mapping/2"' },
  },
  "mapping-not-understood": {
    exit: 2,
    status: 400,
    says: ({ at, found }) => `The mapping is wrong at ${at === "" ? "its beginning" : at}: ${shortened(found)}.`,
    mend: () => "Mend that place after docs/schemas/mapping.json, or read the file without the mapping.",
    example: { type: "mapping-not-understood", at: "columns[2].unit", found: '"furlong"' },
  },
  "declarations-not-readable": {
    exit: 2,
    status: 400,
    says: ({ at, why, found }) =>
      `In the declarations, ${at === "" ? "the file" : at} ${why}${found === null ? "" : `; it is ${shortened(found)}`}.`,
    mend: () => "Mend it after docs/schemas/declarations.json; nothing of it was taken.",
    example: { type: "declarations-not-readable", at: "[0].kind", why: "has to be one of unexposed, worst case", found: '"none"' },
  },
  "declaration-not-placed": {
    exit: 1,
    status: 422,
    says: ({ number, by, text }) => `Declaration ${number} (${shortened(by)}) has no place on this file's clock: "${shortened(text)}".`,
    mend: () =>
      "Give from and to as instants such as 2026-03-04T12:30:00Z, or as seconds where the file counts from its own start, the earlier one first.",
    example: { type: "declaration-not-placed", number: 1, by: "A. Hallam", text: "half past twelve" },
  },
  "one-level-for-several-units": ONE_LEVEL_FOR_SEVERAL_UNITS,
  "json-not-readable": {
    exit: 2,
    status: 400,
    says: ({ file }) => `${file} is not JSON.`,
    mend: () => "Take a file that this program saved, or mend its brackets, quotation marks and commas.",
    example: { type: "json-not-readable", file: "works.json" },
  },
  "own-limits-not-readable": {
    exit: 2,
    status: 400,
    says: ({ faults }) =>
      `The file of own limits cannot be used: ${faults
        .slice(0, 5)
        .map(({ at, why, found }) => `${at === "" ? "the file" : at} ${why.replaceAll("-", " ")}${found === null ? "" : ` (${found})`}`)
        .join("; ")}${faults.length > 5 ? `; and ${faults.length - 5} more` : ""}.`,
    mend: () => "Mend it after docs/schemas/own-limits.json; nothing of it was taken.",
    example: { type: "own-limits-not-readable", faults: [{ at: "limits[0].value", why: "not-a-number-above-nought", found: '"1,0"' }] },
  },
  "program-fault": {
    exit: 70,
    status: 500,
    says: ({ what }) => `Lamproom met a fault of its own with this file: ${shortened(what)}.`,
    mend: () => "Nothing that you did is wrong. Report it with the call and, if you may, the file.",
    example: { type: "program-fault", what: "broken promise: a row has a time" },
  },
  stopped: {
    exit: 1,
    status: 499,
    says: () => "Reading was stopped before the end; nothing was kept.",
    mend: () => "Start again to have the whole file.",
    example: { type: "stopped" },
  },
  "too-many-readings": {
    exit: 1,
    status: 413,
    says: ({ line }) => `The file holds more readings within one day than are kept at once: reading stopped at line ${line}.`,
    mend: () => "Name each shift in it by its beginning and end.",
    flag: () => SHIFT_FLAG,
    example: { type: "too-many-readings", line: 24_000_001 },
  },
};

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
  "no date": { says: "it has clock times without a date", mend: "Give its dates too: 2026-03-04T06:00/2026-03-04T14:00." },
  "several days": {
    says: "it has clock times without a date, and more than one day of the recording has them",
    mend: "Give its dates too: 2026-03-04T06:00/2026-03-04T14:00.",
  },
  "no zone": {
    says: "its times have no offset and the file's zone is not known",
    mend: "Give the times with an offset, or name the zone of the file.",
  },
  "counts from its own start": {
    says: "the file only counts from its own start",
    mend: "Give the shift in seconds from the start (0/28800), or say when the recording started.",
  },
  "has instants": { says: "the file has instants and the shift counts seconds", mend: "Write the shift with dates and clock times." },
  "clock change": {
    says: "its local time happens twice or not at all",
    mend: "Give the time with its offset, such as 2026-10-25T01:30:00+01:00.",
  },
} as const;

const SHIFT_FLAGS: Readonly<Record<string, string>> = {
  "no zone": "The flag is --zone ZONE.",
  "counts from its own start": "The flag is --start INSTANT.",
};
function zoneMend(near: readonly string[]): string {
  const names = near.length > 0 ? `Did you mean ${near.slice(0, 3).join(" or ")}? ` : "";
  return `${names}Name it as in the time zone database, for example Europe/London, or give an offset such as +01:00.`;
}

function listed(labels: readonly string[]): string {
  return labels.length === 0 ? "without names" : labels.map((label) => `"${shortened(label)}"`).join(", ");
}
