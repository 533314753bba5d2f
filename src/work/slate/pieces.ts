/** Levels typed by hand as a signal that the exposure room computes with: the same exact arithmetic as for a recording. */
import { decimalFromNumber, scaleByPowerOfTen } from "../../core/quantity/index.ts";
import { OPEN, STRETCH, type TwoEdgedSignal } from "../../core/recording/index.ts";
import { given, type Result, refused } from "../../core/result.ts";
import type { Refusal } from "../../report/index.ts";
import { type Field, numberField, type SlateObject, type SlateValue } from "./description.ts";

export const PIECES: Field = {
  type: "rows",
  name: "pieces",
  title: "Pieces",
  says: "What was measured, piece by piece, in order of time.",
  required: true,
  fewest: 1,
  most: 500,
  fields: [
    numberField("minutes", "Minutes", "How long the piece lasted.", { above: 0, most: 1440, unit: "min" }),
    { ...numberField("level", "Level", "Average of the piece; left out where nothing was measured.", { least: 0 }), required: false },
  ],
};

export interface HandSignal {
  readonly signal: TwoEdgedSignal;
  readonly totalMs: number;
  /** Time without a level. */
  readonly unsampledMs: number;
}

export interface HandTime {
  /** Unsampled time after the pieces, minutes. */
  readonly unsampledMinutes: number;
  /** Worst level at any moment of all unsampled time; null = open. */
  readonly worst: number | null;
  readonly outside: TwoEdgedSignal["outside"];
}

const MINUTE_MS = 60_000;
const DAY_MINUTES = 1440;

/** Pieces one after the other, unsampled time last. Refused: more than a day, levels with more digits than can be summed exactly. */
export function handSignal(pieces: readonly SlateObject[], { unsampledMinutes, worst, outside }: HandTime): Result<HandSignal, Refusal> {
  const rows = pieces.map(({ minutes, level }) => ({ minutes: Number(minutes), level: numberOrNull(level) }));
  if (unsampledMinutes > 0) rows.push({ minutes: unsampledMinutes, level: null });
  const total = rows.reduce((sum, { minutes }) => sum + minutes, 0);
  if (total > DAY_MINUTES)
    return refused({
      type: "input-not-fitting",
      path: "pieces",
      found: `${total} minutes in all`,
      expected: "at most 1440 minutes, one day",
    });
  const decimals = decimalsOfAll([...rows.map(({ level }) => level), worst]);
  if (decimals === null) return refused({ type: "too-many-digits", text: rows.map(({ level }) => level ?? "").join(" ") });
  const steps = (level: number): number => Math.round(scaleByPowerOfTen(level, decimals));
  const edges = Float64Array.from({ length: rows.length + 1 }, () => 0);
  rows.forEach(({ minutes }, index) => {
    edges[index + 1] = (edges[index] ?? 0) + Math.max(1, Math.round(minutes * MINUTE_MS));
  });
  const low = Int32Array.from(rows, ({ level }) => (level === null ? 0 : steps(level)));
  const high = Int32Array.from(rows, ({ level }) => (level !== null ? steps(level) : worst === null ? OPEN : steps(worst)));
  const stretches = Uint8Array.from(rows, ({ level }) =>
    level !== null ? STRETCH.sampled : worst === null ? STRETCH.unsampled : STRETCH.declaredWorstCase,
  );
  const largest = Math.max(...low, ...high.filter((step) => step !== OPEN), 0);
  const unsampledMs = rows.reduce((sum, { level }, index) => sum + (level === null ? (edges[index + 1] ?? 0) - (edges[index] ?? 0) : 0), 0);
  const signal: TwoEdgedSignal = {
    decimals,
    timing: { kind: "uneven", edges },
    low,
    high: unsampledMs > 0 ? high : null,
    stretches: unsampledMs > 0 ? stretches : null,
    averageOnly: [],
    outside,
    largest,
  };
  return given({ signal, totalMs: edges[rows.length] ?? 0, unsampledMs });
}

export function numberOrNull(value: SlateValue | undefined): number | null {
  return typeof value === "number" ? value : null;
}

/** Rows of a field that was checked to hold rows. */
export function rowsOf(value: SlateValue | undefined): readonly SlateObject[] {
  return Array.isArray(value) ? value : [];
}

/** Greatest value in steps that a day of milliseconds can be multiplied with exactly: 2^53 / 86 400 000 is above 10^8. */
const MOST_STEPS = 100_000_000;

/** Decimals in which every level is a whole number of steps; null where they are too many. */
function decimalsOfAll(levels: readonly (number | null)[]): number | null {
  let decimals = 0;
  for (const level of levels) {
    if (level === null) continue;
    const digits = decimalFromNumber(level);
    if (!digits.ok) return null;
    decimals = Math.max(decimals, digits.value.decimals);
  }
  const greatest = Math.max(0, ...levels.map((level) => level ?? 0));
  return greatest * 10 ** decimals <= MOST_STEPS ? decimals : null;
}
