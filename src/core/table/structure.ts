/**
 * What the head of a file shows of its build: delimiter, quotes, comments, heading, units row. Meanings come later;
 * this only says which lines are what and where cells end.
 */
import type { Dialect } from "./mapping.ts";
import { numberForm } from "./number-text.ts";
import { RecordSplitter } from "./record.ts";
import { timeText } from "./time-text.ts";
import { utf8FromText } from "./utf8.ts";
import type { Vocabulary } from "./vocabulary.ts";
import { likelyMeaning } from "./words.ts";
import { isZoneText } from "./zone-label.ts";

export interface Structure {
  readonly dialect: Dialect;
  /** "strong" where one delimiter fits every line; "certain" where a line `sep=` says it. */
  readonly delimiterReason: "sep line" | "one column" | "same number of cells" | "told";
  readonly sepLine: number | null;
  readonly headerLines: readonly number[];
  readonly unitLine: number | null;
  /** Labels as joined from the header lines, trimmed; empty array = no heading. */
  readonly labels: readonly string[];
  readonly unitTexts: readonly string[];
  /** Cells of a row; with a heading the number of its labels. */
  readonly width: number;
  /** Lines before this one are no rows. */
  readonly firstRowLine: number;
  /** Prose before the heading of a file that has comment lines: neither comment nor table. */
  readonly strayLines: readonly { readonly line: number; readonly text: string }[];
  readonly quoteFaultsStrict: number;
  readonly backslashSeen: boolean;
}

/** What was told beforehand; the rest is found. */
export interface StructureGiven {
  readonly delimiter: string | null;
  readonly quoteInside: Dialect["quoteInside"] | null;
  readonly quote: string | null;
  readonly wrapped: boolean | null;
  /** True: the first line of the table is data although it looks like a heading. */
  readonly noHeader: boolean;
}

interface HeadRecord {
  readonly line: number;
  readonly cells: readonly string[];
  readonly quotedCells: number;
  readonly fault: boolean;
  /** As it stands, for prose. */
  readonly text: string;
}

const MOST_RECORDS = 400;

export function structureOf(head: Uint8Array, isWhole: boolean, vocabulary: Vocabulary, told: StructureGiven): Structure {
  const lines = plainLines(head, isWhole);
  const sepLine = lines.find((line) => line.cells[0] !== "");
  const sep = sepLine === undefined ? null : /^sep=(.)\s*$/i.exec(sepLine.text);
  const commentPrefix =
    lines.some((line) => line.text.startsWith("#")) && !lines.every((line) => line.text === "" || line.text.startsWith("#")) ? "#" : null;
  const choose = new Chooser(head, isWhole, commentPrefix, sep === null || sepLine === undefined ? 0 : sepLine.line);
  const found =
    sep === null
      ? told.delimiter === null
        ? choose.best(told)
        : choose.withDelimiter(told.delimiter, told, "told")
      : choose.withDelimiter(sep[1] as string, told, "sep line"); // the pattern has a group
  const heading = headingOf(found.records, found.width, vocabulary, told.noHeader);
  const firstTable = heading.headerLines[0] ?? heading.firstRowLine;
  const stray =
    commentPrefix === null
      ? []
      : lines.filter(
          (line) =>
            line.line < firstTable &&
            line.text !== "" &&
            !line.text.startsWith(commentPrefix) &&
            line.line !== (sep === null ? 0 : sepLine?.line),
        );
  return {
    dialect: { ...found.dialect, commentPrefix },
    delimiterReason: found.reason,
    sepLine: sep === null ? null : (sepLine?.line ?? null),
    ...heading,
    strayLines: stray.slice(0, 20).map(({ line, text }) => ({ line, text })),
    quoteFaultsStrict: found.strictFaults,
    backslashSeen: found.dialect.quoteInside === "backslash",
  };
}

/** Physical lines without regard to quotes, for what stands before the table. */
function plainLines(head: Uint8Array, isWhole: boolean): HeadRecord[] {
  return recordsOf(head, isWhole, new RecordSplitter({ delimiter: "", quote: "", quoteInside: "doubled", trim: true }), null, 0);
}

function recordsOf(
  head: Uint8Array,
  isWhole: boolean,
  splitter: RecordSplitter,
  commentPrefix: string | null,
  afterLine: number,
): HeadRecord[] {
  const records: HeadRecord[] = [];
  let position = 0;
  let line = 1;
  while (position < head.length && records.length < MOST_RECORDS) {
    const isComment = commentPrefix !== null && head[position] === commentPrefix.charCodeAt(0);
    if (!(isComment ? splitter.line(head, position, head.length, isWhole) : splitter.split(head, position, head.length, isWhole))) break;
    if (!isComment && line > afterLine && splitter.fault !== "unclosed quote") records.push(headRecord(head, splitter, line));
    line += 1 + splitter.innerLines;
    position = splitter.next;
  }
  return records;
}

function headRecord(head: Uint8Array, splitter: RecordSplitter, line: number): HeadRecord {
  const cells = splitter.texts(head);
  let quotedCells = 0;
  for (let cell = 0; cell < splitter.count; cell++) if (splitter.quoted[cell] !== 0) quotedCells++;
  return {
    line,
    cells,
    quotedCells,
    fault: splitter.fault !== null,
    text: cells.length === 1 ? (cells[0] as string) : cells.join(" ").trim(),
  }; // length 1
}

interface Found {
  readonly dialect: Omit<Dialect, "commentPrefix"> & { readonly commentPrefix: null };
  readonly records: readonly HeadRecord[];
  readonly width: number;
  readonly reason: Structure["delimiterReason"];
  readonly strictFaults: number;
}

/** Tries delimiters and quotes on the head and keeps what makes rows of one width. */
class Chooser {
  private readonly head: Uint8Array;
  private readonly isWhole: boolean;
  private readonly comment: string | null;
  private readonly afterLine: number;

  constructor(head: Uint8Array, isWhole: boolean, comment: string | null, afterLine: number) {
    this.head = head;
    this.isWhole = isWhole;
    this.comment = comment;
    this.afterLine = afterLine;
  }

  best(told: StructureGiven): Found {
    // Of two that fit as well, the comma comes last: it is also the decimal mark of half the world.
    const candidates = ["\t", ";", "|", ","].map((delimiter) => this.withDelimiter(delimiter, told, "same number of cells"));
    let best: Found | null = null;
    let bestScore = 0;
    for (const candidate of candidates) {
      const score = fitOf(candidate);
      if (score > bestScore) [best, bestScore] = [candidate, score];
    }
    if (best !== null) return best;
    return (told.wrapped === false ? null : this.unwrapped(told)) ?? this.withDelimiter("", told, "one column");
  }

  withDelimiter(delimiter: string, told: StructureGiven, reason: Structure["delimiterReason"]): Found {
    const strict = this.read(delimiter, told.quote ?? '"', told.quoteInside ?? "doubled", reason);
    const apostrophes = this.apostrophes(strict, delimiter, told, reason);
    if (apostrophes !== null) return apostrophes;
    if (strict.strictFaults === 0 || told.quoteInside !== null) return strict;
    const backslash = this.read(delimiter, '"', "backslash", reason);
    if (backslash.strictFaults === 0 && this.hasBackslashQuote()) return { ...backslash, strictFaults: strict.strictFaults };
    const lenient = this.read(delimiter, '"', "lenient", reason);
    const quotedRows = strict.records.filter((record) => record.quotedCells > 0).length;
    // Every row that has quotes shows the pattern, and most rows have quotes, or it is a fault of single lines.
    const isPattern =
      strict.strictFaults >= 2 &&
      strict.strictFaults === quotedRows &&
      quotedRows * 2 >= strict.records.length &&
      lenient.strictFaults === 0 &&
      lenient.records.every((record) => isBlank(record) || record.cells.length === lenient.width);
    return isPattern ? { ...lenient, strictFaults: strict.strictFaults } : strict;
  }

  private apostrophes(strict: Found, delimiter: string, told: StructureGiven, reason: Structure["delimiterReason"]): Found | null {
    if (told.quote !== null || this.head.includes(0x22)) return null;
    const framed = strict.records.filter((record) => record.cells.some((cell) => /^'.*'$/s.test(cell) && cell.length > 1)).length;
    if (framed < 2 || framed * 2 < strict.records.length) return null;
    const read = this.read(delimiter, "'", "doubled", reason);
    return read.strictFaults === 0 ? read : null;
  }

  private hasBackslashQuote(): boolean {
    for (let index = 0; index + 1 < this.head.length; index++) if (this.head[index] === 92 && this.head[index + 1] === 34) return true;
    return false;
  }

  private read(delimiter: string, quote: string, quoteInside: Dialect["quoteInside"], reason: Structure["delimiterReason"]): Found {
    const splitter = new RecordSplitter({ delimiter, quote, quoteInside, trim: true });
    const records = recordsOf(this.head, this.isWhole, splitter, this.comment, this.afterLine);
    const dialect: Found["dialect"] = { encoding: "utf-8", delimiter, quote, quoteInside, commentPrefix: null, wrapped: false, trim: true };
    return { dialect, records, width: widthOf(records), reason, strictFaults: records.filter((record) => record.fault).length };
  }

  /** Every line is one quoted cell, and what is inside has cells of its own. */
  private unwrapped(told: StructureGiven): Found | null {
    const outer = this.read("", '"', "doubled", "one column").records.filter((record) => !isBlank(record));
    if (outer.length < 2 || !outer.every((record) => record.quotedCells === 1)) return null;
    const inner = utf8FromText(outer.map((record) => record.text).join("\n"));
    const chooser = new Chooser(inner, true, null, 0);
    const found = chooser.best({ ...told, wrapped: false });
    const [first] = found.records;
    if (found.dialect.delimiter === "" || first === undefined || first.cells.some((cell) => numberForm(cell) !== null)) return null;
    const records = found.records.map((record, index) => ({ ...record, line: outer[index]?.line ?? record.line }));
    return { ...found, records, dialect: { ...found.dialect, wrapped: true } };
  }
}

const isBlank = (record: HeadRecord): boolean => record.cells.every((cell) => cell === "");

/** The commonest number of cells above one; of two as common, the one that comes first. */
function widthOf(records: readonly HeadRecord[]): number {
  const counts = new Map<number, number>();
  for (const record of records)
    if (!isBlank(record) && !record.fault) counts.set(record.cells.length, (counts.get(record.cells.length) ?? 0) + 1);
  let width = 1;
  let most = 0;
  for (const [cells, count] of counts) if (cells > 1 && count > most) [width, most] = [cells, count];
  return width;
}

/** How well a delimiter fits: the number of rows of the common width, or 0 where it does not fit at all. */
function fitOf({ records, width, dialect }: Found): number {
  const filled = records.filter((record) => !isBlank(record) && !record.fault);
  if (width < 2) return 0;
  const first = filled.findIndex((record) => record.cells.length === width);
  const table = filled
    .slice(first)
    .filter((record) => record.cells.length > 1 || numberForm(record.cells[0] ?? "") !== null || record.quotedCells > 0);
  const fitting = table.filter(
    (record) => Math.abs(record.cells.length - width) <= (table.length <= 4 ? 1 : 0) && record.cells.length > 1,
  ).length;
  if (fitting < table.length * 0.7) return 0;
  if (dialect.delimiter === "," && looksLikeDecimalCommas(filled, first)) return 0;
  return fitting;
}

/** "foo / 12,5 / 145,00": one column of numbers with a decimal comma, not two columns. */
function looksLikeDecimalCommas(filled: readonly HeadRecord[], first: number): boolean {
  const before = filled[first - 1];
  const row = filled[first];
  if (row === undefined || row.cells.length !== 2 || !row.cells.every((cell) => /^[+-]?\d+$/.test(cell))) return false;
  return before !== undefined ? before.cells.length === 1 : filled.some((record) => record.cells.length === 1);
}

type CellClass = "time" | "number" | "blank" | "word" | "text";

function classOf(cell: string, vocabulary: Vocabulary): CellClass {
  if (cell === "") return "blank";
  if (timeText(cell) !== null) return "time";
  const number = numberForm(cell);
  if (number !== null && (number.unitText === "" || vocabulary.unitFromText(number.unitText) !== null)) return "number";
  return likelyMeaning(cell) === null ? "text" : "word";
}

interface Heading {
  readonly headerLines: readonly number[];
  readonly unitLine: number | null;
  readonly labels: readonly string[];
  readonly unitTexts: readonly string[];
  readonly width: number;
  readonly firstRowLine: number;
}

function headingOf(all: readonly HeadRecord[], width: number, vocabulary: Vocabulary, noHeader: boolean): Heading {
  const records = all.filter((record) => !isBlank(record) && !isRuler(record));
  const start = records.findIndex((record) => record.cells.length === width);
  const table = start < 0 ? [] : records.slice(start);
  const types = typesOf(table, width, vocabulary);
  const firstRow = table.findIndex((record) => isRow(record, types, vocabulary));
  const bare: Heading = { headerLines: [], unitLine: null, labels: [], unitTexts: [], width, firstRowLine: table[0]?.line ?? 1 };
  if (noHeader) return { ...bare, firstRowLine: table[Math.max(firstRow, 0)]?.line ?? 1 };
  if (types.every((type) => type === null)) return textHeading(table, bare);
  if (firstRow === 0) return bare;
  const above = (firstRow < 0 ? table : table.slice(0, firstRow)).filter((record) => record.cells.length >= Math.min(width, 2));
  return headingAbove(above, table[firstRow]?.line ?? null, bare, vocabulary);
}

const isRuler = (record: HeadRecord): boolean => record.cells.every((cell) => /^(?:-{2,}|={2,}|_{2,}|\+?(?:-+\+)+)$/.test(cell));

/** Number or time, where most filled cells of a column say so below its first line; a units row is none of them. */
function typesOf(table: readonly HeadRecord[], width: number, vocabulary: Vocabulary): (CellClass | null)[] {
  const body = table.slice(table.length > 1 ? 1 : 0).filter((record) => record.cells.length > 1 || width === 1);
  return Array.from({ length: width }, (_, column) => {
    const cells = body.map((record) => record.cells[column] ?? "").filter((cell) => cell !== "" && !isUnitText(cell, vocabulary));
    const classes = cells.map((cell) => classOf(cell, vocabulary));
    const share = (wanted: CellClass): number => classes.filter((kind) => kind === wanted).length;
    if (share("time") * 2 > classes.length) return "time";
    // As many texts as numbers say nothing: a first row of texts would pass for a heading.
    return share("number") * 2 >= classes.length && share("number") > share("text") ? "number" : null;
  });
}

/** Most typed columns hold what their type says, the time and the first of them without fail: one word in a number column is no heading. */
function isRow(record: HeadRecord, types: readonly (CellClass | null)[], vocabulary: Vocabulary): boolean {
  let matches = 0;
  let misses = 0;
  for (const [column, type] of types.entries()) {
    if (type === null) continue;
    const cell = record.cells[column] ?? "";
    // An offset below the heading looks like a number or a clock, and is the unit of a time.
    if (type === "time" && isZoneText(cell)) return false;
    const kind = classOf(cell, vocabulary);
    if (kind === type || (kind === "number" && type === "time") || (kind === "time" && type === "number")) matches++;
    else if (kind === "text") {
      if (type === "time" || matches === 0) return false;
      misses++;
    }
  }
  return matches > 0 && matches >= misses;
}

/** A table of nothing but texts: labels differ from each other and from all that stands below them. */
function textHeading(table: readonly HeadRecord[], bare: Heading): Heading {
  const [first, ...body] = table;
  if (first === undefined || (bare.width === 1 && table.length >= 1)) return bare;
  const isDistinct = new Set(first.cells.map((cell) => cell.normalize("NFC"))).size === first.cells.length;
  const isRepeated = body.some((record) => record.cells.some((cell, column) => cell !== "" && cell === first.cells[column]));
  if (!isDistinct || isRepeated) return bare;
  return { ...bare, headerLines: [first.line], labels: labelsFrom([first]), firstRowLine: body[0]?.line ?? first.line + 1 };
}

function headingAbove(above: readonly HeadRecord[], firstRowLine: number | null, bare: Heading, vocabulary: Vocabulary): Heading {
  const rest = [...above];
  const last = rest.at(-1);
  if (last === undefined) return bare;
  const hasUnits = rest.length > 1 && isUnitsRow(last, vocabulary);
  if (hasUnits) rest.pop();
  const lower = hasUnits || bare.width > 1 ? (rest.at(-1) as HeadRecord) : (rest[0] as HeadRecord); // rest still holds one
  const upper = rest.at(-2);
  const headers = upper !== undefined && lower === rest.at(-1) && isSecondHeaderRow(lower, upper, vocabulary) ? [upper, lower] : [lower];
  const endLine = hasUnits ? last.line : lower.line;
  const labels = labelsFrom(headers);
  return {
    headerLines: headers.map((record) => record.line),
    unitLine: hasUnits ? last.line : null,
    labels,
    unitTexts: hasUnits ? last.cells : [],
    width: labels.length,
    firstRowLine: firstRowLine !== null && bare.width > 1 ? firstRowLine : endLine + 1,
  };
}

const TIME_UNITS = /^\(?\[?(?:s|sec|secs|second|seconds|min|mins|minutes|h|hr|hours|ms|hh:mm(?::ss)?|yyyy.*)\]?\)?$/i;
export const isTimeUnit = (text: string): boolean => TIME_UNITS.test(text.trim());

/** A unit or a zone and no number: `-05` is more often one. */
const isUnitText = (cell: string, vocabulary: Vocabulary): boolean =>
  vocabulary.unitFromText(cell) !== null || isTimeUnit(cell) || (isZoneText(cell) && !/^[+-]\d\d$/.test(cell));

/** Nothing but units, with at least one that measures gas or time or says the zone. */
function isUnitsRow(record: HeadRecord, vocabulary: Vocabulary): boolean {
  let units = 0;
  for (const cell of record.cells) {
    if (cell === "") continue;
    if (vocabulary.unitFromText(cell) !== null || isTimeUnit(cell) || isZoneText(cell)) units++;
    else if (cell.length > 8 || vocabulary.gasInLabel(cell) !== null) return false;
  }
  return units > 0;
}

/** The lower of two header rows names gases or units, or leaves the first cell to the upper one. */
function isSecondHeaderRow(lower: HeadRecord, upper: HeadRecord, vocabulary: Vocabulary): boolean {
  if (upper.cells.length !== lower.cells.length || upper.line + 1 !== lower.line) return false;
  const names = (record: HeadRecord): number =>
    record.cells.filter((cell) => cell !== "" && (vocabulary.gasInLabel(cell) !== null || vocabulary.unitFromText(cell) !== null)).length;
  return names(lower) > 0 && (lower.cells[0] === "" || names(upper) === 0);
}

function labelsFrom(headers: readonly HeadRecord[]): string[] {
  const width = Math.max(...headers.map((record) => record.cells.length));
  return Array.from({ length: width }, (_, column) =>
    headers
      .map((record) => record.cells[column] ?? "")
      .filter((part) => part !== "")
      .join(" "),
  );
}
