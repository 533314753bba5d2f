/**
 * 51 files of the DuckDB test data (MIT, duckdb/duckdb commit 044a04a7), read in place and judged as `expected.json`
 * beside them says. They are no gas logs: the preview is judged, and neither zone nor unit nor gas is asked about.
 */
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { answerQuestions } from "../../../src/core/table/index.ts";
import { survey } from "../../core/table/reading.ts";
import { answersFrom, askedIds, type Expectation, expectBuild, expectRejects, withoutNames } from "./expectation.ts";

const FOLDER = join(process.env["LAMPROOM_DATASETS"] ?? join(import.meta.dirname, "../../../../shared/handbook/datasets"), "csv");
const isThere = existsSync(FOLDER);
const expectations: readonly Expectation[] = isThere
  ? (JSON.parse(readFileSync(join(FOLDER, "expected.json"), "utf8")) as Expectation[]).filter(({ file }) => file.startsWith("duckdb/"))
  : [];

/** Topics that only a gas log raises. */
const ABOUT_GAS_LOGS = new Set(["zone", "unit", "gas", "role", "two time columns", "time form", "start", "reading kind"]);
const DECIMALS = /^(?:not a number|wrong grouping)$/;

describe.skipIf(!isThere)("messy CSV files of the DuckDB test data (skipped where the data sets are not there)", () => {
  test.for(expectations.map((expectation) => [expectation.file, expectation] as const))("%s", ([, expectation]) => {
    const bytes = readFileSync(join(FOLDER, expectation.file));
    const found = survey(bytes);
    if (expectation.verdict === "refuse") {
      expect(found.ok).toBe(false);
      return;
    }
    if (!found.ok) throw new Error(JSON.stringify(found.refusal));
    const wanted = askedIds(expectation);
    const asked = found.value.questions.filter(({ id, topic }) => wanted.includes(id) || !ABOUT_GAS_LOGS.has(topic)).map(({ id }) => id);
    expect(withoutNames(asked, wanted)).toEqual(wanted);
    expect(expectation.verdict === "ask").toBe(asked.length > 0);
    const proposal = answered(bytes, expectation);
    expectBuild(proposal, expectation);
    const { preview, firstWalk } = proposal;
    if (expectation.columns !== undefined) expect(preview.columns.slice(0, expectation.columns.length)).toEqual(expectation.columns);
    const isOpen = found.value.questions.some(({ topic }) => topic === "decimal mark");
    if (!isOpen) expectRejects(firstWalk.faults, expectation);
    const rejected = new Set(Object.keys(expectation.rejected_lines ?? {}).map(Number));
    const rows = preview.first.filter(({ line }) => !rejected.has(line)).map(({ raw }) => raw.slice(0, expectation.columns?.length));
    if (expectation.rows !== undefined) expect(rows).toEqual(expectation.rows);
    expect(rows).toHaveLength(expectation.data_rows ?? rows.length);
    for (const [row, column, text] of expectation.cells ?? []) expect(rows[row - 1]?.[column - 1]).toBe(text);
  });

  const RENAMED = {
    "test/empty.csv": { type: "empty-file" },
    "test/unterminated.csv": { type: "quote-never-closed", line: 1 },
    "error/json.csv": { type: "not-a-table", looksLike: "JSON", offerJson: true },
  };
  test.for(Object.entries(RENAMED))("%s is refused by name", ([file, refusal]) => {
    expect(survey(readFileSync(join(FOLDER, "duckdb", file)))).toEqual({ ok: false, refusal });
  });

  test("rejects/flush.csv: not-a-number and 33.4386,00 are rejected whatever the decimal mark", () => {
    const bytes = readFileSync(join(FOLDER, "duckdb/rejects/flush.csv"));
    for (const mark of [",", "."]) {
      const found = survey(bytes, { "decimal mark/number": mark });
      const faults = found.ok ? found.value.firstWalk.faults : [];
      const lines = faults.filter(({ type }) => DECIMALS.test(type)).map(({ line }) => line);
      expect(lines).toEqual(expect.arrayContaining([2, 6]));
      expect(lines).not.toContain(4);
    }
  });

  const TIMES = [
    ["auto/time_date_timestamp_dd-mm-yy.csv", 4, ["1990-01-01T12:12:00Z", "2002-02-02T14:15:00Z", "2004-12-13T15:16:00Z"]],
    ["auto/time_date_timestamp_mm-dd-yyyy.csv", 4, ["2000-01-01T00:12:00Z", "2002-02-02T14:15:00Z", "2004-12-13T15:16:00Z"]],
    [
      "timestamp_timezone.csv",
      0,
      [
        null,
        "2020-01-01T08:00:00Z",
        "2020-01-01T00:00:00Z",
        "2020-01-01T00:00:00Z",
        "2019-12-31T16:00:00Z",
        "2019-12-31T18:30:00Z",
        "2019-12-31T10:15:00Z",
        "2020-01-01T03:30:00Z",
      ],
    ],
    ["timestamp_with_tz.csv", 1, ["2021-05-25T04:55:03.382Z", "2021-05-25T09:55:03.382Z"]],
  ] as const;
  test.for(TIMES)("%s: times", ([file, column, wanted]) => {
    const found = survey(readFileSync(join(FOLDER, "duckdb", file)), {
      zone: "UTC",
      "zone letters/EST": "-05:00",
      "two time columns": "ts",
      "confirm/*": "yes",
    });
    const times = found.ok ? found.value.preview.first.map(({ parsed }) => parsed[column]) : [];
    expect(times.map((time, index) => (wanted[index] === null ? null : time))).toEqual(wanted);
  });

  test("decimal_separators.csv, multi_column.csv, integer_exponent.csv: numbers after a yes", () => {
    const numbers = (file: string, column: number): (string | null | undefined)[] => {
      const found = survey(readFileSync(join(FOLDER, "duckdb", file)), { "confirm/*": "yes" });
      return found.ok ? found.value.preview.first.map(({ parsed }) => parsed[column]) : [];
    };
    const wanted = [1.1, 0.25, 15300, 15300, -15300];
    expect(numbers("decimal_separators/decimal_separators.csv", 0).map(Number)).toEqual(wanted);
    expect(numbers("decimal_separators/decimal_separators.csv", 1).map(Number)).toEqual(wanted);
    expect(numbers("thousands_separator/multi_column.csv", 1).map(Number)).toEqual([100000, 300000.2, 300000000.4, 50, 9999999999.2]);
    expect(numbers("integer_exponent.csv", 2)).toEqual(["3", "6", "0.0000001"]);
  });
});

/** The proposal after the answers under `given`, read again where they ask for it. */
function answered(bytes: Uint8Array, expectation: Expectation) {
  const first = survey(bytes);
  if (!first.ok) throw new Error(JSON.stringify(first.refusal));
  const answers = answersFrom(expectation);
  const next = answerQuestions(first.value, answers);
  if (!next.ok) throw new Error(JSON.stringify(next.refusal));
  const again = survey(bytes, next.value.surveyAgain ? answers : {});
  if (!again.ok) throw new Error(JSON.stringify(again.refusal));
  return again.value;
}
