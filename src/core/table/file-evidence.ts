/** What is known of a file before its first row: its build, and what its labels name. */
import type { EncodingSeen, HighBytes } from "./encoding.ts";
import { noColumnEvidence, nothingSeen, type SurveyEvidence } from "./evidence.ts";
import { noClockSteps } from "./half-day.ts";
import { unitInLabel } from "./label.ts";
import type { Answers } from "./question.ts";
import type { TableEnvironment } from "./reading.ts";
import type { Structure } from "./structure.ts";

export function newEvidence(
  structure: Structure,
  encoding: EncodingSeen,
  highBytes: HighBytes,
  given: Answers,
  { vocabulary }: TableEnvironment,
): SurveyEvidence {
  const labels = structure.labels.length > 0 ? structure.labels : labelsTold(given, structure);
  const units = labels.map((label) => unitInLabel(label, vocabulary));
  return {
    structure,
    encoding,
    highBytes,
    given,
    labelGases: labels.map((label) => (label === "" ? null : vocabulary.gasInLabel(label))),
    labelUnits: labels.map((_, index) => unitRowUnit(structure, index, vocabulary) ?? units[index]?.unit ?? null),
    labelUnitTexts: units.map(({ text }) => text),
    columns: Array.from({ length: structure.width }, noColumnEvidence),
    first: [],
    worst: [],
    sensors: new Map(),
    rows: 0,
    falls: 0,
    bytes: 0,
    lines: 0,
    lineEnds: { lf: 0, crlf: 0, cr: 0, crcrlf: 0 },
    quoteFaults: structure.quoteFaultsStrict,
    lostCharacters: nothingSeen(),
    conflicts: nothingSeen(),
    dayless: nothingSeen(),
    repeatedHour: nothingSeen(),
    missingHour: { ...nothingSeen(), before: "", after: "" },
    clockSteps: noClockSteps(),
    labels: new Map(),
  };
}

const unitRowUnit = (
  structure: Structure,
  index: number,
  vocabulary: TableEnvironment["vocabulary"],
): SurveyEvidence["labelUnits"][number] => {
  const text = structure.unitTexts[index] ?? "";
  return text === "" ? null : vocabulary.unitFromText(text);
};

function labelsTold(given: Answers, structure: Structure): string[] {
  const told = given["header"];
  if (told === undefined || told === "none") return [];
  const { delimiter } = structure.dialect;
  return told.split(delimiter !== "" && told.includes(delimiter) ? delimiter : ",").map((label) => label.trim());
}
