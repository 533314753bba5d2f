/** A standing as a line of a list, and its reasons in words. */
import type { Duty, InstrumentThing, RuleSet, SensorThing, Source, Things } from "../../core/instrument/index.ts";
import { writtenInstant } from "../../core/record/index.ts";
import { codeWords } from "../entry-words.ts";
import { gasShort } from "../gas-words.ts";
import { visibleText } from "../visible-text.ts";
import { shownText } from "./entry-says.ts";
import type { GivenReason, GivenStanding } from "./standing-given.ts";
import { knownName } from "./thing-names.ts";
import type { GasStandingView, InstrumentLine, InstrumentView, ReasonView, StandingMark } from "./views.ts";

/** Words of a reason: why, and what this site can do next. */
export type ReasonWords = (reason: GivenReason, thing: string | null) => { readonly why: string; readonly next: string | null };

export interface LineNeeds {
  readonly words: ReasonWords;
  readonly things: Things;
  /** To the end of what it is needed for; milliseconds since 1970. */
  readonly neededTo: number;
  /** Milliseconds that one instrument takes at this bench; null where nobody knows. */
  readonly pace: number | null;
}

export function instrumentLine(
  instrument: InstrumentThing,
  standing: GivenStanding,
  { things, neededTo, pace, words }: LineNeeds,
): InstrumentLine {
  const { id, tag, serial, model } = instrument;
  const [first] = standing.reasons;
  const mark = markOf(standing, neededTo);
  return {
    ...{ id, tag: tag === null ? null : visibleText(tag), serial: visibleText(serial) },
    model: model === null ? null : knownName(things, model),
    mark,
    until: standing.until === null ? null : writtenInstant(standing.until),
    first: first === undefined ? null : reasonView(first, things, words),
    minutes: minutesOf(standing, mark, pace),
    gases: standing.gases.map((gas) => gasView(gas, neededTo)),
  };
}

function gasView({ gas, mark, until }: GivenStanding["gases"][number], neededTo: number): GasStandingView {
  return { gas, name: gasShort(gas), mark: markOf({ mark, until }, neededTo), until: until === null ? null : writtenInstant(until) };
}

/** Proven now, and not to the end of what it is needed for, is a mark of its own. */
function markOf({ mark, until }: Pick<GivenStanding, "mark" | "until">, neededTo: number): StandingMark {
  return mark === "proven" && until !== null && until < neededTo ? "ends" : mark;
}

/** What is done in one sitting at the bench. A calibration, or what somebody must decide, has no usual time. */
const AT_THE_BENCH: ReadonlySet<string> = new Set(["daily-card", "clean-air", "gas-test", "charge"]);

function minutesOf({ reasons }: GivenStanding, mark: StandingMark, pace: number | null): number | null {
  if (pace === null || mark === "withdrawn" || !reasons.every(({ rule }) => AT_THE_BENCH.has(rule))) return null;
  return Math.max(1, Math.round(pace / 60_000));
}

export function reasonView(reason: GivenReason, things: Things, words: ReasonWords): ReasonView {
  const { rule, code, gas, entries, whoReturns, source, thing } = reason;
  const name = thing === null ? null : knownName(things, thing.id);
  const { why, next } = words(reason, name);
  return {
    ...{ rule, cause: [rule, code, thing?.id ?? ""].join(" ").trim(), gas, why, next },
    whoReturns: whoReturns === null ? null : dutiesText(whoReturns),
    entries,
    source: source === null ? "" : sourceText(source),
  };
}

const dutiesText = (duties: readonly Duty[]): string => duties.map((duty) => codeWords("duties", duty)).join(" or ");

/** Where a demand comes from; what was not read there says so. */
export function sourceText({ title, place, mark }: Source): string {
  const at = place === "" ? visibleText(title) : `${visibleText(title)}, ${visibleText(place)}`;
  return mark === "read" ? at : `${at} (${codeWords("mark", mark)})`;
}

/** The sensors of an instrument with what the rules ask of each channel. */
export function sensorViews(instrument: InstrumentThing, things: Things, rules: RuleSet | null): InstrumentView["sensors"] {
  return instrument.sensors.flatMap((id) => {
    const sensor = things.sensors.get(id);
    return sensor === undefined ? [] : [sensorView(sensor, rules)];
  });
}

function sensorView({ id, fitted }: SensorThing, rules: RuleSet | null): InstrumentView["sensors"][number] {
  const { serial, sensorKind, channels } = fitted;
  return {
    ...{ id, serial, kind: codeWords("sensorKind", sensorKind) },
    channels: channels.map(({ gas, unit, kind, range }) => ({
      ...{ gas, name: gasShort(gas), unit: unitOf(unit, kind), range: `${visibleText(range.from)} to ${visibleText(range.to)}` },
      setPoints: pointsOf(gas, sensorKind, rules),
    })),
  };
}

const unitOf = (unit: string, kind: SensorThing["fitted"]["channels"][number]["kind"]): string =>
  shownText({ digits: "", unit, kind, step: null }).slice(1);

type Points = InstrumentView["sensors"][number]["channels"][number]["setPoints"];

function pointsOf(gas: string, sensorKind: string, rules: RuleSet | null): Points {
  const rows = rules?.setPoints.filter((row) => row.gas === gas) ?? [];
  const row = rows.find((one) => one.sensorKind === sensorKind) ?? rows.find((one) => one.sensorKind === null);
  if (row === undefined) return [];
  return row.points.map(({ name, value }) => ({ name, digits: value.digits, raisedByGasTest: row.raisedByGasTest.includes(name) }));
}
