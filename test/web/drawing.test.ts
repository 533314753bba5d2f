import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { RollingMean } from "../../src/core/exposure/rolling-mean.ts";
import { type Columns, columnPath, coverageSetting, type Geometry, meanPaths, stepPath } from "../../src/web/desk/drawing.ts";

const geometry: Geometry = { left: 0, height: 118, head: 14, foot: 4, scale: [0, 100] };

/** What a path of M, H and V paints: for each pixel column the lowest and highest y that it touches. */
const painted = (path: string, columns: number): readonly (readonly [number, number] | null)[] => {
  const rows: ([number, number] | null)[] = Array.from({ length: columns }, () => null);
  const touch = (column: number, a: number, b: number): void => {
    if (column < 0 || column >= columns) return;
    const known = rows[column] ?? [a, a];
    rows[column] = [Math.min(known[0], a, b), Math.max(known[1], a, b)];
  };
  let [x, y] = [0, 0];
  for (const [, act, first, second] of path.matchAll(/([MHV])(-?[\d.]+)(?: (-?[\d.]+))?/g)) {
    if (act === "M") [x, y] = [Number(first), Number(second)];
    else if (act === "V") {
      touch(Math.floor(x), y, Number(first));
      y = Number(first);
    } else {
      for (let column = Math.floor(x); column < Math.ceil(Number(first)); column++) touch(column, y, y);
      x = Number(first);
    }
  }
  return rows;
};

/** First, last, lowest and highest by looking at every reading: the plainest way there is. */
const thinned = (values: readonly number[], perColumn: number): Columns => {
  const columns = Math.ceil(values.length / perColumn);
  const groups = Array.from({ length: columns }, (_, at) => values.slice(at * perColumn, (at + 1) * perColumn));
  return {
    first: Float64Array.from(groups, (group) => group[0] ?? Number.NaN),
    last: Float64Array.from(groups, (group) => group.at(-1) ?? Number.NaN),
    lowest: Float64Array.from(groups, (group) => Math.min(...group)),
    highest: Float64Array.from(groups, (group) => Math.max(...group)),
    broken: new Uint8Array(columns),
  };
};

describe("a thinned series", () => {
  test("paints what the whole series paints (M4: Jugel et al., PVLDB 7(10) 2014, abstract read)", () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 0, max: 100 }), { minLength: 20, maxLength: 400 }),
        fc.integer({ min: 2, max: 10 }),
        (values, perColumn) => {
          const columns = Math.ceil(values.length / perColumn);
          const edges = Array.from({ length: values.length + 1 }, (_, at) => at / perColumn);
          // Edges in tenths of a pixel are rounded alike only where a column holds 2, 5 or 10 readings.
          fc.pre(10 % perColumn === 0);
          const whole = painted(stepPath(edges, values, geometry), columns);
          expect(painted(columnPath(thinned(values, perColumn), geometry), columns)).toEqual(whole);
        },
      ),
    );
  });

  test("keeps a peak of one reading", () => {
    const values = Array.from({ length: 1000 }, (_, at) => (at === 537 ? 90 : 1));
    const rows = painted(columnPath(thinned(values, 100), geometry), 10);
    expect(rows[5]?.[0]).toBe(114 - 90);
  });

  test("breaks its line at a gap and carries a value over a column without readings", () => {
    const columns: Columns = {
      first: Float64Array.of(1, Number.NaN, 1, Number.NaN, 1),
      last: Float64Array.of(1, Number.NaN, 1, Number.NaN, 1),
      lowest: Float64Array.of(1, Number.NaN, 1, Number.NaN, 1),
      highest: Float64Array.of(1, Number.NaN, 1, Number.NaN, 1),
      broken: Uint8Array.of(0, 0, 0, 0, 1),
    };
    expect(columnPath(columns, geometry)).toBe("M0 113H2V113H3M4 113H5");
  });
});

const mean = (low: readonly number[], high: readonly number[], coverage: readonly number[]): RollingMean => ({
  columns: low.length,
  from: 0,
  to: low.length,
  lowMin: Float64Array.from(low),
  lowMax: Float64Array.from(low),
  highMin: Float64Array.from(high),
  highMax: Float64Array.from(high),
  coverage: Float64Array.from(coverage),
  reachesUnknown: new Uint8Array(low.length),
});

describe("the rolling mean", () => {
  test("is dashed below the coverage setting and not drawn where nothing was measured", () => {
    const paths = meanPaths(mean([1, 1, 1, 1], [1, 1, 1, 1], [1, coverageSetting - 0.01, 0, 1]), null, geometry);
    expect(paths.mean).toBe("M0 113h1M3 113h1");
    expect(paths.thin).toBe("M1 113h1");
  });

  test("is red above the limit and only there; exactly the limit is not above it", () => {
    const paths = meanPaths(mean([10, 10.1, 10], [10, 10.1, 10], [1, 1, 1]), 10, geometry);
    expect(paths.hot).toBe("M1 103.9h1");
  });

  test("says where there is no upper bound, and draws a ribbon where there is one", () => {
    const paths = meanPaths(mean([10, 10], [20, Number.NaN], [1, 1]), null, geometry);
    expect(paths.ribbon).toBe("M0 94L1 94L1 104L0 104Z");
    expect(paths.unbounded).toBe("M1 14L2 14L2 104L1 104Z");
  });

  test("has no value while its window reaches into time that nobody spoke for (handbook interface.md 10.3, 6)", () => {
    const early = { ...mean([1, 1], [1, 1], [1, 1]), reachesUnknown: Uint8Array.of(1, 0) };
    expect(meanPaths(early, null, geometry).mean).toBe("M1 113h1");
  });
});
