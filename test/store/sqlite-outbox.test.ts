// The outbox of a bench PC on a real disk, by the cases of every outbox.
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, test } from "vitest";
import { BOOK, madeOutbox, OTHER_BOOK, sha256 } from "./made-submissions.ts";
import { outboxCases } from "./outbox-acceptance.ts";

const folders: string[] = [];
afterAll(async () => {
  for (const folder of folders) await rm(folder, { recursive: true, force: true });
});

async function newPath(): Promise<string> {
  const folder = await mkdtemp(join(tmpdir(), "lamproom-outbox-"));
  folders.push(folder);
  return join(folder, "outbox.sqlite");
}

describe("an outbox in SQLite", () => {
  test.each(outboxCases)("$name", async ({ run }) => {
    const path = await newPath();
    await run({ book: BOOK, sha256, open: async () => madeOutbox(path) });
  });

  test("two books have a device and a chain each", async () => {
    const path = await newPath();
    const [one, other] = [madeOutbox(path), madeOutbox(path, OTHER_BOOK)];
    expect(one.device).not.toBe(other.device);
    await one.close();
    await other.close();
  });
});
