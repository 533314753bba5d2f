// A shift is drawn whole: what was not measured of it is a gap, on an axis that reaches its ends, between lines that name them.
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { ShiftSpan } from "../../src/core/exposure/assessment.ts";
import type { Channel, Recording } from "../../src/core/recording/index.ts";
import { noSettings } from "../../src/web/desk/held-files.ts";
import { HeldRecording } from "../../src/web/desk/held-recording.ts";
import type { FrameAsk, PanelFrame, Settings } from "../../src/web/desk/protocol.ts";
import { clockOf } from "../../src/web/parts/clock.ts";
import { extentOf } from "../../src/web/recording/extent.ts";
import { groundsOnce } from "../../src/web/recording/grounds-once.ts";
import { shiftBounds } from "../../src/web/recording/shift-bounds.ts";
import type { OpenedRecording } from "../../src/work/open-recording.ts";

const minute = 60_000;
const day = Date.UTC(2026, 2, 4);
const at = (hour: number): number => day + hour * 60 * minute;
const shift = (from: number, to: number): ShiftSpan => ({ from: at(from), to: at(to) });

/** A reading of 5 a minute; a mean stands for the minute before its row. */
const channelOf = (name: string, from: number, to: number, kind: Channel["kind"] = "spot"): Channel => {
  const rows = (to - from) * 60 + 1;
  const channel = {
    ...{ name, kind, series: null, gas: "carbon_monoxide", unit: "ppm", decimals: 0 },
    ...{ uppers: null, codes: null, lines: null, rangeTop: null },
    times: Float64Array.from({ length: rows }, (_, row) => at(from) + row * minute),
    values: new Int32Array(rows).fill(5),
  };
  // The id of a gas is branded where substances are read.
  return channel as unknown as Channel;
};

const held = (...channels: readonly Channel[]): HeldRecording =>
  // Drawing reads nothing of how the file was opened.
  new HeldRecording({} as OpenedRecording, { channels, clock: { kind: "instants", zone: "UTC" } } as unknown as Recording);

const view = { from: at(0), to: at(24) };

const drawn = (recording: HeldRecording, settings: Settings, channel = 0): PanelFrame => {
  const panel = { channel, windowMs: 15 * minute, limit: null, height: 100, head: 0, foot: 0, scale: [0, 100] as const };
  const ask: FrameAsk = { type: "frame", id: "one", ...view, width: 480, panels: [panel], settings };
  const [frame] = recording.frame(ask).panels;
  if (frame === undefined) throw new Error("nothing was drawn");
  return frame;
};

const gaps = (recording: HeldRecording, shifts: readonly ShiftSpan[], channel = 0): readonly (readonly [number, number])[] =>
  drawn(recording, { ...noSettings, shifts }, channel)
    .stretches.filter(({ kind }) => kind === "gap")
    .map(({ from, to }) => [(from - day) / 60 / minute, (to - day) / 60 / minute]);

describe("time of a shift without readings", () => {
  const cases: readonly (readonly [string, readonly ShiftSpan[], readonly (readonly [number, number])[]])[] = [
    ["none without a shift", [], []],
    ["none where the readings reach beyond it", [shift(8, 10)], []],
    ["its end", [shift(6, 14)], [[12.5 + 1 / 60, 14]]],
    ["its start", [shift(5, 10)], [[5, 6]]],
    [
      "both",
      [shift(5, 14)],
      [
        [5, 6],
        [12.5 + 1 / 60, 14],
      ],
    ],
    ["the end of the last of two", [shift(6, 10), shift(10, 14)], [[12.5 + 1 / 60, 14]]],
    ["not that of a shift that no reading is in", [shift(15, 20)], []],
  ];
  test.each(cases)("is drawn as a gap: %s", (_, shifts, expected) => {
    const spans = gaps(held(channelOf("CO", 6, 12.5)), shifts);
    expect(spans.length).toBe(expected.length);
    for (const [place, [from, to]] of spans.entries()) {
      // The last reading may hold for a while; the gap begins at its end.
      expect(from).toBeGreaterThanOrEqual((expected[place]?.[0] ?? 0) - 2 / 60);
      expect(from).toBeLessThanOrEqual((expected[place]?.[0] ?? 0) + 2 / 60);
      expect(to).toBe(expected[place]?.[1]);
    }
  });

  test("follows the shift when it is set, made shorter and taken away", () => {
    const recording = held(channelOf("CO", 6, 12));
    const counts = [[], [shift(6, 14)], [shift(6, 13)], [shift(6, 12)], []].map((shifts) => gaps(recording, shifts).at(-1)?.[1] ?? null);
    expect(counts).toEqual([null, 14, 13, null, null]);
  });

  test("is drawn in each channel, also in one that had ended when the shift began", () => {
    const recording = held(channelOf("CO", 6, 12), channelOf("H2S", 6, 8));
    expect(gaps(recording, [shift(9, 13)], 1).at(-1)?.[1]).toBe(13);
    expect(gaps(recording, [], 1)).toEqual([]);
  });

  test("leaves what was read as it was drawn, the interval of the first mean too", () => {
    for (const kind of ["spot", "interval mean"] as const) {
      const recording = held(channelOf("CO", 6, 12, kind));
      const [before, after] = [[], [shift(5, 14)]].map((shifts) => drawn(recording, { ...noSettings, shifts }).raw);
      const start = (path: string | undefined): string => path?.slice(0, path.indexOf("H")) ?? "";
      expect(start(after)).toBe(start(before));
    }
  });
});

describe("the axis", () => {
  const rows = { from: at(6), to: at(12.5) };
  const channels = [{ ...rows }] as unknown as Parameters<typeof extentOf>[0]; // of a sketch the extent reads its ends
  const cases: readonly (readonly [readonly ShiftSpan[], number, number])[] = [
    [[], 6, 12.5],
    [[shift(6, 14)], 6, 14],
    [[shift(5, 9), shift(9, 13)], 5, 13],
    [[shift(7, 8)], 6, 12.5],
    [[shift(200, 208)], 6, 12.5],
  ];
  test.each(cases)("of readings from 06:00 to 12:30 in %j is from %d h to %d h", (shifts, from, to) => {
    expect(extentOf(channels, shifts)).toEqual({ from: at(from), to: at(to) });
  });
});

describe("lines at the ends of shifts", () => {
  const clock = clockOf({ kind: "instants", zone: "UTC" });
  const says = (shifts: readonly ShiftSpan[], extent = { from: at(6), to: at(22) }) =>
    shiftBounds(shifts, clock, extent).map((one) => one.says);

  test("say which end they are, once where two shifts meet", () => {
    expect(says([shift(6, 14), shift(14, 22)])).toEqual(["shift begins 06:00", "shifts change at 14:00", "shift ends 22:00"]);
  });

  test("name the day where there are several, and seconds where they count", () => {
    expect(says([shift(22, 30)], { from: at(22), to: at(30) })).toEqual(["shift begins Wed 4 Mar 22:00", "shift ends Thu 5 Mar 06:00"]);
    expect(says([{ from: at(6) + 15_000, to: at(14) }])).toEqual(["shift begins 06:00:15", "shift ends 14:00"]);
  });

  test("are not drawn beyond the axis", () => {
    expect(says([shift(30, 38)])).toEqual([]);
  });
});

describe("grounds that several findings share", () => {
  const list = fc.uniqueArray(fc.constantFrom("a", "b", "c", "d", "e", "f"), { maxLength: 6 });
  const groups = fc.array(fc.array(list, { minLength: 1, maxLength: 4 }), { minLength: 1, maxLength: 4 });

  test("stand once, and with what is left to each finding are all that it rests on", () => {
    fc.assert(
      fc.property(groups, (given) => {
        const made = groundsOnce(given);
        for (const [group, lists] of given.entries())
          for (const [place, lines] of lists.entries()) {
            const { shared = [], own = [] } = made.groups[group] ?? {};
            const parts = [...made.all, ...shared, ...(own[place] ?? [])];
            expect([...parts].sort()).toEqual([...lines].sort());
          }
      }),
    );
  });

  test("of all, of a gas, and of one", () => {
    const lists = [
      [
        ["file", "gap", "x"],
        ["file", "gap", "y"],
      ],
      [["file", "z"]],
    ];
    expect(groundsOnce(lists)).toEqual({
      all: ["file"],
      groups: [
        { shared: ["gap"], own: [["x"], ["y"]] },
        { shared: [], own: [["z"]] },
      ],
    });
  });
});
