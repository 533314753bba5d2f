// What stands on the screen stands on paper: every finding, both series, the area above a limit, and nothing cut off.
import { afterAll, beforeAll, expect, test } from "vitest";
import { type Drawn, drawnExpression, drawnPanels, faultsOfLabels } from "./panel-measure.ts";
import { desktop, openRoom, type Room, seen, shots, until } from "./room.ts";

let room: Room;

/** A4 less the margins of look.css, at 96 pixels an inch. */
const paper = { width: 688, height: 980 };

beforeAll(async () => {
  room = await openRoom();
  room.page.setDefaultTimeout(15_000);
  await room.page.goto(`${room.address}/recordings/marl-beck-1-four-gases-csv`);
  await room.page.locator(".find-t .o").first().waitFor();
  await until(room.page, `document.querySelector(".plot .mean[d]:not([d=''])") !== null`);
  await room.page.waitForTimeout(500);
});
afterAll(async () => {
  await room.close();
});

const findings = async (): Promise<readonly string[]> =>
  (await room.page.locator(".finding:visible").allInnerTexts()).map((text) => text.replace(/\s+/g, " ").replace(" Declare it", "").trim());

const close = (one: Drawn["raw"], other: Drawn["raw"], gas: string): void => {
  expect(one === null, gas).toBe(other === null);
  // A pixel of the lowest panel is a fortieth of its axis.
  const span = Math.abs((other?.[1] ?? 0) - (other?.[0] ?? 0));
  for (const [at, value] of (one ?? []).entries()) expect(Math.abs(value - (other?.[at] ?? 0)), gas).toBeLessThan(0.05 * span + 0.3);
};

let onScreen: readonly Drawn[] = [];
let all: readonly string[] = [];

test("the screen folds findings and unfolds them", async () => {
  const { page } = room;
  onScreen = await drawnPanels(page);
  const folded = await findings();
  const more = page.getByRole("button", { name: /^Show \d+ more: / });
  while ((await more.count()) > 0) await more.first().click();
  all = await findings();
  const fewer = page.getByRole("button", { name: "Show fewer" });
  while ((await fewer.count()) > 0) await fewer.first().click();
  expect(folded.length).toBe(8);
  expect(all.length).toBe(17);
});

test("the print view holds every finding, both series, the area above the limit, and the times of each panel", async () => {
  const { page } = room;
  await page.setViewportSize(paper);
  await page.emulateMedia({ media: "print" });
  await page.waitForTimeout(300);
  await page.screenshot({ path: `${shots}/print-view.png`, fullPage: true });
  expect(await findings()).toEqual(all);
  const printed = await drawnPanels(page);
  expect(printed.map(({ gas }) => gas)).toEqual(onScreen.map(({ gas }) => gas));
  for (const [at, one] of printed.entries()) {
    const other = onScreen[at];
    close(one.raw, other?.raw ?? null, one.gas);
    close(one.mean, other?.mean ?? null, one.gas);
    expect(one.wash, one.gas).toBe(other?.wash);
    expect(one.inside, one.gas).toBe(true);
  }
  expect(printed.find(({ gas }) => gas === "CO")?.mean?.[1]).toBeGreaterThan(28);
  expect(printed.find(({ gas }) => gas === "H2S")?.wash).toBe(true);
  expect(await page.locator(".hold .own-axis:visible").count()).toBe(printed.length);
  expect(await faultsOfLabels(page)).toEqual([]);
});

test("grounds stand on paper once where findings share them, and every line of every finding is there", async () => {
  const { page } = room;
  const words = (text: string): string => text.replace(/\s+/g, " ").trim();
  const printed = words(await seen(page.locator(".print-only")));
  for (const shared of [
    "A reading holds until the next one",
    "No shift is named: the file is taken as one.",
    "Readings are taken as spot readings",
  ])
    expect(printed.split(shared).length - 1, shared).toBe(1);
  await page.emulateMedia({ media: null });
  await page.setViewportSize(desktop);
  const links = await page.locator(".find-t .g").evaluateAll((all) => all.map((one) => one.getAttribute("href") ?? ""));
  expect(links.length).toBe(17);
  const told = new Set<string>();
  for (const link of links) {
    await page.evaluate(`location.hash = ${JSON.stringify(link)}`);
    await page.locator(".sheet .tree").waitFor();
    await until(page, `document.querySelector(".sheet .tree") !== null`);
    const said = await page
      .locator(".sheet .tree > li")
      .evaluateAll((all) =>
        all
          .filter((one) => /^(Readings|Declared|Limit|Assumed)/.test(one.textContent ?? ""))
          .flatMap((one) => [...one.querySelectorAll("li")].map((line) => line.textContent ?? "")),
      );
    for (const line of said) told.add(line);
    // What holds for the whole panel, or stands in the note under the finding, is on paper there.
    const elsewhere = /^(Nothing|Window or instant)|of the time was measured|^All of the time/;
    for (const line of said.map(words).filter((one) => !elsewhere.test(one))) expect(printed, link).toContain(line.replace(/\.$/, ""));
  }
  // A limit and its source each: the sheet did change with the address.
  expect(told.size).toBeGreaterThan(25);
  await page.keyboard.press("Escape");
  await page.setViewportSize(paper);
  await page.emulateMedia({ media: "print" });
  await page.waitForTimeout(300);
});

test("nothing of it is wider than the paper", async () => {
  const beyond: readonly string[] = await room.page.evaluate(
    `[...document.querySelectorAll("main *")].filter((one) => one.closest(".pane, .hid") === null && one.getBoundingClientRect().right > innerWidth + 1).map((one) => one.tagName + " " + one.textContent.slice(0, 40))`,
  );
  expect(beyond).toEqual([]);
  await room.page.emulateMedia({ media: null });
  await room.page.setViewportSize(desktop);
});

test("a printer that asks at once gets the same: nothing is waited for", async () => {
  const { page } = room;
  await page.waitForTimeout(500);
  await page.evaluate(
    `matchMedia("print").addEventListener("change", ({ matches }) => { if (matches) window.printed = { drawn: ${drawnExpression}, findings: [...document.querySelectorAll(".finding")].filter((one) => one.getClientRects().length > 0).length }; })`,
  );
  const pdf = await page.pdf({ format: "A4", path: `${shots}/print.pdf` });
  expect(pdf.length).toBeGreaterThan(10_000);
  const printed = (await page.evaluate("window.printed")) as { readonly drawn: readonly Drawn[]; readonly findings: number }; // as set above
  expect(printed.findings).toBe(17);
  for (const [at, one] of printed.drawn.entries()) {
    close(one.raw, onScreen[at]?.raw ?? null, one.gas);
    close(one.mean, onScreen[at]?.mean ?? null, one.gas);
    expect(one.inside, one.gas).toBe(true);
  }
});

test("no page met a fault", () => {
  expect(room.faults).toEqual([]);
});
