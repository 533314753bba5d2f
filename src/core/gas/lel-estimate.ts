import { given, type Result, refused } from "../result.ts";

export type EstimateRefusal =
  | { readonly type: "not-a-formula"; readonly formula: string }
  | { readonly type: "no-carbon"; readonly formula: string }
  /** The rule was fitted to carbon, hydrogen and oxygen only. */
  | { readonly type: "element-outside-rule"; readonly formula: string; readonly element: string };

/** An estimate is never more than that: it may lie above the real limit and must not replace a tabulated one. */
export interface LimitEstimate {
  readonly volumePercent: number;
  readonly flag: "estimate";
}

/**
 * Limits of a fuel C_m H_x O_y that no table holds, from the stoichiometry of burning:
 *
 *     LEL = 0.55 / (4.76 m + 1.19 x - 2.38 y + 1)        UEL = 3.5 / (the same)        as fractions
 *
 * @param formula such as "C6H14"; carbon, hydrogen and oxygen only
 * @returns vol %, flagged as an estimate; refused: other elements, no carbon, no formula
 * @example
 * ```ts
 * import { limitsFromFormula } from "./lel-estimate.ts";
 * const hexane = limitsFromFormula("C6H14");
 * hexane.ok && hexane.value.lel.volumePercent; // => 1.1899610558199915
 * limitsFromFormula("C3H3N"); // => { "ok": false, "refusal": { "type": "element-outside-rule", "formula": "C3H3N", "element": "N" } }
 * ```
 *
 * Source: Jones, after Crowl and Louvar, 2nd ed., as in chemicals 1.5.2, Crowl_Louvar_LFL (read).
 */
export function limitsFromFormula(formula: string): Result<{ readonly lel: LimitEstimate; readonly uel: LimitEstimate }, EstimateRefusal> {
  const atoms = atomsOf(formula);
  if (atoms === null) return refused({ type: "not-a-formula", formula });
  const other = [...atoms.keys()].find((element) => !["C", "H", "O"].includes(element));
  if (other !== undefined) return refused({ type: "element-outside-rule", formula, element: other });
  const carbon = atoms.get("C") ?? 0;
  if (carbon === 0) return refused({ type: "no-carbon", formula });
  const divisor = 4.76 * carbon + 1.19 * (atoms.get("H") ?? 0) - 2.38 * (atoms.get("O") ?? 0) + 1;
  if (divisor <= 0) return refused({ type: "not-a-formula", formula });
  return given({ lel: { volumePercent: 55 / divisor, flag: "estimate" }, uel: { volumePercent: 350 / divisor, flag: "estimate" } });
}

const HALOGENS: readonly string[] = ["F", "Cl", "Br", "I"];

/**
 * Lower limit from the heat of combustion H in MJ/mol (negative):
 *
 *     LEL % = -3.42 / H + 0.569 H + 0.0538 H^2 + 1.80
 *
 * @param fuel formula (to refuse halogenated compounds, which the fit leaves out) and heat, below 0
 * @returns vol %, flagged as an estimate
 * @example
 * ```ts
 * import { lelFromHeat } from "./lel-estimate.ts";
 * const propane = lelFromHeat({ formula: "C3H8", heatMegajoulesPerMole: -2.2193 });
 * propane.ok && propane.value.volumePercent; // => 2.3432254857434627
 * ```
 *
 * Source: Suzuki 1994, Fire and Materials 18:333-336, as in chemicals 1.5.2 (read).
 */
export function lelFromHeat({
  formula,
  heatMegajoulesPerMole: heat,
}: {
  readonly formula: string;
  readonly heatMegajoulesPerMole: number;
}): Result<LimitEstimate, EstimateRefusal> {
  const atoms = atomsOf(formula);
  if (atoms === null || !(heat < 0)) return refused({ type: "not-a-formula", formula });
  const halogen = HALOGENS.find((element) => atoms.has(element));
  if (halogen !== undefined) return refused({ type: "element-outside-rule", formula, element: halogen });
  return given({ volumePercent: -3.42 / heat + 0.569 * heat + 0.0538 * heat * heat + 1.8, flag: "estimate" });
}

/**
 * Lower limit at another temperature: LEL_T = LEL_25 (1 - 0.000721 (T - 25)), T in °C. Small beside the question of the
 * basis; for hot spaces only.
 *
 * @param at lower limit in vol % at 25 °C, and temperature; meant for -40 to 200 °C
 * @example
 * ```ts
 * import { lelAtTemperature } from "./lel-estimate.ts";
 * lelAtTemperature({ lelVolumePercentAt25: 5, celsius: 50 }); // => 4.909875
 * ```
 *
 * Source: usual form (from memory); that limits move about linearly: Kondo et al. 2011, J. Hazard. Mater. 187:585-590
 * (abstract read).
 */
export const lelAtTemperature = ({
  lelVolumePercentAt25,
  celsius,
}: {
  readonly lelVolumePercentAt25: number;
  readonly celsius: number;
}): number => lelVolumePercentAt25 * (1 - 0.000721 * (celsius - 25));

function atomsOf(formula: string): ReadonlyMap<string, number> | null {
  if (!/^(?:[A-Z][a-z]?\d*)+$/u.test(formula)) return null;
  const atoms = new Map<string, number>();
  for (const [, element = "", count = ""] of formula.matchAll(/([A-Z][a-z]?)(\d*)/gu)) {
    atoms.set(element, (atoms.get(element) ?? 0) + (count === "" ? 1 : Number(count)));
  }
  return atoms;
}
