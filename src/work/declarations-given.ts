/** Statements of named persons, handed in as a file: checked as a text, then placed on the clock of each recording. */
import type { ShiftSpan } from "../core/exposure/assessment.ts";
import { decimalFromText } from "../core/quantity/index.ts";
import type { Declaration } from "../core/recording/declaration.ts";
import { given, type Result, refused } from "../core/result.ts";
import { type Instant, readDate } from "../core/time/index.ts";
import type { DoorRefusal, Refusal } from "../report/index.ts";
import { type FileClock, placedTime } from "./shift-times.ts";
import { parsedJson } from "./texts-given.ts";

/** A declaration whose times are still texts: on which clock they stand, the recording says. */
export interface GivenDeclaration {
  readonly channel: string;
  /** Null = from the first, or to the last, moment of the shift. */
  readonly from: string | null;
  readonly to: string | null;
  readonly by: string;
  readonly on: string;
  readonly reason: string;
  readonly kind: Declaration["kind"];
  readonly level: string | null;
  readonly holds: "at any moment" | "as an average" | null;
}

type NotReadable = Extract<DoorRefusal, { readonly type: "declarations-not-readable" }>;
type NotPlaced = Extract<DoorRefusal, { readonly type: "declaration-not-placed" }>;

const KINDS = ["unexposed", "like the sampled time", "worst case", "over-range bound"] as const;
const HOLDS = ["at any moment", "as an average"] as const;
const KEYS = ["channel", "from", "to", "by", "on", "reason", "kind", "level", "holds"];

/** A JSON list after docs/schemas/declarations.json. The first thing that does not fit is named by its place. */
export function declarationsFromText(file: string, text: string): Result<readonly GivenDeclaration[], Refusal> {
  const json = parsedJson(text);
  if (json === undefined) return refused({ type: "json-not-readable", file });
  if (!Array.isArray(json)) return wrong("", "has to be a list of declarations", json);
  const found: GivenDeclaration[] = [];
  for (const [index, entry] of json.entries()) {
    const checked = checkedDeclaration(entry, `[${index}]`);
    if (!checked.ok) return checked;
    found.push(checked.value);
  }
  return given(found);
}

function checkedDeclaration(entry: unknown, at: string): Result<GivenDeclaration, NotReadable> {
  if (typeof entry !== "object" || entry === null || Array.isArray(entry)) return wrong(at, "has to be an object", entry);
  const values = entry as Readonly<Record<string, unknown>>; // an object that is no list: its keys are texts
  const unknown = Object.keys(values).find((key) => !KEYS.includes(key));
  if (unknown !== undefined) return wrong(`${at}.${unknown}`, `is not known; the keys are ${KEYS.join(", ")}`, values[unknown]);
  for (const key of ["by", "reason"])
    if (textOf(values[key]) === null) return wrong(`${at}.${key}`, "has to be a text that is not empty", values[key]);
  const on = textOf(values["on"]);
  if (on === null || !readDate(on).ok) return wrong(`${at}.on`, "has to be the date of the statement, such as 2026-03-05", values["on"]);
  for (const key of ["channel", "from", "to", "level", "holds"])
    if (values[key] != null && textOf(values[key]) === null) return wrong(`${at}.${key}`, "has to be a text", values[key]);
  const kind = KINDS.find((one) => one === values["kind"]);
  if (kind === undefined) return wrong(`${at}.kind`, `has to be one of ${KINDS.join(", ")}`, values["kind"]);
  const bounded = checkedBound(values, kind, at);
  if (!bounded.ok) return bounded;
  const [by, reason] = [textOf(values["by"]) ?? "", textOf(values["reason"]) ?? ""];
  const [from, to] = [textOf(values["from"]), textOf(values["to"])];
  return given({ channel: textOf(values["channel"]) ?? "*", from, to, by, on, reason, kind, ...bounded.value });
}

/** A bound needs its level and what it holds for; the other kinds have neither. */
function checkedBound(
  values: Readonly<Record<string, unknown>>,
  kind: Declaration["kind"],
  at: string,
): Result<Pick<GivenDeclaration, "level" | "holds">, NotReadable> {
  const level = textOf(values["level"]);
  const holds = HOLDS.find((one) => one === values["holds"]) ?? null;
  if (kind === "unexposed" || kind === "like the sampled time") {
    if (level !== null) return wrong(`${at}.level`, `does not go with "${kind}"`, level);
    return values["holds"] == null
      ? given({ level: null, holds: null })
      : wrong(`${at}.holds`, `does not go with "${kind}"`, values["holds"]);
  }
  const number = level === null ? null : decimalFromText(level);
  if (number === null || !number.ok || number.value.mantissa < 0)
    return wrong(`${at}.level`, 'has to be digits in the unit of the channel, as a text such as "13"', values["level"]);
  return holds === null ? wrong(`${at}.holds`, `has to be one of ${HOLDS.join(", ")}`, values["holds"]) : given({ level, holds });
}

function textOf(value: unknown): string | null {
  return typeof value === "string" && value.trim() !== "" ? value.trim() : null;
}

function wrong(at: string, why: string, found: unknown): { readonly ok: false; readonly refusal: NotReadable } {
  const shown = found === undefined ? null : (JSON.stringify(found) ?? null);
  return refused({ type: "declarations-not-readable", at, why, found: shown });
}

/** The declarations on the clock of one recording; those for channels that it does not have fall away in its assessment. */
export function placedDeclarations(declarations: readonly GivenDeclaration[], clock: FileClock): Result<readonly Declaration[], NotPlaced> {
  const placed: Declaration[] = [];
  for (const [index, declaration] of declarations.entries()) {
    const span = placedSpan(declaration, clock);
    if (typeof span === "string") return refused({ type: "declaration-not-placed", number: index + 1, by: declaration.by, text: span });
    placed.push(placedDeclaration(declaration, String(index + 1), span));
  }
  return given(placed);
}

interface PlacedSpan {
  readonly from: ShiftSpan["from"] | null;
  readonly to: ShiftSpan["to"] | null;
}

/** The text that has no place on this clock, or that ends before it begins. */
function placedSpan({ from, to }: GivenDeclaration, clock: FileClock): PlacedSpan | string {
  const [start, end] = [from === null ? null : placedTime(from, clock), to === null ? null : placedTime(to, clock)];
  if (typeof start === "string") return from ?? "";
  if (typeof end === "string") return to ?? "";
  return start !== null && end !== null && end <= start ? `${from}/${to}` : { from: start, to: end };
}

function placedDeclaration(
  { channel, by, on, reason, kind, level, holds }: GivenDeclaration,
  id: string,
  { from, to }: PlacedSpan,
): Declaration {
  // Times on the clock of the recording, whichever it is: the brand says instants, as everywhere in a declaration.
  const common = { id, channel, from: from as Instant | null, to: to as Instant | null, by, on, reason };
  if (kind === "unexposed" || kind === "like the sampled time") return { ...common, kind };
  return { ...common, kind, levelText: level ?? "", holds: holds ?? "at any moment" };
}
