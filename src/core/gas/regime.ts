import { MOLAR_VOLUME_EU, MOLAR_VOLUME_US, type MolarVolume } from "../quantity/index.ts";
import type { Mark, RegimeId } from "./limit.ts";

/** How a regime makes one average of a working day. */
export type ShiftTreatment =
  | "worst-8h" // a shift over 8 h counts by its worst 8 h, sliding
  | "shift-8-to-10h" // divided by the length of the shift, at least 8 h and at most 10 h
  | "any-24h-over-8h"; // all exposure in any 24 h, divided by 8 h

export interface Regime {
  readonly id: RegimeId;
  readonly name: string;
  readonly jurisdiction: string;
  readonly molarVolume: MolarVolume;
  readonly shiftTreatment: ShiftTreatment;
  readonly shiftSource: string;
  readonly shiftMark: Mark;
  /** As of when the figures stand. */
  readonly edition: string;
  readonly caution: string | null;
}

/** The regimes of the tables, in the order in which they are shown. */
export const PUBLISHED_REGIMES: readonly Regime[] = [
  {
    id: "US-OSHA",
    name: "OSHA permissible exposure limits, general industry",
    jurisdiction: "United States",
    molarVolume: MOLAR_VOLUME_US,
    shiftTreatment: "worst-8h",
    shiftSource: "29 CFR 1910.1000(d)(1)(i); memo of 10 November 1999, read as a summary",
    shiftMark: "read",
    edition: "annotated tables of April 2018",
    caution: "General industry. Construction, shipyards and maritime work have figures of their own.",
  },
  {
    id: "US-NIOSH",
    name: "NIOSH recommended exposure limits and immediately dangerous concentrations",
    jurisdiction: "United States",
    molarVolume: MOLAR_VOLUME_US,
    shiftTreatment: "shift-8-to-10h",
    shiftSource: "NIOSH Pocket Guide: average for up to 10 hours in a 40-hour week (read); the divisor is our reading of it",
    shiftMark: "read",
    edition: "Pocket Guide, pages of 2016-2018",
    caution: "Recommendations without force of law.",
  },
  {
    id: "GB-WEL",
    name: "Workplace exposure limits, EH40/2005",
    jurisdiction: "Great Britain",
    molarVolume: MOLAR_VOLUME_EU,
    shiftTreatment: "any-24h-over-8h",
    shiftSource: "HSE EH40/2005, reference periods, as reprinted in South Africa, HCS Regulations 1995, Annexure 2",
    shiftMark: "read",
    edition: "EH40/2005, 4th edition 2020",
    caution: "Every figure is from memory: check it against the text in force.",
  },
  {
    id: "EU-IOELV",
    name: "European indicative limit values, and the binding ones of Directive 2004/37/EC",
    jurisdiction: "European Union",
    molarVolume: MOLAR_VOLUME_EU,
    shiftTreatment: "any-24h-over-8h",
    shiftSource: "as the British rule (from memory)",
    shiftMark: "memory",
    edition: "lists up to (EU) 2019/1831; Directive 2004/37/EC as amended by (EU) 2022/431",
    caution: "Member states set the law. Most figures are from memory.",
  },
  {
    id: "FR",
    name: "Binding national values, Code du travail art. R4412-149",
    jurisdiction: "France",
    molarVolume: MOLAR_VOLUME_EU,
    shiftTreatment: "any-24h-over-8h",
    shiftSource: "as the European rule (from memory)",
    shiftMark: "memory",
    edition: "text of 1 September 2020",
    caution: "Given only for the substances listed.",
  },
];
