/** What the walk over a file has shown, column by column. Plain data, so that conclusions can be drawn again after each answer. */

import type { Unit } from "../quantity/unit.ts";
import type { EncodingSeen, HighBytes } from "./encoding.ts";
import type { ClockSteps } from "./half-day.ts";
import type { LabelSeen } from "./label-runs.ts";
import type { NumberForm } from "./number-text.ts";
import type { Structure } from "./structure.ts";
import type { GasInLabel } from "./vocabulary.ts";

/** How often something was seen, and where first. */
export interface Sighting {
  count: number;
  line: number;
  text: string;
}

export interface TimeEvidence {
  complete: number;
  dates: number;
  clocks: number;
  /** Dates of three numbers with the year last or short: which one is the day must be settled. */
  numbers: number;
  yearFirst: number;
  /** Greatest first, second and third number of such dates, and where. */
  first: Sighting;
  second: Sighting;
  third: Sighting;
  twoDigitYears: Sighting;
  withOffset: number;
  local: Sighting;
  letters: Map<string, Sighting>;
  twelveHour: number;
  /** First texts, for the reasons that the row order gives. */
  samples: { line: number; text: string }[];
}

export interface ColumnEvidence {
  filled: number;
  blank: number;
  forms: Map<NumberForm, Sighting>;
  numbers: number;
  leadingNoughts: number;
  /** Of the numbers that both fit plain marks: greatest and lowest that is no sentinel. */
  greatest: number;
  lowest: number;
  /** Units written in the cells, and what they mean. */
  units: Map<string, Sighting & { unit: Unit | "ambiguous per cent" | null }>;
  bounds: Sighting;
  /** Texts that are no number and no time. */
  words: Map<string, Sighting>;
  moreWords: number;
  sentinels: Map<string, Sighting>;
  times: TimeEvidence;
  /** How often the text changed from row to row, and how often just where the time fell back. */
  changes: number;
  changesAtFalls: number;
  /** Number of texts that differ, counted up to a bound. */
  texts: Set<string>;
  lastText: string;
}

export interface RawRow {
  readonly line: number;
  readonly cells: readonly string[];
}

export interface SurveyEvidence {
  readonly structure: Structure;
  readonly encoding: EncodingSeen;
  readonly highBytes: HighBytes;
  readonly labelGases: readonly (GasInLabel | null)[];
  readonly labelUnits: readonly (Unit | "ambiguous per cent" | null)[];
  readonly labelUnitTexts: readonly string[];
  readonly columns: ColumnEvidence[];
  readonly given: Readonly<Record<string, string>>;
  readonly first: RawRow[];
  readonly worst: RawRow[];
  /** Texts of the sensor column with the gas and unit they name (long form). */
  readonly sensors: Map<string, { gas: GasInLabel | null; unit: Unit | "ambiguous per cent" | null; unitText: string; line: number }>;
  rows: number;
  falls: number;
  bytes: number;
  lines: number;
  lineEnds: { lf: number; crlf: number; cr: number; crcrlf: number };
  quoteFaults: number;
  lostCharacters: Sighting;
  conflicts: Sighting;
  /** Clock times that no date stands before, in a table without a column of dates. */
  dayless: Sighting;
  repeatedHour: Sighting;
  missingHour: Sighting & { before: string; after: string };
  readonly clockSteps: ClockSteps;
  /** By column: what may name the run of a row. */
  readonly labels: Map<number, LabelSeen>;
}

export const nothingSeen = (): Sighting => ({ count: 0, line: 0, text: "" });

export function see(sighting: Sighting, line: number, text: string): void {
  if (sighting.count++ === 0) {
    sighting.line = line;
    sighting.text = text;
  }
}

/** Counts a text in a map that never grows beyond `most`; false where there was no room. */
export function seeIn(map: Map<string, Sighting>, key: string, line: number, most: number): boolean {
  const known = map.get(key);
  if (known !== undefined) known.count++;
  else if (map.size < most) map.set(key, { count: 1, line, text: key });
  else return false;
  return true;
}

export const noColumnEvidence = (): ColumnEvidence => ({
  filled: 0,
  blank: 0,
  forms: new Map(),
  numbers: 0,
  leadingNoughts: 0,
  greatest: Number.NEGATIVE_INFINITY,
  lowest: Number.POSITIVE_INFINITY,
  units: new Map(),
  bounds: nothingSeen(),
  words: new Map(),
  moreWords: 0,
  sentinels: new Map(),
  times: noTimeEvidence(),
  changes: 0,
  changesAtFalls: 0,
  texts: new Set(),
  lastText: "",
});

const noTimeEvidence = (): TimeEvidence => ({
  complete: 0,
  dates: 0,
  clocks: 0,
  numbers: 0,
  yearFirst: 0,
  first: nothingSeen(),
  second: nothingSeen(),
  third: nothingSeen(),
  twoDigitYears: nothingSeen(),
  withOffset: 0,
  local: nothingSeen(),
  letters: new Map(),
  twelveHour: 0,
  samples: [],
});
