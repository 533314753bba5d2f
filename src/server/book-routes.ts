/** The book over HTTP, as contract.ts lists it. */
import type { FastifyInstance, FastifyReply, FastifyRequest } from "fastify";
import type { Result } from "../core/result.ts";
import { type Refusal, refusalWords } from "../report/index.ts";
import type { Answer } from "../store/ledger.ts";
import type { RoomAtWork } from "../work/room/room-at-work.ts";
import { asked, type Forms } from "./asked.ts";
import type { BookDoor } from "./book-door.ts";
import * as forms from "./book-forms.ts";
import { Changes } from "./changes.ts";
import { clockOffset } from "./clock-offset.ts";
import type { BookState, FileKept, SubmissionAnswer, SubmissionsAnswered } from "./contract.ts";
import { foreignOrigin } from "./own-origin.ts";
import { answerRefusal } from "./problem.ts";

export interface BookRoutes {
  readonly door: BookDoor;
  /** Milliseconds since 1970, by the clock that the book goes by. */
  readonly now: () => number;
}

const MOST_JSON_BYTES = 8 * 1024 * 1024;
const MOST_FILE_BYTES = 2 * 1024 * 1024 * 1024;
const WAIT_MS = 20_000;

/** What a route gives: a value to be sent as JSON, or why not. */
type Given<Value> = Promise<Result<Value, Refusal>>;

export function bookRoutes(server: FastifyInstance, { door, now }: BookRoutes): void {
  const atArrival = new WeakMap<FastifyRequest, number>();
  const ending = new AbortController();
  const changes = new Changes(async () =>
    door.behind().type === "open" ? await roomOf(door).then((room) => (room.ok ? room.value.size() : 0)) : 0,
  );
  server.addHook("preClose", async () => ending.abort());
  void server.register(
    async (api) => {
      api.addHook("onRequest", async (request, reply) => {
        atArrival.set(request, now());
        return ownOnly(request, reply);
      });
      takeBytesAsTheyAre(api);
      reading(api, door);
      writing(api, { door, changes, arrivalOf: (request) => atArrival.get(request) ?? now() });
      api.get("/changes", async (request, reply) => {
        const read = asked(request.query, forms.CHANGES);
        if (!read.ok) return answerRefusal(reply, read.refusal);
        return send(reply, { size: await changes.newerThan(read.value.after, WAIT_MS, ending.signal) });
      });
    },
    { prefix: "/api/1" },
  );
}

const WRITES: ReadonlySet<string> = new Set(["POST", "PUT"]);

async function ownOnly(request: FastifyRequest, reply: FastifyReply): Promise<FastifyReply | undefined> {
  if (!WRITES.has(request.method)) return undefined;
  const origin = foreignOrigin(request.headers);
  if (origin !== null) return answerRefusal(reply, { type: "foreign-page", origin });
  const found = (request.headers["content-type"] ?? "").split(";")[0]?.trim().toLowerCase() ?? "";
  const expected = request.method === "PUT" ? "application/octet-stream" : "application/json";
  return found === expected ? undefined : answerRefusal(reply, { type: "content-type-not-taken", found, expected });
}

/** A file is not held in memory: it goes to the disk in pieces. */
function takeBytesAsTheyAre(api: FastifyInstance): void {
  api.addContentTypeParser("application/octet-stream", { bodyLimit: MOST_FILE_BYTES }, (_request, payload, done) => done(null, payload));
}

const send = (reply: FastifyReply, value: unknown): FastifyReply =>
  reply.header("cache-control", "no-store").type("application/json; charset=utf-8").send(JSON.stringify(value));

async function roomOf(door: BookDoor): Given<RoomAtWork> {
  const behind = door.behind();
  switch (behind.type) {
    case "open":
      return { ok: true, value: behind.room };
    case "none":
      return { ok: false, refusal: { type: "no-book" } };
    case "reading":
      return { ok: false, refusal: { type: "book-being-read", done: behind.done, of: behind.of } };
    case "failed":
      return { ok: false, refusal: behind.refusal };
  }
}

type Answering<Asked> = (room: RoomAtWork, read: Asked, request: FastifyRequest) => Given<unknown>;

/** Reads what is asked, opens the room, and sends what it gives; or why not. */
function answering<Asked>(door: BookDoor, form: Forms<Asked>, from: "query" | "body" | "params and query", answer: Answering<Asked>) {
  return async (request: FastifyRequest, reply: FastifyReply): Promise<FastifyReply> => {
    const said =
      from === "body" ? request.body : from === "query" ? request.query : { ...(request.query as object), ...(request.params as object) };
    const room = await roomOf(door);
    if (!room.ok) return answerRefusal(reply, room.refusal);
    const read = asked(said, form);
    if (!read.ok) return answerRefusal(reply, read.refusal);
    const given = await answer(room.value, read.value, request);
    return given.ok ? send(reply, given.value) : answerRefusal(reply, given.refusal);
  };
}

const all = <Value>(value: Value): { readonly ok: true; readonly value: Value } => ({ ok: true, value });

function reading(api: FastifyInstance, door: BookDoor): void {
  api.get("/book", async (_request, reply) => {
    const state = await stateOf(door);
    return state.ok ? send(reply, state.value) : answerRefusal(reply, state.refusal);
  });
  api.get(
    "/room",
    answering(door, {}, "query", async (room) => all(await room.lists())),
  );
  api.get(
    "/entries",
    answering(door, forms.ENTRIES, "query", async (room, read) => all(await room.entries(read))),
  );
  api.get(
    "/entries/:number",
    answering(door, forms.ENTRY, "params and query", async (room, { number }) => {
      const view = await room.entry(number);
      return view === null ? { ok: false, refusal: { type: "no-such-entry", number: String(number), size: await room.size() } } : all(view);
    }),
  );
  api.get(
    "/consistency",
    answering(door, forms.CONSISTENCY, "query", async (room, read) => room.consistency(read.earlier, read.size)),
  );
}

const NO_BOOK: BookState = { book: null, size: 0, head: "", key: "", held: null };

async function stateOf(door: BookDoor): Given<BookState> {
  if (door.behind().type === "none") return all(NO_BOOK);
  const room = await roomOf(door);
  if (!room.ok) return room;
  const { named, size, head } = await room.value.named();
  const { ledger, key, held } = room.value.kept;
  const refusal = held();
  const book = named === null ? null : { id: ledger.book, ...named };
  return all({ book, size, head, key, held: refusal === null ? null : refusalWords(refusal).message });
}

interface Writing {
  readonly door: BookDoor;
  readonly changes: Changes;
  readonly arrivalOf: (request: FastifyRequest) => number;
}

function writing(api: FastifyInstance, { door, changes, arrivalOf }: Writing): void {
  api.post("/book", async (request, reply) => {
    const read = asked(request.body, forms.NEW_BOOK);
    if (!read.ok) return answerRefusal(reply, read.refusal);
    const begun = await door.begin(read.value);
    if (!begun.ok) return answerRefusal(reply, begun.refusal);
    const state = await stateOf(door);
    return state.ok ? send(reply.code(201), state.value) : answerRefusal(reply, state.refusal);
  });
  const take: Answering<forms.Offer> = async (room, read, request) => {
    const offset = clockOffset(read.sent, arrivalOf(request), read.roundTripMs);
    const taken = await room.take(
      read.offered.map((one) => ({ ...one, clockOffset: offset })),
      read.expect,
    );
    changes.tell();
    return all({ ...taken, answers: taken.answers.map(answerOf) } satisfies SubmissionsAnswered);
  };
  api.post("/submissions", { bodyLimit: MOST_JSON_BYTES }, answering(door, forms.OFFER, "body", take));
  api.put("/files", async (request, reply) => {
    const room = await roomOf(door);
    if (!room.ok) return answerRefusal(reply, room.refusal);
    const kept: Result<FileKept, Refusal> = await room.value.kept.files.put(request.body as AsyncIterable<Uint8Array>); // as takeBytesAsTheyAre leaves it
    return kept.ok ? send(reply.code(201), kept.value) : answerRefusal(reply, kept.refusal);
  });
}

/** Refusals after which the same bytes may be taken: what was missing may come, what had changed may be read. */
const MAY_RETRY: ReadonlySet<string> = new Set(["stale", "held", "disk-failed", "file-missing"]);

function answerOf(given: Result<Answer, Refusal>): SubmissionAnswer {
  if (given.ok) return given.value;
  const { refusal } = given;
  const code = refusal.type === "not-granted" ? refusal.reason : refusal.type;
  return { type: "refused", refusal: code, ...refusalWords(refusal), mayRetry: MAY_RETRY.has(refusal.type) };
}
