// Nothing acknowledged is lost: a process that writes is killed at a random moment, again and again, on one folder.
// Judged as formats-g-durability-set-01 to -03 say (set test as in jepsen-io/jepsen).
import { spawn } from "node:child_process";
import { randomInt } from "node:crypto";
import { mkdtemp, readdir, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import { type Digest, isDigest } from "../../src/core/record/index.ts";
import { folderFiles } from "../../src/store/folder/files.ts";
import { openLedger } from "../../src/store/sqlite/ledger.ts";
import { answerOf, goldenRow, nameOf } from "../cases/golden-rows.ts";
import { whole } from "./book-check.ts";
import { BOOK, madeOutbox, madeSigner, rememberedHead } from "./made-submissions.ts";

const KILLS = Number(process.env["LAMPROOM_KILLS"] ?? 200);
const SEED = Number(process.env["LAMPROOM_SEED"] ?? randomInt(2 ** 31));

interface Judged {
  readonly lost: readonly unknown[];
  readonly duplicated: readonly unknown[];
  readonly unexpected: readonly unknown[];
  readonly recovered: readonly unknown[];
  readonly valid: boolean | "unknown";
}

function judged(acknowledged: readonly unknown[], unanswered: readonly unknown[], found: readonly unknown[]): Judged {
  const there = new Set(found);
  const lost = acknowledged.filter((one) => !there.has(one));
  const duplicated = found.filter((one, at) => found.indexOf(one) !== at);
  const sent = new Set([...acknowledged, ...unanswered]);
  const unexpected = found.filter((one) => !sent.has(one));
  const recovered = unanswered.filter((one) => there.has(one));
  const isUnknown = acknowledged.length === 0 && found.length === 0;
  return {
    lost,
    duplicated,
    unexpected,
    recovered,
    valid: isUnknown ? "unknown" : lost.length + duplicated.length + unexpected.length === 0,
  };
}

test.each(
  ["formats-g-durability-set-01", "formats-g-durability-set-02", "formats-g-durability-set-03"].map(
    (id) => [nameOf(id), goldenRow(id)] as const,
  ),
)("%s", (_, { inputs, expected }) => {
  expect(judged(inputs.acknowledged, inputs.sent_not_acknowledged, inputs.found)).toMatchObject(expected);
});

/** Numbers from a seed, the same on every machine (a linear congruence; Numerical Recipes, 1992, memory). */
function* chance(seed: number): Generator<number> {
  for (let state = seed >>> 0; ; ) {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    yield state / 2 ** 32;
  }
}

/** What one process said before it was killed; a line that was cut off says nothing. */
async function runAndKill(folder: string, device: number, afterMs: number): Promise<readonly string[]> {
  const child = spawn(process.execPath, [fileURLToPath(new URL("./kept-writer.ts", import.meta.url)), folder, String(device)], {
    stdio: ["ignore", "pipe", "pipe"],
  });
  let [said, complained] = ["", ""];
  const first = new Promise<void>((resolve) => {
    child.stdout.on("data", (piece) => {
      said += String(piece);
      resolve();
    });
    child.on("close", () => resolve());
  });
  child.stderr.on("data", (piece) => {
    complained += String(piece);
  });
  const ended = new Promise<void>((resolve) => child.on("close", () => resolve()));
  // From the first word on: before it nothing is being written.
  await first;
  await new Promise((resolve) => setTimeout(resolve, afterMs));
  child.kill("SIGKILL");
  await ended;
  expect(complained).toBe("");
  return said.split("\n").slice(0, -1);
}

const saidOf = (lines: readonly string[], word: string, at: number): readonly string[] =>
  lines.filter((line) => line.startsWith(`${word} `)).map((line) => line.split(" ")[at] ?? "");

/** What still waits in the outboxes of the processes that were killed. */
async function waitingIn(folder: string): Promise<ReadonlySet<string>> {
  const ids = new Set<string>();
  for (const name of (await readdir(folder)).filter((one) => /^outbox-\d+\.sqlite$/.test(one))) {
    const outbox = madeOutbox(join(folder, name));
    for (const { id } of await outbox.waiting(100_000)) ids.add(id);
    await outbox.close();
  }
  return ids;
}

test(`${KILLS} kills of processes that write, two at a time, seed ${SEED}`, async () => {
  const folder = await mkdtemp(join(tmpdir(), "lamproom-kill-"));
  const draw = chance(SEED);
  const next = (): number => Number(draw.next().value);
  const lines: string[] = [];
  const files: string[] = [];
  for (let killed = 0; killed < KILLS; killed += 2) {
    const runs = [1, 2].map((one) => runAndKill(folder, killed + one, Math.floor(next() * 60)));
    for (const said of await Promise.all(runs)) {
      lines.push(...said);
      files.push(...saidOf(said, "FILE", 1));
    }
  }
  const acknowledged = saidOf(lines, "ACK", 2);
  const answered = new Set(acknowledged);
  const unanswered = saidOf(lines, "SENT", 1).filter((id) => !answered.has(id));
  const opening = {
    path: join(folder, "book.sqlite"),
    book: BOOK,
    signer: madeSigner(),
    knownHead: rememberedHead(),
    files: null,
    now: Date.now,
  };
  const ledger = answerOf(await openLedger({ ...opening, onTrouble: () => undefined }));
  const found = await whole(ledger);
  const result = judged(acknowledged, unanswered, found.ids);
  expect(result).toMatchObject({ lost: [], duplicated: [], unexpected: [], valid: true });
  const numbers = new Map(found.ids.map((id, at) => [id, at + 1]));
  for (const line of lines.filter((one) => one.startsWith("ACK "))) {
    const [, number, id = ""] = line.split(" ");
    expect(numbers.get(id)).toBe(Number(number));
  }
  const waiting = await waitingIn(folder);
  const said = saidOf(lines, "KEPT", 1);
  expect(said.length).toBeGreaterThan(0);
  expect(said.filter((id) => !waiting.has(id) && !numbers.has(id))).toEqual([]);
  const kept = folderFiles(join(folder, "files"));
  for (const file of files) expect((await kept.get(file as Digest)).ok && isDigest(file)).toBe(true); // said by `put`
  expect(found.named.filter((file) => !files.includes(file) && !isDigest(file))).toEqual([]);
  for (const file of found.named) expect((await kept.get(file)).ok).toBe(true);
  process.stdout.write(
    `${said.length} kept by outboxes: each there, or in the book\n${KILLS} kills: ${acknowledged.length} acknowledged, ${unanswered.length} not, ${result.recovered.length} of these kept whole, 0 lost\n`,
  );
  await ledger.close();
  await rm(folder, { recursive: true, force: true });
}, 600_000);
