// Where words of a panel stand, and which are said first: tables of cases, and properties over any panel.
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { byGravity } from "../../src/report/index.ts";
import type { PanelFrame } from "../../src/web/desk/protocol.ts";
import { clockOf } from "../../src/web/parts/clock.ts";
import { extremeOf, extremeWords } from "../../src/web/recording/extreme-words.ts";
import { type Box, meet, placeLabels, spread } from "../../src/web/recording/label-places.ts";
import { limitLines } from "../../src/web/recording/limit-lines.ts";
import { skylineOf } from "../../src/web/recording/skyline.ts";
import { momentWords, spanWords } from "../../src/web/recording/span-words.ts";
import type { ChannelAnswer, FindingAnswer, LimitAnswer } from "../../src/work/answer.ts";

const limit = (
  regime: string,
  kind: string,
  value: number | null,
  averagingMinutes: number | null,
  more: Partial<LimitAnswer> = {},
): LimitAnswer => ({
  ...{ id: `${regime}/gas/${kind}`, regime, kind, value, unit: "ppm", operator: ">", averagingMinutes, levels: null, lowered: null },
  ...{ source: "invented", edition: "1", mark: "read" },
  ...more,
});

const finding = (of: LimitAnswer, outcome: FindingAnswer["outcome"], low = 1): FindingAnswer => ({
  ...{ id: of.id, limit: of, unit: "ppm", outcome, low, best: null, high: null, coverage: 1, wStar: null, shiftRule: null },
  ...{ windowStart: null, windowEnd: null, parts: [], grounds: [], assumptions: [], undecidedBy: [], method: { id: "m", edition: 1 } },
});

const channel = (more: Partial<ChannelAnswer>): ChannelAnswer => ({
  ...{ name: "CO (ppm)", series: null, shift: 0, gas: "carbon_monoxide", unit: "ppm", samples: 2, sampledSeconds: 1 },
  ...{
    start: "2026-03-04T06:00:00Z",
    end: "2026-03-04T14:00:00Z",
    mean: { low: 0, best: 0, high: 0 },
    twa8h: { low: 0, best: 0, high: 0 },
  },
  ...{
    stel: {
      low: 0,
      best: 0,
      high: 0,
      windowMinutes: 15,
      windowStart: "2026-03-04T06:00:00Z",
      windowEnd: "2026-03-04T06:15:00Z",
      coverage: 1,
    },
  },
  ...{ peak: null, lowest: null, findings: [], notCompared: [], episodes: [], grounds: [], assumptions: [] },
  ...more,
});

describe("labels in a panel", () => {
  const room = { width: 600, band: 24, last: 180, taken: [{ x: 0, y: 0, width: 60, height: 24 }] };
  const boxes = fc.array(
    fc.record({
      from: fc.integer({ min: -200, max: 700 }),
      length: fc.integer({ min: 1, max: 400 }),
      width: fc.integer({ min: 20, max: 260 }),
    }),
    { maxLength: 6 },
  );
  const hills = fc.array(
    fc.record({ x: fc.nat(580), y: fc.nat(190), width: fc.integer({ min: 2, max: 200 }), height: fc.integer({ min: 2, max: 150 }) }),
    {
      maxLength: 8,
    },
  );

  test("keep within it, apart from each other and off what is drawn, whatever is asked for", () => {
    fc.assert(
      fc.property(boxes, hills, (asked, drawn) => {
        const isFree = (box: Box): boolean => drawn.every((hill) => !meet(box, hill));
        const wanted = asked
          .map(({ from, length, width }) => ({ from, to: from + length, width }))
          .filter(({ from, to }) => to > 0 && from < 600);
        const placed = placeLabels(wanted, { ...room, isFree }).filter((box) => box !== null);
        for (const [at, box] of placed.entries()) {
          expect(box.x).toBeGreaterThanOrEqual(0);
          expect(box.x + box.width).toBeLessThanOrEqual(600);
          expect(isFree(box)).toBe(true);
          expect([...room.taken, ...placed.slice(0, at)].some((other) => meet(box, other))).toBe(false);
        }
      }),
    );
  });

  test("stand over what they name where they can, and beside it where another label is there", () => {
    const free = { ...room, isFree: () => true };
    expect(placeLabels([{ from: 300, to: 320, width: 100 }], free)).toMatchObject([{ x: 260, y: 1 }]);
    const two = placeLabels(
      [
        { from: 300, to: 302, width: 100 },
        { from: 440, to: 460, width: 180 },
      ],
      free,
    );
    expect(two).toMatchObject([
      { x: 251, y: 1 },
      { x: 360, y: 1 },
    ]);
  });

  test("never stand over another stretch than their own", () => {
    const [, gap] = placeLabels(
      [
        { from: 280, to: 282, width: 10 },
        { from: 560, to: 598, width: 270 },
      ],
      { ...room, isFree: () => true },
    );
    expect(gap).toMatchObject({ x: 330, y: 1 });
  });

  test("are left out where nothing is free: then they are said in words", () => {
    expect(placeLabels([{ from: 10, to: 20, width: 50 }], { ...room, isFree: () => false })).toEqual([null]);
  });
});

test("names beside the panel keep their order and stay apart, or there is no room for all", () => {
  const names = fc.array(fc.record({ y: fc.double({ min: -20, max: 300, noNaN: true }), height: fc.integer({ min: 10, max: 60 }) }), {
    maxLength: 8,
  });
  fc.assert(
    fc.property(names, (unsorted) => {
      const wanted = [...unsorted].sort((a, b) => a.y - b.y);
      const tops = spread(wanted, 0, 200);
      const needed = wanted.reduce((sum, { height }) => sum + height, 0);
      if (tops === null) {
        expect(needed).toBeGreaterThan(200);
        return;
      }
      tops.forEach((top, at) => {
        expect(top).toBeGreaterThanOrEqual((tops[at - 1] ?? 0) + (at === 0 ? 0 : (wanted[at - 1]?.height ?? 0)) - 1e-9);
        expect(top + (wanted[at]?.height ?? 0)).toBeLessThanOrEqual(200 + 1e-9);
      });
    }),
  );
});

describe("the skyline of a drawing", () => {
  const plain: PanelFrame = {
    ...{
      channel: 0,
      height: 100,
      head: 0,
      foot: 0,
      scale: [0, 100],
      raw: "",
      mean: "",
      thin: "",
      hot: "",
      wash: "",
      ribbon: "",
      unbounded: "",
    },
    stretches: [],
  };
  const at = (frame: PanelFrame, x: number): readonly [number, number] => {
    const { left, top, foot } = skylineOf(frame, 10);
    return [top[x - left] ?? Number.NaN, foot[x - left] ?? Number.NaN];
  };

  test("knows how high steps, slopes and single columns reach", () => {
    const frame = { ...plain, raw: "M0 90H4V20H6M8 50h1", mean: "M0 80L5 30" };
    expect(at(frame, 1)).toEqual([60, 90]);
    expect(at(frame, 4)).toEqual([20, 90]);
    expect(at(frame, 5)[0]).toEqual(20);
    expect(at(frame, 8)).toEqual([50, 50]);
    expect(at(frame, 7)).toEqual([Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY]);
  });

  test("reaches a view to either side", () => {
    expect(at({ ...plain, raw: "M-10 5H20" }, -10)).toEqual([5, 5]);
    expect(at({ ...plain, raw: "M-10 5H20" }, 19)).toEqual([5, 5]);
  });
});

describe("limits as lines", () => {
  const memory = { mark: "memory" };
  const levels = limit("US-OSHA", "three-level", null, 480, { levels: { ceiling: 20, peak: 50 } });
  const lines = limitLines(
    channel({
      findings: [
        finding(limit("GB-WEL", "stel", 10, 15, memory), "exceeds"),
        finding(limit("FR", "stel", 10, 15), "exceeds"),
        finding(limit("US-NIOSH", "ceiling", 10, 10), "exceeds"),
        finding(limit("GB-WEL", "twa", 5, 480, memory), "undetermined"),
        finding(levels, "exceeds"),
        finding(limit("EU-IOELV", "twa", 14, 480, { unit: "mg/m3" }), "undetermined"),
      ],
    }),
    600_000,
  );

  test("of one value share one line with all their names; both levels of Table Z-2 have one each", () => {
    expect(lines.map(({ figure, names }) => `${figure} ${names}`.replaceAll("\u202f", " "))).toEqual([
      "5 GB-WEL (memory) 8 h, for scale only",
      "10 GB-WEL (memory), FR 15 min; US-NIOSH 10 min ceiling",
      "20 US-OSHA Z-2 ceiling",
      "50 US-OSHA Z-2 peak",
    ]);
  });

  test("lowered for a long shift stand beside the full one, and no line is taken for the other", () => {
    const long = channel({
      findings: [
        finding(limit("US-OSHA", "twa", 50, 480, { lowered: 50 * (5 / 11) }), "exceeds"),
        finding(limit("US-OSHA", "twa", 50, 480), "within"),
        finding(limit("GB-WEL", "twa", 20, 480), "exceeds"),
      ],
    });
    const drawn = limitLines(long, 900_000);
    expect(drawn.map(({ figure, names }) => `${figure} ${names}`.replaceAll("\u202f", " "))).toEqual([
      "20 GB-WEL 8 h, for scale only",
      "22.73 US-OSHA 8 h, lowered for the long shift, for scale only",
      "50 US-OSHA 8 h, for scale only",
    ]);
    expect(drawn.map(({ isLowered }) => isLowered)).toEqual([false, true, false]);
  });

  test("are for scale only where nothing on the line is compared with what is drawn", () => {
    expect(lines.map(({ against }) => against)).toEqual(["scale", "mean", "reading", "reading"]);
  });
});

test("the gravest is said first: outcome, then what is dangerous at once, ceilings, short averages, the shift", () => {
  const order: readonly FindingAnswer[] = [
    finding(limit("A", "immediately-dangerous", 100, null), "exceeds"),
    finding(limit("B", "ceiling", 20, null), "exceeds", 60),
    finding(limit("C", "ceiling", 20, null), "exceeds", 40),
    {
      ...finding(limit("D", "three-level", null, 480), "exceeds"),
      parts: [{ name: "peak", limit: 50, unit: "ppm", outcome: "exceeds", low: 500, best: null, high: null }],
    },
    finding(limit("E", "stel", 10, 15), "exceeds", 90),
    finding(limit("F", "twa", 5, 480), "exceeds", 500),
    finding(limit("G", "immediately-dangerous", 100, null), "undetermined"),
    finding(limit("H", "twa", 5, 480), "within"),
  ];
  fc.assert(
    fc.property(fc.shuffledSubarray([...order], { minLength: order.length }), (shuffled) => {
      expect([...shuffled].sort(byGravity).map((one) => one.limit.regime)).toEqual(order.map((one) => one.limit.regime));
    }),
  );
});

describe("times in words", () => {
  const clock = clockOf({ kind: "instants", zone: "UTC" });
  const at = (text: string): number => Date.parse(text);
  const cases: readonly (readonly [string, string, string])[] = [
    ["2026-03-04T06:00:00Z", "2026-03-04T07:00:00Z", "06:00:00 to 07:00:00"],
    ["2026-03-04T06:00:00Z", "2026-03-05T07:00:00Z", "Wed 4 Mar 06:00:00 to Thu 5 Mar 07:00:00"],
    ["2026-03-04T22:00:00Z", "2026-03-05T06:00:00Z", "Wed 4 Mar 22:00:00 to Thu 5 Mar 06:00:00"],
  ];
  test.each(cases)("%s to %s is %s", (from, to, words) => {
    expect(spanWords(clock, at(from), at(to))).toBe(words);
  });

  test("times from a start have no days", () => {
    expect(spanWords(clockOf({ kind: "elapsed" }), 0, 90_000_000)).toBe("00:00:00 to 25:00:00");
  });

  test("a moment names its day where the recording lies on two", () => {
    const night = { start: "2026-03-04T22:00:00Z", end: "2026-03-05T06:00:00Z" };
    expect(momentWords(clock, at("2026-03-05T01:00:00Z"), night)).toBe("Thu 5 Mar 01:00:00");
    expect(momentWords(clock, at("2026-03-04T07:00:00Z"), channel({}))).toBe("07:00:00");
  });

  test("a greatest reading that was over range is a bound, and is said as one", () => {
    const over = channel({ peak: { value: 5, at: "2026-03-04T07:40:00Z", atLeast: true } });
    expect(extremeOf(over, clock)).toEqual({ before: "peak at least", value: 5, after: ", over range at 07:40:00" });
    expect(extremeWords(over, clock)).toBe("greatest reading at least 5, over range at 07:40:00");
    expect(extremeWords(channel({}), clock)).toBe("no reading");
  });
});
