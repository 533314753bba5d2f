import { assert } from "../result.ts";
import { isIsoDate } from "./iso-date.ts";
import type { Limit, LimitsAnswer, RegimeId } from "./limit.ts";
import { type Alternate, answerOf, inForce, publishedEntry, publishedLimits } from "./limit-table.ts";
import type { OwnLimits } from "./own-limits.ts";
import { PUBLISHED_REGIMES, type Regime } from "./regime.ts";

export interface LimitsOn {
  /** Date of exposure at the place of work, "2026-03-04"; null where it is not known. */
  readonly on: string | null;
  /** Id of an alternate (`alternatesFor`) that holds instead, said by a person; absent = the ordinary limits. */
  readonly alternate?: string | null;
  /** A site's own limits beside the published ones; absent = none. */
  readonly own?: OwnLimits | null;
}

/**
 * The limits of a gas under a regime on the day of exposure.
 *
 * An own limit stands in the own regime of its file and hides nothing. Only a replacement, which must name the official
 * text that it was read from, takes the place of a published figure, from its own first day on; the original stays in
 * `replacements` of the file.
 *
 * @param gas id of the substance
 * @param regime id of the regime
 * @param when date of exposure (not of today), or null; an alternate by name; own limits
 * @returns limits; "no limit", where the table was looked at and has none, in its own words; "not covered", where it
 * was not looked at, which is not the same. `editionBy` "latest" tells that no date was given. The same limit is the
 * same object in every answer.
 * @example
 * ```ts
 * import { limitsFor } from "./limits-for.ts";
 * const march = limitsFor("benzene", "EU-IOELV", { on: "2026-03-04" });
 * march.status === "limits" && march.limits.map((limit) => limit.published?.value); // => [0.5]
 * const april = limitsFor("benzene", "EU-IOELV", { on: "2026-04-05" });
 * april.status === "limits" && april.limits.map((limit) => limit.published?.value); // => [0.2]
 * limitsFor("hydrogen", "US-OSHA", { on: null }).status; // => "no limit"
 * limitsFor("acrolein", "GB-WEL", { on: null }).status; // => "not covered"
 * ```
 *
 * Source: each limit carries its own. That the edition goes by the date of exposure: ours.
 */
export function limitsFor(gas: string, regime: RegimeId, { on, alternate = null, own = null }: LimitsOn): LimitsAnswer {
  assert(on === null || isIsoDate(on), "the date of exposure is an ISO date");
  const entry = publishedEntry(gas, regime);
  const chosen = entry?.alternates.find((one) => one.id === alternate) ?? null;
  assert(alternate === null || chosen !== null, "an alternate is one of those that alternatesFor lists");
  const instead = chosen === null ? [] : inForce(chosen.limits, on);
  if (instead.length > 0) return answerOf(entry, instead, on);
  const mine = (own?.limits ?? []).filter((limit) => limit.gas === gas && limit.regime === regime);
  return answerOf(entry, inForce([...withReplacements(entry?.limits ?? [], own), ...mine], on), on);
}

/**
 * What holds instead for a part of working life (segments exempt from a rule, a sector, a transition). A date after the
 * last day of an alternate brings the ordinary limits back.
 */
export const alternatesFor = (gas: string, regime: RegimeId): readonly Alternate[] => publishedEntry(gas, regime)?.alternates ?? [];

/** The published regimes in the order in which they are shown, and the own one of a file after them. */
export const regimes = (own: OwnLimits | null = null): readonly Regime[] =>
  own?.regime === null || own?.regime === undefined ? PUBLISHED_REGIMES : [...PUBLISHED_REGIMES, own.regime];

/** The regime of an id; null where neither the tables nor the file have it. */
export const regimeById = (id: string, own: OwnLimits | null = null): Regime | null =>
  regimes(own).find((regime) => regime.id === id) ?? null;

/** Any limit by its id, dated, alternate and replaced ones too; null where there is none. */
export const limitById = (id: string, own: OwnLimits | null = null): Limit | null =>
  [...publishedLimits, ...(own?.limits ?? []), ...(own?.replacements ?? []).map((one) => one.limit)].find((limit) => limit.id === id) ??
  null;

/** The replaced figure holds until the day on which its replacement begins; without such a day it is gone. */
function withReplacements(limits: readonly Limit[], own: OwnLimits | null): readonly Limit[] {
  if (own === null || own.replacements.length === 0) return limits;
  return limits.flatMap((limit) => {
    const replaced = own.replacements.filter((one) => one.replaces.id === limit.id);
    if (replaced.length === 0) return [limit];
    const [first] = replaced;
    const before = first === undefined || first.until === null ? [] : [first.until];
    return [...before, ...replaced.map((one) => one.limit)];
  });
}
