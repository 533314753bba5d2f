// A whole book, and the same book touched in each way that a check must find; each names the entry.
import { copyFile, mkdir, mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { DatabaseSync } from "node:sqlite";
import { afterAll, beforeAll, expect, test } from "vitest";
import { keyText } from "../../src/core/record/index.ts";
import { bookAt, verifyTools } from "../../src/main/book-check.ts";
import { openLedger } from "../../src/store/sqlite/ledger.ts";
import { type Verdict, verifyBook } from "../../src/work/verify-book.ts";
import { answerOf } from "../cases/golden-rows.ts";
import { BOOK, MadeDevice, madeSigner, rememberedHead, sha256, thing } from "../store/made-submissions.ts";
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
  const subjects = [{ role: "instrument", id: thing(1) }];
  answerOf(await ledger.append([device.say({ sequence: 1 }), named, device.say(), device.say({ subjects })]));
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
      { type: "entry-changed", number: 3 },
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
    [
      { type: "entry-changed", number: 3 },
      { type: "number-out-of-order", number: 3 },
      { type: "not-found-by-its-rows", number: 3 },
      { type: "entry-changed", number: 4 },
      { type: "number-out-of-order", number: 4 },
      { type: "tree-changed" },
    ],
  ],
  [
    "a time of receiving that was set back",
    'update entry set entry = cast(replace(cast(entry as text), \'"received":"2\', \'"received":"1\') as blob) where number = 3',
    [{ type: "entry-changed", number: 3 }, { type: "tree-changed" }],
  ],
  [
    "a kind in the rows that it has not",
    "update entry set kind = 'returned' where number = 3",
    [{ type: "not-found-by-its-rows", number: 3 }],
  ],
  ["a row that is gone, so that nobody finds it", "delete from about where number = 4", [{ type: "not-found-by-its-rows", number: 4 }]],
  [
    "a row that leads to an entry which does not say so",
    "insert into about (book, subject, number) values (1, 1, 1)",
    [{ type: "stray-rows", number: null }],
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

test("holes and forks in the chains of devices are told, and the book is whole all the same", async () => {
  const own = join(folder, "chains");
  await mkdir(own);
  const place = { path: join(own, "book.sqlite"), book: BOOK, signer, knownHead: rememberedHead(), files: null, now: Date.now };
  const ledger = answerOf(await openLedger({ ...place, onTrouble: () => undefined }));
  const device = new MadeDevice(7);
  const [one, two, three] = [device.say(), device.say(), device.say()];
  device.sequence = 6;
  const seven = device.say();
  device.sequence = 1;
  const fork = device.say();
  // The third before the second: late, and no hole once it is here.
  answerOf(await ledger.append([three, one, two, seven, fork]));
  await ledger.close();
  expect(await verified(null, key, "chains")).toMatchObject({
    type: "whole",
    chains: [
      { type: "fork", device: device.device, sequence: 2, number: 5 },
      { type: "hole", device: device.device, from: 4, to: 6 },
    ],
  });
  const said = await lamproom(["verify", own, "--key", key]);
  expect([said.code, said.out]).toEqual([0, expect.stringContaining(`Device ${device.device}: its submissions 4 to 6 are not here`)]);
});

test("a file that is damaged is not whole from where it cannot be read, or not opened, and never a fault of the program", async () => {
  const bytes = await readFile(join(folder, "book", "book.sqlite"));
  const own = join(folder, "damaged");
  await mkdir(own);
  const told: string[] = [];
  for (let page = 0; page * 4096 < bytes.length; page += 1) {
    const touched = Buffer.from(bytes);
    touched.fill(0xa5, page * 4096, (page + 1) * 4096);
    await writeFile(join(own, "book.sqlite"), touched);
    const book = bookAt(own);
    const verdict = book.ok ? await verifyBook(book.value, key, { ...verifyTools, progress: () => true }) : null;
    if (book.ok) book.value.close();
    told.push(verdict?.type ?? (book.ok ? "" : book.refusal.type));
  }
  // Pages of rows that can be made again, and free ones, say nothing of the book.
  expect(new Set(told)).toEqual(new Set(["book-not-opened", "not-whole", "whole"]));
  expect(told.filter((type) => type === "not-whole").length).toBeGreaterThan(3);
});
