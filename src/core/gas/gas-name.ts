import { given, type Result, refused } from "../result.ts";
import type { GasId } from "./limit.ts";
import { type Substance, substance, substances } from "./substance.ts";
import { OTHER_NAMES } from "./tables/other-names.ts";

export interface UnknownGas {
  readonly type: "unknown-gas";
  readonly gas: string;
  /** Ids that may have been meant; never taken by themselves. */
  readonly near: readonly string[];
  /** True where the name belongs to every gas of `near`; false where they only look alike. */
  readonly several: boolean;
}

/**
 * The substance that a person names: by id, formula, name or synonym, in any case, with or without accents, with
 * subscript or plain figures.
 *
 * Whole names only. A near miss is a suggestion in the refusal, never an answer: Benzin is petrol, Benzol is benzene.
 *
 * @param text such as "CO", "H₂S", "Benzol", "hydrogen_sulphide", "Sauerstoff"
 * @returns refused: a name that no substance has (with near ones), or that several have (with all of them)
 * @example
 * ```ts
 * import { substanceByName } from "./gas-name.ts";
 * const found = substanceByName("H₂S");
 * found.ok && found.value.id; // => "hydrogen_sulphide"
 * substanceByName("Bottled gas"); // => { "ok": false, "refusal": { "type": "unknown-gas", "gas": "Bottled gas", "near": ["propane", "lpg"], "several": true } }
 * substanceByName("ammonnia"); // => { "ok": false, "refusal": { "type": "unknown-gas", "gas": "ammonnia", "near": ["ammonia"], "several": false } }
 * ```
 *
 * Source: names and synonyms of the NIOSH Pocket Guide records (read); names in other languages: common practice.
 */
export function substanceByName(text: string): Result<Substance, UnknownGas> {
  const ids = gasesNamed(text);
  const only = ids.length === 1 ? substance(ids[0] ?? "") : null;
  if (only !== null) return given(only);
  return refused({ type: "unknown-gas", gas: text, near: ids.length > 1 ? ids : nearNames(text), several: ids.length > 1 });
}

/** Every gas that bears exactly this name. */
export const gasesNamed = (text: string): readonly GasId[] => idsByName.get(plainName(text)) ?? [];

/**
 * A name as it is compared: lower case, no accents, plain figures for subscripts, and a single space for every run of
 * signs that are neither letters nor figures.
 *
 * @example
 * ```ts
 * import { plainName } from "./gas-name.ts";
 * plainName("Hydrogène sulfuré (H₂S)"); // => "hydrogene sulfure h2s"
 * ```
 *
 * Source: Unicode Standard Annex 15, NFKD (from memory).
 */
export function plainName(text: string): string {
  return text
    .normalize("NFKD")
    .replace(/\p{M}/gu, "")
    .toLowerCase()
    .replace(/ß/gu, "ss")
    .replace(/[^\p{L}\p{N}]+/gu, " ")
    .trim();
}

const idsByName: ReadonlyMap<string, readonly GasId[]> = namesOfAll();

function namesOfAll(): ReadonlyMap<string, readonly GasId[]> {
  const names = new Map<string, GasId[]>();
  for (const one of substances) {
    for (const name of new Set(
      [one.id, one.name, one.formula ?? one.name, ...one.synonyms, ...(OTHER_NAMES[one.id] ?? [])].map(plainName),
    )) {
      names.set(name, [...(names.get(name) ?? []), one.id]);
    }
  }
  return new Map([...names].map(([name, ids]) => [name, withoutShared(name, ids)]));
}

/** A formula that isomers share (C4H10) names none of them; a gas whose own name it is keeps it. */
function withoutShared(name: string, ids: readonly GasId[]): readonly GasId[] {
  const own = ids.filter((id) => plainName(substance(id)?.name ?? "") === name || plainName(id) === name);
  return own.length === 1 ? own : ids;
}

/** Names within one slip of a short word and two of a longer one, nearest first, at most five. */
function nearNames(text: string): readonly GasId[] {
  const wanted = plainName(text);
  const reach = wanted.length < 4 ? 0 : wanted.length < 8 ? 1 : 2;
  const distances = new Map<GasId, number>();
  for (const [name, ids] of idsByName) {
    const distance = slips(wanted, name, reach);
    if (distance > reach) continue;
    for (const id of ids) distances.set(id, Math.min(distance, distances.get(id) ?? distance));
  }
  return [...distances]
    .sort((first, second) => first[1] - second[1])
    .slice(0, 5)
    .map(([id]) => id);
}

/** Letters to add, drop or change (Levenshtein); stops caring beyond `reach`. */
function slips(first: string, second: string, reach: number): number {
  if (Math.abs(first.length - second.length) > reach) return reach + 1;
  let before = Array.from({ length: second.length + 1 }, (_, index) => index);
  for (let row = 1; row <= first.length; row += 1) {
    const now = [row];
    for (let column = 1; column <= second.length; column += 1) {
      const change = (before[column - 1] ?? 0) + (first[row - 1] === second[column - 1] ? 0 : 1);
      now.push(Math.min(change, (before[column] ?? 0) + 1, (now[column - 1] ?? 0) + 1));
    }
    before = now;
  }
  return before[second.length] ?? 0;
}
