// A whole book, and the same book touched in each way that a check must find; each names the entry.
import { copyFile, mkdir, mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { DatabaseSync } from "node:sqlite";
import { afterAll, beforeAll, expect, test } from "vitest";
import { keyText } from "../../src/core/record/index.ts";
import { bookAt, verifyTools } from "../../src/main/book-check.ts";
import { openLedger } from "../../src/store/sqlite/ledger.ts";
import { type Verdict, verifyBook } from "../../src/work/verify-book.ts";
import { answerOf } from "../cases/golden-rows.ts";
import { BOOK, MadeDevice, madeSigner, rememberedHead, sha256 } from "../store/made-submissions.ts";
import { lamproom } from "./command.ts";

let folder = "";
const signer = madeSigner();
const key = answerOf(keyText(signer.key, sha256));

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "lamproom-verify-"));
  await mkdir(join(folder, "book"));
  const place = { path: join(folder, "book", "book.sqlite"), book: BOOK, signer, knownHead: rememberedHead(), files: null, now: Date.now };
  const ledger = answerOf(await openLedger({ ...place, onTrouble: () => undefined }));
  const device = new MadeDevice(1);
  const named = device.say({ keepsPrivate: { name: "Ines Calloway" } });
  answerOf(await ledger.append([device.say({ sequence: 1 }), named, device.say(), device.say()]));
  const disposal = { parts: [{ submission: named.id, part: "private" }], rule: "x", reason: "x" };
  answerOf(await ledger.append([device.say({ kind: "disposed", manner: "request", says: disposal })]));
  await ledger.dispose([{ number: 2, part: "private" }]);
  await ledger.close();
});

afterAll(() => rm(folder, { recursive: true, force: true }));

async function verified(touch: string | null, line: string | null = key, where = "book"): Promise<Verdict> {
  const own = join(folder, `copy-${Math.random()}`);
  await mkdir(own);
  await copyFile(join(folder, where, "book.sqlite"), join(own, "book.sqlite"));
  if (touch !== null) {
    const database = new DatabaseSync(join(own, "book.sqlite"));
    database.exec(`pragma foreign_keys=off; ${touch}`);
    database.close();
  }
  const book = answerOf(bookAt(own));
  const verdict = await verifyBook(book, line, { ...verifyTools, progress: () => true });
  book.close();
  return verdict;
}

test("a whole book is whole, with a part that was disposed of", async () => {
  expect(await verified(null)).toMatchObject({ type: "whole", size: 5, disposed: 1, key: "given" });
});

const flipped = (column: string) =>
  `update entry set ${column} = cast(substr(${column}, 1, 40) || x'ff' || substr(${column}, 42) as blob) where number = 3`;

test.each<[string, string, readonly object[]]>([
  ["a byte of a body", flipped("body"), [{ type: "body-changed", number: 3 }]],
  [
    "a byte of a submission",
    flipped("submission"),
    [
      { type: "submission-changed", number: 3 },
      { type: "submission-unreadable", number: 3 },
    ],
  ],
  [
    "a byte of an entry",
    flipped("entry"),
    [
      { type: "entry-unreadable", number: 3 },
      { type: "tree-changed", number: null },
    ],
  ],
  ["a body that is gone", "update entry set body = null where number = 3", [{ type: "body-missing", number: 3 }]],
  [
    "an entry that is gone",
    "delete from entry where number = 5",
    [{ type: "private-missing", number: 2 }, { type: "head-of-other-size" }, { type: "tree-changed" }],
  ],
  [
    "two entries exchanged",
    "update entry set number = 99 where number = 3; update entry set number = 3 where number = 4; update entry set number = 4 where number = 99",
    [{ type: "number-out-of-order", number: 3 }, { type: "number-out-of-order", number: 4 }, { type: "tree-changed" }],
  ],
  ["another signature", "update head set note = replace(note, '— ', '— x')", [{ type: "signature-wrong", number: null }]],
  ["no head", "delete from head", [{ type: "head-unreadable", number: null }]],
])("%s is found", async (_, touch, faults) => {
  const verdict = await verified(touch);
  expect(verdict.type).toBe("not-whole");
  expect(verdict).toMatchObject({ faults });
});

test("with another key the signature is not that of the book", async () => {
  const other = answerOf(keyText(madeSigner().key, sha256));
  expect(await verified(null, other)).toMatchObject({ type: "not-whole", faults: [{ type: "signature-wrong" }] });
});

test("what could not be checked is not called whole", async () => {
  expect(await verified(null, null)).toEqual({ type: "not-verified", why: "no-key" });
  expect(await verified(null, "nonsense")).toEqual({ type: "not-verified", why: "key-unreadable" });
  expect(await verified("delete from entry")).toEqual({ type: "not-verified", why: "no-entries" });
});

test("on the command line: sentences or JSON, and a code that a script can go by", async () => {
  const whole = await lamproom(["verify", join(folder, "book"), "--key", key]);
  expect([whole.code, whole.out.split("\n")[0]]).toEqual([0, expect.stringMatching(/^Whole: 5 entries, unchanged since/)]);
  const wrong = await lamproom(["verify", join(folder, "book"), "--json"]);
  expect([wrong.code, JSON.parse(wrong.out)]).toEqual([1, { type: "not-verified", why: "no-key" }]);
  const nowhere = await lamproom(["verify", join(folder, "nothing")]);
  expect([nowhere.code, nowhere.err]).toEqual([2, expect.stringContaining("There is no book in")]);
});
