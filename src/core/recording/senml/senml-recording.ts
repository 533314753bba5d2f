/** A resolved SenML pack as a recording: every name with a gas unit becomes a channel. */

import type { Decimal } from "../../quantity/index.ts";
import type { Unit } from "../../quantity/unit.ts";
import { given, type Result, refused } from "../../result.ts";
import type { ColumnMapping } from "../../table/mapping.ts";
import type { ChannelBatch } from "../../table/reading.ts";
import { READING } from "../channel.ts";
import { type Collected, collectRows } from "../collect-rows.ts";
import { digitsOf, digitsOfNumber } from "../display-step.ts";
import { FIRST_ABSOLUTE_SECOND, type SenmlPack, type SenmlRecord, type SenmlRefusal } from "./senml-pack.ts";
import { senmlUnit } from "./senml-unit.ts";

/** Marks of readings that SenML numbers cannot say, as text in a companion record of this name. Own convention. */
export const FLAG_SUFFIX = ":flag";
/** A ratio whose name ends so is a fraction of the lower explosive limit, not of the volume. Own convention. */
export const LEL_SUFFIX = ":lel-fraction";

export interface SenmlSource {
  readonly file: string;
  readonly sha256: string;
  /** Unix milliseconds of "now" for relative times; null = they only count from the first record. */
  readonly now: number | null;
  /** Gas id for a joined name, where something tells it. */
  readonly gasOf: (name: string) => string | null;
  /** What a person said of the kind of readings; null or left out = nobody did. */
  readonly kindOf?: (name: string) => Pick<ColumnMapping, "kind" | "kindChosenBy"> | null;
}

export type SenmlMark =
  /** A unit that no list of SenML has, read as people write it. */
  | { readonly type: "unit not registered"; readonly name: string; readonly unit: string }
  /** A secondary unit in a pack whose version does not allow it. */
  | { readonly type: "unit needs version 26"; readonly name: string; readonly unit: string }
  /** A ratio above 1, such as 20.9 under "%", which means 2090 per cent. */
  | { readonly type: "ratio above one"; readonly name: string; readonly unit: string }
  /** Numbers without a unit, or with one that is no gas reading (battery, temperature): left out. */
  | { readonly type: "left out"; readonly name: string; readonly unit: string | null }
  /** A flag text that this reader does not know: the reading is taken as a fault. */
  | { readonly type: "flag not known"; readonly name: string; readonly text: string }
  | { readonly type: "times count from the first record" };

export interface SenmlRecording {
  readonly collected: Collected;
  readonly marks: readonly SenmlMark[];
}

/**
 * A recording from a SenML pack. Digits come from the shortest text of each number; %LEL is a ratio whose name ends in
 * `:lel-fraction`. Records are ordered by time; the line of a reading is its place in the pack.
 *
 * @param pack resolved
 * @param source file, digest, what "now" is, gases
 * Refuses a pack in which some times are relative and some absolute while "now" is not known.
 * @example
 * ```ts
 * import { resolveSenml, SENML_READING } from "./senml-pack.ts";
 * import { recordingFromSenml } from "./senml-recording.ts";
 * const pack = resolveSenml([{ bver: 26, bn: "works:", bt: 1772609400, n: "co", u: "ppm", v: 35 }, { n: "co", u: "ppm", t: 10, v: 36.5 }], SENML_READING);
 * const read = pack.ok && recordingFromSenml(pack.value, { file: "a.json", sha256: "", now: null, gasOf: () => null });
 * read && read.ok && [...(read.value.collected.recording.channels[0]?.values ?? [])]; // => [350, 365]
 * ```
 * Source: RFC 8428 section 4, RFC 8798, RFC 9100.
 */
export function recordingFromSenml(pack: SenmlPack, source: SenmlSource): Result<SenmlRecording, SenmlRefusal> {
  if (pack.time === "mixed" && source.now === null)
    return refused({ type: "senml-not-readable", record: null, why: "times relative and absolute", text: null });
  const marks: SenmlMark[] = [];
  const flags = flagsOf(pack.records);
  const channels = new Map<string, SenmlChannel>();
  for (const record of pack.records) addNumber(channels, record, pack.secondaryUnits, flags, marks);
  for (const record of pack.records) addFlag(channels, record, pack.secondaryUnits, marks);
  const countsOnly = pack.time === "relative" && source.now === null;
  const startMs = countsOnly ? -milliseconds(pack.records[0]?.seconds ?? 0) : (source.now ?? 0);
  if (countsOnly) marks.push({ type: "times count from the first record" });
  const collector = collectRows();
  const used = [...channels.values()].filter(({ unit }) => unit !== null);
  if (used.length > 0) collector.sink.begin(used.map((channel) => columnOf(channel, labelOf(channel, used), source)));
  used.forEach((channel, index) => void collector.sink.rows(batchOf(channel, index, used.length, startMs)));
  const clock = countsOnly ? ({ kind: "elapsed" } as const) : ({ kind: "instants", zone: null } as const);
  return given({ collected: collector.finish({ file: source.file, sha256: source.sha256, clock, notes: [], cutOff: false }), marks });
}

interface SenmlChannel {
  readonly name: string;
  /** Null where the name holds no gas readings. */
  readonly unit: Unit | null;
  /** The unit as the pack has it. */
  readonly written: string | null;
  /** Decimals that the change of unit adds to the digits as written. */
  readonly shift: number;
  readonly rows: {
    readonly seconds: number;
    readonly record: number;
    readonly mantissa: number;
    readonly decimals: number;
    readonly code: number;
  }[];
  readonly seconds: Set<number>;
}

/** Units of SenML, and texts that are plain although not registered: own unit, and by how many decimals the point moves. */
const GAS_UNITS: Readonly<Record<string, readonly [unit: Unit, shift: number]>> = {
  "/": ["mol/mol", 0],
  "%": ["mol/mol", 0],
  "/100": ["vol%", 0],
  "/1000": ["mol/mol", 3],
  ppm: ["ppm", 0],
  "ug/m3": ["ug/m3", 0],
  "kg/m3": ["mg/m3", -6],
  ppb: ["ppb", 0],
  "mg/m3": ["mg/m3", 0],
  "%LEL": ["%LEL", 0],
  "%vol": ["vol%", 0],
};

/** The same units under a name that ends in `:lel-fraction`. */
const LEL_UNITS: Readonly<Record<string, number>> = { "/": -2, "%": -2, "/100": 0, "/1000": 1 };

function addNumber(
  channels: Map<string, SenmlChannel>,
  record: SenmlRecord,
  secondaryUnits: boolean,
  flags: ReadonlyMap<string, string>,
  marks: SenmlMark[],
): void {
  const { name, unit, value, seconds, record: number } = record;
  if (value?.kind !== "number") return;
  const channel = channelFor(channels, name, unit, secondaryUnits, marks);
  const digits = digitsOfNumber(value.number);
  if (channel.unit === null || digits === null) return;
  if (isRatio(channel, unit) && value.number > 1) markOnce(marks, { type: "ratio above one", name, unit: unit ?? "" });
  const flag = flags.get(`${name}\n${seconds}`);
  const claims = flag === undefined ? null : claimsOf(flag);
  if (flag !== undefined && claims === null) markOnce(marks, { type: "flag not known", name, text: flag });
  const code = flag === undefined ? READING.valid : (claims?.[0]?.code ?? READING.fault);
  channel.seconds.add(seconds);
  channel.rows.push({ seconds, record: number, ...shifted(digits, channel.shift), code });
}

/** A flag whose reading has no number says itself what is known; its bounds are in its own unit, or that of its channel. */
function addFlag(channels: Map<string, SenmlChannel>, record: SenmlRecord, secondaryUnits: boolean, marks: SenmlMark[]): void {
  const { value, seconds, record: number } = record;
  if (value?.kind !== "text" || !record.name.endsWith(FLAG_SUFFIX)) return;
  const name = record.name.slice(0, -FLAG_SUFFIX.length);
  const unit = record.unit ?? [...channels.values()].find((one) => one.name === name)?.written ?? null;
  const channel = channelFor(channels, name, unit, secondaryUnits, marks);
  if (channel.unit === null || channel.seconds.has(seconds)) return;
  const claims = claimsOf(value.text);
  if (claims === null) markOnce(marks, { type: "flag not known", name, text: value.text });
  for (const { code, bound } of claims ?? [{ code: READING.fault, bound: null }]) {
    const digits = bound === null ? { mantissa: 0, decimals: 0 } : shifted(bound, channel.shift);
    channel.rows.push({ seconds, record: number, ...digits, code });
  }
}

function channelFor(
  channels: Map<string, SenmlChannel>,
  name: string,
  unit: string | null,
  secondaryUnits: boolean,
  marks: SenmlMark[],
): SenmlChannel {
  const key = `${name}\n${unit}`;
  const channel = channels.get(key) ?? newChannel(name, unit, secondaryUnits, marks);
  channels.set(key, channel);
  return channel;
}

function isRatio(channel: SenmlChannel, unit: string | null): boolean {
  return channel.unit === "mol/mol" && (unit === "/" || unit === "%");
}

function markOnce(marks: SenmlMark[], mark: SenmlMark & { readonly name: string }): void {
  if (!marks.some((other) => other.type === mark.type && "name" in other && other.name === mark.name)) marks.push(mark);
}

function newChannel(name: string, unit: string | null, secondaryUnits: boolean, marks: SenmlMark[]): SenmlChannel {
  const registered = unit === null ? null : senmlUnit(unit);
  const lelShift = unit !== null && name.endsWith(LEL_SUFFIX) && Object.hasOwn(LEL_UNITS, unit) ? LEL_UNITS[unit] : undefined;
  const row = unit !== null && Object.hasOwn(GAS_UNITS, unit) ? GAS_UNITS[unit] : undefined;
  const [own, shift] = lelShift === undefined ? (row ?? [null, 0]) : (["%LEL", lelShift] as const);
  if (own === null || unit === null) marks.push({ type: "left out", name, unit });
  else if (registered === null) marks.push({ type: "unit not registered", name, unit });
  else if (registered.secondary && !secondaryUnits) marks.push({ type: "unit needs version 26", name, unit });
  return { name, unit: own, written: unit, shift, rows: [], seconds: new Set() };
}

function shifted({ mantissa, decimals }: Decimal, shift: number): Decimal {
  const moved = decimals + shift;
  return moved >= 0 ? { mantissa, decimals: moved } : { mantissa: mantissa * 10 ** -moved, decimals: 0 };
}

function flagsOf(records: readonly SenmlRecord[]): Map<string, string> {
  const flags = new Map<string, string>();
  for (const { name, seconds, value } of records) {
    if (value?.kind === "text" && name.endsWith(FLAG_SUFFIX)) flags.set(`${name.slice(0, -FLAG_SUFFIX.length)}\n${seconds}`, value.text);
  }
  return flags;
}

const FLAG = /^(over-range|under-range|no-reading|fault)(?: (?:>=|<=) ([0-9.eE+-]+))?$/;
const INTERVAL = /^between ([0-9.eE+-]+) and ([0-9.eE+-]+)$/;

interface FlagClaim {
  readonly code: number;
  readonly bound: Decimal | null;
}

/** What a flag claims of its instant; two claims make an interval. Null for a text that is not known. */
function claimsOf(text: string): readonly FlagClaim[] | null {
  const interval = INTERVAL.exec(text);
  if (interval !== null) return [1, 2].map((end) => ({ code: READING.valid, bound: digitsOf(interval[end] ?? "") }));
  const match = FLAG.exec(text);
  if (match === null) return null;
  const bound = match[2] === undefined ? null : digitsOf(match[2]);
  if (match[1] === "no-reading") return [{ code: READING.none, bound: null }];
  if (match[1] === "fault") return [{ code: READING.fault, bound: null }];
  if (match[1] === "under-range") return [{ code: bound === null ? READING.fault : READING.underRange, bound }];
  return [{ code: bound === null ? READING.overRangeUnbounded : READING.overRange, bound }];
}

function columnOf({ name, unit }: SenmlChannel, label: string, source: SenmlSource): ColumnMapping {
  const kind = source.kindOf?.(name) ?? ({ kind: "spot", kindChosenBy: "default" } as const);
  return { label, role: "value", gas: source.gasOf(name), unit, decimalMark: ".", groupMark: null, ...kind, rangeTop: null };
}

/** A name that comes with several units is several channels: units are never mixed, and each goes by its unit as well. */
function labelOf({ name, written }: SenmlChannel, used: readonly SenmlChannel[]): string {
  // No name of SenML holds a bracket (RFC 8428 section 4.5.1), so this is the label of no other channel.
  return used.filter((other) => other.name === name).length > 1 ? `${name} (${written})` : name;
}

/** Seconds as milliseconds by their digits: 1276020076.001 s is 1276020076001 ms. */
function milliseconds(seconds: number): number {
  const digits = digitsOfNumber(seconds);
  return digits === null ? seconds * 1000 : Number(`${digits.mantissa}e${3 - digits.decimals}`);
}

function batchOf(
  channel: SenmlChannel,
  index: number,
  channels: number,
  nowMs: number,
): Parameters<ReturnType<typeof collectRows>["sink"]["rows"]>[0] {
  const count = channel.rows.length;
  const own: ChannelBatch = {
    mantissas: new Float64Array(count),
    decimals: new Uint8Array(count),
    codes: new Uint8Array(count),
    present: new Uint8Array(count).fill(1),
  };
  const absent: ChannelBatch = { ...own, present: new Uint8Array(count) };
  const times = new Float64Array(count);
  const lines = new Uint32Array(count);
  channel.rows.forEach(({ seconds, record, mantissa, decimals, code }, row) => {
    times[row] = milliseconds(seconds) + (seconds >= FIRST_ABSOLUTE_SECOND ? 0 : nowMs);
    lines[row] = record;
    own.mantissas[row] = mantissa;
    own.decimals[row] = decimals;
    own.codes[row] = code;
  });
  return { count, lines, times, series: null, channels: Array.from({ length: channels }, (_, other) => (other === index ? own : absent)) };
}
