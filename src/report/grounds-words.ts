/** What a finding rests on, one sentence a ground and one an assumption. */
import type { Assumption, Ground } from "../core/finding.ts";
import { counted, countText, exactText } from "./digits.ts";
import { durationText, rangeText, withUnit } from "./figure.ts";

export function groundSentence(ground: Ground): string {
  switch (ground.type) {
    case "readings":
      return readingsSentence(ground);
    case "file":
      return `File ${ground.file}, SHA-256 ${ground.sha256}.`;
    case "over-range":
      return `Over range for ${durationText(ground.seconds)}${ground.atLeast === null ? ", with no range top given" : `: at least ${exactText(ground.atLeast)}`}.`;
    case "unsampled":
      return `Not measured for ${durationText(ground.seconds)}.`;
    case "declaration":
      return `Declared by ${ground.by}: ${ground.kind} for ${durationText(ground.seconds)} (${ground.reason}).`;
    case "negative":
      return `Below nought for ${durationText(ground.seconds)}: kept as read at the low end, nought at the high end.`;
    case "conflict":
      return `${countText(ground.count)} ${ground.count === 1 ? "instant has" : "instants have"} two readings: both kept as lowest and highest.`;
    case "divisor":
      return `Divided by ${exactText(ground.hours)}\u202fh: ${divisorReason(ground.why)}.`;
    case "outside-shift":
      return `${counted(ground.count, "reading")} within a day of the named shifts ${ground.count === 1 ? "stands" : "stand"} in none of them; the greatest is ${ground.atLeast ? "at least " : ""}${exactText(ground.greatest)}. Averages over a day and windows that end in a shift look back on those before it: nought at the least, as read at the most. The others are in no figure.`;
    case "drift":
      return `Nought has drifted: the lowest reading is ${exactText(ground.lowest)}, the longest run below nought ${durationText(ground.longestRunSeconds)}. Positive readings nearby may be too low as well.${ground.floorDeclared ? "" : " How far below nought is still drift nobody declared."}`;
    case "doubtful-after-over-range":
      return `After over range the sensor may read wrong: the ${durationText(ground.seconds)} that follow are doubtful until it is proven again.`;
    case "bound-below-a-reading":
      return `The bound declared as ${ground.declaration} is below what the instrument showed over range, and is not used there.`;
    case "declared-where-readings-stand":
      return `The statement ${ground.declaration} speaks of ${durationText(ground.seconds)} with readings: the readings stand.`;
    case "ceiling-as-average":
      return `Read as a ${ground.minutes}\u202fmin average, as the text allows where instantaneous monitoring is not feasible: ${rangeText({ ...ground, best: null }, null, ground.unit)}, ${ground.outcome}. Whether it may be so read is for a competent person to say.`;
    case "limit-edition":
      return `Limit ${ground.limit}, edition ${ground.edition}.`;
  }
}

function readingsSentence(ground: Extract<Ground, { readonly type: "readings" }>): string {
  const count =
    ground.count === ground.of ? counted(ground.count, "reading") : `${countText(ground.count)} of ${counted(ground.of, "reading")}`;
  const every = rhythmWords(ground);
  const lines =
    ground.firstLine === null || ground.lastLine === null ? "" : `, lines ${countText(ground.firstLine)} to ${countText(ground.lastLine)}`;
  return `${count}${every}${lines}.`;
}

/** An even step is claimed only where every step was seen to be the same. */
function rhythmWords({ everyMs, steps }: Extract<Ground, { readonly type: "readings" }>): string {
  if (steps != null && steps.leastMs !== steps.mostMs)
    return `, steps of ${durationText(steps.leastMs / 1000)} to ${durationText(steps.mostMs / 1000)}`;
  const even = steps?.leastMs ?? everyMs;
  return even === null ? "" : `, one every ${durationText(even / 1000)}`;
}

function divisorReason(why: string): string {
  return why.replaceAll("-", " ");
}

export function assumptionSentence(assumption: Assumption): string {
  switch (assumption.type) {
    case "holds-until-next":
      return `A reading holds until the next one, at most ${durationText(assumption.largestGapMs / 1000)} (${chosen(assumption.chosenBy)}).`;
    case "closes-interval":
      return `A reading stands for the interval that it closes, at most ${durationText(assumption.largestGapMs / 1000)} (${chosen(assumption.chosenBy)}).`;
    case "level-constant-in-interval":
      return "Within one logged interval the level is taken as constant.";
    case "reading-kind":
      return `Readings are taken as ${READING_KINDS[assumption.kind] ?? assumption.kind} (${chosen(assumption.chosenBy)}).`;
    case "file-is-one-shift":
      return "No shift is named: the file is taken as one.";
    case "unsampled-taken-as":
      return unsampledSentence(assumption);
    case "declared-setting":
      return settingSentence(assumption);
    case "without-measurement-error":
      return "Outcomes are without measurement error: none was stated for instrument and sampling.";
    case "limit-of-latest-edition":
      return "The latest edition of the limit is used, since the file does not give the date.";
    case "unit-converted":
      return `Converted from ${assumption.from} to ${assumption.to} with ${exactText(assumption.molarVolume)}\u202fL/mol.`;
  }
}

/** "1 h 30 min without readings, up to 8 h, is taken as no more than 13 ppm at any moment. Declared by A. Hallam: …" */
function unsampledSentence(assumption: Extract<Assumption, { readonly type: "unsampled-taken-as" }>): string {
  const { as, levelText, unit, seconds, where, by, reason } = assumption;
  const level =
    as === "worst case"
      ? `no more than ${withUnit(levelText ?? "", unit ?? "")} at any moment`
      : as === "unexposed"
        ? "time without exposure"
        : as;
  const gaps = seconds === 0 ? "" : `, and ${durationText(seconds)} without readings within it,`;
  const time =
    where === "around the recording" ? `Time around the recording${gaps}` : `${durationText(seconds)} without readings, ${where},`;
  return `${time} is taken as ${level}. ${declaredBy({ by, reason })}.`;
}

/** A choice of the site is no property of the air: whoever reads the outcome must see that it was made, and by whom. */
function settingSentence(assumption: Extract<Assumption, { readonly type: "declared-setting" }>): string {
  return `${settingWords(assumption)} ${declaredBy(assumption)}.`;
}

function settingWords({ setting, valueText, unit }: Extract<Assumption, { readonly type: "declared-setting" }>): string {
  const value = withUnit(valueText ?? "", unit);
  switch (setting) {
    case "measurable threshold":
      return `An exposure counts as measurable from ${value} on.`;
    case "dead band":
      return `The instrument shows nought up to ${value}, so nought stands for anything up to it.`;
    case "negative floor":
      return `Readings more than ${value} below nought are faults of the sensor, and no readings.`;
    case "means stand for ceilings":
      return "Logged averages stand as they are for ceilings and peaks, although they can hide higher moments.";
    case "long-shift model":
      return "8-hour limits are also lowered for long shifts after Brief and Scala, daily.";
  }
}

function declaredBy({ by, reason }: { readonly by: string | null; readonly reason: string | null }): string {
  if (by === null) return `Nobody put a name to this${reason === null || reason === "" ? "" : ` (${reason})`}`;
  return `Declared by ${by}${reason === null || reason === "" ? "" : `: ${reason.replace(/\.$/, "")}`}`;
}

const READING_KINDS: Readonly<Record<string, string>> = {
  spot: "spot readings",
  "interval mean": "means over the interval",
  "interval peak": "peaks of the interval",
};

function chosen(by: "default" | "person" | "file"): string {
  return by === "default" ? "by default" : by === "file" ? "as the file says" : "as chosen";
}
