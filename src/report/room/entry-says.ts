/** What an entry says, in one sentence for a list. Figures stand as they were shown: nothing is computed or rounded. */
import type { Bodies, KnownEntry, ReadEntry, Reading, Shown } from "../../core/instrument/index.ts";
import { UNITS } from "../../core/quantity/index.ts";
import { counted, NARROW_SPACE } from "../digits.ts";
import { unreadWords } from "../entry-fault-words.ts";
import { codeWords, kindWords } from "../entry-words.ts";
import { unitText } from "../figure.ts";
import { gasShort } from "../gas-words.ts";
import { visibleText } from "../visible-text.ts";

/**
 * One sentence.
 *
 * @example
 * ```ts
 * import { entrySays } from "./entry-says.ts";
 * const body = { result: "failed" as const, shown: "E 14" };
 * entrySays({ type: "known", kind: "self-test-seen", body, private: null, isPrivateDisposed: false }); // => "Self-test seen: failed, shown E 14."
 * entrySays({ type: "unknown-kind", kind: "sung-to" }).slice(0, 40); // => "This release does not know entries of th"
 * ```
 */
export function entrySays(read: ReadEntry): string {
  if (read.type === "known") {
    const more = moreOf(read);
    return `${capital(kindWords(read.kind))}${more === "" ? "" : `: ${more}`}.`;
  }
  if (read.type === "unknown-kind" || read.type === "unknown-form") return unreadWords(read) ?? "";
  return `${capital(kindWords(read.kind))}: ${unreadWords(read)}`;
}

const capital = (text: string): string => text.slice(0, 1).toUpperCase() + text.slice(1);
const joined = (parts: readonly (string | null)[]): string => parts.filter((part) => part !== null && part !== "").join(", ");
const said = (label: string, text: string | null): string | null => (text === null ? null : `${label} ${visibleText(text)}`);

/** A figure as it was shown, with its unit as people write it. */
export function shownText({ digits, unit, kind }: Shown): string {
  const known = UNITS.find(({ ucum }) => ucum === unit)?.unit ?? OTHER_UNITS[unit] ?? visibleText(unit);
  const written = kind === "fraction-of-lel" ? "%LEL" : unitText(known);
  return `${visibleText(digits).replace(/^-/, "−")}${NARROW_SPACE}${written}`;
}

/** Units of what is no gas. */
const OTHER_UNITS: Readonly<Record<string, string>> = { Cel: "°C", "m[H2O]": "mH₂O" };

export const readingText = (reading: Reading): string => ("sign" in reading ? codeWords("sign", reading.sign) : shownText(reading));

type Says = { readonly [Name in KnownEntry["kind"]]?: (body: Bodies[Name]) => string };

const OF_THINGS: Says = {
  "book-opened": ({ name, zone, isDemonstration }) => joined([visibleText(name), zone, isDemonstration ? "a demonstration" : null]),
  "key-ended": ({ cause }) => codeWords("cause", cause),
  "book-put-back": ({ knownSize, foundSize, reason }) =>
    `known to have held ${counted(knownSize, "entry", "entries")}, found with ${foundSize}; ${visibleText(reason)}`,
  disposed: ({ parts, reason }) => `${counted(parts.length, "part")}; ${visibleText(reason)}`,
  "model-described": ({ name, maker }) => joined([visibleText(name), said("by", maker)]),
  "instrument-registered": ({ serial, owner }) => joined([said("serial", serial), owner === "visiting" ? "visiting" : null]),
  "tag-lent": ({ tag }) => visibleText(tag),
  "tag-returned": ({ tag }) => visibleText(tag),
  "sensor-fitted": ({ serial, sensorKind, channels }) =>
    joined([channels.map(({ gas }) => gasShort(gas)).join(" + "), codeWords("sensorKind", sensorKind), said("serial", serial)]),
  "sensor-moved": ({ reason }) => visibleText(reason),
  "sensor-removed": ({ reason }) => codeWords("reason", reason),
  "cylinder-registered": ({ name, components }) =>
    joined([visibleText(name), ...components.map(({ gas, value }) => `${gasShort(gas)} ${shownText(value)}`)]),
  "line-part-registered": ({ part, name }) => joined([codeWords("part", part), visibleText(name)]),
  "station-registered": ({ name, sort }) => joined([visibleText(name), codeWords("sort", sort)]),
  "place-registered": ({ name, sort }) => joined([visibleText(name), codeWords("sort", sort)]),
  "person-registered": ({ duties }) => duties.map((duty) => codeWords("duties", duty)).join(", "),
  "duties-set": ({ duties }) => (duties.length === 0 ? "none" : duties.map((duty) => codeWords("duties", duty)).join(", ")),
  "thing-retired": ({ reason }) => visibleText(reason),
};

const OF_THE_BENCH: Says = {
  "round-opened": ({ sort, gauge }) => joined([codeWords("sort", sort), gauge === null ? null : `gauge ${shownText(gauge)}`]),
  "round-closed": ({ gauge }) => (gauge === null ? "" : `gauge ${shownText(gauge)}`),
  "self-test-seen": ({ result, shown }) => joined([codeWords("result", result), said("shown", shown)]),
  "daily-card-seen": (card) => cardSays(card),
  "settings-card-seen": ({ how, channels }) =>
    joined([
      codeWords("how", how),
      ...channels.map(({ gas, setPoints }) => `${gasShort(gas)} ${setPoints.map(({ value }) => value.digits).join("/")}`),
    ]),
  "clean-air-read": ({ readings, shownCleanBy }) =>
    joined([
      ...readings.map(({ gas, reading }) => `${gasShort(gas)} ${readingText(reading)}`),
      `shown clean by ${codeWords("shownCleanBy", shownCleanBy)}`,
    ]),
  "zero-adjusted": ({ result, channels }) => joined([codeWords("result", result), channels.map(({ gas }) => gasShort(gas)).join(" + ")]),
  "gas-tested": ({ channels }) => joined(byResult(channels)),
  "gas-test-void": ({ cause }) => codeWords("cause", cause),
  "gas-test-cause-claimed": ({ cause }) => codeWords("cause", cause),
  "function-checked": ({ result, workshop }) => joined([codeWords("result", result), said("by", workshop)]),
  "calibration-checked": ({ result, channels, workshop }) =>
    joined([codeWords("result", result), ...byResult(channels), said("by", workshop)]),
  calibrated: ({ channels, workshop }) => joined([...byResult(channels), said("by", workshop)]),
  "charge-seen": ({ percent, hours, bars }) =>
    joined([
      percent === null ? null : `${percent}${NARROW_SPACE}%`,
      hours === null ? null : `${hours}${NARROW_SPACE}h`,
      bars === null ? null : `${bars.lit} of ${bars.of} bars`,
    ]),
};

const OF_USE: Says = {
  withdrawn: ({ cause }) => codeWords("cause", cause),
  returned: ({ cause, reason }) => joined([codeWords("cause", cause), reason === null ? null : visibleText(reason)]),
  "sent-away": ({ to, purpose }) => joined([codeWords("purpose", purpose), said("to", to)]),
  "back-from-service": ({ done }) => done.map((code) => codeWords("done", code)).join(", "),
  "brought-forward": ({ of, on, evidence }) => joined([codeWords("of", of), `on ${on}`, codeWords("evidence", evidence)]),
  "upset-seen": ({ what }) => codeWords("what", what),
  "entry-voided": ({ cause, reason }) => joined([codeWords("cause", cause), visibleText(reason)]),
  "thing-voided": ({ from, until, cause, reason }) =>
    joined([`from ${from}`, until === null ? null : `until ${until}`, codeWords("cause", cause), visibleText(reason)]),
  "question-answered": ({ question, reason }) => joined([codeWords("question", question), visibleText(reason)]),
  "relied-on": ({ answer }) => visibleText(answer),
};

const SAYS: Says = { ...OF_THINGS, ...OF_THE_BENCH, ...OF_USE };

/** Kinds that say nothing beyond their name, as it is with connecting a cylinder, have no row. */
function moreOf({ kind, body }: KnownEntry): string {
  const says = SAYS[kind] as ((body: unknown) => string) | undefined; // the row of its kind
  return says?.(body) ?? "";
}

function byResult(channels: readonly { readonly gas: string; readonly result: string }[]): readonly string[] {
  const gases = new Map<string, string[]>();
  for (const { gas, result } of channels) gases.set(result, [...(gases.get(result) ?? []), gasShort(gas)]);
  return [...gases].map(([result, names]) => `${codeWords("result", result)} ${names.join(" ")}`);
}

const LOOKED_AT: readonly (readonly [keyof Bodies["daily-card-seen"], string])[] = [
  ["noFaultShown", "no fault shown"],
  ["gasNamesAsExpected", "gas names as expected"],
  ["clockWithinMinute", "clock within a minute"],
  ["noDueDatePassed", "no due date passed"],
];

function cardSays(card: Bodies["daily-card-seen"]): string {
  const thoseSeen = (looked: string): string =>
    LOOKED_AT.filter(([member]) => card[member] === looked)
      .map(([, words]) => words)
      .join(", ");
  const [no, unseen] = [thoseSeen("no"), thoseSeen("not-looked")];
  if (no === "" && unseen === "") return "all four as they should be";
  return joined([no === "" ? null : `not so: ${no}`, unseen === "" ? null : `not looked at: ${unseen}`]);
}
