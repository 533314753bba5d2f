// The outbox of a browser in a real browser: the cases of every outbox, a browser that is killed while it keeps, a disk
// that is full, a database that another page took away.
import { type ChildProcess, spawn } from "node:child_process";
import { mkdtemp, readFile, rm } from "node:fs/promises";
import { createServer, type Server } from "node:http";
import type { AddressInfo } from "node:net";
import { tmpdir } from "node:os";
import { extname, join } from "node:path";
import { type Browser, chromium, type Page } from "playwright-core";
import { build } from "vite";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { outboxCases } from "../store/outbox-acceptance.ts";
import { root } from "./room.ts";

const BOOK = "5f0c9a52-3b1e-4d6a-8f57-0c2d4e6a8b10";
const TYPES: Readonly<Record<string, string>> = { ".html": "text/html", ".js": "text/javascript" };
const built = join(root, ".work/outbox-page");

let folder = "";
let address = "";
let server: Server;

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "lamproom-outbox-browser-"));
  await build({
    configFile: false,
    logLevel: "error",
    root: join(root, "test/browser/outbox-page"),
    build: { outDir: built, emptyOutDir: true },
  });
  server = createServer(async (request, reply) => {
    const path = join(built, request.url === "/" ? "index.html" : (request.url ?? ""));
    const bytes = await readFile(path).catch(() => null);
    reply.writeHead(bytes === null ? 404 : 200, { "content-type": TYPES[extname(path)] ?? "text/plain" });
    reply.end(bytes ?? "");
  });
  await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
  address = `http://127.0.0.1:${(server.address() as AddressInfo).port}/`; // listening on a port
});

afterAll(async () => {
  server.close();
  await rm(folder, { recursive: true, force: true });
});

interface Running {
  readonly process: ChildProcess;
  readonly browser: Browser;
  readonly page: Page;
}

/** A browser of its own process, so that it can be killed, on a profile that stays. */
async function started(profile: string): Promise<Running> {
  const words = [
    "--headless=new",
    "--no-sandbox",
    "--disable-gpu",
    "--no-first-run",
    "--remote-debugging-port=0",
    `--user-data-dir=${profile}`,
  ];
  const child = spawn(process.env["CHROMIUM"] ?? "/usr/bin/chromium", [...words, "about:blank"], { stdio: ["ignore", "ignore", "pipe"] });
  const endpoint = await new Promise<string>((resolve, reject) => {
    let said = "";
    child.on("close", () => reject(new Error(`the browser ended: ${said}`)));
    child.stderr?.on("data", (piece) => {
      said += String(piece);
      const found = /listening on (ws:\S+)/.exec(said)?.[1];
      if (found !== undefined) resolve(found);
    });
  });
  const browser = await chromium.connectOverCDP(endpoint);
  const [context] = browser.contexts();
  const page = await context?.newPage();
  if (page === undefined) throw new Error("the browser has no page");
  await page.goto(address);
  await page.waitForFunction(() => "outboxRoom" in window);
  return { process: child, browser, page };
}

async function ended({ process: child, browser }: Running, signal: "SIGKILL" | "SIGTERM"): Promise<void> {
  const closed = new Promise((resolve) => child.on("close", resolve));
  child.kill(signal);
  await closed;
  // The connection is gone with the browser.
  await browser.close().catch(() => undefined);
}

describe("an outbox in a browser", () => {
  let running: Running;
  beforeAll(async () => {
    running = await started(join(folder, "cases"));
  });
  afterAll(() => ended(running, "SIGTERM"));

  test.each(outboxCases.map(({ name }) => name))("%s", async (name) => {
    await running.page.evaluate((one) => window.outboxRoom.run(one), name);
  });

  test("a database that was emptied under the page keeps nothing more, and says so", async () => {
    const { page } = running;
    const book = "5f0c9a52-3b1e-4d6a-8f57-0c2d4e6a8b12";
    await page.evaluate((one) => window.outboxRoom.hold(one), book);
    await page.evaluate(() => window.outboxRoom.say(10));
    const other = await page.context().newPage();
    await other.goto(address);
    // Another window takes it away: this one is told, and lets go.
    await other.evaluate(
      (name) =>
        new Promise<void>((resolve, reject) => {
          const asked = indexedDB.deleteDatabase(name);
          asked.onsuccess = () => resolve();
          asked.onerror = () => reject(asked.error);
        }),
      `lamproom-outbox-${book}`,
    );
    expect(await page.evaluate(() => window.outboxRoom.say(10))).toEqual({ why: expect.stringContaining("closed the place") });
    await other.close();
  });

  test("tables of a newer release are not opened by an older page", async () => {
    const { page } = running;
    const book = "5f0c9a52-3b1e-4d6a-8f57-0c2d4e6a8b13";
    await page.evaluate(
      (name) =>
        new Promise<void>((resolve, reject) => {
          const asked = indexedDB.open(name, 99);
          asked.onsuccess = () => {
            asked.result.close();
            resolve();
          };
          asked.onerror = () => reject(asked.error);
        }),
      `lamproom-outbox-${book}`,
    );
    expect(await page.evaluate((one) => window.outboxRoom.whyNot(one), book)).toContain("newer release");
  });
});

test("a disk that is full keeps nothing, says so, and what was kept before stays", async () => {
  const running = await started(join(folder, "full"));
  const { page } = running;
  // Before anything is kept: the browser remembers for a while how much room there was.
  const session = await page.context().newCDPSession(page);
  await session.send("Storage.overrideQuotaForOrigin", { origin: new URL(address).origin, quotaSize: 200_000 });
  await page.evaluate((book) => window.outboxRoom.hold(book), BOOK);
  const kept: string[] = [];
  let refused = "";
  // Below the size from which this browser lays values aside as files, and counts them later.
  while (refused === "" && kept.length < 100) {
    const said = await page.evaluate(() => window.outboxRoom.say(50_000));
    if ("id" in said) kept.push(said.id);
    else refused = said.why;
  }
  const found = await page.evaluate(() => window.outboxRoom.ids());
  await ended(running, "SIGTERM");
  expect(refused).toContain("is full");
  expect(found).toEqual(kept);
});

test("a browser that is killed while it keeps: everything that was answered for is there, in one chain", async () => {
  const profile = join(folder, "killed");
  const answered: string[] = [];
  let device = "";
  for (let round = 0; round < 5; round += 1) {
    const running = await started(profile);
    const own = await running.page.evaluate((book) => window.outboxRoom.hold(book), BOOK);
    device = device === "" ? own : device;
    expect(own).toBe(device);
    const kept = await running.page.evaluate(() => window.outboxRoom.ids());
    expect(answered.filter((id) => !kept.includes(id))).toEqual([]);
    await running.page.exposeFunction("tell", (id: string) => void answered.push(id));
    const going = running.page
      .evaluate(async () => {
        for (;;) {
          const said = await window.outboxRoom.say(500);
          if ("id" in said) await (window as unknown as { tell: (id: string) => Promise<void> }).tell(said.id); // put there by the test
        }
      })
      // It ends with the browser.
      .catch(() => undefined);
    const before = answered.length;
    while (answered.length < before + 5 + 7 * round) await new Promise((resolve) => setTimeout(resolve, 5));
    await ended(running, "SIGKILL");
    await going;
  }
  const running = await started(profile);
  await running.page.evaluate((book) => window.outboxRoom.hold(book), BOOK);
  const kept = await running.page.evaluate(() => window.outboxRoom.ids());
  await ended(running, "SIGTERM");
  expect(answered.length).toBeGreaterThan(50);
  expect(answered.filter((id) => !kept.includes(id))).toEqual([]);
  expect(new Set(kept).size).toBe(kept.length);
}, 120_000);
