import { afterAll, beforeAll, expect, test } from "vitest";
import { openRoom, type Room, seen, shots } from "./room.ts";

let room: Room;

beforeAll(async () => {
  room = await openRoom();
  room.page.setDefaultTimeout(15_000);
});
afterAll(async () => room.close());

test("each calculator works out its own examples and says how", async () => {
  const { page } = room;
  await page.goto(`${room.address}/slate`);
  const links = page.locator(".slate-list a");
  await links.first().waitFor();
  const count = await links.count();
  expect(count).toBeGreaterThan(3);
  for (let place = 0; place < count; place++) {
    await page.goto(`${room.address}/slate`);
    await links.nth(place).click();
    const examples = page.locator(".examples button");
    await examples.first().waitFor();
    for (let example = 0; example < (await examples.count()); example++) {
      await examples.nth(example).click();
      await page.locator(".result .grounds li").first().waitFor();
      expect(await seen(page.locator("h1"))).toMatch(/\./);
      expect(await page.locator(".answer.refused").count()).toBe(0);
    }
    await page.screenshot({ path: `${shots}/slate-${place}.png`, fullPage: true });
  }
});

test("the address holds the inputs: opened again it gives the same sentence", async () => {
  const { page } = room;
  const said = await seen(page.locator("h1"));
  const address = page.url();
  await page.goto(`${room.address}/recordings`);
  await page.goto(address);
  await page.locator(".result").waitFor();
  expect(await seen(page.locator("h1"))).toBe(said);
});

test("an input that does not fit is named at its field, and nothing typed is lost", async () => {
  const { page } = room;
  const field = page.locator(".field input[inputmode=decimal]").first();
  await field.fill("much");
  await page.getByRole("button", { name: "Work it out" }).click();
  await page.locator(".field.wrong .error").waitFor();
  expect(await field.inputValue()).toBe("much");
  const says = await seen(page.locator("h1"));
  expect(says).toMatch(/cannot be “much”\. Enter a number/);
  expect(says).not.toMatch(/\/|JSON|send it/);
  expect(await seen(page.locator(".field.wrong .error"))).toBe(says);
  await page.screenshot({ path: `${shots}/slate-refused.png` });
});

test("nothing left this machine, and no page met a fault", () => {
  expect(room.strangers).toEqual([]);
  expect(room.faults).toEqual([]);
});
