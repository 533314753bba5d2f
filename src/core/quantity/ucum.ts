import { given, type Result, refused } from "../result.ts";
import { scaleByPowerOfTen } from "./decimal.ts";

/** A UCUM code that Lamproom reads. The table is of our own making; it is not a copy of the UCUM essence file. */
export interface UcumCode {
  readonly code: string;
  readonly meaning: string;
  /** Codes of one dimension convert into one another. Per cent of LEL stands apart although UCUM calls it a per cent. */
  readonly dimension: string;
  /** One of this is numerator / denominator of the base of its dimension. */
  readonly numerator: number;
  readonly denominator: number;
  readonly offset: number;
  /** False: read it, never write it. */
  readonly mayEmit: boolean;
}

const row = (
  code: string,
  meaning: string,
  dimension: string,
  numerator = 1,
  denominator = 1,
  more: { readonly offset?: number; readonly mayEmit?: boolean } = {},
): UcumCode => ({
  code,
  meaning,
  dimension,
  numerator,
  denominator,
  offset: more.offset ?? 0,
  mayEmit: more.mayEmit ?? true,
});

/**
 * The codes in use. Source: The Unified Code for Units of Measure, version 2.2, 2024-06-17 (read). UCUM is copyright
 * of the Regenstrief Institute and the UCUM Organization; codes keep the meaning given there.
 */
export const UCUM_CODES: readonly UcumCode[] = [
  row("[ppm]", "parts per million", "fraction", 1, 1e6),
  row("[ppb]", "parts per billion", "fraction", 1, 1e9, { mayEmit: false }),
  row("10*-6", "parts in 10^6", "fraction", 1, 1e6),
  row("10*-9", "parts in 10^9", "fraction", 1, 1e9),
  row("%", "per cent", "fraction", 1, 100),
  row("10*-2", "per cent", "fraction", 1, 100),
  row("%{vol}", "per cent by volume", "fraction", 1, 100),
  row("mol/mol", "amount fraction", "fraction"),
  row("%{LEL}", "per cent of the lower explosive limit", "fraction of LEL", 1, 100, { mayEmit: false }),
  row("mg/m3", "milligram per cubic metre", "mass concentration"),
  row("ug/m3", "microgram per cubic metre", "mass concentration", 1, 1000),
  row("K", "kelvin", "temperature"),
  row("Cel", "degree Celsius", "temperature", 1, 1, { offset: 273.15 }),
  row("Pa", "pascal", "pressure"),
  row("hPa", "hectopascal", "pressure", 100),
  row("kPa", "kilopascal", "pressure", 1000),
  row("bar", "bar", "pressure", 100_000),
  row("s", "second", "time"),
  row("min", "minute", "time", 60),
  row("h", "hour", "time", 3600),
  row("mL/min", "millilitre per minute", "flow", 1, 1000),
  row("L/min", "litre per minute", "flow"),
  row("m3/h", "cubic metre per hour", "flow", 1000, 60),
  row("[ppm].h", "parts per million times hour", "dose"),
  row("S", "siemens", "conductance"),
];

const codes: ReadonlyMap<string, UcumCode> = new Map(UCUM_CODES.map((code) => [code.code, code]));

export type UcumRefusal =
  | { readonly type: "unknown-ucum-code"; readonly code: string }
  /** ppm to mg/m3 needs a molar mass, %LEL to vol % a gas and a basis: no conversion of units. */
  | { readonly type: "different-dimensions"; readonly first: string; readonly second: string };

/**
 * The meaning of a code, case-sensitive; null where it is not one of those in use (`ppm`, `mg/m^3`, `degC`, `%LEL`
 * and `µg/m3` are no UCUM codes).
 *
 * @example
 * ```ts
 * import { ucumCode } from "./ucum.ts";
 * ucumCode("S")?.meaning; // => "siemens"
 * ucumCode("mg/m^3"); // => null
 * ```
 */
export const ucumCode = (code: string): UcumCode | null => codes.get(code) ?? null;

/**
 * A value in another code of the same dimension: v2 = (v1 + o1) n1 d2 / (d1 n2) - o2, with the numerator n, the
 * denominator d and the offset o of each code.
 *
 * @param value finite
 * @param from code of the value
 * @param to code wanted
 * @returns refused: a code that is not in the table; codes of different dimensions
 * @example
 * ```ts
 * import { convertUcum } from "./ucum.ts";
 * convertUcum(20.9, "%", "[ppm]"); // => { "ok": true, "value": 209000 }
 * convertUcum(10, "%{LEL}", "%{vol}"); // => { "ok": false, "refusal": { "type": "different-dimensions", "first": "%{LEL}", "second": "%{vol}" } }
 * ```
 */
export function convertUcum(value: number, from: string, to: string): Result<number, UcumRefusal> {
  const first = ucumCode(from);
  if (first === null) return refused({ type: "unknown-ucum-code", code: from });
  const second = ucumCode(to);
  if (second === null) return refused({ type: "unknown-ucum-code", code: to });
  if (first.dimension !== second.dimension) return refused({ type: "different-dimensions", first: from, second: to });
  return given(scaled(value + first.offset, first.numerator * second.denominator, first.denominator * second.numerator) - second.offset);
}

/** Multiplies by a ratio; a ratio that is a power of ten only moves the decimal point. */
function scaled(value: number, numerator: number, denominator: number): number {
  const exponent = Math.round(Math.log10(numerator / denominator));
  const isPowerOfTen = exponent >= 0 ? numerator === denominator * 10 ** exponent : numerator * 10 ** -exponent === denominator;
  return isPowerOfTen ? scaleByPowerOfTen(value, exponent) : (value * numerator) / denominator;
}
