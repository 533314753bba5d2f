// A shift longer than its recording: the hours without readings are on the axis, hatched, named, and in every twin of the picture.
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { endsEarly } from "./panel-files.ts";
import { faultsOfLabels } from "./panel-measure.ts";
import { desktop, openRoom, overhang, phone, type Room, seen, shots, until } from "./room.ts";

let room: Room;

const settled = async (): Promise<void> => {
  await until(room.page, `document.querySelector("h1") !== null && !document.querySelector("h1").textContent.includes("Computing")`);
  await room.page.waitForTimeout(400);
};

beforeAll(async () => {
  room = await openRoom();
  room.page.setDefaultTimeout(15_000);
  const { page } = room;
  await page.goto(`${room.address}/recordings`);
  const { name, text } = endsEarly;
  await page.locator("input[type=file]").setInputFiles([{ name, mimeType: "text/csv", buffer: Buffer.from(text) }]);
  await page.locator("main.recording .find-t").first().waitFor();
  await settled();
});
afterAll(async () => {
  await room.close();
});

const addShift = async (from: string, to: string): Promise<void> => {
  const { page } = room;
  await page.getByLabel("Shift from").first().fill(from);
  await page.getByLabel("to", { exact: true }).first().fill(to);
  await page.getByRole("button", { name: "Add the shift" }).first().click();
  await settled();
};

const takeAway = async (from: string): Promise<void> => {
  await room.page.getByRole("button", { name: `Take away the shift from ${from}` }).click();
  await settled();
};

const shown = (): Promise<string> => seen(room.page.locator(".keysnote"));

interface Hatch {
  /** As shares of the width of the plot. */
  readonly from: number;
  readonly to: number;
}

/** The hatched rectangles of a plot, as the browser lays them out. */
const hatches = (plot: string): Promise<readonly Hatch[]> =>
  room.page.evaluate(`(() => {
    const svg = document.querySelector("${plot} svg").getBoundingClientRect();
    return [...document.querySelectorAll("${plot} rect.gap")].map((one) => {
      const box = one.getBoundingClientRect();
      return { from: (box.left - svg.left) / svg.width, to: (box.right - svg.left) / svg.width };
    });
  })()`);

const bounds = (): Promise<readonly number[]> =>
  room.page.evaluate(`(() => {
    const svg = document.querySelector(".hold .plot svg").getBoundingClientRect();
    return [...document.querySelectorAll(".hold .plot path.bound")].map((one) => (one.getBoundingClientRect().left - svg.left) / svg.width);
  })()`);

/** 12:30 in a day from 06:00 to 14:00. */
const ends = 6.5 / 8;

describe("a shift from 06:00 to 14:00 with readings to 12:30", () => {
  test("is drawn to its end, hatched from the last reading on, in the panel and in the strip", async () => {
    expect(await shown()).toContain("06:00:00 to 12:30:00");
    expect(await hatches(".hold .plot")).toEqual([]);
    await addShift("06:00", "14:00");
    expect(await shown()).toContain("06:00:00 to 14:00:00");
    for (const plot of [".hold .plot", ".overview"]) {
      const [gap, ...more] = await hatches(plot);
      expect(more).toEqual([]);
      expect(Math.abs((gap?.from ?? 0) - ends)).toBeLessThan(0.01);
      expect(Math.abs((gap?.to ?? 0) - 1)).toBeLessThan(0.01);
    }
    await room.page.screenshot({ path: `${shots}/shift.png`, fullPage: true });
  });

  test("has a thin line at each of its ends, named, and says what was not measured in words too", async () => {
    const [from, to] = await bounds();
    expect(from).toBeLessThan(0.01);
    expect(to).toBeGreaterThan(0.99);
    const plot = room.page.locator(".hold .plot").first();
    const words = await seen(plot);
    expect(words).toContain("shift begins 06:00");
    expect(words).toContain("shift ends 14:00");
    expect(words).toMatch(/not measured 1.h 30.min: no rows/);
    const twin = await plot.getAttribute("aria-label");
    expect(twin).toMatch(/Not measured: 12:3\d:00 to 14:00:00\./);
    expect(twin).toContain("Lines: shift begins 06:00, shift ends 14:00.");
    expect(await faultsOfLabels(room.page)).toEqual([]);
  });

  test("on a phone and on paper the same stands", async () => {
    const { page } = room;
    await page.setViewportSize(phone);
    await settled();
    expect(await hatches(".hold .plot")).toHaveLength(1);
    expect(await faultsOfLabels(page)).toEqual([]);
    expect(await overhang(page)).toBeLessThanOrEqual(0);
    await page.screenshot({ path: `${shots}/shift-phone.png`, fullPage: true });
    await page.emulateMedia({ media: "print" });
    await page.setViewportSize({ width: 688, height: 980 });
    await settled();
    const [gap] = await hatches(".hold .plot");
    expect(Math.abs((gap?.from ?? 0) - ends)).toBeLessThan(0.01);
    expect(await seen(page.locator(".hold .own-axis").first())).toContain("14:00");
    await page.emulateMedia({ media: null });
    await page.setViewportSize(desktop);
    await settled();
  });

  test("a whole view follows the shift, one that a person chose stays", async () => {
    const { page } = room;
    await takeAway("06:00");
    expect(await shown()).toContain("06:00:00 to 12:30:00");
    await page.locator(".overview").focus();
    await page.keyboard.press("+");
    const chosen = (await shown()).match(/\d\d:\d\d:\d\d to \d\d:\d\d:\d\d/)?.[0];
    await addShift("05:00", "14:00");
    expect(await shown()).toContain(chosen);
    await page.getByRole("button", { name: "Show it whole" }).click();
    await settled();
    expect(await shown()).toContain("05:00:00 to 14:00:00");
    expect(await hatches(".hold .plot")).toHaveLength(2);
    expect(await seen(page.locator(".basis, .lines").first())).toContain("05:00 to 14:00");
  });

  test("comes back whole after a reload", async () => {
    const { page } = room;
    await page.reload();
    await page.locator("main.recording .find-t .o").first().waitFor();
    await settled();
    expect(await shown()).toContain("05:00:00 to 14:00:00");
    expect(await hatches(".hold .plot")).toHaveLength(2);
  });
});

describe("values at the axis", () => {
  test("of limits are set apart from round ones, which have a tick", async () => {
    const told: readonly { readonly text: string; readonly isLimit: boolean; readonly weight: string; readonly tick: string }[] =
      await room.page.evaluate(`[...document.querySelectorAll(".hold .plot .y")].map((one) => ({
        text: one.textContent, isLimit: one.classList.contains("at-limit"), weight: getComputedStyle(one).fontWeight,
        tick: getComputedStyle(one, "::after").content,
      }))`);
    const names = (await room.page.locator(".hold .plot .limit b").allInnerTexts()).map((text) => text.trim());
    expect(told.some(({ isLimit }) => isLimit)).toBe(true);
    expect(told.some(({ isLimit }) => !isLimit)).toBe(true);
    for (const { text, isLimit, weight, tick } of told) {
      expect(names.includes(text), text).toBe(isLimit);
      expect([weight, tick !== "none"], text).toEqual(isLimit ? ["600", false] : ["400", true]);
    }
  });
});

test("no page met a fault", () => {
  expect(room.faults).toEqual([]);
});
