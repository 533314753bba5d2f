/**
 * Two million rows of five columns (an ISO time and four readings, ten seconds apart) with all checks and SHA-256,
 * against DuckDB reading the same file into a table on two threads. Run: node bench/csv.bench.ts [--rows N]
 *
 * Medians of several runs in turns, each walk from the file on disk, with the program's own reading of files and SHA-256
 * (on a second thread, as DuckDB has two). Then the same readings in forms that need more than that: how long each takes.
 */
import { closeSync, mkdtempSync, openSync, rmSync, statSync, writeSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { DuckDBInstance } from "@duckdb/node-api";
import type { Result } from "../src/core/result.ts";
import type { RowSink, TableRefusal } from "../src/core/table/index.ts";
import { readTable, surveyAndRead, surveyTable } from "../src/core/table/index.ts";
import { nodeMachine, sourcesOf } from "../src/main/machine.ts";
import { walk } from "../src/work/walk.ts";
import { environment } from "../test/core/table/reading.ts";

const { values } = parseArgs({ options: { rows: { type: "string", default: "2000000" }, runs: { type: "string", default: "7" } } });
const ROWS = Number(values.rows);
const RUNS = Number(values.runs);

type Line = (time: string, readings: readonly [number, string, string, number]) => string;

const plain: Line = (time, readings) => `${time}Z,${readings.join(",")}\n`;
const HEADING = "Time,CO (ppm),H2S (ppm),O2 (%vol),LEL (%LEL)\n";

/** Other forms of the same rows: all in quotes, a clock of AM and PM, one reading a line. */
const FORMS: readonly { readonly name: string; readonly heading: string; readonly line: Line }[] = [
  { name: "every cell in quotes", heading: HEADING, line: (time, readings) => `"${time}Z","${readings.join('","')}"\n` },
  {
    name: "AM and PM",
    heading: HEADING,
    line: (time, readings) => {
      const hour = Number(time.slice(11, 13));
      const clock = `${String(hour % 12 || 12).padStart(2, "0")}${time.slice(13)} ${hour < 12 ? "AM" : "PM"}`;
      return `${time.slice(0, 10)} ${clock},${readings.join(",")}\n`;
    },
  },
  {
    name: "one reading a line",
    heading: "Time,Sensor,Value,Unit\n",
    line: (time, [co, h2s]) => `${time}Z,CO,${co},ppm\n${time}Z,H2S,${h2s},ppm\n`,
  },
];

/** A seeded generator (xorshift, 32 bits): the same file on every machine. */
function writeFile(path: string, rows: number, heading: string, line: Line): void {
  const file = openSync(path, "w");
  let state = 0x9e3779b9;
  const next = (below: number): number => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) % below;
  };
  let text = heading;
  const start = Date.UTC(2026, 0, 1);
  for (let row = 0; row < rows; row++) {
    const time = new Date(start + row * 10_000).toISOString().slice(0, 19);
    text += line(time, [next(60), (next(80) / 10).toFixed(1), (20.5 + next(5) / 10).toFixed(1), next(4)]);
    if (text.length > 1 << 20) {
      writeSync(file, text);
      text = "";
    }
  }
  writeSync(file, text);
  closeSync(file);
}

const PASS: Result<true, TableRefusal> = { ok: true, value: true };

/** The walk that opening a recording makes: pieces from the disk to the reader, SHA-256 of them all beside it. */
async function walkFile(path: string, push: (bytes: Uint8Array) => Result<true, TableRefusal>): Promise<void> {
  const found = await sourcesOf(path);
  const source = found.ok ? found.value.sources[0] : undefined;
  if (source === undefined) throw new Error("the file should be there");
  const walked = await walk({ source, machine: nodeMachine, progress: { at: () => undefined, stop: () => false } }, push, "reading");
  if (!walked.ok) throw new Error(JSON.stringify(walked.refusal));
}

/** Sums every channel, so that no reading can be left out unnoticed. */
function summing(): { readonly sink: RowSink; readonly rows: () => number; readonly sums: number[] } {
  let rows = 0;
  const sums: number[] = [];
  const sink: RowSink = {
    begin: (channels) => void sums.push(...channels.map(() => 0)),
    series: () => undefined,
    rows: (batch) => {
      rows += batch.count;
      for (const [channel, { mantissas }] of batch.channels.entries()) {
        let sum = 0;
        for (let row = 0; row < batch.count; row++) sum += mantissas[row] as number; // row is below the count
        sums[channel] = (sums[channel] as number) + sum; // begun above
      }
    },
  };
  return { sink, rows: () => rows, sums };
}

async function surveyed(path: string): Promise<void> {
  const survey = surveyTable(environment, {});
  await walkFile(path, survey.push);
  const proposal = survey.finish();
  if (!proposal.ok || proposal.value.questions.some((question) => question.blocking)) throw new Error("the file should be plain");
  const kept = summing();
  const reader = readTable(environment, proposal.value.mapping, {}, kept.sink);
  await walkFile(path, reader.push);
  const summary = reader.finish();
  if (!summary.ok || kept.rows() !== ROWS) throw new Error("all rows should be read");
}

async function inOne(path: string, rows = ROWS): Promise<void> {
  const kept = summing();
  const both = surveyAndRead(environment, { zone: "UTC" }, kept.sink);
  await walkFile(path, both.push);
  const finished = both.finish();
  if (!finished.ok || finished.value.summary === null || kept.rows() !== rows) throw new Error("one walk should serve both");
}

async function byDuckDb(path: string): Promise<void> {
  const instance = await DuckDBInstance.create(":memory:", { threads: "2" });
  const connection = await instance.connect();
  await connection.run(`create table log as select * from read_csv('${path}', header = true)`);
  const counted = await connection.runAndReadAll("select count(*) from log");
  if (Number(counted.getRows()[0]?.[0]) !== ROWS) throw new Error("DuckDB should read all rows");
  connection.closeSync();
  instance.closeSync();
}

async function timed(run: () => unknown): Promise<number> {
  const start = performance.now();
  await run();
  return performance.now() - start;
}

const median = (times: readonly number[]): number => times.toSorted((a, b) => a - b)[times.length >> 1] as number; // one at least

const folder = mkdtempSync(join(tmpdir(), "lamproom-csv-"));
const path = join(folder, "log.csv");
const formTimes: { readonly name: string; readonly megabytes: number; readonly time: number }[] = [];
const one: number[] = [];
const two: number[] = [];
const digestOnly: number[] = [];
const peer: number[] = [];
try {
  writeFile(path, ROWS, HEADING, plain);
  // In turns, so that other work on the machine burdens all of them alike.
  for (let run = 0; run < RUNS; run++) {
    one.push(await timed(() => inOne(path)));
    peer.push(await timed(() => byDuckDb(path)));
    two.push(await timed(() => surveyed(path)));
    digestOnly.push(await timed(() => walkFile(path, () => PASS)));
  }
  for (const { name, heading, line } of FORMS) {
    writeFile(path, ROWS / 4, heading, line);
    const rows = name === "one reading a line" ? ROWS / 2 : ROWS / 4;
    const times: number[] = [];
    for (let run = 0; run < 3; run++) times.push(await timed(() => inOne(path, rows)));
    formTimes.push({ name, megabytes: statSync(path).size / 1e6, time: median(times) });
  }
} finally {
  rmSync(folder, { recursive: true });
}
const share = (times: readonly number[]): string => median(times.map((time, run) => time / (peer[run] as number))).toFixed(2); // as many runs
console.log(`${ROWS} rows x 5 columns, medians of ${RUNS} runs in turns, ratios run by run`);
console.log(`one walk, all checks, SHA-256   ${median(one).toFixed(0)} ms  (${share(one)} of DuckDB's time; aim 0.50)`);
console.log(`survey, then read, SHA-256 twice ${median(two).toFixed(0)} ms  (${share(two)})`);
console.log(`of it reading the file, SHA-256 ${median(digestOnly).toFixed(0)} ms`);
console.log(`DuckDB into a table, 2 threads  ${median(peer).toFixed(0)} ms`);
console.log(
  `fastest of each                 ${[one, two, digestOnly, peer].map((times) => `${Math.min(...times).toFixed(0)} ms`).join(", ")}`,
);
for (const { name, megabytes, time } of formTimes)
  console.log(`${name.padEnd(31)} ${time.toFixed(0)} ms for ${megabytes.toFixed(0)} MB (${(megabytes / (time / 1000)).toFixed(0)} MB/s)`);
