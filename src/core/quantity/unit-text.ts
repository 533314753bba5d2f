import type { Unit } from "./unit.ts";
import { UNITS } from "./unit-table.ts";

/** Bare per cent: vol % and %LEL look the same, and 10 vol % of methane is 200 %LEL. */
const BARE_PER_CENT: ReadonlySet<string> = new Set([
  "%",
  "%.",
  "percent",
  "per cent",
  "per-cent",
  "pct",
  "pct.",
  "prozent",
  "proz.",
  "pour cent",
  "por ciento",
  "percentage",
  "10*-2",
]);

const unitsByName: ReadonlyMap<string, Unit> = new Map(UNITS.flatMap((row) => row.names.map((name) => [name, row.unit] as const)));

/** What "ambiguous per cent" can stand for, in no order of likelihood. */
export const MEANINGS_OF_PER_CENT: readonly Unit[] = ["vol%", "%LEL"];

/**
 * The unit that a text from a heading, a units row, a cell or a command line names.
 *
 * @param text as written; spaces around it and one pair of brackets do not matter, nor which micro sign is used
 * @returns the unit; "ambiguous per cent" for a bare per cent sign, which a person must settle (see
 * `MEANINGS_OF_PER_CENT`); null where the text names no unit of this table. Never a guess: `Mg/m3` (a megagram)
 * and `ppmw` (by weight) are null.
 * @example
 * ```ts
 * import { unitFromText } from "./unit-text.ts";
 * unitFromText("Vol.-%"); // => "vol%"
 * unitFromText("µg/m³"); // => "ug/m3"
 * unitFromText("(% UEG)"); // => "%LEL"
 * unitFromText("%"); // => "ambiguous per cent"
 * unitFromText("Mg/m3"); // => null
 * ```
 */
export function unitFromText(text: string): Unit | "ambiguous per cent" | null {
  const plain = plainUnitText(text);
  if (plain === null) return null;
  for (const candidate of [plain, withoutBrackets(plain)]) {
    const unit = unitsByName.get(candidate);
    if (unit !== undefined) return unit;
    if (BARE_PER_CENT.has(candidate)) return "ambiguous per cent";
  }
  return null;
}

/**
 * Compatibility forms (superscript three, wide per cent sign, squared letters) become plain ones, both micro signs
 * become u, all dashes a hyphen, middle dots a full stop, runs of spaces one space. Null where upper and lower case
 * are mixed in a way that changes the meaning: M is mega, m is milli.
 *
 * @example
 * ```ts
 * import { plainUnitText } from "./unit-text.ts";
 * plainUnitText(" µG/M³ "); // => "ug/m3"
 * plainUnitText("Mg/m3"); // => null
 * ```
 *
 * Source: compatibility forms: Unicode Standard Annex 15, NFKC (from memory).
 */
export function plainUnitText(text: string): string | null {
  const plain = text
    .normalize("NFKC")
    .replace(/\u03bc/gu, "u")
    .replace(/[\u2010-\u2015\u2212]/gu, "-")
    .replace(/[\u00b7\u22c5]/gu, ".")
    .replace(/\s+/gu, " ")
    .trim();
  return /\bM[gou]/u.test(plain) ? null : plain.toLowerCase();
}

function withoutBrackets(plain: string): string {
  const inner = /^(?:\((.*)\)|\[(.*)\]|\{(.*)\}|"(.*)")$/u.exec(plain);
  return (inner?.[1] ?? inner?.[2] ?? inner?.[3] ?? inner?.[4] ?? plain).trim();
}
