/** Rows on their way to the sink: typed arrays filled and used again. Two sets take turns, so that rows just handed over can still be compared. */
import type { ChannelBatch, RowSink } from "./reading.ts";

export const BATCH_ROWS = 8192;

export interface BatchSet {
  readonly lines: Uint32Array;
  readonly times: Float64Array;
  readonly series: Uint32Array;
  /** All channels one after the other, BATCH_ROWS each; what follows are views of them. */
  readonly allMantissas: Float64Array;
  readonly allDecimals: Uint8Array;
  readonly allCodes: Uint8Array;
  readonly mantissas: readonly Float64Array[];
  readonly decimals: readonly Uint8Array[];
  readonly codes: readonly Uint8Array[];
  readonly present: readonly Uint8Array[];
  /** 1: the row was rejected, and stands here with no reading. */
  readonly silent: Uint8Array;
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
    if (this.count > 0 && this.sink !== null)
      this.sink.rows({
        count: this.count,
        lines: this.now.lines,
        times: this.now.times,
        series: this.hasSeries ? this.now.series : null,
        channels: this.channels(),
      });
    if (this.count === 0) return;
    [this.now, this.before] = [this.before, this.now];
    this.countBefore = this.count;
    this.handedRows += this.count;
    this.count = 0;
    this.now.allCodes.fill(0);
    this.now.silent.fill(0);
  }

  private channels(): ChannelBatch[] {
    const { mantissas, decimals, codes, present } = this.now;
    return mantissas.map((mantissa, channel) => ({
      mantissas: mantissa,
      decimals: decimals[channel] as Uint8Array,
      codes: codes[channel] as Uint8Array,
      present: this.isLong ? (present[channel] as Uint8Array) : null,
    })); // one array a channel
  }
}

function batchSet(channels: number): BatchSet {
  const allMantissas = new Float64Array(BATCH_ROWS * channels);
  const allDecimals = new Uint8Array(BATCH_ROWS * channels);
  const allCodes = new Uint8Array(BATCH_ROWS * channels);
  const each = <Made>(make: (from: number, to: number) => Made): Made[] =>
    Array.from({ length: channels }, (_, channel) => make(channel * BATCH_ROWS, (channel + 1) * BATCH_ROWS));
  return {
    lines: new Uint32Array(BATCH_ROWS),
    times: new Float64Array(BATCH_ROWS),
    series: new Uint32Array(BATCH_ROWS),
    allMantissas,
    allDecimals,
    allCodes,
    mantissas: each((from, to) => allMantissas.subarray(from, to)),
    decimals: each((from, to) => allDecimals.subarray(from, to)),
    codes: each((from, to) => allCodes.subarray(from, to)),
    present: each(() => new Uint8Array(BATCH_ROWS)),
    silent: new Uint8Array(BATCH_ROWS),
  };
}
