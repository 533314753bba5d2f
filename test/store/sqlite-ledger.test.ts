import { copyFile, mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { DatabaseSync } from "node:sqlite";
import { afterAll, expect, test } from "vitest";
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
