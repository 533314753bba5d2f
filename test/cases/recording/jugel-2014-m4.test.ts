import { describe, expect, test } from "vitest";
import { type Channel, GAP_FACTOR, keptRows, m4Columns, SEEN } from "../../../src/core/recording/index.ts";
import { type Golden, goldens, named } from "./golden.ts";

const cases = goldens("formats");

function channel(times: readonly number[], values: readonly number[]): Channel {
  const rows = { times: Float64Array.from(times), values: Int32Array.from(values), uppers: null, codes: null, lines: null };
  return { name: "CO", series: null, gas: null, unit: "ppm", kind: "spot", decimals: 0, rangeTop: null, ...rows };
}

const checks: Readonly<Record<string, (golden: Golden) => void>> = {
  "formats-g-m4-01": ({ inputs, expected }) => {
    expect(keptRows(m4Columns(channel(inputs.t, inputs.v), inputs.t0, inputs.t1, inputs.columns, 10, null))).toEqual(expected.kept_indexes);
  },
  "formats-g-m4-02": ({ inputs, expected }) => {
    const rows = Array.from({ length: inputs.count }, (_, row) => row);
    const flat = channel(
      rows.map((row) => row * inputs.interval_s),
      rows.map((row) => (row === inputs.peak_index ? inputs.peak_value : inputs.value_elsewhere)),
    );
    const kept = keptRows(m4Columns(flat, inputs.t0, inputs.t1, inputs.columns, 10, null));
    expect(kept).toContain(expected.kept_contains_index);
    expect(kept).toHaveLength(expected.kept_count);
  },
  "formats-g-m4-03": ({ inputs, expected }) => {
    const times: number[] = inputs.t_s;
    expect(GAP_FACTOR).toBe(inputs.gap_factor);
    const breaks = (rows: readonly number[]) => {
      const columns = m4Columns(
        channel(
          rows,
          rows.map(() => 1),
        ),
        0,
        (rows.at(-1) ?? 0) + 1,
        (rows.at(-1) ?? 0) + 1,
        GAP_FACTOR * inputs.interval_s,
        null,
      );
      return rows.flatMap((time, row) => (((columns.seen[time] ?? 0) & SEEN.gap) === 0 ? [] : [row - 1]));
    };
    expect(breaks(times)).toEqual(expected.line_breaks_after_index);
    expect(breaks(times.map((time) => (time >= 210 ? time + 1 : time)))).toEqual([2]);
  },
  // What thinning must not do: the published case in which a prettier method loses the peak.
  "formats-g-lttb-02": ({ inputs, expected }) => {
    const rows: number[] = inputs.v.map((_: number, row: number) => row);
    const columns = m4Columns(channel(rows, inputs.v), 0, rows.length, 2, 10, null);
    expect(Math.max(...keptRows(columns).map((row) => inputs.v[row]))).toBe(expected.true_max);
  },
};

describe("M4: Jugel, Jerzak, Hackenbroich, Markl, PVLDB 7(10) 2014", () => {
  const reached = Object.keys(checks).map((id) => cases.get(id) as Golden); // a missing case fails below
  test.each(reached.map((golden) => [named(golden), golden] as const))("%s", (_, golden) => checks[golden.id]?.(golden));
});
