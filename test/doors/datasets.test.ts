/** Real gas series, in place and without hand editing, through the command line; their statistics are the folder's own. */
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { basename, join } from "node:path";
import { describe, expect, test } from "vitest";
import type { ChannelAnswer } from "../../src/work/answer.ts";
import { exposureJson, ROOT } from "./command.ts";

const DATASETS = process.env["LAMPROOM_DATASETS"] ?? join(ROOT, "../shared/handbook/datasets");
const isThere = existsSync(join(DATASETS, "memorial-tunnel"));
const reason = isThere ? "" : ` (skipped: no data sets in ${DATASETS})`;

/** Statistics of one channel, in ppm or vol % as the end of its key says; mean_previous_hold as read, negatives kept. */
interface Statistics {
  readonly n: number;
  readonly peak?: number;
  readonly t_peak_s?: number;
  readonly duration_s?: number;
  readonly mean_previous_hold?: number;
  readonly minimum?: number;
  readonly t_minimum_s?: number;
}
type FileStatistics = Readonly<Record<string, { readonly rows: number; readonly stats: Readonly<Record<string, Statistics>> }>>;
const statistics = (folder: string): { readonly tests: FileStatistics } =>
  JSON.parse(readFileSync(join(DATASETS, folder, "reference_stats.json"), "utf8"));
const csvFiles = (folder: string): string[] => (isThere ? readdirSync(join(DATASETS, folder)).filter((name) => name.endsWith(".csv")) : []);

describe.skipIf(!isThere)(`NIST Fire Research Division Experimental Database${reason}`, () => {
  test.each([
    ["memorial-tunnel", ["--gas", "*=carbon_monoxide"]],
    ["house-fires", []],
    ["enclosure-fires", []],
  ])(
    "every file of %s is answered",
    async (folder, flags) => {
      const { answer } = await exposureJson([join(DATASETS, folder), ...flags]);
      expect(answer.files.map(({ refusal }) => refusal)).toEqual(csvFiles(folder).map(() => null));
      for (const { channels, lines } of answer.files) {
        expect(channels.length).toBeGreaterThan(0);
        expect(lines?.rejected).toBe(0);
        for (const channel of channels) expect(channel.gas).not.toBeNull();
      }
    },
    120_000,
  );

  test.each([
    ["memorial-tunnel", 150],
    ["house-fires", 30],
  ])(
    "%s: rows, peaks, times and means by previous hold of every channel",
    async (folder, atLeast) => {
      // The reference means let every reading hold until the next, however late it comes.
      const { answer } = await exposureJson([join(DATASETS, folder), "--gas", "*=carbon_monoxide", "--max-gap", "100000"]);
      const { tests } = statistics(folder);
      let compared = 0;
      for (const { file, channels } of answer.files) {
        const known = tests[basename(file).replace(/(_gases)?\.csv$/, "")]?.stats ?? {};
        for (const channel of channels) {
          const [key, scale] = (
            [
              ["", 1],
              ["_ppm", 1e6],
              ["_pct", 100],
            ] as const
          ).find(([end]) => known[channel.name + end] !== undefined) ?? ["", 1];
          const expected = known[channel.name + key];
          if (expected === undefined) continue;
          compareChannel(channel, expected, scale, `${file} ${channel.name}`);
          compared += 1;
        }
      }
      expect(compared).toBeGreaterThan(atLeast);
    },
    120_000,
  );

  test("enclosure-fires: rows, last time, first and lowest oxygen, greatest carbon dioxide of each of the 64 tests", async () => {
    const { answer } = await exposureJson([join(DATASETS, "enclosure-fires"), "--max-gap", "100000"]);
    const { tests } = statistics("enclosure-fires") as unknown as {
      readonly tests: Readonly<Record<string, { rows: number; last_time_s: number; o2_min_pct: number; co2_max_pct: number }>>;
    };
    const channels = answer.files[0]?.channels ?? [];
    for (const [series, expected] of Object.entries(tests)) {
      const [oxygen, dioxide] = ["O2", "CO2"].map((name) =>
        channels.find((channel) => channel.name === name && channel.series?.value === series),
      );
      expect(oxygen).toMatchObject({ samples: expected.rows, end: `PT${expected.last_time_s}S` });
      expect((oxygen?.lowest?.value ?? 0) * 100, series).toBeCloseTo(expected.o2_min_pct, 9);
      expect((dioxide?.peak?.value ?? 0) * 100, series).toBeCloseTo(expected.co2_max_pct, 9);
    }
    expect(Object.keys(tests)).toHaveLength(64);
  }, 120_000);
});

function compareChannel(channel: ChannelAnswer, expected: Statistics, scale: number, where: string): void {
  expect(channel.samples, where).toBe(expected.n);
  if (expected.peak !== undefined) expect((channel.peak?.value ?? 0) * scale, where).toBeCloseTo(expected.peak, 6);
  if (expected.t_peak_s !== undefined) expect(channel.peak?.at, where).toBe(`PT${expected.t_peak_s}S`);
  if (expected.minimum !== undefined) expect((channel.lowest?.value ?? 0) * scale, where).toBeCloseTo(expected.minimum, 6);
  if (expected.t_minimum_s !== undefined) expect(channel.lowest?.at, where).toBe(`PT${expected.t_minimum_s}S`);
  if (expected.duration_s !== undefined) expect(channel.sampledSeconds, where).toBe(expected.duration_s);
  // Printed to ten digits.
  const mean = expected.mean_previous_hold;
  if (mean !== undefined) expect(Math.abs(channel.mean.low * scale - mean), where).toBeLessThanOrEqual(1e-8 * Math.abs(mean));
}
