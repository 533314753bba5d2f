/**
 * One-shift recordings (2,880 rows every 10 s, five channels) into complete findings: averages, short-term maxima,
 * ceilings, three-level rows, episodes, grounds. Run: node bench/one-shift.bench.ts [--files N]
 *
 * The peer is a plain sum over the same readings in the same run.
 */
import { parseArgs } from "node:util";
import { assessRecording } from "../src/core/exposure/index.ts";
import { type GasId, type Limit, limitsFor, type RegimeId } from "../src/core/gas/index.ts";
import type { Channel, Recording } from "../src/core/recording/index.ts";

const { values } = parseArgs({ options: { files: { type: "string", default: "400" }, runs: { type: "string", default: "9" } } });
const FILES = Number(values.files);
const RUNS = Number(values.runs);
const ROWS = 2880;

function seeded(seed: number): (below: number) => number {
  let state = seed;
  return (below) => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) % below;
  };
}

const GASES = [
  { gas: "carbon_monoxide", unit: "ppm", decimals: 0, base: 3, plume: 90 },
  { gas: "hydrogen_sulphide", unit: "ppm", decimals: 1, base: 2, plume: 250 },
  { gas: "carbon_dioxide", unit: "ppm", decimals: 0, base: 600, plume: 4000 },
  { gas: "methane", unit: "%LEL", decimals: 0, base: 0, plume: 12 },
  { gas: "oxygen", unit: "vol%", decimals: 1, base: 207, plume: 2 },
] as const;

function recording(next: (below: number) => number): Recording {
  const start = 1_772_600_000_000 + next(1_000_000) * 1000;
  const times = Float64Array.from({ length: ROWS }, (_, i) => start + i * 10_000);
  const channels = GASES.map(({ gas, unit, decimals, base, plume }): Channel => {
    const begin = next(ROWS);
    const values = Int32Array.from(times, (_, i) => base + next(3) + Math.round(plume * Math.exp(-(((i - begin) / 40) ** 2))));
    // The ids stand in the table of limits.
    return {
      name: gas,
      series: null,
      gas: gas as GasId,
      unit,
      kind: "spot",
      decimals,
      times,
      values,
      uppers: null,
      codes: null,
      lines: null,
      rangeTop: null,
    };
  });
  return { file: "shift.csv", sha256: "0", clock: { kind: "instants", zone: "Europe/London" }, channels, notes: [], cutOff: false };
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

const median = (times: number[]): number => times.sort((a, b) => a - b)[times.length >> 1] ?? Number.NaN;

function measured(run: () => void): number {
  for (let i = 0; i < 3; i += 1) run();
  return median(
    Array.from({ length: RUNS }, () => {
      const start = performance.now();
      run();
      return performance.now() - start;
    }),
  );
}

const seed = 0x1b873593;
const next = seeded(seed);
const recordings = Array.from({ length: FILES }, () => recording(next));
const readings = FILES * ROWS * GASES.length;
const sumMs = measured(() => {
  let sum = 0;
  for (const { channels } of recordings)
    for (const { values: steps } of channels) for (let i = 0; i < steps.length; i += 1) sum += steps[i] as number; // i < length
  if (sum === 0) throw new Error("nothing was summed");
});
console.log(`${FILES} recordings of ${ROWS} rows x ${GASES.length} channels, seed ${seed}; medians of ${RUNS} runs on one thread`);
console.log("| limits of | findings a recording | µs a recording | M readings/s | times a plain sum |");
console.log("| --- | --- | --- | --- | --- |");
for (const regimes of [["GB-WEL"], ["US-OSHA"], ["US-OSHA", "US-NIOSH", "GB-WEL", "EU-IOELV", "FR"]] as const) {
  const limits = limitsOf(regimes);
  const none = (): null => null;
  let findings = 0;
  const ms = measured(() => {
    findings = 0;
    for (const one of recordings) {
      const assessed = assessRecording(one, {
        limits,
        regimes,
        largestGapMs: null,
        shifts: [{ from: one.channels[0]?.times[0] ?? 0, to: (one.channels[0]?.times[0] ?? 0) + ROWS * 10_000 }],
        unsampled: { kind: "open" },
        declarations: [],
        deadBand: none,
        negativeFloor: none,
        measurableThreshold: none,
        meansStandForCeilings: false,
      });
      if (!assessed.ok) throw new Error(assessed.refusal.type);
      for (const { channels } of assessed.value) for (const channel of channels) findings += channel.findings.length;
    }
  });
  console.log(
    `| ${regimes.join(", ")} | ${(findings / FILES).toFixed(1)} | ${((ms * 1000) / FILES).toFixed(0)} | ${(readings / ms / 1000).toFixed(1)} | ${(ms / sumMs).toFixed(1)} |`,
  );
}
