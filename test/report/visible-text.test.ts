import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { csvCell, inertJson, visibleText, withVisibleTexts } from "../../src/report/index.ts";

const RAW = /[\p{Cc}\u202a-\u202e\u2066-\u2069]/u;

describe("texts of files", () => {
  test("no control character comes through, in a text or deep in an answer, and all else stays", () => {
    const text = fc.string({ unit: "binary" });
    fc.assert(
      fc.property(text, (raw) => {
        expect(visibleText(raw)).not.toMatch(RAW);
        expect(JSON.stringify(withVisibleTexts({ a: [{ b: raw, c: 1, d: null }] }))).not.toMatch(/[\u007f-\u009f]/);
        if (!RAW.test(raw) && !/[\u200e\u200f\u2028\u2029]/.test(raw)) expect(visibleText(raw)).toBe(raw);
      }),
      { numRuns: 2000 },
    );
  });

  test("JSON means the same after its control characters are written out", () => {
    fc.assert(
      fc.property(fc.jsonValue({ stringUnit: "binary" }), (value) => {
        const json = JSON.stringify(value, null, 2);
        expect(JSON.parse(inertJson(json))).toEqual(JSON.parse(json));
        expect(inertJson(json).replaceAll("\n", "")).not.toMatch(RAW);
      }),
    );
  });

  test.each([
    ["=HYPERLINK(1)", "'=HYPERLINK(1)"],
    ["+cmd", "'+cmd"],
    ["-2+3", "'-2+3"],
    ["@SUM(1)", "'@SUM(1)"],
    ["\t=1", '"\'\t=1"'],
    [" =1", "' =1"],
    ["-5", "-5"],
    ["+5,25", '"+5,25"'],
    ["CO, wet", '"CO, wet"'],
    [-5, "-5"],
    [null, ""],
  ])("the cell %j is %j", (value, cell) => expect(csvCell(value)).toBe(cell));
});
