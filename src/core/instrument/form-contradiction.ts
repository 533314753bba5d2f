/**
 * Bodies that fit their form and cannot be meant. They are asked about before they are said; an entry that is in the book
 * already is read as it stands.
 */
import { compareDecimals, decimalFromText } from "../quantity/index.ts";
import { zoneClock } from "../time/index.ts";
import type { Bodies, ChannelDescription, ChannelReference, Kind, RuleSet } from "./bodies.ts";
import type { Place } from "./form-schema.ts";

/** What a body says against itself, and where. */
export interface Contradiction {
  readonly type: "contradiction";
  readonly at: Place;
  readonly why:
    | "ends-before-it-begins"
    | "more-than-all"
    | "highest-below-lowest"
    | "named-twice"
    | "no-such-set-point"
    | "unknown-zone"
    | "nothing-said"
    | "no-error-allowed"
    | "average-without-length";
}

/**
 * The first thing that a body says against itself; null where there is none.
 *
 * @param body one that fits the newest form of its kind
 * @example
 * ```ts
 * import { contradiction } from "./form-contradiction.ts";
 * const against = contradiction("charge-seen", { percent: null, hours: null, bars: { lit: 5, of: 4 } });
 * against; // => { "type": "contradiction", "at": ["bars", "lit"], "why": "more-than-all" }
 * ```
 * Source: ours. Never refuses.
 */
export function contradiction(kind: Kind, body: unknown): Contradiction | null {
  const told = { kind, body } as AnyBody; // the body has been held against the form of its kind
  for (const [at, why] of contradictions(told)) return { type: "contradiction", at, why };
  return null;
}

type AnyBody = { [Name in Kind]: { readonly kind: Name; readonly body: Bodies[Name] } }[Kind];
type Against = readonly [at: Place, why: Contradiction["why"]];

function* contradictions(told: AnyBody): Generator<Against> {
  switch (told.kind) {
    case "book-opened":
      return yield* inZone(told.body.zone, ["zone"]);
    case "model-described":
      for (const [index, { channels }] of told.body.sensors.entries()) yield* inDescriptions(channels, ["sensors", index, "channels"]);
      return;
    case "sensor-fitted":
      return yield* inDescriptions(told.body.channels, ["channels"]);
    case "cylinder-registered":
      return yield* twice(told.body.components, ({ gas }) => gas, ["components"]);
    case "clean-air-read":
      return yield* inChannels(told.body.readings, ["readings"]);
    case "settings-card-seen":
      for (const [index, { setPoints }] of told.body.channels.entries()) yield* inSetPoints(setPoints, ["channels", index, "setPoints"]);
      return yield* inChannels(told.body.channels, ["channels"]);
    case "zero-adjusted":
    case "gas-tested":
    case "gas-test-void":
    case "calibrated":
    case "brought-forward":
      return yield* inChannels(told.body.channels, ["channels"]);
    case "calibration-checked":
      return yield* inChecked(told.body);
    case "charge-seen":
      return yield* inCharge(told.body);
    case "thing-voided":
      if (told.body.until !== null && told.body.until <= told.body.from) yield [["until"], "ends-before-it-begins"];
      return;
    case "question-answered":
      return yield* inAnswer(told.body);
    case "round-opened":
      return yield* inAhead(told.body.deviceClockAheadMs, ["deviceClockAheadMs"]);
    case "rules-set":
      return yield* inRules(told.body.rules);
    default:
      return;
  }
}

function* inZone(zone: string, at: Place): Generator<Against> {
  if (!zoneClock(zone).ok) yield [at, "unknown-zone"];
}

const channelText = ({ sensor, gas }: ChannelReference): string => `${sensor} ${gas}`;
const inChannels = (channels: readonly ChannelReference[], at: Place): Generator<Against> => twice(channels, channelText, at);

function* twice<One>(list: readonly One[], textOf: (one: One) => string, at: Place): Generator<Against> {
  const seen = new Set<string>();
  for (const [index, one] of list.entries()) {
    if (seen.has(textOf(one))) yield [[...at, index], "named-twice"];
    seen.add(textOf(one));
  }
}

function* inDescriptions(channels: readonly ChannelDescription[], at: Place): Generator<Against> {
  for (const [index, { range }] of channels.entries())
    if (isBelow(range.to, range.from)) yield [[...at, index, "range", "to"], "highest-below-lowest"];
  yield* twice(channels, ({ gas }) => gas, at);
}

function isBelow(digits: string, other: string): boolean {
  const [first, second] = [decimalFromText(digits), decimalFromText(other)];
  return first.ok && second.ok && compareDecimals(first.value, second.value) < 0;
}

type SetPoints = Bodies["settings-card-seen"]["channels"][number]["setPoints"];

function* inSetPoints(points: SetPoints, at: Place): Generator<Against> {
  yield* twice(points, ({ name }) => name, at);
}

function* inChecked({ channels }: Bodies["calibration-checked"]): Generator<Against> {
  for (const [index, { allowed }] of channels.entries())
    if (allowed.percentOfApplied === null && allowed.absolute === null) yield [["channels", index, "allowed"], "no-error-allowed"];
  yield* inChannels(channels, ["channels"]);
}

function* inCharge({ percent, hours, bars }: Bodies["charge-seen"]): Generator<Against> {
  if (percent === null && hours === null && bars === null) yield [[], "nothing-said"];
  if (bars !== null && bars.lit > bars.of) yield [["bars", "lit"], "more-than-all"];
  if (percent !== null && isBelow("100", percent)) yield [["percent"], "more-than-all"];
}

function* inAnswer({ sequences, clockAheadMs }: Bodies["question-answered"]): Generator<Against> {
  if (sequences !== null && sequences.to < sequences.from) yield [["sequences", "to"], "ends-before-it-begins"];
  yield* inAhead(clockAheadMs, ["clockAheadMs"]);
}

function* inAhead(ahead: { readonly lowest: number; readonly highest: number } | null, at: Place): Generator<Against> {
  if (ahead !== null && ahead.highest < ahead.lowest) yield [[...at, "highest"], "highest-below-lowest"];
}

function* inRules(rules: RuleSet): Generator<Against> {
  yield* inZone(rules.zone, ["rules", "zone"]);
  yield* twice(rules.workingDays, (day) => day, ["rules", "workingDays"]);
  yield* twice(rules.shifts, ({ name }) => name, ["rules", "shifts"]);
  yield* twice(rules.setPoints, ({ gas, sensorKind }) => `${gas} ${sensorKind}`, ["rules", "setPoints"]);
  for (const [index, { points, raisedByGasTest }] of rules.setPoints.entries()) {
    const at = ["rules", "setPoints", index] as const;
    yield* inSetPoints(points, [...at, "points"]);
    for (const [number, { acts, averageMinutes }] of points.entries())
      if (acts === "averaged" && averageMinutes === null) yield [[...at, "points", number, "averageMinutes"], "average-without-length"];
    for (const [number, name] of raisedByGasTest.entries())
      if (!points.some((point) => point.name === name)) yield [[...at, "raisedByGasTest", number], "no-such-set-point"];
  }
  yield* twice(rules.substitutes, ({ gas, sensorKind, component }) => `${gas} ${sensorKind} ${component}`, ["rules", "substitutes"]);
  yield* twice(rules.acceptance, ({ gas }) => gas, ["rules", "acceptance"]);
  for (const [index, { percentOfApplied, absolute }] of rules.acceptance.entries())
    if (percentOfApplied === null && absolute === null) yield [["rules", "acceptance", index], "no-error-allowed"];
  yield* twice(rules.zeroBands, ({ gas }) => gas, ["rules", "zeroBands"]);
  yield* twice(rules.walls, ({ rule, gas, model }) => `${rule} ${gas} ${model}`, ["rules", "walls"]);
}
