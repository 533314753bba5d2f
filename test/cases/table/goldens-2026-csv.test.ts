/** Check values of `test/cases/goldens/formats.json` about CSV: each with its id and source. */
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { lineOf, readNumber, writeTable } from "../../../src/core/table/index.ts";
import { read, readWith, survey, utf8 } from "../../core/table/reading.ts";
import goldens from "../goldens/formats.json" with { type: "json" };

interface Golden {
  readonly id: string;
  readonly source: string;
  readonly inputs: Readonly<Record<string, unknown>>;
  readonly expected: Readonly<Record<string, unknown>>;
}

const golden = (id: string): Golden => {
  const found = (goldens as unknown as readonly Golden[]).find((one) => one.id === id); // the file holds cases of many shapes
  if (found === undefined) throw new Error(`no golden ${id}`);
  return found;
};
const named = (id: string): string => `${id} (${golden(id).source})`;
const texts = (value: unknown): readonly string[] => value as readonly string[]; // lists of texts, as the goldens hold them

test(named("formats-g-csv-write-01"), () => {
  const { inputs, expected } = golden("formats-g-csv-write-01");
  expect(lineOf(texts(inputs["fields"]))).toBe(expected["line"]);
});

test(named("formats-g-csv-write-02"), () => {
  const { inputs, expected } = golden("formats-g-csv-write-02");
  const cells = texts(inputs["text_cells"]).map((cell) => [cell]);
  const column = [{ label: "note", kind: "text" as const }];
  const written = (rows: readonly (readonly string[])[], writtenFor: "data" | "spreadsheet"): string[] =>
    writeTable(column, rows, writtenFor)
      .split("\r\n")
      .slice(1, -1)
      .map((cell) => cell.replace(/^"(.*)"$/s, "$1"));
  expect(written(cells, "spreadsheet")).toEqual(expected["spreadsheet_text_cells"]);
  expect(written(cells, "data")).toEqual(expected["data_export_text_cells"]);
  const numbers = (inputs["numeric_cells"] as readonly number[]).map((value) => [String(value)]); // a list of numbers
  expect(writeTable([{ label: "CO", kind: "number" }], numbers, "spreadsheet")).toBe(
    `CO\r\n${texts(expected["spreadsheet_numeric_cells"]).join("\r\n")}\r\n`,
  );
});

test(named("formats-g-csv-write-03"), () => {
  const cells = texts(golden("formats-g-csv-write-03").inputs["fields"]);
  const columns = [
    { label: "number", kind: "number" as const },
    ...cells.map((_, index) => ({ label: `text ${index}`, kind: "text" as const })),
  ];
  const found = survey(
    utf8(
      writeTable(
        columns,
        [
          ["1", ...cells],
          ["2", ...cells],
        ],
        "data",
      ),
    ),
  );
  expect(found.ok && found.value.preview.first.map(({ raw }) => raw)).toEqual([
    ["1", ...cells],
    ["2", ...cells],
  ]);
});

test(named("formats-g-csv-number-01"), () => {
  const { expected } = golden("formats-g-csv-number-01");
  const reads = [readNumber("1234.5", ".", null), readNumber("1,234.5", ".", ","), readNumber("1.234,5", ",", ".")];
  for (const number of reads) expect(typeof number === "string" ? number : number.mantissa / 10 ** number.decimals).toBe(expected["value"]);
});

test(named("formats-g-csv-clock-01"), () => {
  const { expected } = golden("formats-g-csv-clock-01");
  const rows = ["2026-03-04 12:00 AM", "2026-03-04 12:01 AM", "2026-03-04 12:00 PM", "2026-03-04 24:00"];
  const { back } = readWith(utf8(`Time,CO (ppm)\n${rows.map((time) => `${time},1\n`).join("")}`), { zone: "UTC" });
  const [midnight, noon, afterMidnight, end] = texts(expected["times"]);
  const times = back.ok ? back.value.rows.map(({ time }) => new Date(time).toISOString()) : [];
  expect(times).toEqual([
    `2026-03-04T${midnight}:00.000Z`,
    `2026-03-04T${afterMidnight}:00.000Z`,
    `2026-03-04T${noon}:00.000Z`,
    `${end}:00.000Z`,
  ]);
});

test(named("formats-g-csv-serial-01"), () => {
  const { inputs, expected } = golden("formats-g-csv-serial-01");
  const [in1900, in1904] = inputs["serial"] as readonly [number, number]; // two numbers
  for (const [serial, form, index] of [
    [in1900, "day-number-1900", 0],
    [in1904, "day-number-1904", 1],
  ] as const) {
    const { proposal, back } = readWith(utf8(`Time,CO (ppm)\n${serial},1\n`), { zone: "UTC", "time form": form });
    expect(proposal.questions).toEqual([]);
    expect(back.ok && new Date(back.value.rows[0]?.time ?? Number.NaN).toISOString()).toBe(`${texts(expected["local"])[index]}.000Z`);
  }
});

const AIR = join(
  process.env["LAMPROOM_DATASETS"] ?? join(import.meta.dirname, "../../../../shared/handbook/datasets"),
  "air-quality/AirQualityUCI.csv",
);

describe.skipIf(!existsSync(AIR))("UCI Air Quality file (its terms forbid shipping it; skipped where it is not there)", () => {
  test(`${named("formats-g-csv-decimal-comma-01")}, 02, 03`, () => {
    const bytes = readFileSync(AIR);
    const answers = { zone: "UTC", "confirm/*": "yes", "unit/*": "mg/m3", "role/NOx(GT)": "reading" };
    const found = survey(bytes, answers);
    if (!found.ok) throw new Error(JSON.stringify(found.refusal));
    const back = read(bytes, found.value.mapping, answers);
    if (!back.ok) throw new Error(JSON.stringify(back.refusal));
    const { count } = back.value.summary;
    const { expected } = golden("formats-g-csv-decimal-comma-01");
    expect([count.lines, count.rows, count.skippedCount]).toEqual([expected["lines"], expected["data_rows"], expected["blank_rows"]]);
    const values = (label: string): number[] => {
      const channel = back.value.channels.findIndex((column) => column.label === label);
      return back.value.rows
        .map((row) => row.values[channel])
        .filter((value) => value !== "none")
        .map(Number);
    };
    const mean = (list: readonly number[]): number => list.reduce((sum, value) => sum + value, 0) / list.length;
    expect(values("CO(GT)")).toHaveLength(expected["co_values"] as number); // a number
    expect(Math.abs(mean(values("CO(GT)")) - (golden("formats-g-csv-decimal-comma-02").expected["mean"] as number))).toBeLessThan(0.001); // a number
    expect(Math.abs(mean(values("NOx(GT)")) - (golden("formats-g-csv-decimal-comma-03").expected["mean"] as number))).toBeLessThan(0.001); // a number
  });
});
