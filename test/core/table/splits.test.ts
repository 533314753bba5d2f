/** Whatever pieces the bytes come in, the same comes out; and one bad line changes no other row. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { surveyAndRead } from "../../../src/core/table/index.ts";
import { chanceFrom, piecesBy, sumFault } from "./fuzz-case.ts";
import { environment, keeping, read, readBack, survey, utf8 } from "./reading.ts";

const FOLDER = join(import.meta.dirname, "../../cases/table/made");
const files = readdirSync(FOLDER).filter((file) => file.endsWith(".csv"));
const ANSWERS = { zone: "Europe/London", "confirm/*": "yes", "sentinel/65535": "no reading", "conflicting readings": "keep both" };

test.for(files)("%s: every cut into two, and byte by byte", (file) => {
  const bytes = readFileSync(join(FOLDER, file));
  const whole = survey(bytes, ANSWERS);
  if (!whole.ok) throw new Error(JSON.stringify(whole.refusal));
  const wanted = read(bytes, whole.value.mapping, ANSWERS);
  for (let cut = 0; cut <= bytes.length; cut++) {
    const pieces = (all: Uint8Array): Uint8Array[] => [all.slice(0, cut), all.slice(cut)];
    expect(survey(bytes, ANSWERS, pieces)).toEqual(whole);
    expect(read(bytes, whole.value.mapping, ANSWERS, pieces)).toEqual(wanted);
  }
  expect(survey(bytes, ANSWERS, piecesBy(1))).toEqual(whole);
});

/** Larger than the head and than a block, with all sorts of lines in between. */
function longFile(seed: number, lines: number): Uint8Array {
  const chance = chanceFrom(seed);
  let text = "time,CO (ppm),H2S (ppm),status,note\r\n";
  for (let line = 0; line < lines; line++) {
    const time = new Date(Date.UTC(2026, 0, 1) + line * 1000).toISOString().replace(".000Z", "Z");
    const odd = chance.below(400);
    if (odd === 0) text += "# a comment\r\n";
    else if (odd === 1) text += `${time},1\r\n`;
    else if (odd === 2) text += `${time},1,2,ok,"two\r\nlines"\r\n`;
    else if (odd === 3) text += `${time},>500,,ok,\u20ac\r\n`;
    else if (odd === 4) text += `${time},1,2,ok,"bad"quote\r\n`;
    else text += `${time},${chance.below(90)},${(chance.below(99) / 10).toFixed(1)},ok,\r\n`;
  }
  return utf8(text);
}

test("a long file: pieces of any size give the same rows, faults and counts", () => {
  const bytes = longFile(7, 12_000);
  const whole = survey(bytes);
  if (!whole.ok) throw new Error(JSON.stringify(whole.refusal));
  const wanted = read(bytes, whole.value.mapping);
  if (!wanted.ok) throw new Error(JSON.stringify(wanted.refusal));
  expect(wanted.value.rows.length).toBeGreaterThan(11_000);
  expect(sumFault(wanted.value.summary)).toBeNull();
  for (const size of [1_000, 4_097, 65_535, 65_536, 65_537, 300_001]) {
    expect(survey(bytes, {}, piecesBy(size))).toEqual(whole);
    expect(read(bytes, whole.value.mapping, {}, piecesBy(size))).toEqual(wanted);
  }
});

test("one walk for both gives the rows and the counts of two", () => {
  const bytes = longFile(11, 9_000);
  const whole = survey(bytes);
  if (!whole.ok) throw new Error(JSON.stringify(whole.refusal));
  const wanted = read(bytes, whole.value.mapping);
  const kept = keeping();
  const both = surveyAndRead(environment, {}, kept.sink);
  for (const piece of piecesBy(10_000)(bytes)) both.push(piece);
  const finished = both.finish();
  if (!finished.ok || !wanted.ok) throw new Error("read");
  expect(finished.value.summary).toEqual(wanted.value.summary);
  expect(finished.value.proposal.mapping).toEqual(whole.value.mapping);
  expect(finished.value.summary === null ? null : readBack(kept, finished.value.summary)).toEqual(wanted.value);
});

test("one walk says when its rows are worth nothing", () => {
  const summaryOf = (text: string, given = {}): unknown => {
    const both = surveyAndRead(environment, given, keeping().sink);
    both.push(utf8(text));
    const finished = both.finish();
    return finished.ok && finished.value.summary;
  };
  const local = "time,CO (ppm)\n2026-03-04 07:30:00,1\n2026-03-04 07:31:00,2\n";
  expect(summaryOf(local)).toBeNull();
  expect(summaryOf(local, { zone: "Europe/London" })).not.toBeNull();
  const late = `time,CO (ppm)\n${Array.from({ length: 5000 }, (_, line) => `${new Date(line * 1000).toISOString()},${line === 4990 ? "OVER" : 1}\n`).join("")}`;
  expect(summaryOf(late)).toBeNull();
});

test("a short way and the careful way store the same", () => {
  const bytes = longFile(3, 3_000);
  const found = survey(bytes);
  if (!found.ok) throw new Error(JSON.stringify(found.refusal));
  const short = read(bytes, found.value.mapping);
  // A word that is a number sends every line the careful way.
  const careful = read(bytes, { ...found.value.mapping, words: { ...found.value.mapping.words, fault: ["97"] } });
  if (!short.ok || !careful.ok) throw new Error("read");
  expect(careful.value.rows.filter((row) => row.values[0] !== "fault").length).toBeGreaterThan(2_900);
  expect(short.value.rows).toEqual(careful.value.rows);
  expect(short.value.summary).toEqual(careful.value.summary);
});

const day = (iso: string): string => `${iso.slice(8, 10)}/${iso.slice(5, 7)}/${iso.slice(0, 4)}`;
const month = (iso: string): string => `${iso.slice(5, 7)}-${iso.slice(8, 10)}-${iso.slice(0, 4)}`;
const halfDay = (iso: string, end: number): string => {
  const hour = Number(iso.slice(11, 13));
  return `${String(hour % 12 || 12).padStart(2, "0")}${iso.slice(13, end)} ${hour < 12 ? "AM" : "PM"}`;
};
const FORMS: readonly (readonly [string, number, string, (iso: string) => string])[] = [
  ["days alone", 86_400, "Time", (iso) => iso.slice(0, 10)],
  ["days alone, day first", 86_400, "Time", day],
  ["no seconds", 60, "Time", (iso) => iso.slice(0, 16)],
  ["hours apart", 3_600, "Time", (iso) => iso.slice(0, 19).replace("T", " ")],
  ["minutes apart, month first", 540, "Time", (iso) => `${month(iso)} ${iso.slice(11, 16)}`],
  ["AM and PM", 97, "Time", (iso) => `${day(iso)} ${halfDay(iso, 19)}`],
  ["AM and PM without seconds, at noon alone too", 43_200 + 60, "Time", (iso) => `${iso.slice(0, 10)} ${halfDay(iso, 16)}`],
  ["am and pm beside a date of its own", 1_260, "Date,Time", (iso) => `${day(iso)},${halfDay(iso, 19).toLowerCase()}`],
  ["thousandths of a second", 0.125, "Time", (iso) => iso],
  ["an offset", 7, "Time", (iso) => `${iso.slice(0, 19)}+00:00`],
  ["date and clock apart", 61, "Date,Time", (iso) => `${day(iso)},${iso.slice(11, 19)}`],
  ["date and clock apart, no seconds", 1_260, "Date,Time", (iso) => `${iso.slice(0, 10)},${iso.slice(11, 16)}`],
];

test.for(FORMS)("the short way reads times as they were written: %s", ([, step, heading, form]) => {
  const times = Array.from({ length: 3_000 }, (_, row) => Date.UTC(2026, 0, 1, 0, 0, 0) + row * step * 1000);
  const text = times.map((time, row) => `${form(new Date(time).toISOString())},${row % 90}\n`).join("");
  const bytes = utf8(`${heading},CO (ppm)\n${text}`);
  const found = survey(bytes, { zone: "UTC", "confirm/*": "yes" });
  const back = found.ok ? read(bytes, found.value.mapping) : found;
  if (!back.ok) throw new Error(JSON.stringify(back.refusal));
  expect(back.value.rows.map(({ time, values }) => [time, values[0]])).toEqual(times.map((time, row) => [time, String(row % 90)]));
});

test("rejecting one line changes no other row", () => {
  const lines = new TextDecoder().decode(longFile(5, 600)).split("\r\n");
  const rowsOf = (text: string) => {
    const found = survey(utf8(text));
    const back = found.ok ? read(utf8(text), found.value.mapping) : found;
    return back.ok ? back.value.rows : [];
  };
  const plain = rowsOf(lines.join("\r\n"));
  const target = plain[300] ?? expect.unreachable();
  const broken = lines.map((line, index) => (index + 1 === target.line ? `${line},extra` : line)).join("\r\n");
  expect(rowsOf(broken)).toEqual(plain.filter((row) => row !== target));
});
