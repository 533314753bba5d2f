/** The words of `expected.json` set against questions, faults and rows. */
import { expect } from "vitest";
import type { Answers, Proposal } from "../../../src/core/table/index.ts";

export interface Expectation {
  readonly file: string;
  readonly mess: string;
  readonly verdict: "read" | "read+rejects" | "ask" | "refuse";
  readonly encoding: string;
  readonly delimiter?: string;
  readonly header_line: number | null;
  readonly header_lines?: readonly number[];
  readonly unit_line?: number;
  readonly columns?: readonly (
    | string
    | { readonly label: string; readonly quantity: string; readonly kind?: string; readonly unit?: string }
  )[];
  readonly rows?: readonly (readonly unknown[])[];
  readonly cells?: readonly (readonly [number, number, string])[];
  readonly data_rows?: number;
  readonly stored_rows?: number;
  readonly lines_read?: number;
  readonly ask?: readonly string[];
  readonly given?: Readonly<Record<string, unknown>>;
  readonly rejected_lines?: Readonly<Record<string, string>>;
  readonly skipped_lines?: Readonly<Record<string, readonly number[]>>;
  readonly must: string;
}

/** Ids of the questions that a phrase of `ask` stands for. */
const ASKED: readonly (readonly [RegExp, (match: RegExpExecArray) => readonly string[]])[] = [
  [/no header/, () => ["header"]],
  [/two columns called (\w+)/, (match) => [`duplicate label/${match[1]}`]],
  [/column (\d+) has no label/, (match) => [`blank label/${match[1]}`]],
  [/neither comment nor table/, () => ["stray lines"]],
  [/every line is one quoted cell/, () => ["wrapped lines"]],
  [/Windows-1252|which encoding/, () => ["encoding"]],
  [/already lost/, () => ["lost character"]],
  [/comma in (\w+), point in (\w+)/, (match) => [`decimal mark/${match[1]}`, `decimal mark/${match[2]}`]],
  [/decimal mark: column (\w+) has both/, (match) => [`decimal mark/${match[1]}`]],
  [/decimal mark: the column has both/, () => ["decimal mark/ONLY"]],
  [/comma groups thousands/, () => ["group mark/ONLY"]],
  [/two-digit year/, () => ["two-digit year"]],
  [/03\/10\/2024|day\/month order/, () => ["day and month"]],
  [/row 1 has no zone|zone of the times/, () => ["zone"]],
  [/EST is used/, () => ["zone letters/EST"]],
  [/(\S+) and (\S+) (?:in number columns )?mean/, (match) => [`word/${match[1]}`, `word/${match[2]}`]],
  [/upper end of the range/, () => ["range top/CO (ppm)"]],
  [/which gas the flammable channel/, () => ["gas/LEL"]],
  [/decimal comma/, () => ["decimal mark/*"]],
  [/^(-999|65535): no reading/, (match) => [`sentinel/${match[1]}`]],
  [/two readings/, () => ["conflicting readings"]],
  [/not doubled in every row/, () => ["quotes"]],
];

export function askedIds(expectation: Expectation): string[] {
  const ids = (expectation.ask ?? []).flatMap((phrase) => {
    const found = ASKED.map(([pattern, make]) => [pattern.exec(phrase), make] as const).find(([match]) => match !== null);
    if (found === undefined) throw new Error(`no question is known for "${phrase}"`);
    return found[1](found[0] as RegExpExecArray); // found has a match
  });
  return [...new Set(ids)].sort();
}

/** Where a file has one number column only, the question names it whatever it is called. */
export const withoutNames = (ids: readonly string[], wanted: readonly string[]): string[] =>
  ids.map((id) => (wanted.includes(`${id.slice(0, id.indexOf("/"))}/ONLY`) ? `${id.slice(0, id.indexOf("/"))}/ONLY` : id)).sort();

/** What is said under `given`, in the words of this program. */
export function answersFrom({ given, encoding }: Expectation): Answers {
  const answers: Record<string, string> = { "confirm/*": "yes" };
  const list = (name: string): readonly unknown[] => (given?.[name] ?? []) as readonly unknown[]; // lists, as README says
  if (typeof given?.["zone"] === "string") answers["zone"] = given["zone"];
  if (typeof given?.["order"] === "string") answers["day and month"] = given["order"];
  for (const word of list("over_range_words")) answers[`word/${word}`] = "over range";
  for (const word of list("no_data_words")) answers[`word/${word}`] = "no reading";
  for (const number of list("no_data_numbers")) answers[`sentinel/${number}`] = "no reading";
  if (encoding === "Shift_JIS") answers["encoding"] = "shift_jis";
  return answers;
}

const ENCODINGS: Readonly<Record<string, string>> = {
  "UTF-8": "utf-8",
  "UTF-16LE": "utf-16le",
  "ISO-8859-1": "windows-1252",
  "Windows-1252": "windows-1252",
  Shift_JIS: "shift_jis",
};

export function expectBuild(proposal: Proposal, expectation: Expectation): void {
  const { mapping, firstWalk } = proposal;
  expect(mapping.dialect.encoding).toBe(ENCODINGS[expectation.encoding]);
  if (expectation.delimiter !== undefined) expect(mapping.dialect.delimiter).toBe(expectation.delimiter);
  expect(mapping.headerLines[0] ?? null).toBe(expectation.header_line);
  if (expectation.header_lines !== undefined) expect(mapping.headerLines).toEqual(expectation.header_lines);
  expect(mapping.unitLine).toBe(expectation.unit_line ?? null);
  expect(firstWalk.count.skipped).toEqual(expectation.skipped_lines ?? {});
  const { header, rows, continued, rejected, skippedCount, lines } = firstWalk.count;
  expect(header + rows + continued + rejected + skippedCount).toBe(lines);
}

/** Reasons of rejected lines, phrase by phrase: type, and what the phrase names besides. */
const REASONS: readonly (readonly [RegExp, string, (match: RegExpExecArray) => Readonly<Record<string, unknown>>])[] = [
  [/^missing cell$/, "missing cell", () => ({})],
  [/^extra cell \((.*)\)$/, "extra cell", (match) => ({ raw: match[1] })],
  [/^text after the closing quote$/, "text after the closing quote", () => ({})],
  [/^NUL byte in column (\d+)$/, "nul byte", (match) => ({ column: expect.stringMatching(new RegExp(`${match[1]}$`)) })],
  [
    /^bytes that are not UTF-8 \((\S+ \S+)\) in column (\d+)$/,
    "encoding error",
    (match) => ({ raw: match[1], column: `column ${match[2]}`, byteOffset: 194 }),
  ],
  [
    /^bytes that are not UTF-8 \((\S+ \S+) at byte offset (\d+), counted from 0\) in column (\w+)$/,
    "encoding error",
    (match) => ({ raw: match[1], byteOffset: Number(match[2]), column: match[3] }),
  ],
  [/^not a number \(column (.*), text (\w+)\)$/, "not a number", (match) => ({ column: match[1], raw: match[2] })],
  [/^grouping is wrong \((.*)\)$/, "wrong grouping", (match) => ({ raw: match[1] })],
  [/^the file ends inside a quoted cell$/, "cut off", () => ({})],
];

export function expectRejects(faults: Proposal["firstWalk"]["faults"], expectation: Expectation): void {
  const wanted = Object.entries(expectation.rejected_lines ?? {}).map(([line, phrase]) => {
    const found = REASONS.map(([pattern, type, make]) => [pattern.exec(phrase), type, make] as const).find(([match]) => match !== null);
    if (found === undefined) throw new Error(`no fault is known for "${phrase}"`);
    return expect.objectContaining({ line: Number(line), type: found[1], rejected: true, ...found[2](found[0] as RegExpExecArray) }); // found has a match
  });
  expect(faults.filter((fault) => fault.rejected)).toEqual(wanted);
}
