/** Rows of several people or instruments in one file are never one channel unless somebody says so. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { read, readWith, survey, utf8 } from "./reading.ts";

const START = Date.UTC(2026, 2, 4, 6);
const at = (seconds: number): string => new Date(START + seconds * 1000).toISOString().replace(".000Z", "Z");

interface Row {
  readonly seconds: number;
  readonly who: string;
  readonly value: number;
}
const wide = (label: string, rows: readonly Row[]): Uint8Array =>
  utf8([`time,${label},CO (ppm)`, ...rows.map(({ seconds, who, value }) => `${at(seconds)},${who},${value}`), ""].join("\n"));
const long = (label: string, rows: readonly Row[]): Uint8Array =>
  utf8([`time,${label},gas,value,unit`, ...rows.map(({ seconds, who, value }) => `${at(seconds)},${who},CO,${value},ppm`), ""].join("\n"));

const run = (who: string, value: number, count: number, period = 60, from = 0): Row[] =>
  Array.from({ length: count }, (_, row) => ({ seconds: from + row * period, who, value }));
const inOrder = (...runs: readonly (readonly Row[])[]): Row[] => runs.flat().sort((one, other) => one.seconds - other.seconds);

const asked = (bytes: Uint8Array): unknown[] => {
  const found = survey(bytes);
  if (!found.ok) throw new Error(JSON.stringify(found.refusal));
  return found.value.questions.map(({ id, suggested, blocking }) => [id, suggested, blocking]);
};

const BY_TURNS = inOrder(run("A1", 10, 300), run("B2", 60, 300, 60, 30));
// The second one begins where the rows are no longer looked at one by one.
const LATE = inOrder(run("A1", 10, 3000), run("B2", 60, 400, 60, 120_030));
const BLOCKS = [...run("A1", 10, 50), ...run("B2", 60, 50, 60, 3600)];
const OVERLAP = [...run("A1", 10, 50), ...run("B2", 60, 50, 60, 1200), ...run("C3", 60, 50, 60, 7200)];
const SAME_TIME = run("A1", 10, 50).flatMap((row) => [row, { ...row, who: "B2", value: 60 }]);
const SAME_READINGS = run("A1", 10, 50).flatMap((row) => [row, { ...row, who: "B2" }]);

test.each(["worker", "Wearer", "person", "name", "instrument", "device_id", "unit id", "Serial", "serial no", "id", "badge"])(
  "%s: two in one file are asked about, and series is offered",
  (label) => {
    for (const rows of [BY_TURNS, LATE, BLOCKS, OVERLAP, SAME_TIME, SAME_READINGS])
      for (const bytes of [wide(label, rows), long(label, rows)]) expect(asked(bytes)).toEqual([[`role/${label}`, "series", true]]);
  },
);

test("so are numbers under such a heading, but not the numbers of the rows", () => {
  const numbered = BY_TURNS.map((row) => ({ ...row, who: row.who === "A1" ? "100234" : "100777" }));
  expect(asked(wide("serial", numbered))).toEqual([["role/serial", "series", true]]);
  expect(
    asked(
      wide(
        "id",
        run("", 1, 300).map((row, index) => ({ ...row, who: String(index + 1) })),
      ),
    ),
  ).toEqual([]);
  expect(asked(wide("unit id", run("A1", 1, 300)))).toEqual([]);
});

test("under any other heading the times tell, and nothing is offered", () => {
  for (const rows of [BY_TURNS, LATE, OVERLAP, SAME_TIME, SAME_READINGS])
    for (const bytes of [wide("crew member", rows).slice(), wide("Halle", rows), long("Halle", rows)])
      expect(asked(bytes)).toEqual([[expect.stringMatching(/^role\//), expect.toSatisfy((it) => it === null || it === "series"), true]]);
});

test("a state, a place or a remark of one run asks nothing", () => {
  const states = run("work", 5, 600).map((row, index) => ({ ...row, who: index % 97 === 50 ? "break" : row.who }));
  for (const label of ["remark", "note", "task", "place"]) expect(asked(wide(label, states))).toEqual([]);
  const moved = run("", 5, 600).map((row, index) => ({ ...row, who: ["hall", "yard", "hall", "pit"][Math.floor(index / 150)] as string }));
  expect(asked(wide("place", moved))).toEqual([]);
  const blank = run("", 5, 600).map((row, index) => ({ ...row, who: index % 31 === 7 ? "knocked" : "" }));
  expect(asked(wide("what happened", blank))).toEqual([]);
  const cells = run("", 5, 600).map((row, index) => ({ ...row, who: String(20 + (index % 3)) }));
  expect(asked(wide("Temp", cells))).toEqual([]);
});

test("the answer splits the rows, or keeps them together", () => {
  for (const bytes of [wide("worker", SAME_TIME), long("worker", SAME_TIME)]) {
    const split = readWith(bytes, { "role/worker": "series" });
    expect(split.back.ok && split.back.value.series).toEqual(["A1", "B2"]);
    expect(split.back.ok && new Set(split.back.value.rows.map(({ series, values }) => `${series} ${values}`))).toEqual(
      new Set(["0 10", "1 60"]),
    );
    const kept = readWith(bytes, { "role/worker": "ignored", "conflicting readings": "keep both" });
    expect(kept.back.ok && kept.back.value.rows.map(({ series }) => series)).toEqual(SAME_TIME.map(() => null));
    expect(asked(bytes)).toEqual([["role/worker", "series", true]]);
  }
});

test("two columns that together tell the rows apart are asked one after the other", () => {
  const rows = ["time,worker,serial,CO (ppm)"];
  for (let row = 0; row < 90; row++) rows.push(`${at(row * 20)},${row % 3 === 0 ? "Ada" : "Bo"},${row % 3 === 2 ? "S2" : "S1"},${row % 3}`);
  const bytes = utf8(`${rows.join("\n")}\n`);
  const one = readWith(bytes, { "role/worker": "series" });
  expect(one.back).toMatchObject({ refusal: { type: "questions-open", questions: [{ id: "role/serial", suggested: "series" }] } });
  const both = readWith(bytes, { "role/worker": "series", "role/serial": "series" });
  expect(both.back.ok && both.back.value.series).toEqual(["Ada / S1", "Bo / S1", "Bo / S2"]);
});

test("a mapping made for one wearer asks about the file of two, unless somebody said that the column names none", () => {
  const one = readWith(wide("worker", run("A1", 10, 50)), {}).proposal.mapping;
  const two = wide("worker", BY_TURNS);
  expect(read(two, one)).toMatchObject({ refusal: { type: "questions-open", questions: [{ id: "role/worker" }] } });
  const split = read(two, one, { "role/worker": "series" });
  expect(split.ok && split.value.series).toEqual(["A1", "B2"]);
  expect(read(two, readWith(two, { "role/worker": "ignored" }).proposal.mapping).ok).toBe(true);
});

/** A run of its own steady beat, each step up to a tenth longer or shorter. */
const beat = (who: string) =>
  fc
    .record({
      period: fc.integer({ min: 20, max: 600 }),
      from: fc.integer({ min: 0, max: 400 }),
      off: fc.array(fc.integer({ min: -10, max: 10 }), { minLength: 4, maxLength: 120 }),
      value: fc.integer({ min: 0, max: 90 }),
    })
    .map(({ period, from, off, value }): Row[] =>
      off.map((part, row) => ({ seconds: from + row * period + Math.trunc((part * period) / 200), who, value })),
    );

test("two runs whose times overlap are never one channel without a question or an answer", () => {
  const meet = ([one, other]: readonly [Row[], Row[]]): boolean =>
    (one[0]?.seconds ?? 0) < (other.at(-1)?.seconds ?? 0) && (other[0]?.seconds ?? 0) < (one.at(-1)?.seconds ?? 0);
  fc.assert(
    fc.property(
      fc.tuple(beat("A1"), beat("B2")).filter(meet),
      fc.constantFrom("worker", "serial", "id", "Halle", "x"),
      fc.boolean(),
      fc.boolean(),
      ([one, other], label, isLong, isSorted) => {
        const rows = isSorted ? inOrder(one, other) : [...one, ...other];
        const bytes = (isLong ? long : wide)(label, rows);
        const found = survey(bytes);
        if (!found.ok) throw new Error(JSON.stringify(found.refusal));
        const isAsked = found.value.questions.some(({ id, blocking }) => id === `role/${label}` && blocking);
        expect(isAsked || found.value.mapping.columns[1]?.role === "series").toBe(true);
        const split = readWith(bytes, { [`role/${label}`]: "series" });
        if (!isLong)
          expect(split.back.ok && split.back.value.rows.map(({ series }) => series)).toEqual(
            rows.map(({ who }) => (who === rows[0]?.who ? 0 : 1)),
          );
      },
    ),
    { numRuns: 150 },
  );
});
