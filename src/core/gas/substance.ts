import type { GasId, Mark } from "./limit.ts";
import { SUBSTANCES } from "./tables/substances.ts";

export interface SubstanceRow {
  readonly id: string;
  readonly name: string;
  readonly kind: "toxic" | "voc" | "flammable" | "oxygen";
  readonly formula: string | null;
  readonly cas: string;
  /** Null for mixtures: nothing can be converted with it. */
  readonly molarMassGramsPerMole: number | null;
  readonly synonyms: readonly string[];
  readonly ionisation?: Ionisation;
  /** Conversion line of the NIOSH Pocket Guide record, as printed. */
  readonly pocketGuideConversion?: string;
  readonly notes?: readonly string[];
}

export interface Ionisation {
  readonly electronvolts: number;
  readonly source: string;
  readonly mark: Mark;
  readonly note?: string;
}

export interface Substance extends SubstanceRow {
  readonly id: GasId;
}

// The brand exists in the types only: an id of the table is a GasId, and this is the one place that says so.
const rows: readonly Substance[] = SUBSTANCES.map((row) => ({ ...row, id: row.id as GasId }));

const rowsById: ReadonlyMap<string, Substance> = new Map(rows.map((row) => [row.id, row]));

/** Every substance of the table. */
export const substances: readonly Substance[] = rows;

/**
 * The substance of an id.
 *
 * @param id as in the table, such as `carbon_monoxide`; for what people write see `substanceByName`
 * @returns null where the table has no such id
 * @example
 * ```ts
 * import { substance } from "./substance.ts";
 * substance("hydrogen_sulphide")?.formula; // => "H2S"
 * substance("H2S"); // => null
 * ```
 *
 * Source: formulas, CAS numbers and names from the NIOSH Pocket Guide records of 2016-2018 (read); molar masses from
 * IUPAC abridged standard atomic weights (computed).
 */
export const substance = (id: string): Substance | null => rowsById.get(id) ?? null;
