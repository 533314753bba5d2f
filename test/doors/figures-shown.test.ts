/** Which figures stand beside a finding, and which would say what the readings do not. */
import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { exposureJson, lamproom } from "./command.ts";

let folder = "";
const minutes = async (file: string, heading: string, count: number, row: (minute: number) => string): Promise<void> => {
  const clock = (minute: number): string => new Date(Date.UTC(2026, 2, 4, 6, minute)).toISOString();
  const rows = Array.from({ length: count + 1 }, (_, minute) => `${clock(minute)},${row(minute)}`);
  await writeFile(join(folder, file), `${heading}\n${rows.join("\n")}\n`);
};

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "lamproom-figures-"));
  await minutes("long.csv", "time,CO (ppm)", 720, () => "40");
  await minutes("nine.csv", "time,CO (ppm)", 540, () => "41.67");
  // Above 200 ppm three times: never over range, at least 300 ppm for a minute, over range with no range top given.
  await minutes("over.csv", "time,CO (ppm)", 480, (minute) => {
    if (minute === 120) return ">300";
    if (minute === 200) return "over range";
    return (minute >= 199 && minute < 202) || (minute >= 30 && minute < 40) || (minute >= 110 && minute < 130) ? "250" : "5";
  });
  await minutes("several.csv", "time,O2 (vol%),LEL (%LEL),CO (ppm)", 300, (minute) => `${minute === 100 ? "18.1" : "20.9"},12,20`);
  await minutes("units.csv", "time,CO (ppm),CO2 (vol%)", 300, () => "12,0.1");
  await minutes("unit.csv", "time,CO (ppm),H2S (ppm)", 300, () => "12,0.1");
});
afterAll(() => rm(folder, { recursive: true }));

const page = async (...words: readonly string[]): Promise<string> => {
  const { out } = await lamproom(["exposure", ...words], { folder });
  return out.replace(/\s+/g, " ");
};
const answered = async (...words: readonly string[]) => (await exposureJson(words, { folder })).answer.files[0];

describe("a limit lowered for a long shift", () => {
  const twelve = ["--regime", "US-OSHA", "--long-shift", "brief-scala-daily", "--shift", "06:00/18:00"];

  // Brief and Scala for 12 h: 8 / 12 x (24 - 12) / 16 = 0.5 of the limit.
  test("stands with its own figure, and says what it was lowered from", async () => {
    const limits = (await answered("long.csv", ...twelve))?.channels[0]?.findings.map(({ limit, shiftRule, outcome }) => ({
      ...{ value: limit.value, lowered: limit.lowered, shiftRule, outcome },
    }));
    expect(limits).toEqual([
      { value: 50, lowered: 25, shiftRule: "brief-scala-daily", outcome: "exceeds" },
      { value: 50, lowered: null, shiftRule: "worst-8h", outcome: "within" },
    ]);
  });

  test("is told apart from the published one in the answer sentence", async () => {
    expect(await page("long.csv", ...twelve)).toContain(
      "exceeds US-OSHA 8 h average 25 ppm (lowered from 50 ppm after Brief and Scala, daily); is within US-OSHA 8 h average 50 ppm on these data.",
    );
  });

  // 8 / 9 x 15 / 16 = 0.8333 of 50 ppm is 41.6667 ppm, and the mean is 41.67 ppm: rounded to three digits both were 41.7.
  test("has figures on its own side of it", async () => {
    const shown = await page("nine.csv", ...twelve.slice(0, -1), "06:00/15:00");
    expect(shown).toContain("exceeds US-OSHA 8 h average 41.67 ppm (lowered from 50 ppm after Brief and Scala, daily) 41.7 ppm;");
  });
});

describe("an episode with a reading over range", () => {
  const asked = ["over.csv", "--regime", "US-NIOSH", "--answer", "word/over range=over range"];

  test("is said to have reached at least its greatest reading, any other has reached just that", async () => {
    const episodes = (await answered(...asked))?.channels[0]?.episodes.map(({ start, peak, atLeast }) => ({ start, peak, atLeast }));
    expect(episodes).toEqual([
      { start: "2026-03-04T06:30:00Z", peak: 250, atLeast: false },
      { start: "2026-03-04T07:50:00Z", peak: 300, atLeast: true },
      { start: "2026-03-04T09:19:00Z", peak: 250, atLeast: true },
      { start: "2026-03-04T09:21:00Z", peak: 250, atLeast: false },
    ]);
    const shown = await page(...asked);
    expect(shown).toContain("07:50:00 to 08:10:00 20 min greatest at least 300 ppm");
    expect(shown).toContain("06:30:00 to 06:40:00 10 min greatest 250 ppm");
  });
});

describe("what no amount adds up of in a person has no average over a time", () => {
  test("oxygen and the flammable share have none, oxygen has the lowest reading first", async () => {
    const shown = await page("several.csv", "--gas", "LEL (%LEL)=methane", "--regime", "US-NIOSH");
    const part = (name: string, next: string): string =>
      shown.slice(shown.indexOf(`${name},`), shown.indexOf(next, shown.indexOf(`${name},`)));
    expect(part("O2 (vol%)", "LEL (%LEL),")).toMatch(
      /lowest reading 18\.1 vol % at 07:40:00 mean of the sampled time 20\.9 vol % greatest reading 20\.9 vol % at 06:00:00/,
    );
    expect(part("O2 (vol%)", "LEL (%LEL),")).not.toContain(" average");
    expect(part("LEL (%LEL)", "CO (ppm),")).toMatch(/mean of the sampled time 12\.0 %LEL greatest reading 12 %LEL/);
    expect(part("LEL (%LEL)", "CO (ppm),")).not.toContain(" average");
    expect(part("CO (ppm)", "Taken without asking")).toMatch(/average over 8 h .* greatest 15 min average/);
  });

  test("the answer for machines has none either", async () => {
    expect(
      (await answered("several.csv", "--gas", "LEL (%LEL)=methane"))?.channels.map(({ gas, twa8h, stel }) => [
        gas,
        twa8h === null,
        stel === null,
      ]),
    ).toEqual([
      ["oxygen", true, true],
      ["methane", true, true],
      ["carbon_monoxide", false, false],
    ]);
  });
});

describe("one worst level for all time without readings", () => {
  test("is refused where gases with units of their own would take it alike", async () => {
    const { code, answer } = await exposureJson(["units.csv", "--unsampled", "2"], { folder });
    expect(code).toBe(2);
    expect(answer.files[0]?.refusal).toMatchObject({
      type: "one-level-for-several-units",
      message:
        "The level 2 for time without readings would be taken in the unit of each channel alike: CO (ppm) in ppm, CO2 (vol%) in vol %.",
      mend: expect.stringContaining("--declare"),
    });
    expect(answer.files[0]?.channels).toEqual([]);
  });

  test.each([
    ["gases in one unit", ["unit.csv", "--unsampled", "2"]],
    ["a way of taking it that has no unit", ["units.csv", "--unsampled", "zero"]],
    ["a shift that was measured throughout", ["units.csv", "--unsampled", "2", "--shift", "06:00/11:00"]],
  ])("is taken for %s", async (_, words) => {
    const { code, answer } = await exposureJson(words, { folder });
    expect(code).toBe(0);
    expect(answer.files[0]?.channels).toHaveLength(2);
  });
});

test("of one outcome what is grave at once is said before averages, as on the screen", async () => {
  const { out } = await lamproom(["exposure", "long.csv", "--regime", "US-OSHA", "--regime", "US-NIOSH"], { folder });
  expect([...out.matchAll(/^ {2}undetermined {2}(\S+ .*?) [\d\s]+ppm/gm)].map(([, name = ""]) => name.replace("\u202f", " "))).toEqual([
    ...["US-NIOSH immediately dangerous value", "US-NIOSH ceiling", "US-OSHA 8 h average"],
  ]);
});
