import type { GasId } from "../gas/limit.ts";
import type { KindChooser, ReadingKind } from "../quantity/reading-kind.ts";
import type { Unit } from "../quantity/unit.ts";

/** What a reading is, one code a reading. The codes are part of the derived form and never change meaning. */
export const READING = {
  valid: 0,
  /** The true value is at least the stored one (range top, or the bound that the file gives). */
  overRange: 1,
  /** The true value is at most the stored one. */
  underRange: 2,
  /** A row stands in the file, and says that there was no reading: a gap. */
  none: 3,
  /** The instrument said that it was faulty, warming up, or off: a gap. */
  fault: 4,
  /** Over range, and neither file nor person gives the range top: at least zero. */
  overRangeUnbounded: 5,
} as const;
export type ReadingCode = (typeof READING)[keyof typeof READING];

/** Whether the clock of a recording is tied to the world or only counts from its own start. */
export type ClockBasis = { readonly kind: "instants"; readonly zone: string | null } | { readonly kind: "elapsed" };

/**
 * One channel of one recording. Values are whole numbers of steps, a step being 10^-decimals of the unit: the
 * digits as shown, so that sums are exact. Rows stand in rising order of time, one row an instant.
 */
export interface Channel {
  /** The label in the file. */
  readonly name: string;
  /** Where one file holds several series (a test number, a serial): which one; else null. */
  readonly series: { readonly label: string; readonly value: string } | null;
  readonly gas: GasId | null;
  readonly unit: Unit | null;
  readonly kind: ReadingKind;
  /** Left out = "default": nobody said it, and the finding must say that it was assumed. */
  readonly kindChosenBy?: KindChooser;
  readonly decimals: number;
  /** Milliseconds: instants, or since the start where the clock basis is "elapsed". Strictly rising. */
  readonly times: Float64Array;
  /** Steps; the lower of two where two readings claim one instant. |value| < 2^31 - 1. */
  readonly values: Int32Array;
  /** Upper steps where they differ from `values` (conflict, or digits finer than a step rounded outward); else null. */
  readonly uppers: Int32Array | null;
  /** One READING code a row; null = all valid. */
  readonly codes: Uint8Array | null;
  /** Line of the file of each row, counted from 1; null where made by hand. */
  readonly lines: Uint32Array | null;
  /** Range top in steps, if the file, the model or a person gives one. */
  readonly rangeTop: number | null;
}

export interface Recording {
  readonly file: string;
  readonly sha256: string;
  readonly clock: ClockBasis;
  readonly channels: readonly Channel[];
  /** Lines kept as notes: preamble, comments, footer. */
  readonly notes: readonly { readonly line: number; readonly text: string }[];
  /** The file ends inside a line, so the end of the recording is not known. */
  readonly cutOff: boolean;
}
