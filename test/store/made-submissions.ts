/** Devices of a test: chains of submissions as an outbox makes them, with all that varies counted up. */
import { createHash, generateKeyPairSync, randomBytes, randomUUID, sign } from "node:crypto";
import { uuidv7 } from "uuidv7";
import { type Digest, digestOf, type Submission, sealedPart, submissionBytes } from "../../src/core/record/index.ts";
import type { HeadSigner, KnownHead, Offered } from "../../src/store/ledger.ts";
import type { Outbox } from "../../src/store/outbox.ts";
import { openOutbox } from "../../src/store/sqlite/outbox.ts";

export const sha256 = (bytes: Uint8Array): Uint8Array => new Uint8Array(createHash("sha256").update(bytes).digest());

export const BOOK = "5f0c9a52-3b1e-4d6a-8f57-0c2d4e6a8b10";
export const OTHER_BOOK = "5f0c9a52-3b1e-4d6a-8f57-0c2d4e6a8b11";

const uuid = (first: string, count: number, version: 4 | 7): string =>
  `${first}-0000-${version}000-8000-${count.toString(16).padStart(12, "0")}`;

export const thing = (count: number): string => uuid("11111111", count, 4);
export const submissionId = (count: number): string => uuid("018f3c2a", count, 7);

let made = 0;

export interface Saying extends Partial<Submission> {
  /** What the body says; a private part where it is given. */
  readonly says?: unknown;
  readonly keepsPrivate?: unknown;
}

/** One device with its chain. */
export class MadeDevice {
  readonly device: string;
  sequence = 0;
  previous: Digest | null = null;

  constructor(count: number) {
    this.device = uuid("7d1e2f30", count, 4);
  }

  say({ says = { note: "x" }, keepsPrivate, ...change }: Saying = {}): Offered & { readonly id: string; readonly digest: Digest } {
    made += 1;
    this.sequence = change.sequence ?? this.sequence + 1;
    const body = sealed(says);
    const privatePart = keepsPrivate === undefined ? null : sealed(keepsPrivate);
    const submission: Submission = {
      ...{ submission: 1, id: submissionId(made), book: BOOK, device: this.device, sequence: this.sequence },
      ...{
        previous: this.sequence === 1 ? null : (this.previous ?? digestOf(body, sha256)),
        kind: "upset-seen",
        form: 1,
        manner: "report",
      },
      happened: { earliest: "2026-03-04T07:30:00.000Z", latest: "2026-03-04T07:31:00.000Z", basis: "device-clock" },
      ...{ recorded: "2026-03-04T07:31:00.000Z", by: null, subjects: [], restsOn: [], head: null, body: digestOf(body, sha256) },
      private: privatePart === null ? null : digestOf(privatePart, sha256),
      ...change,
    };
    const bytes = submissionBytes(submission);
    if (!bytes.ok) throw new Error(JSON.stringify(bytes.refusal));
    this.previous = digestOf(bytes.value, sha256);
    return { submission: bytes.value, body, private: privatePart, clockOffset: null, id: submission.id, digest: this.previous };
  }
}

function sealed(value: unknown): Uint8Array {
  const part = sealedPart(value, new Uint8Array(16).fill(made % 256));
  if (!part.ok) throw new Error(JSON.stringify(part.refusal));
  return part.value;
}

export interface MadeSigner extends HeadSigner {
  readonly privateKey: string;
}

/** A key of its own for each test. */
export function madeSigner(book = BOOK): HeadSigner {
  const { publicKey, privateKey } = generateKeyPairSync("ed25519");
  const raw = publicKey.export({ format: "der", type: "spki" }).subarray(-32);
  return {
    key: { name: `lamproom/${book}`, publicKey: new Uint8Array(raw) },
    sign: (message) => new Uint8Array(sign(null, message, privateKey)),
  };
}

/** The outbox of a bench PC in a file. */
export const madeOutbox = (path: string, book = BOOK): Outbox =>
  openOutbox({
    ...{ path, book, newDevice: randomUUID, newId: uuidv7, now: Date.now },
    chance: (bytes) => new Uint8Array(randomBytes(bytes)),
  });

export function rememberedHead(first: string | null = null): KnownHead & { note: string | null } {
  const kept = {
    note: first,
    read: async () => kept.note,
    write: async (note: string) => {
      kept.note = note;
    },
  };
  return kept;
}
