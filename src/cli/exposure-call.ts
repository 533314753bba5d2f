/** The flags of `lamproom exposure` as what the work takes. */

import type { OwnLimits, RegimeId } from "../core/gas/index.ts";
import { given, type Result, refused } from "../core/result.ts";
import type { Answers, TableMapping } from "../core/table/index.ts";
import { nearestNames, type Refusal } from "../report/index.ts";
import { checkedAnswers } from "../work/checked-answers.ts";
import type { GivenDeclaration } from "../work/declarations-given.ts";
import { type LimitBook, limitBook } from "../work/limits-on-date.ts";
import { mappingFromJson, ownLimitsFromText } from "../work/texts-given.ts";
import { type WrongCall, wrongCall } from "./complain.ts";
import { type DeclaredChoices, declarationsOf, declaredChoices } from "./declared-flags.ts";
import { all, one, type ReadFlags, split, unfit } from "./flags.ts";
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
  readonly declarations: readonly GivenDeclaration[];
  readonly choices: DeclaredChoices;
  /** Ids of the answers that came in by --answer: those must answer a question. */
  readonly asked: readonly string[];
  readonly json: boolean;
}

export async function exposureCall(flags: ReadFlags, surroundings: Surroundings): Promise<Result<ExposureCall, WrongCall>> {
  const plain = callWithoutFiles(flags);
  if (!plain.ok) return wrongCall(plain.refusal);
  const own = await ownLimits(flags, surroundings);
  if (!own.ok) return own;
  const limits = limitBook(own.value);
  const regimes = regimesOf(flags, limits);
  if (!regimes.ok) return wrongCall(regimes.refusal);
  const mappings = await mappingsOf(flags, surroundings);
  if (!mappings.ok) return mappings;
  const declarations = await declarationsOf(flags, surroundings);
  if (!declarations.ok) return declarations;
  return given({ ...plain.value, regimes: regimes.value, limits, mappings: mappings.value, declarations: declarations.value });
}

type FromFiles = "regimes" | "limits" | "mappings" | "declarations";

/** All that the words of the call say by themselves: a slip in them is told before any file is opened. */
function callWithoutFiles(flags: ReadFlags): Result<Omit<ExposureCall, FromFiles>, Refusal> {
  if (flags.words.length === 0) return refused({ type: "no-file" });
  const answers = answersOf(flags);
  if (!answers.ok) return answers;
  // Whether a zone exists is answered file by file, as everything that a file may ask for.
  const { zone, start, ...named } = answers.value;
  const known = checkedAnswers(named);
  if (!known.ok) return known;
  const gap = largestGap(flags);
  if (!gap.ok) return gap;
  const choices = declaredChoices(flags);
  if (!choices.ok) return choices;
  const shift = all(flags, "--shift").find((text) => !/^[^/]+\/[^/]+$/.test(text));
  if (shift !== undefined) return refused({ type: "shift-not-readable", text: shift, why: "form" });
  return given({
    names: flags.words,
    answers: { ...known.value, ...(zone === undefined ? {} : { zone }), ...(start === undefined ? {} : { start }) },
    asked: all(flags, "--answer").flatMap((text) => split(text)?.[0] ?? []),
    saveMapping: one(flags, "--save-mapping"),
    shifts: all(flags, "--shift"),
    largestGapMs: gap.value,
    choices: choices.value,
    json: flags.values.has("--json"),
  });
}

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

function largestGap(flags: ReadFlags): Result<number | null, Refusal> {
  const text = one(flags, "--max-gap");
  if (text === null) return given(null);
  const seconds = /^\d+(\.\d+)?$/.test(text) ? Number(text) : 0;
  const milliseconds = Math.round(seconds * 1000);
  return milliseconds > 0 ? given(milliseconds) : unfit("--max-gap", text, "seconds above 0");
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

async function ownLimits(flags: ReadFlags, surroundings: Surroundings): Promise<Result<OwnLimits | null, WrongCall>> {
  const file = one(flags, "--own-limits");
  if (file === null) return given(null);
  const text = await surroundings.readText(file);
  if (!text.ok) return wrongCall(text.refusal, file);
  const limits = ownLimitsFromText(file, text.value);
  return limits.ok ? limits : wrongCall(limits.refusal, file);
}

async function mappingsOf(flags: ReadFlags, surroundings: Surroundings): Promise<Result<readonly TableMapping[], WrongCall>> {
  const mappings: TableMapping[] = [];
  for (const file of all(flags, "--mapping")) {
    const text = await surroundings.readText(file);
    if (!text.ok) return wrongCall(text.refusal, file);
    const mapping = mappingFromJson(text.value);
    if (!mapping.ok) return wrongCall(mapping.refusal, file);
    mappings.push(mapping.value);
  }
  return given(mappings);
}
