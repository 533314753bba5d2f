/** Rows as the file has them beside what was understood. */

import { type Instant, type LocalTime, localText, rfc3339FromInstant } from "../time/index.ts";
import type { SurveyEvidence } from "./evidence.ts";
import { noClockSteps } from "./half-day.ts";
import type { ColumnMapping, TableMapping } from "./mapping.ts";
import { readNumber, textOfExact } from "./number-text.ts";
import { type Plan, planOf } from "./plan.ts";
import type { Preview, PreviewRow } from "./reading.ts";
import { CODE } from "./reading-code.ts";
import { RowClock } from "./time-cell.ts";
import { isNotANumberText } from "./words.ts";

export function previewOf(evidence: SurveyEvidence, mapping: TableMapping): Preview {
  const plan = planOf(mapping);
  const columns = mapping.headerLines.length > 0 ? evidence.structure.labels : mapping.columns.map((column) => column.label);
  const isSeamOpen = evidence.repeatedHour.count > 0 && mapping.time.repeatedHour === null;
  const clock = clockOf(plan);
  // The hard rows stand apart: what a row takes from those before it (day, side of a clock change) is not known of them.
  const alone: Plan = { ...plan, firstDay: null };
  return {
    columns,
    first: evidence.first.map((row) => previewRow(plan, clock, isSeamOpen, row)),
    worst: evidence.worst.map((row) => previewRow(alone, clockOf(alone), mapping.time.repeatedHour === null, row)),
  };
}

/** Its findings are of a few rows only, so they are dropped. */
function clockOf(plan: Plan): RowClock {
  const nothing = { count: 1, line: 0, text: "" };
  return new RowClock(plan, {
    repeatedHour: { ...nothing },
    missingHour: { ...nothing, before: "", after: "" },
    clockSteps: noClockSteps(),
  });
}

function previewRow(plan: Plan, clock: RowClock, isSeamOpen: boolean, { line, cells }: SurveyEvidence["first"][number]): PreviewRow {
  const cell = (index: number): string => (index < 0 ? "" : (cells[index] ?? ""));
  const time = timeParsed(plan, clock, isSeamOpen, clock.read(cell(plan.time), cell(plan.date), cell(plan.clock), line));
  return { line, raw: cells, parsed: plan.mapping.columns.map((column, index) => cellParsed(plan, column, cell(index), time)) };
}

function cellParsed(plan: Plan, { role, decimalMark, groupMark }: ColumnMapping, text: string, time: string | null): string | null {
  if (role === "time" || role === "clock") return time;
  // The instant of both stands under the clock.
  if (role === "date") return plan.clock < 0 || time === null ? time : "";
  if (role === "reading" || role === "value") return numberParsed(plan, text, decimalMark, groupMark);
  if (role === "number") return text === "" ? "" : (numberParsed(plan, text, decimalMark, groupMark) ?? text);
  return role === "ignored" ? "" : text;
}

/** What is not known of a time is not shown: without a zone, or in an hour that happens twice, it is no instant; before any date it has no day. */
function timeParsed(plan: Plan, clock: RowClock, isSeamOpen: boolean, time: number | string): string | null {
  if (typeof time === "string" || Number.isNaN(time)) return null;
  if (plan.form.endsWith("-from-start") && plan.mapping.time.start === null) return String(time / 1000);
  // `wall` counts wall-clock milliseconds, all others are instants. Each cast gives the brand.
  const local = localText(clock.wall as LocalTime);
  if (clock.isDayless) return local.slice(local.indexOf("T") + 1);
  return clock.isOpen || (clock.isTwice && isSeamOpen) ? local : rfc3339FromInstant(time as Instant);
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
