/**
 * First chart and panning in a real Chromium, without a graphics processor: `node bench/chart.bench.ts`. The file is
 * made here, seeded; the page opens it as a person would. First chart: from the worker's word that the recording is
 * open to the frame in which its drawing stands. Panning: each frame moves the view, as a held key or a drag does.
 * Longest task: the longest time in which the page could answer nothing, as the browser itself tells it (it tells of
 * none under 50 ms), from the choice of the file until it was read, drawn, panned, declared about and computed again.
 */

import { once } from "node:events";
import { createWriteStream, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { openRoom, until } from "../test/browser/room.ts";

const seed = 20261124;

interface Case {
  readonly name: string;
  readonly rows: number;
  readonly channels: readonly string[];
  readonly stepMs: number;
}

const cases: readonly Case[] = [
  {
    name: "1 M points (4 channels x 250 000 rows, 300 ms)",
    rows: 250_000,
    channels: ["CO (ppm)", "H2S (ppm)", "SO2 (ppm)", "O2 (vol%)"],
    stepMs: 300,
  },
  { name: "1 M points (1 channel, 80 ms)", rows: 1_000_000, channels: ["CO (ppm)"], stepMs: 80 },
  {
    name: "10 M points (4 channels x 2 500 000 rows, 30 ms)",
    rows: 2_500_000,
    channels: ["CO (ppm)", "H2S (ppm)", "SO2 (ppm)", "O2 (vol%)"],
    stepMs: 30,
  },
];

/** A linear congruential generator (Numerical Recipes constants, from memory): the same file in every run. */
const chance = (): (() => number) => {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
};

const write = async (path: string, { rows, channels, stepMs }: Case): Promise<void> => {
  const out = createWriteStream(path);
  const next = chance();
  const levels: number[] = channels.map((name) => (name.startsWith("O2") ? 20.9 : 5));
  out.write(`Time,${channels.join(",")}\n`);
  let piece = "";
  for (let row = 0; row < rows; row++) {
    const at = new Date(Date.UTC(2026, 10, 24) + row * stepMs).toISOString();
    for (let place = 0; place < levels.length; place++) levels[place] = Math.max(0, (levels[place] ?? 0) + (next() - 0.5) * 0.4);
    piece += `${at},${levels.map((level) => level.toFixed(1)).join(",")}\n`;
    if (piece.length > 1 << 20) {
      if (!out.write(piece)) await once(out, "drain");
      piece = "";
    }
  }
  out.end(piece);
  await once(out, "finish");
};

/** Between two of the page's own marks, in milliseconds. */
const between = (page: Page, from: string, to: string): Promise<number> =>
  page.evaluate(
    `performance.getEntriesByName(${JSON.stringify(to)})[0].startTime - performance.getEntriesByName(${JSON.stringify(from)})[0].startTime`,
  );

/** Presses an arrow in every frame and times the frames and the longest stretch in which the page could not act. */
const pan = (page: Page): Promise<{ readonly median: number; readonly p95: number; readonly worst: number; readonly frames: number }> =>
  page.evaluate(`new Promise((done) => {
    const strip = document.querySelector(".overview");
    strip.focus();
    const press = (key) => strip.dispatchEvent(new KeyboardEvent("keydown", { key, bubbles: true, cancelable: true }));
    for (let i = 0; i < 4; i++) press("+");
    press("Home");
    const times = [];
    let last = 0;
    const step = (now) => {
      if (last > 0) times.push(now - last);
      last = now;
      press("ArrowRight");
      if (times.length < 180) requestAnimationFrame(step);
      else {
        times.sort((a, b) => a - b);
        done({ median: times[90], p95: times[171], worst: times[179], frames: times.length });
      }
    };
    setTimeout(() => requestAnimationFrame(step), 1500);
  })`);

/** Listens from the first script on: what a browser told nobody is not told later. */
const listenForTasks = (page: Page): Promise<unknown> =>
  page.addInitScript({
    content: `
      window.longTasks = [];
      new PerformanceObserver((list) => {
        for (const task of list.getEntries()) window.longTasks.push({ at: task.startTime, lasted: task.duration });
      }).observe({ type: "longtask", buffered: true });`,
  });

/** Nobody was exposed in all time without readings: what is computed is computed again, on every channel. */
const declare = async (page: Page): Promise<void> => {
  await page.getByRole("radio", { name: "nobody was exposed" }).check();
  await page.locator(".signing").getByLabel("Who says so").fill("A. Hallam");
  await page.locator(".signing").getByLabel("Why").fill("went home");
  await page.getByRole("button", { name: "Declare it for all such time" }).click();
  await page.locator(".declarations tbody tr").waitFor();
  await until(page, `!document.querySelector(".undo").textContent.includes("Computing")`, 300_000);
  await page.waitForTimeout(500);
};

/** In words: under 50 ms a browser tells of no task. */
const longestTask = async (page: Page): Promise<string> => {
  const longest = await page.evaluate<number>(
    `Math.max(0, ...window.longTasks.filter((task) => task.at >= performance.getEntriesByName("lamproom-chosen")[0].startTime).map((task) => task.lasted))`,
  );
  return longest === 0 ? "under 50 ms" : `${longest.toFixed(0)} ms`;
};

const folder = mkdtempSync(join(tmpdir(), "lamproom-chart-"));
console.log(`seed ${seed}; first chart aim < 100 ms, frames aim 16.7 ms (60 a second), longest task aim < 100 ms`);
console.log(
  "| recording | read and checked | first chart | with means and findings | frame median | frame 95 % | frame worst | longest task |",
);
console.log("| --- | --- | --- | --- | --- | --- | --- | --- |");
for (const one of cases) {
  const path = join(folder, "recording.csv");
  await write(path, one);
  const room = await openRoom();
  try {
    await listenForTasks(room.page);
    await room.page.goto(`${room.address}/recordings`);
    // The other screens are fetched once this one stands.
    await room.page.waitForTimeout(1000);
    await room.page.evaluate(`performance.mark("lamproom-chosen")`);
    await room.page.locator("input[type=file]").setInputFiles(path);
    await until(room.page, `performance.getEntriesByName("lamproom-drawn").length > 0`, 300_000);
    await until(room.page, `performance.getEntriesByName("lamproom-complete").length > 0`, 300_000);
    const [read, first, complete] = [
      await between(room.page, "lamproom-chosen", "lamproom-opened"),
      await between(room.page, "lamproom-opened", "lamproom-drawn"),
      await between(room.page, "lamproom-opened", "lamproom-complete"),
    ];
    const frames = await pan(room.page);
    await declare(room.page);
    const longest = await longestTask(room.page);
    const ms = (value: number): string => `${value.toFixed(1)} ms`;
    console.log(
      `| ${one.name} | ${ms(read)} | ${ms(first)} | ${ms(complete)} | ${ms(frames.median)} | ${ms(frames.p95)} | ${ms(frames.worst)} | ${longest} |`,
    );
  } finally {
    await room.close();
  }
}
rmSync(folder, { recursive: true, force: true });
