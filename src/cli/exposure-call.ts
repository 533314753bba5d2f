/** The flags of `lamproom exposure` as what the work takes. */

import type { Unsampled } from "../core/exposure/assessment.ts";
import type { OwnLimits, RegimeId } from "../core/gas/index.ts";
import { decimalFromText } from "../core/quantity/index.ts";
import { given, type Result, refused } from "../core/result.ts";
import type { Answers, TableMapping } from "../core/table/index.ts";
import { nearestNames, type Refusal } from "../report/index.ts";
import { checkedAnswers } from "../work/checked-answers.ts";
import { type LimitBook, limitBook } from "../work/limits-on-date.ts";
import { mappingFromJson, ownLimitsFromText } from "../work/texts-given.ts";
import type { ReadFlags } from "./flags.ts";
import type { Surroundings } from "./surroundings.ts";

export interface ExposureCall {
  readonly names: readonly string[];
  readonly answers: Answers;
  readonly mappings: readonly TableMapping[];
  readonly saveMapping: string | null;
  readonly shifts: readonly string[];
  readonly regimes: readonly RegimeId[] | null;
  readonly limits: LimitBook;
  readonly largestGapMs: number | null;
  readonly unsampled: Unsampled;
  readonly json: boolean;
}

export async function exposureCall(flags: ReadFlags, surroundings: Surroundings): Promise<Result<ExposureCall, Refusal>> {
  if (flags.words.length === 0) return refused({ type: "no-file" });
  const answers = answersOf(flags);
  if (!answers.ok) return answers;
  // Whether a zone exists is answered file by file, as everything that a file may ask for.
  const { zone: _, ...named } = answers.value;
  const known = checkedAnswers(named);
  if (!known.ok) return known;
  const gap = largestGap(flags);
  if (!gap.ok) return gap;
  const unsampled = unsampledOf(flags);
  if (!unsampled.ok) return unsampled;
  const shift = all(flags, "--shift").find((text) => !/^[^/]+\/[^/]+$/.test(text));
  if (shift !== undefined) return refused({ type: "shift-not-readable", text: shift, why: "form" });
  const own = await ownLimits(flags, surroundings);
  if (!own.ok) return own;
  const limits = limitBook(own.value);
  const regimes = regimesOf(flags, limits);
  if (!regimes.ok) return regimes;
  const mappings = await mappingsOf(flags, surroundings);
  if (!mappings.ok) return mappings;
  return given({
    names: flags.words,
    answers: answers.value,
    mappings: mappings.value,
    saveMapping: one(flags, "--save-mapping"),
    shifts: all(flags, "--shift"),
    regimes: regimes.value,
    limits,
    largestGapMs: gap.value,
    unsampled: unsampled.value,
    json: flags.values.has("--json"),
  });
}

const all = (flags: ReadFlags, name: string): readonly string[] => flags.values.get(name) ?? [];
const one = (flags: ReadFlags, name: string): string | null => all(flags, name)[0] ?? null;

const READING_KINDS: Readonly<Record<string, string>> = { spot: "spot", mean: "interval mean", peak: "interval peak" };

/** Flags that answer what a file does not say, by the id of the question. */
function answersOf(flags: ReadFlags): Result<Answers, Refusal> {
  const answers: Record<string, string> = {};
  for (const text of all(flags, "--answer")) {
    const pair = split(text);
    if (pair === null) return unfit("--answer", text, "ID=VALUE, as the questions of a file show it");
    answers[pair[0]] = pair[1];
  }
  for (const text of all(flags, "--gas")) {
    const pair = split(text);
    if (pair === null) return unfit("--gas", text, "CHANNEL=GAS or *=GAS, such as '*=carbon_monoxide'");
    answers[`gas/${pair[0]}`] = pair[1];
  }
  for (const text of all(flags, "--unit")) {
    const [channel, unit] = split(text) ?? ["*", text];
    answers[`unit/${channel}`] = unit;
  }
  for (const name of ["zone", "start"]) {
    const value = one(flags, `--${name}`);
    if (value !== null) answers[name] = value;
  }
  const kind = one(flags, "--readings");
  if (kind !== null && READING_KINDS[kind] === undefined) return unfit("--readings", kind, "spot, mean or peak");
  if (kind !== null) answers["reading kind/*"] = READING_KINDS[kind] ?? kind;
  return given(answers);
}

/** At the last "=": labels of channels may hold one, gases, units and answers do not. */
function split(text: string): readonly [string, string] | null {
  const at = text.lastIndexOf("=");
  return at <= 0 || at === text.length - 1 ? null : [text.slice(0, at), text.slice(at + 1)];
}

function largestGap(flags: ReadFlags): Result<number | null, Refusal> {
  const text = one(flags, "--max-gap");
  if (text === null) return given(null);
  const seconds = /^\d+(\.\d+)?$/.test(text) ? Number(text) : 0;
  const milliseconds = Math.round(seconds * 1000);
  return milliseconds > 0 ? given(milliseconds) : unfit("--max-gap", text, "seconds above 0");
}

function unsampledOf(flags: ReadFlags): Result<Unsampled, Refusal> {
  const text = one(flags, "--unsampled");
  switch (text) {
    case null:
    case "open":
      return given({ kind: "open" });
    case "zero":
      return given({ kind: "zero" });
    case "like":
      return given({ kind: "like" });
    default: {
      const level = decimalFromText(text);
      return level.ok && level.value.mantissa >= 0
        ? given({ kind: "level", text })
        : refused({ type: "unsampled-level-not-a-number", text });
    }
  }
}

function regimesOf(flags: ReadFlags, { regimes }: LimitBook): Result<readonly RegimeId[] | null, Refusal> {
  const asked = all(flags, "--regime");
  if (asked.length === 0) return given(null);
  const found: RegimeId[] = [];
  for (const text of asked) {
    const regime = regimes.find((id) => id.toLowerCase() === text.toLowerCase());
    if (regime === undefined) return refused({ type: "unknown-regime", regime: text, known: nearestFirst(text, regimes) });
    if (!found.includes(regime)) found.push(regime);
  }
  return given(found);
}

function nearestFirst(text: string, regimes: readonly string[]): readonly string[] {
  const near = nearestNames(text, regimes);
  return [...near, ...regimes.filter((regime) => !near.includes(regime))];
}

async function ownLimits(flags: ReadFlags, surroundings: Surroundings): Promise<Result<OwnLimits | null, Refusal>> {
  const name = one(flags, "--own-limits");
  if (name === null) return given(null);
  const text = await surroundings.readText(name);
  if (!text.ok) return text;
  return ownLimitsFromText(name, text.value);
}

async function mappingsOf(flags: ReadFlags, surroundings: Surroundings): Promise<Result<readonly TableMapping[], Refusal>> {
  const mappings: TableMapping[] = [];
  for (const name of all(flags, "--mapping")) {
    const text = await surroundings.readText(name);
    if (!text.ok) return text;
    const mapping = mappingFromJson(text.value);
    if (!mapping.ok) return mapping;
    mappings.push(mapping.value);
  }
  return given(mappings);
}

function unfit(name: string, value: string, expected: string): { readonly ok: false; readonly refusal: Refusal } {
  return refused({ type: "flag-value-not-fitting", name, value, expected });
}
