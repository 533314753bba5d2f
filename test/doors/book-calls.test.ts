// Calls that never come to a book: refused before anything is read or written. With a book: book-server.test.ts.
import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { FastifyInstance } from "fastify";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { bookRoutes } from "../../src/server/book-routes.ts";
import { listenOn } from "../../src/server/listen.ts";
import { buildServer } from "../../src/server/server.ts";
import { ROOT } from "./command.ts";

let pages = "";
let server: FastifyInstance;
let address = "";

/** No book yet, and nobody may begin one here. */
const EMPTY = {
  now: Date.now,
  door: {
    behind: () => ({ type: "none" }) as const,
    begin: async () => ({ ok: false, refusal: { type: "book-not-opened", why: "this test has no folder" } }) as const,
  },
};

beforeAll(async () => {
  pages = await mkdtemp(join(tmpdir(), "lamproom-pages-"));
  await writeFile(join(pages, "index.html"), "<!doctype html><title>Lamproom</title>");
  server = await buildServer({ pages, version: "9.9.9", book: EMPTY });
  const listening = await listenOn(server, 0);
  if (!listening.ok) throw new Error(listening.refusal.type);
  address = listening.value;
});

afterAll(async () => {
  await server.close();
  await rm(pages, { recursive: true });
});

const JSON_TYPE = { "content-type": "application/json" };
const post = (path: string, body: string, headers: Record<string, string> = JSON_TYPE): Promise<Response> =>
  fetch(`${address}/api/1${path}`, { method: "POST", headers, body });
const problemOf = async (answer: Response): Promise<object> => {
  expect(answer.headers.get("content-type")).toContain("application/problem+json");
  expect(answer.headers.get("cache-control")).toBe("no-store");
  const problem = (await answer.json()) as Record<string, unknown>;
  expect(Object.keys(problem)).toEqual(["type", "title", "status", "mend"]);
  return { status: answer.status, type: problem["type"] };
};

test("without a book that is what the state says", async () => {
  const answer = await fetch(`${address}/api/1/book`);
  expect(await answer.json()).toEqual({ book: null, size: 0, head: "", key: "", held: null });
  expect(answer.headers.get("content-security-policy")).toContain("default-src 'none'");
});

describe("what is refused", () => {
  test.each(["/room", "/entries", "/entries/1", "/consistency?earlier=0"])("GET %s without a book", async (path) =>
    expect(await problemOf(await fetch(`${address}/api/1${path}`))).toEqual({ status: 404, type: "no-book" }),
  );

  test.each(["/nothing", "/entries/1/more"])("GET %s is no screen", async (path) =>
    expect(await problemOf(await fetch(`${address}/api/1${path}`))).toEqual({ status: 404, type: "not-found" }),
  );

  test.each(["/book", "/submissions"])("a page of another site may not write to %s", async (path) => {
    const foreign = { ...JSON_TYPE, origin: "https://elsewhere.example" };
    expect(await problemOf(await post(path, "{}", foreign))).toEqual({ status: 403, type: "foreign-page" });
    const form = { "content-type": "text/plain" };
    expect(await problemOf(await post(path, "{}", form))).toEqual({ status: 415, type: "content-type-not-taken" });
  });

  test("a file that comes as a form", async () => {
    const answer = await fetch(`${address}/api/1/files`, { method: "PUT", headers: JSON_TYPE, body: "{}" });
    expect(await problemOf(answer)).toEqual({ status: 415, type: "content-type-not-taken" });
  });

  test.each([
    ["text that is no JSON", "{", { status: 400, type: "request-not-readable" }],
    ["a name that is missing", '{"zone":"UTC","isDemonstration":false}', { status: 422, type: "asked-not-fitting" }],
    [
      "a prototype in a member",
      '{"__proto__":{"name":"A"},"zone":"UTC","isDemonstration":false}',
      { status: 400, type: "request-not-readable" },
    ],
    ["what the keeper does not take", '{"name":"A","zone":"UTC","isDemonstration":false}', { status: 503, type: "book-not-opened" }],
  ])("%s", async (_what, body, problem) => expect(await problemOf(await post("/book", body))).toEqual(problem));

  test("more than is taken at once", async () => {
    const answer = await post("/submissions", JSON.stringify({ offered: "x".repeat(9_000_000) }));
    expect(await problemOf(answer)).toEqual({ status: 413, type: "too-much-at-once" });
  });
});

test("docs/api.md names every call, and no other", async () => {
  const page = await readFile(join(ROOT, "docs/api.md"), "utf8");
  const named = [...page.matchAll(/^\| `(GET|POST|PUT) (\/api\/1\S*)`/gm)].map(([, method, path]) => `${method} ${path}`);
  const { default: fastify } = await import("fastify");
  const listing = fastify({ exposeHeadRoutes: false });
  const routes: string[] = [];
  listing.addHook("onRoute", ({ method, url }) => void routes.push(`${method} ${url}`));
  bookRoutes(listing, EMPTY);
  await listing.ready();
  expect(named.sort()).toEqual(routes.sort());
});
