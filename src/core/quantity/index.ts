/** Units, quantities, exact decimal digits, and conversions that refuse when the basis differs. */
export { compareSumWithLimit, type SumAgainstLimit } from "./compare-sum.ts";
export { type ComparisonRefusal, type ConversionRefusal, compareQuantities, convertQuantity, inSameTerms, type Target } from "./convert.ts";
export {
  compareDecimals,
  type Decimal,
  type DecimalRefusal,
  decimalFromNumber,
  decimalFromText,
  numberFromDecimal,
  scaleByPowerOfTen,
  shiftDecimal,
  stepsAround,
  textFromDecimal,
} from "./decimal.ts";
export {
  GAS_CONSTANT,
  MOLAR_VOLUME_EU,
  MOLAR_VOLUME_US,
  type MolarVolume,
  molarVolumeAt,
  molarVolumeFrom22,
  molarVolumeFrom62,
} from "./molar-volume.ts";
export {
  type LelBasis,
  type MolarMass,
  type Quantity,
  type QuantityParts,
  type QuantityRefusal,
  quantity,
  sameLelBasis,
} from "./quantity.ts";
export type { KindChooser, ReadingKind } from "./reading-kind.ts";
export { convertUcum, UCUM_CODES, type UcumCode, type UcumRefusal, ucumCode } from "./ucum.ts";
export type { QuantityKind, Unit } from "./unit.ts";
export { kindOfUnit, powerOfTenBetween, UNITS, type UnitRow, ucumFromUnit, unitRow } from "./unit-table.ts";
export { MEANINGS_OF_PER_CENT, plainUnitText, unitFromText } from "./unit-text.ts";
