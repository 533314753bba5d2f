/** What each column is: time, reading, status, or something that stands beside the readings. */
import { type Asked, type Asking, choice, reason } from "./asking.ts";
import type { ColumnEvidence } from "./evidence.ts";
import { isBesideReadings, isOwnAverage, isStatusLabel, isTimeLabel, isTradeLabel } from "./label.ts";
import { type LabelSeen, severalRuns } from "./label-runs.ts";
import type { ColumnRole } from "./mapping.ts";
import type { Question } from "./question.ts";
import { isSeriesColumn } from "./series-column.ts";
import { isTimeUnit } from "./structure.ts";
import { likelyMeaning } from "./words.ts";

export interface NamedColumn {
  readonly index: number;
  /** Label as in the file. */
  readonly label: string;
  /** The label where it is one, told apart from others; else the number of the column. Used in ids. */
  readonly id: string;
  readonly evidence: ColumnEvidence;
}

export type Content = "number" | "time" | "text" | "nothing";

/** What the cells of a column mostly are. Words that stand for no reading do not make a number column a text. */
export function contentOf(column: ColumnEvidence): Content {
  if (column.filled === 0) return "nothing";
  const { complete, dates, clocks } = column.times;
  const times = complete + dates + clocks;
  if (times * 2 > column.filled) return "time";
  const known = [...column.words.values()].reduce((sum, word) => sum + (likelyMeaning(word.text) === null ? 0 : word.count), 0);
  const isCode = column.leadingNoughts * 2 > column.numbers;
  if (column.numbers > 0 && !isCode && column.numbers * 2 >= column.filled - known) return "number";
  return known === column.filled ? "nothing" : "text";
}

export interface Roles {
  readonly roles: readonly ColumnRole[];
  readonly shape: "wide" | "long";
  /** Columns whose role nobody knows yet; they count as numbers until somebody says. */
  readonly open: ReadonlySet<number>;
}

export function rolesOf(asking: Asking, columns: readonly NamedColumn[]): Roles {
  const roles: ColumnRole[] = columns.map((column) => plainRole(asking, column));
  const open = new Set<number>();
  chooseTime(asking, columns, roles);
  const shape = longForm(asking, columns, roles) ? "long" : "wide";
  for (const column of columns) {
    if (roles[column.index] !== "number" || shape === "long") continue;
    roles[column.index] = numberRole(asking, column, open);
  }
  nameSeries(asking, columns, roles, open);
  const hasReadings = shape === "long" || roles.includes("reading");
  if (hasReadings) askRuns(asking, columns, roles, open);
  for (const column of columns) if (open.has(column.index)) roles[column.index] = askRole(asking, column, hasReadings);
  for (const column of columns) {
    const told = asking.answerTo(`role/${column.id}`);
    if (told !== null && isRole(told)) roles[column.index] = told;
  }
  return { roles, shape, open };
}

const ROLES: readonly ColumnRole[] = [
  "time",
  "date",
  "clock",
  "reading",
  "status",
  "series",
  "sensor",
  "value",
  "unit",
  "text",
  "number",
  "ignored",
];
const isRole = (text: string): text is ColumnRole => (ROLES as readonly string[]).includes(text);

/** Role by content alone. A trailing column without a label is left out (common practice: a delimiter at the end of the line). */
function plainRole(asking: Asking, column: NamedColumn): ColumnRole {
  const { structure } = asking.evidence;
  if (structure.labels.length > 0 && column.label === "" && isTrailing(structure.labels, column.index)) {
    asking.note("role", column.id, "ignored", "strong", [
      reason(column.evidence.filled === 0 ? "empty column at the end without a label" : "column at the end without a label"),
    ]);
    return "ignored";
  }
  const content = contentOf(column.evidence);
  if (content === "time") return "time";
  if (content === "number") return "number";
  if (content === "nothing")
    return asking.evidence.labelGases[column.index] !== null || asking.evidence.labelUnits[column.index] !== null ? "number" : "text";
  return isStatusLabel(column.label) ? "status" : "text";
}

export const isTrailing = (labels: readonly string[], index: number): boolean => labels.slice(index).every((label) => label === "");

interface TimeCandidate {
  readonly columns: readonly NamedColumn[];
  readonly roles: readonly ColumnRole[];
  readonly name: string;
  readonly isCount: boolean;
}

function chooseTime(asking: Asking, columns: readonly NamedColumn[], roles: ColumnRole[]): void {
  const candidates = timeCandidates(asking, columns, roles);
  const real = candidates.filter((candidate) => !candidate.isCount);
  const told = asking.answerTo("two time columns");
  const [first] = real.length > 0 ? real : candidates;
  const chosen = candidates.find(({ name }) => name === told) ?? (real.length > 1 ? askTime(asking, real) : first);
  for (const column of columns) if (roles[column.index] === "time") roles[column.index] = "text";
  if (chosen === undefined) return;
  for (const [index, column] of chosen.columns.entries()) roles[column.index] = chosen.roles[index] as ColumnRole; // one role a column
}

function askTime(asking: Asking, real: readonly TimeCandidate[]): TimeCandidate {
  const choices = real.map(({ name, columns }) =>
    choice(name, reason("reads as", null, columns.map(({ evidence }) => evidence.lastText).join(" "))),
  );
  const answer = asking.ask({ id: "two time columns", topic: "two time columns", choices });
  return real.find(({ name }) => name === answer) ?? (real[0] as TimeCandidate); // there are two at least
}

function timeCandidates(asking: Asking, columns: readonly NamedColumn[], roles: readonly ColumnRole[]): TimeCandidate[] {
  const timed = columns.filter((column) => roles[column.index] === "time");
  const most = (column: NamedColumn): "complete" | "dates" | "clocks" => {
    const { complete, dates, clocks } = column.evidence.times;
    if (
      isDottedClock(column.evidence) &&
      timed.some((other) => other !== column && !isDottedClock(other.evidence) && other.evidence.times.dates > 0)
    )
      return "clocks";
    return complete >= dates && complete >= clocks ? "complete" : dates >= clocks ? "dates" : "clocks";
  };
  const single = (column: NamedColumn, isCount = false): TimeCandidate => ({
    columns: [column],
    roles: ["time"],
    name: column.id,
    isCount,
  });
  const candidates = timed.filter((column) => most(column) === "complete").map((column) => single(column));
  const dates = timed.filter((column) => most(column) === "dates");
  const clocks = timed.filter((column) => most(column) === "clocks");
  const [date] = dates;
  const [clock] = clocks;
  if (date !== undefined && clock !== undefined)
    candidates.push({ columns: [date, clock], roles: ["date", "clock"], name: `${date.id} + ${clock.id}`, isCount: false });
  else if (date !== undefined && candidates.length === 0) candidates.push(single(date));
  else if (clock !== undefined && candidates.length === 0)
    candidates.push({ columns: [clock], roles: ["clock"], name: clock.id, isCount: false });
  const counts = columns.filter((column) => roles[column.index] === "number" && isCountOfTime(asking, column));
  return [...candidates, ...counts.slice(0, 1).map((column) => single(column, true))];
}

/** `18.00.00` has the form of a short date; beside a column of dates it is a clock. */
export const isDottedClock = ({ times }: ColumnEvidence): boolean =>
  times.dates > 0 &&
  times.clocks === 0 &&
  times.twoDigitYears.count === times.dates &&
  times.samples.every(({ text }) => /^\d\d?\.\d\d\.\d\d$/.test(text));

function isCountOfTime(asking: Asking, column: NamedColumn): boolean {
  if (contentOf(column.evidence) !== "number") return false;
  const unitText = asking.evidence.structure.unitTexts[column.index] ?? "";
  const isTimed = isTimeUnit(unitText) || isTimeUnit(asking.evidence.labelUnitTexts[column.index] ?? "");
  return isTimeLabel(column.label) && (asking.evidence.labelGases[column.index] === null || isTimed);
}

/** Time, sensor, value, perhaps unit: one reading a line. */
function longForm(asking: Asking, columns: readonly NamedColumn[], roles: ColumnRole[]): boolean {
  const toldSensor = columns.find((column) => asking.answerTo(`role/${column.id}`) === "sensor");
  const { evidence } = asking;
  const isToldOther = (column: NamedColumn): boolean => (asking.answerTo(`role/${column.id}`) ?? "sensor") !== "sensor";
  const sensor =
    toldSensor ?? columns.find((column) => roles[column.index] === "text" && namesGases(asking, column) && !isToldOther(column));
  const values = columns.filter(
    (column) =>
      roles[column.index] === "number" &&
      evidence.labelGases[column.index] === null &&
      evidence.labelUnits[column.index] === null &&
      !isBesideReadings(column.label),
  );
  if (sensor === undefined || values.length !== 1 || roles.every((role) => role !== "time" && role !== "date" && role !== "clock"))
    return false;
  const value = values[0] as NamedColumn; // one, just checked
  roles[sensor.index] = "sensor";
  roles[value.index] = "value";
  const unit = columns.find(
    (column) => roles[column.index] === "text" && /unit|einheit|unité|eenheid/i.test(column.label) && !isTradeLabel(column.label),
  );
  if (unit !== undefined) roles[unit.index] = "unit";
  asking.note("role", sensor.id, "sensor", "strong", [
    reason("long form: one reading a line"),
    reason("gas names in the rows", null, [...sensor.evidence.texts].slice(0, 4).join(", ")),
  ]);
  return true;
}

function namesGases(asking: Asking, column: NamedColumn): boolean {
  const gases = [...column.evidence.texts].filter(
    (text) => asking.evidence.sensors.get(text)?.gas !== undefined && asking.evidence.sensors.get(text)?.gas !== null,
  );
  return gases.length > 0 && gases.length * 2 >= column.evidence.texts.size && column.evidence.texts.size <= 32;
}

function numberRole(asking: Asking, column: NamedColumn, open: Set<number>): ColumnRole {
  const { labelGases, labelUnits, labelUnitTexts, structure } = asking.evidence;
  const unit = labelUnits[column.index] ?? null;
  const gas = labelGases[column.index] ?? null;
  if (isOwnAverage(column.label)) {
    asking.note("role", column.id, "number", "strong", [
      reason("an average that the instrument worked out, not a reading", null, column.label),
    ]);
    return "number";
  }
  if (gas !== null) return "reading";
  if (unit !== null && unit !== "ambiguous per cent") return "reading";
  const otherUnit = structure.unitTexts[column.index] ?? labelUnitTexts[column.index] ?? "";
  if (otherUnit !== "" || isBesideReadings(column.label) || isStatusLabel(column.label)) {
    asking.note("role", column.id, "number", otherUnit === "" ? "weak" : "strong", [
      reason(otherUnit === "" ? "word in the label" : "unit that measures no gas", null, otherUnit === "" ? column.label : otherUnit),
    ]);
    return "number";
  }
  if ([...column.evidence.units.values()].some((seen) => seen.unit !== null && seen.unit !== "ambiguous per cent")) return "reading";
  open.add(column.index);
  return "number";
}

/** A column that changes exactly where the time falls back tells several recordings apart. */
function nameSeries(asking: Asking, columns: readonly NamedColumn[], roles: ColumnRole[], open: Set<number>): void {
  if (asking.evidence.falls === 0) return;
  const series = columns.find(
    (column) =>
      (roles[column.index] === "number" || roles[column.index] === "text") && isSeriesColumn(column.evidence, asking.evidence.falls),
  );
  if (series === undefined) return;
  roles[series.index] = "series";
  open.delete(series.index);
  asking.note("role", series.id, "series", "strong", [
    reason(`tells recordings apart: changes ${asking.evidence.falls} times, each time where the time falls back`),
  ]);
}

/** Rows of several people or instruments, taken as one recording, would fill the gaps of each other: one such column at a time is asked about. */
function askRuns(asking: Asking, columns: readonly NamedColumn[], roles: ColumnRole[], open: Set<number>): void {
  if (roles.includes("series") || columns.some(({ id }) => asking.answers[`role/${id}`] === "series")) return;
  const may = columns.flatMap((column) => {
    const seen = asking.evidence.labels.get(column.index);
    const isOpen = roles[column.index] === "text" || roles[column.index] === "number";
    return isOpen && seen !== undefined && severalRuns(seen) !== null && asking.answerTo(`role/${column.id}`) === null
      ? [{ column, seen }]
      : [];
  });
  const found = may.find(({ seen }) => seen.isTrade) ?? may[0];
  if (found === undefined) return;
  const { index, id } = found.column;
  const isUnknown = open.delete(index);
  const answer = asking.ask(runsQuestion(id, found.seen, isUnknown));
  if (answer !== null) roles[index] = answer as ColumnRole; // `ask` lets no other answer pass
}

/** Which runs a column tells apart, if any. "ignored" is kept in a mapping, so that the next file does not ask again. */
export function runsQuestion(id: string, seen: LabelSeen, isUnknown = false): Asked & { readonly samples: Question["samples"] } {
  const at = severalRuns(seen) ?? seen.changes;
  const because = seen.falls.count > 0 ? "times repeat or fall back between its texts" : "its rows stand among each other";
  const others: readonly ColumnRole[] = isUnknown ? ["reading", "number", "status", "text"] : ["status"];
  return {
    id: `role/${id}`,
    topic: "role",
    column: id,
    samples: [{ line: at.line, text: at.text }],
    choices: [
      choice("series", reason("one recording for each value"), reason(because, at.line, at.text)),
      choice("ignored", reason("names no recording: one series")),
      ...others.map((value) => choice(value)),
    ],
    suggested: seen.isTrade ? "series" : null,
    blocking: true,
  };
}

function askRole(asking: Asking, column: NamedColumn, hasReadings: boolean): ColumnRole {
  const answer = asking.ask({
    id: `role/${column.id}`,
    topic: "role",
    column: column.id,
    samples: asking.sampleOf(column.index),
    choices: [choice("reading"), choice("number"), choice("ignored"), choice("series"), choice("status"), choice("text"), choice("time")],
    suggested: hasReadings ? "number" : null,
    blocking: !hasReadings,
  });
  return (answer ?? "number") as ColumnRole; // `ask` lets no other answer pass
}
