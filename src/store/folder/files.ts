/** Files by digest in a folder: written aside, synced, then given their name; a name never stands for half a file. */
import { createHash, randomUUID } from "node:crypto";
import { readdir, readFile, rename, rm, stat } from "node:fs/promises";
import { dirname, join } from "node:path";
import { type Digest, digestFromHash, isDigest } from "../../core/record/index.ts";
import { given, type Result, refused } from "../../core/result.ts";
import type { FileRefusal, Files } from "../files.ts";
import { type FolderCalls, machineFolderCalls, makeLastingFolder, syncFolder } from "./lasting-folder.ts";

/** What of the file system is used: handed in so that a test can make any one call fail. */
export interface FileCalls extends FolderCalls {
  readonly rename: typeof rename;
}

export const machineFileCalls: FileCalls = { ...machineFolderCalls, rename };

export function folderFiles(folder: string, calls: FileCalls = machineFileCalls): Files {
  const pathOf = (file: Digest): string => join(folder, file.slice(7, 9), file.slice(7));
  return {
    put: async (pieces) => {
      const aside = join(folder, `aside-${randomUUID()}`);
      try {
        await makeLastingFolder(folder, calls);
        const { digest, size } = await writeAside(aside, pieces, calls);
        const back = await digestOn(aside, calls);
        if (back !== digest) throw Object.assign(new Error(`${aside} gives back other bytes than were written`), { code: "EIO" });
        await nameIt(aside, pathOf(digest), calls);
        return given({ digest, size });
      } catch (fault) {
        if (!isOfDisk(fault)) throw fault;
        await rm(aside, { force: true }).catch(() => undefined); // what is left aside has no name and stands for nothing
        return refused({ type: "disk-failed", what: fault.message });
      }
    },
    has: (file) =>
      stat(pathOf(file)).then(
        (found) => found.isFile(),
        (fault: unknown) => isNotThere(fault),
      ),
    get: (file) => readWhole(file, pathOf(file)),
    list: async () => {
      const folders = await readdir(folder, { withFileTypes: true }).catch((fault: unknown) => {
        isNotThere(fault);
        return [];
      });
      const names = await Promise.all(folders.filter((one) => one.isDirectory()).map(({ name }) => readdir(join(folder, name))));
      return names
        .flat()
        .map((name) => `sha256:${name}`)
        .filter(isDigest)
        .sort();
    },
    remove: (file) => rm(pathOf(file), { force: true }),
  };
}

async function writeAside(
  path: string,
  pieces: AsyncIterable<Uint8Array>,
  calls: FileCalls,
): Promise<{ readonly digest: Digest; readonly size: number }> {
  const handle = await calls.open(path, "wx");
  try {
    const hash = createHash("sha256");
    let size = 0;
    for await (const piece of pieces) {
      for (let at = 0; at < piece.length; ) at += (await handle.write(piece, at)).bytesWritten;
      hash.update(piece);
      size += piece.length;
    }
    await handle.sync();
    return { digest: digestFromHash(hash.digest()), size };
  } finally {
    await handle.close();
  }
}

const PIECE_BYTES = 65_536;

/** What is on the disk now, read again. */
async function digestOn(path: string, calls: FileCalls): Promise<Digest> {
  const handle = await calls.open(path, "r");
  try {
    const hash = createHash("sha256");
    const piece = new Uint8Array(PIECE_BYTES);
    for (let got = await handle.read(piece); got.bytesRead > 0; got = await handle.read(piece))
      hash.update(piece.subarray(0, got.bytesRead));
    return digestFromHash(hash.digest());
  } finally {
    await handle.close();
  }
}

/** All three folders each time: an earlier call may have made one of them and failed before its name was synced. */
async function nameIt(aside: string, path: string, calls: FileCalls): Promise<void> {
  const folder = dirname(path);
  await calls.mkdir(folder, { recursive: true });
  await calls.rename(aside, path);
  for (const one of [folder, dirname(folder), dirname(dirname(folder))]) await syncFolder(one, calls);
}

async function readWhole(file: Digest, path: string): Promise<Result<Uint8Array, FileRefusal>> {
  try {
    const bytes = new Uint8Array(await readFile(path));
    const found = digestFromHash(createHash("sha256").update(bytes).digest());
    return found === file ? given(bytes) : refused({ type: "file-damaged", file, found });
  } catch (fault) {
    if (!isOfDisk(fault)) throw fault;
    return fault.code === "ENOENT" ? refused({ type: "file-missing", file }) : refused({ type: "disk-failed", what: fault.message });
  }
}

const isOfDisk = (fault: unknown): fault is Error & { readonly code: string } =>
  fault instanceof Error && "code" in fault && typeof fault.code === "string" && /^E[A-Z]+$/.test(fault.code);

/** False for what is not there; any other fault goes on. */
function isNotThere(fault: unknown): false {
  if (isOfDisk(fault) && (fault.code === "ENOENT" || fault.code === "ENOTDIR")) return false;
  throw fault;
}
