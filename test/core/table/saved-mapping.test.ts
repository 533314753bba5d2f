/** A mapping is kept, comes back equal, serves another file with the same heading, and is refused where it does not fit. */
import { expect, test } from "vitest";
import { jsonFromMapping, mappingFromJson, type TableMapping } from "../../../src/core/table/index.ts";
import { read, survey, utf8 } from "./reading.ts";

const HEAD = "Date;Time;CO (ppm);Sensor\n";
const ANSWERS = { zone: "Europe/London", "confirm/*": "yes", "gas/*": "carbon_monoxide" };
const FIRST = utf8(`${HEAD}14/03/2026;07:30:00;1,5;ok\n14/03/2026;07:31:00;OVER;ok\n`);

function mapping(): TableMapping {
  const found = survey(FIRST, ANSWERS);
  if (!found.ok) throw new Error(JSON.stringify(found.refusal));
  return found.value.mapping;
}

test("there and back again", () => {
  expect(mappingFromJson(jsonFromMapping(mapping()))).toEqual({ ok: true, value: mapping() });
});

test("another file with the same heading is read without a question, lines before it or not", () => {
  const other = utf8(`Serial: 0007\n\n${HEAD}03/04/2026;23:59:00;2,5;ok\n`);
  const back = read(other, mapping());
  expect(back.ok && back.value.rows.map(({ time, values }) => [new Date(time).toISOString(), values])).toEqual([
    ["2026-04-03T22:59:00.000Z", ["2.5"]],
  ]);
});

test("what holds for one file only is not kept: its day, its start, its side of the hour that happens twice", () => {
  const clocks = (day: string): Uint8Array => utf8(`Time;CO (ppm)\n07:30:00;1,5\n07:31:00;${day.slice(-1)}\n`);
  const found = survey(clocks("2026-03-04"), { ...ANSWERS, start: "2026-03-04" });
  const kept = found.ok ? mappingFromJson(jsonFromMapping(found.value.mapping)) : found;
  if (!kept.ok) throw new Error(JSON.stringify(kept.refusal));
  const other = clocks("2026-03-05");
  expect(read(other, kept.value)).toMatchObject({ ok: false, refusal: { type: "questions-open", questions: [{ id: "start" }] } });
  const back = read(other, kept.value, { start: "2026-03-05" });
  expect(back.ok && back.value.rows.map(({ time }) => new Date(time).toISOString().slice(0, 16))).toEqual([
    "2026-03-05T07:30",
    "2026-03-05T07:31",
  ]);
  expect(read(other, kept.value, { start: "tomorrow" })).toMatchObject({ ok: false, refusal: { type: "bad-answer", question: "start" } });
  const settled = { ...mapping(), time: { ...mapping().time, start: "2026-03-04T07:30:00Z", repeatedHour: "later" as const } };
  expect(mappingFromJson(jsonFromMapping(settled))).toEqual({ ok: true, value: mapping() });
});

test("another heading is refused", () => {
  const other = utf8("Date;Time;CO (mg/m3);Sensor\n03/04/2026;23:59:00;2,5;ok\n");
  const back = read(other, mapping());
  expect(back.ok === false && back.refusal).toMatchObject({ type: "mapping-does-not-fit", expected: mapping().fingerprint });
});

const WRONG: readonly (readonly [string, (parsed: Record<string, unknown>) => unknown, string])[] = [
  [
    "a unit that is none",
    (parsed) => ({ ...parsed, columns: [{ ...(parsed["columns"] as object[])[0], unit: "furlong" }] }),
    "columns[0].unit",
  ],
  ["a column without a label", (parsed) => ({ ...parsed, columns: [{}] }), "columns[0].label"],
  ["a zone that does not exist", (parsed) => ({ ...parsed, time: { ...(parsed["time"] as object), zone: "Europe/Lundon" } }), "time.zone"],
  ["a part too many", (parsed) => ({ ...parsed, colour: "blue" }), "colour"],
  [
    "a delimiter of two letters",
    (parsed) => ({ ...parsed, dialect: { ...(parsed["dialect"] as object), delimiter: ";;" } }),
    "dialect.delimiter",
  ],
  ["line nought", (parsed) => ({ ...parsed, headerLines: [0] }), "headerLines[0]"],
];

test.for(WRONG)("refused: %s", ([, spoil, at]) => {
  const parsed = JSON.parse(jsonFromMapping(mapping())) as Record<string, unknown>; // an object, as written above
  expect(mappingFromJson(JSON.stringify(spoil(parsed)))).toMatchObject({ ok: false, refusal: { type: "mapping-not-understood", at } });
});

test("refused: no JSON, another form", () => {
  expect(mappingFromJson("{")).toMatchObject({ ok: false, refusal: { type: "mapping-not-json" } });
  expect(mappingFromJson("[]")).toMatchObject({ ok: false, refusal: { type: "mapping-not-understood", at: "" } });
  expect(mappingFromJson('{"form":"lamproom-mapping/2"}')).toMatchObject({ ok: false, refusal: { type: "unknown-mapping-form" } });
});

test("a mapping under which no cell of a column is a number does not answer", () => {
  const comma = utf8("Zeit;CO (ppm);O2 (Vol.-%)\n2026-03-04T06:00:00Z;1,5;20,9\n2026-03-04T06:01:00Z;1,5;20,9\n");
  const found = survey(comma, { "decimal mark/*": "," });
  if (!found.ok) throw new Error(JSON.stringify(found.refusal));
  const row = (minute: number, carbon: string): string => `2026-03-04T06:0${minute}:00Z;${carbon};20,9\n`;
  const other = (...cells: readonly string[]): Uint8Array =>
    utf8(`Zeit;CO (ppm);O2 (Vol.-%)\n${cells.map((cell, minute) => row(minute, cell)).join("")}`);
  expect(read(other("1.250", "1.250", ""), found.value.mapping)).toEqual({
    ok: false,
    refusal: { type: "mapping-misreads-numbers", column: "CO (ppm)", line: 2, text: "1.250", decimalMark: "," },
  });
  expect(read(other("1.250", "1,250"), found.value.mapping).ok).toBe(true);
  expect(read(other("broken", ""), found.value.mapping).ok).toBe(true);
  // The number stands where lines are taken the short way.
  expect(read(other("", "", "7.25", "1,5", "1,5", "1,5"), found.value.mapping).ok).toBe(true);
});
