/** A page never waits for ever without a word: a worker that does not come, dies or says nothing is said and offered again. */
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { examples, openRoom, type Room, seen, until } from "./room.ts";

let room: Room;
const program = "**/assets/worker-*.js";
const recording = join(examples, "marl-beck-1-four-gases.csv");

beforeAll(async () => {
  room = await openRoom();
});
afterAll(async () => {
  expect(room.strangers).toEqual([]);
  await room.close();
});

/** As a worker would be that does not start, and that breaks on its first ask. */
const broken = [
  { how: "cannot be fetched", body: null, says: "has stopped: its program could not be fetched" },
  {
    how: "breaks when asked",
    body: `self.onmessage = () => { throw new Error("out of memory"); };`,
    says: "has stopped: Uncaught Error: out of memory",
  },
];

describe.each(broken)("a worker that $how", ({ body, says }) => {
  test("is said, and started again it answers what was asked before", async () => {
    const { page, context, address } = room;
    await context.route(program, (route) =>
      body === null
        ? route.abort()
        : route.fulfill({ contentType: "text/javascript", body, headers: { "cross-origin-embedder-policy": "require-corp" } }),
    );
    await page.goto(`${address}/recordings`);
    await page.locator("input[type=file]").setInputFiles(recording);
    const alert = page.getByRole("alert");
    await alert.filter({ hasText: says }).waitFor();
    await context.unroute(program);
    await alert.getByRole("button", { name: "Start it again" }).click();
    await page.locator(".find-t .o").first().waitFor();
    expect((await seen(alert)).trim()).toBe("");
  });
});

test("a worker that dies without a word is missed; the next one reads its files before it answers", async () => {
  const { page, address } = room;
  await page.goto(`${address}/recordings`);
  await page.locator("input[type=file]").setInputFiles(recording);
  await page.locator(".find-t .o").first().waitFor();
  await page.workers()[0]?.evaluate("self.close()");
  await page
    .getByRole("button", { name: /Table of values/ })
    .first()
    .click();
  const alert = page.getByRole("alert");
  await alert.filter({ hasText: "Nothing has come from the part of this page that computes for 10 seconds" }).waitFor();
  await alert.getByRole("button", { name: "Start it again" }).click();
  await page
    .getByRole("complementary")
    .getByText(/of .* readings|\d readings/)
    .waitFor();
  expect((await seen(alert)).trim()).toBe("");
});

test("what is pressed is opened, even if the list changes between press and release", async () => {
  const { page, context, address } = room;
  await page.setViewportSize({ width: 320, height: 640 });
  const slow = await context.newCDPSession(page);
  // The list may have moved since it was measured: what counts is what the press met.
  await page.addInitScript(`document.addEventListener("pointerdown", ({ target }) => {
    window.pressed = target.closest(".shelf a")?.textContent ?? "";
  }, true);`);
  let opened = 0;
  // How many presses meet a link is up to how fast the list changes: pressed until three have.
  for (let round = 0; round < 30 && opened < 3; round++) {
    await slow.send("Emulation.setCPUThrottlingRate", { rate: 1 });
    await page.goto(`${address}/recordings`);
    await page.getByRole("button", { name: "Open the example" }).click();
    const link = page.locator(".shelf tbody tr a").first();
    await link.scrollIntoViewIfNeeded();
    await slow.send("Emulation.setCPUThrottlingRate", { rate: 8 });
    const box = await link.boundingBox();
    // Bytes that are here already: their second row has just gone.
    if (box === null) continue;
    const [x, y] = [box.x + 20, box.y + box.height / 2];
    await page.mouse.move(x, y);
    await page.mouse.down();
    await page.waitForTimeout(400);
    await page.mouse.up();
    await slow.send("Emulation.setCPUThrottlingRate", { rate: 1 });
    const pressed: string = await page.evaluate("window.pressed");
    if (pressed === "") continue;
    await until(page, `location.pathname !== "/recordings"`);
    await page.locator(".find-t .o").first().waitFor();
    opened++;
    expect(await page.title()).toContain(pressed);
  }
  expect(opened).toBe(3);
});
