import { describe, expect, test } from "vitest";
import { formWords } from "../../src/web/slate/refusal-words.ts";
import { calculators, workOut } from "../../src/work/slate/index.ts";

const twa = calculators.find(({ id }) => id === "twa");

const said = (input: unknown): string => {
  const worked = workOut("twa", input);
  if (worked.ok || twa === undefined) return "worked out";
  const words = formWords(worked.refusal, twa.inputs);
  return words === null ? "no words" : `${words.message} ${words.mend}`;
};

describe("a refused calculation in the words of its form", () => {
  test.each([
    [{ pieces: [{ minutes: -3, level: 40 }], limit: 50 }, /^Minutes in row 1 cannot be \u22123\. Enter a number/],
    [{ pieces: [{ minutes: 60, level: 4 }, { level: 4 }], limit: 50 }, / in row 2 is blank\. Fill it in/],
    [{ pieces: [{ minutes: 60, level: "much" }], limit: 50 }, / in row 1 cannot be “much”\. Enter a number/],
    [{ pieces: [{ minutes: 60, level: 4 }], limit: -1 }, /^Limit cannot be \u22121\. Enter a number above 0/],
    [{}, /^[A-Z][a-z]+ is blank\./],
  ])("%j", (input, words) => {
    const text = said(input);
    expect(text).toMatch(words);
    expect(text).not.toMatch(/pieces|\/|null|JSON|--/);
  });
});
