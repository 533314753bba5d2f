/** The kind of the readings is never taken without a word: a guess names it, with who chose it. */
import { expect, test } from "vitest";
import { answerQuestions, jsonFromMapping, mappingFromJson } from "../../../src/core/table/index.ts";
import { log } from "./mess.ts";
import { survey, utf8 } from "./reading.ts";

const ROW = "2026-03-04T07:30:00Z";

interface Said {
  readonly what: string;
  readonly text: string;
  readonly given?: Readonly<Record<string, string>>;
  /** Column, kind, sureness, first reason. */
  readonly guesses: readonly (readonly [string, string, string, string])[];
  readonly kinds: readonly string[];
}

const UNSAID = "the file does not say";
const WORD = "word in the label";

const SAID: readonly Said[] = [
  { what: "nobody says", text: log("time,CO (ppm)", `${ROW},1`), guesses: [["*", "spot", "weak", UNSAID]], kinds: ["spot default"] },
  {
    what: "nobody says, two channels: one guess",
    text: log("time,CO (ppm),H2S (ppm)", `${ROW},1,2`),
    guesses: [["*", "spot", "weak", UNSAID]],
    kinds: ["spot default", "spot default"],
  },
  ...(
    [
      ["CO avg (ppm)", "interval mean"],
      ["CO_mean (ppm)", "interval mean"],
      ["CO Mittelwert (ppm)", "interval mean"],
      ["CO max (ppm)", "interval peak"],
      ["CO Peak [ppm]", "interval peak"],
    ] as const
  ).map(([label, kind]) => ({
    what: `the heading says ${label}`,
    text: log(`time,${label}`, `${ROW},1`),
    guesses: [[label, kind, "strong", WORD]] as const,
    kinds: [`${kind} file`],
  })),
  {
    what: "the heading of one channel says it, that of the other does not",
    text: log("time,CO avg (ppm),H2S (ppm)", `${ROW},1,2`),
    guesses: [
      ["CO avg (ppm)", "interval mean", "strong", WORD],
      ["H2S (ppm)", "spot", "weak", UNSAID],
    ],
    kinds: ["interval mean file", "spot default"],
  },
  {
    what: "a person says it of all channels",
    text: log("time,CO avg (ppm),H2S (ppm)", `${ROW},1,2`),
    given: { "reading kind/*": "interval peak" },
    guesses: [["*", "interval peak", "certain", "answered"]],
    kinds: ["interval peak person", "interval peak person"],
  },
  {
    what: "a person says it of one channel",
    text: log("time,CO (ppm),H2S (ppm)", `${ROW},1,2`),
    given: { "reading kind/CO (ppm)": "interval mean" },
    guesses: [
      ["CO (ppm)", "interval mean", "certain", "answered"],
      ["H2S (ppm)", "spot", "weak", UNSAID],
    ],
    kinds: ["interval mean person", "spot default"],
  },
  {
    what: "a person says that it is spot: that is no guess",
    text: log("time,CO (ppm)", `${ROW},1`),
    given: { "reading kind/*": "spot" },
    guesses: [["*", "spot", "certain", "answered"]],
    kinds: ["spot person"],
  },
  {
    what: "long form: the heading of the values",
    text: log("time,sensor,average,unit", `${ROW},CO,1,ppm`, `${ROW},H2S,2,ppm`),
    guesses: [
      ["CO", "interval mean", "strong", WORD],
      ["H2S", "interval mean", "strong", WORD],
    ],
    kinds: ["interval mean file", "interval mean file"],
  },
];

test.each(SAID)("$what", ({ text, given = {}, guesses, kinds }) => {
  const found = survey(utf8(text), given);
  if (!found.ok) throw new Error(JSON.stringify(found.refusal));
  const { mapping, questions } = found.value;
  const about = found.value.guesses.filter(({ topic }) => topic === "reading kind");
  expect(about.map(({ column, chosen, sureness, reasons }) => [column, chosen, sureness, reasons[0]?.code])).toEqual(guesses);
  expect(questions.filter(({ topic }) => topic === "reading kind")).toEqual([]);
  const readings = mapping.shape === "long" ? mapping.channels : mapping.columns.filter(({ role }) => role === "reading");
  expect(readings.map(({ kind, kindChosenBy }) => `${kind} ${kindChosenBy}`)).toEqual(kinds);
});

test("the guess about the whole file is taken back by its own name, and a word that is no kind is refused", () => {
  const found = survey(utf8(log("time,CO (ppm)", `${ROW},1`)));
  if (!found.ok) throw new Error(JSON.stringify(found.refusal));
  const answered = answerQuestions(found.value, { "reading kind/*": "interval mean" });
  expect(answered.ok && answered.value.mapping.columns[1]).toMatchObject({ kind: "interval mean", kindChosenBy: "person" });
  expect(answerQuestions(found.value, { "reading kind/*": "mean" })).toMatchObject({
    ok: false,
    refusal: { type: "bad-answer", answer: "mean" },
  });
});

test("who chose it is kept with the mapping, and a mapping from before it was known is still read", () => {
  const found = survey(utf8(log("time,CO avg (ppm)", `${ROW},1`)));
  if (!found.ok) throw new Error(JSON.stringify(found.refusal));
  const text = jsonFromMapping(found.value.mapping);
  const kept = mappingFromJson(text);
  expect(kept.ok && kept.value.columns[1]).toMatchObject({ kind: "interval mean", kindChosenBy: "file" });
  const older = mappingFromJson(text.replaceAll(/\s*"kindChosenBy": "file",/g, ""));
  expect(older.ok && older.value.columns[1]?.kindChosenBy).toBeUndefined();
  expect(mappingFromJson(text.replace('"kindChosenBy": "file"', '"kindChosenBy": "nobody"'))).toMatchObject({ ok: false });
});
