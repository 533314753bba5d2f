import type { LelBasis } from "../quantity/index.ts";
import { given, type Result, refused } from "../result.ts";
import type { GasId, Mark } from "./limit.ts";
import { FLAMMABLE_SOURCES } from "./tables/flammable-sources.ts";
import { FLAMMABLES } from "./tables/flammables.ts";

/** A figure with the id of its source in the table of flammable sources. */
export interface SourcedFigure {
  readonly value: number;
  readonly source: string;
}

export interface FlammableLimits {
  readonly source: string;
  /** Null where the source gives none; never nought. */
  readonly lelVolumePercent: number | null;
  readonly uelVolumePercent: number | null;
  readonly flashPointCelsius?: number;
  readonly flashPointRangeCelsius?: readonly number[];
  readonly autoignitionCelsius?: number;
  /** Limits measured hot: the limit at room temperature is higher. */
  readonly lelMeasuredAtCelsius?: number;
  readonly uelMeasuredAtCelsius?: number;
  readonly nameInSource?: string;
  readonly record?: string;
  readonly asPublished?: string;
  readonly note?: string;
}

export interface Flammable {
  readonly gas: string;
  readonly name: string;
  readonly cas: string;
  readonly formula: string | null;
  readonly limits: readonly FlammableLimits[];
  readonly molarMass?: SourcedFigure;
  readonly relativeVapourDensity?: SourcedFigure;
  readonly netHeatKilojoulesPerMole?: SourcedFigure & { readonly heatOfFormation: number; readonly heatOfFormationSource: string };
  readonly grossHeatKilojoulesPerMole?: SourcedFigure;
  readonly oxygenPerMole?: SourcedFigure;
  readonly diffusionVolume?: SourcedFigure & { readonly ringsCorrected: number };
  readonly diffusionSquareCentimetresPerSecond?: SourcedFigure;
  readonly ionisationElectronvolts?: readonly (SourcedFigure & { readonly record?: string })[];
  readonly note?: string;
  readonly casSource?: string;
}

export interface FlammableSource {
  readonly id: string;
  readonly mark: Mark;
  readonly title: string;
  readonly reprint?: string;
  readonly live?: string;
}

/** A basis for %LEL, with how far its source may be trusted. */
export interface SourcedLelBasis extends LelBasis {
  readonly gas: GasId;
  readonly uelVolumePercent: number | null;
  readonly title: string;
  readonly mark: Mark;
  /** Where the limit was measured hot; null = room temperature, or the source does not say. */
  readonly measuredAtCelsius: number | null;
}

export type LelBasisRefusal =
  | { readonly type: "no-flammable-limit"; readonly gas: string }
  /** The gas has limits, but not in this source: another source's must not step in. */
  | { readonly type: "no-limit-in-source"; readonly gas: string; readonly source: string; readonly sources: readonly string[] };

const rowsByGas: ReadonlyMap<string, Flammable> = new Map(FLAMMABLES.map((row) => [row.gas, row]));

const sourcesById: ReadonlyMap<string, FlammableSource> = new Map(FLAMMABLE_SOURCES.map((source) => [source.id, source]));

/** All that the tables hold of a fuel; null where they hold nothing. Isomers of xylene stand here under their own ids. */
export const flammable = (gas: string): Flammable | null => rowsByGas.get(gas) ?? null;

/** The source that a figure of `flammable` names; null for an unknown id. */
export const flammableSource = (id: string): FlammableSource | null => sourcesById.get(id) ?? null;

/**
 * Every basis on which a figure in %LEL of this gas can stand, one a source. Never averaged: 10 %LEL of methane is
 * 0.44 vol % on one and 0.5 vol % on the other.
 *
 * @param gas id; empty where the gas has no tabulated limit
 * @example
 * ```ts
 * import { lelBases } from "./flammable.ts";
 * lelBases("methane").map((basis) => [basis.source, basis.lelVolumePercent]); // => [["IEC", 4.4], ["NFPA", 5], ["BM627", 5]]
 * ```
 *
 * Source: IEC 60079-20-1:2010, NFPA 497 (2008), NIOSH Pocket Guide 2005-149 (read, in reprint); US Bureau of Mines
 * Bulletin 627 (partly from memory; see the mark).
 */
export function lelBases(gas: string): readonly SourcedLelBasis[] {
  return (flammable(gas)?.limits ?? []).flatMap((limits) => {
    if (limits.lelVolumePercent === null) return [];
    const source = flammableSource(limits.source);
    return [
      {
        gas: gas as GasId, // An id of the table: `flammable` found it.
        source: limits.source,
        lelVolumePercent: limits.lelVolumePercent,
        uelVolumePercent: limits.uelVolumePercent,
        title: source?.title ?? limits.source,
        mark: source?.mark ?? "memory",
        measuredAtCelsius: limits.lelMeasuredAtCelsius ?? null,
      },
    ];
  });
}

/**
 * The basis of one gas in one source.
 *
 * @param gas id
 * @param source `IEC`, `NFPA`, `NPG`, `BM627`, `BM627m`
 * @returns refused: a gas without tabulated limits; a source without this gas (another one is never taken instead)
 * @example
 * ```ts
 * import { lelBasis } from "./flammable.ts";
 * const basis = lelBasis("propane", "NFPA");
 * basis.ok && basis.value.lelVolumePercent; // => 2.1
 * lelBasis("isobutylene", "NFPA"); // => { "ok": false, "refusal": { "type": "no-limit-in-source", "gas": "isobutylene", "source": "NFPA", "sources": ["IEC", "BM627m"] } }
 * ```
 */
export function lelBasis(gas: string, source: string): Result<SourcedLelBasis, LelBasisRefusal> {
  const bases = lelBases(gas);
  if (bases.length === 0) return refused({ type: "no-flammable-limit", gas });
  const found = bases.find((basis) => basis.source === source);
  return found === undefined
    ? refused({ type: "no-limit-in-source", gas, source, sources: bases.map((basis) => basis.source) })
    : given(found);
}
