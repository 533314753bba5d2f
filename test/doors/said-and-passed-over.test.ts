/** What a call says and a file does not need, or contradicts: never silent. */
import { mkdir, mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { exposureJson, lamproom } from "./command.ts";

const ESCAPE = String.fromCharCode(27);
const CONTROL_BYTE = String.fromCharCode(0x9b);

let folder = "";
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "lamproom-said-"));
  const minutes = (heading: string, row: (minute: number) => string): string =>
    `${heading}\n${Array.from({ length: 391 }, (_, minute) => row(minute)).join("\n")}\n`;
  const clock = (minute: number): string => new Date(Date.UTC(2026, 2, 4, 6, minute)).toISOString().slice(0, 19);
  await writeFile(
    join(folder, "instants.csv"),
    minutes("time,CO (ppm)", (minute) => `${clock(minute)}Z,40`),
  );
  await writeFile(
    join(folder, "local.csv"),
    minutes("Time,CO (ppm)", (minute) => `${clock(minute).replace("T", " ")},40`),
  );
  await writeFile(
    join(folder, "elapsed.csv"),
    minutes("seconds,CO (ppm)", (minute) => `${minute * 60 - 500},40`),
  );
  await writeFile(
    join(folder, "flammable.csv"),
    minutes("time,LEL (%LEL)", (minute) => `${clock(minute)}Z,12`),
  );
  const name = `${ESCAPE}[31mCO (ppm)${ESCAPE}[0m${CONTROL_BYTE}31m`;
  await writeFile(join(folder, "marks.csv"), `time,"${name}"\n2026-03-04T06:00:00Z,5\n2026-03-04T06:01:00Z,${ESCAPE}]0;x\n`);
  await mkdir(join(folder, "nothing"));
});
afterAll(() => rm(folder, { recursive: true }));

const run = (...words: readonly string[]) => lamproom(["exposure", ...words], { folder });
const json = (...words: readonly string[]) => exposureJson(words, { folder });

describe("a flag that the file contradicts is passed over with a note", () => {
  test.each([
    ["instants.csv", "--unit", "mg/m3", "--unit mg/m³ was not used where the file says otherwise: CO (ppm) is ppm."],
    ["instants.csv", "--gas", "*=H2S", "--gas hydrogen sulphide was not used where the file says otherwise: CO (ppm) is carbon monoxide."],
    ["instants.csv", "--start", "2020-01-01T00:00:00Z", "--start 2020-01-01T00:00:00Z was not used: the file gives its own dates."],
    ["instants.csv", "--zone", "Europe/Paris", "--zone Europe/Paris was not used: the times of the file carry their own offset."],
    ["elapsed.csv", "--zone", "Europe/Paris", "--zone Europe/Paris was not used: the file counts from its own start."],
  ])("%s %s %s", async (file, flag, value, note) => {
    const plain = await json(file);
    const { answer, code } = await json(file, flag, value);
    expect(answer.files[0]?.notes).toEqual([{ line: null, text: note }]);
    expect(answer.files[0]?.channels).toEqual(plain.answer.files[0]?.channels);
    expect(code).toBe(plain.code);
    expect((await run(file, flag, value)).out).toContain(`About the file\n    ${note.slice(0, 60)}`);
  });

  test.each([
    ["local.csv", "--zone", "Europe/Paris"],
    ["elapsed.csv", "--start", "2026-03-04T06:00:00Z"],
    ["instants.csv", "--unit", "ppm"],
    ["instants.csv", "--gas", "*=CO"],
  ])("%s %s %s is used, or agrees, and there is nothing to note", async (file, flag, value) => {
    expect((await json(file, flag, value)).answer.files[0]?.notes).toEqual([]);
  });
});

describe("an answer needs a question", () => {
  test.each([
    ["foo=bar", /no.* question "foo".* Answers are taken for "confirm\/\*", /i],
    ["zoen=UTC", /Did you mean "zone"/],
    ["unti/CO (ppm)=ppm", /Did you mean "unit\/CO \(ppm\)"/],
  ])("%s is a wrong call where no file asks it", async (answer, pattern) => {
    const { code, err } = await run("local.csv", "--zone", "UTC", "--answer", answer);
    expect(err).toMatch(pattern);
    expect(code).toBe(2);
  });

  test("where one file asks it the others are named", async () => {
    const { code, err } = await run("local.csv", "instants.csv", "--answer", "zone=UTC");
    expect([code, err]).toEqual([0, "--answer 'zone' was not used for instants.csv: no such question there.\n"]);
  });
});

describe("exit codes", () => {
  test.each([
    ["a question is open, though the file is answered", ["flammable.csv"], 1],
    ["a question is open before anything is answered", ["local.csv"], 1],
    ["a folder holds no recording", ["nothing"], 1],
    ["all is answered", ["instants.csv"], 0],
    ["all is answered, a faulty line left out", ["faulty.csv"], 0],
  ])("%s: %j is %d", async (_, words, exit) => {
    await writeFile(join(folder, "faulty.csv"), "time,CO (ppm)\n2026-03-04T06:00:00Z,5\nnot a time,7\n2026-03-04T06:01:00Z,5\n");
    expect((await run(...words)).code).toBe(exit);
  });

  test("a folder without recordings says so", async () => {
    const { out, err } = await run("nothing");
    expect(out).toBe("");
    expect(err).toMatch(/no file in this folder .*\nNo file was read\.\n$/);
  });
});

describe("folders within a folder", () => {
  test.each([
    [["below"], "below: 1 folder in it was not looked into: name it to have it read.\nNo file was read.\n", 1],
    [["below", "beside"], "below: 2 folders in it were not looked into: name them to have them read.\nNo file was read.\n", 1],
  ])("%j are counted and not looked into", async (within, says, exit) => {
    for (const name of within) await mkdir(join(folder, "below", name), { recursive: true });
    await mkdir(join(folder, "below", ".kept-by-a-program"), { recursive: true });
    await writeFile(join(folder, "below", within[0] ?? "", "shift.csv"), "time,CO (ppm)\n2026-03-04T06:00:00Z,5\n");
    const { code, out, err } = await run("below");
    expect(err).toContain(says.split("\n")[0]);
    expect(err).toMatch(/No file was read\.\n$/);
    expect([code, out]).toEqual([exit, ""]);
  });
});

describe("a statement that nothing is left for", () => {
  const shift = ["--shift", "06:00/12:30"];
  const all = { kind: "unexposed", by: "A. Hallam", on: "2026-03-05", reason: "went home" };

  test.each([
    ["zero", shift],
    ["like", shift],
    ["3", shift],
    ["3", ["--shift", "06:00/14:00", "--declare", "all.json"]],
  ])("--unsampled %s with %j is noted", async (unsampled, words) => {
    await writeFile(join(folder, "all.json"), JSON.stringify([all]));
    const plain = await json("instants.csv", ...words);
    const { answer } = await json("instants.csv", ...words, "--unsampled", unsampled);
    expect(answer.files[0]?.notes).toEqual([
      { line: null, text: `--unsampled ${unsampled} was not used: no time without readings is left for it to speak of.` },
    ]);
    expect(answer.files[0]?.channels.map(({ mean, twa8h }) => ({ mean, twa8h }))).toEqual(
      plain.answer.files[0]?.channels.map(({ mean, twa8h }) => ({ mean, twa8h })),
    );
  });

  test.each([[["--unsampled", "zero"]], [["--shift", "06:00/14:00", "--unsampled", "like"]], [shift]])(
    "%j is used, or was not given",
    async (words) => {
      expect((await json("instants.csv", ...words)).answer.files[0]?.notes).toEqual([]);
    },
  );

  test("about a channel that no file has is a wrong call, and the channels there are are named", async () => {
    await writeFile(join(folder, "stranger.json"), JSON.stringify([{ ...all, channel: "NOX" }]));
    const { code, err } = await run("instants.csv", "--declare", "stranger.json");
    expect(code).toBe(2);
    expect(err).toContain('No file has a channel "NOX": a declaration for it was not used. The channels are "CO (ppm)".');
    await writeFile(join(folder, "every.json"), JSON.stringify([all]));
    expect((await run("instants.csv", "--declare", "every.json")).code).toBe(0);
  });
});

describe("files beside the recordings", () => {
  test.each([
    ["--mapping", "absent.json", null, /^absent\.json: The file could not be read/, 3],
    ["--mapping", "bad.json", "{", /^bad\.json: The mapping is not JSON/, 2],
    ["--mapping", "bad.json", "{}", /^bad\.json: This is JSON, but no mapping/, 2],
    ["--declare", "bad.json", "{", /^bad\.json is not JSON/, 2],
    ["--own-limits", "bad.json", "[]", /^bad\.json: The file of own limits/, 2],
  ])("%s %s holding %s names the file and what is wrong", async (flag, name, text, pattern, exit) => {
    if (text !== null) await writeFile(join(folder, name), text);
    const { code, out, err } = await run("instants.csv", flag, name);
    expect(err).toMatch(pattern);
    expect([code, out]).toEqual([exit, ""]);
  });
});

describe("shifts", () => {
  test.each([
    ["instants.csv", "06:00/14:00", "2026-03-04T06:00:00Z", "2026-03-04T14:00:00Z"],
    ["instants.csv", "22:00/06:30", "2026-03-03T22:00:00Z", "2026-03-04T06:30:00Z"],
    ["elapsed.csv", "-100/20000", "-PT100S", "PT20000S"],
  ])("%s %s", async (file, shift, from, to) => {
    expect((await json(file, "--shift", shift)).answer.files[0]?.shifts).toEqual([{ from, to }]);
  });

  test("a shift of two days is refused as such a file is", async () => {
    const { answer, code } = await json("instants.csv", "--shift", "2026-03-04T06:00:00Z/2026-03-06T06:00:00Z");
    expect(code).toBe(1);
    expect(answer.files[0]?.refusal).toMatchObject({ type: "shift-longer-than-a-day", hours: 48 });
  });
});

test("control characters of a file reach neither the page, nor the messages, nor the JSON", async () => {
  const page = await run("marks.csv", "--gas", `${ESCAPE}[2J=CO`);
  const asJson = await json("marks.csv");
  for (const text of [page.out, page.err, asJson.out]) expect(text.replaceAll("\n", "")).not.toMatch(/\p{Cc}/u);
  expect(page.out).toContain("\\x1b[31mCO (ppm)");
  // The JSON still means the name as it stands in the file.
  expect(asJson.answer.files[0]?.channels[0]?.name).toBe(`${ESCAPE}[31mCO (ppm)${ESCAPE}[0m${CONTROL_BYTE}31m`);
});
