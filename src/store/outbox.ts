/** What a device has said and the book has not yet answered: a chain of the device's own, durable before it says "saved". */
import type { Happened, Subject } from "../core/record/index.ts";
import type { Result } from "../core/result.ts";
import type { Answer, Offered } from "./ledger.ts";

/** What a person says; the outbox adds id, device, sequence, the digest before, salts and digests. */
export interface Said {
  readonly kind: string;
  readonly form: number;
  readonly manner: "request" | "report";
  readonly happened: Happened;
  readonly by: string | null;
  readonly subjects: readonly Subject[];
  readonly restsOn: readonly string[];
  readonly body: unknown;
  readonly private: unknown | null;
}

export type OutboxRefusal =
  | { readonly type: "not-sayable"; readonly at: string; readonly why: string }
  /** The place to keep it is gone, full, or may be emptied: nothing was kept. */
  | { readonly type: "not-kept"; readonly why: string };

export interface Waiting {
  readonly id: string;
  readonly offered: Offered;
  /** Why the book did not take it when it was last offered; null where it was not offered yet. */
  readonly refused: string | null;
}

export interface Outbox {
  readonly device: string;
  readonly book: string;
  /** Makes a submission and keeps it; answers once it is durable. Calls may overlap: each gets a sequence of its own. */
  readonly say: (said: Said) => Promise<Result<Waiting, OutboxRefusal>>;
  /** In order of sequence, the oldest first. */
  readonly waiting: (limit: number) => Promise<readonly Waiting[]>;
  readonly count: () => Promise<number>;
  /** The book has answered: what it took, or has, leaves; a conflict stays and is shown. */
  readonly answered: (id: string, answer: Answer) => Promise<void>;
  /** The book refused a request: it leaves the queue and is kept in a list of what was not granted. */
  readonly notGranted: (id: string, reason: string) => Promise<void>;
  readonly refusedOnes: () => Promise<readonly Waiting[]>;
  /** Head of the book that the device knows, told with the next submission. */
  readonly knowHead: (head: { readonly size: number; readonly root: `sha256:${string}` }) => Promise<void>;
  readonly close: () => Promise<void>;
}
