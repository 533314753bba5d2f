// NIST Fire Research Division Experimental Database: carbon monoxide in a road tunnel, gases in training-house fires,
// oxygen and carbon dioxide in a closed enclosure. Reference statistics beside the files (computed, rules in their note).
// Their greatest 900 s mean and seconds above a level are of the piecewise linear curve, ours of the stepped one: not
// compared. The files are not in this repository: see LAMPROOM_DATASETS.
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { gasInLabel } from "../../../src/core/gas/index.ts";
import { unitFromText } from "../../../src/core/quantity/index.ts";
import {
  type Channel,
  collectRows,
  PLAIN_SETTINGS,
  READING,
  type Recording,
  sampledMean,
  signalOf,
} from "../../../src/core/recording/index.ts";
import { surveyAndRead } from "../../../src/core/table/index.ts";

const datasets = process.env.LAMPROOM_DATASETS ?? fileURLToPath(new URL("../../../../shared/handbook/datasets", import.meta.url));
const isThere = existsSync(datasets);
const title = (set: string) => (isThere ? set : `${set} (skipped: no data sets at LAMPROOM_DATASETS or beside the repository)`);

function readRecording(file: string): Recording {
  const collector = collectRows();
  const reader = surveyAndRead({ decodeText: () => null, vocabulary: { unitFromText, gasInLabel } }, {}, collector.sink);
  expect(reader.push(new Uint8Array(readFileSync(`${datasets}/${file}`)))).toMatchObject({ ok: true });
  const read = reader.finish();
  if (!read.ok || read.value.summary === null) throw new Error(`${file} asks: ${JSON.stringify(read)}`);
  return collector.finish({
    file,
    sha256: "",
    clock: read.value.summary.clock,
    notes: read.value.summary.notes,
    cutOff: read.value.summary.cutOff,
  }).recording;
}

/** The figures of a channel in the unit of the reference: steps x 10^-decimals x `scale`. */
function figures(channel: Channel, scale: number) {
  const rows = [...channel.times.keys()].filter((row) => (channel.codes?.[row] ?? READING.valid) === READING.valid);
  const at = (row: number | undefined) => ((channel.values[row ?? 0] ?? 0) / 10 ** channel.decimals) * scale;
  const peak = rows.reduce((best, row) => ((channel.values[row] ?? 0) > (channel.values[best] ?? 0) ? row : best), rows[0] ?? 0);
  const least = rows.reduce((best, row) => ((channel.values[row] ?? 0) < (channel.values[best] ?? 0) ? row : best), rows[0] ?? 0);
  const seconds = (row: number | undefined) => (channel.times[row ?? 0] ?? 0) / 1000;
  return {
    n: rows.length,
    start: at(rows[0]),
    end: at(rows.at(-1)),
    t0: seconds(rows[0]),
    t1: seconds(rows.at(-1)),
    peak: at(peak),
    peakAt: seconds(peak),
    minimum: at(least),
    minimumAt: seconds(least),
    negative: rows.filter((row) => (channel.values[row] ?? 0) < 0).length,
    none: channel.times.length - rows.length,
  };
}

/** Mean of the readings as shown, each held until the next: the lower edge, since negatives stay as read there. */
function heldMean(channel: Channel, scale: number): { mean: number; sampledSeconds: number } {
  const made = signalOf(channel, PLAIN_SETTINGS, [], null);
  if (!made.ok) throw new Error(made.refusal.type);
  const { low, sampledMs } = sampledMean(made.value.signal);
  return { mean: (low ?? Number.NaN) * scale, sampledSeconds: sampledMs / 1000 };
}

// biome-ignore lint/suspicious/noExplicitAny: reference figures as published beside the files; missing keys fail the comparison
const reference = (set: string): any => (isThere ? JSON.parse(readFileSync(`${datasets}/${set}/reference_stats.json`, "utf8")).tests : {});
const files = (set: string) => (isThere ? readdirSync(`${datasets}/${set}`).filter((file) => file.endsWith(".csv")) : []);

const near = (value: number, expected: number, digits = 7) =>
  expect(Math.abs(value - expected)).toBeLessThanOrEqual(10 ** -digits * Math.max(1, Math.abs(expected)));

describe.skipIf(!isThere)(title("memorial-tunnel"), () => {
  test.each(files("memorial-tunnel"))("%s: every channel agrees with its reference statistics", (file) => {
    const { channels } = readRecording(`memorial-tunnel/${file}`);
    const expected = reference("memorial-tunnel")[file.replace(".csv", "")];
    expect(channels.map(({ name }) => name)).toEqual(expected.channels);
    for (const channel of channels) {
      const stats = expected.stats[channel.name];
      const found = figures(channel, 1);
      expect([found.n, found.t0, found.t1, found.peakAt]).toEqual([stats.n, stats.t0_s, stats.t1_s, stats.t_peak_s]);
      near(found.peak, stats.peak);
      const held = heldMean(channel, 1);
      near(held.mean, stats.mean_previous_hold);
      expect(held.sampledSeconds).toBe(stats.duration_s);
    }
  });
});

describe.skipIf(!isThere)(title("house-fires"), () => {
  test.each(files("house-fires"))("%s: every channel agrees with its reference statistics", (file) => {
    const { channels } = readRecording(`house-fires/${file}`);
    const expected = reference("house-fires")[file.replace("_gases.csv", "")];
    expect(channels).toHaveLength(6);
    for (const channel of channels) {
      const isCarbonMonoxide = channel.name.startsWith("CO_");
      const stats = expected.stats[`${channel.name}${isCarbonMonoxide ? "_ppm" : "_pct"}`];
      const found = figures(channel, isCarbonMonoxide ? 1e6 : 100);
      expect([channel.unit, found.n]).toEqual(["mol/mol", stats.n]);
      expect(found.negative).toBe(expected.negative_values_by_column[channel.name] ?? 0);
      expect(found.none).toBe(expected.nan_values_by_column[channel.name] ?? 0);
      if (channel.name.startsWith("O2_")) {
        near(found.start, stats.start);
        near(found.minimum, stats.minimum);
        near(found.end, stats.end);
        expect(found.minimumAt).toBe(stats.t_minimum_s);
      } else {
        near(found.peak, stats.peak);
        expect(found.peakAt).toBe(stats.t_peak_s);
      }
      if (!isCarbonMonoxide) continue;
      expect([found.t0, found.t1]).toEqual([stats.t0_s, stats.t1_s]);
      const held = heldMean(channel, 1e6);
      near(held.mean, stats.mean_previous_hold);
      expect(held.sampledSeconds).toBe(stats.duration_s);
    }
  });
});

describe.skipIf(!isThere)(title("enclosure-fires"), () => {
  test("64 tests in one file agree with their reference statistics", () => {
    const { channels } = readRecording("enclosure-fires/enclosure_o2_co2.csv");
    const expected = reference("enclosure-fires");
    const tests = new Set(channels.map(({ series }) => series?.value));
    expect(tests).toEqual(new Set(Object.keys(expected)));
    for (const channel of channels) {
      if (channel.name !== "O2" && channel.name !== "CO2") continue;
      const stats = expected[channel.series?.value ?? ""];
      const found = figures(channel, 100);
      expect([found.n, found.t1]).toEqual([stats.rows, stats.last_time_s]);
      if (channel.name === "CO2") near(found.peak, stats.co2_max_pct);
      else {
        near(found.start, stats.o2_start_pct);
        near(found.minimum, stats.o2_min_pct);
      }
    }
  });
});
