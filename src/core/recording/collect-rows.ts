/**
 * From typed rows to channels, in bounded memory. Rows may come in any order and in batches of any size; the channels
 * are the same.
 */
import type { GasId } from "../gas/limit.ts";
import { assert } from "../result.ts";
import type { ColumnMapping } from "../table/mapping.ts";
import type { ChannelBatch, RowBatch, RowSink } from "../table/reading.ts";
import type { Channel, ClockBasis, Recording } from "./channel.ts";
import { READING } from "./channel.ts";
import { digitsOf, stepsBelow } from "./display-step.ts";
import type { GrowingColumn } from "./growing-column.ts";
import { makeRoomFor, putReading, raise, reserve } from "./growing-column.ts";
import type { OrderedColumn, OrderedTrack, RowTrack } from "./row-track.ts";
import { emptyTrack, ordered, putTime, reserveRows, splitTrack } from "./row-track.ts";

export interface CollectSettings {
  /** Stretches to keep, milliseconds on the clock of the file, with `marginMs` on both sides. Null = the beginning, up to `longestSpanMs`. */
  readonly keep: readonly { readonly from: number; readonly to: number }[] | null;
  /** Readings near a shift reach into it: a spot reading holds, a mean closes an interval. */
  readonly marginMs: number;
  /** Without `keep`: a file that runs longer is counted to its end but no more of it is kept. */
  readonly longestSpanMs: number;
  /** Readings (rows x channels) beyond which nothing more is kept. */
  readonly mostReadings: number;
}

/**
 * A day of margin, since some averages look back over one and readings outside of shifts are told; 31 days, 24 million
 * readings: every shift fits, and memory stays under about 500 MB. [ours]
 */
export const COLLECT_DEFAULTS: CollectSettings = {
  keep: null,
  marginMs: 86_400_000,
  longestSpanMs: 31 * 86_400_000,
  mostReadings: 24_000_000,
};

/** What collecting showed about the rows; lines are kept up to `MOST_MARKS` a kind, counts are whole. */
export type RowMark =
  | { readonly type: "duplicate row"; readonly line: number }
  | { readonly type: "conflicting readings"; readonly line: number; readonly channel: string }
  | { readonly type: "unit changed"; readonly channel: string; readonly units: readonly (string | null)[] };

export const MOST_MARKS = 1000;

export interface RowTally {
  /** Rows that came, wanted or not. */
  readonly rows: number;
  readonly kept: number;
  readonly duplicates: number;
  readonly conflicts: number;
  /** Rows earlier than the one before them in the file. */
  readonly outOfOrder: number;
  /** Earliest and latest time of all rows, kept or not; null without rows. */
  readonly span: { readonly from: number; readonly to: number } | null;
}

export interface Collected {
  readonly recording: Recording;
  readonly tally: RowTally;
  readonly marks: readonly RowMark[];
  /** Why rows were left out although nobody asked for it; null where all (or all wanted) rows were kept. */
  readonly stopped: { readonly why: "longer than kept" | "too many readings"; readonly atLine: number } | null;
}

/** What the rows themselves do not tell about the recording. */
export type RecordingFacts = Omit<Recording, "channels">;

export interface RowCollector {
  readonly sink: RowSink;
  /** Ends collecting; called once, after the last row. */
  readonly finish: (facts: RecordingFacts) => Collected;
}

interface Collecting {
  readonly settings: CollectSettings;
  columns: readonly ColumnMapping[];
  readonly series: Map<number, { readonly label: string; readonly value: string }>;
  /** By index of the series, then one track (wide) or one a channel (long). */
  readonly tracks: Map<number, RowTrack[]>;
  rows: number;
  readings: number;
  earliest: number;
  latest: number;
  stopped: Collected["stopped"];
}

/**
 * Builds channels from rows: sorts, drops exact repeats, joins two readings of one instant into an interval, splits by
 * series, chooses the step of each channel.
 *
 * @param settings what to keep; lengths in milliseconds
 * @returns a sink for `readTable`, and the end
 * Refuses nothing: what cannot be kept is counted and named in `stopped`.
 * @example
 * ```ts
 * import { collectRows, INSTANTS } from "./collect-rows.ts";
 * const collector = collectRows();
 * collector.sink.begin([{ label: "CO", role: "reading", gas: null, unit: "ppm", decimalMark: ".", groupMark: null, kind: "spot", rangeTop: null }]);
 * const channels = [{ mantissas: Float64Array.of(30, 205, 36), decimals: Uint8Array.of(0, 1, 0), codes: new Uint8Array(3), present: null }];
 * collector.sink.rows({ count: 3, lines: Uint32Array.of(2, 3, 4), times: Float64Array.of(10, 0, 10), series: null, channels });
 * const { recording, tally } = collector.finish({ file: "", sha256: "", clock: INSTANTS, notes: [], cutOff: false });
 * const [co] = recording.channels;
 * [...(co?.values ?? [])]; // => [205, 300]
 * [...(co?.uppers ?? [])]; // => [205, 360]
 * tally.conflicts; // => 1
 * ```
 * Source: exposure chapter section 2 rule 3 (identical records count once, conflicting ones become an interval) [ours].
 */
export function collectRows(settings: Partial<CollectSettings> = {}): RowCollector {
  const state: Collecting = {
    settings: { ...COLLECT_DEFAULTS, ...settings },
    columns: [],
    series: new Map(),
    tracks: new Map(),
    rows: 0,
    readings: 0,
    earliest: Infinity,
    latest: -Infinity,
    stopped: null,
  };
  return {
    sink: {
      begin: (columns) => {
        assert(state.columns.length === 0 && columns.length > 0, "channels are named once, before the first row");
        state.columns = columns;
      },
      series: (index, label, value) => void state.series.set(index, { label, value }),
      rows: (batch) => takeBatch(state, batch),
    },
    finish: (facts) => collected(state, facts),
  };
}

function takeBatch(state: Collecting, batch: RowBatch): void {
  assert(batch.channels.length === state.columns.length, "every batch has all channels");
  state.rows += batch.count;
  const wanted = wantedRows(state, batch);
  if (wanted !== null && wanted.length === 0) return;
  if (batch.series === null) return takeRows(state, batch, 0, wanted);
  for (const [series, rows] of rowsBySeries(batch.series, batch.count, wanted)) takeRows(state, batch, series, rows);
}

/** Rows of the batch that are kept; null = all of them. */
function wantedRows(state: Collecting, batch: RowBatch): number[] | null {
  let rows: number[] | null = null;
  for (let row = 0; row < batch.count; row += 1) {
    const time = batch.times[row] ?? 0;
    assert(Number.isFinite(time), "a row has a time");
    if (time < state.earliest) state.earliest = time;
    if (time > state.latest) state.latest = time;
    const wanted = state.stopped === null && isWanted(state, time, batch.lines[row] ?? 0);
    if (!wanted) rows ??= Array.from({ length: row }, (_, before) => before);
    else rows?.push(row);
  }
  return rows;
}

function isWanted(state: Collecting, time: number, line: number): boolean {
  const { keep, marginMs, longestSpanMs, mostReadings } = state.settings;
  if (keep !== null && !keep.some((span) => time >= span.from - marginMs && time < span.to + marginMs)) return false;
  state.readings += state.columns.length;
  if (state.readings > mostReadings) state.stopped = { why: "too many readings", atLine: line };
  else if (keep === null && state.latest - state.earliest > longestSpanMs) state.stopped = { why: "longer than kept", atLine: line };
  return state.stopped === null;
}

function rowsBySeries(series: Uint32Array, count: number, wanted: number[] | null): Map<number, number[]> {
  const rows = new Map<number, number[]>();
  const add = (row: number) => {
    const index = series[row] ?? 0;
    const list = rows.get(index);
    if (list === undefined) rows.set(index, [row]);
    else list.push(row);
  };
  if (wanted === null) for (let row = 0; row < count; row += 1) add(row);
  else for (const row of wanted) add(row);
  return rows;
}

function takeRows(state: Collecting, batch: RowBatch, series: number, rows: readonly number[] | null): void {
  const tracks = tracksOf(
    state,
    series,
    batch.channels.some((channel) => channel.present !== null),
  );
  const [first] = tracks;
  if (tracks.length === 1 && first !== undefined && first.columns.length === state.columns.length) return takeWide(first, batch, rows);
  tracks.forEach((track, channel) => {
    const present = batch.channels[channel];
    if (present !== undefined) takeLong(track, batch, present, rows);
  });
}

function tracksOf(state: Collecting, series: number, long: boolean): RowTrack[] {
  let tracks = state.tracks.get(series);
  tracks ??= long ? state.columns.map(() => emptyTrack(1)) : [emptyTrack(state.columns.length)];
  const [only] = tracks;
  if (long && tracks.length === 1 && state.columns.length > 1 && only !== undefined) tracks = splitTrack(only);
  state.tracks.set(series, tracks);
  return tracks;
}

function takeWide(track: RowTrack, batch: RowBatch, rows: readonly number[] | null): void {
  const count = rows?.length ?? batch.count;
  reserveRows(track, count);
  for (let at = 0; at < count; at += 1) {
    const row = rows === null ? at : (rows[at] ?? 0);
    putTime(track, batch.times[row] ?? 0, batch.lines[row] ?? 0);
  }
  batch.channels.forEach((channel, index) => {
    const column = track.columns[index];
    assert(column !== undefined, "a wide track has a column a channel");
    reserve(column, count);
    for (let at = 0; at < count; at += 1) {
      const row = rows === null ? at : (rows[at] ?? 0);
      if (channel.present !== null && channel.present[row] === 0) putReading(column, 0, 0, READING.none);
      else putReading(column, channel.mantissas[row] ?? 0, channel.decimals[row] ?? 0, channel.codes[row] ?? 0);
    }
  });
}

function takeLong(track: RowTrack, batch: RowBatch, channel: ChannelBatch, rows: readonly number[] | null): void {
  const [column] = track.columns;
  assert(column !== undefined, "a long track has one column");
  const count = rows?.length ?? batch.count;
  reserveRows(track, count);
  reserve(column, count);
  for (let at = 0; at < count; at += 1) {
    const row = rows === null ? at : (rows[at] ?? 0);
    if (channel.present !== null && channel.present[row] === 0) continue;
    putTime(track, batch.times[row] ?? 0, batch.lines[row] ?? 0);
    putReading(column, channel.mantissas[row] ?? 0, channel.decimals[row] ?? 0, channel.codes[row] ?? 0);
  }
}

function collected(state: Collecting, facts: RecordingFacts): Collected {
  const channels: Channel[] = [];
  const marks: RowMark[] = unitChanges(state.columns);
  const tally = { kept: 0, duplicates: 0, conflicts: 0, outOfOrder: 0 };
  for (const [series, tracks] of [...state.tracks].sort(([one], [other]) => one - other)) {
    const wide = tracks.length === 1;
    tracks.forEach((track, number) => {
      const tops = track.columns.map((column, index) => rangeTopOf(column, state.columns[wide ? index : number]));
      const rows = ordered(track);
      addToTally(tally, track, rows, marks);
      rows.columns.forEach((column, index) => {
        const mapping = state.columns[wide ? index : number];
        assert(mapping !== undefined, "every column has a mapping");
        tally.conflicts += column.conflictLines.length;
        addMarks(
          marks,
          column.conflictLines.map((line) => ({ type: "conflicting readings", line, channel: mapping.label })),
        );
        const top = tops[index] ?? null;
        if (rows.times.length > 0)
          channels.push(channelOf(mapping, state.series.get(series) ?? null, rows, column, track.columns[index]?.decimals ?? 0, top));
      });
    });
  }
  const span = state.rows === 0 ? null : { from: state.earliest, to: state.latest };
  return { recording: { ...facts, channels }, tally: { rows: state.rows, ...tally, span }, marks, stopped: state.stopped };
}

function addToTally(
  tally: { kept: number; duplicates: number; outOfOrder: number },
  track: RowTrack,
  rows: OrderedTrack,
  marks: RowMark[],
): void {
  tally.kept += track.count;
  tally.duplicates += rows.duplicateLines.length;
  tally.outOfOrder += rows.outOfOrder;
  addMarks(
    marks,
    [...rows.duplicateLines.subarray(0, MOST_MARKS)].map((line) => ({ type: "duplicate row", line })),
  );
}

function addMarks(marks: RowMark[], more: readonly RowMark[]): void {
  const [first] = more;
  if (first === undefined) return;
  const already = marks.reduce((count, mark) => count + (mark.type === first.type ? 1 : 0), 0);
  marks.push(...more.slice(0, Math.max(0, MOST_MARKS - already)));
}

/** One label with two units is two channels, and said so: units are never mixed. */
function unitChanges(columns: readonly ColumnMapping[]): RowMark[] {
  const byLabel = new Map<string, Set<string | null>>();
  for (const { label, unit } of columns) byLabel.set(label, (byLabel.get(label) ?? new Set()).add(unit));
  return [...byLabel]
    .filter(([, units]) => units.size > 1)
    .map(([channel, units]) => ({ type: "unit changed", channel, units: [...units] }));
}

/**
 * The range top takes part in choosing the step, and is rounded down: a lower bound stays one. "Over range" without a
 * number is at least the range top; that is settled before two claims about one instant are joined.
 */
function rangeTopOf(column: GrowingColumn, mapping: ColumnMapping | undefined): number | null {
  const digits = mapping?.rangeTop == null ? null : digitsOf(mapping.rangeTop);
  if (digits === null) return null;
  raise(column, digits.decimals);
  if (!makeRoomFor(column, digits.mantissa, digits.decimals)) return null;
  const rangeTop = stepsBelow(digits.mantissa, digits.decimals, column.decimals);
  boundOverRange(column, rangeTop);
  return rangeTop;
}

function boundOverRange({ count, values, uppers, codes }: GrowingColumn, rangeTop: number): void {
  if (codes === null) return;
  for (let row = 0; row < count; row += 1) {
    if (codes[row] !== READING.overRangeUnbounded) continue;
    codes[row] = READING.overRange;
    values[row] = rangeTop;
    if (uppers !== null) uppers[row] = rangeTop;
  }
}

function channelOf(
  mapping: ColumnMapping,
  series: Channel["series"],
  rows: OrderedTrack,
  column: OrderedColumn,
  decimals: number,
  rangeTop: number | null,
): Channel {
  const { values, uppers, codes } = column;
  const gas = mapping.gas as GasId | null; // ids were checked against the table of gases when the mapping was confirmed
  return {
    name: mapping.label,
    series,
    gas,
    unit: mapping.unit,
    kind: mapping.kind,
    ...(mapping.kindChosenBy === undefined ? {} : { kindChosenBy: mapping.kindChosenBy }),
    decimals,
    times: rows.times,
    values,
    uppers,
    codes,
    lines: rows.lines,
    rangeTop,
  };
}

/** A recording whose clock is tied to the world in no zone in particular: the usual facts for rows made by hand. */
export const INSTANTS: ClockBasis = { kind: "instants", zone: null };
