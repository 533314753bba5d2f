/** Substances, their limits under several regimes, flammable limits on named bases, and what headings call them. */
export {
  type Flammable,
  type FlammableLimits,
  type FlammableSource,
  flammable,
  flammableSource,
  type LelBasisRefusal,
  lelBases,
  lelBasis,
  type SourcedFigure,
  type SourcedLelBasis,
} from "./flammable.ts";
export { gasInLabel, type LabelMeaning, type LabelReason, type LabelSureness, labelMeaning, unitInLabel } from "./gas-label.ts";
export { gasesNamed, plainName, substanceByName, type UnknownGas } from "./gas-name.ts";
export { type EstimateRefusal, type LimitEstimate, lelAtTemperature, lelFromHeat, limitsFromFormula } from "./lel-estimate.ts";
export type { GasId, Limit, LimitKind, LimitsAnswer, Mark, PublishedValue, RegimeId, Source, ThreeLevel } from "./limit.ts";
export { type LimitFigure, type LimitFigureRefusal, limitFigure } from "./limit-figure.ts";
export { type Alternate, publishedEntry, publishedLimits, type TableEntry } from "./limit-table.ts";
export { alternatesFor, type LimitsOn, limitById, limitsFor, regimeById, regimes } from "./limits-for.ts";
export { lowestCounts } from "./lowest-counts.ts";
export {
  type BlendPart,
  blendLimit,
  type FuelInAir,
  type FuelPart,
  INERT_COEFFICIENTS,
  type MixtureRefusal,
  mixtureLimit,
  percentOfLel,
} from "./mixture.ts";
export { type OwnLimits, type OwnLimitsFault, type OwnLimitsRefusal, ownLimitsFromJson, type Replacement } from "./own-limits.ts";
export { PUBLISHED_REGIMES, type Regime, type ShiftTreatment } from "./regime.ts";
export { type Ionisation, type Substance, substance, substances } from "./substance.ts";
export { ENTRY_RULES, type EntryRule } from "./tables/entry-rules.ts";
export { FLAMMABLE_NOTES } from "./tables/flammable-sources.ts";
