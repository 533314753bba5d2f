import { describe, expect, test } from "vitest";
import { blockSummaries, type Channel, READING, signalOf } from "../../src/core/recording/index.ts";
import type { Geometry } from "../../src/web/desk/drawing.ts";
import { noSettings } from "../../src/web/desk/held-files.ts";
import { rawPath } from "../../src/web/desk/raw-path.ts";
import { signalSettings } from "../../src/web/desk/unsettled.ts";

const second = 1000;

/** One reading of 5 a second but for some seconds in which the channel was out of its range. */
const channelOf = (rows: number, from: number, to: number, code: number, top: number): Channel =>
  ({
    name: "CO",
    series: null,
    gas: "carbon_monoxide",
    unit: "ppm",
    kind: "spot",
    decimals: 0,
    times: Float64Array.from({ length: rows }, (_, row) => row * second),
    values: Int32Array.from({ length: rows }, (_, row) => (row >= from && row < to ? top : 5)),
    uppers: null,
    codes: Uint8Array.from({ length: rows }, (_, row) => (row >= from && row < to ? code : READING.valid)),
    lines: null,
    rangeTop: null,
  }) as Channel;

/** Values on the scale are pixels from the foot, so that a path can be read. */
const geometry: Geometry = { left: 0, height: 100, head: 0, foot: 0, scale: [0, 100] };

const pathOf = (channel: Channel, columns: number): string => {
  const signal = signalOf(channel, { ...signalSettings(channel, noSettings), outside: null }, [], null);
  if (!signal.ok) throw new Error(JSON.stringify(signal.refusal));
  const rows = channel.times.length;
  const drawn = { channel, signal: signal.value, summaries: blockSummaries(channel, signal.value.largestGap.ms) };
  return rawPath(drawn, 0, rows * second, columns, geometry);
};

/** Heights that a path reaches, and the pixels at which it is broken: where a piece ends and where the next one begins. */
const readPath = (path: string): { readonly heights: readonly number[]; readonly pieces: readonly (readonly [number, number])[] } => {
  const heights = new Set<number>();
  const pieces = path
    .split("M")
    .slice(1)
    .map((piece) => {
      const [start = "", ...rest] = piece.split(/(?=[HV])/);
      const [x = "", y = ""] = start.split(" ");
      heights.add(100 - Number(y));
      for (const act of rest.filter((one) => one.startsWith("V"))) heights.add(100 - Number(act.slice(1)));
      const ends = rest.filter((one) => one.startsWith("H")).map((one) => Number(one.slice(1)));
      return [Number(x), Math.max(...ends)] as const;
    });
  return { heights: [...heights].sort((a, b) => a - b), pieces };
};

/** Few readings a pixel, and many: drawn step by step, and by columns. */
const finenesses = [
  { name: "step by step", rows: 100, columns: 200 },
  { name: "by columns", rows: 20_000, columns: 200 },
] as const;

describe.each(finenesses)("a series drawn $name", ({ rows, columns }) => {
  const [from, to] = [rows * 0.4, rows * 0.5];

  test("has no line where it was out of a range whose top nobody knows", () => {
    const { heights, pieces } = readPath(pathOf(channelOf(rows, from, to, READING.overRangeUnbounded, 0), columns));
    expect(heights).toEqual([5]);
    expect(pieces.length).toBe(2);
    expect(pieces[0]?.[0]).toBe(0);
    expect(pieces[0]?.[1]).toBeCloseTo(80, 0);
    expect(pieces[1]?.[0]).toBeCloseTo(100, 0);
  });

  test("stands at the top of a range that is known", () => {
    const { heights, pieces } = readPath(pathOf(channelOf(rows, from, to, READING.overRange, 50), columns));
    expect(heights).toEqual([5, 50]);
    expect(pieces.length).toBe(1);
  });

  test("shows nought where nought was read", () => {
    const { heights, pieces } = readPath(pathOf(channelOf(rows, from, to, READING.valid, 0), columns));
    expect(heights).toEqual([0, 5]);
    expect(pieces.length).toBe(1);
  });
});

test("the columns of a view that reaches beyond the recording are those of the whole recording, moved", () => {
  const channel = channelOf(20_000, 8000, 8001, READING.valid, 90);
  const whole = pathOf(channel, 200);
  const signal = signalOf(channel, { ...signalSettings(channel, noSettings), outside: null }, [], null);
  if (!signal.ok) throw new Error(JSON.stringify(signal.refusal));
  const drawn = { channel, signal: signal.value, summaries: blockSummaries(channel, signal.value.largestGap.ms) };
  const span = 20_000 * second;
  expect(rawPath(drawn, -span, span * 2, 600, { ...geometry, left: -200 })).toBe(whole);
});
