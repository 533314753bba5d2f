/** Rows on their way to the sink: typed arrays filled and used again. Two sets take turns, so that rows just handed over can still be compared. */
import type { ChannelBatch, RowSink } from "./reading.ts";

export const BATCH_ROWS = 8192;

export interface BatchSet {
  readonly lines: Uint32Array;
  readonly times: Float64Array;
  readonly series: Uint32Array;
  readonly mantissas: readonly Float64Array[];
  readonly decimals: readonly Uint8Array[];
  readonly codes: readonly Uint8Array[];
  readonly present: readonly Uint8Array[];
}

export class Batch {
  count = 0;
  now: BatchSet;
  before: BatchSet;
  countBefore = 0;
  /** Rows handed over so far. */
  handedRows = 0;
  private readonly isLong: boolean;
  private readonly sink: RowSink | null;
  hasSeries: boolean;

  constructor(channels: number, isLong: boolean, hasSeries: boolean, sink: RowSink | null) {
    this.isLong = isLong;
    this.hasSeries = hasSeries;
    this.sink = sink;
    this.now = batchSet(channels);
    this.before = batchSet(channels);
  }

  /** Index of the next row; hands the rows over first where there is no room. */
  next(): number {
    if (this.count === BATCH_ROWS) this.hand();
    return this.count;
  }

  hand(): void {
    if (this.count > 0 && this.sink !== null) this.sink.rows({ count: this.count, lines: this.now.lines, times: this.now.times, series: this.hasSeries ? this.now.series : null, channels: this.channels() });
    if (this.count === 0) return;
    [this.now, this.before] = [this.before, this.now];
    this.countBefore = this.count;
    this.handedRows += this.count;
    this.count = 0;
    for (const codes of this.now.codes) codes.fill(0);
  }

  private channels(): ChannelBatch[] {
    const { mantissas, decimals, codes, present } = this.now;
    return mantissas.map((mantissa, channel) => ({ mantissas: mantissa, decimals: decimals[channel] as Uint8Array, codes: codes[channel] as Uint8Array, present: this.isLong ? (present[channel] as Uint8Array) : null })); // one array a channel
  }
}

function batchSet(channels: number): BatchSet {
  const each = <Made>(make: () => Made): Made[] => Array.from({ length: channels }, make);
  return {
    lines: new Uint32Array(BATCH_ROWS), times: new Float64Array(BATCH_ROWS), series: new Uint32Array(BATCH_ROWS),
    mantissas: each(() => new Float64Array(BATCH_ROWS)), decimals: each(() => new Uint8Array(BATCH_ROWS)), codes: each(() => new Uint8Array(BATCH_ROWS)), present: each(() => new Uint8Array(BATCH_ROWS)),
  };
}
