import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { exposureJson, lamproom } from "./command.ts";

let folder = "";
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "lamproom-bad-"));
  for (const [name, content] of Object.entries(FILES)) await writeFile(join(folder, name), content);
});
afterAll(() => rm(folder, { recursive: true }));

const minutes = (count: number, row: (minute: number) => string): string =>
  Array.from({ length: count }, (_, minute) => row(minute)).join("\n");
const clock = (minute: number): string => `2026-03-04T06:${String(minute).padStart(2, "0")}:00Z`;
const GOOD = `Time,CO (ppm)\n${minutes(30, (minute) => `${clock(minute)},${minute}`)}\n`;

const FILES: Readonly<Record<string, string | Uint8Array>> = {
  "good.csv": GOOD,
  "empty.csv": "",
  "binary.csv": Uint8Array.from({ length: 4096 }, (_, index) => (index * 37) % 256),
  "no-unit.csv": `Time,CO\n${minutes(30, (minute) => `${clock(minute)},${minute}`)}\n`,
  "two-times.csv": `Start,End,CO (ppm)\n${minutes(30, (minute) => `${clock(minute)},${clock(minute + 1)},${minute}`)}\n`,
  "backwards.csv": `Time,CO (ppm)\n${minutes(30, (minute) => `${minute === 12 ? "2026-03-04T06:03:30Z" : clock(minute)},${minute}`)}\n`,
  "no-such-day.csv": `Time,CO (ppm)\n01/02/2026 06:00:00,1\n28/02/2026 06:01:00,2\n31/02/2026 06:02:00,3\n28/02/2026 06:03:00,4\n`,
  "oxygen-209.csv": `Time,O2 (%vol)\n${minutes(30, (minute) => `${clock(minute)},${minute === 9 ? "209" : "20.9"}`)}\n`,
  "pdf.csv": `%PDF-1.7\n%\u00e2\u00e3\u00cf\u00d3\n1 0 obj\n<< /Type /Catalog >>\nendobj\n`,
  "local.csv": `Time,CO (ppm)\n${minutes(30, (minute) => `2026-03-04 06:${String(minute).padStart(2, "0")}:00,${minute}`)}\n`,
  "page.csv": "<!DOCTYPE html><html><body>Log in</body></html>\n",
  "object.json": '{"readings": [1, 2, 3]}',
  "heading-only.csv": "Time,CO (ppm)\n",
};

/** File, flags, type of the refusal or null, and what must be said: line, value, what to do. */
const REFUSED: readonly (readonly [name: string, flags: readonly string[], type: string, says: readonly RegExp[]])[] = [
  ["empty.csv", [], "empty-file", [/empty/, /Copy it/]],
  ["binary.csv", [], "not-a-table", [/binary/, /CSV/]],
  ["pdf.csv", [], "not-a-table", [/PDF/, /text export/]],
  ["page.csv", [], "not-a-table", [/web page/]],
  ["object.json", [], "not-a-table", [/JSON/]],
  ["no-unit.csv", [], "questions-open", [/unit/]],
  ["two-times.csv", [], "questions-open", [/two time columns/]],
  ["local.csv", [], "questions-open", [/zone/]],
];

describe("a bad file is refused in words, and the others of the call are answered", () => {
  test.each(REFUSED)("%s %j: %s", async (name, flags, type, says) => {
    const { code, err, out, answer } = await exposureJson([name, "good.csv", ...flags], { folder });
    const [bad, good] = answer.files;
    expect(bad?.file).toBe(name);
    expect(bad?.refusal?.type).toBe(type);
    const words = `${bad?.refusal?.message} ${bad?.refusal?.mend}`;
    for (const pattern of says) expect(words).toMatch(pattern);
    expect(bad?.channels).toEqual([]);
    expect(good?.refusal).toBeNull();
    expect(good?.channels[0]).toMatchObject({ name: "CO (ppm)", gas: "carbon_monoxide", unit: "ppm", samples: 30 });
    expect(code).toBe(1);
    noTrace(err, out);
  });

  test("the same as a page: the refused file says why, the good one is answered", async () => {
    const { code, out, err } = await lamproom(["exposure", "pdf.csv", "good.csv"], { folder });
    expect(code).toBe(1);
    expect(out).toMatch(/^pdf\.csv\n {2}Not answered\. This is not a table: it looks like a PDF/);
    expect(out).toContain("good.csv");
    expect(out).toContain("greatest 15");
    noTrace(err, out);
  });
});

/** File, flags, line at fault, type, and the value that stands there; the row is left out or kept. */
const FAULTY: readonly (readonly [name: string, flags: readonly string[], line: number, type: string, raw: RegExp, rejected: boolean])[] = [
  ["no-such-day.csv", ["--zone", "UTC"], 4, "impossible time", /31\/02\/2026/, true],
  ["oxygen-209.csv", [], 11, "impossible value", /209/, true],
  ["backwards.csv", [], 14, "time runs backwards", /06:03/, false],
];

describe("a bad line is named with its number, its value and what to do", () => {
  test.each(FAULTY)("%s %j: line %d, %s", async (name, flags, line, type, raw, rejected) => {
    const { answer, err, out } = await exposureJson([name, "good.csv", ...flags], { folder });
    const fault = answer.files[0]?.faults.find((one) => one.line === line);
    expect(fault).toMatchObject({ type, line, rejected });
    expect(fault?.raw).toMatch(raw);
    expect(fault?.message).toMatch(new RegExp(`^Line ${line}\\b`));
    expect(fault?.message).toMatch(raw);
    expect(answer.files[1]?.refusal).toBeNull();
    noTrace(err, out);
  });
});

test("a zone that does not exist is refused with near names, even where the file carries its own offsets", async () => {
  const { code, answer } = await exposureJson(["local.csv", "good.csv", "--zone", "Europe/Lodnon"], { folder });
  expect(code).toBe(1);
  for (const { refusal, channels } of answer.files) {
    expect(refusal).toMatchObject({
      type: "unknown-zone",
      message: expect.stringContaining("Europe/Lodnon"),
      mend: expect.stringContaining("Europe/London"),
    });
    expect(channels).toEqual([]);
  }
});

test("with a question open the faults of the first walk are listed, marked provisional", async () => {
  const { answer } = await exposureJson(["no-such-day.csv"], { folder });
  expect(answer.files[0]?.refusal?.type).toBe("questions-open");
  expect(answer.files[0]?.faults.map(({ line, type, provisional }) => [line, type, provisional])).toEqual([[4, "impossible time", true]]);
});

test("a file that is not there: code 3, and the others are answered", async () => {
  const { code, answer } = await exposureJson(["not-there.csv", "good.csv"], { folder });
  expect(code).toBe(3);
  expect(answer.files.map(({ refusal }) => refusal?.type ?? null)).toEqual(["file-not-readable", null]);
});

test("a heading without rows is refused, and says that rows are missing", async () => {
  const { code, answer } = await exposureJson(["heading-only.csv"], { folder });
  expect(code).toBe(1);
  expect(answer.files[0]?.refusal?.message).toMatch(/no row/);
});

test("two hundred and nine per cent of oxygen enters no figure", async () => {
  const { answer } = await exposureJson(["oxygen-209.csv"], { folder });
  expect(answer.files[0]?.channels[0]?.peak?.value).toBe(20.9);
  expect(answer.files[0]?.lines).toMatchObject({ rows: 29, rejected: 1 });
});

function noTrace(...texts: readonly string[]): void {
  for (const text of texts) expect(text).not.toMatch(/\n\s+at .*\.ts|node:internal|broken promise|undefined/);
}
