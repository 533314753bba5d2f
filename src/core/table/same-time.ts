/** Rows that claim an instant that an earlier row has: the same readings once more, or a conflict. */
import type { Batch, BatchSet } from "./batch.ts";

/** Rows that are remembered. Beyond them the room recording, which sees all rows, finds the rest. */
const MOST_REMEMBERED = 65_536;

export class SameTime {
  /** Null until the first row that does not come after all before it: plain files never pay for it. */
  private seen: Map<string, { line: number; readings: string }> | null = null;
  private upTo = 0;
  private readonly isLong: boolean;

  constructor(isLong: boolean) {
    this.isLong = isLong;
  }

  /** What an earlier row says of the same instant: its line, and whether it reads the same; null where there is none. */
  find(batch: Batch, row: number): { readonly line: number; readonly isSame: boolean } | null {
    this.catchUp(batch, row);
    const known = this.seen?.get(keyOf(batch.now, row, this.isLong));
    return known === undefined ? null : { line: known.line, isSame: known.readings === readingsOf(batch.now, row, this.isLong) };
  }

  private catchUp(batch: Batch, row: number): void {
    const seen = (this.seen ??= new Map());
    const { handedRows } = batch;
    const firstHeld = handedRows - batch.countBefore;
    for (let index = Math.max(this.upTo, firstHeld); index < handedRows; index++) enter(seen, batch.before, index - firstHeld, this.isLong);
    for (let index = Math.max(this.upTo, handedRows); index < handedRows + row; index++)
      enter(seen, batch.now, index - handedRows, this.isLong);
    this.upTo = handedRows + row;
  }
}

function enter(seen: Map<string, { line: number; readings: string }>, set: BatchSet, row: number, isLong: boolean): void {
  const key = keyOf(set, row, isLong);
  if (set.silent[row] === 1 || seen.has(key)) return;
  if (seen.size >= MOST_REMEMBERED) for (const oldest of [...seen.keys()].slice(0, MOST_REMEMBERED / 2)) seen.delete(oldest);
  seen.set(key, { line: set.lines[row] as number, readings: readingsOf(set, row, isLong) }); // row is below the count
}

function keyOf(set: BatchSet, row: number, isLong: boolean): string {
  const key = `${set.times[row]}/${set.series[row]}`;
  return isLong ? `${key}/${set.present.findIndex((present) => present[row] === 1)}` : key;
}

function readingsOf(set: BatchSet, row: number, isLong: boolean): string {
  let readings = "";
  for (let channel = 0; channel < set.mantissas.length; channel++) {
    if (isLong && set.present[channel]?.[row] !== 1) continue;
    readings += `${set.codes[channel]?.[row]}:${set.mantissas[channel]?.[row]}e-${set.decimals[channel]?.[row]} `;
  }
  return readings;
}
