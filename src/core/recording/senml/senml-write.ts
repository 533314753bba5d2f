/** A recording as a SenML pack: a projection, since SenML has no place for ranges, uncertainty or alarms. */
import type { Unit } from "../../quantity/unit.ts";
import { given, type Result, refused } from "../../result.ts";
import { type Channel, READING, type Recording } from "../channel.ts";
import { FIRST_ABSOLUTE_SECOND } from "./senml-pack.ts";
import { FLAG_SUFFIX, LEL_SUFFIX } from "./senml-recording.ts";
import { senmlUnit } from "./senml-unit.ts";

export interface SenmlWriting {
  /** Begins every name: letters, digits and - : . / _ , first a letter or digit. */
  readonly baseName: string;
  /** "primary": ratios and kg/m3, which any reader knows. "secondary": ppm, /100, ug/m3, which need version 26. */
  readonly units: "primary" | "secondary";
}

/** One record as it is written, before `JSON.stringify`. */
export type SenmlFields = Readonly<Record<string, string | number>>;

export type SenmlWriteRefusal =
  | { readonly type: "recording-without-instants" }
  | { readonly type: "recording-before-1978-07-04" }
  | { readonly type: "channel-without-unit"; readonly channel: string }
  | { readonly type: "name-not-allowed"; readonly name: string };

export interface SenmlProjection {
  readonly pack: readonly SenmlFields[];
  /** Name in the pack by number of the channel. */
  readonly names: readonly string[];
}

/** Unit and by how many places the point moves left. */
const UNITS: Readonly<Record<Unit, { readonly primary: readonly [string, number]; readonly secondary: readonly [string, number] }>> = {
  ppm: { primary: ["/", 6], secondary: ["ppm", 0] },
  ppb: { primary: ["/", 9], secondary: ["ppm", 3] },
  "vol%": { primary: ["/", 2], secondary: ["/100", 0] },
  "mol/mol": { primary: ["/", 0], secondary: ["/", 0] },
  "%LEL": { primary: ["/", 2], secondary: ["/100", 0] },
  "mg/m3": { primary: ["kg/m3", 6], secondary: ["ug/m3", -3] },
  "ug/m3": { primary: ["kg/m3", 9], secondary: ["ug/m3", 0] },
};

/**
 * The version that a pack of these units needs: 26 where one of them is secondary, else none is written (10).
 *
 * @example
 * ```ts
 * import { versionFor } from "./senml-write.ts";
 * [versionFor(["/", "Cel"]), versionFor(["ppm", "Cel"])]; // => [null, 26]
 * ```
 * Source: RFC 8428 section 4.4, RFC 9100 section 3.
 */
export function versionFor(units: readonly string[]): number | null {
  return units.some((unit) => senmlUnit(unit)?.secondary === true) ? 26 : null;
}

/**
 * A recording as SenML records, one a reading, in order of channels and time. A reading that is no plain number
 * (over or under range, no reading, fault, two readings of one instant) is text in a companion record whose name ends
 * in `:flag`, never an invented number.
 *
 * @param recording on instants from 1978-07-04T21:24:16Z on: earlier sums of seconds would mean "relative to now"
 * @param writing base name and choice of units
 * Refuses a recording that only counts from its own start, one before that second, a channel without a unit, and a
 * base name with signs that SenML does not allow.
 * @example
 * ```ts
 * import { senmlFromRecording } from "./senml-write.ts";
 * const channel = { name: "CO", series: null, gas: null, unit: "ppm", kind: "spot", decimals: 1, times: Float64Array.of(1772609400000),
 *   values: Int32Array.of(355), uppers: null, codes: null, lines: null, rangeTop: null } as const;
 * const recording = { file: "", sha256: "", clock: { kind: "instants", zone: null }, channels: [channel], notes: [], cutOff: false } as const;
 * const made = senmlFromRecording(recording, { baseName: "marl-beck:", units: "secondary" });
 * made.ok && made.value.pack; // => [{ "bver": 26, "bn": "marl-beck:", "bt": 1772609400, "n": "CO", "u": "ppm", "t": 0, "v": 35.5 }]
 * ```
 * Source: RFC 8428 section 4, RFC 8798 section 3; names of companion records are ours.
 */
export function senmlFromRecording(recording: Recording, writing: SenmlWriting): Result<SenmlProjection, SenmlWriteRefusal> {
  if (recording.clock.kind === "elapsed") return refused({ type: "recording-without-instants" });
  if (!/^[A-Za-z0-9][A-Za-z0-9\-:./_]*$/.test(writing.baseName)) return refused({ type: "name-not-allowed", name: writing.baseName });
  const firstMs = Math.min(...recording.channels.map(({ times }) => times[0] ?? Infinity));
  if (firstMs < FIRST_ABSOLUTE_SECOND * 1000) return refused({ type: "recording-before-1978-07-04" });
  const names = channelNames(recording.channels);
  const pack: Record<string, string | number>[] = [];
  const units: string[] = [];
  for (const [index, channel] of recording.channels.entries()) {
    if (channel.unit === null) return refused({ type: "channel-without-unit", channel: channel.name });
    const [unit, places] = UNITS[channel.unit][writing.units];
    units.push(unit);
    addReadings(pack, channel, names[index] ?? "", unit, places, firstMs);
  }
  const [first] = pack;
  if (first !== undefined) {
    const version = versionFor(units);
    pack[0] = { ...(version === null ? {} : { bver: version }), bn: writing.baseName, bt: seconds(firstMs), ...first };
  }
  return given({ pack, names });
}

/** Names that SenML allows, told apart where two channels would have the same. */
function channelNames(channels: readonly Channel[]): string[] {
  const names: string[] = [];
  for (const { name, series, unit } of channels) {
    const plain = `${series === null ? "" : `${series.value}:`}${name}`.replace(/[^A-Za-z0-9\-:./_]+/g, "-");
    const suffix = unit === "%LEL" ? LEL_SUFFIX : "";
    let unique = plain + suffix;
    for (let number = 2; names.includes(unique); number += 1) unique = `${plain}:${number}${suffix}`;
    names.push(unique);
  }
  return names;
}

function addReadings(
  pack: Record<string, string | number>[],
  channel: Channel,
  name: string,
  unit: string,
  places: number,
  firstMs: number,
): void {
  const { times, values, uppers, codes, decimals } = channel;
  const inUnit = (steps: number) => Number(`${steps}e${-decimals - places}`);
  for (let row = 0; row < times.length; row += 1) {
    const t = seconds((times[row] ?? 0) - firstMs);
    const value = values[row] ?? 0;
    const upper = uppers?.[row] ?? value;
    const code = codes?.[row] ?? READING.valid;
    const flag = flagOf(code, inUnit(value), inUnit(upper), upper !== value);
    if (flag === null) pack.push({ n: name, u: unit, t, v: inUnit(value) });
    else pack.push({ n: name + FLAG_SUFFIX, u: unit, t, vs: flag });
  }
}

function flagOf(code: number, value: number, upper: number, isInterval: boolean): string | null {
  if (code === READING.none) return "no-reading";
  if (code === READING.fault) return "fault";
  if (code === READING.overRange) return `over-range >= ${value}`;
  if (code === READING.overRangeUnbounded) return "over-range";
  if (code === READING.underRange) return `under-range <= ${upper}`;
  return isInterval ? `between ${value} and ${upper}` : null;
}

function seconds(ms: number): number {
  return Number(`${ms}e-3`);
}
