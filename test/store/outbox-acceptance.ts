/**
 * What every outbox must do, whatever it keeps it in. Plain functions, so that the same cases run in Node and inside a
 * page: each gets a maker and throws where something does not hold.
 */
import { digestFromHash, digestOf, openedPart, type Sha256, type Submission, submissionFrom } from "../../src/core/record/index.ts";
import type { Outbox, Said, Waiting } from "../../src/store/outbox.ts";

/** One place that keeps an outbox: opened as often as asked for, each time as another window or process would. */
export interface OutboxKeeper {
  readonly book: string;
  readonly sha256: Sha256;
  readonly open: () => Promise<Outbox>;
}

export interface OutboxCase {
  readonly name: string;
  readonly run: (keeper: OutboxKeeper) => Promise<void>;
}

const saying = (change: Partial<Said> = {}): Said => ({
  ...{ kind: "upset-seen", form: 1, manner: "report", by: null, subjects: [], restsOn: [] },
  happened: { earliest: "2026-03-04T07:30:00.000Z", latest: "2026-03-04T07:31:00.000Z", basis: "device-clock" },
  ...{ body: { what: "wet" }, private: null },
  ...change,
});

function same(found: unknown, wanted: unknown, what: string): void {
  const [one, other] = [JSON.stringify(found), JSON.stringify(wanted)];
  if (one !== other) throw new Error(`${what}: ${one} instead of ${other}`);
}

async function said(outbox: Outbox, change: Partial<Said> = {}): Promise<Waiting> {
  const kept = await outbox.say(saying(change));
  if (!kept.ok) throw new Error(JSON.stringify(kept.refusal));
  return kept.value;
}

function read({ offered }: Waiting): Submission {
  const submission = submissionFrom(offered.submission);
  if (!submission.ok) throw new Error(JSON.stringify(submission.refusal));
  return submission.value;
}

const idsOf = (all: readonly Waiting[]): readonly string[] => all.map(({ id }) => id);
const sequencesOf = (all: readonly Waiting[]): readonly number[] => all.map((one) => read(one).sequence);

/** Sequences from 1 without holes, each naming the digest of the one before it. */
async function isChain(outbox: Outbox, sha256: Sha256, length: number): Promise<void> {
  const all = await outbox.waiting(1000);
  same(
    sequencesOf(all),
    Array.from({ length }, (_, at) => at + 1),
    "sequences",
  );
  const digests = all.map(({ offered }) => digestOf(offered.submission, sha256));
  same(
    all.map((one) => read(one).previous),
    [null, ...digests.slice(0, -1)],
    "digests of those before",
  );
}

export const outboxCases: readonly OutboxCase[] = [
  {
    name: "what is said is a submission of this device and this book, with the digests of its parts",
    run: async ({ book, sha256, open }) => {
      const outbox = await open();
      const kept = await said(outbox, { body: { what: "solvent" }, private: { remark: "Ines — Ø" } });
      const { body, private: privatePart } = kept.offered;
      const submission = read(kept);
      same([submission.book, submission.device, submission.id], [book, outbox.device, kept.id], "where it belongs");
      same([submission.body, submission.private], [digestOf(body, sha256), digestOf(privatePart ?? new Uint8Array(0), sha256)], "digests");
      same(
        [openedPart(body), openedPart(privatePart ?? new Uint8Array(0))].map((part) => part.ok && part.value),
        [{ what: "solvent" }, { remark: "Ines — Ø" }],
        "parts",
      );
      same(submission.head, null, "no head is known yet");
      await outbox.close();
    },
  },
  {
    name: "two salts are never the same, and so equal bodies have different digests",
    run: async ({ open }) => {
      const outbox = await open();
      const [one, other] = [await said(outbox), await said(outbox)];
      same(read(one).body === read(other).body, false, "equal digests");
      await outbox.close();
    },
  },
  {
    name: "sequences have no holes and each names the one before, whoever speaks at once in however many windows",
    run: async ({ sha256, open }) => {
      const windows = [await open(), await open(), await open()];
      same(new Set(windows.map(({ device }) => device)).size, 1, "devices");
      await Promise.all(windows.flatMap((one) => Array.from({ length: 8 }, () => said(one))));
      const [first] = windows as [Outbox];
      same(await first.count(), 24, "count");
      await isChain(first, sha256, 24);
      for (const one of windows) await one.close();
    },
  },
  {
    name: "opened again it is the same device and goes on with its chain",
    run: async ({ sha256, open }) => {
      const before = await open();
      await said(before);
      await before.close();
      const after = await open();
      same(after.device, before.device, "device");
      await said(after);
      await isChain(after, sha256, 2);
      await after.close();
    },
  },
  {
    name: "what the book took, or has, leaves; what is in conflict stays and is shown; the rest keeps its order",
    run: async ({ open }) => {
      const outbox = await open();
      const all = [await said(outbox), await said(outbox), await said(outbox), await said(outbox)];
      const [one, two, three, four] = idsOf(all) as [string, string, string, string];
      await outbox.answered(two, { type: "taken", number: 7, remarks: [] });
      await outbox.answered(one, { type: "exists", number: 6 });
      await outbox.answered(three, { type: "conflict", number: 5 });
      same(idsOf(await outbox.waiting(10)), [four], "waiting");
      same(
        (await outbox.refusedOnes()).map(({ id, refused }) => [id, refused]),
        [[three, "conflict"]],
        "refused",
      );
      same(await outbox.count(), 1, "count");
      // An answer that comes twice, or late, changes nothing.
      await outbox.answered(two, { type: "exists", number: 7 });
      same(await outbox.count(), 1, "count after an answer that came twice");
      await outbox.close();
    },
  },
  {
    name: "a request that was not granted leaves the queue and is kept with its reason",
    run: async ({ open }) => {
      const outbox = await open();
      const asked = await said(outbox, { kind: "returned", manner: "request", body: { cause: "repaired", reason: null } });
      await outbox.notGranted(asked.id, "not-withdrawn");
      same([await outbox.count(), idsOf(await outbox.waiting(10))], [0, []], "waiting");
      const [refused] = await outbox.refusedOnes();
      same([refused?.id, refused?.refused, refused === undefined ? 0 : read(refused).sequence], [asked.id, "not-withdrawn", 1], "refused");
      await outbox.close();
    },
  },
  {
    name: "the oldest come first, as many as are asked for",
    run: async ({ open }) => {
      const outbox = await open();
      for (let count = 0; count < 12; count += 1) await said(outbox);
      same(sequencesOf(await outbox.waiting(5)), [1, 2, 3, 4, 5], "first five");
      await outbox.close();
    },
  },
  {
    name: "the head that the device knows is told with what is said from then on",
    run: async ({ sha256, open }) => {
      const outbox = await open();
      const head = { root: digestFromHash(sha256(new Uint8Array(1))), size: 3 };
      await outbox.knowHead(head);
      same(read(await said(outbox)).head, head, "head");
      await outbox.close();
    },
  },
  {
    name: "what cannot be said is refused with its place, keeps nothing, and leaves no hole",
    run: async ({ sha256, open }) => {
      const outbox = await open();
      const refusals = await Promise.all(
        [saying({ kind: "Not A Code" }), saying({ body: { reading: Number.NaN } }), saying({ private: { half: "\ud800" } })].map((one) =>
          outbox.say(one),
        ),
      );
      same(
        refusals.map((one) => (one.ok ? "kept" : one.refusal.type === "not-sayable" ? one.refusal.at : one.refusal.type)),
        ["kind", "body", "private"],
        "refusals",
      );
      same(await outbox.count(), 0, "count");
      await said(outbox);
      await isChain(outbox, sha256, 1);
      await outbox.close();
    },
  },
];
