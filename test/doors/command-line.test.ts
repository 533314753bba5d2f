import { spawn } from "node:child_process";
import { once } from "node:events";
import { readdirSync } from "node:fs";
import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Ajv from "ajv/dist/2020.js";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { exposureJson, lamproom, ROOT } from "./command.ts";

let folder = "";
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "lamproom-call-"));
  await writeFile(
    join(folder, "instants.csv"),
    table(
      "Time,CO (ppm)",
      (second) => `${new Date(Date.UTC(2026, 2, 4, 6, 0, second)).toISOString().slice(0, 19)}Z,${second < 600 ? 30 : 0}`,
    ),
  );
  await writeFile(
    join(folder, "elapsed.csv"),
    `Time,A\ns,ppm\n${Array.from({ length: 121 }, (_, index) => `${index * 10},${index < 60 ? 40 : 0}`).join("\n")}\n`,
  );
  await writeFile(
    join(folder, "local.csv"),
    table("Time,CO", (second) => `${new Date(Date.UTC(2026, 2, 4, 6, 0, second)).toISOString().slice(0, 19).replace("T", " ")},12`),
  );
});
afterAll(() => rm(folder, { recursive: true }));

/** Ten-second rows over 8 h, without the last one's own length. */
const table = (heading: string, row: (second: number) => string): string =>
  `${heading}\n${Array.from({ length: 2881 }, (_, index) => row(index * 10)).join("\n")}\n`;
const run = (words: readonly string[], input = "") => lamproom(words, { folder, input });
const json = (words: readonly string[]) => exposureJson(words, { folder });
const schema = async (name: string): Promise<object> => JSON.parse(await readFile(join(ROOT, "docs/schemas", name), "utf8"));

describe("help and wrong calls", () => {
  test.each([
    [["--help"], /^lamproom: .*\n\nExamples\n/, 0],
    [["exposure", "--help"], /\n\nExamples\n {2}lamproom exposure/, 0],
    [["help", "slate"], /Calculators that need no recording/, 0],
    [["slate", "--help"], /\n {2}twa\n/, 0],
    [["slate", "twa", "--help"], /pieces: a list of 1 to 500 rows/, 0],
    [["--version"], /^lamproom \d+\.\d+\.\d+\n$/, 0],
  ])("%j prints on standard output", async (words, pattern, code) => {
    const ended = await run(words);
    expect(ended.out).toMatch(pattern);
    expect([ended.code, ended.err]).toEqual([code, ""]);
  });

  test.each([
    [[], /Commands/],
    [["expsure"], /no command "expsure".*Did you mean exposure/],
    [["exposure"], /No file was named/],
    [["exposure", "x.csv", "--regimes", "US-OSHA"], /no flag --regimes\. Did you mean --regime/],
    [["exposure", "x.csv", "--zone"], /--zone needs ZONE/],
    [["exposure", "x.csv", "--zone", "--json"], /--zone needs ZONE/],
    [["exposure", "x.csv", "--json=yes"], /--json takes no value/],
    [["exposure", "x.csv", "--zone", "UTC", "--zone", "UTC"], /given twice/],
    [["exposure", "x.csv", "--regime", "OSHA"], /no regime "OSHA".*US-OSHA/],
    [["exposure", "x.csv", "--gas", "*=carbon_monoxid"], /no "carbon_monoxid"\. Did you mean carbon_monoxide/],
    [["exposure", "x.csv", "--gas", "CO"], /CHANNEL=GAS/],
    [["exposure", "x.csv", "--unit", "furlong"], /furlong/],
    [["exposure", "x.csv", "--max-gap", "long"], /seconds above 0/],
    [["exposure", "x.csv", "--max-gap", "0"], /seconds above 0/],
    [["exposure", "x.csv", "--unsampled", "plenty"], /neither open, zero, like, nor a number/],
    [["exposure", "x.csv", "--shift", "06:00"], /not FROM\/TO/],
    [["exposure", "x.csv", "--readings", "median"], /spot, mean or peak/],
    [["slate", "twaa"], /no calculator "twaa"\. Did you mean twa/],
  ])("%j is a wrong call: nothing on standard output, code 2", async (words, pattern) => {
    const { code, out, err } = await run(words);
    expect(err).toMatch(pattern);
    expect([code, out]).toEqual([2, ""]);
  });
});

describe("lamproom exposure", () => {
  test("prints JSON that fits its schema, with every key of the issue", async () => {
    const { answer, code, err } = await json(["instants.csv", "elapsed.csv", "not-there.csv", "local.csv", "--gas", "A=H2S"]);
    const ajv = new Ajv({ strict: true, allowUnionTypes: true });
    expect(ajv.validate(await schema("exposure.json"), answer), JSON.stringify(ajv.errors)).toBe(true);
    expect([code, err]).toEqual([3, ""]);
    const channel = answer.files[0]?.channels[0];
    for (const key of [
      "name",
      "gas",
      "unit",
      "samples",
      "start",
      "end",
      "sampledSeconds",
      "mean",
      "twa8h",
      "stel",
      "peak",
      "findings",
      "episodes",
    ])
      expect(channel).toHaveProperty(key);
    for (const key of ["limit", "outcome", "low", "best", "high", "coverage", "wStar", "shiftRule", "parts"])
      expect(channel?.findings[0]).toHaveProperty(key);
    for (const key of ["regime", "kind", "value", "unit", "source"]) expect(channel?.findings[0]?.limit).toHaveProperty(key);
    for (const key of ["windowMinutes", "low", "best", "high", "windowStart", "windowEnd", "coverage"])
      expect(channel?.stel).toHaveProperty(key);
  });

  test("10 min at 30 ppm, then nothing, over 8 h: mean, 15-min average and 8-h average by hand", async () => {
    const { answer } = await json(["instants.csv", "--regime", "US-OSHA", "--shift", "2026-03-04T06:00:00Z/2026-03-04T14:00:00Z"]);
    const [channel] = answer.files[0]?.channels ?? [];
    expect(channel?.twa8h).toEqual({ low: 0.625, best: 0.625, high: 0.625 });
    expect(channel?.stel).toMatchObject({ windowMinutes: 15, low: 20, best: 20, high: 20, coverage: 1 });
    expect(channel?.peak).toEqual({ value: 30, at: "2026-03-04T06:00:00Z", atLeast: false });
    expect(channel?.findings.find(({ limit }) => limit.kind === "twa")).toMatchObject({
      outcome: "within",
      low: 0.625,
      limit: { regime: "US-OSHA", value: 50, unit: "ppm" },
    });
  });

  test("without a shift the length of the shift is not known: open", async () => {
    const { answer } = await json(["elapsed.csv"]);
    const [channel] = answer.files[0]?.channels ?? [];
    expect(answer.files[0]).toMatchObject({ timeBasis: "elapsed", zone: null });
    expect(channel).toMatchObject({ start: "PT0S", end: "PT1200S", gas: null, findings: [] });
    expect(channel?.twa8h).toMatchObject({ low: (40 * 600) / 28800, best: null, high: null });
  });

  test.each([
    ["zero", { low: 40 / 48, best: 40 / 48, high: 40 / 48 }],
    ["open", { low: 40 / 48, best: null, high: null }],
  ])("--unsampled %s", async (how, twa8h) => {
    const { answer } = await json(["elapsed.csv", "--unsampled", how]);
    expect(answer.files[0]?.channels[0]?.twa8h).toEqual(twa8h);
  });

  test("--start ties seconds to the clock, and the edition of a limit to its date", async () => {
    const { answer } = await json(["elapsed.csv", "--start", "2024-01-10T06:00:00Z", "--gas", "*=benzene", "--regime", "EU-IOELV"]);
    expect(answer.files[0]).toMatchObject({ timeBasis: "instant" });
    expect(answer.files[0]?.channels[0]).toMatchObject({ start: "2024-01-10T06:00:00Z", end: "2024-01-10T06:20:00Z" });
    // Directive 2004/37/EC as amended by (EU) 2022/431: 1 ppm until 5 April 2024, then 0.5, from 5 April 2026 0.2.
    expect(answer.files[0]?.channels[0]?.findings.filter(({ limit }) => limit.kind === "twa").map(({ limit }) => limit.value)).toEqual([1]);
    const local = await json(["elapsed.csv", "--start", "2024-01-10 07:00", "--zone", "Europe/Berlin"]);
    expect(local.answer.files[0]?.channels[0]?.start).toBe("2024-01-10T06:00:00Z");
    const later = await json(["elapsed.csv", "--start", "2025-01-10T06:00:00Z", "--gas", "*=benzene", "--regime", "EU-IOELV"]);
    expect(
      later.answer.files[0]?.channels[0]?.findings.filter(({ limit }) => limit.kind === "twa").map(({ limit }) => limit.value),
    ).toEqual([0.5]);
  });

  test("without --regime all that cover carbon monoxide stand side by side, each named", async () => {
    const { answer } = await json(["instants.csv"]);
    const regimes = new Set(answer.files[0]?.channels[0]?.findings.map(({ limit }) => limit.regime));
    expect([...regimes].toSorted()).toEqual(["EU-IOELV", "GB-WEL", "US-NIOSH", "US-OSHA"]);
  });

  test("what the file does not say is asked, and the answers can be saved and used again", async () => {
    const asked = await json(["local.csv"]);
    expect(asked.answer.files[0]?.questions.map(({ id }) => id)).toEqual(expect.arrayContaining(["zone"]));
    const saved = await json(["local.csv", "--zone", "Europe/London", "--unit", "ppm", "--save-mapping", "works.json"]);
    expect([saved.code, saved.err]).toEqual([0, ""]);
    const ajv = new Ajv({ strict: true, allowUnionTypes: true });
    expect(
      ajv.validate(await schema("mapping.json"), JSON.parse(await readFile(join(folder, "works.json"), "utf8"))),
      JSON.stringify(ajv.errors),
    ).toBe(true);
    const again = await json(["local.csv", "--mapping", "works.json"]);
    expect(again.code).toBe(0);
    expect(again.answer.files[0]?.channels).toEqual(saved.answer.files[0]?.channels);
    expect(again.answer.files[0]?.channels[0]).toMatchObject({ gas: "carbon_monoxide", start: "2026-03-04T06:00:00Z" });
    const other = await json(["instants.csv", "local.csv", "--mapping", "works.json"]);
    const alone = await json(["instants.csv"]);
    expect(other.code).toBe(0);
    expect(other.answer.files.map(({ refusal }) => refusal)).toEqual([null, null]);
    expect(other.answer.files[0]?.channels).toEqual(alone.answer.files[0]?.channels);
    expect(other.answer.files[1]?.channels).toEqual(again.answer.files[0]?.channels);
    expect(other.answer.files.map(({ notes }) => notes.map(({ text }) => text))).toEqual([
      ["The mapping was made for another heading: this file was read without it."],
      [],
    ]);
    const none = await json(["instants.csv", "--mapping", "works.json"]);
    expect([none.code, none.err]).toEqual([1, "No file has a heading that a mapping of this call was made for: none was used.\n"]);
    // What the call says against a mapping counts for the files with its heading alone.
    const against = await json(["elapsed.csv", "local.csv", "--gas", "A=H2S", "--mapping", "works.json", "--zone", "Europe/Paris"]);
    expect(against.answer.files.map(({ refusal }) => refusal?.type ?? null)).toEqual([null, "mapping-says-otherwise"]);
  });

  test("flags fill what a mapping leaves open, and what it says is not overridden", async () => {
    await json(["elapsed.csv", "--save-mapping", "elapsed.json"]);
    const filled = await json(["elapsed.csv", "--mapping", "elapsed.json", "--start", "2026-03-04T06:00:00Z", "--gas", "*=CO"]);
    expect(filled.answer.files[0]?.channels[0]).toMatchObject({ gas: "carbon_monoxide", start: "2026-03-04T06:00:00Z" });
    const other = await json(["elapsed.csv", "--mapping", "elapsed.json", "--unit", "A=vol%"]);
    expect(other.answer.files[0]?.refusal).toMatchObject({ type: "mapping-says-otherwise", message: expect.stringContaining('"ppm"') });
    await rm(join(folder, "elapsed.json"));
  });

  test("standard input is a file, and a folder is its files", async () => {
    const text = await readFile(join(folder, "elapsed.csv"), "utf8");
    const piped = await lamproom(["exposure", "-", "--json"], { folder, input: text });
    const named = await json(["elapsed.csv"]);
    const unnamed = JSON.stringify(JSON.parse(piped.out).files[0].channels).replaceAll('"standard input"', '"elapsed.csv"');
    expect(JSON.parse(unnamed)).toEqual(named.answer.files[0]?.channels);
    const all = await json(["."]);
    expect(all.answer.files.map(({ file }) => file)).toEqual(["elapsed.csv", "instants.csv", "local.csv"]);
  });

  test("the page begins with the answer sentence and tells how a gas is named", async () => {
    const { out } = await run(["exposure", "elapsed.csv", "instants.csv"]);
    expect(out).toMatch(/^elapsed\.csv\n {2}Channel A is not compared with limits: its gas is not known\. Name it with --gas 'A=GAS'\./);
    expect(out).toMatch(/CO \(ppm\) \(carbon monoxide\) is/);
    expect(out).not.toMatch(/\bsafe\b|undefined|NaN|\[object/);
  });

  test("a channel that no file has is a wrong call", async () => {
    const { err, code } = await run(["exposure", "elapsed.csv", "--gas", "B=CO"]);
    expect(err).toMatch(/No file has a channel "B"/);
    expect(code).toBe(2);
  });

  test("more than a day without shifts is refused, with shifts it is answered", async () => {
    const days = Array.from({ length: 2 * 1440 }, (_, minute) => `${minute * 60},5`).join("\n");
    await writeFile(join(folder, "..", "lamproom-two-days.csv"), `Time,A\ns,ppm\n${days}\n`);
    const file = join(folder, "..", "lamproom-two-days.csv");
    const long = await json([file]);
    expect(long.answer.files[0]?.refusal).toMatchObject({ type: "longer-than-a-day", mend: expect.stringContaining("--shift") });
    const cut = await json([file, "--shift", "0/28800", "--shift", "86400/115200"]);
    expect(cut.answer.files[0]?.channels.map(({ shift, twa8h }) => [shift, twa8h?.best])).toEqual([
      [0, 5],
      [1, 5],
    ]);
    await rm(file);
  });

  test("limits of one's own stand beside the published ones", async () => {
    const own = {
      form: "lamproom-own-limits/1",
      by: "A. Keeper",
      on: "2026-01-05",
      regime: { id: "MARL-BECK", name: "Works rule" },
      limits: [{ gas: "CO", kind: "stel", value: "15", unit: "ppm", why: "works council" }],
    };
    await writeFile(join(folder, "own.json"), JSON.stringify(own));
    const { answer } = await json(["instants.csv", "--own-limits", "own.json", "--regime", "MARL-BECK"]);
    expect(answer.files[0]?.channels[0]?.findings.map(({ outcome, low, limit }) => [outcome, low, limit.regime, limit.mark])).toEqual([
      ["exceeds", 20, "MARL-BECK", "own"],
    ]);
    await rm(join(folder, "own.json"));
  });

  test("SenML is told by its content, whatever the name of the file says", async () => {
    const pack = [
      { bn: "urn:works:1:", bt: 1772604000, bver: 26, n: "co", u: "ppm", v: 35 },
      ...Array.from({ length: 179 }, (_, index) => ({ n: "co", u: "ppm", t: 10 * (index + 1), v: 35 })),
    ];
    await writeFile(join(folder, "pack.csv"), JSON.stringify(pack));
    const { answer, code } = await json(["pack.csv", "--regime", "US-NIOSH"]);
    expect(code).toBe(0);
    expect(answer.files[0]).toMatchObject({ refusal: null, timeBasis: "instant" });
    // 1772604000 s after 1970 is 2026-03-04T06:00:00Z; 180 readings 10 s apart, the last one without a length.
    expect(answer.files[0]?.channels[0]).toMatchObject({
      gas: "carbon_monoxide",
      unit: "ppm",
      samples: 180,
      start: "2026-03-04T06:00:00Z",
      sampledSeconds: 1790,
      mean: { low: 35 },
    });
    await writeFile(join(folder, "pack.csv"), JSON.stringify([{ n: "co", u: "ppm" }]));
    const bad = await json(["pack.csv"]);
    expect(bad.answer.files[0]?.refusal).toMatchObject({ type: "senml-not-readable", message: expect.stringMatching(/Record 1/) });
    await rm(join(folder, "pack.csv"));
  });

  test("what the file says is not overridden: a contradiction is asked", async () => {
    const { answer, code } = await json(["instants.csv", "--unit", "CO (ppm)=mg/m3"]);
    expect(code).toBe(1);
    expect(answer.files[0]?.questions).toHaveLength(1);
    expect(answer.files[0]?.questions[0]).toMatchObject({ topic: "unit", column: "CO (ppm)", blocking: true });
  });

  test("readings can be told to be means of the interval that they close", async () => {
    const spot = await json(["elapsed.csv"]);
    const mean = await json(["elapsed.csv", "--readings", "mean"]);
    expect(spot.answer.files[0]?.channels[0]?.sampledSeconds).toBe(1200);
    expect(mean.answer.files[0]?.channels[0]?.sampledSeconds).toBe(1210);
  });

  test("Ctrl-C stops at once with code 130", async () => {
    const child = spawn(process.execPath, [join(ROOT, "src/main/lamproom.ts"), "exposure", "-"], { cwd: folder });
    child.stdin.write("Time,CO (ppm)\n");
    // Standard input is laid aside first: that its folder is there shows that the program listens.
    while (!readdirSync(tmpdir()).some((name) => name.startsWith(`lamproom-stdin-${child.pid}-`)))
      await new Promise((resolve) => setTimeout(resolve, 20));
    child.kill("SIGINT");
    expect(await once(child, "close")).toEqual([130, null]);
    expect(readdirSync(tmpdir()).filter((name) => name.startsWith(`lamproom-stdin-${child.pid}-`))).toEqual([]);
  });

  test("colour is left out where NO_COLOR asks or nobody looks", async () => {
    const { out } = await run(["exposure", "instants.csv"]);
    expect(out.includes(String.fromCharCode(27))).toBe(false);
  });

  test("a reader that closes the pipe ends it quietly", async () => {
    const child = spawn(
      process.execPath,
      [join(ROOT, "src/main/lamproom.ts"), "exposure", ...Array.from({ length: 40 }, () => "instants.csv")],
      { cwd: folder },
    );
    let err = "";
    child.stderr.on("data", (bytes) => {
      err += String(bytes);
    });
    await once(child.stdout, "data");
    child.stdout.destroy();
    const [code] = await once(child, "close");
    expect([code, err]).toEqual([0, ""]);
  });
});

describe("lamproom slate", () => {
  test("JSON in, JSON out, with grounds", async () => {
    const { out, code, err } = await run(
      ["slate", "twa", "--json"],
      '{"pieces":[{"minutes":120,"level":150},{"minutes":120,"level":75},{"minutes":240,"level":50}],"limit":100}',
    );
    expect([code, err]).toEqual([0, ""]);
    // 29 CFR 1910.1000(d)(1)(ii), printed example: 81.25 ppm.
    expect(JSON.parse(out)).toMatchObject({
      form: "lamproom-slate/1",
      calculator: "twa",
      outputs: { best: 81.25, outcome: "within" },
      outcome: "within",
    });
  });

  test("a refusal is JSON too where JSON was asked for", async () => {
    const { out, code } = await run(["slate", "unit", "--json"], '{"value":1,"from":"ppm","to":"mg/m3"}');
    expect(code).toBe(1);
    expect(JSON.parse(out).refusal).toMatchObject({ type: "gas-not-said", message: expect.any(String), mend: expect.any(String) });
  });

  test.each([
    ["not json", /not JSON/],
    ["", /it is empty/],
    ['{"vlaue":1,"from":"ppm","to":"ppb"}', /no input "vlaue"\. Did you mean value/],
    ['{"value":"1","from":"ppm","to":"ppb"}', /"value" is "1"; it has to be a number/],
  ])("%s: code 1 and a sentence", async (input, pattern) => {
    const { code, err, out } = await run(["slate", "unit"], input);
    expect(err).toMatch(pattern);
    expect([code, out]).toEqual([1, ""]);
  });
});
