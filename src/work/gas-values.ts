/** Values that a site declares for gases, as people write them: GAS=VALUE, the gas by any of its names. */
import { substanceByName } from "../core/gas/index.ts";
import { decimalFromText } from "../core/quantity/index.ts";
import { given, type Result, refused } from "../core/result.ts";
import type { Refusal } from "../report/index.ts";

export interface GasValueRule {
  readonly setting: "measurable threshold" | "dead band" | "negative floor";
  /** Whether nought is a value: as a threshold it would make every reading measurable. */
  readonly mayBeNought: boolean;
}

/** By gas id, digits as written. Refused: an unknown gas, a text that is no number, a number below (or at) nought. */
export function gasValues(
  pairs: readonly (readonly [gas: string, value: string])[],
  { setting, mayBeNought }: GasValueRule,
): Result<Readonly<Record<string, string>>, Refusal> {
  const values: Record<string, string> = {};
  for (const [name, text] of pairs) {
    const gas = substanceByName(name);
    if (!gas.ok) return gas;
    const number = decimalFromText(text);
    const mantissa = number.ok ? number.value.mantissa : -1;
    if (mantissa < 0 || (mantissa === 0 && !mayBeNought)) return refused({ type: "setting-not-a-number", setting, text });
    values[gas.value.id] = text;
  }
  return given(values);
}
