/** What is no table, or an answer that is none, is refused by name. */
import { expect, test } from "vitest";
import { CO, log, Z } from "./mess.ts";
import { read, survey, utf8 } from "./reading.ts";

interface Refused {
  readonly what: string;
  readonly text: string | Uint8Array;
  readonly given?: Readonly<Record<string, string>>;
  readonly refusal: Readonly<Record<string, unknown>>;
}

const REFUSED: readonly Refused[] = [
  { what: "nought bytes", text: "", refusal: { type: "empty-file" } },
  { what: "a PDF renamed", text: "%PDF-1.7\n%\u00e2\u00e3\n1 0 obj\n", refusal: { type: "not-a-table", looksLike: "PDF" } },
  { what: "a web page", text: "\n<!DOCTYPE html><html><body>CO,1</body></html>", refusal: { type: "not-a-table", looksLike: "web page" } },
  { what: "JSON", text: '[{"n":"co","v":1}]', refusal: { type: "not-a-table", looksLike: "JSON", offerJson: true } },
  {
    what: "a workbook",
    text: Uint8Array.of(0x50, 0x4b, 3, 4, 20, 0, 6, 0),
    refusal: { type: "not-a-table", looksLike: "zip or workbook" },
  },
  {
    what: "a picture",
    text: Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 13, 10, 26, 10),
    refusal: { type: "not-a-table", looksLike: "picture" },
  },
  {
    what: "noise",
    text: Uint8Array.from({ length: 4000 }, (_, index) => (index * index * 31 + index * 7) & 255),
    refusal: { type: "not-a-table", looksLike: "binary" },
  },
  { what: "one long line", text: "x".repeat(70_000), refusal: { type: "not-a-table", looksLike: "one long line" } },
  {
    what: "a zone that does not exist",
    text: log(CO, Z.replace("Z", "")),
    given: { zone: "Europe/Lundon" },
    refusal: { type: "unknown-zone", zone: "Europe/Lundon", near: expect.arrayContaining(["Europe/London"]) },
  },
  {
    what: "a zone that does not exist, although no time needs one",
    text: log(CO, Z),
    given: { zone: "Europe/Lundon" },
    refusal: { type: "unknown-zone", zone: "Europe/Lundon" },
  },
  {
    what: "an answer that is none",
    text: log("time,CO", Z),
    given: { "unit/CO": "furlong" },
    refusal: { type: "bad-answer", question: "unit/CO", answer: "furlong" },
  },
  {
    what: "a start that is no instant",
    text: log("Time (s),CO (ppm)", "0,1"),
    given: { start: "tomorrow" },
    refusal: { type: "bad-answer", question: "start", answer: "tomorrow" },
  },
  {
    what: "labels too few",
    text: log("2026-03-04T07:30:00Z,1", "2026-03-04T07:31:00Z,2"),
    given: { header: "time" },
    refusal: { type: "bad-answer", question: "header", answer: "time" },
  },
  { what: "a quote that never closes", text: log(CO, `"${Z}`, Z, Z), refusal: { type: "quote-never-closed", line: 2 } },
];

test.for(REFUSED.map((refused) => [refused.what, refused] as const))("refused: %s", ([, { text, given = {}, refusal }]) => {
  const found = survey(typeof text === "string" ? utf8(text) : text, given);
  expect(found).toEqual({ ok: false, refusal: expect.objectContaining(refusal) });
});

test("a line over 1 MiB is a fault, and the rows round it are read", () => {
  const bytes = utf8(log(CO, Z, `${"9".repeat(1_200_000)},1`, "2026-03-04T07:31:00Z,2"));
  const found = survey(bytes);
  const back = found.ok ? read(bytes, found.value.mapping) : found;
  expect(back.ok && back.value.rows.map(({ line }) => line)).toEqual([2, 4]);
  expect(back.ok && back.value.summary.faults.map(({ line, type }) => [line, type])).toEqual([[3, "line too long"]]);
});

test("a quote that swallows over 1 MiB costs its own line only", () => {
  const rows = Array.from(
    { length: 40_000 },
    (_, second) => `${new Date(Date.UTC(2026, 2, 4) + second * 1000).toISOString().replace(".000Z", "Z")},1,plain note`,
  );
  rows[5] = `${rows[5]?.replace("plain", '"plain')}`.replace(",1,plain", ',1,"plain');
  const bytes = utf8(log("time,CO (ppm),note", ...rows));
  const found = survey(bytes);
  const back = found.ok ? read(bytes, found.value.mapping) : found;
  if (!back.ok) throw new Error(JSON.stringify(back.refusal));
  expect(back.value.rows).toHaveLength(39_999);
  expect(back.value.summary.faults.map(({ line, type }) => [line, type])).toEqual([[7, "unclosed quote"]]);
});
