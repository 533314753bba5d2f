/** A finding in sentences: outcome first, then the figure, then what kept it open and the one act that decides. */
import type { Assumption, UndecidedBy } from "../core/finding.ts";
import type { CombinedOutcome } from "../core/outcome.ts";
import { countText, decimalsFor, percentText, roundedText } from "./digits.ts";
import { durationText, knownText, rangeFigures, valueText, withUnit } from "./figure.ts";
import { gasWords } from "./gas-words.ts";
import { comparedValue, type LimitShape, limitName } from "./limit-words.ts";
import { type NotComparedShape, notComparedSentences } from "./not-compared-words.ts";
import { visibleText } from "./visible-text.ts";

/** What of a finding a reader is shown; the printed answer (`work/answer.ts`) has this shape. */
export interface FindingShape {
  readonly limit: LimitShape;
  readonly unit: string;
  readonly outcome: CombinedOutcome;
  readonly low: number;
  readonly best: number | null;
  readonly high: number | null;
  readonly coverage: number;
  readonly wStar: number | null;
  readonly shiftRule: string | null;
  readonly parts: readonly PartShape[];
  readonly assumptions: readonly Assumption[];
  readonly undecidedBy: readonly UndecidedBy[];
}

export interface FiguresShape {
  readonly low: number;
  readonly best: number | null;
  readonly high: number | null;
  readonly unit: string;
  readonly outcome: string;
  readonly limit: { readonly value: number | null; readonly lowered?: number | null };
}

export interface PartShape {
  readonly name: string;
  readonly limit: number;
  readonly unit: string;
  readonly outcome: string;
  readonly low: number;
  readonly best: number | null;
  readonly high: number | null;
}

export const OUTCOME_WORDS: Readonly<Record<CombinedOutcome, string>> = {
  exceeds: "exceeds",
  within: "within",
  undetermined: "undetermined",
  "not measured": "not measured",
  "no limit": "no limit",
};

/** The finding in one sentence: "Exceeds the US-NIOSH ceiling 200 ppm: at least 500 ppm." */
export function findingSentence(finding: FindingShape): string {
  const name = limitName(finding.limit);
  const figures = finding.parts.length > 0 ? partsText(finding.parts, finding.outcome) : findingFigures(finding);
  const rule = finding.shiftRule === null ? "" : ` (${shiftRuleName(finding.shiftRule)})`;
  switch (finding.outcome) {
    case "exceeds":
      return `Exceeds ${name}: ${figures}${rule}.`;
    case "within":
      return `Within ${name} on these data: ${figures}${rule}.`;
    case "undetermined":
      return `Undetermined against ${name}: ${figures}${rule}.`;
    case "not measured":
      return `Not measured: ${name} has nothing to be set against.`;
    case "no limit":
      return `No limit: ${finding.limit.regime} sets none of this kind.`;
  }
}

/**
 * The figures of a finding beside their limit: "31.0 ppm, 28.3 to 33.7", "at least 14.9 ppm, open above". While it is
 * undetermined no best figure stands in front: it would be read as the answer.
 */
export function findingFigures(finding: FiguresShape): string {
  const limit = comparedValue(finding.limit);
  const figures = rangeFigures(finding, limit);
  if (figures.high === null) return `at least ${withUnit(figures.low, finding.unit)}, open above`;
  if (finding.low === finding.high) return withUnit(knownText(finding.low, limit), finding.unit);
  if (figures.low === figures.high) return withUnit(figures.low, finding.unit);
  const bounds = `${figures.low} to ${figures.high}`;
  return figures.best === null || finding.outcome === "undetermined"
    ? withUnit(bounds, finding.unit)
    : `${withUnit(figures.best, finding.unit)}, ${bounds}`;
}

/** The tests that made the outcome, in plain words; all of them where it is within. */
function partsText(parts: readonly PartShape[], outcome: CombinedOutcome): string {
  const deciding = parts.filter((part) => part.outcome === outcome);
  return (deciding.length > 0 ? deciding : parts).map(partText).join("; ");
}

/** One test of a rule with several: "reached at least 100 ppm; the maximum peak is 50 ppm: exceeds". */
export function partText(part: PartShape): string {
  if (part.outcome === "not measured" || part.outcome === "no limit") return `${part.name}: ${part.outcome}`;
  const figures = findingFigures({ ...part, limit: { value: part.limit } });
  const limit = valueText(part.limit, part.unit);
  switch (part.name) {
    case "average":
      return `the average is ${figures}; its limit is ${limit}: ${part.outcome}`;
    case "peak":
      return `reached ${figures}; the maximum peak is ${limit}: ${part.outcome}`;
    case "minutes above the ceiling":
      return `above the ceiling for ${figures.replace(/(\d)\.0+(?=\D|$)/g, "$1")}; ${limit} are allowed: ${part.outcome}`;
    case "once only":
      return onceOnlyText(part);
    default:
      return `${part.name} ${figures} against ${limit}: ${part.outcome}`;
  }
}

/** A count of stretches says little; what the rule asks says more. */
function onceOnlyText({ outcome, low }: PartShape): string {
  switch (outcome) {
    case "exceeds":
      return low > 1
        ? `measurable ${countText(low)} times or more, where once only is allowed above the ceiling: exceeds`
        : "above the ceiling more than once, or beside another measurable exposure, where once only is allowed: exceeds";
    case "within":
      return "above the ceiling once at most, and no other measurable exposure: within";
    default:
      return "whether it was above the ceiling once only, with no other measurable exposure, is undetermined";
  }
}

/** The one act that would decide an undetermined finding; empty when it is decided. */
export function whatWouldDecide(finding: FindingShape): readonly string[] {
  return [...new Set(finding.undecidedBy.map((reason) => decidingSentence(reason, finding)))];
}

/** Whether the shift is still to be named: before that, how much time is without readings is nobody's statement. */
export function asksForShift({ assumptions, undecidedBy }: Pick<FindingShape, "assumptions" | "undecidedBy">): boolean {
  const has = (type: Assumption["type"]): boolean => assumptions.some((assumption) => assumption.type === type);
  return has("file-is-one-shift") && !has("unsampled-taken-as") && undecidedBy.some(({ type }) => type === "unsampled-time");
}

function decidingSentence(reason: UndecidedBy, finding: FindingShape): string {
  switch (reason.type) {
    case "unsampled-time":
      return asksForShift(finding) ? NAME_THE_SHIFT : unsampledSentence(reason, finding.unit);
    case "over-range":
      return overRangeSentence(reason, finding.unit);
    case "sensor-or-conflict":
      return "A check of the sensor against known gas, or a choice between the readings that contradict each other.";
    case "interval-average-hides-peaks":
      return "Logged peaks instead of interval averages, or a declared policy that the averages stand as they are.";
    case "measurable-threshold-not-declared":
      return "A declared threshold from which an exposure counts as measurable, such as the detection limit.";
    case "readings-outside-shift":
      return "Who carried the instrument before this shift: the readings before it stand in no named shift, and the figure looks back on them.";
    case "limit-finer-than-a-step":
      return `An instrument that resolves the limit: one step of this display is ${withUnit(knownText(reason.step, null), finding.unit)}. Or a declared dead band: how much a displayed nought can hide.`;
    case "text-needs-a-person":
      return `A competent person's reading of the limit's text: ${reason.note}`;
  }
}

/** The first act wherever no shift is named. */
export const NAME_THE_SHIFT = "The shift, named by its beginning and end; what its time without readings can have been comes after that.";

type About<Type extends UndecidedBy["type"]> = Extract<UndecidedBy, { readonly type: Type }>;

/** A mean decides an average over the whole period; a window that slides, a ceiling and a three-level row ask about every moment. */
function unsampledSentence({ seconds, wStar, holds }: About<"unsampled-time">, unit: string): string {
  if (seconds === 0) return NAME_THE_SHIFT;
  const time = `the ${durationText(seconds)} without readings`;
  if (wStar === null) return `Declare what ${time} can have been, and why.`;
  return `A named person's statement that ${time} ${holds === "as an average" ? "averaged no more than" : "were at no moment above"} ${permittedText(wStar, unit)}.`;
}

/** The last reading of a log has no length. */
function overRangeSentence({ seconds, wStar }: About<"over-range">, unit: string): string {
  const time = seconds === 0 ? "the last reading, which was over range" : `the ${durationText(seconds)} over range`;
  const bound =
    wStar === null ? "An upper bound, with its reason," : `An upper bound, with its reason, of no more than ${permittedText(wStar, unit)}`;
  return `${bound} for ${time}.`;
}

/** W* is what may still be: it is rounded down. */
export function permittedText(value: number, unit: string): string {
  return withUnit(roundedText(value, decimalsFor([value]), "down", null), unit);
}

const SHIFT_RULES: Readonly<Record<string, string>> = {
  "worst-8h": "worst 8 h of the shift",
  "any-24h-over-8h": "any 24 h over 8 h",
  "shift-8-to-10h": "over the shift, 8 h to 10 h",
  "brief-scala-daily": "mean of the whole shift",
};

export function shiftRuleName(rule: string): string {
  return SHIFT_RULES[rule] ?? rule.replaceAll("-", " ");
}

/** "93 % of the time was measured"; nothing is said where all of it was. */
export function coverageSentence(coverage: number): string {
  const words = coverageWords(coverage);
  return `${words.charAt(0).toUpperCase()}${words.slice(1)}.`;
}

/** The same within a sentence. */
export function coverageWords(coverage: number): string {
  return `${coverage >= 1 ? "all" : percentText(coverage)} of the time was measured`;
}

export interface ChannelShape {
  readonly name: string;
  readonly gas: string | null;
  readonly unit: string | null;
  readonly findings: readonly FindingShape[];
  readonly notCompared: readonly NotComparedShape[];
}

const SEVERITY: readonly CombinedOutcome[] = ["exceeds", "undetermined", "not measured", "within", "no limit"];

/** Orders outcomes from what must be looked at first to what need not. */
export function severityOf(outcome: CombinedOutcome): number {
  return SEVERITY.indexOf(outcome);
}

/** The answer of one channel in one sentence, the gravest outcome first. */
export function channelSentence(channel: ChannelShape): string {
  const gas = channel.gas === null ? null : gasWords(channel.gas);
  const name = visibleText(channel.name);
  const who = gas === null ? `Channel ${name}` : `${name} (${gas})`;
  if (channel.gas === null) return `${who} is not compared with limits: its gas is not known.`;
  if (channel.findings.length === 0) return `${who} is set against no limit. ${notComparedSentences(channel).join(" ")}`.trimEnd();
  const counts = SEVERITY.map((outcome) => ({ outcome, of: channel.findings.filter((finding) => finding.outcome === outcome) }));
  const said = counts.filter(({ of }) => of.length > 0).map(({ outcome, of }) => outcomeCount(outcome, of));
  return `${who} ${said.join("; ")}.`;
}

function outcomeCount(outcome: CombinedOutcome, findings: readonly FindingShape[]): string {
  const names = findings.map(({ limit }) => limitName(limit));
  const few = names.length <= 3 ? names.join(", ") : `${names.slice(0, 2).join(", ")} and ${names.length - 2} more`;
  switch (outcome) {
    case "exceeds":
      return `exceeds ${few}`;
    case "within":
      return `is within ${few} on these data`;
    case "undetermined":
      return `is undetermined against ${few}`;
    case "not measured":
      return `was not measured for ${few}`;
    case "no limit":
      return `has no limit under ${few}`;
  }
}
