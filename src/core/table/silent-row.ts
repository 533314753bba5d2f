/**
 * Rows that are rejected although their time was read. They count as rejected, and are handed over with no reading: the
 * reading before them does not hold over the instant of which the file says something else.
 */
import type { Batch } from "./batch.ts";
import type { Plan } from "./plan.ts";
import { CODE } from "./reading-code.ts";
import type { SameTime } from "./same-time.ts";

export class SilentRows {
  private readonly plan: Plan;
  private readonly batch: Batch;
  private readonly sameTime: SameTime;
  private last = "";

  constructor(plan: Plan, batch: Batch, sameTime: SameTime) {
    this.plan = plan;
    this.batch = batch;
    this.sameTime = sameTime;
  }

  /** Which channels a line is about where its cells could not be read: that of its sensor, else all. */
  aboutSensorOf(cells: readonly string[], row: number): void {
    const { plan, batch } = this;
    const channel = plan.isLong ? plan.sensors.get(cells[plan.sensor] ?? "") : undefined;
    for (const [index, present] of batch.now.present.entries()) present[row] = channel === undefined || index === channel ? 1 : 0;
  }

  /** Hands over the row, of which time, line, series and channels stand in the batch. False: another row speaks for its instant. */
  put(row: number, greatestTime: number): boolean {
    const { batch } = this;
    const { now } = batch;
    const time = now.times[row] as number; // the caller wrote it
    const key = `${time}/${now.series[row]}/${this.plan.isLong ? now.present.map((present) => present[row]) : ""}`;
    const isKnown = key === this.last || (time <= greatestTime && this.sameTime.find(batch, row) !== null);
    if (isKnown || this.plan.channels.length === 0) return false;
    this.last = key;
    for (let channel = 0; channel < now.codes.length; channel++) {
      // One array a channel.
      (now.mantissas[channel] as Float64Array)[row] = 0;
      (now.decimals[channel] as Uint8Array)[row] = 0;
      (now.codes[channel] as Uint8Array)[row] = CODE.none;
    }
    now.silent[row] = 1;
    batch.count++;
    return true;
  }
}
