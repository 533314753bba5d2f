/** A clock of twelve hours without AM and PM is never put in the order of a clock of 24 hours without a question. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { answerQuestions, jsonFromMapping, mappingFromJson } from "../../../src/core/table/index.ts";
import { CO, log } from "./mess.ts";
import { read, readWith, survey, utf8 } from "./reading.ts";

const UTC = { zone: "UTC" };
const ID = "twelve-hour clock";
const HOUR = 3_600_000;
const two = (number: number): string => String(number).padStart(2, "0");

/** An instant as a log of such a clock writes it. */
function written(instant: number, form: "date and clock" | "two columns" | "clock alone", day: number): string {
  const at = new Date(instant);
  const clock = `${two(at.getUTCHours() % 12 || 12)}:${two(at.getUTCMinutes())}:${two(at.getUTCSeconds())}`;
  const date = new Date(day).toISOString().slice(0, 10);
  if (form === "clock alone") return clock;
  return form === "two columns" ? `${date},${clock}` : `${date} ${clock}`;
}

const HEADS = { "date and clock": CO, "two columns": "date,time,CO (ppm)", "clock alone": CO };

interface Log {
  readonly text: string;
  readonly times: readonly number[];
}

const logs = fc
  .record({
    form: fc.constantFrom("date and clock" as const, "two columns" as const, "clock alone" as const),
    start: fc.integer({ min: 0, max: 24 * 3600 - 1 }),
    // One step, or steps that differ; below eleven hours each.
    steps: fc.oneof(
      fc
        .tuple(fc.integer({ min: 1, max: 11 * 3600 - 1 }), fc.integer({ min: 1, max: 40 }))
        .map(([step, count]) => Array.from({ length: count }, () => step)),
      fc.array(fc.integer({ min: 1, max: 11 * 3600 - 1 }), { minLength: 1, maxLength: 20 }),
      fc
        .tuple(fc.integer({ min: 60, max: 900 }), fc.integer({ min: 20, max: 200 }))
        .map(([step, count]) => Array.from({ length: count }, () => step)),
    ),
    newestFirst: fc.boolean(),
  })
  .map(({ form, start, steps, newestFirst }): Log & { readonly newestFirst: boolean; readonly form: keyof typeof HEADS } => {
    const times = [Date.UTC(2026, 2, 4) + start * 1000];
    for (const step of steps) times.push((times.at(-1) as number) + step * 1000); // one at least
    const ordered = newestFirst ? times.toReversed() : times;
    const rows = ordered.map((time, index) => `${written(time, form, time)},${index}`);
    return { text: log(HEADS[form], ...rows), times: ordered, newestFirst, form };
  });

/** Indexes of rows in the order of their times. */
function orderOf(text: string, answers: Readonly<Record<string, string>>): readonly number[] | "asked" {
  const { proposal, back } = readWith(utf8(text), answers);
  if (proposal.questions.some(({ id, blocking }) => id === ID && blocking)) return "asked";
  if (!back.ok) throw new Error(JSON.stringify(back.refusal));
  return back.value.rows.toSorted((one, other) => one.time - other.time || one.line - other.line).map(({ values }) => Number(values[0]));
}

const DAY = { ...UTC, start: "2026-03-04" };

test("whatever the spacing of the rows, they keep the order of the file, forwards or backwards, or the clock is asked about", () => {
  fc.assert(
    fc.property(logs, ({ text, times }) => {
      const order = orderOf(text, DAY);
      if (order === "asked") return;
      const forwards = times.map((_, index) => index);
      expect([forwards, forwards.toReversed()]).toContainEqual(order);
    }),
    { numRuns: 2000 },
  );
});

test("a dated log whose clock is told is read to the second, day by day where no day begins after noon alone", () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 0, max: 24 * 3600 - 1 }),
      fc.integer({ min: 1, max: 3 * 3600 }),
      fc.integer({ min: 1, max: 60 }),
      fc.boolean(),
      fc.constantFrom("date and clock" as const, "two columns" as const, "clock alone" as const),
      (start, step, count, newestFirst, form) => {
        const times = Array.from({ length: count }, (_, row) => Date.UTC(2026, 2, 4) + (start + row * step) * 1000);
        const ordered = newestFirst ? times.toReversed() : times;
        const [first = 0] = ordered;
        const half = `${first % (24 * HOUR) < 12 * HOUR ? "before noon" : "after noon"}${newestFirst ? ", newest first" : ""}`;
        const day = new Date(first).toISOString().slice(0, 10);
        const rows = ordered.map((time, index) => `${written(time, form, time)},${index}`);
        const { back } = readWith(utf8(log(HEADS[form], ...rows)), { ...UTC, [ID]: half, start: day });
        expect(back.ok && back.value.rows.map(({ time }) => time)).toEqual(ordered);
      },
    ),
    { numRuns: 500 },
  );
});

const TEN_TO_THREE = Array.from({ length: 60 }, (_, row) => Date.UTC(2026, 2, 13, 10) + row * 300_000);
const AFTERNOON = log(CO, ...TEN_TO_THREE.map((time, row) => `${written(time, "date and clock", time)},${row}`));

test("ten in the morning to three in the afternoon: asked with the line, the morning suggested, nothing read before the answer", () => {
  const found = survey(utf8(AFTERNOON), UTC);
  if (!found.ok) throw new Error(JSON.stringify(found.refusal));
  expect(found.value.questions).toMatchObject([
    {
      id: ID,
      blocking: true,
      suggested: "before noon",
      samples: [{ line: 38, text: "2026-03-13 01:00:00" }],
      // On the date of the first row twelve comes after eleven: it was a morning.
      choices: [{ value: "as written" }, { value: "before noon" }],
    },
  ]);
  const refused = read(utf8(AFTERNOON), found.value.mapping, UTC);
  expect(refused.ok === false && refused.refusal).toMatchObject({ type: "questions-open", questions: [{ id: ID }] });
  const settled = answerQuestions(found.value, { [ID]: "before noon" });
  const back = settled.ok ? read(utf8(AFTERNOON), settled.value.mapping, UTC) : settled;
  expect(back.ok && back.value.rows.map(({ time }) => time)).toEqual(TEN_TO_THREE);
  expect(back.ok && back.value.summary.faults).toEqual([]);
});

test("twenty to one to ten past one: no half of the day is suggested, since either fits", () => {
  const rows = ["12:40", "12:45", "12:50", "12:55", "01:00", "01:05", "01:10"].map((clock, row) => `2026-03-13 ${clock}:00,${row}`);
  const found = survey(utf8(log(CO, ...rows)), UTC);
  expect(found.ok && found.value.questions.map(({ id, suggested }) => [id, suggested])).toEqual([[ID, null]]);
  for (const [half, hour] of [
    ["before noon", 0],
    ["after noon", 12],
  ] as const) {
    const { back } = readWith(utf8(log(CO, ...rows)), { ...UTC, [ID]: half });
    expect(back.ok && back.value.rows.map(({ time }) => (time - Date.UTC(2026, 2, 13, hour, 40)) / 300_000)).toEqual([0, 1, 2, 3, 4, 5, 6]);
  }
});

test("as written: a person says that the rows came out of order", () => {
  const { proposal, back } = readWith(utf8(AFTERNOON), { ...UTC, [ID]: "as written" });
  expect(proposal.questions).toEqual([]);
  expect(back.ok && new Date(back.value.rows.at(-1)?.time ?? 0).getUTCHours()).toBe(2);
  expect(back.ok && back.value.summary.faults.map(({ type, line }) => [type, line])).toContainEqual(["time runs backwards", 38]);
});

const minutes = (count: number, from: number, step = 1): string[] =>
  Array.from({ length: count }, (_, row) => new Date(from + row * step * 60_000).toISOString().slice(0, 19).replace("T", " "));

test.each([
  ["a morning of 24 hours", minutes(200, Date.UTC(2026, 2, 4, 6))],
  ["a whole day of 24 hours, one row out of order", [...minutes(900, Date.UTC(2026, 2, 4, 6)), "2026-03-04 08:00:30"]],
  ["a clock put back by a minute", [...minutes(60, Date.UTC(2026, 2, 4, 7)), ...minutes(60, Date.UTC(2026, 2, 4, 7, 59))]],
  [
    "a morning, newest first, with a gap of two hours",
    [...minutes(60, Date.UTC(2026, 2, 4, 7)), ...minutes(60, Date.UTC(2026, 2, 4, 10))].toReversed(),
  ],
  ["two mornings", [...minutes(60, Date.UTC(2026, 2, 4, 11)), ...minutes(60, Date.UTC(2026, 2, 5, 8))]],
  ["AM and PM are written", ["2026-03-04 11:50 AM", "2026-03-04 12:10 PM", "2026-03-04 01:10 PM"]],
  ["an offset is written", ["2026-03-04T12:50:00Z", "2026-03-04T01:10:00Z"]],
])("%s is no question", (_, times) => {
  const found = survey(utf8(log(CO, ...times.map((time, row) => `${time},${row}`))), UTC);
  expect(found.ok && found.value.questions.map(({ id }) => id)).not.toContain(ID);
});

test("the hours that count are those of the whole file, on the short way too", () => {
  const times = [...minutes(400, Date.UTC(2026, 2, 4, 6)), "2026-03-04 08:00:30", ...minutes(100, Date.UTC(2026, 2, 4, 12, 41))];
  const rows = times.map((time, row) => `${time},${row % 9}`);
  expect(survey(utf8(log(CO, ...rows)), UTC)).toMatchObject({ value: { questions: [] } });
  const morning = rows.slice(0, 401);
  expect(survey(utf8(log(CO, ...morning)), UTC)).toMatchObject({ value: { questions: [{ id: ID }] } });
});

test("two recordings of one file, one after the other, each of twelve hours: one half for the first row of each", () => {
  const rows = ["1", "2"].flatMap((run) => TEN_TO_THREE.map((time, row) => `${run},${written(time, "date and clock", time)},${row}`));
  const bytes = utf8(log(`run,${CO}`, ...rows));
  const found = readWith(bytes, { ...UTC, "role/run": "series" });
  const asked = [
    ...found.proposal.questions,
    ...(found.back.ok || found.back.refusal.type !== "questions-open" ? [] : found.back.refusal.questions),
  ];
  expect(asked.map(({ id }) => id)).toContain(ID);
  const { back } = readWith(bytes, { ...UTC, "role/run": "series", [ID]: "before noon" });
  expect(back.ok && back.value.rows.map(({ time }) => time)).toEqual([...TEN_TO_THREE, ...TEN_TO_THREE]);
});

test("the half of the day is that of one file: a kept mapping does not hold it, and the call may say it again", () => {
  const { proposal } = readWith(utf8(AFTERNOON), { ...UTC, [ID]: "before noon" });
  const kept = mappingFromJson(jsonFromMapping(proposal.mapping));
  if (!kept.ok) throw new Error(JSON.stringify(kept.refusal));
  expect(read(utf8(AFTERNOON), kept.value)).toMatchObject({ ok: false, refusal: { type: "questions-open", questions: [{ id: ID }] } });
  const back = read(utf8(AFTERNOON), kept.value, { [ID]: "before noon" });
  expect(back.ok && back.value.rows.map(({ time }) => time)).toEqual(TEN_TO_THREE);
  expect(read(utf8(AFTERNOON), kept.value, { [ID]: "noon" })).toMatchObject({ refusal: { type: "bad-answer", question: ID } });
});

test("a kept mapping: which of the two hours is meant is taken from the call, not only asked", () => {
  const text = utf8(log(CO, "2025-10-26 00:30,1", "2025-10-26 01:30,2", "2025-10-26 02:30,3"));
  const given = { zone: "Europe/London" };
  const found = survey(text, given);
  const kept = found.ok ? mappingFromJson(jsonFromMapping(found.value.mapping)) : found;
  if (!kept.ok) throw new Error(JSON.stringify(kept.refusal));
  const back = read(text, kept.value, { "repeated hour": "later" });
  expect(back.ok && new Date(back.value.rows[1]?.time ?? 0).getUTCHours()).toBe(1);
});
