// `node scripts/take-pictures.ts`: takes the pictures of the README from the running screens, with the invented example.
import { mkdirSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { chromium, type Page } from "playwright-core";
import { findBrowser } from "./find-browser.ts";
import { root } from "./run-tool.ts";
import { startServer } from "./started-server.ts";

const pictures = join(root, "docs/pictures");

const flags = [
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

/** What is varied by the machine is pinned: window, scale, zone, language, theme. */
const window = {
  headless: true,
  viewport: { width: 1440, height: 900 },
  deviceScaleFactor: 1,
  locale: "en-GB",
  timezoneId: "Europe/London",
  colorScheme: "light",
} as const;

async function takeRecording(page: Page, address: string): Promise<void> {
  await page.goto(`${address}/recordings/marl-beck-1-four-gases-csv`);
  // Every figure stands before the picture is taken: the page says when it is still computing.
  await page.locator(".find-t .o").first().waitFor();
  await page.locator("h1").filter({ hasNotText: "Computing" }).waitFor();
  await page.screenshot({ path: join(pictures, "recording.png") });
}

const found = await findBrowser();
if (!found.found) {
  process.stderr.write(`${found.log}${found.why}\n`);
  process.exit(1);
}
mkdirSync(pictures, { recursive: true });
const profile = mkdtempSync(join(tmpdir(), "lamproom-pictures-"));
const server = await startServer(process.execPath, ["scripts/bootstrap.mjs", "start"]);
const context = await chromium.launchPersistentContext(profile, { executablePath: found.path, args: flags, ...window });
try {
  await takeRecording(context.pages()[0] ?? (await context.newPage()), server.address);
  process.stdout.write(`${join("docs", "pictures", "recording.png")}\n`);
} finally {
  await context.close();
  await server.stop();
  rmSync(profile, { recursive: true, force: true });
}
