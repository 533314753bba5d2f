/** Tables as text: RFC 4180, and the same for programs that run what looks like a formula. */

/** A column to be written. Numbers come as the digits to be shown; nothing is rounded here. */
export interface WrittenColumn {
  readonly label: string;
  readonly kind: "text" | "number";
}

/** "data": cells as they are. "spreadsheet": text cells that a spreadsheet would run get an apostrophe in front. */
export type WrittenFor = "data" | "spreadsheet";

/**
 * A table as CSV.
 *
 * Commas; CRLF after each line, the last too; a cell with a quote, comma, CR or LF is quoted, quotes doubled; a first
 * line of labels (RFC 4180, section 2). Beyond it, so that what is written is read back equal, a cell with spaces at an
 * end, a lone empty cell, and a cell that would look like a comment, a `sep=` line or a cell in apostrophes is quoted too. For spreadsheets a text cell that begins with `=`, `+`, `-`, `@`, TAB
 * or NUL gets a leading `'`; numbers never do, so a reading of -1 stays -1 (OWASP ASVS 5.0.0, 1.2.10, which would guard
 * every cell: deviated from, here in numbers only).
 *
 * @param columns labels and kinds. @param rows cells by column; each row has one cell a column.
 * @example
 * ```ts
 * import { writeTable } from "./write.ts";
 * writeTable([{ label: "time", kind: "text" }, { label: "CO (ppm)", kind: "number" }], [["2026-03-04T07:30:00Z", "-1"]], "data"); // => "time,CO (ppm)\r\n2026-03-04T07:30:00Z,-1\r\n"
 * writeTable([{ label: "note", kind: "text" }], [["=1+1"]], "spreadsheet"); // => "note\r\n\"'=1+1\"\r\n"
 * ```
 */
export function writeTable(columns: readonly WrittenColumn[], rows: Iterable<readonly string[]>, writtenFor: WrittenFor): string {
  let text = lineOf(columns.map((column) => cellFor(column.label, "text", writtenFor)));
  for (const row of rows) text += lineOf(columns.map((column, index) => cellFor(row[index] ?? "", column.kind, writtenFor)));
  return text;
}

/**
 * One line of CSV with its line end: RFC 4180, section 2, rules 1 and 5 to 7.
 *
 * @example
 * ```ts
 * import { lineOf } from "./write.ts";
 * lineOf(['a"b', "c,d", "plain", ""]); // => "\"a\"\"b\",\"c,d\",plain,\r\n"
 * ```
 */
export function lineOf(cells: readonly string[]): string {
  const [only] = cells;
  // A line with nothing on it would be no row but a blank line.
  if (cells.length === 1 && only === "") return '""\r\n';
  return `${cells.map(quoted).join(",")}\r\n`;
}

const quoted = (cell: string): string => (/[",\r\n]|^[\s\ufeff#']|^sep=|\s$/iu.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell);

function cellFor(cell: string, kind: WrittenColumn["kind"], writtenFor: WrittenFor): string {
  // biome-ignore lint/suspicious/noControlCharactersInRegex: a leading NUL is one of the cases
  return writtenFor === "spreadsheet" && kind === "text" && /^[=+\-@\t\u0000]/.test(cell) ? `'${cell}` : cell;
}
