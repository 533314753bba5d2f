import type { QuantityKind, Unit } from "./unit.ts";

/** One unit that portable detectors log. */
export interface UnitRow {
  readonly unit: Unit;
  readonly kind: QuantityKind;
  /** UCUM 2.2 code (2024-06-17). For vol % and %LEL it is the same code, so it says nothing without the kind. */
  readonly ucum: string;
  /** One of this unit is 10^powerOfTen of the base of its kind (mol/mol, mg/m3, %LEL). */
  readonly powerOfTen: number;
  /** Spellings that files and people use, written as `plainUnitText` leaves them. Common practice. */
  readonly names: readonly string[];
}

const partsPer = (unit: "ppm" | "ppb"): readonly string[] => [
  unit,
  `[${unit}]`,
  `${unit}v`,
  `${unit}(v)`,
  `${unit} v`,
  `${unit}vol`,
  `${unit} vol`,
  `${unit} (vol)`,
  `${unit}-v`,
  `${unit} by volume`,
];

/**
 * Every unit with its UCUM code and its spellings. A bare per cent sign is in no row: it is vol % on one channel and
 * %LEL on the next, and nothing in the sign says which.
 */
export const UNITS: readonly UnitRow[] = [
  {
    unit: "ppm",
    kind: "volume fraction",
    ucum: "[ppm]",
    powerOfTen: -6,
    names: [...partsPer("ppm"), "parts per million", "10*-6", "umol/mol", "ul/l", "ml/m3", "cm3/m3", "vpm"],
  },
  {
    unit: "ppb",
    kind: "volume fraction",
    ucum: "10*-9",
    powerOfTen: -9,
    names: [...partsPer("ppb"), "parts per billion", "10*-9", "nmol/mol", "nl/l", "ul/m3", "mm3/m3"],
  },
  {
    unit: "vol%",
    kind: "volume fraction",
    ucum: "%",
    powerOfTen: -2,
    names: [
      "vol%",
      "vol %",
      "vol.%",
      "vol. %",
      "vol-%",
      "vol.-%",
      "vol. -%",
      "vol.- %",
      "volume %",
      "volume%",
      "%vol",
      "% vol",
      "%vol.",
      "% vol.",
      "%(vol)",
      "% (vol)",
      "%{vol}",
      "% volume",
      "%volume",
      "% by volume",
      "% by vol",
      "% by vol.",
      "%v/v",
      "% v/v",
      "%(v/v)",
      "% (v/v)",
      "%v",
      "% v",
      "vol pct",
      "pct vol",
      "percent vol",
      "percent volume",
      "per cent by volume",
      "percent by volume",
      "volume percent",
      "volume per cent",
      "vol percent",
      "volumenprozent",
      "vol.-proz.",
      "% en volume",
      "% (v:v)",
      "cmol/mol",
    ],
  },
  {
    unit: "mol/mol",
    kind: "volume fraction",
    ucum: "mol/mol",
    powerOfTen: 0,
    names: [
      "mol/mol",
      "mol mol-1",
      "mol mol^-1",
      "mol.mol-1",
      "mole/mole",
      "mole fraction",
      "mol fraction",
      "amount fraction",
      "m3/m3",
      "l/l",
    ],
  },
  {
    unit: "%LEL",
    kind: "fraction of LEL",
    ucum: "%",
    powerOfTen: -2,
    names: [
      "%lel",
      "% lel",
      "lel%",
      "lel %",
      "%(lel)",
      "% (lel)",
      "%{lel}",
      "% of lel",
      "percent lel",
      "percent of lel",
      "pct lel",
      "lel pct",
      "%lfl",
      "% lfl",
      "lfl%",
      "lfl %",
      "% of lfl",
      "%ueg",
      "% ueg",
      "ueg%",
      "ueg %",
      "%(ueg)",
      "% (ueg)",
      "% der ueg",
      "%lie",
      "% lie",
      "lie%",
      "lie %",
      "% de lie",
      "% de la lie",
      "%lii",
      "% lii",
    ],
  },
  {
    unit: "mg/m3",
    kind: "mass concentration",
    ucum: "mg/m3",
    powerOfTen: 0,
    names: [
      "mg/m3",
      "mg/m^3",
      "mg/m**3",
      "mg m-3",
      "mg m^-3",
      "mg.m-3",
      "mg*m-3",
      "mg m**-3",
      "mg/cbm",
      "mg/cu m",
      "mg/cu.m",
      "mg/cu. m",
      "mg per m3",
      "mg per cubic metre",
      "mg per cubic meter",
    ],
  },
  {
    unit: "ug/m3",
    kind: "mass concentration",
    ucum: "ug/m3",
    powerOfTen: -3,
    names: [
      "ug/m3",
      "ug/m^3",
      "ug/m**3",
      "ug m-3",
      "ug m^-3",
      "ug.m-3",
      "ug*m-3",
      "ug m**-3",
      "ug/cbm",
      "ug/cu m",
      "ug/cu.m",
      "ug/cu. m",
      "ug per m3",
      "ug per cubic metre",
      "ug per cubic meter",
      "mcg/m3",
      "mcg/m^3",
    ],
  },
];

const rows: ReadonlyMap<Unit, UnitRow> = new Map(UNITS.map((row) => [row.unit, row]));

/**
 * The row of a unit; every unit has one, so there is nothing to refuse.
 *
 * @example
 * ```ts
 * import { unitRow } from "./unit-table.ts";
 * unitRow("ppb").powerOfTen; // => -9
 * ```
 *
 * Source: UCUM 2.2, 2024-06-17 (read).
 */
export function unitRow(unit: Unit): UnitRow {
  const row = rows.get(unit);
  if (row === undefined) throw new Error(`broken promise: the unit ${unit} stands in the table`);
  return row;
}

/**
 * What kind of quantity a unit measures.
 *
 * @example
 * ```ts
 * import { kindOfUnit } from "./unit-table.ts";
 * kindOfUnit("vol%"); // => "volume fraction"
 * kindOfUnit("%LEL"); // => "fraction of LEL"
 * ```
 */
export const kindOfUnit = (unit: Unit): QuantityKind => unitRow(unit).kind;

/**
 * The UCUM code to write for a unit. It loses the kind: write the kind beside it, or 10 %LEL becomes 10 vol %.
 *
 * Source: UCUM 2.2, 2024-06-17 (read); `[ppb]` is deprecated there and is read but never written.
 *
 * @example
 * ```ts
 * import { ucumFromUnit } from "./unit-table.ts";
 * ucumFromUnit("ppb"); // => "10*-9"
 * ucumFromUnit("ug/m3"); // => "ug/m3"
 * ```
 */
export const ucumFromUnit = (unit: Unit): string => unitRow(unit).ucum;

/**
 * The exponent k for which a value in `to` is the value in `from` times 10^k; null where the two units differ by
 * more than a power of ten (another kind of quantity).
 *
 * Whole steps of 10^-d in `from` are whole steps of 10^-(d - k) in `to`: no digit is lost, nothing is multiplied.
 *
 * @param from unit of the value at hand
 * @param to unit wanted
 * @returns a whole number from -9 to 9, or null
 * @example
 * ```ts
 * import { powerOfTenBetween } from "./unit-table.ts";
 * powerOfTenBetween("vol%", "ppm"); // => 4
 * powerOfTenBetween("ug/m3", "mg/m3"); // => -3
 * powerOfTenBetween("%LEL", "vol%"); // => null
 * ```
 */
export function powerOfTenBetween(from: Unit, to: Unit): number | null {
  const first = unitRow(from);
  const second = unitRow(to);
  if (first.kind !== second.kind) return null;
  // "+ 0" because a unit against itself would otherwise give minus nought for negative exponents.
  return first.powerOfTen - second.powerOfTen + 0;
}
