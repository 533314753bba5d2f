/** What people declare, through the command line: it decides outcomes, so it stands beside them. */
import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Ajv from "ajv/dist/2020.js";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { exposureJson, lamproom, ROOT } from "./command.ts";

let folder = "";
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "lamproom-declared-"));
  const minutes = (heading: string, count: number, level: (minute: number) => number): string =>
    `${heading}\n${Array.from({ length: count }, (_, minute) => `${new Date(Date.UTC(2026, 2, 4, 6, minute)).toISOString().slice(0, 19)}Z,${level(minute)}`).join("\n")}\n`;
  await writeFile(
    join(folder, "flat.csv"),
    minutes("time,CO (ppm)", 391, () => 40),
  );
  await writeFile(
    join(folder, "once.csv"),
    minutes("time,H2S (ppm)", 481, (minute) => (minute >= 10 && minute < 18 ? 40 : 0)),
  );
  await writeFile(
    join(folder, "drift.csv"),
    minutes("time,CO (ppm)", 481, (minute) => (minute < 60 ? -8 : 5)),
  );
  await writeFile(
    join(folder, "long.csv"),
    minutes("time,CO (ppm)", 721, () => 30),
  );
  await writeFile(
    join(folder, "means.csv"),
    minutes("time,CO avg (ppm)", 481, () => 40),
  );
});
afterAll(() => rm(folder, { recursive: true }));

const run = (...words: readonly string[]) => lamproom(["exposure", ...words], { folder });
const json = (...words: readonly string[]) => exposureJson(words, { folder });
const SHIFT = ["--shift", "2026-03-04T06:00:00Z/2026-03-04T14:00:00Z"] as const;
const NAMED = ["--declared-by", "A. Hallam", "--reason", "display step"] as const;

describe("settings of the site", () => {
  test("a measurable threshold decides what may happen once only, and stands beside it by name", async () => {
    const open = await json("once.csv", ...SHIFT, "--regime", "US-OSHA");
    const [before] = open.answer.files[0]?.channels[0]?.findings ?? [];
    expect(before?.outcome).toBe("undetermined");
    expect(before?.undecidedBy).toContainEqual({ type: "measurable-threshold-not-declared" });
    const { answer } = await json("once.csv", ...SHIFT, "--regime", "US-OSHA", "--measurable", "H2S=1", ...NAMED);
    const [finding] = answer.files[0]?.channels[0]?.findings ?? [];
    expect(finding?.outcome).toBe("within");
    expect(finding?.assumptions).toContainEqual({
      type: "declared-setting",
      setting: "measurable threshold",
      valueText: "1",
      unit: "ppm",
      by: "A. Hallam",
      reason: "display step",
    });
    const page = await run("once.csv", ...SHIFT, "--regime", "US-OSHA", "--measurable", "H2S=1", ...NAMED);
    expect(page.out.replace(/\s+/g, " ")).toContain("counts as measurable from 1 ppm on. Declared by A. Hallam: display step.");
    expect((await run("once.csv", ...SHIFT, "--regime", "US-OSHA")).out).toContain("--measurable GAS=VALUE");
  });

  test("a dead band lifts what nought can have been", async () => {
    const { answer } = await json("once.csv", ...SHIFT, "--dead-band", "hydrogen_sulphide=2");
    const [channel] = answer.files[0]?.channels ?? [];
    // 8 min at 40 ppm, else nought: 0.667 ppm at least; with up to 2 ppm in the other 472 min 2.633 ppm at most.
    expect(channel?.twa8h?.low).toBeCloseTo(320 / 480, 12);
    expect(channel?.twa8h?.high).toBeCloseTo((320 + 2 * 472) / 480, 12);
    expect(channel?.assumptions).toContainEqual(expect.objectContaining({ setting: "dead band", valueText: "2", by: null }));
    for (const finding of channel?.findings ?? [])
      expect(finding.assumptions).toContainEqual(expect.objectContaining({ setting: "dead band" }));
  });

  test("below a negative floor nothing was read", async () => {
    const plain = await json("drift.csv", ...SHIFT);
    const floored = await json("drift.csv", ...SHIFT, "--negative-floor", "CO=5");
    expect(plain.answer.files[0]?.channels[0]?.sampledSeconds).toBe(28_800);
    expect(floored.answer.files[0]?.channels[0]?.sampledSeconds).toBe(28_800 - 3600);
    expect(floored.answer.files[0]?.channels[0]?.twa8h?.high).toBeNull();
  });

  test("the model for long shifts is a finding of its own", async () => {
    const { answer } = await json(
      "long.csv",
      ...["--shift", "2026-03-04T06:00:00Z/2026-03-04T18:00:00Z", "--regime", "US-OSHA", "--long-shift", "brief-scala-daily"],
    );
    const findings = answer.files[0]?.channels[0]?.findings ?? [];
    const lowered = findings.filter(({ shiftRule }) => shiftRule === "brief-scala-daily");
    // Factor (8/12)((24-12)/16) = 0.5 on 50 ppm: 30 ppm over the shift exceeds 25.
    expect(lowered.map(({ outcome }) => outcome)).toEqual(["exceeds"]);
    expect(lowered[0]?.assumptions).toContainEqual(expect.objectContaining({ setting: "long-shift model" }));
    expect(findings.filter(({ assumptions }) => assumptions.some((one) => one.type === "declared-setting"))).toHaveLength(1);
  });

  test("averages stand for ceilings only where somebody says so", async () => {
    const ceiling = async (...words: readonly string[]) =>
      (
        await json("means.csv", "--readings", "mean", ...SHIFT, "--regime", "US-NIOSH", ...words)
      ).answer.files[0]?.channels[0]?.findings.find(({ limit }) => limit.kind === "ceiling");
    expect((await ceiling())?.outcome).toBe("undetermined");
    const taken = await ceiling("--means-stand-for-ceilings", "--unsampled", "like");
    expect(taken?.outcome).toBe("within");
    expect(taken?.assumptions).toContainEqual(expect.objectContaining({ setting: "means stand for ceilings" }));
  });

  test.each([
    [["--measurable", "H2S=0"], /measurable threshold "0" is no number that it can have/],
    [["--measurable", "H2S"], /GAS=VALUE/],
    [["--dead-band", "H2X=1"], /no "H2X"/],
    [["--negative-floor", "CO=-5"], /negative floor "-5" is no number/],
    [["--long-shift", "pickens"], /brief-scala-daily/],
    [["--reason", "tea"], /--reason says nothing without --declared-by/],
    [["--declared-by", "A. Hallam"], /--declared-by says nothing without --unsampled/],
  ])("%j is a wrong call", async (words, pattern) => {
    const { code, out, err } = await run("flat.csv", ...words);
    expect(err).toMatch(pattern);
    expect([code, out]).toEqual([2, ""]);
  });
});

const STATEMENT = {
  channel: "*",
  from: "2026-03-04T12:30:00Z",
  to: "2026-03-04T14:00:00Z",
  by: "A. Hallam",
  on: "2026-03-05",
  reason: "in the canteen, away from the plant",
  kind: "worst case",
  level: "2",
  holds: "at any moment",
} as const;
const declare = (declarations: unknown): Promise<void> => writeFile(join(folder, "said.json"), JSON.stringify(declarations));

describe("statements of named persons", () => {
  test("a worst case for the time without readings decides, and its ground names who said it", async () => {
    await declare([STATEMENT]);
    const { answer, code } = await json("flat.csv", ...SHIFT, "--regime", "US-OSHA", "--declare", "said.json");
    expect(code).toBe(0);
    const [channel] = answer.files[0]?.channels ?? [];
    // 390 min at 40 ppm; 90 min at 0 to 2 ppm.
    // Its upper end is what was said, not the better figure.
    expect(channel?.twa8h).toEqual({ low: 32.5, best: null, high: 32.875 });
    expect(channel?.findings[0]).toMatchObject({ low: 32.5, best: null, high: 32.875 });
    expect(channel?.findings.map(({ outcome }) => outcome)).toEqual(["within"]);
    expect(channel?.findings[0]?.grounds).toContainEqual(
      expect.objectContaining({ type: "declaration", by: "A. Hallam", kind: "worst case", seconds: 5400 }),
    );
    expect((await run("flat.csv", ...SHIFT, "--declare", "said.json")).out).toContain("Declared by A. Hallam: worst case for");
  });

  test("local times and the whole shift", async () => {
    await declare([{ ...STATEMENT, from: undefined, to: null, kind: "unexposed", level: undefined, holds: undefined }]);
    const { answer } = await json("flat.csv", ...SHIFT, "--declare", "said.json");
    expect(answer.files[0]?.channels[0]?.twa8h).toEqual({ low: 32.5, best: 32.5, high: 32.5 });
  });

  test("a statement about measured time changes nothing, and that is said", async () => {
    await declare([{ ...STATEMENT, from: "2026-03-04T07:00:00Z", to: "2026-03-04T08:00:00Z" }]);
    const { answer } = await json("flat.csv", ...SHIFT, "--declare", "said.json");
    expect(answer.files[0]?.channels[0]?.twa8h?.high).toBeNull();
    expect(answer.files[0]?.notes.map(({ text }) => text)).toEqual([
      "Declaration 1 (A. Hallam) changed nothing here: it touches no time and no reading that the data leave open.",
    ]);
  });

  test.each([
    [{}, /the file has to be a list of declarations/],
    [[{ ...STATEMENT, by: " " }], /\[0\]\.by has to be a text that is not empty; it is " "/],
    [[{ ...STATEMENT, reason: undefined }], /\[0\]\.reason has to be a text/],
    [[{ ...STATEMENT, on: "5 March" }], /\[0\]\.on has to be the date/],
    [[STATEMENT, { ...STATEMENT, kind: "none" }], /\[1\]\.kind has to be one of unexposed,/],
    [[{ ...STATEMENT, level: 2 }], /\[0\]\.level has to be a text/],
    [[{ ...STATEMENT, level: "-2" }], /\[0\]\.level has to be digits/],
    [[{ ...STATEMENT, holds: "always" }], /\[0\]\.holds has to be one of at any moment, as an average/],
    [[{ ...STATEMENT, kind: "unexposed" }], /\[0\]\.level does not go with "unexposed"/],
    [[{ ...STATEMENT, form: "x" }], /\[0\]\.form is not known/],
  ])("%j is refused before any recording is read", async (declarations, pattern) => {
    await declare(declarations);
    const { code, out, err } = await run("flat.csv", "--declare", "said.json");
    expect(err).toMatch(pattern);
    expect([code, out]).toEqual([2, ""]);
    const ajv = new Ajv({ strict: true, allowUnionTypes: true, formats: { date: /^\d{4}-\d\d-\d\d$/ } });
    const schema = JSON.parse(await readFile(join(ROOT, "docs/schemas/declarations.json"), "utf8"));
    expect(ajv.validate(schema, [STATEMENT]), JSON.stringify(ajv.errors)).toBe(true);
    if (!/digits|" "/.test(String(pattern))) expect(ajv.validate(schema, JSON.parse(JSON.stringify(declarations)))).toBe(false);
  });

  test("times that have no place on the clock of a file refuse that file", async () => {
    await declare([{ ...STATEMENT, from: "half past twelve" }]);
    const { answer, code } = await json("flat.csv", "--declare", "said.json");
    expect(code).toBe(1);
    expect(answer.files[0]?.refusal).toMatchObject({ type: "declaration-not-placed", text: "half past twelve" });
  });
});
