/** A site of a test: the real server over a real folder, devices with real outboxes, and a clock that the test sets. */
import { randomBytes, randomUUID } from "node:crypto";
import { mkdir, mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { FastifyInstance } from "fastify";
import { uuidv7 } from "uuidv7";
import { type Bodies, type Kind, type PrivateParts, type Saying, sayable } from "../../src/core/instrument/index.ts";
import { digestOf, type Happened, type Submission, sealedPart, submissionBytes, writtenInstant } from "../../src/core/record/index.ts";
import { type BookBehind, bookBehind } from "../../src/main/book-behind.ts";
import { bookFolder } from "../../src/main/book-folder.ts";
import type { SubmissionAnswer, SubmissionsAnswered } from "../../src/server/contract.ts";
import { listenOn } from "../../src/server/listen.ts";
import { buildServer } from "../../src/server/server.ts";
import type { Offered } from "../../src/store/ledger.ts";
import type { Outbox } from "../../src/store/outbox.ts";
import { sha256 } from "../../src/store/sqlite/hash.ts";
import { openOutbox } from "../../src/store/sqlite/outbox.ts";

const MINUTE = 60_000;

const fails = (fault: unknown): void => {
  throw fault;
};

export const chance = (bytes: number): Uint8Array => new Uint8Array(randomBytes(bytes));

export class Site {
  readonly folder: string;
  /** Milliseconds since 1970: what the book's clock shows. */
  now: number;
  private readonly servers: { readonly server: FastifyInstance; readonly behind: BookBehind }[] = [];
  address = "";
  readonly faults: unknown[] = [];

  private constructor(folder: string, now: number) {
    this.folder = folder;
    this.now = now;
  }

  static async open(now: number): Promise<Site> {
    const site = new Site(await mkdtemp(join(tmpdir(), "lamproom-site-")), now);
    await mkdir(join(site.folder, "pages"));
    await writeFile(join(site.folder, "pages", "index.html"), "<!doctype html><title>Lamproom</title>");
    site.address = await site.serve();
    return site;
  }

  /** Another server over the same folder. */
  async serve(): Promise<string> {
    const now = (): number => this.now;
    const behind = bookBehind(bookFolder({ folder: join(this.folder, "book"), keys: join(this.folder, "keys") }, { now }, fails), { now });
    const found = await behind.look();
    if (found.type === "failed") throw new Error(JSON.stringify(found.refusal));
    const server = await buildServer({
      pages: join(this.folder, "pages"),
      version: "9.9.9",
      book: { door: behind, now },
      onFault: (fault) => void this.faults.push(fault),
    });
    const listening = await listenOn(server, 0);
    if (!listening.ok) throw new Error(listening.refusal.type);
    this.servers.push({ server, behind });
    return listening.value;
  }

  async stop(): Promise<void> {
    for (const { server, behind } of this.servers.splice(0)) {
      await server.close();
      await behind.close();
    }
  }

  async restart(): Promise<void> {
    await this.stop();
    this.address = await this.serve();
  }

  async close(): Promise<void> {
    await this.stop();
    await rm(this.folder, { recursive: true });
  }

  pass(minutes: number): void {
    this.now += minutes * MINUTE;
  }

  async get<Answer>(path: string, address = this.address): Promise<Answer> {
    const answer = await fetch(`${address}/api/1${path}`);
    if (!answer.ok) throw new Error(`${path}: ${answer.status} ${await answer.text()}`);
    return (await answer.json()) as Answer;
  }

  async post<Answer>(path: string, body: unknown, address = this.address): Promise<{ readonly status: number; readonly body: Answer }> {
    const headers = { "content-type": "application/json" };
    const answer = await fetch(`${address}/api/1${path}`, { method: "POST", headers, body: JSON.stringify(body) });
    return { status: answer.status, body: (await answer.json()) as Answer };
  }

  /** Hands over bytes as they are. */
  async offer(
    offered: readonly Pick<Offered, "submission" | "body" | "private">[],
    clock = this.now,
  ): Promise<readonly SubmissionAnswer[]> {
    const base64 = (bytes: Uint8Array): string => Buffer.from(bytes).toString("base64");
    const texts = offered.map(({ submission, body, private: own }) => ({
      ...{ submission: base64(submission), body: base64(body), private: own === null ? null : base64(own) },
    }));
    const asked = { offered: texts, sent: writtenInstant(clock), roundTripMs: 40, expect: [] };
    const { status, body } = await this.post<SubmissionsAnswered>("/submissions", asked);
    if (status !== 200) throw new Error(JSON.stringify(body));
    return body.answers;
  }

  async device(name: string, book: string, aheadMs = 0): Promise<Device> {
    const path = join(this.folder, `${name}.outbox`);
    const now = (): number => this.now + aheadMs;
    const outbox = openOutbox({ path, book, newDevice: randomUUID, newId: uuidv7, chance, now });
    return new Device(this, outbox, now);
  }
}

type Said<Name extends Kind> = Partial<Omit<Saying<Name>, "kind" | "body">> & {
  /** Minutes before now; how wide it is. */
  readonly ago?: number;
  readonly basis?: Happened["basis"];
};

/** By role: an id, or several. */
type Subjects = Readonly<Record<string, string | readonly string[] | null>>;

export class Device {
  readonly outbox: Outbox;
  private readonly site: Site;
  private readonly now: () => number;
  roundTripMs: number | null = 40;

  constructor(site: Site, outbox: Outbox, now: () => number) {
    this.site = site;
    this.outbox = outbox;
    this.now = now;
  }

  /** Keeps it on the device, and answers its id. */
  async keep<Name extends Kind>(kind: Name, subjects: Subjects, body: Bodies[Name], said: Said<Name> = {}): Promise<string> {
    const at = writtenInstant(this.now() - (said.ago ?? 0) * MINUTE);
    const listed = Object.entries(subjects).flatMap(([role, ids]) => [ids ?? []].flat().map((id) => ({ role, id })));
    const saying = {
      ...{ kind, body, subjects: listed, by: said.by ?? null, restsOn: said.restsOn ?? [], private: said.private ?? null },
      happened: said.happened ?? { earliest: at, latest: at, basis: said.basis ?? "device-clock" },
    } as Saying<Name>; // a private part where its kind has one
    const sayableOne = sayable(saying);
    if (!sayableOne.ok) throw new Error(`${kind}: ${JSON.stringify(sayableOne.refusal)}`);
    const kept = await this.outbox.say(sayableOne.value);
    if (!kept.ok) throw new Error(JSON.stringify(kept.refusal));
    return kept.value.id;
  }

  /** Hands over all that waits. */
  async send(
    expect: readonly { readonly subject: string; readonly newest: number }[] = [],
    address = this.site.address,
  ): Promise<readonly SubmissionAnswer[]> {
    const waiting = await this.outbox.waiting(256);
    const base64 = (bytes: Uint8Array): string => Buffer.from(bytes).toString("base64");
    const offered = waiting.map(({ offered: { submission, body, private: own } }) => ({
      ...{ submission: base64(submission), body: base64(body), private: own === null ? null : base64(own) },
    }));
    const { roundTripMs } = this;
    const { status, body } = await this.site.post<SubmissionsAnswered>(
      "/submissions",
      { offered, sent: writtenInstant(this.now()), roundTripMs, expect },
      address,
    );
    if (status !== 200) throw new Error(JSON.stringify(body));
    for (const [at, answer] of body.answers.entries()) {
      const id = waiting[at]?.id ?? "";
      if (answer.type !== "refused") await this.outbox.answered(id, answer);
      else if (!answer.mayRetry) await this.outbox.notGranted(id, answer.refusal);
    }
    await this.outbox.knowHead({ size: body.size, root: body.root });
    return body.answers;
  }

  /** Says it and hands it over; answers what the book answered, and the id. */
  async say<Name extends Kind>(
    kind: Name,
    subjects: Subjects,
    body: Bodies[Name],
    said: Said<Name> = {},
    expect: readonly { readonly subject: string; readonly newest: number }[] = [],
  ): Promise<{ readonly id: string; readonly answer: SubmissionAnswer }> {
    const id = await this.keep(kind, subjects, body, said);
    const answers = await this.send(expect);
    const answer = answers.at(-1);
    if (answer === undefined) throw new Error("nothing was answered");
    return { id, answer };
  }
}

export const named = (name: string): PrivateParts["person-registered"] => ({ name, badge: null, employer: null, call: null });

/** A submission as another program might write it: well formed as an envelope, whatever it says. */
export function forged(change: Partial<Submission>, body: unknown): Pick<Offered, "submission" | "body" | "private"> {
  const sealed = sealedPart(body, chance(16));
  if (!sealed.ok) throw new Error(sealed.refusal.type);
  const at = change.recorded ?? "2026-03-04T07:00:00.000Z";
  const bytes = submissionBytes({
    ...{ submission: 1, id: uuidv7(), book: "", device: randomUUID(), sequence: 1, previous: null, kind: "upset-seen", form: 1 },
    ...{ manner: "report", happened: { earliest: at, latest: at, basis: "typed" }, recorded: at, by: null, subjects: [], restsOn: [] },
    ...{ head: null, body: digestOf(sealed.value, sha256), private: null },
    ...change,
  });
  if (!bytes.ok) throw new Error(JSON.stringify(bytes.refusal));
  return { submission: bytes.value, body: sealed.value, private: null };
}
