import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Channel, type Collected, type CollectSettings, collectRows, INSTANTS, READING } from "../../../src/core/recording/index.ts";
import type { ColumnMapping } from "../../../src/core/table/mapping.ts";

interface Row {
  readonly time: number;
  readonly line: number;
  readonly series?: number;
  /** One a channel: digits, ">500", ">", "<2", "" (no reading), "fault", or null where a long-form line is about another. */
  readonly cells: readonly (string | null)[];
}

const column = (label: string, more: Partial<ColumnMapping> = {}): ColumnMapping => ({
  label,
  role: "reading",
  gas: null,
  unit: "ppm",
  decimalMark: ".",
  groupMark: null,
  kind: "spot",
  rangeTop: null,
  ...more,
});

const FACTS = { file: "shift.csv", sha256: "00", clock: INSTANTS, notes: [], cutOff: false } as const;

function collect(
  rows: readonly Row[],
  columns: readonly ColumnMapping[],
  settings: Partial<CollectSettings> = {},
  batches: readonly number[] = [rows.length],
): Collected {
  const { sink, finish } = collectRows(settings);
  sink.begin(columns);
  new Set(rows.flatMap(({ series }) => series ?? [])).forEach((series) => void sink.series(series, "Test", String(series)));
  let from = 0;
  for (const size of [...batches, rows.length]) {
    const part = rows.slice(from, from + size);
    from += size;
    if (part.length > 0) sink.rows(batch(part, columns.length));
  }
  return finish(FACTS);
}

function batch(rows: readonly Row[], channels: number): Parameters<ReturnType<typeof collectRows>["sink"]["rows"]>[0] {
  const long = rows.some(({ cells }) => cells.includes(null));
  return {
    count: rows.length,
    lines: Uint32Array.from(rows, ({ line }) => line),
    times: Float64Array.from(rows, ({ time }) => time),
    series: rows.some(({ series }) => series !== undefined) ? Uint32Array.from(rows, ({ series }) => series ?? 0) : null,
    channels: Array.from({ length: channels }, (_, channel) => {
      const cells = rows.map(({ cells }) => digits(cells[channel] ?? ""));
      return {
        mantissas: Float64Array.from(cells, ({ mantissa }) => mantissa),
        decimals: Uint8Array.from(cells, ({ decimals }) => decimals),
        codes: Uint8Array.from(cells, ({ code }) => code),
        present: long ? Uint8Array.from(rows, ({ cells }) => (cells[channel] === null ? 0 : 1)) : null,
      };
    }),
  };
}

function digits(cell: string): { mantissa: number; decimals: number; code: number } {
  if (cell === "") return { mantissa: 0, decimals: 0, code: READING.none };
  if (cell === "fault") return { mantissa: 0, decimals: 0, code: READING.fault };
  if (cell === ">") return { mantissa: 0, decimals: 0, code: READING.overRangeUnbounded };
  const code = cell.startsWith(">") ? READING.overRange : cell.startsWith("<") ? READING.underRange : READING.valid;
  const [whole = "", fraction = ""] = cell.replace(/^[<>]/, "").split(".");
  return { mantissa: Number(whole + fraction), decimals: fraction.length, code };
}

const plain = ({ times, values, uppers, codes, decimals }: Channel) => ({
  times: [...times],
  values: [...values],
  uppers: uppers === null ? null : [...uppers],
  codes: codes === null ? null : [...codes],
  decimals,
});

const at = (seconds: number, ...cells: (string | null)[]) => ({ time: seconds * 1000, line: seconds + 2, cells });

describe("collectRows", () => {
  test("keeps digits: the step is that of the most decimals seen", () => {
    const { recording } = collect([at(0, "4"), at(1, "20.9"), at(2, "0.05")], [column("O2")]);
    expect(plain(recording.channels[0] as Channel)).toEqual({
      times: [0, 1000, 2000],
      values: [400, 2090, 5],
      uppers: null,
      codes: null,
      decimals: 2,
    });
    expect([...(recording.channels[0]?.lines ?? [])]).toEqual([2, 3, 4]);
  });

  test("mole fractions with eight decimals fit; finer digits than a day can sum are rounded outward", () => {
    const { recording } = collect([at(0, "0.209"), at(1, "0.00000398")], [column("O2", { unit: "mol/mol" })]);
    expect(plain(recording.channels[0] as Channel)).toMatchObject({ values: [20_900_000, 398], uppers: null, decimals: 8 });
    const finer = collect([at(0, "0.0000039812"), at(1, "2.09"), at(2, "-0.0000039812")], [column("O2")]).recording.channels[0] as Channel;
    expect(plain(finer)).toMatchObject({ values: [39, 20_900_000, -40], uppers: [40, 20_900_000, -39], decimals: 7 });
  });

  test("a number too large for exact sums is at least so large; one as far below nought, or at most as much, is a fault", () => {
    const { recording } = collect([at(0, "999999999999"), at(1, "3"), at(2, "-999999999999"), at(3, "<999999999999")], [column("CO")]);
    expect(plain(recording.channels[0] as Channel)).toMatchObject({
      values: [104_249_991, 3, 0, 0],
      codes: [READING.overRange, READING.valid, READING.fault, READING.fault],
      decimals: 0,
    });
  });

  test("sorts, drops exact repeats, joins contradictions", () => {
    const { recording, tally, marks } = collect(
      [
        at(5, "7"),
        at(3, "4"),
        { ...at(5, "7"), line: 90 },
        at(4, "30"),
        { ...at(4, "36"), line: 91 },
        { ...at(4, ""), line: 92 },
        at(6, ">500"),
        { ...at(6, "480"), line: 93 },
      ],
      [column("CO")],
    );
    expect(plain(recording.channels[0] as Channel)).toMatchObject({
      times: [3000, 4000, 5000, 6000],
      values: [4, 30, 7, 480],
      uppers: [4, 36, 7, 480],
      codes: [0, 0, 0, READING.overRange],
    });
    expect(tally).toMatchObject({ rows: 8, kept: 8, duplicates: 1, conflicts: 2, outOfOrder: 2 });
    expect(marks).toEqual([
      { type: "duplicate row", line: 90 },
      { type: "conflicting readings", line: 6, channel: "CO" },
      { type: "conflicting readings", line: 8, channel: "CO" },
    ]);
  });

  test.each([
    [["5", "fault"], { values: [0], codes: [READING.fault] }],
    [["5", "<2"], { values: [5], codes: [READING.underRange] }],
    [[">50", "<2"], { values: [0], codes: [READING.fault] }],
    [[">50", ">"], { values: [0], codes: [READING.overRangeUnbounded] }],
    [["", "5"], { values: [5], codes: null }],
    [["5.0", "5"], { values: [50], codes: null, decimals: 1 }],
  ])("two claims %j about one instant", (claims, expected) => {
    const rows = claims.map((claim, number) => ({ time: 0, line: number + 1, cells: [claim] }));
    expect(plain(collect(rows, [column("CO")]).recording.channels[0] as Channel)).toMatchObject(expected);
  });

  test("a range top given with the channel bounds what is over range without a number", () => {
    const { recording } = collect([at(0, ">"), at(1, "12.5")], [column("H2S", { rangeTop: "100.0" })]);
    expect(recording.channels[0]).toMatchObject({ rangeTop: 1000, decimals: 1 });
    expect(plain(recording.channels[0] as Channel)).toMatchObject({ values: [1000, 125], codes: [READING.overRange, READING.valid] });
  });

  test("splits series, keeps channels of a long form apart, keeps two units of one label apart", () => {
    const two = collect(
      [
        { ...at(0, "1"), series: 0 },
        { ...at(1, "2"), series: 0 },
        { ...at(0, "3"), series: 1 },
      ],
      [column("O2")],
    ).recording.channels;
    expect(two.map(({ series, values }) => [series?.value, [...values]])).toEqual([
      ["0", [1, 2]],
      ["1", [3]],
    ]);
    const long = collect([at(0, "1", null), at(0, null, "20.9"), at(10, "2", null)], [column("CO"), column("O2")]).recording.channels;
    expect(long.map(({ name, times }) => [name, [...times]])).toEqual([
      ["CO", [0, 10_000]],
      ["O2", [0]],
    ]);
    const units = collect([at(0, "1", null), at(1, null, "2")], [column("CO"), column("CO", { unit: "mg/m3" })]);
    expect(units.recording.channels.map(({ unit }) => unit)).toEqual(["ppm", "mg/m3"]);
    expect(units.marks).toContainEqual({ type: "unit changed", channel: "CO", units: ["ppm", "mg/m3"] });
  });

  test("a wide beginning and a long end of one file make one channel each", () => {
    const { recording } = collect([at(0, "1", "20.9"), at(10, "2", null), at(20, null, "20.8")], [column("CO"), column("O2")], {}, [1]);
    expect(recording.channels.map(({ times }) => [...times])).toEqual([
      [0, 10_000],
      [0, 20_000],
    ]);
  });

  test("keeps the stretches asked for, with a margin", () => {
    const rows = Array.from({ length: 100 }, (_, second) => at(second, String(second)));
    const { recording, tally, stopped } = collect(rows, [column("CO")], { keep: [{ from: 20_000, to: 30_000 }], marginMs: 2000 });
    expect([...(recording.channels[0]?.values ?? [])]).toEqual(Array.from({ length: 14 }, (_, row) => row + 18));
    expect([tally.rows, tally.kept, stopped, tally.span]).toEqual([100, 14, null, { from: 0, to: 99_000 }]);
  });

  test("a file longer than is kept is counted to its end, and says so", () => {
    const rows = Array.from({ length: 100 }, (_, second) => at(second, "1"));
    const long = collect(rows, [column("CO")], { longestSpanMs: 10_000 }, [7, 7]);
    expect([long.tally.rows, long.tally.kept, long.tally.span]).toEqual([100, 11, { from: 0, to: 99_000 }]);
    expect(long.stopped).toEqual({ why: "longer than kept", atLine: 13 });
    expect(collect(rows, [column("CO"), column("O2")], { mostReadings: 50 }).stopped).toEqual({ why: "too many readings", atLine: 27 });
  });

  const cells = fc.oneof(
    {
      weight: 5,
      arbitrary: fc
        .tuple(fc.integer({ min: -50, max: 5000 }), fc.constantFrom(0, 1, 3))
        .map(([number, decimals]) => (number / 10 ** decimals).toFixed(decimals)),
    },
    fc.constantFrom("", "fault", ">", ">500", "<0.5", "104249991", "0.00000000001", "-7000000000"),
  );
  const someRows = fc.array(
    fc.record({ second: fc.integer({ min: 0, max: 20 }), cells: fc.tuple(cells, cells), series: fc.integer({ min: 0, max: 1 }) }),
    { minLength: 1, maxLength: 40 },
  );

  test("gives the same for every order of rows and every split into batches", () => {
    fc.assert(
      fc.property(
        someRows,
        fc.array(fc.integer({ min: 1, max: 9 }), { maxLength: 9 }),
        fc.infiniteStream(fc.nat()),
        fc.boolean(),
        (parts, batches, chance, bySeries) => {
          const rows: Row[] = parts.map(({ second, cells, series }, row) => ({
            time: second * 1000,
            line: row + 2,
            cells,
            ...(bySeries ? { series } : {}),
          }));
          const shuffled = rows
            .map((row) => ({ row, rank: chance.next().value ?? 0 }))
            .sort((one, other) => one.rank - other.rank)
            .map(({ row }) => row);
          const columns = [column("CO", { rangeTop: "500" }), column("O2")];
          const whole = collect(rows, columns);
          for (const again of [collect(rows, columns, {}, batches), collect(shuffled, columns, {}, batches)]) {
            expect(again.recording).toEqual(whole.recording);
            expect({ ...again.tally, outOfOrder: 0 }).toEqual({ ...whole.tally, outOfOrder: 0 });
            expect(again.marks).toEqual(whole.marks);
          }
        },
      ),
    );
  });

  test("a step made coarser and exact again leaves one edge, whatever came first", () => {
    const rows: Row[] = [
      { time: 0, line: 2, cells: ["0", "104249991"] },
      { time: 1000, line: 3, cells: ["0", "<0.5"] },
    ];
    const [whole, turned] = [rows, [...rows].reverse()].map((order) => collect(order, [column("CO"), column("O2")]).recording);
    expect(turned).toEqual(whole);
    expect(whole?.channels[1]?.uppers).toBeNull();
  });

  test("every reading lies within what is kept of it", () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.integer({ min: -1e7, max: 1e9 }), fc.integer({ min: 0, max: 14 })), { minLength: 1, maxLength: 30 }),
        (numbers) => {
          const { sink, finish } = collectRows();
          sink.begin([column("CO")]);
          const count = numbers.length;
          sink.rows({
            count,
            lines: Uint32Array.from({ length: count }, (_, row) => row + 1),
            times: Float64Array.from({ length: count }, (_, row) => row),
            series: null,
            channels: [
              {
                mantissas: Float64Array.from(numbers, ([mantissa]) => mantissa),
                decimals: Uint8Array.from(numbers, ([, decimals]) => decimals),
                codes: new Uint8Array(count),
                present: null,
              },
            ],
          });
          const channel = finish(FACTS).recording.channels[0] as Channel;
          numbers.forEach(([mantissa, decimals], row) => {
            const low = BigInt(channel.values[row] ?? 0) * 10n ** 14n;
            const high = BigInt(channel.uppers?.[row] ?? channel.values[row] ?? 0) * 10n ** 14n;
            const exact = BigInt(mantissa) * 10n ** BigInt(14 - decimals) * 10n ** BigInt(channel.decimals);
            if (channel.codes?.[row] === READING.overRange) expect(exact >= low).toBe(true);
            else expect(low <= exact && exact <= high && high - low <= 10n ** 14n).toBe(true);
            expect(Math.abs(channel.values[row] ?? 0) * 86_400_000).toBeLessThan(2 ** 53);
          });
        },
      ),
    );
  });

  test("a stuck clock does not make the work grow with the square of the rows", () => {
    const rows = Array.from({ length: 60_000 }, (_, row) => ({ time: 5, line: row + 2, cells: [String(row % 977)] }));
    const { recording, tally } = collect(rows, [column("CO")]);
    expect(plain(recording.channels[0] as Channel)).toMatchObject({ values: [0], uppers: [976] });
    expect(tally.duplicates).toBe(60_000 - 977);
  });
});
