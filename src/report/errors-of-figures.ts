/** Refusals of a computation: a basis that is missing or does not fit, a figure that cannot be. */
import type { ConsecutiveRefusal, MixtureRefusal, SamplingErrorRefusal, ShiftHoursRefusal } from "../core/exposure/index.ts";
import type { LelBasisRefusal } from "../core/gas/index.ts";
import type { ComparisonRefusal, ConversionRefusal, DecimalRefusal, UcumRefusal } from "../core/quantity/index.ts";
import { type Catalogue, unfit } from "./catalogue.ts";
import { exactText } from "./digits.ts";
import { valueText } from "./figure.ts";
import { gasWords } from "./gas-words.ts";

export type RefusalOfFigure =
  | ConversionRefusal
  | ComparisonRefusal
  | DecimalRefusal
  | UcumRefusal
  | LelBasisRefusal
  | MixtureRefusal
  | ShiftHoursRefusal
  | SamplingErrorRefusal
  | ConsecutiveRefusal;

type Of<Type extends RefusalOfFigure["type"]> = Extract<RefusalOfFigure, { readonly type: Type }>;

export const REFUSALS_OF_FIGURES: Catalogue<RefusalOfFigure> = {
  "not-a-finite-number": unfit<Of<"not-a-finite-number">>(
    { type: "not-a-finite-number", value: Number.POSITIVE_INFINITY },
    ({ value }) => `${value} is no finite number.`,
    () => "Give a number that can be written out.",
  ),
  "other-gas": unfit<Of<"other-gas">>(
    { type: "other-gas", first: "propane", second: "methane" },
    ({ first, second }) => `The reading is of ${gasWords(first)} and the basis of ${gasWords(second)}.`,
    () => "Give the basis of the gas that was read.",
  ),
  "basis-does-not-belong": unfit<Of<"basis-does-not-belong">>(
    { type: "basis-does-not-belong", unit: "ppm", basis: "lel basis" },
    ({ unit, basis }) => `A figure in ${unit} has no ${basis === "lel basis" ? "basis of %LEL" : "molar volume"}.`,
    () => "Take the basis away, or check the unit.",
  ),
  "gas-not-said": unfit<Of<"gas-not-said">>(
    { type: "gas-not-said", from: "volume fraction", to: "mass concentration" },
    ({ from, to }) => `From a ${from} to a ${to} the gas has to be known.`,
    () => "Name the gas.",
  ),
  "lel-basis-missing": unfit<Of<"lel-basis-missing">>(
    { type: "lel-basis-missing", gas: "methane" },
    ({ gas }) => `What 100 %LEL${gas === null ? "" : ` of ${gasWords(gas)}`} is has not been said.`,
    () => "Name the publication that the percentage rests on: IEC, NFPA, NPG or BM627.",
  ),
  "other-lel-basis": unfit<Of<"other-lel-basis">>(
    {
      type: "other-lel-basis",
      first: { gas: "methane", source: "IEC", lelVolumePercent: 4.4 },
      second: { gas: "methane", source: "NFPA", lelVolumePercent: 5 },
    },
    ({ first, second }) =>
      `The two percentages rest on different limits: ${first.source} ${valueText(first.lelVolumePercent, "vol%")}, ${second.source} ${valueText(second.lelVolumePercent, "vol%")}.`,
    () => "Bring one of them to the basis of the other first.",
  ),
  "lel-basis-not-positive": unfit<Of<"lel-basis-not-positive">>(
    { type: "lel-basis-not-positive", basis: { gas: "methane", source: "own", lelVolumePercent: 0 } },
    ({ basis }) => `A lower explosive limit of ${valueText(basis.lelVolumePercent, "vol%")} cannot be.`,
    () => "Give the limit of the gas, above 0 vol %.",
  ),
  "molar-mass-missing": unfit<Of<"molar-mass-missing">>(
    { type: "molar-mass-missing", gas: "lpg" },
    ({ gas }) => `The table has no molar mass of ${gasWords(gas)}.`,
    () => "Name a single substance: mixtures have no molar mass of their own.",
  ),
  "molar-mass-not-positive": unfit<Of<"molar-mass-not-positive">>(
    { type: "molar-mass-not-positive", molarMass: { gas: "methane", gramsPerMole: 0 } },
    ({ molarMass }) => `A molar mass of ${exactText(molarMass.gramsPerMole)} g/mol cannot be.`,
    () => "Give the molar mass in g/mol, above 0.",
  ),
  "molar-volume-missing": unfit<Of<"molar-volume-missing">>(
    { type: "molar-volume-missing" },
    () => "Between ppm and mg/m³ the molar volume has to be known.",
    () => "Name it: 24.45 for US figures, 24.055 for UK and EU figures, or a temperature and a pressure.",
  ),
  "other-molar-volume": unfit<Of<"other-molar-volume">>(
    {
      type: "other-molar-volume",
      first: { id: "a", litresPerMole: 24.45, conditions: "25 °C, 760 mmHg", source: "", mark: "read" },
      second: { id: "b", litresPerMole: 24.055, conditions: "20 °C, 101.3 kPa", source: "", mark: "memory" },
    },
    ({ first, second }) => `The two figures are stated at different conditions: ${first.conditions} and ${second.conditions}.`,
    () => "Go through ppm, with the molar volume of each.",
  ),
  "different-kinds": unfit<Of<"different-kinds">>(
    { type: "different-kinds", first: "fraction of LEL", second: "volume fraction" },
    ({ first, second }) => `A ${first} and a ${second} cannot be compared as they are.`,
    () => "Convert one of them first.",
  ),
  "not-a-decimal": unfit<Of<"not-a-decimal">>(
    { type: "not-a-decimal", text: "1,5" },
    ({ text }) => `"${text}" is no number with a decimal point.`,
    () => "Write digits with a point, such as 1.5.",
  ),
  "too-many-digits": unfit<Of<"too-many-digits">>(
    { type: "too-many-digits", text: "0.12345678901234567890" },
    ({ text }) => `"${text}" has more digits than can be kept exactly.`,
    () => "Give at most fifteen digits.",
  ),
  "unknown-ucum-code": unfit<Of<"unknown-ucum-code">>(
    { type: "unknown-ucum-code", code: "ppmv" },
    ({ code }) => `The unit code "${code}" is not known.`,
    () => "Use a code of UCUM, such as [ppm], %, mg/m3.",
  ),
  "different-dimensions": unfit<Of<"different-dimensions">>(
    { type: "different-dimensions", first: "[ppm]", second: "mg/m3" },
    ({ first, second }) => `${first} and ${second} do not measure the same kind of thing.`,
    () => "Convert with the gas and its molar volume.",
  ),
  "no-flammable-limit": unfit<Of<"no-flammable-limit">>(
    { type: "no-flammable-limit", gas: "carbon_dioxide" },
    ({ gas }) => `The table has no lower explosive limit of ${gasWords(gas)}.`,
    () => "Check the gas: not every gas burns, and not every fuel is in the table.",
  ),
  "no-limit-in-source": unfit<Of<"no-limit-in-source">>(
    { type: "no-limit-in-source", gas: "isobutylene", source: "NFPA", sources: ["IEC"] },
    ({ gas, source }) => `${source} has no lower explosive limit of ${gasWords(gas)} here, and another source's must not step in.`,
    ({ sources }) => `Choose ${sources.join(" or ")}.`,
  ),
  "no-parts": unfit<Of<"no-parts">>(
    { type: "no-parts" },
    () => "The mixture has no parts.",
    () => "Give at least one gas with its level and limit.",
  ),
  "not-declared-additive": unfit<Of<"not-declared-additive">>(
    { type: "not-declared-additive" },
    () => "Nobody has declared that these gases act together.",
    () => "A competent person has to declare that their effects add up; else each is judged alone.",
  ),
  "gas-twice": unfit<Of<"gas-twice">>(
    { type: "gas-twice", gas: "toluene" },
    ({ gas }) => `The mixture holds ${gasWords(gas)} twice.`,
    () => "Give each gas once.",
  ),
  "limits-of-different-kinds": unfit<Of<"limits-of-different-kinds">>(
    { type: "limits-of-different-kinds", first: "twa", other: "stel" },
    ({ first, other }) => `One limit is of the kind ${first} and another ${other}: they do not add up.`,
    () => "Add 8-hour averages with 8-hour limits, short-term with short-term, and judge ceilings apart.",
  ),
  "limit-not-above-nought": unfit<Of<"limit-not-above-nought">>(
    { type: "limit-not-above-nought", limit: 0 },
    ({ limit }) => `A limit of ${exactText(limit)} cannot be.`,
    () => "Give a limit above 0.",
  ),
  "not-a-level": unfit<Of<"not-a-level">>(
    { type: "not-a-level", gas: "toluene", low: 9, high: 4 },
    ({ gas }) => `The level of ${gasWords(gas)} is no range of numbers from 0 upward.`,
    () => "Give the lowest level first, then the highest.",
  ),
  "sampling-error-negative": unfit<Of<"sampling-error-negative">>(
    { type: "sampling-error-negative", samplingError: -0.1 },
    ({ samplingError }) => `A sampling error of ${exactText(samplingError)} cannot be.`,
    () => "Give it as a fraction of the limit, 0 or above.",
  ),
  "not-a-number": unfit<Of<"not-a-number">>(
    { type: "not-a-number", value: Number.NEGATIVE_INFINITY },
    ({ value }) => `${value} is no number.`,
    () => "Give a number that can be written out.",
  ),
  "low-above-high": unfit<Of<"low-above-high">>(
    { type: "low-above-high", low: 58, high: 46 },
    ({ low, high }) => `The lowest value ${exactText(low)} is above the highest ${exactText(high)}.`,
    () => "Give the lower one first.",
  ),
  "no-samples": unfit<Of<"no-samples">>(
    { type: "no-samples" },
    () => "There is no sample.",
    () => "Give at least one.",
  ),
  "sample-without-length": unfit<Of<"sample-without-length">>(
    { type: "sample-without-length", index: 0 },
    ({ index }) => `Sample ${index + 1} has no length of time.`,
    () => "Give its length, above 0.",
  ),
  "hours-not-in-a-day": unfit<Of<"hours-not-in-a-day">>(
    { type: "hours-not-in-a-day", hours: 25 },
    ({ hours }) => `A day has no shift of ${exactText(hours)} h.`,
    () => "Give hours above 0 and at most 24.",
  ),
  "hours-not-in-a-week": unfit<Of<"hours-not-in-a-week">>(
    { type: "hours-not-in-a-week", hours: 200 },
    ({ hours }) => `A week has no ${exactText(hours)} h of work.`,
    () => "Give hours above 0 and at most 168.",
  ),
};
