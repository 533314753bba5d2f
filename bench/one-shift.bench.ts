/**
 * One-shift recordings (2,880 rows about every 10 s, five channels) into complete findings: averages, short-term maxima,
 * ceilings, three-level rows, episodes, grounds. Run: node bench/one-shift.bench.ts [--files N] [--runs N] [--only rough]
 *
 * Clean ones have even steps and nothing but readings. Rough ones have steps that jitter, 2 % of their readings missing
 * (rows left out, cells that hold none), a stretch over range, and readings that drift to both sides of nought, with a
 * dead band and a floor declared for them. Each is assessed over one declared shift, and without any.
 *
 * The peer is a plain sum over the same readings in the same run. Times are laid anew before every run, so that nothing
 * that was found of them in an earlier one is known.
 */
import { parseArgs } from "node:util";
import { type AssessmentSettings, assessRecording } from "../src/core/exposure/index.ts";
import { type GasId, type Limit, limitsFor, type RegimeId } from "../src/core/gas/index.ts";
import { type Channel, READING, type Recording } from "../src/core/recording/index.ts";

const { values } = parseArgs({
  options: { files: { type: "string", default: "400" }, runs: { type: "string", default: "9" }, only: { type: "string", default: "" } },
});
const FILES = Number(values.files);
const RUNS = Number(values.runs);
const ROWS = 2880;
const STEP_MS = 10_000;
const MOST_DRIFT_MS = 500;
const HOLES = 6;
const LONGEST_HOLE = 8;

type Draw = (below: number) => number;

/** A seeded generator (xorshift, 32 bits): the same recordings on every machine. */
function seeded(seed: number): Draw {
  let state = seed;
  return (below) => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) % below;
  };
}

const GASES = [
  { gas: "carbon_monoxide", unit: "ppm", decimals: 0, base: 3, plume: 90, top: 500, drift: 3, deadBand: "2", floor: "4" },
  { gas: "hydrogen_sulphide", unit: "ppm", decimals: 1, base: 2, plume: 250, top: 1000, drift: 3, deadBand: "0.3", floor: "0.5" },
  { gas: "carbon_dioxide", unit: "ppm", decimals: 0, base: 600, plume: 4000, top: 50_000, drift: 1, deadBand: null, floor: null },
  { gas: "methane", unit: "%LEL", decimals: 0, base: 0, plume: 12, top: 100, drift: 1, deadBand: "1", floor: "3" },
  { gas: "oxygen", unit: "vol%", decimals: 1, base: 207, plume: 2, top: 300, drift: 1, deadBand: null, floor: null },
] as const;
type Gas = (typeof GASES)[number];

function recordingOf(channels: readonly Channel[]): Recording {
  return { file: "shift.csv", sha256: "0", clock: { kind: "instants", zone: "Europe/London" }, channels, notes: [], cutOff: false };
}

const startOf = (next: Draw): number => 1_772_600_000_000 + next(1_000_000) * 1000;

function clean(next: Draw): Recording {
  const start = startOf(next);
  const times = Float64Array.from({ length: ROWS }, (_, i) => start + i * STEP_MS);
  const channels = GASES.map((of): Channel => {
    const begin = next(ROWS);
    const values = Int32Array.from(times, (_, i) => of.base + next(3) + Math.round(of.plume * Math.exp(-(((i - begin) / 40) ** 2))));
    return channelOf(of, { times, values, codes: null, lines: null, rangeTop: null });
  });
  return recordingOf(channels);
}

function channelOf({ gas, unit, decimals }: Gas, rows: Pick<Channel, "times" | "values" | "codes" | "lines" | "rangeTop">): Channel {
  // The ids stand in the table of limits.
  return { name: gas, series: null, gas: gas as GasId, unit, kind: "spot", decimals, uppers: null, ...rows };
}

/** 1 for each row that lies in a hole; holes of one row up to the longest, about one row in a hundred. */
function holed(next: Draw): Uint8Array {
  const missing = new Uint8Array(ROWS);
  for (let hole = 0; hole < HOLES; hole += 1) {
    const from = 1 + next(ROWS - LONGEST_HOLE - 2);
    missing.fill(1, from, from + 1 + next(LONGEST_HOLE));
  }
  return missing;
}

function rough(next: Draw): Recording {
  const start = startOf(next);
  const missing = holed(next);
  const rows = [...missing.keys()].filter((row) => missing[row] === 0);
  const times = Float64Array.from(rows, (row) => start + row * STEP_MS + (row === 0 ? 0 : next(2 * MOST_DRIFT_MS + 1) - MOST_DRIFT_MS));
  const lines = Uint32Array.from(rows, (row) => row + 2);
  return recordingOf(GASES.map((of): Channel => channelOf(of, { times, lines, rangeTop: of.top, ...roughReadings(of, rows, next) })));
}

/** A third of the channels meets its range top for some minutes; with little in the air a sensor drifts to both sides of nought. */
function roughReadings({ base, plume, top, drift }: Gas, rows: readonly number[], next: Draw): Pick<Channel, "values" | "codes"> {
  const begin = next(ROWS);
  const height = next(3) === 0 ? top * 1.2 : plume;
  const unread = holed(next);
  const codes = new Uint8Array(rows.length);
  const values = Int32Array.from(rows, (row, i) => {
    const off = next(2 * drift + 1) - drift + Math.round((drift / 2) * Math.sin(row / 300));
    const value = base + off + Math.round(height * Math.exp(-(((row - begin) / 40) ** 2)));
    if (unread[row] === 1) codes[i] = READING.none;
    else if (value >= top) codes[i] = READING.overRange;
    return unread[row] === 1 ? 0 : Math.min(value, top);
  });
  return { values, codes: codes.some((code) => code !== READING.valid) ? codes : null };
}

function limitsOf(regimes: readonly RegimeId[]): (gas: string) => readonly Limit[] {
  const known = new Map<string, readonly Limit[]>();
  for (const { gas } of GASES) {
    const found = regimes.flatMap((regime) => {
      const answer = limitsFor(gas, regime, { on: "2026-03-04" });
      return answer.status === "limits" ? answer.limits : [];
    });
    known.set(gas, found);
  }
  return (gas) => known.get(gas) ?? [];
}

const ofGas =
  (setting: "deadBand" | "floor") =>
  (gas: string): string | null =>
    GASES.find((one) => one.gas === gas)?.[setting] ?? null;
const none = (): null => null;

function settingsFor(kind: "clean" | "rough", regimes: readonly RegimeId[]): Omit<AssessmentSettings, "shifts"> {
  return {
    limits: limitsOf(regimes),
    regimes,
    largestGapMs: null,
    unsampled: { kind: "open" },
    declarations: [],
    deadBand: kind === "rough" ? ofGas("deadBand") : none,
    negativeFloor: kind === "rough" ? ofGas("floor") : none,
    measurableThreshold: none,
    meansStandForCeilings: false,
  };
}

/** Eight hours from the first row on: the rough ones end a little before or after. */
function shiftOf({ channels }: Recording): AssessmentSettings["shifts"] {
  const from = channels[0]?.times[0] ?? 0;
  return [{ from, to: from + ROWS * STEP_MS }];
}

function withTimesOfItsOwn(recording: Recording): Recording {
  const times = recording.channels[0]?.times.slice() ?? new Float64Array(0);
  return { ...recording, channels: recording.channels.map((channel) => ({ ...channel, times })) };
}

const median = (times: number[]): number => times.sort((a, b) => a - b)[times.length >> 1] ?? Number.NaN;

function measured(recordings: readonly Recording[], run: (recordings: readonly Recording[]) => void): number {
  const once = (): number => {
    const anew = recordings.map(withTimesOfItsOwn);
    const start = performance.now();
    run(anew);
    return performance.now() - start;
  };
  for (let i = 0; i < 3; i += 1) once();
  return median(Array.from({ length: RUNS }, once));
}

function sumAll(recordings: readonly Recording[]): void {
  let sum = 0;
  for (const { channels } of recordings)
    for (const { values: steps } of channels) for (let i = 0; i < steps.length; i += 1) sum += steps[i] as number; // i < length
  if (sum === 0) throw new Error("nothing was summed");
}

function findingsOf(recordings: readonly Recording[], settings: Omit<AssessmentSettings, "shifts">, declared: boolean): number {
  let findings = 0;
  for (const recording of recordings) {
    const assessed = assessRecording(recording, { ...settings, shifts: declared ? shiftOf(recording) : [] });
    if (!assessed.ok) throw new Error(assessed.refusal.type);
    for (const { channels } of assessed.value) for (const channel of channels) findings += channel.findings.length;
  }
  return findings;
}

const seed = 0x1b873593;
const next = seeded(seed);
console.log(`${FILES} recordings of ${ROWS} rows x ${GASES.length} channels, seed ${seed}; medians of ${RUNS} runs on one thread`);
console.log("| recordings | shift | limits of | findings a recording | µs a recording | M readings/s | times a plain sum |");
console.log("| --- | --- | --- | --- | --- | --- | --- |");
for (const [kind, make] of [
  ["clean", clean],
  ["rough", rough],
] as const) {
  const recordings = Array.from({ length: FILES }, () => make(next));
  if (!kind.includes(values.only)) continue;
  const readings = recordings.reduce((sum, { channels }) => sum + channels.reduce((rows, { times }) => rows + times.length, 0), 0);
  const sumMs = measured(recordings, sumAll);
  for (const declared of [true, false]) {
    for (const regimes of [["GB-WEL"], ["US-OSHA"], ["US-OSHA", "US-NIOSH", "GB-WEL", "EU-IOELV", "FR"]] as const) {
      const settings = settingsFor(kind, regimes);
      let findings = 0;
      const ms = measured(recordings, (anew) => {
        findings = findingsOf(anew, settings, declared);
      });
      const shift = declared ? "declared" : "none";
      console.log(
        `| ${kind} | ${shift} | ${regimes.join(", ")} | ${(findings / FILES).toFixed(1)} | ${((ms * 1000) / FILES).toFixed(0)} | ${(readings / ms / 1000).toFixed(1)} | ${(ms / sumMs).toFixed(1)} |`,
      );
    }
  }
}
