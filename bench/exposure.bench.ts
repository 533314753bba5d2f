/**
 * Ten million samples, both edges: 8-hour average, greatest 15- and 10-minute means, greatest value, time above and
 * episodes, against a plain sum over the same array and against DuckDB computing the same answers by SQL on two
 * threads. Run: node bench/exposure.bench.ts [--samples N] [--no-sql]
 *
 * Medians of several runs in one process. The answers of both are compared before a ratio is printed.
 */
import { closeSync, mkdtempSync, openSync, rmSync, writeSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { type DuckDBConnection, DuckDBInstance } from "@duckdb/node-api";
import { periodOf, readingEpisodes, timesAbove, windowBounds } from "../src/core/exposure/index.ts";
import { STRETCH, type Timing, type TwoEdgedSignal } from "../src/core/recording/index.ts";

const { values } = parseArgs({
  options: {
    samples: { type: "string", default: "10000000" },
    runs: { type: "string", default: "7" },
    sql: { type: "boolean", default: true },
  },
  allowNegative: true,
});
const SAMPLES = Number(values.samples);
const RUNS = Number(values.runs);
const WINDOWS = [900_000, 600_000] as const;
const WORST_CASE = 300;

interface Answers {
  readonly doses: readonly [number, number];
  readonly greatest: readonly [number, number];
  readonly above: readonly [number, number];
  readonly maxima: readonly (readonly [number, number])[];
  readonly episodes: number;
}

/** A seeded generator (xorshift, 32 bits): the same signal on every machine. */
function seeded(seed: number): (below: number) => number {
  let state = seed;
  return (below) => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) % below;
  };
}

/** Low background with a plume every few hours, each rising and falling over minutes. */
function plumes(next: (below: number) => number): Int32Array {
  const levels = new Int32Array(SAMPLES);
  let height = 0;
  for (let i = 0; i < SAMPLES; i += 1) {
    if (next(12_000) === 0) height = 100 + next(900);
    else height *= 0.997;
    levels[i] = Math.round(height) + next(4);
  }
  return levels;
}

/** A noisy plateau: every window is nearly as high as the highest, so nothing can be skipped. */
function plateau(next: (below: number) => number): Int32Array {
  const levels = new Int32Array(SAMPLES);
  for (let i = 0; i < SAMPLES; i += 1) levels[i] = 150 + next(100);
  return levels;
}

const regular = (): Timing => ({ kind: "regular", start: 0, stepMs: 1000, count: SAMPLES });

function uneven(next: (below: number) => number): Timing {
  const edges = new Float64Array(SAMPLES + 1);
  for (let i = 0; i < SAMPLES; i += 1) edges[i + 1] = (edges[i] as number) + 500 + next(1000); // i < SAMPLES
  return { kind: "uneven", edges };
}

/** Every now and then two minutes without readings, declared at their worst at any moment: the two edges part. */
function twoEdged(levels: Int32Array, timing: Timing, next: (below: number) => number): TwoEdgedSignal {
  const low = Int32Array.from(levels);
  const high = Int32Array.from(levels);
  const stretches = new Uint8Array(SAMPLES);
  for (let i = 0; i < SAMPLES; i += 1) {
    if (next(20_000) !== 0) continue;
    const past = Math.min(SAMPLES, i + 120);
    low.fill(0, i, past);
    high.fill(WORST_CASE, i, past);
    stretches.fill(STRETCH.declaredWorstCase, i, past);
    i = past;
  }
  let largest = WORST_CASE;
  for (const level of levels) largest = Math.max(largest, level);
  return { decimals: 1, timing, low, high, stretches, averageOnly: [], outside: "unexposed", largest };
}

function assess(signal: TwoEdgedSignal, threshold: number): Answers {
  const { timing } = signal;
  const end = timing.kind === "regular" ? timing.start + timing.count * timing.stepMs : (timing.edges[timing.edges.length - 1] as number); // never empty
  const period = periodOf(signal, { from: 0, to: end }, { kind: "open" });
  const { low } = period.sums;
  const high = period.sums.high ?? low;
  const above = timesAbove(period.sums, threshold);
  const maxima = WINDOWS.map((windowMs) => {
    const bounds = windowBounds(period, windowMs);
    return [Number(bounds.low.sum), Number(bounds.high?.sum)] as const;
  });
  return {
    doses: [low.sums[low.blocks] ?? 0, high.sums[high.blocks] ?? 0],
    greatest: [low.greatest, high.greatest],
    above: [above.low, above.upper],
    maxima,
    episodes: readingEpisodes(low, signal, { above: threshold, until: threshold, shortestMs: 0 }).length,
  };
}

function plainSum(levels: Int32Array): number {
  let sum = 0;
  for (let i = 0; i < levels.length; i += 1) sum += levels[i] as number; // i < length
  return sum;
}

function median(run: () => void): number {
  run();
  const times = Array.from({ length: RUNS }, () => {
    const start = performance.now();
    run();
    return performance.now() - start;
  });
  return times.sort((a, b) => a - b)[RUNS >> 1] ?? Number.NaN;
}

async function loaded(signal: TwoEdgedSignal, folder: string): Promise<DuckDBConnection> {
  const path = join(folder, "signal.csv");
  const file = openSync(path, "w");
  let text = "from_ms,to_ms,low,high\n";
  const { timing } = signal;
  const edge = (i: number): number => (timing.kind === "regular" ? i * timing.stepMs : (timing.edges[i] as number)); // i <= count
  for (let i = 0; i < SAMPLES; i += 1) {
    text += `${edge(i)},${edge(i + 1)},${signal.low[i]},${signal.high?.[i]}\n`;
    if (text.length > 1 << 20) {
      writeSync(file, text);
      text = "";
    }
  }
  writeSync(file, text);
  closeSync(file);
  const connection = await (await DuckDBInstance.create(":memory:", { threads: "2" })).connect();
  await connection.run(
    `CREATE TABLE signal AS SELECT * FROM read_csv('${path}', columns = {'from_ms': 'BIGINT', 'to_ms': 'BIGINT', 'low': 'INTEGER', 'high': 'INTEGER'}, header = true)`,
  );
  return connection;
}

/** Regular steps and whole-step windows: a frame of rows; only windows that start or end in the signal, nought outside. */
const slidingByRows = (rows: number): string =>
  `SELECT max(l)::DOUBLE, max(h)::DOUBLE FROM (SELECT sum(low) OVER w * 1000 l, sum(high) OVER w * 1000 h FROM signal WINDOW w AS (ORDER BY from_ms ROWS BETWEEN ${rows - 1} PRECEDING AND CURRENT ROW))`;

/** Uneven steps: integrals to both ends of every window that starts or ends on an edge, by an as-of join. */
const slidingByJoin = (windowMs: number): string => `
  WITH sums AS (SELECT from_ms, low, high, coalesce(sum(low::BIGINT * (to_ms - from_ms)) OVER before, 0)::BIGINT l, coalesce(sum(high::BIGINT * (to_ms - from_ms)) OVER before, 0)::BIGINT h
    FROM signal WINDOW before AS (ORDER BY from_ms ROWS BETWEEN UNBOUNDED PRECEDING AND 1 PRECEDING)
    UNION ALL SELECT max(to_ms), 0, 0, sum(low::BIGINT * (to_ms - from_ms))::BIGINT, sum(high::BIGINT * (to_ms - from_ms))::BIGINT FROM signal),
  far AS (SELECT a.l al, a.h ah, b.l + b.low::BIGINT * (a.from_ms + ${windowMs} - b.from_ms) bl, b.h + b.high::BIGINT * (a.from_ms + ${windowMs} - b.from_ms) bh
    FROM sums a ASOF JOIN sums b ON a.from_ms + ${windowMs} >= b.from_ms),
  near AS (SELECT a.l al, a.h ah, coalesce(b.l + b.low::BIGINT * (a.from_ms - ${windowMs} - b.from_ms), 0) bl, coalesce(b.h + b.high::BIGINT * (a.from_ms - ${windowMs} - b.from_ms), 0) bh
    FROM sums a ASOF LEFT JOIN sums b ON a.from_ms - ${windowMs} >= b.from_ms)
  SELECT max(l)::DOUBLE, max(h)::DOUBLE FROM (SELECT bl - al l, bh - ah h FROM far UNION ALL SELECT al - bl, ah - bh FROM near)`;

async function assessBySql(connection: DuckDBConnection, isRegular: boolean, threshold: number): Promise<Answers> {
  const rows = async (sql: string): Promise<readonly unknown[]> => (await (await connection.runAndReadAll(sql)).getRows())[0] ?? [];
  const pair = (row: readonly unknown[], at = 0): readonly [number, number] => [Number(row[at]), Number(row[at + 1])];
  const totals =
    await rows(`SELECT sum(low::BIGINT * (to_ms - from_ms))::DOUBLE, sum(high::BIGINT * (to_ms - from_ms))::DOUBLE, max(low), max(high),
    (sum(to_ms - from_ms) FILTER (low > ${threshold}))::DOUBLE, (sum(to_ms - from_ms) FILTER (high > ${threshold}))::DOUBLE FROM signal`);
  const [episodes] = await rows(
    `SELECT count(*)::DOUBLE FROM (SELECT low, lag(low) OVER (ORDER BY from_ms) was FROM signal) WHERE low > ${threshold} AND (was IS NULL OR was <= ${threshold})`,
  );
  const maxima: (readonly [number, number])[] = [];
  for (const windowMs of WINDOWS) maxima.push(pair(await rows(isRegular ? slidingByRows(windowMs / 1000) : slidingByJoin(windowMs))));
  return { doses: pair(totals), greatest: pair(totals, 2), above: pair(totals, 4), maxima, episodes: Number(episodes) };
}

interface Line {
  readonly signal: string;
  readonly sumMs: number;
  readonly oursMs: number;
  readonly sqlMs: number | null;
}

async function measured(name: string, signal: TwoEdgedSignal, threshold: number): Promise<Line> {
  const sumMs = median(() => plainSum(signal.low));
  const oursMs = median(() => assess(signal, threshold));
  if (!values.sql) return { signal: name, sumMs, oursMs, sqlMs: null };
  const folder = mkdtempSync(join(tmpdir(), "lamproom-bench-"));
  try {
    const connection = await loaded(signal, folder);
    const isRegular = signal.timing.kind === "regular";
    await assessBySql(connection, isRegular, threshold);
    const start = performance.now();
    const theirs = await assessBySql(connection, isRegular, threshold);
    const sqlMs = performance.now() - start;
    const ours = assess(signal, threshold);
    if (JSON.stringify(ours) !== JSON.stringify(theirs))
      throw new Error(`${name}: answers differ\n${JSON.stringify(ours)}\n${JSON.stringify(theirs)}`);
    connection.closeSync();
    return { signal: name, sumMs, oursMs, sqlMs };
  } finally {
    rmSync(folder, { recursive: true });
  }
}

const seed = 0x2545f491;
const next = seeded(seed);
console.log(`${SAMPLES} samples, both edges, seed ${seed}; medians of ${RUNS} runs; answers of both equal`);
console.log("| signal | plain sum of one edge | full assessment | times the sum | SQL, two threads | times faster than SQL |");
console.log("| --- | --- | --- | --- | --- | --- |");
for (const [name, make, threshold] of [
  ["regular, plumes", () => twoEdged(plumes(next), regular(), next), 200],
  ["regular, noisy plateau", () => twoEdged(plateau(next), regular(), next), 248],
  ["uneven, plumes", () => twoEdged(plumes(next), uneven(next), next), 200],
  ["uneven, noisy plateau", () => twoEdged(plateau(next), uneven(next), next), 248],
] as const) {
  const { sumMs, oursMs, sqlMs } = await measured(name, make(), threshold);
  const sql = sqlMs === null ? "not run | " : `${sqlMs.toFixed(0)} ms | ${(sqlMs / oursMs).toFixed(1)}`;
  console.log(`| ${name} | ${sumMs.toFixed(1)} ms | ${oursMs.toFixed(0)} ms | ${(oursMs / sumMs).toFixed(1)} | ${sql} |`);
}
