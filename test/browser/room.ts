/** A real server on a free port and a real browser on a fresh folder; everything that the pages ask for is noted. */
import { existsSync, mkdirSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import AxeBuilder from "@axe-core/playwright";
import { type BrowserContext, chromium, type Locator, type Page } from "playwright-core";
import { buildServer } from "../../src/server/server.ts";

export const root = join(dirname(fileURLToPath(import.meta.url)), "../..");
export const shots = join(root, ".work/shots");
export const examples = join(root, "examples");

const flags = [
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

export const desktop = { width: 1440, height: 900 };
export const phone = { width: 390, height: 844 };

export interface Room {
  readonly address: string;
  readonly page: Page;
  readonly context: BrowserContext;
  /** Addresses asked for that are not this server's. */
  readonly strangers: readonly string[];
  /** Errors that the pages threw or wrote. */
  readonly faults: readonly string[];
  readonly close: () => Promise<void>;
}

export const openRoom = async (viewport: { readonly width: number; readonly height: number } = desktop): Promise<Room> => {
  const pages = join(root, "dist/web");
  if (!existsSync(join(pages, "index.html"))) throw new Error("dist/web is not built: npx vite build");
  mkdirSync(shots, { recursive: true });
  const server = await buildServer({ pages, version: "test" });
  const address = await server.listen({ host: "127.0.0.1", port: 0 });
  const folder = mkdtempSync(join(tmpdir(), "lamproom-browser-"));
  const context = await chromium.launchPersistentContext(folder, {
    executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
    args: flags,
    headless: true,
    viewport,
    acceptDownloads: true,
    locale: "en-GB",
    timezoneId: "Europe/London",
  });
  const strangers: string[] = [];
  const faults: string[] = [];
  context.on("request", (request) => {
    if (!request.url().startsWith(address) && !/^(blob|about|data):/.test(request.url())) strangers.push(request.url());
  });
  const page = context.pages()[0] ?? (await context.newPage());
  page.on("pageerror", (fault) => faults.push(fault.message));
  page.on("console", (message) => {
    if (message.type() === "error") faults.push(message.text());
  });
  const close = async (): Promise<void> => {
    await context.close();
    await server.close();
    rmSync(folder, { recursive: true, force: true });
  };
  return { address, page, context, strangers, faults, close };
};

/** What axe finds against WCAG 2.2 A and AA, a line a finding. */
export const accessFaults = async (page: Page): Promise<readonly string[]> => {
  const { violations } = await new AxeBuilder({ page }).withTags(["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]).analyze();
  return violations.flatMap(({ id, help, nodes }) =>
    nodes.map((node) => `${id}: ${help} at ${node.target.join(" ")}: ${node.failureSummary ?? ""}`),
  );
};

/** How far a page is wider than its window; WCAG 1.4.10 asks for none at 320. */
export const overhang = (page: Page): Promise<number> =>
  page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth");

/** Waits for an expression to hold. The pages forbid evaluated text, so the asking is done from here. */
export const until = async (page: Page, expression: string, withinMs = 15_000): Promise<void> => {
  const end = performance.now() + withinMs;
  while (!(await page.evaluate(`Boolean(${expression})`))) {
    if (performance.now() > end) throw new Error(`still not so after ${withinMs} ms: ${expression}`);
    await page.waitForTimeout(20);
  }
};

/** The words as a person sees them: what is hidden is not among them. */
// biome-ignore lint/performance/useDomNodeTextContent: textContent would give hidden words too.
export const seen = (place: Locator): Promise<string> => place.innerText();
