/**
 * Run as a process of its own with disk-shim between it and the disk. `fail`: one call after another fails, each in a
 * book of its own. `trace`: one book, every call written down. What it saw goes out as one line of JSON a book.
 */
import { closeSync, mkdirSync, openSync, readFileSync, writeSync } from "node:fs";
import { join } from "node:path";
import { keyText } from "../../../src/core/record/index.ts";
import { verifyTools } from "../../../src/main/book-check.ts";
import type { KnownHead } from "../../../src/store/ledger.ts";
import { openLedger, type SqliteLedger } from "../../../src/store/sqlite/ledger.ts";
import { rawBook } from "../../../src/store/sqlite/raw-book.ts";
import { verifyBook } from "../../../src/work/verify-book.ts";
import { BOOK, MadeDevice, madeSigner, rememberedHead, sha256, thing } from "../made-submissions.ts";

const [, , mode = "", folder = "", how = "", first = "1", step = "1"] = process.argv;
const controlPath = process.env["DISK_SHIM_CONTROL"] ?? "";
const control = openSync(controlPath, "w+");
const signer = madeSigner();

function tell(line: string): readonly number[] {
  writeSync(control, `${line}\n`);
  return readFileSync(controlPath, "utf8").split(" ").map(Number);
}

interface Seen {
  readonly sent: string[];
  readonly acknowledged: string[];
  /** Refusals and faults in the order in which they came. */
  readonly refused: string[];
  /** What was acknowledged after something had been refused. */
  readonly late: string[];
}

const open = async (path: string, knownHead: KnownHead) =>
  openLedger({ path, book: BOOK, signer, knownHead, files: null, now: Date.now, onTrouble });

function onTrouble(fault: unknown): void {
  throw fault;
}

/** Singles, a group, a body larger than a page, derived rows, a part disposed of: all that writes. */
async function write(path: string, knownHead: KnownHead, seen: Seen): Promise<void> {
  const opened = await open(path, knownHead);
  if (!opened.ok) return void seen.refused.push(opened.refusal.type);
  const ledger = opened.value;
  const device = new MadeDevice(1);
  const about = { subjects: [{ role: "instrument", id: thing(1) }], by: thing(2) };
  const say = (words: number, count = 1) =>
    append(
      ledger,
      Array.from({ length: count }, () =>
        device.say({ ...about, says: { note: "w".repeat(words) }, keepsPrivate: { name: "Ines Calloway" } }),
      ),
      seen,
    );
  await say(10);
  await say(10);
  await say(10, 16);
  await say(20_000);
  const [first = ""] = seen.acknowledged;
  await append(
    ledger,
    [device.say({ kind: "disposed", says: { parts: [{ submission: first, part: "private" }], rule: "made", reason: "made" } })],
    seen,
  );
  await tried(seen, () => ledger.keepDerived([{ name: "made", key: "1", edition: 1, head: 1, bytes: new Uint8Array(3000) }]));
  // A part is deleted only once the entry that says so is in the book.
  if (seen.refused.length === 0) await tried(seen, () => ledger.dispose([{ number: 1, part: "private" }]));
  await say(10);
  await ledger.close();
}

async function append(ledger: SqliteLedger, offers: readonly ReturnType<MadeDevice["say"]>[], seen: Seen): Promise<void> {
  const ids = offers.map(({ id }) => id);
  seen.sent.push(...ids);
  const answers = await ledger.append(offers);
  if (!answers.ok) return void seen.refused.push(answers.refusal.type);
  if (mode === "trace") tell(`mark ${ids.join(" ")}`);
  seen.acknowledged.push(...ids);
  if (seen.refused.length > 0) seen.late.push(...ids);
}

async function tried(seen: Seen, act: () => Promise<unknown>): Promise<void> {
  try {
    await act();
  } catch (fault) {
    seen.refused.push(`threw: ${fault instanceof Error ? fault.message : String(fault)}`);
  }
}

/** Opened again on a disk that works: what is there, whether it is whole, whether it takes more. */
async function found(path: string, knownHead: KnownHead) {
  const opened = await open(path, knownHead);
  if (!opened.ok) return { opened: opened.refusal.type, ids: [], verdict: null, takesMore: false };
  const ledger = opened.value;
  const ids: string[] = [];
  await ledger.walk(1, 1000, ({ submission }) => ids.push(submission.id) > 0);
  const more = await ledger.append([new MadeDevice(9).say()]);
  await ledger.close();
  const line = keyText(signer.key, sha256);
  const found = rawBook(join(path, ".."));
  const raw = found.ok ? found.value : null;
  if (!line.ok || raw === null) throw new Error("no line or no book");
  const verdict = await verifyBook(raw, line.value, { ...verifyTools, progress: () => true });
  raw.close();
  return { opened: "yes", ids, verdict, takesMore: more.ok };
}

async function failing(at: number): Promise<boolean> {
  const own = join(folder, `${how}-${at}`);
  mkdirSync(own);
  const path = join(own, "book.sqlite");
  const knownHead = rememberedHead();
  const seen: Seen = { sent: [], acknowledged: [], refused: [], late: [] };
  tell(`fail ${at} ${how}`);
  await tried(seen, () => write(path, knownHead, seen));
  const [count = 0, hasFailed = 0] = tell("off");
  process.stdout.write(`${JSON.stringify({ how, at, count, hasFailed: hasFailed === 1, ...seen, found: await found(path, knownHead) })}\n`);
  return hasFailed === 1;
}

if (mode === "trace") {
  const seen: Seen = { sent: [], acknowledged: [], refused: [], late: [] };
  await write(join(folder, "book.sqlite"), rememberedHead(), seen);
  const line = keyText(signer.key, sha256);
  process.stdout.write(`${JSON.stringify({ ...seen, key: line.ok ? line.value : "" })}\n`);
} else {
  for (let at = Number(first); await failing(at); at += Number(step));
}
closeSync(control);
