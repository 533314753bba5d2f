// Rows into channels, channels into signals, columns for a chart: ten million readings, and one shift again and again.
// `node bench/recording.bench.ts`; the plain sum over the same array is the yardstick.
import { blockSummaries, type Channel, collectRows, INSTANTS, m4Columns, PLAIN_SETTINGS, signalOf } from "../src/core/recording/index.ts";
import type { ColumnMapping } from "../src/core/table/mapping.ts";

const ROWS = 10_000_000;
const STEP_MS = 8; // ten million rows within one day
let state = 1;
const chance = () => {
  state = (state * 48_271) % 2_147_483_647;
  return state / 2_147_483_647;
};

/** A new channel each time: what is remembered of known times must not flatter. */
function channel(steps: (row: number) => number, value: () => number, rows = ROWS): Channel {
  const times = new Float64Array(rows);
  const values = new Int32Array(rows);
  const lines = new Uint32Array(rows);
  let time = 0;
  for (let row = 0; row < rows; row += 1) {
    times[row] = time;
    values[row] = value();
    lines[row] = row + 2;
    time += steps(row);
  }
  const rest = { series: null, gas: null, unit: "ppm", kind: "spot", decimals: 0, uppers: null, codes: null, rangeTop: null } as const;
  return { name: "CO", times, values, lines, ...rest };
}

const even = () => STEP_MS;
const uneven = () => (chance() < 0.9 ? 8 : 4 + Math.floor(chance() * 6));
const positive = () => 1 + Math.floor(chance() * 500);
const noisy = () => Math.floor(chance() * 500) - 5;

function best(what: string, make: () => () => unknown, times = 5): number {
  let least = Infinity;
  for (let turn = 0; turn < times; turn += 1) {
    const run = make();
    const start = performance.now();
    run();
    least = Math.min(least, performance.now() - start);
  }
  process.stdout.write(`${what.padEnd(52)} ${least.toFixed(1).padStart(8)} ms\n`);
  return least;
}

const fresh = (from: Channel): Channel => ({ ...from, times: from.times.slice(), lines: from.lines?.slice() ?? null });
const signal =
  (of: Channel, period: { from: number; to: number } | null = null) =>
  () =>
    signalOf(of, PLAIN_SETTINGS, [], period);

const regular = channel(even, positive);
best("plain loop over 10 M whole numbers", () => () => {
  let sum = 0;
  const { values } = regular;
  for (let row = 0; row < values.length; row += 1) sum += values[row] ?? 0;
  return sum;
});
best("signal, regular, valid", () => signal(fresh(regular)));
best("signal, regular, valid, times seen before", () => signal(regular));
best("signal, regular, in a longer shift", () => signal(fresh(regular), { from: -STEP_MS * 10, to: STEP_MS * (ROWS + 10) }));
best("signal, uneven, valid", () => signal(channel(uneven, positive)), 3);
best("signal, regular, with negatives", () => signal(channel(even, noisy)), 3);
const summaries = blockSummaries(regular, 12);
best("block summaries", () => () => blockSummaries(regular, 12), 3);
best("M4, 10 M rows, 1200 columns, from summaries", () => () => m4Columns(regular, 0, ROWS * STEP_MS, 1200, 12, summaries));
best("M4, 1 M rows, 1200 columns, from the rows", () => () => m4Columns(regular, 0, ROWS * STEP_MS * 0.1, 1200, 12, null));

const shift = channel(() => 10_000, positive, 2880);
const shiftMs = best("one shift of 2880 readings, 5000 times", () => () => {
  for (let turn = 0; turn < 5000; turn += 1) signalOf(shift, PLAIN_SETTINGS, [], { from: -40_000, to: 28_840_000 });
});
process.stdout.write(`${"  readings a second".padEnd(52)} ${((2880 * 5) / shiftMs).toFixed(0).padStart(8)} M\n`);

const columns: ColumnMapping[] = ["CO", "H2S", "O2", "LEL"].map((label) => ({
  label,
  role: "reading",
  gas: null,
  unit: "ppm",
  decimalMark: ".",
  groupMark: null,
  kind: "spot",
  rangeTop: null,
}));
best(
  "2 M rows x 4 into channels",
  () => {
    const count = 4096;
    const channels = columns.map(() => ({
      mantissas: Float64Array.from({ length: count }, () => positive()),
      decimals: new Uint8Array(count).fill(1),
      codes: new Uint8Array(count),
      present: null,
    }));
    const batch = { count, lines: new Uint32Array(count), times: new Float64Array(count), series: null, channels };
    return () => {
      const { sink, finish } = collectRows();
      sink.begin(columns);
      for (let from = 0; from < 2_000_000; from += count) {
        for (let row = 0; row < count; row += 1) batch.times[row] = (from + row) * 1000;
        sink.rows(batch);
      }
      finish({ file: "", sha256: "", clock: INSTANTS, notes: [], cutOff: false });
    };
  },
  3,
);
