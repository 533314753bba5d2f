/** Resolving a SenML pack: base fields joined in, names and versions checked, records in order of time. RFC 8428, RFC 9100. */
import { given, type Result, refused } from "../../result.ts";
import { digitsOfNumber, powerOfTen } from "../display-step.ts";
import { bytesFromBase64Url } from "./base64-url.ts";
import { jsonFault, type TextPlace } from "./json-fault.ts";

export type SenmlValue =
  | { readonly kind: "number"; readonly number: number }
  | { readonly kind: "text"; readonly text: string }
  | { readonly kind: "truth"; readonly truth: boolean }
  | { readonly kind: "bytes"; readonly bytes: Uint8Array };

export interface SenmlRecord {
  /** Base name and name joined. */
  readonly name: string;
  readonly unit: string | null;
  /** Seconds: Unix time, or relative to now (negative = past) where `time` of the pack says so. */
  readonly seconds: number;
  readonly value: SenmlValue | null;
  readonly sum: number | null;
  readonly updateSeconds: number | null;
  /** Place in the pack, counted from 1. */
  readonly record: number;
}

export interface SenmlPack {
  readonly records: readonly SenmlRecord[];
  /** "mixed": some records are relative to now and some are absolute; null without records. */
  readonly time: "absolute" | "relative" | "mixed" | null;
  /** Whether the version allows secondary units. */
  readonly secondaryUnits: boolean;
}

export type SenmlFault =
  | "not JSON"
  | "not an array"
  | "a record is no object"
  | "wrong type of field"
  | "version not known"
  | "versions differ"
  | "label that must be understood"
  | "name not allowed"
  | "no value and no sum"
  | "several values"
  | "data not base64url"
  | "time not finite"
  | "times relative and absolute";

export interface SenmlRefusal {
  readonly type: "senml-not-readable";
  /** Record at fault, counted from 1; null = the pack as a whole. */
  readonly record: number | null;
  readonly why: SenmlFault;
  /** Label, name or number that it is about. */
  readonly text: string | null;
  /** Where the text stops being JSON; only with "not JSON". */
  readonly at?: TextPlace;
}

export interface SenmlReading {
  /** Reads versions below 10, which are older than the rule that a version is a set of features. */
  readonly legacyVersions: boolean;
  /** Whether this reader knows secondary units (feature 4, RFC 9100). */
  readonly secondaryUnits: boolean;
}

export const SENML_READING: SenmlReading = { legacyVersions: false, secondaryUnits: true };

/** Sums of seconds from here on are Unix time: 1978-07-04T21:24:16Z. RFC 8428 section 4.5.3 [read]. */
export const FIRST_ABSOLUTE_SECOND = 2 ** 28;

/**
 * Resolves a pack: every base field holds from its record on, until it appears again. Name = bn + n, time = bt + t,
 * value = bv + v, sum = bs + s, unit = u or else bu. Sums of decimal digits are exact.
 *
 * @param pack parsed JSON
 * @param reading what this reader takes
 * Refuses the whole pack: an unknown version, an unknown label that ends in `_`, a name that is not allowed, a record
 * with neither value nor sum or with several values, a field of the wrong type.
 * @example
 * ```ts
 * import { resolveSenml, SENML_READING } from "./senml-pack.ts";
 * const pack = resolveSenml([{ bn: "works:", bt: 1772609400, n: "co", u: "/", v: 3.5e-5 }, { n: "co", t: -60, v: 2e-6 }], SENML_READING);
 * pack.ok && pack.value.records.map(({ seconds }) => seconds); // => [1772609340, 1772609400]
 * ```
 * Source: RFC 8428 sections 4.1 to 4.6, RFC 9100 section 2.
 */
export function resolveSenml(pack: unknown, reading: SenmlReading): Result<SenmlPack, SenmlRefusal> {
  if (!Array.isArray(pack)) return fault(null, "not an array");
  const base: Base = { bn: "", bt: 0, bu: null, bv: 0, bs: 0, bver: null };
  const records: SenmlRecord[] = [];
  for (const [index, fields] of pack.entries()) {
    const record = resolvedRecord(fields, index + 1, base, reading);
    if (!record.ok) return record;
    if (record.value !== null) records.push(record.value);
  }
  records.sort((one, other) => one.seconds - other.seconds || one.record - other.record);
  return given({ records, time: timeOf(records), secondaryUnits: ((base.bver ?? 10) & SECONDARY_UNITS) !== 0 });
}

/**
 * Reads and resolves a pack from its JSON text.
 *
 * Refuses text that is no JSON, and what `resolveSenml` refuses.
 * @example
 * ```ts
 * import { resolveSenmlText, SENML_READING } from "./senml-pack.ts";
 * const pack = resolveSenmlText('[{"n":"works:co","v":1,"quality_":"x"}]', SENML_READING);
 * pack.ok ? null : pack.refusal.why; // => "label that must be understood"
 * ```
 * Source: RFC 8428 section 5.
 */
export function resolveSenmlText(text: string, reading: SenmlReading): Result<SenmlPack, SenmlRefusal> {
  let pack: unknown;
  try {
    pack = JSON.parse(text);
  } catch (error) {
    if (!(error instanceof SyntaxError)) throw error;
    const at = jsonFault(text);
    return refused({ type: "senml-not-readable", record: null, why: "not JSON", text: null, ...(at === null ? {} : { at }) });
  }
  return resolveSenml(pack, reading);
}

const SECONDARY_UNITS = 16;

interface Base {
  bn: string;
  bt: number;
  bu: string | null;
  bv: number;
  bs: number;
  bver: number | null;
}

const KINDS: Readonly<Record<string, "string" | "number" | "boolean">> = {
  bn: "string",
  bt: "number",
  bu: "string",
  bv: "number",
  bs: "number",
  bver: "number",
  n: "string",
  u: "string",
  v: "number",
  vs: "string",
  vb: "boolean",
  vd: "string",
  s: "number",
  t: "number",
  ut: "number",
};

interface Fields {
  readonly bn?: string;
  readonly bt?: number;
  readonly bu?: string;
  readonly bv?: number;
  readonly bs?: number;
  readonly bver?: number;
  readonly n?: string;
  readonly u?: string;
  readonly v?: number;
  readonly vs?: string;
  readonly vb?: boolean;
  readonly vd?: string;
  readonly s?: number;
  readonly t?: number;
  readonly ut?: number;
}

function fault(record: number | null, why: SenmlFault, text: string | null = null): { readonly ok: false; readonly refusal: SenmlRefusal } {
  return refused({ type: "senml-not-readable", record, why, text });
}

/** Null for a record that only sets base fields. */
function resolvedRecord(fields: unknown, record: number, base: Base, reading: SenmlReading): Result<SenmlRecord | null, SenmlRefusal> {
  const checked = checkedFields(fields, record);
  if (!checked.ok) return checked;
  const own = checked.value;
  const version = versionFault(own.bver, record, base, reading);
  if (version !== null) return version;
  base.bn = own.bn ?? base.bn;
  base.bt = own.bt ?? base.bt;
  base.bu = own.bu ?? base.bu;
  base.bv = own.bv ?? base.bv;
  base.bs = own.bs ?? base.bs;
  base.bver = own.bver ?? base.bver ?? 10;
  const values = [own.v, own.vs, own.vb, own.vd].filter((value) => value !== undefined);
  if (values.length > 1) return fault(record, "several values");
  if (values.length === 0 && own.s === undefined)
    return isBaseOnly(own) ? given(null) : fault(record, "no value and no sum", own.n ?? null);
  const name = base.bn + (own.n ?? "");
  if (!NAME.test(name)) return fault(record, "name not allowed", name);
  const value = recordValue(own, base, record);
  if (!value.ok) return value;
  const seconds = exactSum(base.bt, own.t ?? 0);
  if (!Number.isFinite(seconds)) return fault(record, "time not finite");
  const sum = own.s === undefined ? null : exactSum(base.bs, own.s);
  return given({ name, unit: own.u ?? base.bu, seconds, value: value.value, sum, updateSeconds: own.ut ?? null, record });
}

/** Letters, digits and - : . / _ , beginning with a letter or digit: the joined name counts. RFC 8428 section 4.5.1 [read]. */
const NAME = /^[A-Za-z0-9][A-Za-z0-9\-:./_]*$/;

/**
 * Whether a joined name is allowed.
 *
 * @example
 * ```ts
 * import { isSenmlName } from "./senml-pack.ts";
 * isSenmlName("2001:db8::1/humidity"); // => true
 * isSenmlName("_x"); // => false
 * ```
 * Source: RFC 8428 section 4.5.1.
 */
export function isSenmlName(name: string): boolean {
  return NAME.test(name);
}

function checkedFields(fields: unknown, record: number): Result<Fields, SenmlRefusal> {
  if (typeof fields !== "object" || fields === null || Array.isArray(fields)) return fault(record, "a record is no object");
  for (const [label, value] of Object.entries(fields)) {
    const kind = Object.hasOwn(KINDS, label) ? KINDS[label] : undefined;
    if (kind === undefined && label.endsWith("_")) return fault(record, "label that must be understood", label);
    if (kind !== undefined && typeof value !== kind) return fault(record, "wrong type of field", label);
  }
  return given(fields as Fields); // every known label was checked above
}

function versionFault(bver: number | undefined, record: number, base: Base, reading: SenmlReading): ReturnType<typeof fault> | null {
  if (bver === undefined) return null;
  if (base.bver !== null && bver !== base.bver) return fault(record, "versions differ", `${base.bver}, ${bver}`);
  return isVersionKnown(bver, reading) ? null : fault(record, "version not known", String(bver));
}

/**
 * Whether a reader may take a version: the low four bits are 1010 and every further bit is a feature it knows.
 *
 * @param version `bver`, whole
 * @example
 * ```ts
 * import { isVersionKnown, SENML_READING } from "./senml-pack.ts";
 * [10, 26, 42].map((version) => isVersionKnown(version, SENML_READING)); // => [true, true, false]
 * ```
 * Source: RFC 9100 section 2.
 */
export function isVersionKnown(version: number, reading: SenmlReading): boolean {
  if (!Number.isInteger(version) || version < 1 || version >= 2 ** 31) return false;
  if (version < 10) return reading.legacyVersions;
  const features = version & ~15;
  return (version & 15) === 10 && (features & ~(reading.secondaryUnits ? SECONDARY_UNITS : 0)) === 0;
}

function isBaseOnly(own: Fields): boolean {
  const isBase = (label: string) => label.startsWith("b") && Object.hasOwn(KINDS, label);
  return Object.keys(own).length > 0 && Object.keys(own).every(isBase);
}

function recordValue(own: Fields, base: Base, record: number): Result<SenmlValue | null, SenmlRefusal> {
  if (own.v !== undefined) return given({ kind: "number", number: exactSum(base.bv, own.v) });
  if (own.vs !== undefined) return given({ kind: "text", text: own.vs });
  if (own.vb !== undefined) return given({ kind: "truth", truth: own.vb });
  if (own.vd === undefined) return given(null);
  const bytes = bytesFromBase64Url(own.vd);
  return bytes === null ? fault(record, "data not base64url") : given({ kind: "bytes", bytes });
}

/** Sum of two numbers as their digits are written: 20 + 0.9 is 20.9, where doubles would give a neighbour now and then. */
function exactSum(one: number, other: number): number {
  if (one === 0) return other;
  if (other === 0) return one;
  const first = digitsOfNumber(one);
  const second = digitsOfNumber(other);
  if (first === null || second === null) return one + other;
  const decimals = Math.max(first.decimals, second.decimals);
  const sum = first.mantissa * powerOfTen(decimals - first.decimals) + second.mantissa * powerOfTen(decimals - second.decimals);
  return Number.isSafeInteger(sum) ? Number(`${sum}e-${decimals}`) : one + other;
}

function timeOf(records: readonly SenmlRecord[]): SenmlPack["time"] {
  const absolute = records.reduce((count, { seconds }) => count + (seconds >= FIRST_ABSOLUTE_SECOND ? 1 : 0), 0);
  if (records.length === 0) return null;
  if (absolute === 0) return "relative";
  return absolute === records.length ? "absolute" : "mixed";
}
