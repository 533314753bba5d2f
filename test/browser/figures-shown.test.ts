/** Which figure of a limit and of a channel stands on the page, where more than one could. Files are invented. */
import { mkdtempSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { openRoom, overhang, phone, type Room, seen, shots, until } from "./room.ts";

let room: Room;
const folder = mkdtempSync(join(tmpdir(), "lamproom-figures-"));

beforeAll(async () => {
  room = await openRoom();
});
afterAll(() => room.close());

/** One-minute steps from 06:00 of 4 March 2026, UTC. */
const take = async (name: string, heading: string, count: number, row: (minute: number) => string): Promise<void> => {
  const rows = Array.from({ length: count }, (_, minute) => `${new Date(Date.UTC(2026, 2, 4, 6, minute)).toISOString()},${row(minute)}`);
  const path = join(folder, name);
  writeFileSync(path, `Time,${heading}\n${rows.join("\n")}\n`);
  await room.page.goto(`${room.address}/recordings`);
  await room.page.locator("h1:not(:has-text('Looking'))").waitFor();
  await room.page.locator("input[type=file]").setInputFiles(path);
  await room.page.locator(".find-t").last().waitFor();
  await computed();
};

const computed = (): Promise<unknown> =>
  until(room.page, `!/Computing/.test(document.querySelector(".undo").textContent + document.querySelector("h1").textContent)`);

describe("an oxygen channel", () => {
  test("has its lowest reading first, then mean and greatest, and no average over a time", async () => {
    await take("oxygen.csv", "O2 (vol%)", 301, (minute) => (minute === 100 ? "18.1" : "20.9"));
    const table = await seen(room.page.locator(".find-t").first());
    expect(table).toMatch(/lowest 18\.1.*Mean of the sampled time 20\.9.* Greatest reading 20\.9/s);
    expect(table).not.toMatch(/average/);
    await room.page.screenshot({ path: `${shots}/figures-oxygen.png`, fullPage: true });
  });
});

const shift = async (from: string, to: string): Promise<void> => {
  const { page } = room;
  await page.getByLabel("Shift from").first().fill(from);
  await page.getByLabel("to", { exact: true }).first().fill(to);
  await page.getByRole("button", { name: "Add the shift" }).first().click();
  await computed();
};

describe("a worst case that leaves an outcome open", () => {
  test("gives no best figure, and never the word for nothing", async () => {
    const { page } = room;
    await take("part.csv", "CO (ppm)", 391, () => "40");
    await shift("06:00", "14:00");
    await page.getByRole("radio", { name: "at most this, at any moment" }).check();
    const form = page.locator(".signing");
    await form.locator("#unsampled-level").fill("120");
    await form.getByLabel("Who says so").fill("A. Hallam");
    await form.getByLabel("Why").fill("workshop next door");
    await form.getByRole("button", { name: "Declare it for all such time" }).click();
    await page
      .locator(".find-t")
      .getByText(/no more than 120/)
      .first()
      .waitFor();
    await page.getByRole("button", { name: /^Show \d+ more/ }).click();
    const said = await seen(page.locator(".find-t").first());
    expect(said).toMatch(/32\.5 to 55\.0/);
    expect(said).not.toMatch(/\bnull\b|Best/);
  });

  test("beside a declaration, nothing declared is said of the rest alone", async () => {
    const { page } = room;
    await take("part-declared.csv", "CO (ppm)", 390, () => "40");
    await shift("06:00", "14:00");
    expect(await page.getByRole("radio", { name: "nothing is declared: the upper end stays open" }).isChecked()).toBe(true);
    await page.getByRole("button", { name: "Declare something" }).click();
    const sheet = page.getByRole("complementary", { name: "Declare" });
    await sheet
      .getByRole("radio", { name: /^\d\d:\d\d:\d\d to 14:00:00/ })
      .first()
      .check();
    await sheet.getByRole("radio", { name: /^It was at most so much/ }).check();
    await sheet.locator("#declare-level").fill("13");
    await sheet.getByLabel("Who says so").fill("A. Hallam");
    await sheet.getByLabel("Why").fill("office work");
    await sheet.getByRole("button", { name: "Declare it" }).click();
    await page.locator(".declarations tbody tr").waitFor();
    await page.getByRole("radio", { name: "nothing is declared for the rest: its upper end stays open" }).waitFor();
  });
});

describe("a limit lowered for a long shift", () => {
  test("stands beside the published one, each with its own figure, at both widths", async () => {
    const { page } = room;
    await take("long.csv", "CO (ppm)", 721, () => "40");
    await shift("06:00", "18:00");
    await page.getByText("Settings for this recording").click();
    await page.getByLabel(/^For a shift longer than 8 h/).check();
    const form = page.locator(".site-choices");
    await form.getByLabel("Who says so").fill("A. Hallam");
    await form.getByLabel("Why").fill("site instruction 4");
    await form.getByRole("button", { name: "Set these" }).click();
    await page.locator(".find-t", { hasText: "Lowered from" }).first().waitFor();
    await page.getByRole("button", { name: /^Show \d+ more/ }).click();
    const said = await seen(page.locator(".find-t").first());
    expect(said).toMatch(/Lowered from 50\Wppm after Brief and Scala, daily\./);
    expect(said).toMatch(/8\Wh, 25\Wppm/);
    expect(said).toMatch(/8\Wh, 50\Wppm/);
    await page.screenshot({ path: `${shots}/figures-lowered.png`, fullPage: true });
    await page.setViewportSize(phone);
    expect(await overhang(page)).toBeLessThanOrEqual(0);
    await page.screenshot({ path: `${shots}/figures-lowered-phone.png`, fullPage: true });
  });
});
