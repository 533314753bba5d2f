/** 17 small files written for this project, each with one mess of a gas log; `made-expected.json` says what must be stored. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { read, type Stored, survey } from "../../core/table/reading.ts";
import { answersFrom, askedIds, type Expectation, expectBuild, expectRejects } from "./expectation.ts";

const expectations = JSON.parse(readFileSync(join(import.meta.dirname, "made-expected.json"), "utf8")) as readonly Expectation[];
const bytesOf = (file: string): Uint8Array => readFileSync(join(import.meta.dirname, file));

const GASES: Readonly<Record<string, string | null>> = {
  CO: "carbon_monoxide",
  H2S: "hydrogen_sulphide",
  O2: "oxygen",
  benzene: "benzene",
  "flammable gas": null,
};
const UNITS: Readonly<Record<string, string>> = {
  "volume fraction/[ppm]": "ppm",
  "volume fraction/%": "vol%",
  "fraction of LEL/%": "%LEL",
  "mass concentration/mg/m3": "mg/m3",
  "mass concentration/ug/m3": "ug/m3",
};

test.for(expectations.map((expectation) => [expectation.file, expectation] as const))("%s", ([file, expectation]) => {
  const found = survey(bytesOf(file));
  if (!found.ok) throw new Error(JSON.stringify(found.refusal));
  const asked = found.value.questions.map(({ id }) => id).sort();
  expect(asked).toEqual(askedIds(expectation));
  expect(asked.length > 0).toBe(expectation.verdict === "ask");
  expectBuild(found.value, expectation);
  const answers = answersFrom(expectation);
  const settled = survey(bytesOf(file), answers);
  if (!settled.ok) throw new Error(JSON.stringify(settled.refusal));
  expect(settled.value.questions.filter(({ blocking }) => blocking)).toEqual([]);
  const back = read(bytesOf(file), settled.value.mapping, answers);
  if (file.includes("m17")) return expectTable(settled.value.preview.first, back, expectation);
  if (!back.ok) throw new Error(JSON.stringify(back.refusal));
  expectChannels(back.value.channels, expectation);
  expectRejects(back.value.summary.faults, expectation);
  expect(back.value.summary.cutOff).toBe(file.includes("m13"));
  const rows = mergedRows(back.value.rows, back.value.channels.length);
  expect(rows).toHaveLength(expectation.stored_rows ?? -1);
  if (expectation.lines_read !== undefined) expect(back.value.summary.count.rows).toBe(expectation.lines_read);
  const width = 1 + back.value.channels.length;
  expect(rows).toEqual(expectation.rows?.map((row) => row.slice(0, width).map(storedText)));
});

/** No time, so nothing is stored; the table itself is as stated. */
function expectTable(first: readonly { readonly raw: readonly string[] }[], back: ReturnType<typeof read>, expectation: Expectation): void {
  expect(first.map(({ raw }) => raw)).toEqual(expectation.rows?.map((row) => row.map(String)));
  expect(back).toEqual({ ok: false, refusal: { type: "no-time-column", labels: ["no", "note"] } });
}

function expectChannels(
  channels: readonly { readonly label: string; readonly gas: string | null; readonly unit: string | null }[],
  expectation: Expectation,
): void {
  const wanted = (expectation.columns ?? []).flatMap((column) =>
    typeof column === "string" || column.kind === undefined
      ? []
      : [{ label: column.label, gas: GASES[column.quantity], unit: UNITS[`${column.kind}/${column.unit}`] }],
  );
  expect(channels.map(({ label, gas, unit }) => ({ label, gas, unit }))).toEqual(wanted);
}

/** Rows by instant, in order: long rows joined, two readings of one instant side by side. */
function mergedRows(stored: readonly Stored[], channels: number): string[][] {
  const byTime = new Map<number, string[]>();
  for (const { time, values } of stored) {
    const row = byTime.get(time) ?? Array.from({ length: channels }, () => "");
    for (const [channel, value] of values.entries())
      if (value !== null) row[channel] = row[channel] === "" ? value : `${row[channel]} or ${value}`;
    byTime.set(time, row);
  }
  return [...byTime].sort(([a], [b]) => a - b).map(([time, row]) => [new Date(time).toISOString().replace(".000Z", "Z"), ...row]);
}

/** The forms of `made-expected.json` in the same words. */
function storedText(cell: unknown): string {
  if (typeof cell !== "object" || cell === null) return String(cell);
  if ("no_data" in cell) return "none";
  if ("conflict" in cell) return (cell.conflict as number[]).join(" or "); // two numbers, as README says
  return "at_least" in cell && cell.at_least !== null ? `>=${cell.at_least}` : "over";
}
