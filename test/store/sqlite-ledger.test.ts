import { copyFile, mkdtemp, readdir, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { DatabaseSync } from "node:sqlite";
import { afterAll, expect, test } from "vitest";
import { readSignedHead } from "../../src/core/record/index.ts";
import { checkAside } from "../../src/store/sqlite/check-aside.ts";
import { openLedger } from "../../src/store/sqlite/ledger.ts";
import { answerOf } from "../cases/golden-rows.ts";
import { type Keeper, ledgerAcceptance, type Opening } from "./ledger-acceptance.ts";
import { BOOK, MadeDevice, madeSigner, rememberedHead } from "./made-submissions.ts";

const folders: string[] = [];
afterAll(async () => {
  for (const folder of folders) await rm(folder, { recursive: true, force: true });
});

async function newFolder(): Promise<string> {
  const folder = await mkdtemp(join(tmpdir(), "lamproom-book-"));
  folders.push(folder);
  return folder;
}

const place = (path: string, { signer, knownHead, files }: Opening) => ({
  ...{ path, book: BOOK, signer, knownHead, files: files ?? null, now: Date.now },
  onTrouble: (fault: unknown) => {
    throw fault;
  },
});

async function sqliteKeeper(): Promise<Keeper> {
  const path = join(await newFolder(), "book.sqlite");
  return {
    open: async (opening) => answerOf(await openLedger(place(path, opening))),
    keep: async () => {
      await copyFile(path, `${path}.kept`);
      return async () => {
        await rm(`${path}-wal`, { force: true });
        await copyFile(`${path}.kept`, path);
      };
    },
  };
}

ledgerAcceptance("a book in SQLite", sqliteKeeper);

const opening = (): Opening => ({ signer: madeSigner(), knownHead: rememberedHead() });

test("a derived row whose bytes were touched is not believed", async () => {
  const path = join(await newFolder(), "book.sqlite");
  const ledger = answerOf(await openLedger(place(path, opening())));
  const row = { name: "standing", key: "a", edition: 1, bytes: Uint8Array.of(1, 2) };
  answerOf(await ledger.append([new MadeDevice(1).say()], { derive: async () => [row] }));
  const other = new DatabaseSync(path);
  other.exec("update derived set bytes = x'0103'");
  other.close();
  expect(await ledger.derived("standing", "a", 1)).toBeNull();
  await ledger.close();
});

test("a book of a newer release is refused in words, not guessed at", async () => {
  const path = join(await newFolder(), "book.sqlite");
  const other = new DatabaseSync(path);
  other.exec("pragma user_version = 99");
  other.close();
  expect(await openLedger(place(path, opening()))).toEqual({ ok: false, refusal: { type: "newer-tables", found: 99 } });
});

test("a disk that takes no more: nothing is acknowledged, and nothing more is written until the book is opened again", async () => {
  const path = join(await newFolder(), "book.sqlite");
  const own = opening();
  const ledger = answerOf(await openLedger(place(path, own)));
  const device = new MadeDevice(1);
  answerOf(await ledger.append([device.say()]));
  // The number of pages a file may have stands in the connection that writes: reached through the class's own field.
  const { database } = (ledger as unknown as { readonly writing: { readonly database: DatabaseSync } }).writing;
  database.exec(`pragma max_page_count = ${Number(database.prepare("pragma page_count").get()?.["page_count"])}`);
  const large = device.say({ says: { note: "x".repeat(200_000) } });
  expect(await ledger.append([large])).toMatchObject({ refusal: { type: "disk-failed" } });
  expect(await ledger.append([new MadeDevice(2).say()])).toMatchObject({ refusal: { type: "disk-failed" } });
  expect(await ledger.size()).toBe(1);
  await ledger.close();
  const again = answerOf(await openLedger(place(path, own)));
  expect(answerOf(await again.append([large]))).toMatchObject([{ type: "taken", number: 2 }]);
  await again.close();
});

test("what is disposed of is in no file of the folder any more, in pages that are free neither", async () => {
  const folder = await newFolder();
  const path = join(folder, "book.sqlite");
  const ledger = answerOf(await openLedger(place(path, opening())));
  const device = new MadeDevice(1);
  const [short, long] = ["Ines Calloway", "Ravenscroft ".repeat(2000)];
  answerOf(
    await ledger.append([device.say(), device.say({ keepsPrivate: { name: short } }), device.say({ keepsPrivate: { name: long } })]),
  );
  answerOf(await ledger.append(Array.from({ length: 40 }, () => device.say())));
  const isThere = async (text: string) => {
    const files = await Promise.all((await readdir(folder)).map((name) => readFile(join(folder, name))));
    return files.some((bytes) => bytes.includes(text));
  };
  expect([await isThere(short), await isThere("Ravenscroft")]).toEqual([true, true]);
  const parts = [2, 3].map((number) => ({ number, part: "private" }) as const);
  expect(await ledger.dispose(parts)).toBe(2);
  expect([await isThere(short), await isThere("Ravenscroft")]).toEqual([false, false]);
  await ledger.close();
});

test("a head beside the key that cannot be read, or is of another book, is told", async () => {
  const path = join(await newFolder(), "book.sqlite");
  const troubles: unknown[] = [];
  for (const note of ["", "not a head", "lamproom/another\n1\nAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA=\n\n— a AAAAAAAA\n"]) {
    const own = {
      ...place(path, { signer: madeSigner(), knownHead: rememberedHead(note) }),
      onTrouble: (fault: unknown) => troubles.push(fault),
    };
    const ledger = answerOf(await openLedger(own));
    expect(ledger.held()).toBeNull();
    await ledger.close();
  }
  expect(troubles.map(String)).toEqual(Array.from({ length: 3 }, () => expect.stringContaining("cannot be read")));
});

test("a file that is no database, or damaged, is refused in words", async () => {
  const folder = await newFolder();
  const [text, damaged] = [join(folder, "text.sqlite"), join(folder, "damaged.sqlite")];
  await writeFile(text, "no database at all ".repeat(100));
  expect(await openLedger(place(text, opening()))).toMatchObject({ ok: false, refusal: { type: "damaged" } });
  const ledger = answerOf(await openLedger(place(damaged, opening())));
  const device = new MadeDevice(1);
  answerOf(await ledger.append(Array.from({ length: 40 }, () => device.say())));
  await ledger.close();
  const bytes = await readFile(damaged);
  bytes.fill(0xff, 4096, 8192);
  await writeFile(damaged, bytes);
  expect(await openLedger(place(damaged, opening()))).toMatchObject({ ok: false, refusal: { type: "damaged" } });
});

test.each(["entry", "submission", "body", "private"])(
  "a bit that turned in the %s of an entry is damage when it is read, not another fact",
  async (column) => {
    const path = join(await newFolder(), "book.sqlite");
    const ledger = answerOf(await openLedger(place(path, opening())));
    answerOf(await ledger.append([new MadeDevice(1).say({ says: { result: "failed" }, keepsPrivate: { name: "failed" } })]));
    const other = new DatabaseSync(path);
    // One letter of a text that stays readable: a version of the envelope, a time, a result.
    const bytes = Buffer.from(other.prepare(`select ${column} as bytes from entry`).get()?.["bytes"] as Uint8Array); // a blob column
    const at =
      bytes.indexOf(column === "entry" ? '"number":1' : column === "submission" ? '"form":1' : '"failed"') +
      (column === "entry" ? 9 : column === "submission" ? 7 : 1);
    bytes[at] = (bytes[at] ?? 0) ^ 2;
    other.prepare(`update entry set ${column} = ?`).run(bytes);
    other.close();
    await expect(ledger.entry(1)).rejects.toThrow("entry 1 cannot be read: its bytes are damaged");
    await ledger.close();
  },
);

test.each([
  ["a node that is another", "update node set hash = x'00' where level = 1", "not those of its head"],
  ["a node that is gone", "delete from node where level = 1", "has no node of level 1"],
])("%s: the book is not opened, and signs nothing over it", async (_, touch, what) => {
  const path = join(await newFolder(), "book.sqlite");
  const [own, device] = [opening(), new MadeDevice(1)];
  const ledger = answerOf(await openLedger(place(path, own)));
  answerOf(await ledger.append([device.say(), device.say()]));
  const other = new DatabaseSync(path);
  other.exec(touch);
  other.close();
  expect(await openLedger(place(path, own))).toEqual({ ok: false, refusal: { type: "damaged", what: expect.stringContaining(what) } });
  await ledger.close();
});

test("a large file is looked through beside the work: whole or damaged, or not to the end", async () => {
  const path = join(await newFolder(), "book.sqlite");
  const ledger = answerOf(await openLedger(place(path, opening())));
  const device = new MadeDevice(1);
  answerOf(await ledger.append(Array.from({ length: 200 }, () => device.say())));
  await ledger.close();
  expect(await checkAside(path).found).toBeNull();
  const stopped = checkAside(path);
  await stopped.stop();
  expect(await stopped.found).toBeNull();
  const bytes = await readFile(path);
  bytes.fill(0xff, 4096, 8192);
  await writeFile(path, bytes);
  expect(await checkAside(path).found).toMatch(/malformed|Tree|btree/i);
});

test("the known head goes forwards only: a larger one that another process told of meanwhile stays", async () => {
  const path = join(await newFolder(), "book.sqlite");
  const signer = madeSigner();
  const first = answerOf(await openLedger(place(path, { signer, knownHead: rememberedHead() })));
  const device = new MadeDevice(1);
  answerOf(await first.append([device.say()]));
  const { note } = await first.head();
  await first.close();
  let known = note;
  const told: string[] = [];
  const knownHead = { read: async () => known, write: async (one: string) => void told.push(one) };
  const ledger = answerOf(await openLedger(place(path, { signer, knownHead })));
  answerOf(await ledger.append([device.say()]));
  known = note.replace("\n1\n", "\n9\n");
  answerOf(await ledger.append([device.say()]));
  await ledger.close();
  expect(told.map((one) => answerOf(readSignedHead(one)).head.size)).toEqual([2]);
});
