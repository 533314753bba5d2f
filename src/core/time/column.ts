/** Whole columns of local times into instants, fast. */
import type { ZoneClock } from "./zone-clock.ts";

/** What the conversion could not settle by itself: rows of the hour that happens twice, and of the one that does not happen. */
export interface ColumnSeams {
  readonly twice: number;
  readonly missing: number;
}

/**
 * Local times into instants, in place or into another column. Rows of the hour that happens twice and of the hour that
 * does not happen become NaN and are counted; `steadySeriesInstants` settles what order can settle. NaN stays NaN.
 *
 * @param locals wall-clock milliseconds. @param clock of which zone. @param instants receives milliseconds; may be `locals`.
 * @example
 * ```ts
 * import { columnInstants } from "./column.ts";
 * import { zoneClock } from "./zone-clock.ts";
 * const clock = zoneClock("+02:00");
 * const instants = new Float64Array(1);
 * clock.ok && columnInstants(Float64Array.of(7_200_000), clock.value, instants); // => { twice: 0, missing: 0 }
 * instants[0]; // => 0
 * ```
 */
export function columnInstants(locals: Float64Array, clock: ZoneClock, instants: Float64Array): ColumnSeams {
  let twice = 0;
  let missing = 0;
  // The current piece is held in plain numbers: as long as a row stays inside it, a row costs two comparisons and a subtraction.
  let from = Number.POSITIVE_INFINITY;
  let to = Number.NEGATIVE_INFINITY;
  let offset = 0;
  let kind = 0;
  for (let row = 0; row < locals.length; row++) {
    const local = locals[row] as number; // row is below the length
    if (!(local >= from && local < to)) {
      if (Number.isNaN(local)) {
        instants[row] = Number.NaN;
        continue;
      }
      const piece = clock.pieceAt(local);
      ({ from, to } = piece);
      kind = piece.kind === "one" ? 0 : piece.kind === "two" ? 1 : 2;
      offset = piece.kind === "one" ? piece.offset : Number.NaN;
    }
    if (kind === 1) twice++;
    else if (kind === 2) missing++;
    instants[row] = local - offset;
  }
  return { twice, missing };
}
