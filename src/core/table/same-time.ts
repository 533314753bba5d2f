/** Rows that claim an instant that an earlier row has: the same readings once more, or a conflict. */
import type { Batch, BatchSet } from "./batch.ts";

/** Rows of one generation; that before it is remembered too. Beyond them the room recording, which sees all rows, finds the rest. */
const GENERATION = 32_768;
/** Twice as many places, so that few rows meet. */
const PLACES = 2 * GENERATION;
/** Code, mantissa and decimals of a reading. */
const PARTS = 3;

export class SameTime {
  /** Null until the first row that does not come after all before it: plain files never pay for it. */
  private young: Generation | null = null;
  private old: Generation | null = null;
  private upTo = 0;
  private readonly isLong: boolean;

  constructor(isLong: boolean) {
    this.isLong = isLong;
  }

  /** What an earlier row says of the same instant: its line, and whether it reads the same; null where there is none. */
  find(batch: Batch, row: number): { readonly line: number; readonly isSame: boolean } | null {
    this.catchUp(batch, row);
    const { now } = batch;
    const time = now.times[row] as number; // row is below the count, here and below
    const group = groupOf(now, row, this.isLong);
    for (const generation of [this.young, this.old]) {
      const entry = generation?.find(time, group) ?? -1;
      if (generation !== null && entry >= 0)
        return { line: generation.lines[entry] as number, isSame: generation.readsSame(entry, now, row, this.isLong) };
    }
    return null;
  }

  private catchUp(batch: Batch, row: number): void {
    const { handedRows } = batch;
    const firstHeld = handedRows - batch.countBefore;
    for (let index = Math.max(this.upTo, firstHeld); index < handedRows; index++) this.enter(batch.before, index - firstHeld);
    for (let index = Math.max(this.upTo, handedRows); index < handedRows + row; index++) this.enter(batch.now, index - handedRows);
    this.upTo = handedRows + row;
  }

  private enter(set: BatchSet, row: number): void {
    if (set.silent[row] === 1) return;
    const width = this.isLong ? 1 : set.mantissas.length;
    this.young ??= new Generation(width);
    const time = set.times[row] as number;
    const group = groupOf(set, row, this.isLong);
    if (this.young.find(time, group) >= 0 || (this.old?.find(time, group) ?? -1) >= 0) return;
    if (this.young.count === GENERATION) [this.old, this.young] = [this.young, new Generation(width)];
    this.young.add(time, group, set, row, this.isLong);
  }
}

/** Rows by time and group, in typed arrays: a long table asks at nearly every row. */
class Generation {
  count = 0;
  readonly lines = new Uint32Array(GENERATION);
  private readonly times = new Float64Array(GENERATION);
  private readonly groups = new Float64Array(GENERATION);
  private readonly readings: Float64Array;
  /** Entry and one more; nought where there is none. */
  private readonly places = new Int32Array(PLACES);
  private readonly width: number;

  constructor(width: number) {
    this.width = width;
    this.readings = new Float64Array(GENERATION * width * PARTS);
  }

  /** The entry of a time and group; -1 where there is none. */
  find(time: number, group: number): number {
    return (this.places[this.placeOf(time, group)] as number) - 1; // a place of the table
  }

  add(time: number, group: number, set: BatchSet, row: number, isLong: boolean): void {
    const entry = this.count++;
    this.places[this.placeOf(time, group)] = entry + 1;
    this.times[entry] = time;
    this.groups[entry] = group;
    this.lines[entry] = set.lines[row] as number;
    for (let at = 0; at < this.width * PARTS; at++) this.readings[entry * this.width * PARTS + at] = partOf(set, row, at, isLong);
  }

  readsSame(entry: number, set: BatchSet, row: number, isLong: boolean): boolean {
    for (let at = 0; at < this.width * PARTS; at++)
      if (this.readings[entry * this.width * PARTS + at] !== partOf(set, row, at, isLong)) return false;
    return true;
  }

  /** Where it stands, or would stand. */
  private placeOf(time: number, group: number): number {
    let hash = Math.imul(time | 0, 0x9e3779b1) ^ Math.imul(group, 0x85ebca6b);
    hash ^= hash >>> 15;
    for (let place = hash & (PLACES - 1); ; place = (place + 1) & (PLACES - 1)) {
      const entry = (this.places[place] as number) - 1; // a place of the table
      if (entry < 0 || (this.times[entry] === time && this.groups[entry] === group)) return place;
    }
  }
}

/** Rows of one series are set against each other; in a long table those about one channel. */
function groupOf(set: BatchSet, row: number, isLong: boolean): number {
  const series = set.series[row] as number;
  return isLong ? series * (set.present.length + 1) + presentAt(set, row) : series;
}

/** The channel that a row of a long table is about; the number of channels where there is none. */
function presentAt({ present }: BatchSet, row: number): number {
  for (let channel = 0; channel < present.length; channel++) if ((present[channel] as Uint8Array)[row] === 1) return channel; // below the length
  return present.length;
}

/** One part of the readings of a row; nought where a row of a long table is about no channel. */
function partOf(set: BatchSet, row: number, at: number, isLong: boolean): number {
  const channel = isLong ? presentAt(set, row) : (at / PARTS) | 0;
  const part = at % PARTS;
  const column = part === 0 ? set.codes[channel] : part === 1 ? set.mantissas[channel] : set.decimals[channel];
  return column?.[row] ?? 0;
}
