/** What is written is read back equal, whatever the cells hold (RFC 4180, section 2). */
import fc from "fast-check";
import { expect, test } from "vitest";
import { lineOf, writeTable } from "../../../src/core/table/index.ts";
import { read, survey, utf8 } from "./reading.ts";

/** Texts of the letters that make trouble, and any others; a lone surrogate has no UTF-8, and NUL is rejected on reading. */
const cell = fc
  .oneof(
    fc.string({
      unit: fc.constantFrom('"', ",", ";", "\t", "\n", "\r", "'", "#", "=", "-", "+", "@", " ", "a", "7", "\u20ac"),
      maxLength: 8,
    }),
    fc.string({ unit: "grapheme", maxLength: 8 }),
  )
  .filter((text) => !text.includes("\0") && !text.includes("\ufffd"));

/** A first column of numbers settles what the heading is; words that mean no reading are read as texts all the same. */
const tables = fc.integer({ min: 1, max: 5 }).chain((width) =>
  fc.array(fc.array(cell, { minLength: width, maxLength: width }), { minLength: 1, maxLength: 12 }).map((rows) => ({
    columns: [
      { label: "number", kind: "number" as const },
      ...Array.from({ length: width }, (_, index) => ({ label: `text ${index}`, kind: "text" as const })),
    ],
    rows: rows.map((row, index) => [String(index), ...row]),
  })),
);

test("the cells of a written table are those that come back", () => {
  fc.assert(
    fc.property(tables, ({ columns, rows }) => {
      const found = survey(utf8(writeTable(columns, rows, "data")), { delimiter: "," });
      expect(found.ok && found.value.preview.columns).toEqual(columns.map(({ label }) => label));
      expect(found.ok && found.value.preview.first.map(({ raw }) => raw)).toEqual(rows);
    }),
    { seed: 4180, numRuns: 400 },
  );
});

const readings = fc.record({
  start: fc.integer({ min: 946_684_800, max: 4_102_444_800 }),
  rows: fc.array(fc.tuple(fc.integer({ min: 1, max: 90_000 }), fc.integer({ min: -900, max: 40_000 }), fc.integer({ min: 0, max: 3 })), {
    minLength: 1,
    maxLength: 40,
  }),
});

test("the instants and digits of a written recording are those that come back", () => {
  fc.assert(
    fc.property(readings, ({ start, rows }) => {
      let time = start;
      const wanted = rows.map(([step, mantissa, decimals]) => {
        time += step;
        return { time: time * 1000, value: (mantissa / 10 ** decimals).toFixed(decimals) };
      });
      const columns = [
        { label: "time", kind: "text" as const },
        { label: "CO (ppm)", kind: "number" as const },
      ];
      const cells = wanted.map((row) => [new Date(row.time).toISOString(), row.value]);
      const bytes = utf8(writeTable(columns, cells, "spreadsheet"));
      const answers = { "confirm/*": "yes", "sentinel/*": "reading" };
      const found = survey(bytes, answers);
      if (!found.ok) throw new Error(JSON.stringify(found.refusal));
      const back = read(bytes, found.value.mapping, answers);
      expect(back.ok && back.value.rows.map((row) => ({ time: row.time, value: Number(row.values[0]) }))).toEqual(
        wanted.map((row) => ({ time: row.time, value: Number(row.value) })),
      );
    }),
    { seed: 8259, numRuns: 300 },
  );
});

test("a text that a spreadsheet would run gets an apostrophe, in front of it and nowhere else", () => {
  fc.assert(
    fc.property(cell, (text) => {
      const guarded = /^[=+\-@\t]/.test(text) ? `'${text}` : text;
      expect(writeTable([{ label: "a", kind: "text" }], [[text]], "spreadsheet")).toBe(`a\r\n${lineOf([guarded])}`);
      expect(writeTable([{ label: "a", kind: "number" }], [[text]], "spreadsheet")).toBe(`a\r\n${lineOf([text])}`);
    }),
    { seed: 1210, numRuns: 300 },
  );
});
