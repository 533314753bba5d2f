/** What plain lines have shown, column by column, entered into the evidence as if each cell had been looked at. */
import type { ColumnEvidence, SurveyEvidence } from "./evidence.ts";
import type { NumberForm } from "./number-text.ts";
import { COUNT, DATE, NUMBER, SAME, SKIP } from "./plain-column.ts";
import type { Plan } from "./plan.ts";
import type { TimeTemplate } from "./time-template.ts";

export interface PlainSeen {
  readonly plan: Plan;
  readonly rows: number;
  readonly kinds: Uint8Array;
  /** Per column: blank cells, lowest number. */
  readonly blanks: Float64Array;
  readonly lowest: Float64Array;
  readonly forms: readonly { readonly column: number; readonly form: NumberForm; readonly line: number; readonly text: string }[];
  readonly dates: readonly { readonly line: number; readonly text: string; readonly first: number; readonly second: number }[];
  readonly clockTemplate: TimeTemplate | null;
  readonly dateTemplate: TimeTemplate | null;
  readonly lastTime: number;
}

/** Enters what the plain lines have shown into the evidence, once, at the end. */
export function foldPlain(seen: PlainSeen, evidence: SurveyEvidence): void {
  if (seen.rows === 0) return;
  evidence.clockSteps.isOther ||= seen.clockTemplate?.hasOtherHours === true;
  for (const [index, column] of evidence.columns.entries()) foldColumn(seen, column, index);
  for (const { column, form, line, text } of seen.forms) {
    const known = evidence.columns[column]?.forms.get(form);
    if (known === undefined) evidence.columns[column]?.forms.set(form, { count: 1, line, text });
  }
  const times = evidence.columns[seen.plan.date >= 0 ? seen.plan.date : seen.plan.time]?.times;
  for (const { line, text, first, second } of times === undefined ? [] : seen.dates) {
    if (first > times!.first.count) Object.assign(times!.first, { count: first, line, text });
    if (second > times!.second.count) Object.assign(times!.second, { count: second, line, text });
  }
}

function foldColumn(seen: PlainSeen, column: ColumnEvidence, index: number): void {
  const blank = seen.blanks[index] as number; // index is below the width
  const filled = seen.rows - blank;
  column.blank += blank;
  column.filled += filled;
  const kind = seen.kinds[index];
  if (kind === SAME)
    return seen.plan.seriesColumns.includes(index) || seen.plan.statuses.includes(index) ? undefined : foldSkipped(column, filled);
  column.changes += filled;
  if (kind === NUMBER || kind === COUNT) column.numbers += filled;
  if (kind === NUMBER) {
    if ((seen.lowest[index] as number) < column.lowest) column.lowest = seen.lowest[index] as number; // index is below the width
    column.greatest = Math.max(column.greatest, 0);
  } else if (kind === COUNT) column.greatest = Math.max(column.greatest, (seen.lastTime - seen.plan.countStart) / seen.plan.countScale);
  else if (kind === SKIP) foldSkipped(column, filled);
  else foldTimes(seen, column, filled, kind === DATE);
}

/** Columns that are no readings were not looked at: they count as what they were. */
function foldSkipped(column: ColumnEvidence, filled: number): void {
  const { complete, dates, clocks } = column.times;
  if (column.numbers * 2 > column.filled - filled) column.numbers += filled;
  else if ((complete + dates + clocks) * 2 > column.filled - filled) column.times.complete += complete > 0 ? filled : 0;
  else column.moreWords += filled;
}

function foldTimes(seen: PlainSeen, { times }: ColumnEvidence, filled: number, isDate: boolean): void {
  const template = seen.clockTemplate as TimeTemplate; // rows were read with it
  if (isDate) times.dates += filled;
  else if (template.dateAt < 0) times.clocks += filled;
  else times.complete += filled;
  if (template.offset !== null && !isDate) times.withOffset += filled;
  else times.local.count += filled;
  if (template.half !== null && !isDate) times.twelveHour += filled;
  const date = seen.dateTemplate as TimeTemplate; // rows were read with it
  if (!isDate && template.dateAt < 0) return;
  if (date.yearAt === date.dateAt) times.yearFirst += filled;
  else times.numbers += filled;
}
