import { given, type Result, refused } from "../result.ts";

/** A fuel with its share and its limit; all limits of one calculation from one source. */
export interface FuelPart {
  readonly gas: string;
  /** Share of the fuel part, the shares adding up to 1. */
  readonly share: number;
  /** Lower or upper limit in vol % in air. */
  readonly limitVolumePercent: number;
  readonly source: string;
}

export interface FuelInAir {
  readonly gas: string;
  /** Concentration in air in vol %. */
  readonly volumePercent: number;
  readonly lelVolumePercent: number;
  readonly source: string;
}

export type MixtureRefusal =
  | { readonly type: "no-fuel" }
  | { readonly type: "not-a-share"; readonly gas: string; readonly value: number }
  | { readonly type: "shares-do-not-add-up"; readonly sum: number }
  | { readonly type: "no-flammable-limit"; readonly gas: string }
  | { readonly type: "limits-of-several-sources"; readonly sources: readonly string[] }
  | { readonly type: "no-coefficient-for-inert"; readonly gas: string };

/**
 * Flammable limit of a mixture of fuels after Le Chatelier:
 *
 *     L = 1 / Σ (x_i / L_i)        x_i share of the fuel part, L_i and L in vol % in air
 *
 * For upper limits the rule is less trustworthy: say so beside the figure.
 *
 * @param parts shares above 0 that add up to 1 (within 1e-6), limits above 0, all of one source
 * @returns vol %; refused: no part, shares that do not add up, a limit that is missing, limits of several sources
 * @example
 * ```ts
 * import { mixtureLimit } from "./mixture.ts";
 * const part = (gas: string, share: number, limitVolumePercent: number) => ({ gas, share, limitVolumePercent, source: "NFPA" });
 * mixtureLimit([part("methane", 0.9, 5), part("ethane", 0.06, 3), part("propane", 0.03, 2.1), part("n_butane", 0.01, 1.9)]); // => { "ok": true, "value": 4.554794520547945 }
 * ```
 *
 * Source: Crowl and Louvar, Chemical Process Safety, 2nd ed., as in chemicals 1.5.2, fire_mixing (read).
 */
export function mixtureLimit(parts: readonly FuelPart[]): Result<number, MixtureRefusal> {
  const fault = faultOfParts(parts);
  if (fault !== null) return refused(fault);
  return given(1 / parts.reduce((sum, part) => sum + part.share / part.limitVolumePercent, 0));
}

function faultOfParts(parts: readonly FuelPart[]): MixtureRefusal | null {
  if (parts.length === 0) return { type: "no-fuel" };
  const sum = parts.reduce((total, part) => total + part.share, 0);
  return (
    faultOfShares(parts.map((part) => [part.gas, part.share])) ??
    (Math.abs(sum - 1) > 1e-6 ? { type: "shares-do-not-add-up", sum } : null) ??
    faultOfLimits(parts.map((part) => [part.gas, part.limitVolumePercent])) ??
    faultOfSources(parts.map((part) => part.source))
  );
}

/**
 * Per cent of the lower limit that several fuels in air make together: p = 100 Σ (c_i / LEL_i), and the limit of their
 * mixture, Σ c_i / (p / 100). The two ways to it agree.
 *
 * @param fuels concentrations of 0 or more and lower limits in vol %, all limits of one source
 * @returns %LEL of the mixture, and its limit in vol % (null where no fuel is there); refused as `mixtureLimit`
 * @example
 * ```ts
 * import { percentOfLel } from "./mixture.ts";
 * const fuel = (gas: string, volumePercent: number, lelVolumePercent: number) => ({ gas, volumePercent, lelVolumePercent, source: "NFPA" });
 * const air = percentOfLel([fuel("methane", 1, 5), fuel("propane", 0.3, 2.1), fuel("hydrogen", 0.4, 4)]);
 * air.ok && air.value.percentOfLel; // => 44.285714285714285
 * air.ok && air.value.mixtureLelVolumePercent; // => 3.838709677419355
 * ```
 *
 * Source: as `mixtureLimit`.
 */
export function percentOfLel(
  fuels: readonly FuelInAir[],
): Result<{ readonly percentOfLel: number; readonly mixtureLelVolumePercent: number | null }, MixtureRefusal> {
  const fault =
    (fuels.length === 0 ? ({ type: "no-fuel" } as const) : null) ??
    faultOfShares(fuels.map((fuel) => [fuel.gas, fuel.volumePercent])) ??
    faultOfLimits(fuels.map((fuel) => [fuel.gas, fuel.lelVolumePercent])) ??
    faultOfSources(fuels.map((fuel) => fuel.source));
  if (fault !== null) return refused(fault);
  const percent = 100 * fuels.reduce((sum, fuel) => sum + fuel.volumePercent / fuel.lelVolumePercent, 0);
  const total = fuels.reduce((sum, fuel) => sum + fuel.volumePercent, 0);
  return given({ percentOfLel: percent, mixtureLelVolumePercent: total > 0 ? (100 * total) / percent : null });
}

/** Inert coefficients K of ISO 10156:2017, as in chemicals 1.5.2, ISO_10156_2017_Kks (read). Oxygen in the blend counts as an inert. */
export const INERT_COEFFICIENTS: Readonly<Record<string, number>> = {
  N2: 1,
  O2: 1,
  CO2: 1.5,
  He: 0.9,
  Ar: 0.55,
  Ne: 0.7,
  Kr: 0.5,
  Xe: 0.5,
  SO2: 1.5,
  SF6: 4,
  CF4: 2,
  C3F8: 1.5,
  C2HF5: 3.5,
};

/** One part of a blend of fuels and inert gases. */
export interface BlendPart {
  /** Formula; of an inert one of `INERT_COEFFICIENTS`. */
  readonly gas: string;
  /** Mole fraction in the whole blend, the fractions adding up to 1. */
  readonly fraction: number;
  /** Lower limit of a fuel as a fraction of air; null for an inert. */
  readonly lelFraction: number | null;
}

/**
 * Lower limit in air of a blend of fuels with inert gases, all quantities as fractions:
 *
 *     L'     = 1 / Σ (x_i / L_i)                          x_i = z_i / A over the fuels
 *     K      = Σ (K_k z_k) / B                            over the inerts
 *     factor = (1 - L' - (1 - K) (B / A) L') / (1 - L')   1 without inerts
 *     L_mix  = 1 / Σ (z_i / (factor L_i))
 *
 * @param blend mole fractions z adding up to 1 (within 1e-6); A of fuels, B of inerts
 * @returns limit of the blend in vol %, and the factor. Above 100: no dilution of this blend with air is flammable by
 * this method; it says no more. Refused: no fuel, fractions that do not add up, an inert without a coefficient (steam).
 * @example
 * ```ts
 * import { blendLimit } from "./mixture.ts";
 * const biogas = blendLimit([{ gas: "CH4", fraction: 0.4, lelFraction: 0.044 }, { gas: "CO2", fraction: 0.6, lelFraction: null }]);
 * biogas.ok && biogas.value.lelVolumePercent; // => 11.379707112970712
 * blendLimit([{ gas: "CH4", fraction: 0.4, lelFraction: 0.044 }, { gas: "steam", fraction: 0.6, lelFraction: null }]); // => { "ok": false, "refusal": { "type": "no-coefficient-for-inert", "gas": "steam" } }
 * ```
 *
 * Source: ISO 10156:2017, as implemented and tested in chemicals 1.5.2, LFL_ISO_10156_2017 (read).
 */
export function blendLimit(
  blend: readonly BlendPart[],
): Result<{ readonly lelVolumePercent: number; readonly factor: number }, MixtureRefusal> {
  const fuels = blend.flatMap(({ gas, fraction, lelFraction }) => (lelFraction === null ? [] : [{ gas, fraction, lelFraction }]));
  const inerts = blend.filter((part) => part.lelFraction === null);
  const fault = faultOfBlend(blend, fuels);
  if (fault !== null) return refused(fault);
  const a = fuels.reduce((sum, fuel) => sum + fuel.fraction, 0);
  const b = inerts.reduce((sum, inert) => sum + inert.fraction, 0);
  const fuelLimit = 1 / fuels.reduce((sum, fuel) => sum + fuel.fraction / a / fuel.lelFraction, 0);
  const weighted = inerts.reduce((sum, inert) => sum + (INERT_COEFFICIENTS[inert.gas] ?? 0) * inert.fraction, 0);
  const factor = b === 0 ? 1 : (1 - fuelLimit - (1 - weighted / b) * (b / a) * fuelLimit) / (1 - fuelLimit);
  return given({ lelVolumePercent: 100 / fuels.reduce((sum, fuel) => sum + fuel.fraction / (factor * fuel.lelFraction), 0), factor });
}

function faultOfBlend(
  blend: readonly BlendPart[],
  fuels: readonly { readonly gas: string; readonly fraction: number; readonly lelFraction: number }[],
): MixtureRefusal | null {
  const sum = blend.reduce((total, part) => total + part.fraction, 0);
  const unknown = blend.find((part) => part.lelFraction === null && INERT_COEFFICIENTS[part.gas] === undefined);
  return (
    faultOfShares(blend.map((part) => [part.gas, part.fraction])) ??
    (Math.abs(sum - 1) > 1e-6 ? { type: "shares-do-not-add-up", sum } : null) ??
    (fuels.every((fuel) => fuel.fraction === 0) ? { type: "no-fuel" } : null) ??
    faultOfLimits(fuels.map((fuel) => [fuel.gas, fuel.lelFraction])) ??
    (unknown === undefined ? null : { type: "no-coefficient-for-inert", gas: unknown.gas })
  );
}

function faultOfShares(shares: readonly (readonly [string, number])[]): MixtureRefusal | null {
  const bad = shares.find(([, share]) => !Number.isFinite(share) || share < 0);
  return bad === undefined ? null : { type: "not-a-share", gas: bad[0], value: bad[1] };
}

function faultOfLimits(limits: readonly (readonly [string, number])[]): MixtureRefusal | null {
  const bad = limits.find(([, limit]) => !Number.isFinite(limit) || limit <= 0);
  return bad === undefined ? null : { type: "no-flammable-limit", gas: bad[0] };
}

function faultOfSources(sources: readonly string[]): MixtureRefusal | null {
  const several = [...new Set(sources)];
  return several.length > 1 ? { type: "limits-of-several-sources", sources: several } : null;
}
