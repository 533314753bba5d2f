/**
 * Units of SenML: which are registered, and what a secondary unit is in its primary one. Registered is not the same as
 * usable: `%` is an old name of the ratio `/`, so that 20.9 % is 2090 per cent, and `%EL` is a battery level.
 */

/** In primary units: value x factor + offset. */
export interface SenmlUnit {
  readonly primary: string;
  readonly factor: number;
  readonly offset: number;
  /** Secondary units may only stand in packs of a version that says so (`bver` 26). */
  readonly secondary: boolean;
}

/** RFC 8428 section 12.1 and RFC 8798 section 2; the ones that gas readings and this room use are read, the rest recalled. [memory] */
const PRIMARY = (
  "m kg g s A K cd mol Hz rad sr N Pa J W C V F Ohm S Wb T H Cel lm lx Bq Gy Sv kat m2 m3 l m/s m/s2 m3/s l/s W/m2 cd/m2 bit bit/s " +
  "lat lon pH dB dBW Bspl count / % %RH %EL EL 1/s 1/min beat/min beats S/m B VA VAs var vars J/m kg/m3 deg NTU"
).split(" ");

/** RFC 8798 section 3. Read: ppm, /100, /1000, ug/m3, hPa; the others recalled. [memory] */
const SECONDARY: Readonly<Record<string, readonly [primary: string, factor: number, offset?: number]>> = {
  ppm: ["/", 1e-6],
  "/100": ["/", 1e-2],
  "/1000": ["/", 1e-3],
  "ug/m3": ["kg/m3", 1e-9],
  hPa: ["Pa", 100],
  ms: ["s", 1e-3],
  min: ["s", 60],
  h: ["s", 3600],
  MHz: ["Hz", 1e6],
  kW: ["W", 1e3],
  kVA: ["VA", 1e3],
  kvar: ["var", 1e3],
  Ah: ["C", 3600],
  Wh: ["J", 3600],
  kWh: ["J", 3.6e6],
  varh: ["vars", 3600],
  kvarh: ["vars", 3.6e6],
  kVAh: ["VAs", 3.6e6],
  "Wh/km": ["J/m", 3.6],
  KiB: ["B", 1024],
  GB: ["B", 1e9],
  "Mbit/s": ["bit/s", 1e6],
  "B/s": ["bit/s", 8],
  "MB/s": ["bit/s", 8e6],
  mV: ["V", 1e-3],
  mA: ["A", 1e-3],
  dBm: ["dBW", 1, -30],
  "mm/h": ["m/s", 1 / 3.6e6],
  "m/h": ["m/s", 1 / 3600],
  mm: ["m", 1e-3],
  cm: ["m", 1e-2],
  km: ["m", 1e3],
  "km/h": ["m/s", 1 / 3.6],
};

/**
 * A registered unit of SenML; null where the text is none (`ppb`, `mg/m3`, `%LEL` and `%vol` are not).
 *
 * @example
 * ```ts
 * import { senmlUnit } from "./senml-unit.ts";
 * senmlUnit("/100"); // => { "primary": "/", "factor": 0.01, "offset": 0, "secondary": true }
 * senmlUnit("%"); // => { "primary": "/", "factor": 1, "offset": 0, "secondary": false }
 * senmlUnit("%LEL"); // => null
 * ```
 * Source: RFC 8428 section 12.1, RFC 8798 sections 2 and 3.
 */
export function senmlUnit(unit: string): SenmlUnit | null {
  if (unit === "%") return { primary: "/", factor: 1, offset: 0, secondary: false };
  if (PRIMARY.includes(unit)) return { primary: unit, factor: 1, offset: 0, secondary: false };
  const secondary = Object.hasOwn(SECONDARY, unit) ? SECONDARY[unit] : undefined;
  if (secondary === undefined) return null;
  const [primary, factor, offset = 0] = secondary;
  return { primary, factor, offset, secondary: true };
}

/**
 * A value in the primary unit: value x factor + offset. Null for a unit that is not registered.
 *
 * @param value in `unit`
 * @example
 * ```ts
 * import { inPrimaryUnit } from "./senml-unit.ts";
 * inPrimaryUnit(1013.25, "hPa"); // => { "value": 101325, "unit": "Pa" }
 * inPrimaryUnit(30, "dBm"); // => { "value": 0, "unit": "dBW" }
 * ```
 * Source: RFC 8798 section 3 (scale and offset both count).
 */
export function inPrimaryUnit(value: number, unit: string): { readonly value: number; readonly unit: string } | null {
  const row = senmlUnit(unit);
  return row === null ? null : { value: value * row.factor + row.offset, unit: row.primary };
}
