/** Figures with their units: one value, a range, a duration, a time on the file's clock. */
import type { Range } from "../core/finding.ts";
import { decimalsFor, exactText, NARROW_SPACE, type Rounding, roundedText } from "./digits.ts";

/** The three ends of a range, each a text; null where it is open or cannot be given. */
export interface RangeFigures {
  readonly low: string;
  readonly best: string | null;
  readonly high: string | null;
}

/**
 * A range, each end at three significant digits of its own, bounds outward, none across the limit. How one number is
 * shown so never hangs on what stands beside it. A best figure that is only the upper bound again (a declared worst
 * case) is none.
 *
 * @example
 * ```ts
 * import { rangeFigures } from "./figure.ts";
 * rangeFigures({ low: 28.34, best: 31.02, high: 33.61 }, 35); // => { "low": "28.3", "best": "31.0", "high": "33.7" }
 * rangeFigures({ low: 14.9, best: null, high: null }, 50); // => { "low": "14.9", "best": null, "high": null }
 * rangeFigures({ low: 0.02541, best: 120, high: 120 }, 50); // => { "low": "0.0254", "best": null, "high": "120" }
 * ```
 */
export function rangeFigures({ low, best, high }: Range, limit: number | null): RangeFigures {
  return {
    low: figureText(low, "down", limit),
    best: best === null || (best === high && low !== high) ? null : figureText(best, "nearest", limit),
    high: high === null ? null : figureText(high, "up", limit),
  };
}

/** Three significant digits, and as many more as it takes to stay on its own side of the limit. */
export function figureText(value: number, rounding: Rounding, limit: number | null): string {
  return roundedText(value, decimalsFor([value]), rounding, limit);
}

/**
 * A range in words: one figure where both ends agree, "28.3 to 33.7", "14.9 to open".
 *
 * @example
 * ```ts
 * import { rangeText } from "./figure.ts";
 * rangeText({ low: 12.5, best: 12.5, high: 12.5 }, null, "ppm"); // => "12.5\u202fppm"
 * rangeText({ low: 14.9, best: null, high: null }, 50, "ppm"); // => "14.9 to open\u202fppm"
 * rangeText({ low: 28.34, best: 31.02, high: 33.61 }, 35, "ppm"); // => "31.0\u202fppm, 28.3 to 33.7"
 * ```
 */
export function rangeText(range: Range, limit: number | null, unit: string | null): string {
  const figures = rangeFigures(range, limit);
  if (figures.high === null) return withUnit(`${figures.low} to open`, unit);
  if (range.low === range.high) return withUnit(knownText(range.low, limit), unit);
  if (figures.low === figures.high) return withUnit(figures.low, unit);
  const bounds = `${figures.low} to ${figures.high}`;
  return figures.best === null ? withUnit(bounds, unit) : `${withUnit(figures.best, unit)}, ${bounds}`;
}

/** A value that is known on both ends: to the nearest, never across the limit. */
export function knownText(value: number, limit: number | null): string {
  return figureText(value, "nearest", limit);
}

/** A published or logged value with all its digits. */
export function valueText(value: number, unit: string | null): string {
  return withUnit(exactText(value), unit);
}

/** Digits beyond this many of a computed value say nothing about air. */
const MOST_DIGITS = 6;

/**
 * A computed value: all its digits where they are few, else four significant ones or more.
 *
 * @example
 * ```ts
 * import { computedText } from "./figure.ts";
 * computedText(57.280163599182, "mg/m3"); // => "57.28\u202fmg/m³"
 * computedText(209000, "ppm"); // => "209\u202f000\u202fppm"
 * ```
 */
export function computedText(value: number, unit: string | null): string {
  const digits = exactText(value)
    .replace(/[^0-9]/g, "")
    .replace(/^0+/, "");
  return digits.length <= MOST_DIGITS
    ? valueText(value, unit)
    : withUnit(roundedText(value, decimalsFor([value]) + 1, "nearest", null), unit);
}

/** The unit as people write it, after a narrow space that copies with the figure. */
export function withUnit(figure: string, unit: string | null): string {
  return unit === null ? figure : `${figure}${NARROW_SPACE}${unitText(unit)}`;
}

const UNIT_WORDS: Readonly<Record<string, string>> = { "vol%": "vol %", "mg/m3": "mg/m³", "ug/m3": "µg/m³", "%LEL": "%LEL" };

export function unitText(unit: string): string {
  return UNIT_WORDS[unit] ?? unit;
}

/**
 * Seconds as a person says them.
 *
 * @example
 * ```ts
 * import { durationText } from "./figure.ts";
 * durationText(70); // => "70\u202fs"
 * durationText(5400); // => "1\u202fh 30\u202fmin"
 * durationText(600); // => "10\u202fmin"
 * ```
 */
export function durationText(seconds: number): string {
  if (seconds < 100) return withUnit(exactText(Math.round(seconds * 1000) / 1000), "s");
  const whole = Math.round(seconds);
  const parts: readonly (readonly [number, string])[] = [
    [Math.floor(whole / 3600), "h"],
    [Math.floor((whole % 3600) / 60), "min"],
    [whole % 60, "s"],
  ];
  const said = parts.filter(([amount]) => amount > 0).map(([amount, unit]) => withUnit(String(amount), unit));
  return said.join(" ");
}
