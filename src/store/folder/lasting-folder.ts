/** Folders whose names last: a name is durable only once the folder that holds it is synced. */
import { mkdir, open } from "node:fs/promises";
import { dirname } from "node:path";

export interface FolderCalls {
  readonly open: typeof open;
  readonly mkdir: typeof mkdir;
}

export const machineFolderCalls: FolderCalls = { open, mkdir };

/** Makes a folder, and those above it that are not there, each with its name synced. */
export async function makeLastingFolder(folder: string, calls: FolderCalls, mode = 0o777): Promise<void> {
  const first = await calls.mkdir(folder, { recursive: true, mode });
  if (first === undefined) return;
  for (let made = folder; made.length >= first.length; made = dirname(made)) await syncFolder(dirname(made), calls);
}

/** Windows opens no folder as a file, and keeps names in a log of its own (NTFS). [memory] */
const OPENS_FOLDERS = process.platform !== "win32";

export async function syncFolder(folder: string, calls: FolderCalls): Promise<void> {
  if (!OPENS_FOLDERS) return;
  const handle = await calls.open(folder, "r");
  try {
    await handle.sync();
  } finally {
    await handle.close();
  }
}
