/** What a screen waits for: the first one carries the code of no other, and a recording is drawn while its page is laid out. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { examples, openRoom, type Room, root, until } from "./room.ts";

let room: Room;

beforeAll(async () => {
  room = await openRoom();
});

afterAll(async () => {
  await room.close();
});

const code = join(root, "dist/web/assets");

/** Words that stand in the code of one screen only. */
const wordsOf = [
  { screen: "a recording", words: "Table of values" },
  { screen: "how it was read", words: "Read with the mapping that you loaded" },
  { screen: "a calculator", words: "All calculators" },
] as const;

/** A script and those that it cannot start without. */
const withWhatItNeeds = (name: string, known = new Set<string>()): ReadonlySet<string> => {
  if (known.has(name)) return known;
  known.add(name);
  const text = readFileSync(join(code, name), "utf8");
  for (const [, needed] of text.matchAll(/(?:from|import)\s*["']\.\/([^"']+\.js)["']/g))
    if (needed !== undefined) withWhatItNeeds(needed, known);
  return known;
};

const entry = (): string => {
  const name = /assets\/(index-[^"]+\.js)/.exec(readFileSync(join(root, "dist/web/index.html"), "utf8"))?.[1];
  if (name === undefined) throw new Error("dist/web/index.html names no script");
  return name;
};

const filesWith = (words: string, names: Iterable<string>): readonly string[] =>
  [...names].filter((name) => readFileSync(join(code, name), "utf8").includes(words));

test.each(wordsOf)("the first screen comes without the code of $screen", ({ words }) => {
  const scripts = readdirSync(code).filter((name) => name.endsWith(".js") && !name.startsWith("worker"));
  expect(filesWith(words, scripts).length).toBeGreaterThan(0);
  expect(filesWith(words, withWhatItNeeds(entry()))).toEqual([]);
});

test("a screen that was not opened yet opens although the server has gone", async () => {
  await room.page.goto(`${room.address}/recordings`);
  await until(room.page, `document.querySelector("h1") !== null`);
  await until(
    room.page,
    `performance.getEntriesByType("resource").filter((one) => /recording-page|slate-screen|reading-page|calculator-page/.test(one.name) && one.responseEnd > 0).length >= 4`,
  );
  await room.context.setOffline(true);
  await room.page.getByRole("link", { name: "Slate" }).click();
  await until(room.page, `location.pathname === "/slate" && document.querySelector("main h1") !== null`);
  await room.context.setOffline(false);
  expect(room.faults).toEqual([]);
  expect(room.strangers).toEqual([]);
});

test("the first drawing is asked for before the page of a recording stands, and not a second time", async () => {
  const { page } = room;
  await page.addInitScript({
    content: `
      window.asks = [];
      const post = Worker.prototype.postMessage;
      Worker.prototype.postMessage = function (message, ...rest) {
        if (message.ask) window.asks.push({ type: message.ask.type, width: message.ask.width, stands: document.querySelector("figure.panel") !== null });
        return post.call(this, message, ...rest);
      };`,
  });
  await page.goto(`${room.address}/recordings`);
  await until(page, `document.querySelector("h1") !== null && !document.querySelector("h1").textContent.includes("Looking")`);
  await page.locator("input[type=file]").setInputFiles(join(examples, "marl-beck-1-four-gases.csv"));
  await page.locator(".find-t .o").first().waitFor();
  const asks = await page.evaluate<readonly { readonly type: string; readonly width?: number; readonly stands: boolean }[]>("window.asks");
  const before = asks.slice(
    0,
    asks.findIndex((ask) => ask.type === "assess"),
  );
  // One for the panels and one for the strip over them, in the width that they have.
  const width = await page.evaluate<number>(`document.querySelector(".overview").clientWidth`);
  expect(before.filter((ask) => ask.type === "frame").length).toBe(2);
  expect(before.filter((ask) => ask.type === "frame" && ask.stands)).toEqual([]);
  expect(before.find((ask) => ask.type === "frame")?.width).toBeGreaterThanOrEqual(width);
});
