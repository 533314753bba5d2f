/** What was not set against limits, and why: "no limit", "not covered" and "cannot be compared" are three different things. */
import { unitText } from "./figure.ts";
import { gasWords } from "./gas-words.ts";
import { type LimitShape, limitName } from "./limit-words.ts";

export interface NotComparedShape {
  readonly regime: string;
  readonly limit: LimitShape | null;
  readonly why:
    | "unit not known"
    | "other kind of unit"
    | "counts a part of the molecule"
    | "no conversion known"
    | "no limit"
    | "not covered";
}

export interface UncomparedChannel {
  readonly gas: string | null;
  readonly unit: string | null;
  readonly notCompared: readonly NotComparedShape[];
}

/**
 * One sentence a reason, naming what it holds for.
 *
 * @example
 * ```ts
 * import { notComparedSentences } from "./not-compared-words.ts";
 * const channel = (why: "no limit" | "not covered", regime: string) => ({ gas: "oxygen", unit: "vol%", notCompared: [{ regime, limit: null, why }] });
 * notComparedSentences(channel("no limit", "US-OSHA")); // => ["US-OSHA sets no limit for oxygen."]
 * notComparedSentences(channel("not covered", "FR")); // => ["The tables of FR do not hold oxygen, which is not the same as no limit."]
 * ```
 */
export function notComparedSentences({ gas, unit, notCompared }: UncomparedChannel): readonly string[] {
  const reasons = [...new Set(notCompared.map(({ why }) => why))];
  return reasons.map((why) => {
    const named = notCompared.filter((one) => one.why === why).map(({ regime, limit }) => (limit === null ? regime : limitName(limit)));
    return sentence(why, { names: listed(named), several: named.length > 1, gas: gasWords(gas ?? ""), unit });
  });
}

interface Named {
  readonly names: string;
  readonly several: boolean;
  readonly gas: string;
  readonly unit: string | null;
}

function sentence(why: NotComparedShape["why"], { names, several, gas, unit }: Named): string {
  const inUnit = unit === null ? "its unit" : unitText(unit);
  const notCompared = several ? "are not compared" : "is not compared";
  switch (why) {
    case "no limit":
      return `${names} ${several ? "set" : "sets"} no limit for ${gas}.`;
    case "not covered":
      return `The tables of ${names} do not hold ${gas}, which is not the same as no limit.`;
    case "unit not known":
      return `${names} ${notCompared}: the unit of the channel is not known.`;
    case "other kind of unit":
      return `${names} ${notCompared}: the channel reads in ${inUnit}, another kind of quantity.`;
    case "counts a part of the molecule":
      return `${names} ${notCompared}: ${several ? "they count" : "it counts"} a part of the molecule only, and a person decides what that is in ${inUnit}.`;
    case "no conversion known":
      return `${names} ${notCompared}: no molar mass or molar volume is known to set ${several ? "them" : "it"} against ${inUnit}.`;
  }
}

/** "A", "A and B", "A, B and C". */
function listed(names: readonly string[]): string {
  return names.length < 2 ? names.join("") : `${names.slice(0, -1).join(", ")} and ${names.at(-1)}`;
}
