/** A mapping as a text that is kept, and back; nothing that is not understood is let in. */
import type { ReadingKind } from "../quantity/reading-kind.ts";
import type { Unit } from "../quantity/unit.ts";
import { given, type Result, refused } from "../result.ts";
import { readDate, readRfc3339, zoneClock } from "../time/index.ts";
import { HALF_DAYS } from "./half-day.ts";
import type { ColumnMapping, ColumnRole, TableMapping, TimeForm } from "./mapping.ts";

export type MappingRefusal =
  | { readonly type: "mapping-not-json"; readonly why: string }
  | { readonly type: "unknown-mapping-form"; readonly form: string }
  /** `at` is the path of what is wrong: `columns[2].unit`. */
  | { readonly type: "mapping-not-understood"; readonly at: string; readonly found: string };

/**
 * The text of a mapping: JSON, indented by two, keys in the order of the type.
 *
 * What holds for one file only is not kept, so that the next file with this heading asks again: the instant or day on
 * which it starts, which of the two hours is meant where its rows do not tell, and in which half of the day a clock of
 * twelve hours starts.
 *
 * @param mapping as a survey or a person made it.
 * @example
 * ```ts
 * import { unitFromText } from "../quantity/index.ts";
 * import { jsonFromMapping, mappingFromJson } from "./saved-mapping.ts";
 * import { surveyTable } from "./survey.ts";
 * const survey = surveyTable({ decodeText: () => null, vocabulary: { unitFromText, gasInLabel: () => null } }, { start: "2026-03-04" });
 * survey.push(Uint8Array.from("Time (UTC),CO (ppm)\n07:30:00,1\n", (letter) => letter.charCodeAt(0)));
 * const proposal = survey.finish();
 * const time = proposal.ok && proposal.value.mapping.time;
 * time && [time.zone, time.start]; // => ["UTC", "2026-03-04"]
 * const kept = proposal.ok && mappingFromJson(jsonFromMapping(proposal.value.mapping));
 * kept && kept.ok && [kept.value.time.zone, kept.value.time.start]; // => ["UTC", null]
 * ```
 */
export function jsonFromMapping(mapping: TableMapping): string {
  return `${JSON.stringify({ ...mapping, time: { ...mapping.time, start: null, repeatedHour: null, halfDay: null } }, null, 2)}\n`;
}

/**
 * Reads a saved mapping and checks every part of it.
 *
 * @param text as `jsonFromMapping` writes it. Refused: text that is no JSON, a form that this version does not know,
 * and any part that is missing, unknown or of another kind; the refusal names its path.
 * @example
 * ```ts
 * import { mappingFromJson } from "./saved-mapping.ts";
 * const newer = mappingFromJson('{ "form": "lamproom-mapping/9" }');
 * newer.ok || newer.refusal; // => { type: "unknown-mapping-form", form: "\"lamproom-mapping/9\"" }
 * ```
 */
export function mappingFromJson(text: string): Result<TableMapping, MappingRefusal> {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch (fault) {
    if (fault instanceof SyntaxError) return refused({ type: "mapping-not-json", why: fault.message });
    throw fault;
  }
  if (!isObject(value)) return refused({ type: "mapping-not-understood", at: "", found: show(value) });
  if (value["form"] !== "lamproom-mapping/1") return refused({ type: "unknown-mapping-form", form: show(value["form"]) });
  const fault = MAPPING(value, "");
  if (fault !== null) return refused(fault);
  // Every part was checked against the type, one by one, but for one that older mappings lack.
  const mapping = value as unknown as TableMapping;
  return given({ ...mapping, time: { ...mapping.time, halfDay: mapping.time.halfDay ?? null } });
}

type Fault = Extract<MappingRefusal, { type: "mapping-not-understood" }> | null;
type Check = (value: unknown, at: string) => Fault;

const isObject = (value: unknown): value is Record<string, unknown> => typeof value === "object" && value !== null && !Array.isArray(value);
const show = (value: unknown): string => (value === undefined ? "nothing" : JSON.stringify(value).slice(0, 80));
const wrong = (value: unknown, at: string): Fault => ({ type: "mapping-not-understood", at, found: show(value) });
const that =
  (isGood: (value: unknown) => boolean): Check =>
  (value, at) =>
    isGood(value) ? null : wrong(value, at);
const text = that((value) => typeof value === "string");
const flag = that((value) => typeof value === "boolean");
const line = that((value) => Number.isSafeInteger(value) && (value as number) > 0); // a safe integer is a number
const one = <Name extends string>(...names: readonly Name[]): Check => that((value) => (names as readonly unknown[]).includes(value));
const perhaps =
  (check: Check): Check =>
  (value, at) =>
    value === null ? null : check(value, at);

/** Parts that mappings saved by the first versions do not have. */
const mayLack =
  (check: Check): Check =>
  (value, at) =>
    value === undefined ? null : check(value, at);

const list =
  (check: Check): Check =>
  (value, at) => {
    if (!Array.isArray(value)) return wrong(value, at);
    for (const [index, part] of value.entries()) {
      const fault = check(part, `${at}[${index}]`);
      if (fault !== null) return fault;
    }
    return null;
  };

/** An object with exactly these parts. */
const parts =
  (checks: Readonly<Record<string, Check>>): Check =>
  (value, at) => {
    if (!isObject(value)) return wrong(value, at);
    const under = (name: string): string => (at === "" ? name : `${at}.${name}`);
    for (const [name, check] of Object.entries(checks)) {
      const fault = check(value[name], under(name));
      if (fault !== null) return fault;
    }
    const extra = Object.keys(value).find((name) => !Object.hasOwn(checks, name));
    return extra === undefined ? null : wrong(value[extra], under(extra));
  };

const textMap =
  (check: Check): Check =>
  (value, at) => {
    if (!isObject(value)) return wrong(value, at);
    for (const [name, part] of Object.entries(value)) {
      const fault = check(part, `${at}.${name}`);
      if (fault !== null) return fault;
    }
    return null;
  };

const ROLES: readonly ColumnRole[] = [
  "time",
  "date",
  "clock",
  "reading",
  "status",
  "series",
  "sensor",
  "value",
  "unit",
  "text",
  "number",
  "ignored",
];
const UNITS: readonly Unit[] = ["ppm", "ppb", "vol%", "mol/mol", "%LEL", "mg/m3", "ug/m3"];
const KINDS: readonly ReadingKind[] = ["spot", "interval mean", "interval peak"];
const FORMS: readonly TimeForm[] = [
  "year-month-day",
  "day-month-year",
  "month-day-year",
  "seconds-from-start",
  "milliseconds-from-start",
  "minutes-from-start",
  "hours-from-start",
  "unix-seconds",
  "unix-milliseconds",
  "day-number-1900",
  "day-number-1904",
];

const zone = that((value) => typeof value === "string" && zoneClock(value).ok);
const oneLetterAtMost = that((value) => typeof value === "string" && value.length <= 1);
const start = that((value) => typeof value === "string" && (readRfc3339(value).ok || readDate(value).ok));

const COLUMN = parts({
  label: text,
  role: one(...ROLES),
  gas: perhaps(text),
  unit: perhaps(one(...UNITS)),
  decimalMark: one(".", ","),
  groupMark: perhaps(one(",", ".", " ", "'")),
  kind: one(...KINDS),
  kindChosenBy: mayLack(one("default", "file", "person")),
  rangeTop: perhaps(that((value) => typeof value === "string" && /^\d+(?:\.\d+)?$/.test(value))),
} satisfies Record<keyof ColumnMapping, Check>);

const MAPPING = parts({
  form: one("lamproom-mapping/1"),
  fingerprint: that((value) => typeof value === "string" && /^[0-9a-f]{16}$/.test(value)),
  dialect: parts({
    encoding: text,
    delimiter: oneLetterAtMost,
    quote: oneLetterAtMost,
    quoteInside: one("doubled", "backslash", "lenient"),
    commentPrefix: perhaps(that((value) => typeof value === "string" && value.length === 1)),
    wrapped: flag,
    trim: flag,
  } satisfies Record<keyof TableMapping["dialect"], Check>),
  headerLines: list(line),
  unitLine: perhaps(line),
  shape: one("wide", "long"),
  columns: list(COLUMN),
  channels: list(COLUMN),
  time: parts({
    form: one(...FORMS),
    zone: perhaps(zone),
    twoDigitYearsFrom: perhaps(that((value) => Number.isSafeInteger(value))),
    start: perhaps(start),
    repeatedHour: perhaps(one("earlier", "later")),
    halfDay: mayLack(perhaps(one(...HALF_DAYS))),
    zoneLetters: textMap(zone),
  } satisfies Record<keyof TableMapping["time"], Check>),
  words: parts({
    overRange: list(text),
    underRange: list(text),
    noReading: list(text),
    fault: list(text),
    badStatus: list(text),
  } satisfies Record<keyof TableMapping["words"], Check>),
} satisfies Record<keyof TableMapping, Check>);
