import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  clockTexts,
  decimalsFor,
  durationText,
  exactText,
  percentText,
  rangeFigures,
  rangeText,
  roundedText,
  spanText,
} from "../../src/report/index.ts";

/** The narrow space and the minus sign as a keyboard has them, so that the tables below can be read. */
const plain = (text: string): string => text.replaceAll("\u202f", " ").replaceAll("\u2212", "-");
const number = (text: string): number => Number(plain(text).replaceAll(" ", ""));

describe("digits", () => {
  test.each([
    [0.7, "0.7"],
    [1012, "1 012"],
    [-12500.25, "-12 500.25"],
    [1e-7, "0.0000001"],
    [3.98e-6, "0.00000398"],
    [1e21, "1 000 000 000 000 000 000 000"],
    [0, "0"],
  ])("%d keeps all its digits: %s", (value, text) => expect(plain(exactText(value))).toBe(text));

  test.each([
    [28.34, 1, "down", null, "28.3"],
    [28.31, 1, "up", null, "28.4"],
    [28.3, 1, "up", null, "28.3"],
    [0.1 + 0.2, 1, "up", null, "0.3"],
    [-0.04, 1, "nearest", null, "0.0"],
    [-0.04, 1, "down", null, "-0.1"],
    [49.97, 0, "nearest", 50, "49.97"],
    [50.004, 1, "down", 50, "50.004"],
    [34.96, 1, "up", 35, "34.96"],
    [50, 0, "nearest", 50, "50"],
    [99.4, 0, "up", null, "100"],
  ] as const)("%d at %d decimals %s beside %s is %s", (value, decimals, rounding, limit, text) => {
    expect(plain(roundedText(value, decimals, rounding, limit))).toBe(text);
  });

  test("a bound never moves inward, no figure crosses the limit, and the best stays nearest", () => {
    const value = fc.double({ min: -1e6, max: 1e6, noNaN: true });
    fc.assert(
      fc.property(value, fc.integer({ min: 0, max: 4 }), value, (amount, decimals, limit) => {
        const down = number(roundedText(amount, decimals, "down", limit));
        const up = number(roundedText(amount, decimals, "up", limit));
        const nearest = number(roundedText(amount, decimals, "nearest", limit));
        const slack = Math.abs(amount) * 1e-14;
        expect(down).toBeLessThanOrEqual(amount + slack);
        expect(up).toBeGreaterThanOrEqual(amount - slack);
        expect(Math.abs(nearest - amount)).toBeLessThanOrEqual(0.5 * 10 ** -decimals + slack);
        for (const shown of [down, up, nearest]) expect(Math.sign(shown - limit) === Math.sign(amount - limit)).toBe(true);
      }),
      { numRuns: 2000 },
    );
  });

  test.each([
    [[31.02, 28.3, 35], 1],
    [[1012], 0],
    [[0.186], 3],
    [[0, null], 0],
  ] as const)("%j shows %d decimals", (values, decimals) => expect(decimalsFor(values)).toBe(decimals));

  test("units and thousands stand behind a narrow no-break space, minus is a minus", () => {
    expect(exactText(-1012)).toBe("\u22121\u202f012");
    expect(durationText(70)).toBe("70\u202fs");
  });

  test("nearly all is not all", () => {
    expect(plain(percentText(0.9999))).toBe("99 %");
    expect(plain(percentText(0.004))).toBe("under 1 %");
    expect(plain(percentText(0))).toBe("0 %");
    expect(plain(percentText(1))).toBe("100 %");
    expect(plain(percentText(0.936))).toBe("93 %");
  });
});

describe("ranges and times", () => {
  test.each([
    [{ low: 28.34, best: 31.02, high: 33.61 }, 35, "31.0 ppm, 28.3 to 33.7"],
    [{ low: 14.9, best: null, high: null }, 50, "14.9 to open ppm"],
    [{ low: 12.5, best: 12.5, high: 12.5 }, null, "12.5 ppm"],
    [{ low: 0, best: 0, high: 0 }, 10, "0 ppm"],
    [{ low: 0.02541, best: null, high: null }, 100, "0.0254 to open ppm"],
    [{ low: 0.7, best: null, high: null }, 200, "0.700 to open ppm"],
    [{ low: 88.594, best: null, high: null }, 100, "88.5 to open ppm"],
    [{ low: 75.31, best: 75.31, high: 75.31 }, 200, "75.3 ppm"],
    // A declared worst case is a bound and no best figure.
    [{ low: 32.5, best: 55, high: 55 }, 50, "32.5 to 55.0 ppm"],
    [{ low: 17.71, best: null, high: 21.13 }, 20, "17.7 to 21.2 ppm"],
  ])("%j against %s is %s", (range, limit, text) => expect(plain(rangeText(range, limit, "ppm"))).toBe(text));

  test("how a number is shown hangs on the number and its limit alone, whatever stands beside it", () => {
    const level = fc.double({ min: 0.001, max: 1e5, noNaN: true });
    fc.assert(
      fc.property(level, level, level, (one, other, third) => {
        const [low = 0, best = 0, high = 0] = [one, other, third].toSorted((a, b) => a - b);
        const alone = rangeFigures({ low, best: null, high: null }, null).low;
        expect(rangeFigures({ low, best, high }, null).low).toBe(alone);
        expect(number(alone)).toBeGreaterThan(0);
        expect(low - number(alone)).toBeLessThanOrEqual(low / 99);
      }),
    );
  });

  test("a high end just under the limit gets one more digit, not the limit", () => {
    expect(rangeFigures({ low: 10, best: 30, high: 34.996 }, 35).high).toBe("34.996");
  });

  test.each([
    [70, "70 s"],
    [600, "10 min"],
    [5400, "1 h 30 min"],
    [0.25, "0.25 s"],
    [28800, "8 h"],
    [3601, "1 h 1 s"],
  ])("%d s is %s", (seconds, text) => expect(plain(durationText(seconds))).toBe(text));

  test("times stand on the clock of the file", () => {
    expect(clockTexts("2026-11-24T10:44:50Z", "Europe/Berlin")).toEqual({ date: "Tue 24 Nov 2026", clock: "11:44:50" });
    expect(clockTexts("2025-10-26T00:30:00Z", "Europe/London").clock).toBe("01:30:00");
    expect(plain(clockTexts("PT1943.5S", null).clock)).toBe("32 min 24 s");
    expect(spanText("2026-03-04T22:00:00Z", "2026-03-05T06:00:00Z", null)).toBe("Wed 4 Mar 2026 22:00:00 to Thu 5 Mar 2026 06:00:00");
  });
});
