/** Rows as the file has them beside what was understood. */

import { type Instant, type LocalTime, localText, rfc3339FromInstant } from "../time/index.ts";
import type { SurveyEvidence } from "./evidence.ts";
import { noClockSteps } from "./half-day.ts";
import type { ColumnMapping, TableMapping } from "./mapping.ts";
import { readNumber, textOfExact } from "./number-text.ts";
import { type Plan, planOf } from "./plan.ts";
import type { Question } from "./question.ts";
import type { Preview, PreviewRow } from "./reading.ts";
import { CODE } from "./reading-code.ts";
import { RowClock } from "./time-cell.ts";
import { timeText } from "./time-text.ts";
import { isNotANumberText } from "./words.ts";

/** What a question that is still open leaves unknown of the cells: that is not shown, lest one reading of several pass for known. */
interface Unknown {
  readonly time: boolean;
  readonly day: boolean;
  readonly half: boolean;
  /** Columns whose marks are open. */
  readonly marks: ReadonlySet<number>;
  readonly seam: boolean;
}

export function previewOf(evidence: SurveyEvidence, mapping: TableMapping, questions: readonly Question[]): Preview {
  const plan = planOf(mapping);
  const unknown = unknownOf(mapping, questions);
  const columns = mapping.headerLines.length > 0 ? evidence.structure.labels : mapping.columns.map((column) => column.label);
  const seam = evidence.repeatedHour.count > 0 && mapping.time.repeatedHour === null;
  const clock = clockOf(plan);
  // The hard rows stand apart: what a row takes from those before it (day, side of a clock change) is not known of them.
  const alone: Plan = { ...plan, firstDay: null };
  return {
    columns,
    first: evidence.first.map((row) => previewRow(plan, clock, { ...unknown, seam }, row)),
    worst: evidence.worst.map((row) => previewRow(alone, clockOf(alone), { ...unknown, seam: mapping.time.repeatedHour === null }, row)),
  };
}

const NUMBERS: ReadonlySet<ColumnMapping["role"]> = new Set(["reading", "value", "number"]);

function unknownOf({ columns }: TableMapping, questions: readonly Question[]): Unknown {
  const has = (topic: Question["topic"]): boolean => questions.some((question) => question.topic === topic);
  const about = questions.filter(({ topic }) => topic === "decimal mark" || topic === "group mark").map(({ column }) => column);
  const isOpen = (label: string, index: number): boolean =>
    about.some((column) => column === null || column === label || column === String(index + 1));
  return {
    time: has("two time columns") || has("time form"),
    day: has("day and month") || has("two-digit year"),
    half: has("twelve-hour clock"),
    marks: new Set(columns.flatMap(({ label, role }, index) => (NUMBERS.has(role) && isOpen(label, index) ? [index] : []))),
    seam: false,
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

function previewRow(plan: Plan, clock: RowClock, unknown: Unknown, { line, cells }: SurveyEvidence["first"][number]): PreviewRow {
  const cell = (index: number): string => (index < 0 ? "" : (cells[index] ?? ""));
  const texts = [cell(plan.time), cell(plan.date), cell(plan.clock)] as const;
  const time = timeParsed(plan, clock, unknown, clock.read(...texts, line), texts.join(" ").trim());
  const parsed = plan.mapping.columns.map((column, index) =>
    // A whole number reads the same under any marks.
    unknown.marks.has(index) && /[.,]/.test(cell(index)) ? null : cellParsed(plan, column, cell(index), time),
  );
  return { line, raw: cells, parsed };
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
function timeParsed(plan: Plan, clock: RowClock, unknown: Unknown, time: number | string, text: string): string | null {
  if (typeof time === "string" || Number.isNaN(time) || unknown.time) return null;
  if (plan.form.endsWith("-from-start") && plan.mapping.time.start === null) return String(time / 1000);
  // `wall` counts wall-clock milliseconds, all others are instants. Each cast gives the brand.
  const local = localText(clock.wall as LocalTime);
  const seen = timeText(text);
  const isDayOpen = clock.isDayless || (unknown.day && seen?.date != null && seen.date.order !== "year first");
  const isHalfOpen = unknown.half && seen?.offset === null;
  if (isDayOpen || isHalfOpen) {
    const [day = "", hour = ""] = local.split("T");
    return [isDayOpen ? "" : day, isHalfOpen || seen?.clock === null ? "" : hour].join("");
  }
  return clock.isOpen || (clock.isTwice && unknown.seam) ? local : rfc3339FromInstant(time as Instant);
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
