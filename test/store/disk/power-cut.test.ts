// A power cut after every single call that SQLite makes for a book: what was acknowledged is there, whole, and nothing
// is there that was never sent. Judged as formats-g-durability-set-01 to -03 say (set test as in jepsen-io/jepsen).
import { randomInt } from "node:crypto";
import { mkdir, readFile, rm, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { verifyTools } from "../../../src/main/book-check.ts";
import { openLedger } from "../../../src/store/sqlite/ledger.ts";
import { rawBook } from "../../../src/store/sqlite/raw-book.ts";
import { verifyBook } from "../../../src/work/verify-book.ts";
import { answerOf } from "../../cases/golden-rows.ts";
import { BOOK, madeSigner, rememberedHead } from "../made-submissions.ts";
import { type Between, between, whyNotBetween } from "./between.ts";
import { after, callsOf, type Disk, found } from "./power-cut.ts";

const SEED = Number(process.env["LAMPROOM_SEED"] ?? randomInt(2 ** 31));

let disk: Between | null = null;
beforeAll(async () => {
  if (whyNotBetween === null) disk = await between();
});
afterAll(async () => {
  await disk?.end();
});

interface Written {
  readonly sent: readonly string[];
  readonly acknowledged: readonly string[];
  readonly key: string;
}

/** Coins from a seed, the same on every machine (a linear congruence; Numerical Recipes, 1992, memory). */
function coins(seed: number): (share: number) => boolean {
  let state = seed >>> 0;
  return (share) => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32 < share;
  };
}

/** Ids of the book that is opened from these files, and the verdict on it. */
async function opened(files: ReadonlyMap<string, Buffer>, folder: string, key: string) {
  await rm(folder, { recursive: true, force: true });
  await mkdir(folder);
  for (const [name, bytes] of files) await writeFile(join(folder, name), bytes);
  const place = { path: join(folder, "book.sqlite"), book: BOOK, signer: madeSigner(), knownHead: rememberedHead(), files: null };
  const onTrouble = (fault: unknown): void => {
    throw fault;
  };
  const ledger = answerOf(await openLedger({ ...place, now: Date.now, onTrouble }));
  const ids: string[] = [];
  await ledger.walk(1, 1000, ({ submission }) => ids.push(submission.id) > 0);
  await ledger.close();
  const raw = answerOf(rawBook(folder));
  const verdict = raw === null ? null : await verifyBook(raw, key, { ...verifyTools, progress: () => true });
  raw?.close();
  return { ids, verdict: verdict?.type === "not-verified" ? verdict.why : verdict?.type };
}

describe.skipIf(whyNotBetween !== null)(`power cuts${whyNotBetween === null ? "" : ` (skipped: ${whyNotBetween})`}`, () => {
  test(`after every call, with none, all and some of what was not synced, seed ${SEED}`, { timeout: 300_000 }, async () => {
    const { folder, trace, run } = disk as Between; // made before, where this is not skipped
    const [written] = (await run(["trace", folder, "trace"], true)) as readonly [Written]; // written by disk-writer
    const calls = callsOf(await readFile(trace));
    expect(calls.filter(({ call }) => call === "sync").length).toBeGreaterThan(10);
    const coin = coins(SEED);
    const ways = [() => false, () => true, () => coin(0.5), () => coin(0.9)];
    const acknowledged: string[] = [];
    let [state, tried, recovered]: [Disk, number, number] = [new Map(), 0, 0];
    for (const [at, call] of calls.entries()) {
      state = after(state, call);
      if (call.call === "mark") acknowledged.push(...call.text.split(" "));
      for (const [way, keep] of ways.entries()) {
        const { ids, verdict } = await opened(found(state, keep), join(folder, "cut"), written.key);
        const lost = acknowledged.filter((id) => !ids.includes(id));
        const never = ids.filter((id) => !written.sent.includes(id));
        const isWhole = verdict === "whole" || (ids.length === 0 && verdict === "no-entries");
        expect({ at, way, lost, never, isWhole: isWhole || verdict }).toEqual({ at, way, lost: [], never: [], isWhole: true });
        recovered += ids.length > acknowledged.length ? 1 : 0;
        tried += 1;
      }
    }
    expect(acknowledged).toEqual(written.acknowledged);
    process.stdout.write(
      `${tried} power cuts at ${calls.length} moments, seed ${SEED}: nothing acknowledged lost, ${recovered} times more was there\n`,
    );
  });
});
