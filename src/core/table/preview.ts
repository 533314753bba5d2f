/** Rows as the file has them beside what was understood. */

import { type Instant, type LocalTime, localText, rfc3339FromInstant } from "../time/index.ts";
import type { SurveyEvidence } from "./evidence.ts";
import type { TableMapping } from "./mapping.ts";
import { readNumber, textOfExact } from "./number-text.ts";
import { type Plan, planOf } from "./plan.ts";
import type { Preview, PreviewRow } from "./reading.ts";
import { CODE } from "./reading-code.ts";
import { RowClock } from "./time-cell.ts";
import { isNotANumberText } from "./words.ts";

export function previewOf(evidence: SurveyEvidence, mapping: TableMapping): Preview {
  const plan = planOf(mapping);
  const columns = mapping.headerLines.length > 0 ? evidence.structure.labels : mapping.columns.map((column) => column.label);
  return { columns, first: rowsOf(plan, evidence.first), worst: rowsOf(plan, evidence.worst) };
}

function rowsOf(plan: Plan, rows: SurveyEvidence["first"]): PreviewRow[] {
  const nothing = { count: 1, line: 0, text: "" };
  const clock = new RowClock(plan, { repeatedHour: { ...nothing }, missingHour: { ...nothing, before: "", after: "" } });
  return rows.map(({ line, cells }) => ({ line, raw: cells, parsed: parsedRow(plan, clock, line, cells) }));
}

function parsedRow(plan: Plan, clock: RowClock, line: number, cells: readonly string[]): (string | null)[] {
  const cell = (index: number): string => (index < 0 ? "" : (cells[index] ?? ""));
  const time = clock.read(cell(plan.time), cell(plan.date), cell(plan.clock), line);
  return plan.mapping.columns.map((column, index) => {
    const text = cell(index);
    if (column.role === "time" || column.role === "clock" || (column.role === "date" && plan.clock < 0))
      return timeParsed(plan, time, clock.isOpen);
    if (column.role === "reading" || column.role === "value" || column.role === "number")
      return numberParsed(plan, text, column.decimalMark, column.groupMark);
    return column.role === "ignored" || column.role === "date" ? null : text;
  });
}

/** Without a zone a local time is no instant yet, so nothing is shown as one. */
function timeParsed(plan: Plan, time: number | string, isOpen: boolean): string | null {
  if (typeof time === "string" || Number.isNaN(time)) return null;
  if (plan.form.endsWith("-from-start") && plan.mapping.time.start === null) return String(time / 1000);
  // An open time counts wall-clock milliseconds; all others are instants. Each cast gives the brand.
  return isOpen ? localText(time as LocalTime) : rfc3339FromInstant(time as Instant);
}

const WORD_NAMES: Readonly<Record<number, string>> = {
  [CODE.overRange]: "over range",
  [CODE.underRange]: "under range",
  [CODE.none]: "no reading",
  [CODE.fault]: "fault",
};

function numberParsed(plan: Plan, text: string, decimalMark: "." | ",", groupMark: string | null): string | null {
  if (text === "" || isNotANumberText(text)) return "no reading";
  const code = plan.words.get(text);
  if (code !== undefined) return WORD_NAMES[code] ?? null;
  const read = readNumber(text, decimalMark, groupMark);
  if (typeof read === "string") return null;
  return `${read.bound ?? ""}${textOfExact(read.mantissa, read.decimals)}`;
}
