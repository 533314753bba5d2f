/** One browser, two windows on the same recording: neither takes back without a word what the other said. */
import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { examples, openRoom, type Room, seen } from "./room.ts";

let room: Room;
let other: Page;
const name = "marl-beck-1-four-gases.csv";

const opened = (page: Page): Promise<void> => page.locator(".find-t .o").first().waitFor();
const regime = (page: Page, which: string) => page.getByRole("checkbox", { name: which, exact: true });
const gap = (page: Page) => page.getByLabel("A reading holds at most");

/** As if the window had been asleep while the other one spoke. */
const deaf = async (page: Page): Promise<void> => {
  await page.addInitScript(`BroadcastChannel.prototype.addEventListener = () => {};`);
};

beforeAll(async () => {
  room = await openRoom();
  await room.page.goto(`${room.address}/recordings`);
  await room.page.locator("input[type=file]").setInputFiles(join(examples, name));
  await opened(room.page);
  other = await room.context.newPage();
  await other.goto(room.page.url());
  await opened(other);
});
afterAll(async () => {
  expect(room.faults).toEqual([]);
  await room.close();
});

test("what is chosen in one window stands in the other, and is said there", async () => {
  await regime(room.page, "FR").uncheck();
  await other.getByText("Another window of this browser said something of this recording").waitFor();
  expect(await regime(other, "FR").isChecked()).toBe(false);
});

test("a window that heard nothing takes nothing back", async () => {
  await deaf(other);
  await other.reload();
  await opened(other);
  await regime(room.page, "GB-WEL").uncheck();
  await room.page.waitForTimeout(300);
  await gap(other).fill("120");
  await gap(other).press("Enter");
  for (const page of [other, room.page]) {
    await page.getByText("Another window of this browser said something of this recording").waitFor();
    expect(await regime(page, "GB-WEL").isChecked()).toBe(false);
    expect(await gap(page).inputValue()).toBe("120");
  }
});

test("what both changed is named, and stands as it was chosen last, in both", async () => {
  await gap(room.page).fill("60");
  await gap(room.page).press("Enter");
  await room.page.waitForTimeout(300);
  await gap(other).fill("90");
  await gap(other).press("Enter");
  await other.getByText("Another window of this browser changed the largest gap too: what was chosen here stands, in both.").waitFor();
  await room.page.locator(".undo", { hasText: "Another window" }).waitFor();
  expect(await gap(room.page).inputValue()).toBe("90");
});

test("putting all away is said in the other window, and forgets answers and name", async () => {
  await room.page.evaluate(`localStorage.setItem("lamproom/declared-by", "A. Hallam")`);
  await other.reload();
  await room.page.bringToFront();
  await room.page.getByRole("link", { name: "Recordings", exact: true }).click();
  await room.page.getByRole("button", { name: "Put all away and forget them" }).click();
  const said = room.page.locator(".undo");
  await said.filter({ hasText: "the name last signed with" }).waitFor();
  expect(await seen(said)).toContain("put away");
  expect(await room.page.evaluate(`Object.keys(localStorage).filter((key) => /declared-by|mapping/.test(key))`)).toEqual([]);
});
