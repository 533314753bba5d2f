import type { Ask, FromWorker, Replies, Stage, ToWorker } from "./protocol.ts";

export interface Progressing {
  readonly stage: Stage;
  readonly done: number;
  readonly of: number | null;
}

export class Cancelled extends Error {}

interface Waiting {
  readonly done: (reply: unknown) => void;
  readonly failed: (fault: Error) => void;
  readonly at: ((progress: Progressing) => void) | undefined;
}

export interface Pending<Reply> {
  readonly reply: Promise<Reply>;
  readonly cancel: () => void;
}

/** The page's end of the worker: asks by number, so that several can be under way. */
class Desk {
  readonly #worker: Worker;
  readonly #waiting = new Map<number, Waiting>();
  #next = 1;

  constructor() {
    this.#worker = new Worker(new URL("./worker.ts", import.meta.url), { type: "module" });
    this.#worker.addEventListener("message", (event: MessageEvent<FromWorker>) => this.#hear(event.data));
    this.#worker.addEventListener("error", (event) => this.#broke(event.message));
  }

  ask<A extends Ask>(ask: A, at?: (progress: Progressing) => void): Pending<Replies[A["type"]]> {
    const number = this.#next++;
    const reply = new Promise<Replies[A["type"]]>((done, failed) => {
      // The protocol pairs each ask with its reply; the channel itself carries unknown.
      this.#waiting.set(number, { done: done as (reply: unknown) => void, failed, at });
    });
    this.#say({ number, ask });
    return { reply, cancel: () => this.#say({ number, cancel: true }) };
  }

  #say(message: ToWorker): void {
    this.#worker.postMessage(message);
  }

  #hear(message: FromWorker): void {
    const waiting = this.#waiting.get(message.number);
    if (waiting === undefined) return;
    if ("at" in message) {
      waiting.at?.(message.at);
      return;
    }
    this.#waiting.delete(message.number);
    if ("reply" in message) waiting.done(message.reply);
    else waiting.failed("cancelled" in message ? new Cancelled("cancelled") : new Error(message.fault));
  }

  #broke(fault: string): void {
    for (const waiting of this.#waiting.values()) waiting.failed(new Error(fault));
    this.#waiting.clear();
  }
}

let only: Desk | null = null;

/** One worker a page, started when it is first asked. */
export const desk = (): Desk => {
  only ??= new Desk();
  return only;
};
