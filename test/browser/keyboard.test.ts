import { afterAll, beforeAll, expect, test } from "vitest";
import { openRoom, type Room, seen, shots } from "./room.ts";

let room: Room;

beforeAll(async () => {
  room = await openRoom();
  room.page.setDefaultTimeout(15_000);
});
afterAll(async () => room.close());

const press = async (...keys: readonly string[]): Promise<void> => {
  for (const key of keys) await room.page.keyboard.press(key);
};

/** Tabs on until what has the focus holds these words; a page that never gives them the focus fails here. */
const tabTo = async (words: RegExp): Promise<void> => {
  for (let step = 0; step < 120; step++) {
    await press("Tab");
    const label = await room.page.evaluate(
      "(document.activeElement.getAttribute('aria-label') ?? document.activeElement.textContent ?? '').trim()",
    );
    if (words.test(String(label))) return;
  }
  throw new Error(`the keyboard never reaches ${words}`);
};

test("a recording is opened, read and left without a pointer", async () => {
  const { page } = room;
  await page.goto(`${room.address}/recordings`);
  await page.locator("h1").waitFor();
  await tabTo(/Open the example/);
  await press("Enter");
  await page.locator(".shelf .exceeds").first().waitFor();
  await tabTo(/\.csv$/);
  await press("Enter");
  await page.locator(".find-t .o").first().waitFor();
  await tabTo(/^Whole recording/);
  const shown = (): Promise<string> => seen(page.locator(".keysnote p"));
  const whole = await shown();
  await press("+", "+");
  await expect.poll(shown).not.toBe(whole);
  await press("ArrowRight", "ArrowLeft", "End", "Home");
  await press("0");
  expect(await shown()).toBe(whole);
  await page.screenshot({ path: `${shots}/keyboard-focus.png` });
  await tabTo(/Grounds of/);
  await press("g");
  await page.getByRole("complementary").waitFor();
  await press("Escape");
  await page.getByRole("complementary").waitFor({ state: "detached" });
  await tabTo(/^Table of values/);
  await press("Enter");
  await page.locator(".values tbody tr").first().waitFor();
  await press("Escape");
});

test("typed times do what the brush does", async () => {
  const { page } = room;
  await page.getByRole("button", { name: "Type times" }).click();
  await page.locator(".keysnote").getByLabel("From").fill("10:30");
  await page.locator(".keysnote").getByLabel("to", { exact: true }).fill("10:50");
  await press("Enter");
  await page.getByText("10:30:00 to 10:50:00.").waitFor();
});

test("? lists the keys, Esc closes, and single keys can be switched off (WCAG 2.1.4)", async () => {
  const { page } = room;
  await page.locator("p.lines .tag").click();
  await press("?");
  await page.getByRole("dialog").waitFor();
  await page.getByRole("checkbox", { name: /Single keys act/ }).uncheck();
  await press("Escape");
  await press("?");
  expect(await page.getByRole("dialog").count()).toBe(0);
  await page.getByRole("button", { name: "Keys and words" }).click();
  await page.getByRole("checkbox", { name: /Single keys act/ }).check();
  await press("Escape");
});

test("/ finds a gas's limits, each with source and mark", async () => {
  const { page } = room;
  await page.locator("p.lines .tag").click();
  await press("/");
  await page.keyboard.type("carbon mono");
  await page.getByRole("option", { name: /carbon monoxide/ }).waitFor();
  await press("Enter");
  const sheet = page.getByRole("complementary", { name: /Limits of/ });
  await sheet.waitFor();
  expect(await seen(sheet)).toMatch(/US-OSHA/);
  await page.screenshot({ path: `${shots}/limits.png` });
  await press("Escape");
});

test("the theme is remembered", async () => {
  const { page } = room;
  await page.getByRole("combobox", { name: "Theme" }).selectOption("dark");
  await page.goto(`${room.address}/slate`);
  expect(await page.evaluate("document.documentElement.className")).toBe("dark");
});

test("nothing left this machine, and no page met a fault", () => {
  expect(room.strangers).toEqual([]);
  expect(room.faults).toEqual([]);
});
