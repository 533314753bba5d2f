/** Evidence and answers into a mapping, with every guess named and everything that changes the meaning asked. */
import type { Unit } from "../quantity/unit.ts";
import { given, type Result, refused } from "../result.ts";
import { Asking, choice, reason } from "./asking.ts";
import { aboutBuild, aboutLetters } from "./build-question.ts";
import { type Marks, marksOf } from "./decimal-mark.ts";
import { noColumnEvidence, type SurveyEvidence } from "./evidence.ts";
import { fingerprintOf } from "./fingerprint.ts";
import { KindsOfReading } from "./kind-of-reading.ts";
import type { ColumnMapping, TableMapping } from "./mapping.ts";
import type { Answers, Guess, Question, TableRefusal } from "./question.ts";
import { isDottedClock, isTrailing, type NamedColumn, type Roles, rolesOf } from "./role.ts";
import { checkZone, timeMappingOf } from "./time-form.ts";
import { wordsOf } from "./word-question.ts";

export interface Conclusion {
  readonly mapping: TableMapping;
  readonly guesses: readonly Guess[];
  readonly questions: readonly Question[];
  readonly surveyAgain: boolean;
}

const UNITS: readonly Unit[] = ["ppm", "ppb", "vol%", "mol/mol", "%LEL", "mg/m3", "ug/m3"];

export function conclude(evidence: SurveyEvidence, answers: Answers): Result<Conclusion, TableRefusal> {
  const asking = new Asking(evidence, answers);
  checkZone(asking);
  const surveyAgain = aboutLetters(asking) || aboutBuild(asking);
  const columns = namedColumns(asking);
  const found = rolesOf(asking, columns);
  const counted = columns.filter(({ index, evidence: column }) => isCounted(found, index) && column.numbers > 0);
  const marks = marksOf(
    asking,
    counted.map(({ id, evidence: column }) => ({ id, evidence: column })),
  );
  const time = timeMappingOf(asking, timeColumns(evidence, columns, found), found.roles.includes("series"));
  const readings = columns.filter(({ index }) => isReading(found, index));
  const { words, overRangeIn } = wordsOf(
    asking,
    readings,
    columns.filter(({ index }) => found.roles[index] === "status" && found.roles.some((role) => role === "reading" || role === "value")),
  );
  const kinds = new KindsOfReading(asking);
  const mapped = columns.map((column) => columnMapping(asking, column, found, marks, overRangeIn, kinds));
  const mapping: TableMapping = {
    form: "lamproom-mapping/1",
    fingerprint: fingerprintOf(evidence.structure),
    dialect: { ...evidence.structure.dialect, encoding: evidence.encoding.encoding },
    headerLines: evidence.structure.headerLines,
    unitLine: evidence.structure.unitLine,
    shape: found.shape,
    columns: mapped,
    channels: found.shape === "long" ? channelsOf(asking, columns, found, marks, kinds) : [],
    time,
    words,
  };
  kinds.note();
  aboutRows(asking, found.roles.includes("series"));
  return asking.refusal === null
    ? given({ mapping, guesses: asking.guesses, questions: asking.questions, surveyAgain })
    : refused(asking.refusal);
}

/** Number-like columns whose marks matter: readings and times, or all where nobody knows yet which are readings. */
function isCounted({ roles, open }: Roles, index: number): boolean {
  const role = roles[index];
  if (role === "reading" || role === "value" || role === "time") return true;
  return role === "number" && (open.has(index) || !roles.some((other) => other === "reading" || other === "value"));
}

const isReading = ({ roles, open }: Roles, index: number): boolean =>
  roles[index] === "reading" ||
  roles[index] === "value" ||
  (roles[index] === "number" && open.has(index)) ||
  (roles[index] === "number" && !roles.includes("time") && !roles.includes("date"));

/** Labels told apart: of two columns called `a` the second goes by its number as well, and never by a name that the file uses. */
function namedColumns(asking: Asking): NamedColumn[] {
  const { structure, columns } = asking.evidence;
  const labels = structure.headerLines.length === 0 ? toldLabels(asking, structure.width) : structure.labels;
  const counts = new Map<string, number>();
  for (const label of labels) counts.set(plain(label), (counts.get(plain(label)) ?? 0) + 1);
  for (const [label, count] of counts) if (label !== "" && count > 1) askTwice(asking, label, labels);
  return columns.map((evidence, index) => {
    const label = labels[index] ?? "";
    if (label === "" && labels.length > 0 && structure.headerLines.length > 0 && !isTrailing(labels, index)) {
      const name = asking.ask({
        id: `blank label/${index + 1}`,
        topic: "blank label",
        column: String(index + 1),
        samples: asking.sampleOf(index),
        choices: [],
        suggested: `column ${index + 1}`,
      });
      return { index, label: name ?? "", id: String(index + 1), evidence };
    }
    const isOnly = label !== "" && counts.get(plain(label)) === 1;
    return { index, label, id: isOnly ? label : String(index + 1), evidence };
  });
}

const plain = (label: string): string => label.normalize("NFC");

function askTwice(asking: Asking, label: string, labels: readonly string[]): void {
  const numbers = labels.flatMap((other, index) => (plain(other) === label ? [index + 1] : []));
  asking.ask({
    id: `duplicate label/${label}`,
    topic: "duplicate label",
    column: label,
    samples: numbers.flatMap((number) =>
      asking.evidence.structure.headerLines.slice(0, 1).map((line) => ({ line, text: `column ${number}` })),
    ),
    choices: [choice("keep both", reason("told apart by their numbers"))],
    suggested: "keep both",
  });
}

/** The answer to "what are the columns?": labels in order, parted by the delimiter or by commas. */
function toldLabels(asking: Asking, width: number): string[] {
  const told = asking.answers["header"];
  if (told === undefined || told === "none") return Array.from({ length: width }, () => "");
  const { delimiter } = asking.evidence.structure.dialect;
  const labels = told.split(delimiter !== "" && told.includes(delimiter) ? delimiter : ",").map((label) => label.trim());
  if (labels.length !== width) asking.refuse({ type: "bad-answer", question: "header", answer: told });
  return labels;
}

const timeColumns = (evidence: SurveyEvidence, columns: readonly NamedColumn[], { roles }: Roles): Parameters<typeof timeMappingOf>[1] =>
  columns
    .filter(({ index }) => roles[index] === "time" || roles[index] === "date" || roles[index] === "clock")
    .map(({ index, id, label, evidence: column }) => ({
      id,
      label,
      evidence: roles[index] === "clock" && isDottedClock(column) ? clockEvidence(column) : column,
      unitText: evidence.structure.unitTexts[index] ?? evidence.labelUnitTexts[index] ?? "",
      isCount: roles[index] === "time" && column.numbers > column.times.complete + column.times.dates + column.times.clocks,
    }));

/** What looked like short dates were clock times. */
const clockEvidence = (column: SurveyEvidence["columns"][number]): SurveyEvidence["columns"][number] => ({
  ...column,
  times: { ...noColumnEvidence().times, clocks: column.times.dates, local: column.times.local },
});

function columnMapping(
  asking: Asking,
  column: NamedColumn,
  found: Roles,
  marks: ReadonlyMap<string, Marks>,
  overRangeIn: ReadonlySet<string>,
  kinds: KindsOfReading,
): ColumnMapping {
  const role = found.roles[column.index] ?? "ignored";
  const mark = marks.get(column.id) ?? { decimalMark: ".", groupMark: null };
  const label = uniqueLabel(asking, column);
  if (role !== "reading") return { label, role, gas: null, unit: null, ...mark, kind: "spot", rangeTop: null };
  const gas = gasOf(asking, column.id, asking.evidence.labelGases[column.index] ?? null);
  const unit = unitOf(asking, column.id, unitSeen(asking, column), gas);
  return {
    label,
    role,
    gas,
    unit,
    ...mark,
    ...kinds.of(column.id, [column.label]),
    rangeTop: overRangeIn.has(column.id) ? rangeTopOf(asking, column.id) : (asking.answerTo(`range top/${column.id}`) ?? null),
  };
}

function uniqueLabel(asking: Asking, { label, index }: NamedColumn): string {
  const { labels } = asking.evidence.structure;
  const isFirst = labels.findIndex((other) => plain(other) === plain(label)) === index;
  if (label !== "" && (isFirst || !labels.some((other) => plain(other) === plain(label)))) return label;
  let made = label === "" ? `column ${index + 1}` : `${label} (column ${index + 1})`;
  while (labels.includes(made)) made += "'";
  return made;
}

function gasOf(asking: Asking, id: string, seen: SurveyEvidence["labelGases"][number]): string | null {
  // A weak guess is offered, not taken: the comparison with limits waits for a person.
  if (seen !== null && seen.gas !== null && seen.sureness !== "weak" && asking.answers[`gas/${id}`] === undefined) {
    asking.note("gas", id, seen.gas, seen.sureness, seen.reasons);
    return seen.gas;
  }
  const suggested = seen?.gas ?? null;
  return asking.ask({ id: `gas/${id}`, topic: "gas", column: id, choices: [], suggested, blocking: false });
}

interface UnitSeen {
  readonly unit: Unit | "ambiguous per cent" | null;
  readonly text: string;
  readonly line: number | null;
}

function unitSeen(asking: Asking, column: NamedColumn): UnitSeen {
  const { labelUnits, labelUnitTexts, structure } = asking.evidence;
  const inLabel = labelUnits[column.index] ?? null;
  if (inLabel !== null)
    return {
      unit: inLabel,
      text: structure.unitTexts[column.index] ?? labelUnitTexts[column.index] ?? "",
      line: structure.unitLine ?? structure.headerLines[0] ?? null,
    };
  const inCells = [...column.evidence.units.values()].filter(({ unit }) => unit !== null);
  const [first] = inCells;
  return first === undefined || new Set(inCells.map(({ unit }) => unit)).size > 1
    ? { unit: null, text: "", line: null }
    : { unit: first.unit, text: first.text, line: first.line };
}

function unitOf(asking: Asking, id: string, seen: UnitSeen, gas: string | null): Unit | null {
  const isSure = seen.unit !== null && seen.unit !== "ambiguous per cent";
  const told = asking.answers[`unit/${id}`];
  if (isSure && told === undefined) {
    asking.note("unit", id, seen.unit as string, "certain", [reason("written in the file", seen.line, seen.text)]); // sure means that it is a unit
    return seen.unit as Unit;
  }
  const samples = seen.text === "" ? [] : [{ line: seen.line ?? 0, text: seen.text }];
  if (isSure && told !== seen.unit) return askConflict(asking, id, seen.unit as Unit, told as string, samples);
  const isByVolume = seen.unit === "ambiguous per cent" && (gas === "oxygen" || gas === "carbon_dioxide");
  if (isByVolume && told === undefined && asking.answerTo(`unit/${id}`) === null) {
    asking.note("unit", id, "vol%", "strong", [reason("per cent of a gas that does not burn is by volume", seen.line, seen.text)]);
    return "vol%";
  }
  const offered = isByVolume ? (["vol%"] as const) : seen.unit === "ambiguous per cent" ? (["vol%", "%LEL"] as const) : UNITS;
  const answer = asking.ask({
    id: `unit/${id}`,
    topic: "unit",
    column: id,
    samples,
    choices: offered.map((unit) => choice(unit)),
    suggested: null,
  });
  return answer as Unit | null; // `ask` lets no other answer pass
}

/** The file says one unit and the answer another: neither is taken. */
function askConflict(asking: Asking, id: string, seen: Unit, told: string, samples: Question["samples"]): Unit {
  const answer = asking.answers[`unit conflict/${id}`];
  if (answer !== undefined && (UNITS as readonly string[]).includes(answer)) {
    asking.note("unit", id, answer, "certain", [reason("answered")]);
    return answer as Unit; // just checked
  }
  if (!(UNITS as readonly string[]).includes(told)) asking.refuse({ type: "bad-answer", question: `unit/${id}`, answer: told });
  asking.ask({
    id: `unit conflict/${id}`,
    topic: "unit",
    column: id,
    samples,
    choices: [
      choice(seen, reason("written in the file", samples[0]?.line ?? null, samples[0]?.text ?? null)),
      choice(told, reason("told")),
    ],
    suggested: null,
  });
  return seen;
}

function rangeTopOf(asking: Asking, id: string): string | null {
  const answer = asking.ask({ id: `range top/${id}`, topic: "range top", column: id, choices: [], suggested: null, blocking: false });
  if (answer !== null && !/^\d+(?:\.\d+)?$/.test(answer)) asking.refuse({ type: "bad-answer", question: `range top/${id}`, answer });
  return answer;
}

/** Long form: each text of the sensor column is a channel of its own. */
function channelsOf(
  asking: Asking,
  columns: readonly NamedColumn[],
  { roles }: Roles,
  marks: ReadonlyMap<string, Marks>,
  kinds: KindsOfReading,
): ColumnMapping[] {
  const value = columns.find(({ index }) => roles[index] === "value");
  const mark = marks.get(value?.id ?? "") ?? { decimalMark: ".", groupMark: null };
  const sensor = columns.find(({ index }) => roles[index] === "sensor");
  return [...asking.evidence.sensors]
    .filter(([label]) => label !== "" && (sensor?.evidence.texts.has(label) ?? false))
    .map(([label, seen]) => {
      const gas = gasOf(asking, label, seen.gas);
      const unit = unitOf(asking, label, { unit: seen.unit, text: seen.unitText, line: seen.line }, gas);
      return {
        label,
        role: "reading" as const,
        gas,
        unit,
        ...mark,
        ...kinds.of(label, [label, value?.label ?? ""]),
        rangeTop: asking.answerTo(`range top/${label}`),
      };
    });
}

/** What only the rows themselves can raise. */
function aboutRows(asking: Asking, isSplit: boolean): void {
  const { conflicts, missingHour } = asking.evidence;
  // On a clock that the logger did not keep, rows meet that never met: settle the clock first.
  // Nor do those of several recordings: settle first what tells them apart.
  const isRunOpen = asking.questions.some(({ topic, blocking, choices }) => topic === "role" && blocking && choices[0]?.value === "series");
  if (conflicts.count > 0 && !isSplit && !isRunOpen && missingHour.count === 0)
    asking.ask({
      id: "conflicting readings",
      topic: "conflicting readings",
      samples: [{ line: conflicts.line, text: conflicts.text }],
      choices: [choice("keep both", reason("from the lowest to the highest of them"))],
      suggested: "keep both",
    });
}
