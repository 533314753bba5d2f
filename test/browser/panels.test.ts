import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { type MadeFile, overlong, overRange, restless } from "./panel-files.ts";
import { faultsOfLabels, layOverSeries } from "./panel-measure.ts";
import { desktop, openRoom, phone, type Room, seen, shots, until } from "./room.ts";

let room: Room;

beforeAll(async () => {
  room = await openRoom();
  room.page.setDefaultTimeout(15_000);
});
afterAll(async () => {
  await room.close();
});

/** Everything is computed, and drawn for the size that the window has now. */
const drawn = async (): Promise<void> => {
  await until(room.page, `document.querySelector("h1") !== null && !document.querySelector("h1").textContent.includes("Computing")`);
  await until(room.page, `document.querySelector(".plot .raw[d]") !== null`);
  await room.page.waitForTimeout(300);
};

const openExample = async (): Promise<void> => {
  await room.page.goto(`${room.address}/recordings/marl-beck-1-four-gases-csv`);
  await room.page.locator(".find-t .o").first().waitFor();
  await drawn();
};

const openMade = async ({ name, text }: MadeFile): Promise<void> => {
  await room.page.goto(`${room.address}/recordings`);
  await room.page.locator("input[type=file]").setInputFiles([{ name, mimeType: "text/csv", buffer: Buffer.from(text) }]);
  await room.page.locator("main.recording .find-t").first().waitFor();
  await drawn();
};

const files: readonly (readonly [string, () => Promise<void>])[] = [
  ["the example", openExample],
  ["a recording that goes over range", () => openMade(overRange)],
  ["a restless recording", () => openMade(restless)],
];

const sizes = [
  { name: "a desk", ...desktop },
  { name: "a narrow window", width: 1024, height: 768 },
  { name: "a phone", ...phone },
];

describe.each(files)("labels of %s", (name, open) => {
  test.each(sizes)("lie over no series and over no other label, on $name", async (size) => {
    const { page } = room;
    await page.setViewportSize(size);
    await open();
    await page.screenshot({ path: `${shots}/labels-${name.replaceAll(" ", "-")}-${size.width}.png` });
    expect(await faultsOfLabels(page)).toEqual([]);
  });

  test("nor do they after looking closer and moving along", async () => {
    const { page } = room;
    await page.setViewportSize(desktop);
    await open();
    await page.locator(".overview").focus();
    for (const key of ["+", "ArrowRight", "ArrowRight", "+", "ArrowLeft", "+"]) {
      await page.keyboard.press(key);
      await drawn();
      expect(await faultsOfLabels(page), key).toEqual([]);
    }
  });
});

test("the measure finds a label that lies over a series", async () => {
  await room.page.setViewportSize(desktop);
  await openMade(overRange);
  await layOverSeries(room.page);
  expect((await faultsOfLabels(room.page)).join("\n")).toContain("lies over a series");
});

describe("limits in a panel", () => {
  test("stand by name, both levels of Table Z-2 too, one line a value, dashed only where they are for scale", async () => {
    const { page } = room;
    await page.setViewportSize(desktop);
    await openExample();
    const names = await page
      .locator(".plot")
      .filter({ has: page.locator(".names") })
      .first()
      .locator(".limit")
      .allInnerTexts();
    expect(names).toEqual([
      "100 US-NIOSH immediately dangerous",
      "50 US-OSHA Z-2 peak",
      "20 US-OSHA Z-2 ceiling",
      expect.stringMatching(/^10 .*US-NIOSH 10.min ceiling.*GB-WEL \(memory\), EU-IOELV \(memory\), FR 15.min$/),
      expect.stringMatching(/^5 .*8.h, for scale only$/),
    ]);
    const lines: readonly string[] = await page.evaluate(
      `[...document.querySelector(".hold .plot").querySelectorAll("path.lim")].map((line) => getComputedStyle(line).strokeDasharray)`,
    );
    // Lines are drawn from the lowest to the highest: only that of the 8 h limits is for scale.
    expect(lines.map((dashes) => dashes !== "none")).toEqual([true, false, false, false, false]);
  });

  test("of the greatest mean it is said over how long", async () => {
    expect(await seen(room.page.locator(".hold .plot").first())).toMatch(/greatest 10.min mean: 10:31:00 to 10:41:00/);
  });

  test("no blank opens under a panel", async () => {
    const blanks: readonly number[] = await room.page.evaluate(
      `[...document.querySelectorAll(".panel:has(.hold)")].map((panel) => panel.getBoundingClientRect().bottom - panel.querySelector(".hold").getBoundingClientRect().bottom)`,
    );
    expect(Math.max(...blanks)).toBeLessThan(45);
  });
});

test("the first sentence names the immediately dangerous value before a ceiling, and a ceiling before an average", async () => {
  await openExample();
  expect(await seen(room.page.locator("h1"))).toMatch(/^H2S exceeds the US-NIOSH immediately dangerous value/);
  const kinds = (await room.page.locator(".finding:not(.folded) td.lim").allInnerTexts()).slice(0, 4);
  expect(kinds.map((kind) => kind.split(",")[0])).toEqual([
    "immediately dangerous",
    expect.stringMatching(/ceiling/),
    "Table Z-2",
    expect.stringMatching(/^15/),
  ]);
});

test("a phone shows the first chart on its first screen, and no label in it but its own", async () => {
  const { page } = room;
  await page.setViewportSize(phone);
  await openExample();
  const foot: number = await page.evaluate(`document.querySelector(".hold .plot").getBoundingClientRect().bottom`);
  expect(foot).toBeLessThanOrEqual(phone.height);
  expect(await seen(page.locator(".under").first())).toMatch(/20 US-OSHA Z-2 ceiling/);
  await page.locator(".focus-pick select").selectOption("US-OSHA");
  await until(page, `!document.querySelector("h1").textContent.includes("NIOSH")`);
  await page.locator(".focus-pick select").selectOption("");
});

test("regimes stand under each limit on a phone, when asked for, and are cut at no width", async () => {
  const { page } = room;
  await page.setViewportSize(phone);
  await openExample();
  const sides = page.locator(".sides");
  expect(await sides.isVisible()).toBe(false);
  await page.getByRole("button", { name: /^Show 5 regimes under each of \d+ limits$/ }).click();
  const row = page.locator(".sides tbody tr", { hasText: "15" }).first();
  expect((await seen(row)).replace(/\s+/g, " ")).toMatch(/none set/);
  const regimes: readonly string[] = await row.locator("td").evaluateAll((all) =>
    all.map((one) =>
      getComputedStyle(one, "::before")
        .content.replace(/^attr\(.*|["]/g, "")
        .trim(),
    ),
  );
  expect([...regimes].sort()).toEqual(["EU-IOELV", "FR", "GB-WEL", "US-NIOSH", "US-OSHA"]);
  const cut: readonly string[] = await page.evaluate(
    `[...document.querySelectorAll(".sides td, .sides th[scope=row], .above td")].filter((one) => one.getBoundingClientRect().right > innerWidth - 15).map((one) => one.textContent)`,
  );
  expect(cut).toEqual([]);
  await page.screenshot({ path: `${shots}/sides-phone.png`, fullPage: true });
  for (const width of [721, 1024, 1181]) {
    await page.setViewportSize({ width, height: 900 });
    const hidden: number = await page.evaluate(
      `document.querySelector(".scroll").scrollWidth - document.querySelector(".scroll").clientWidth`,
    );
    expect(hidden, `at ${width}`).toBe(0);
  }
  await page.setViewportSize(desktop);
});

describe("a recording that is refused", () => {
  test("shows the refusal and what to do in place of findings, and never looks like a gas without a limit", async () => {
    const { page } = room;
    await page.setViewportSize(desktop);
    await openMade(overlong);
    const words = await seen(page.locator(".find-t").first());
    expect(words).toMatch(/^Not computed\. /);
    expect(words).toMatch(/25.h long/);
    expect(words).toMatch(/shift/);
    expect(words).not.toMatch(/No exposure limit|not measured/);
  });

  test("names both days where the time shown crosses midnight", async () => {
    expect(await seen(room.page.locator(".keysnote"))).toContain("Wed 4 Mar 06:00:00 to Thu 5 Mar 07:00:00");
    expect(await seen(room.page.locator(".foot .axis"))).toContain("Thu 5 Mar");
  });
});

test("no page met a fault", () => {
  expect(room.faults).toEqual([]);
});
