import { mkdir, mkdtemp, open, readdir, rename, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { digestOf } from "../../src/core/record/index.ts";
import { type FileCalls, folderFiles, machineFileCalls } from "../../src/store/folder/files.ts";
import { answerOf } from "../cases/golden-rows.ts";
import { sha256 } from "./made-submissions.ts";

let folder = "";
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), "lamproom-files-"));
});
afterEach(async () => {
  await rm(folder, { recursive: true, force: true });
});

async function* pieces(...all: readonly Uint8Array[]): AsyncGenerator<Uint8Array> {
  yield* all;
}

const bytes = Uint8Array.from({ length: 5000 }, (_, at) => at % 251);
const digest = digestOf(bytes, sha256);

test("what is put comes back by its digest; twice the same is once", async () => {
  const files = folderFiles(join(folder, "deep", "files"));
  expect([await files.has(digest), await files.list()]).toEqual([false, []]);
  expect(answerOf(await files.put(pieces(bytes.subarray(0, 999), bytes.subarray(999))))).toEqual({ digest, size: 5000 });
  expect(answerOf(await files.put(pieces(bytes)))).toEqual({ digest, size: 5000 });
  expect([await files.has(digest), await files.list(), answerOf(await files.get(digest))]).toEqual([true, [digest], bytes]);
  await files.remove(digest);
  expect(await files.get(digest)).toEqual({ ok: false, refusal: { type: "file-missing", file: digest } });
});

test("bytes that changed on the disk are not given", async () => {
  const files = folderFiles(folder);
  answerOf(await files.put(pieces(bytes)));
  await writeFile(join(folder, digest.slice(7, 9), digest.slice(7)), bytes.subarray(1));
  expect(await files.get(digest)).toMatchObject({ ok: false, refusal: { type: "file-damaged", file: digest } });
});

/** Counts the calls of the file system and makes one of them fail. */
function failing(at: number): { readonly calls: FileCalls; readonly count: () => number } {
  let count = 0;
  const call = <Done>(act: () => Promise<Done>): Promise<Done> => {
    count += 1;
    return count === at ? Promise.reject(Object.assign(new Error("EIO: made to fail"), { code: "EIO" })) : act();
  };
  const calls: FileCalls = {
    open: (async (...given: Parameters<typeof open>) => {
      const handle = await call(() => open(...given));
      const [write, sync, close] = [handle.write.bind(handle), handle.sync.bind(handle), handle.close.bind(handle)];
      const read = handle.read.bind(handle) as (piece: Uint8Array) => ReturnType<typeof handle.read>; // the form that is called
      // The one form of each that the file store calls.
      Object.assign(handle, {
        write: (...all: Parameters<typeof write>) => call(() => write(...all)),
        read: (piece: Uint8Array) => call(() => read(piece)),
        sync: () => call(sync),
        close: async () => {
          const closed = close();
          await call(() => closed);
          await closed;
        },
      });
      return handle;
    }) as typeof open,
    rename: (...given) => call(() => rename(...given)),
    mkdir: ((...given: Parameters<typeof mkdir>) => call(() => mkdir(...given))) as typeof mkdir,
  };
  return { calls, count: () => count };
}

describe("every call of the file system fails in turn", () => {
  test("refused in words, no name stands for half a file, and a second try succeeds", async () => {
    let tried = 0;
    for (let at = 1; ; at += 1) {
      const own = join(folder, String(at));
      const { calls, count } = failing(at);
      const put = await folderFiles(own, calls).put(pieces(bytes.subarray(0, 2000), bytes.subarray(2000)));
      if (count() < at) {
        expect(put.ok).toBe(true);
        break;
      }
      tried += 1;
      expect(put).toMatchObject({ ok: false, refusal: { type: "disk-failed" } });
      const files = folderFiles(own);
      for (const file of await files.list()) expect((await files.get(file)).ok).toBe(true);
      expect(answerOf(await files.put(pieces(bytes)))).toEqual({ digest, size: 5000 });
      expect((await readdir(own)).filter((name) => name.startsWith("aside-"))).toEqual([]);
    }
    // Makings of folders, openings, writes, syncs, closings and one naming: those of the folder above, too.
    expect(tried).toBeGreaterThanOrEqual(20);
  });

  test("the calls of the machine are those that are counted", () => {
    expect(Object.keys(machineFileCalls).sort()).toEqual(["mkdir", "open", "rename"]);
  });
});
