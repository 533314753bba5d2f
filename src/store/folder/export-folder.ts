/** Writes a book that leaves into a folder: under a name of its own until all of it is on the disk. */
import { randomUUID } from "node:crypto";
import { type FileHandle, open, rename, rm } from "node:fs/promises";
import { dirname, join, resolve } from "node:path";
import type { ExportPlace } from "../exported.ts";
import { folderFiles } from "./files.ts";
import { machineFolderCalls, makeLastingFolder, syncFolder } from "./lasting-folder.ts";

const PIECE_CHARACTERS = 262_144;

/** @param out folder that is not there, or empty */
export async function exportFolder(out: string): Promise<ExportPlace> {
  const [target, calls] = [resolve(out), machineFolderCalls];
  const aside = `${target}.unfinished-${randomUUID()}`;
  // It holds names of people.
  await makeLastingFolder(aside, calls, 0o700);
  const files = folderFiles(join(aside, "files"));
  return {
    text: async (name, lines) => {
      const handle = await open(join(aside, name), "wx", 0o600);
      try {
        await writeLines(handle, lines);
        await handle.sync();
      } finally {
        await handle.close();
      }
    },
    file: async (_, bytes) => {
      const kept = await files.put(once(bytes));
      if (!kept.ok) throw new Error("what" in kept.refusal ? kept.refusal.what : kept.refusal.type);
    },
    finish: async () => {
      await syncFolder(aside, calls);
      await rename(aside, target);
      await syncFolder(dirname(target), calls);
    },
    giveUp: () => rm(aside, { recursive: true, force: true }),
  };
}

async function writeLines(handle: FileHandle, lines: Iterable<string>): Promise<void> {
  let piece = "";
  for (const line of lines) {
    piece += `${line}\n`;
    if (piece.length < PIECE_CHARACTERS) continue;
    await handle.appendFile(piece);
    piece = "";
  }
  await handle.appendFile(piece);
}

async function* once(bytes: Uint8Array): AsyncGenerator<Uint8Array> {
  yield bytes;
}
