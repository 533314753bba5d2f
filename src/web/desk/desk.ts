import { useSyncExternalStore } from "react";
import type { Ask, FromWorker, OpenAsk, Replies, Stage, ToWorker } from "./protocol.ts";

export interface Progressing {
  readonly stage: Stage;
  readonly done: number;
  readonly of: number | null;
}

export class Cancelled extends Error {}

/** How the worker is. Whatever is not well is said on the page: nobody waits for an answer that cannot come. */
export type DeskState =
  | { readonly type: "well" }
  /** Asked, and silent for longer than `patienceMs`; it may be at work or may have died. */
  | { readonly type: "silent" }
  /** The browser says that it broke, or it never started. */
  | { readonly type: "gone"; readonly why: string }
  /** It answers, but one ask ended in a fault of the program. */
  | { readonly type: "fault"; readonly why: string };

interface Waiting {
  readonly ask: Ask;
  readonly done: (reply: unknown) => void;
  readonly failed: (fault: Error) => void;
  readonly at: ((progress: Progressing) => void) | undefined;
}

export interface Pending<Reply> {
  readonly reply: Promise<Reply>;
  readonly cancel: () => void;
}

const tickMs = 2_000;
/** The longest single act of the worker, ten million readings against all limits, takes a few seconds. Ours. */
export const patienceMs = 10_000;

const well: DeskState = { type: "well" };

/** Files say their own faults where they stand; of all else the page says them in one place. */
const saysItself = ({ type }: Ask): boolean => type === "open" || type === "assess";

/** The page's end of the worker: asks by number, so that several can be under way. */
class Desk {
  #worker = this.#start();
  readonly #waiting = new Map<number, Waiting>();
  /** The last reading of each file: a new worker is given them before anything is asked of it. */
  readonly #opened = new Map<string, OpenAsk>();
  readonly #listeners = new Set<() => void>();
  #next = 1;
  #state: DeskState = well;
  /** Ticks without a word from the worker while something is waited for. */
  #quiet = 0;
  #timer: ReturnType<typeof setInterval> | null = null;
  /** While a new worker reads the files again; whatever is asked meanwhile is sent afterwards. */
  #isReplaying = false;

  ask<A extends Ask>(ask: A, at?: (progress: Progressing) => void): Pending<Replies[A["type"]]> {
    if (ask.type === "close") this.#letGo(ask.id);
    const { number, reply } = this.#put(ask, at);
    if (!this.#isReplaying) this.#say({ number, ask });
    // The protocol pairs each ask with its reply; the channel itself carries unknown.
    return { reply: reply as Promise<Replies[A["type"]]>, cancel: () => this.#cancel(number) };
  }

  get state(): DeskState {
    return this.#state;
  }

  subscribe(listener: () => void): () => void {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }

  /** A new worker reads what the old one held, then gets all that is still waited for. */
  async startAgain(): Promise<void> {
    this.#worker.terminate();
    this.#worker = this.#start();
    this.#quiet = 0;
    this.#be(well);
    const waiting = [...this.#waiting];
    const beingRead = new Set(waiting.flatMap(([, { ask }]) => (ask.type === "open" ? [ask.id] : [])));
    this.#isReplaying = true;
    const replayed = [...this.#opened.values()].filter((ask) => !beingRead.has(ask.id)).map((ask) => this.#replay(ask));
    const mine = this.#worker;
    await Promise.all(replayed);
    // Started once more meanwhile: that one sends what is waited for.
    if (mine !== this.#worker) return;
    this.#isReplaying = false;
    for (const [number, { ask }] of this.#waiting) this.#say({ number, ask });
  }

  #start(): Worker {
    const worker = new Worker(new URL("./worker.ts", import.meta.url), { type: "module" });
    const broke = (why: string): void => {
      if (worker === this.#worker) this.#be({ type: "gone", why });
    };
    worker.addEventListener("message", (event: MessageEvent<FromWorker>) => this.#hear(event.data));
    worker.addEventListener("error", (event) => broke(event.message || "its program could not be fetched"));
    worker.addEventListener("messageerror", () => broke("an answer of it could not be read"));
    return worker;
  }

  #put(ask: Ask, at?: (progress: Progressing) => void): { readonly number: number; readonly reply: Promise<unknown> } {
    const number = this.#next++;
    const reply = new Promise<unknown>((done, failed) => {
      this.#waiting.set(number, { ask, done, failed, at });
    });
    // Whoever asked hears of a fault; where nobody listens the page has said it (`#fail`).
    reply.catch(() => undefined);
    this.#timer ??= setInterval(() => this.#tick(), tickMs);
    return { number, reply };
  }

  async #replay(ask: OpenAsk): Promise<void> {
    const { number, reply } = this.#put(ask);
    this.#say({ number, ask });
    // A file that cannot be read again is said by the first question about it.
    await reply.catch(() => undefined);
  }

  #say(message: ToWorker): void {
    this.#worker.postMessage(message);
  }

  #cancel(number: number): void {
    if (this.#state.type === "silent" || this.#state.type === "gone") this.#giveUp(number);
    else this.#say({ number, cancel: true });
  }

  #giveUp(number: number): void {
    const waiting = this.#waiting.get(number);
    this.#waiting.delete(number);
    waiting?.failed(new Cancelled("cancelled"));
  }

  /** Of a file that is put away nothing is waited for any more. */
  #letGo(id: string): void {
    this.#opened.delete(id);
    for (const [number, { ask }] of this.#waiting) {
      if (!("id" in ask) || ask.id !== id) continue;
      if (ask.type === "open") this.#say({ number, cancel: true });
      this.#giveUp(number);
    }
  }

  #tick(): void {
    if (this.#waiting.size === 0) {
      clearInterval(this.#timer ?? undefined);
      this.#timer = null;
      this.#quiet = 0;
      return;
    }
    this.#quiet++;
    if (this.#quiet * tickMs > patienceMs && this.#state.type !== "gone") this.#be({ type: "silent" });
    this.#say({ ping: true });
  }

  #hear(message: FromWorker): void {
    this.#quiet = 0;
    if (this.#state.type === "silent") this.#be(well);
    if ("pong" in message) return;
    const waiting = this.#waiting.get(message.number);
    if (waiting === undefined) return;
    if ("at" in message) {
      waiting.at?.(message.at);
      return;
    }
    this.#waiting.delete(message.number);
    if ("reply" in message) this.#answered(waiting, message.reply);
    else if ("cancelled" in message) waiting.failed(new Cancelled("cancelled"));
    else this.#fail(waiting, message.fault);
  }

  #answered({ ask, done }: Waiting, reply: unknown): void {
    if (ask.type === "open") this.#opened.set(ask.id, ask);
    done(reply);
  }

  #fail({ ask, failed }: Waiting, why: string): void {
    if (!saysItself(ask)) this.#be({ type: "fault", why });
    failed(new Error(why));
  }

  #be(state: DeskState): void {
    if (this.#state.type === state.type && state.type !== "fault") return;
    this.#state = state;
    for (const listener of this.#listeners) listener();
  }
}

let only: Desk | null = null;

/** One worker a page, started when it is first asked. */
export const desk = (): Desk => {
  only ??= new Desk();
  return only;
};

export const useDeskState = (): DeskState =>
  useSyncExternalStore(
    (listener) => desk().subscribe(listener),
    () => desk().state,
  );
