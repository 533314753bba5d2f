/** A row that is rejected although its time was read ends the hold of the reading before it, and counts as rejected. */
import { expect, test } from "vitest";
import { readWith, utf8 } from "./reading.ts";

const at = (minute: number): string => `2026-03-04T06:${String(minute).padStart(2, "0")}:00Z`;
const file = (heading: string, ...rows: readonly string[]): Uint8Array =>
  utf8([heading, ...rows.map((cells, minute) => (cells === "" ? "" : `${at(minute)},${cells}`)), ""].join("\n"));

/** Line, minute and values of the rejected lines handed over; lines rejected; rows counted; minutes of the rows. */
function told(bytes: Uint8Array, answers: Readonly<Record<string, string>> = {}): unknown {
  const { back } = readWith(bytes, answers);
  if (!back.ok) throw new Error(JSON.stringify(back.refusal));
  const { rows, silent, summary } = back.value;
  const { faults, count } = summary;
  const minutes = (time: number): number => (time - Date.parse(at(0))) / 60_000;
  expect(count.header + count.rows + count.continued + count.rejected + count.skippedCount).toBe(count.lines);
  expect(rows).toHaveLength(count.rows);
  return {
    silent: silent.map(({ line, time, values }) => [line, minutes(time), ...values]),
    rejected: faults.filter((fault) => fault.rejected).map(({ line, type }) => [line, type]),
  };
}

test.each([
  ["a number that no air has", "O2 (%vol)", ["20.9", "209", "20.9"], "impossible value"],
  ["no number", "O2 (%vol)", ["20.9", "2o.9", "20.9"], "not a number"],
  ["a unit that is another", "CO (ppm)", ["1", "1000 ppb", "1"], "unit changed"],
])("%s", (_, label, cells, type) => {
  expect(told(file(`time,${label}`, ...cells))).toEqual({ silent: [[3, 1, "none"]], rejected: [[3, type]] });
});

test("too many or too few cells behind a time", () => {
  const extra = file("time,CO (ppm),H2S (ppm)", "1,2", "1,2,3", "1,2", "1", ...Array.from({ length: 20 }, () => "1,2"));
  expect(told(extra)).toEqual({
    silent: [
      [3, 1, "none", "none"],
      [5, 3, "none", "none"],
    ],
    rejected: [
      [3, "extra cell"],
      [5, "missing cell"],
    ],
  });
});

test("a time that may be cut off, or falls back, is none", () => {
  const cut = utf8(`time,CO (ppm)\n${at(0)},1\n2026-03-04T06:01\n${at(2)},1\n${at(1)},1,2\n${at(3)},1\n2026-03-04`);
  expect(told(cut)).toMatchObject({ silent: [] });
});

test("units by turns in the long form: only the channel of the line falls silent", () => {
  const lines = [`${at(0)},CO,40000,ppb`, `${at(0)},H2S,1,ppm`, `${at(1)},CO,10,ppm`, `${at(1)},H2S,1,ppm`, `${at(2)},CO,40000,ppb`];
  expect(told(utf8(["time,gas,value,unit", ...lines, ""].join("\n")))).toEqual({
    silent: [[4, 1, "none", null]],
    rejected: [[4, "unit changed"]],
  });
});

test("a row beside it that speaks for the same instant is no conflict, before or after", () => {
  for (const rows of [
    ["x1", "5"],
    ["5", "x1"],
  ]) {
    const bytes = utf8(`time,CO (ppm)\n${at(0)},1\n${rows.map((cell) => `${at(1)},${cell}\n`).join("")}${at(2)},1\n`);
    const { back } = readWith(bytes, {});
    expect(back.ok && back.value.summary.faults.map(({ type }) => type)).toEqual(["not a number"]);
    expect(back.ok && back.value.rows.map(({ values }) => values[0])).toEqual(["1", "5", "1"]);
  }
});
