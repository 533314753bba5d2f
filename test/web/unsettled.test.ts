import { describe, expect, test } from "vitest";
import type { Channel, Declaration, Recording } from "../../src/core/recording/index.ts";
import type { Instant } from "../../src/core/time/index.ts";
import { noSettings } from "../../src/web/desk/held-files.ts";
import { metBy, unsettledIn } from "../../src/web/desk/unsettled.ts";

const minute = 60_000;

/** 11 readings of 40, one a minute, with a hole from minute 4 to minute 8 and an open over-range reading in minute 9. */
const channel: Channel = {
  name: "CO",
  series: null,
  gas: "carbon_monoxide",
  unit: "ppm",
  kind: "spot",
  decimals: 0,
  times: Float64Array.of(0, 1, 2, 3, 4, 8, 9, 10).map((at) => at * minute),
  values: Int32Array.of(40, 40, 0, 40, 40, 40, 500, 40),
  uppers: null,
  codes: Uint8Array.of(0, 0, 0, 0, 0, 0, 1, 0),
  lines: null,
  rangeTop: null,
} as unknown as Channel; // the fields that only readers of files need are left out

const recording = { channels: [channel], clock: { kind: "elapsed" } } as unknown as Recording; // as above

const said = (kind: "unexposed" | "over-range bound", from: number, to: number): Declaration =>
  ({
    id: "d",
    channel: "CO",
    from: (from * minute) as Instant,
    to: (to * minute) as Instant,
    by: "A",
    on: "2026-11-25",
    reason: "r",
    kind,
    ...(kind === "over-range bound" ? { levelText: "900", holds: "at any moment" } : {}),
  }) as Declaration; // the test's own instants

describe("time that readings leave to a person", () => {
  test("is the hole and the open over range; in a shift also the time around the recording, longest first", () => {
    const alone = unsettledIn(recording, "CO", noSettings, null);
    expect(alone).toEqual([
      { kind: "unsampled", from: 5.5 * minute, to: 8 * minute },
      { kind: "over range", from: 9 * minute, to: 10 * minute },
    ]);
    const inShift = unsettledIn(recording, "*", noSettings, { from: 0, to: 30 * minute });
    expect(inShift[0]).toMatchObject({ kind: "unsampled", to: 30 * minute });
    expect(inShift.length).toBe(3);
  });

  test.each([
    ["over measured time only", said("unexposed", 0, 3), { unsampledMs: 0, readings: 3, aboveNought: 2, greatest: 40 }],
    ["over the hole only", said("unexposed", 5.5, 8), { unsampledMs: 2.5 * minute, readings: 0, greatest: null }],
    [
      "over all of it, the last reading too",
      said("unexposed", 0, 10),
      { unsampledMs: 2.5 * minute, readings: 8, aboveNought: 7, greatest: 500 },
    ],
    ["after the last reading without a shift", said("unexposed", 10, 20), { unsampledMs: 0, readings: 0 }],
    ["over range", said("over-range bound", 8.5, 10), { overRangeMs: minute }],
  ])("a statement %s", (_, declaration, met) => {
    expect(metBy(recording, declaration, noSettings)).toMatchObject(met);
  });

  test("a statement after the last reading settles time once the shift reaches there", () => {
    const settings = { ...noSettings, shifts: [{ from: 0, to: 20 * minute }] };
    expect(metBy(recording, said("unexposed", 10, 20), settings)).toMatchObject({ unsampledMs: 10 * minute, readings: 0 });
  });
});
