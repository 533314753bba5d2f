/** A saved mapping and what the call says besides: the call fills what the mapping leaves open and overrides nothing. */
import { given, type Result, refused } from "../core/result.ts";
import type { Answers, ColumnMapping, TableMapping } from "../core/table/index.ts";
import { readRfc3339 } from "../core/time/index.ts";
import type { DoorRefusal } from "../report/index.ts";
import type { FileRefusal } from "./answer.ts";
import { kindTold } from "./checked-answers.ts";

type Otherwise = Extract<DoorRefusal, { readonly type: "mapping-says-otherwise" }>;

export function mappingWithAnswers(mapping: TableMapping, answers: Answers): Result<TableMapping, FileRefusal> {
  const columns = [...mapping.columns, ...mapping.channels].filter(({ role }) => role === "reading");
  const differing = contradiction(mapping, columns, answers);
  if (differing !== null) return refused(differing);
  const start = answers["start"] ?? null;
  const countsFromStart = mapping.time.form.endsWith("-from-start");
  if (start !== null && countsFromStart && !readRfc3339(start).ok) return refused({ type: "bad-answer", question: "start", answer: start });
  const filled = (column: ColumnMapping): ColumnMapping => (column.role === "reading" ? filledReading(column, answers) : column);
  const time = { ...mapping.time, start: mapping.time.start ?? (countsFromStart ? start : null) };
  return given({ ...mapping, time, columns: mapping.columns.map(filled), channels: mapping.channels.map(filled) });
}

/** A gas that the mapping does not know, and a kind of reading that nobody had said. */
function filledReading(column: ColumnMapping, answers: Answers): ColumnMapping {
  const { label } = column;
  const kind = kindTold(label, answers);
  const isUnsaid = (column.kindChosenBy ?? "default") === "default";
  return {
    ...column,
    gas: column.gas ?? answers[`gas/${label}`] ?? answers["gas/*"] ?? null,
    ...(isUnsaid && kind !== null ? { kind, kindChosenBy: "person" as const } : {}),
  };
}

/** A zone, a start, a gas or a unit that both name and name differently. An answer for every channel (`*`) claims none in particular. */
function contradiction({ time }: TableMapping, columns: readonly ColumnMapping[], answers: Answers): Otherwise | null {
  const claims: readonly (readonly [question: string, mapped: string | null])[] = [
    ["zone", time.zone],
    ["start", time.start],
    ...columns.flatMap(({ label, gas, unit }) => [[`gas/${label}`, gas] as const, [`unit/${label}`, unit] as const]),
    ...columns
      .filter(({ kindChosenBy }) => (kindChosenBy ?? "default") !== "default")
      .map(({ label, kind }) => [`reading kind/${label}`, kind] as const),
  ];
  for (const [question, mapped] of claims) {
    const answer = answers[question];
    if (answer !== undefined && mapped !== null && answer !== mapped) return { type: "mapping-says-otherwise", question, answer, mapped };
  }
  return null;
}
