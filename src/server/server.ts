/** Serves the built pages to this machine only. and, where it has one, the book over HTTP. Recordings never reach it. */
import { extname } from "node:path";
import compress from "@fastify/compress";
import helmet from "@fastify/helmet";
import serveFiles from "@fastify/static";
import fastify, { type FastifyInstance, type FastifyReply, type FastifyRequest } from "fastify";
import { type BookRoutes, bookRoutes } from "./book-routes.ts";
import { isOwnHost } from "./own-host.ts";
import { answerRefusal, problem } from "./problem.ts";

export interface ServerSettings {
  /** Folder of the built pages, with index.html. */
  readonly pages: string;
  readonly version: string;
  /** The book behind this server; absent = it only sends pages. */
  readonly book?: BookRoutes;
  /** Told of every fault of our own, which the caller hears of in one sentence only. */
  readonly onFault?: (fault: unknown) => void;
}

/** Pages may use nothing but what this server sends: no inline script, no evaluated text, no other machine. */
const CONTENT_SECURITY = {
  useDefaults: false,
  directives: {
    defaultSrc: ["'none'"],
    scriptSrc: ["'self'"],
    styleSrc: ["'self'"],
    imgSrc: ["'self'", "data:"],
    fontSrc: ["'self'"],
    connectSrc: ["'self'"],
    workerSrc: ["'self'"],
    manifestSrc: ["'self'"],
    baseUri: ["'none'"],
    formAction: ["'none'"],
    frameAncestors: ["'none'"],
    objectSrc: ["'none'"],
  },
};

export async function buildServer({ pages, version, book, onFault }: ServerSettings): Promise<FastifyInstance> {
  // A stop waits for open connections: without the short time-out an idle browser tab would hold it up.
  const server = fastify({ keepAliveTimeout: 1000, forceCloseConnections: "idle" });
  server.addHook("onRequest", async (request, reply) => {
    if (!isOwnHost(request.headers.host)) return answerRefusal(reply, { type: "foreign-host", host: request.headers.host ?? "" });
  });
  // Without https there is nothing to upgrade to: the server listens on the loopback address only.
  await server.register(helmet, {
    contentSecurityPolicy: CONTENT_SECURITY,
    strictTransportSecurity: false,
    referrerPolicy: { policy: "no-referrer" },
  });
  await server.register(compress, { threshold: 1024 });
  await server.register(serveFiles, {
    root: pages,
    cacheControl: false,
    setHeaders: (reply, path) => void reply.header("cache-control", cachingOf(path)),
  });
  // Pages ask here first whether there is a book to be asked: a call that is not there would be an error in every browser.
  const health = { status: "ok", version, book: book !== undefined };
  server.get("/healthz", async (_request, reply) => reply.header("cache-control", "no-store").send(health));
  if (book !== undefined) bookRoutes(server, book);
  server.setNotFoundHandler((request, reply) => answerMissing(request, reply, pages));
  server.setErrorHandler((error, request, reply) => answerFault(error, request, reply, onFault));
  return server;
}

/** The bundler puts a digest into the names under assets: their bytes never change. Everything else is asked for again. */
function cachingOf(path: string): string {
  return /[\\/]assets[\\/]/.test(path) ? "public, max-age=31536000, immutable" : "no-cache";
}

/** An address of a screen has no file behind it: the one page is sent and finds the screen itself. */
async function answerMissing(request: FastifyRequest, reply: FastifyReply, pages: string): Promise<FastifyReply> {
  const path = new URL(request.url, "http://127.0.0.1").pathname;
  const isScreen = (request.method === "GET" || request.method === "HEAD") && extname(path) === "" && !isNoScreen(path);
  if (isScreen) return reply.header("cache-control", "no-cache").sendFile("index.html", pages);
  return problem(reply, 404, "not-found", `There is nothing at ${path}.`, "Start from the first page, /.");
}

const isNoScreen = (path: string): boolean => path === "/index.html" || path === "/api" || path.startsWith("/api/");

function answerFault(error: unknown, request: FastifyRequest, reply: FastifyReply, onFault: ServerSettings["onFault"]): FastifyReply {
  const status = error instanceof Error && "statusCode" in error && typeof error.statusCode === "number" ? error.statusCode : 500;
  if (status === 413) return answerRefusal(reply, { type: "too-much-at-once", mostBytes: request.routeOptions.bodyLimit ?? 0 });
  if (status < 500) return problem(reply, status, "request-not-readable", "The request cannot be read.", "Reload the page.");
  onFault?.(error);
  return problem(
    reply,
    500,
    "server-fault",
    "The server met a fault of its own.",
    "Start it again; if it comes back, report it with what you did.",
  );
}
