/** Refusals of sets of results, estimates and projections: what the numbers at hand cannot bear. */
import type { CensoredRefusal, GroupRefusal, GroupSizeRefusal, RetentionRefusal } from "../core/exposure/index.ts";
import type { EstimateRefusal, MixtureRefusal as FuelRefusal, LimitFigureRefusal } from "../core/gas/index.ts";
import type { SenmlWriteRefusal } from "../core/recording/index.ts";
import type { LineRefusal, SummaryRefusal } from "../core/statistics/index.ts";
import type { DateRefusal } from "../core/time/index.ts";
import { type Catalogue, unfit } from "./catalogue.ts";
import { exactText } from "./digits.ts";
import { unitText, valueText } from "./figure.ts";
import { gasWords } from "./gas-words.ts";

type Every =
  | GroupRefusal
  | GroupSizeRefusal
  | CensoredRefusal
  | Exclude<RetentionRefusal, DateRefusal>
  | EstimateRefusal
  | LimitFigureRefusal
  | FuelRefusal
  | SenmlWriteRefusal
  | LineRefusal
  | SummaryRefusal;

/** Some types are shared with the refusals of figures and stand there. */
export type RefusalOfSet = Exclude<Every, { readonly type: "limit-not-above-nought" | "no-flammable-limit" | "not-a-finite-number" }>;

type Of<Type extends RefusalOfSet["type"]> = Extract<RefusalOfSet, { readonly type: Type }>;

export const REFUSALS_OF_SETS: Catalogue<RefusalOfSet> = {
  "too-few-results": unfit<Of<"too-few-results">>(
    { type: "too-few-results", count: 2, needed: 3 },
    ({ count, needed }) => `${count} results are too few: ${needed} are needed.`,
    () => "Measure more shifts.",
  ),
  "result-not-above-nought": unfit<Of<"result-not-above-nought">>(
    { type: "result-not-above-nought", index: 0, value: 0 },
    ({ index, value }) => `Result ${index + 1} is ${exactText(value)}: a lognormal set has no nought and nothing negative.`,
    () => "Give a result below detection as such.",
  ),
  "result-below-detection": unfit<Of<"result-below-detection">>(
    { type: "result-below-detection", index: 0 },
    ({ index }) => `Result ${index + 1} is below detection.`,
    () => "Substitute results below detection first.",
  ),
  "all-results-equal": unfit<Of<"all-results-equal">>(
    { type: "all-results-equal", value: 2 },
    ({ value }) => `All results are ${exactText(value)}: they have no spread.`,
    () => "Measure more shifts.",
  ),
  "not-a-group-size": unfit<Of<"not-a-group-size">>(
    { type: "not-a-group-size", workers: 0 },
    ({ workers }) => `A group of ${exactText(workers)} cannot be.`,
    () => "Give a whole number of workers, 1 or more.",
  ),
  "detection-limit-not-above-nought": unfit<Of<"detection-limit-not-above-nought">>(
    { type: "detection-limit-not-above-nought", detectionLimit: 0 },
    ({ detectionLimit }) => `A detection limit of ${exactText(detectionLimit)} cannot be.`,
    () => "Give a detection limit above 0.",
  ),
  "detected-below-detection-limit": unfit<Of<"detected-below-detection-limit">>(
    { type: "detected-below-detection-limit", value: 1, detectionLimit: 2 },
    ({ value, detectionLimit }) =>
      `A result of ${exactText(value)} is given as detected, below the detection limit of ${exactText(detectionLimit)}.`,
    () => "Give it as below detection, or mend the limit.",
  ),
  "none-below-detection": unfit<Of<"none-below-detection">>(
    { type: "none-below-detection" },
    () => "No result is below detection: there is nothing to substitute.",
    () => "Use the results as they are.",
  ),
  "not-a-count": unfit<Of<"not-a-count">>(
    { type: "not-a-count", below: -1 },
    ({ below }) => `${exactText(below)} is no count of results.`,
    () => "Give a whole number, 0 or more.",
  ),
  "no-retention-class": unfit<Of<"no-retention-class">>(
    { type: "no-retention-class" },
    () => "No rule of keeping was named.",
    () => "Name at least one rule and the day from which it counts.",
  ),
  "not-a-formula": unfit<Of<"not-a-formula">>(
    { type: "not-a-formula", formula: "C2Hx" },
    ({ formula }) => `"${formula}" is no formula.`,
    () => "Write it as C2H6O.",
  ),
  "no-carbon": unfit<Of<"no-carbon">>(
    { type: "no-carbon", formula: "H2" },
    ({ formula }) => `${formula} holds no carbon: the rule does not reach it.`,
    () => "Look for a tabulated limit.",
  ),
  "element-outside-rule": unfit<Of<"element-outside-rule">>(
    { type: "element-outside-rule", formula: "CH3Cl", element: "Cl" },
    ({ formula, element }) => `${formula} holds ${element}: the rule was fitted to carbon, hydrogen and oxygen.`,
    () => "Look for a tabulated limit.",
  ),
  "limit-without-figure": unfit<Of<"limit-without-figure">>(
    { type: "limit-without-figure", limit: "US-OSHA/hydrogen_sulphide/three-level" },
    ({ limit }) => `${limit} has no single figure.`,
    () => "Look at its parts.",
  ),
  "limit-not-convertible": unfit<Of<"limit-not-convertible">>(
    { type: "limit-not-convertible", limit: "GB-WEL/lpg/twa", from: "mg/m3", to: "ppm" },
    ({ limit, from, to }) => `${limit} is published in ${unitText(from)} and cannot be turned into ${unitText(to)}.`,
    () => "Measure in the unit of the limit.",
  ),
  "limit-stated-as-part": unfit<Of<"limit-stated-as-part">>(
    { type: "limit-stated-as-part", limit: "US-OSHA/hydrogen_fluoride/twa", statedAs: "F" },
    ({ limit, statedAs }) => `${limit} is stated as ${statedAs}: what the whole molecule weighs against it is a person's decision.`,
    () => "Give a limit of your own in the unit of the instrument, with who decided it and why.",
  ),
  "no-fuel": unfit<Of<"no-fuel">>(
    { type: "no-fuel" },
    () => "The mixture holds nothing that burns.",
    () => "Give at least one flammable gas.",
  ),
  "not-a-share": unfit<Of<"not-a-share">>(
    { type: "not-a-share", gas: "methane", value: -1 },
    ({ gas, value }) => `${valueText(value, "vol%")} of ${gasWords(gas)} cannot be.`,
    () => "Give a share from 0 to 100.",
  ),
  "shares-do-not-add-up": unfit<Of<"shares-do-not-add-up">>(
    { type: "shares-do-not-add-up", sum: 90 },
    ({ sum }) => `The shares add up to ${exactText(sum)}.`,
    () => "Give shares that add up to the whole.",
  ),
  "limits-of-several-sources": unfit<Of<"limits-of-several-sources">>(
    { type: "limits-of-several-sources", sources: ["IEC", "NFPA"] },
    ({ sources }) => `The limits come from different sources (${sources.join(", ")}), which are not mixed within one calculation.`,
    () => "Choose one source for all gases.",
  ),
  "no-coefficient-for-inert": unfit<Of<"no-coefficient-for-inert">>(
    { type: "no-coefficient-for-inert", gas: "argon" },
    ({ gas }) => `The table has no coefficient for ${gasWords(gas)}.`,
    () => "Leave it out of the inert part, or find a measured limit.",
  ),
  "recording-without-instants": unfit<Of<"recording-without-instants">>(
    { type: "recording-without-instants" },
    () => "The recording only counts from its own start: SenML needs instants.",
    () => "Say when it started.",
  ),
  "recording-before-1978-07-04": unfit<Of<"recording-before-1978-07-04">>(
    { type: "recording-before-1978-07-04" },
    () => "The recording begins before 4 July 1978, where SenML times turn relative.",
    () => "Check the clock of the instrument.",
  ),
  "channel-without-unit": unfit<Of<"channel-without-unit">>(
    { type: "channel-without-unit", channel: "CO" },
    ({ channel }) => `The channel ${channel} has no unit.`,
    () => "Say its unit.",
  ),
  "name-not-allowed": unfit<Of<"name-not-allowed">>(
    { type: "name-not-allowed", name: "a b" },
    ({ name }) => `SenML allows no name "${name}".`,
    () => "Use letters, digits and - : . / _ only, a letter or digit first.",
  ),
  "no-numbers": unfit<Of<"no-numbers">>(
    { type: "no-numbers" },
    () => "There are no numbers.",
    () => "Give at least one.",
  ),
  "too-few-points": unfit<Of<"too-few-points">>(
    { type: "too-few-points", count: 1, needed: 2 },
    ({ count, needed }) => `${count} points are too few for a line: it needs ${needed}.`,
    () => "Give more points.",
  ),
  "all-at-one-place": unfit<Of<"all-at-one-place">>(
    { type: "all-at-one-place" },
    () => "All points lie at one place.",
    () => "Give points at different places.",
  ),
};
