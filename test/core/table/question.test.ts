/** Questions that need more than one look: labels told, hours that happen twice or never, what only the second walk sees. */
import { expect, test } from "vitest";
import { answerQuestions, type Guess, type Proposal } from "../../../src/core/table/index.ts";
import { CO, LONDON, log } from "./mess.ts";
import { read, survey, utf8 } from "./reading.ts";

test("a first row of texts above a row with as many numbers is no heading", () => {
  const rows = [
    ["0", "a", "b", "c", "", "="],
    ["1", ":", "7", "7", "d", "e"],
  ];
  const found = survey(utf8(log("label 0,label 1,label 2,label 3,label 4,label 5", ...rows.map((row) => row.join(",")))));
  expect(found.ok && [found.value.mapping.headerLines, found.value.preview.first.map(({ raw }) => raw)]).toEqual([[1], rows]);
});

test("no heading: labels are told", () => {
  const bytes = utf8(log("2026-03-04T07:30:00Z,1,2", "2026-03-04T07:31:00Z,3,4"));
  const given = { header: "time,CO (ppm),H2S (ppm)" };
  const found = survey(bytes, given);
  const back = found.ok ? read(bytes, found.value.mapping, given) : found;
  expect(back.ok && back.value.rows.map(({ values }) => values)).toEqual([
    ["1", "2"],
    ["3", "4"],
  ]);
});

test("a single reading in the hour that happens twice is asked about, and so is a missing hour", () => {
  const twice = utf8(log(CO, "2025-10-26 00:30,1", "2025-10-26 01:30,2", "2025-10-26 02:30,3"));
  const found = survey(twice, LONDON);
  expect(found.ok && found.value.questions.map(({ id }) => id)).toEqual(["repeated hour"]);
  for (const [answer, hour] of [
    ["earlier", 0],
    ["later", 1],
  ] as const) {
    const given = { ...LONDON, "repeated hour": answer };
    const settled = survey(twice, given);
    const back = settled.ok ? read(twice, settled.value.mapping, given) : settled;
    expect(back.ok && new Date(back.value.rows[1]?.time ?? 0).getUTCHours()).toBe(hour);
  }
  const missing = utf8(log(CO, "2025-03-30 00:30,1", "2025-03-30 01:30,2", "2025-03-30 02:30,3"));
  const asked = survey(missing, LONDON);
  expect(asked.ok && asked.value.questions.map(({ id, suggested }) => [id, suggested])).toEqual([["fixed clock", "+00:00"]]);
  const settled = survey(missing, { ...LONDON, "confirm/*": "yes" });
  const back = settled.ok ? read(missing, settled.value.mapping, {}) : settled;
  expect(back.ok && back.value.rows.map(({ time }) => new Date(time).toISOString().slice(11, 16))).toEqual(["00:30", "01:30", "02:30"]);
});

test("questions that only the second walk can put refuse it until they are answered", () => {
  const bytes = utf8(log(CO, "2026-03-04 07:30:00,1", "2026-03-04 07:30:00,2"));
  const found = survey(bytes, LONDON);
  if (!found.ok) throw new Error("surveyed");
  const back = read(bytes, found.value.mapping, LONDON);
  expect(back.ok === false && back.refusal).toMatchObject({ type: "questions-open", questions: [{ id: "conflicting readings" }] });
  expect(read(bytes, found.value.mapping, { ...LONDON, "conflicting readings": "keep both" }).ok).toBe(true);
});

const CLOCKS = utf8(log("Time,CO (ppm)", "23:59:00,1", "00:01:00,2"));

test("clock times without a date have no day until it is told", () => {
  const found = survey(CLOCKS, { zone: "Europe/Berlin" });
  if (!found.ok) throw new Error(JSON.stringify(found.refusal));
  expect(found.value.questions.map(({ id, blocking }) => [id, blocking])).toEqual([["start", true]]);
  expect(found.value.preview.first.map(({ parsed }) => parsed[0])).toEqual(["23:59:00", "00:01:00"]);
  const back = read(CLOCKS, found.value.mapping);
  expect(back.ok === false && back.refusal).toMatchObject({ type: "questions-open", questions: [{ id: "start", samples: [{ line: 2 }] }] });
});

// 22:30 UTC is half past midnight of the next day in Berlin in July.
test.for(["2026-07-05", "2026-07-05T00:30:00+02:00", "2026-07-04T22:30:00Z"])("%s tells the day on the clock of the file", (start) => {
  const given = { zone: "Europe/Berlin", start };
  const found = survey(CLOCKS, given);
  const back = found.ok ? read(CLOCKS, found.value.mapping, given) : found;
  expect(back.ok && back.value.rows.map(({ time }) => new Date(time).toISOString())).toEqual([
    "2026-07-05T21:59:00.000Z",
    "2026-07-05T22:01:00.000Z",
  ]);
});

/** A question or a guess: id, suggested or chosen, sureness of a guess, first reason, lines shown. */
const seen = (text: string | Uint8Array, given: Readonly<Record<string, string>> = {}) => {
  const found = survey(typeof text === "string" ? utf8(text) : text, given);
  if (!found.ok) throw new Error(JSON.stringify(found.refusal));
  return {
    asked: found.value.questions.map(({ id, suggested }) => [id, suggested]),
    choices: found.value.questions.map(({ choices }) => choices.map(({ value }) => value)),
    lines: found.value.questions.flatMap(({ samples }) => samples.map(({ line }) => line)),
    taken: found.value.guesses.map(({ topic, column, chosen, sureness }) => [`${topic}/${column}`, chosen, sureness]),
  };
};
const ZULU = "2026-03-04T07:30:00Z";

test("a comma beside semicolons is suggested as the decimal mark, and asked all the same", () => {
  const text = log("time;CO (ppm);H2S (ppm)", `${ZULU};12,5;3,25`);
  expect(seen(text).asked).toEqual([["decimal mark/*", ","]]);
  expect(seen(text, { "decimal mark/*": "." }).taken).toContainEqual(["decimal mark/*", ".", "certain"]);
  const mixed = log("time;CO (ppm);H2S (ppm)", `${ZULU};12,5;3.25`);
  expect(seen(mixed).asked.map(([id]) => id)).toEqual(["decimal mark/CO (ppm)", "decimal mark/H2S (ppm)"]);
  expect(seen(log("time;CO (ppm)", `${ZULU};1,250`)).asked.map(([id]) => id)).toEqual(["decimal mark/CO (ppm)"]);
  expect(seen(log("time\tCO (ppm)", `${ZULU}\t12,5`)).asked).toEqual([["decimal mark/*", ","]]);
});

test.each([
  ["04.03.2026 07:30", "day-month-year"],
  ["4.3.2026 07:30", "day-month-year"],
  ["04/03/2026 07:30", null],
  ["04-03-2026 07:30", null],
])("%s suggests %s, and stays a question", (time, suggested) => {
  expect(seen(log(CO, `${time},1`), { zone: "UTC" }).asked).toEqual([["day and month", suggested]]);
});

test("dots do not outweigh the steps of the rows", () => {
  const days = ["01.03.2026", "01.04.2026", "01.05.2026", "01.06.2026"].map((day, row) => `${day} 07:30,${row}`);
  expect(seen(log(CO, ...days), { zone: "UTC" }).asked).toEqual([["day and month", "month-day-year"]]);
});

test("per cent of a gas that does not burn is by volume; of one that may, it is asked", () => {
  for (const label of ["O2 (%)", "CO2 (%)"]) {
    expect(seen(log(`time,${label}`, `${ZULU},1`))).toMatchObject({
      asked: [],
      taken: expect.arrayContaining([[`unit/${label}`, "vol%", "strong"]]),
    });
    const told = survey(utf8(log(`time,${label}`, `${ZULU},1`)), { [`unit/${label}`]: "%LEL" });
    expect(told).toMatchObject({ refusal: { type: "bad-answer", answer: "%LEL" } });
  }
  expect(seen(log("time,CH4 (%)", `${ZULU},1`)).choices).toEqual([["vol%", "%LEL"]]);
});

test("a question points at real lines, never at line 0", () => {
  const western = Uint8Array.from("Zeit,CO (mg/m\u00b3)\n2026-03-04T07:30:00Z,1\n", (letter) => letter.charCodeAt(0));
  const found = survey(western);
  expect(found.ok && found.value.questions[0]).toMatchObject({ id: "encoding", samples: [{ line: 1, text: "Zeit,CO (mg/m\u00b3)" }] });
  const late = Uint8Array.from("time,CO (ppm),Ort\n2026-03-04T07:30:00Z,1,Halle\n2026-03-04T07:31:00Z,1,T\u00fcr\n", (letter) =>
    letter.charCodeAt(0),
  );
  const inRow = survey(late);
  expect(inRow.ok && inRow.value.questions[0]).toMatchObject({
    id: "encoding",
    samples: [{ line: 3, text: "2026-03-04T07:31:00Z,1,T\u00fcr" }],
  });
  for (const text of [log(",CO (ppm)", `${ZULU},1`), log("time,CO (ppm),x", `${ZULU},1,`, "2026-03-04T07:31:00Z,1,7"), log(`${ZULU},1`)])
    expect(seen(text).lines.every((line) => line > 0)).toBe(true);
  expect(seen(log("time,CO (ppm),x", `${ZULU},1,`, "2026-03-04T07:31:00Z,1,7")).lines).toEqual([3]);
});

test.each([
  ["nothing", []],
  ["a mark of UTF-8", [0xef, 0xbb, 0xbf]],
  ["a mark of UTF-16", [0xff, 0xfe]],
  ["line ends", [10, 13, 10]],
  ["a mark and a line end", [0xef, 0xbb, 0xbf, 13, 10]],
  ["spaces", [32, 9, 32]],
])("a file of %s is empty", (_, bytes) => {
  expect(survey(Uint8Array.from(bytes))).toEqual({ ok: false, refusal: { type: "empty-file" } });
});

const UTC_LOG = utf8(log("Time (UTC),CO (ppm)", "2026-07-04 07:30:00,1", "2026-07-04 07:31:00,2"));

test("a zone told against that of the heading is asked about, and neither is overridden silently", () => {
  const told = { zone: "Europe/Paris" };
  const found = survey(UTC_LOG, told);
  if (!found.ok) throw new Error(JSON.stringify(found.refusal));
  expect(found.value.questions.map(({ id, blocking, choices }) => [id, blocking, choices.map(({ value }) => value)])).toEqual([
    ["zone conflict", true, ["UTC", "Europe/Paris"]],
  ]);
  for (const [answer, first] of [
    ["UTC", "2026-07-04T07:30:00Z"],
    ["Europe/Paris", "2026-07-04T05:30:00Z"],
  ] as const) {
    const settled = answerQuestions(found.value, { "zone conflict": answer });
    expect(settled.ok && settled.value.questions).toEqual([]);
    expect(settled.ok && settled.value.preview.first[0]?.parsed[0]).toBe(first);
    expect(settled.ok && settled.value.guesses.filter(({ topic }) => topic === "zone").map(({ chosen }) => chosen)).toEqual([answer]);
  }
});

test.for(["UTC", "GMT", "Z", "+00:00", "Etc/UTC"])("%s is no other zone than UTC", (zone) => {
  const found = survey(UTC_LOG, { zone });
  expect(found.ok && found.value.questions).toEqual([]);
});

test("an answered zone stands once among the guesses, a unit decided against another once", () => {
  const local = survey(utf8(log(CO, "2026-03-04 07:30:00,1")));
  const zone = local.ok ? answerQuestions(local.value, LONDON) : local;
  expect(zone.ok && zone.value.guesses.filter(({ topic }) => topic === "zone")).toMatchObject([{ chosen: "Europe/London" }]);
  const told = survey(UTC_LOG, { "unit/CO (ppm)": "mg/m3" });
  expect(told.ok && told.value.questions.map(({ id }) => id)).toEqual(["unit conflict/CO (ppm)"]);
  const unit = told.ok ? answerQuestions(told.value, { "unit conflict/CO (ppm)": "ppm" }) : told;
  expect(unit.ok && unit.value.guesses.filter(({ topic }) => topic === "unit")).toMatchObject([{ column: "CO (ppm)", chosen: "ppm" }]);
});

/** A file, the guess about it by the id of the answer that takes it back, that answer, and what is then so. */
const TAKEN_BACK: readonly (readonly [id: string, was: string, answer: string, text: string, now: (found: Proposal) => unknown])[] = [
  [
    "zone",
    "UTC",
    "Europe/Paris",
    log("Time (UTC),CO (ppm)", "2026-07-04 07:30,1"),
    ({ questions }) => questions[0]?.id === "zone conflict",
  ],
  [
    "day and month",
    "day-month-year",
    "month-day-year",
    log("Time (UTC),CO (ppm)", "14/03/2026 07:30,1"),
    ({ mapping }) => mapping.time.form === "month-day-year",
  ],
  [
    "time form",
    "seconds-from-start",
    "minutes-from-start",
    log("Time (s),CO (ppm)", "0,1", "1,2"),
    ({ preview }) => preview.first[1]?.parsed[0] === "60",
  ],
  [
    "role/run",
    "series",
    "number",
    log("run,Time (s),CO (ppm)", "1,0,1", "1,1,2", "2,0,1", "2,1,2", "3,0,1", "3,1,2"),
    ({ mapping, questions }) => mapping.columns[0]?.role === "number" && questions.length === 0,
  ],
  [
    "role/sensor",
    "sensor",
    "text",
    log("Time (UTC),sensor,value,unit", "2026-07-04 07:30,CO,1,ppm", "2026-07-04 07:30,H2S,2,ppm"),
    ({ mapping }) => mapping.shape === "wide" && mapping.columns[1]?.role === "text",
  ],
  [
    "role/3",
    "ignored",
    "number",
    log("Time (UTC),CO (ppm),", "2026-07-04 07:30,1,5", "2026-07-04 07:31,1,6"),
    ({ mapping }) => mapping.columns[2]?.role === "number",
  ],
  [
    "word/NaN",
    "no reading",
    "fault",
    log("Time (UTC),CO (ppm)", "2026-07-04 07:30,1", "2026-07-04 07:31,NaN"),
    ({ mapping }) => mapping.words.fault[0] === "NaN",
  ],
  [
    "unit/CO (ppm)",
    "ppm",
    "mg/m3",
    log("Time (UTC),CO (ppm)", "2026-07-04 07:30,1"),
    ({ questions }) => questions[0]?.id === "unit conflict/CO (ppm)",
  ],
  [
    "gas/CO (ppm)",
    "carbon_monoxide",
    "nitrogen_dioxide",
    log("Time (UTC),CO (ppm)", "2026-07-04 07:30,1"),
    ({ mapping }) => mapping.columns[1]?.gas === "nitrogen_dioxide",
  ],
];

test.for(TAKEN_BACK)("the guess %s (%s) is taken back by the answer %s", ([id, was, answer, text, now]) => {
  const found = survey(utf8(text));
  if (!found.ok) throw new Error(JSON.stringify(found.refusal));
  const idOf = ({ topic, column }: Guess): string => (column === null ? topic : `${topic}/${column}`);
  expect(found.value.guesses.filter((guess) => idOf(guess) === id).map(({ chosen }) => chosen)).toEqual([was]);
  expect(now(found.value)).toBe(false);
  const again = survey(utf8(text), { [id]: answer });
  expect(again.ok && now(again.value)).toBe(true);
});
