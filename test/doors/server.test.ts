import { spawn } from "node:child_process";
import { once } from "node:events";
import { existsSync } from "node:fs";
import { mkdir, mkdtemp, rm, writeFile } from "node:fs/promises";
import { request } from "node:http";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { FastifyInstance } from "fastify";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { listenOn, portFrom } from "../../src/server/listen.ts";
import { isOwnHost } from "../../src/server/own-host.ts";
import { buildServer } from "../../src/server/server.ts";
import { ROOT } from "./command.ts";

let pages = "";
let server: FastifyInstance;
let address = "";

beforeAll(async () => {
  pages = await mkdtemp(join(tmpdir(), "lamproom-pages-"));
  await mkdir(join(pages, "assets"));
  await writeFile(join(pages, "index.html"), `<!doctype html><title>Lamproom</title>${"<p>page</p>".repeat(300)}`);
  await writeFile(join(pages, "assets", "page-0a1b2c.js"), "export {};");
  server = await buildServer({ pages, version: "9.9.9" });
  const listening = await listenOn(server, 0);
  if (!listening.ok) throw new Error(listening.refusal.type);
  address = listening.value;
});

afterAll(async () => {
  await server.close();
  await rm(pages, { recursive: true });
});

describe("the server", () => {
  test("says that it is well, without being kept", async () => {
    const answer = await fetch(`${address}/healthz`);
    expect(await answer.json()).toEqual({ status: "ok", version: "9.9.9", book: false });
    expect(answer.headers.get("cache-control")).toBe("no-store");
  });

  test("listens on the loopback address only", () => expect(new URL(address).hostname).toBe("127.0.0.1"));

  test.each(["/", "/recordings", "/recordings/shift", "/slate/twa?pieces=1"])("sends the one page for %s", async (path) => {
    const answer = await fetch(address + path);
    expect(answer.status).toBe(200);
    expect(await answer.text()).toContain("<title>Lamproom</title>");
    expect(answer.headers.get("cache-control")).toBe("no-cache");
  });

  test.each([
    ["GET", "/missing.js"],
    ["GET", "/../package.json"],
    ["GET", "/%2e%2e/package.json"],
    ["POST", "/recordings"],
  ])("%s %s has nothing behind it", async (method, path) => {
    const answer = await fetch(address + path, { method });
    expect(answer.status).toBe(404);
    expect(answer.headers.get("content-type")).toContain("application/problem+json");
    expect(Object.keys((await answer.json()) as object)).toEqual(["type", "title", "status", "mend"]);
  });

  test("names with a digest are kept for good", async () => {
    const answer = await fetch(`${address}/assets/page-0a1b2c.js`);
    expect(answer.headers.get("cache-control")).toBe("public, max-age=31536000, immutable");
  });

  test("an unchanged page is not sent twice", async () => {
    const etag = (await fetch(`${address}/`)).headers.get("etag") ?? "";
    expect(etag).not.toBe("");
    expect(await statusFor("/", { "if-none-match": etag })).toBe(304);
  });

  test("long texts travel compressed", async () => {
    const answer = await fetch(`${address}/`, { headers: { "accept-encoding": "gzip" } });
    expect(answer.headers.get("content-encoding")).toBe("gzip");
  });

  test("pages may use nothing from elsewhere, nothing inline, nothing evaluated", async () => {
    const headers = (await fetch(`${address}/`)).headers;
    const policy = headers.get("content-security-policy") ?? "";
    expect(policy).toContain("worker-src 'self'");
    expect(policy).toContain("default-src 'none'");
    expect(policy).not.toContain("unsafe");
    expect(headers.get("x-content-type-options")).toBe("nosniff");
    expect(headers.get("referrer-policy")).toBe("no-referrer");
  });

  test("a foreign name that points here is refused", async () => {
    const { port } = new URL(address);
    expect(await statusFor("/healthz", { host: "lamproom.example" })).toBe(421);
    expect(await statusFor("/healthz", { host: `localhost:${port}` })).toBe(200);
  });

  test("a port that is taken is a sentence, not a fault", async () => {
    const second = await buildServer({ pages, version: "9.9.9" });
    const port = Number(new URL(address).port);
    expect(await listenOn(second, port)).toEqual({ ok: false, refusal: { type: "port-in-use", port } });
    await second.close();
  });
});

const BUILT = join(ROOT, "dist/web/index.html");

test.skipIf(!existsSync(BUILT))(
  `npm start's server prints its address, answers and stops when asked${existsSync(BUILT) ? "" : " (skipped: the pages are not built)"}`,
  async () => {
    const child = spawn(process.execPath, [join(ROOT, "src/main/serve.ts")], {
      env: { ...process.env, PORT: "0", LAMPROOM_BOOK: join(pages, "no-book") },
    });
    const [printed] = await once(child.stdout, "data");
    const own = /http:\/\/127\.0\.0\.1:\d+/.exec(String(printed))?.[0] ?? "";
    expect((await fetch(`${own}/healthz`)).status).toBe(200);
    child.kill("SIGTERM");
    expect(await once(child, "close")).toEqual([0, null]);
  },
);

test.each([
  [undefined, { ok: true, value: 4680 }],
  ["8080", { ok: true, value: 8080 }],
  ["0", { ok: true, value: 0 }],
])("PORT=%s gives %j", (text, result) => expect(portFrom(text)).toEqual(result));

test.each(["-1", "65536", "http", "80.5"])("PORT=%s is refused", (text) => expect(portFrom(text).ok).toBe(false));

test.each([
  ["127.0.0.1", true],
  ["127.0.0.1:4680", true],
  ["LOCALHOST:4680", true],
  ["[::1]:4680", true],
  ["localhost.example", false],
  ["127.0.0.1.example:4680", false],
  ["192.168.0.7:4680", false],
  ["", false],
  [undefined, false],
])("host %s is our own: %s", (host, own) => expect(isOwnHost(host)).toBe(own));

/** `fetch` sets Host itself and asks past every store when told a tag; a plain request does neither. */
function statusFor(path: string, headers: Record<string, string>): Promise<number> {
  return new Promise((resolve, reject) => {
    const sent = request({ host: "127.0.0.1", port: Number(new URL(address).port), path, headers }, (answer) => {
      answer.resume();
      resolve(answer.statusCode ?? 0);
    });
    sent.on("error", reject);
    sent.end();
  });
}
